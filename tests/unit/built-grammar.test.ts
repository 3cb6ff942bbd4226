// The grammar of built blocks and what reads them, held together: sentences that the EBNF derives are read without a
// fault of syntax.

import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { cutBlocks } from '../../grammar/blocks.ts';
import { GATE_WORDS, readBuiltStatements } from '../../grammar/built-statements.ts';
import { readBuiltText } from '../../src/equations/read-built.ts';
import { danglingNames, derive, readEbnf } from '../support/ebnf.ts';
import { seededRandom } from '../support/seeded-random.ts';

const read = (name: string): string =>
  readFileSync(new URL(`../../grammar/${name}`, import.meta.url), 'utf8');
const ebnf = readEbnf(read('built.ebnf') + read('equations.ebnf'));
const SEED = 5;

test('the EBNF defines what it uses, and knows every gate', () => {
  expect(danglingNames(ebnf).undefined).toEqual([]);
  for (const word of GATE_WORDS) expect(read('built.ebnf')).toContain(`"${word}"`);
});

test(`built blocks that the EBNF derives are read (seed ${SEED})`, () => {
  const random = seededRandom(SEED);
  let statements = 0;
  for (let round = 0; round < 300; round++) {
    const text = derive(ebnf, 'built block', random, () => '\n', 12).join(' ');
    const { blocks, faults } = cutBlocks(text);
    expect([text, faults, blocks.length]).toEqual([text, [], 1]);
    const found = readBuiltStatements(blocks[0].inside);
    expect([text, found.faults.filter(({ severity }) => severity === 'error')]).toEqual([text, []]);
    statements += found.statements.length;
  }
  expect(statements).toBeGreaterThan(200);
});

test('blocks are cut by their braces, comments do not count, and what is no block is left alone', () => {
  const text =
    'built = a b # built x {\nblock = built { c } d\n  block one { y = { a } b # }\n}\nBUILT two { n = not(a) }';
  const { rest, blocks, faults } = cutBlocks(text);
  expect(faults).toEqual([]);
  expect(blocks.map(({ kind, name }) => `${kind} ${name}`)).toEqual(['block one', 'built two']);
  expect(rest.length).toBe(text.length);
  expect(rest.split('\n').map((line) => line.trim())).toEqual([
    'built = a b # built x {',
    'block = built { c } d',
    '',
    '',
    '',
  ]);
  expect(blocks[0].inside.trim()).toBe('y = { a } b # }');
});

test('junk never throws', () => {
  const random = seededRandom(SEED);
  const pieces = [
    'built x {',
    '}',
    'n',
    '=',
    'nor(',
    ')',
    ',',
    'is',
    'keep',
    'input',
    'a',
    'low',
    '\n',
    ';',
    '+ 2',
    '[',
    ']',
    '#',
    "'",
    'for i in 0..2 {',
    'join',
    '0',
    '$',
    '\u0000',
  ];
  for (let round = 0; round < 400; round++) {
    const text = `built x {${Array.from({ length: 12 }, () => pieces[Math.floor(random() * pieces.length)]).join(' ')}}`;
    const { value, diagnostics } = readBuiltText(text);
    if (value === null) expect(diagnostics.some(({ severity }) => severity === 'error')).toBe(true);
  }
});
