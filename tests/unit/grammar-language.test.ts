// The parser, grammar/README.md and grammar/equations.ebnf describe one language; here they are held together.

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { LOOK_ALIKES } from '../../grammar/look-alikes.ts';
import {
  CONSTANTS,
  DEPTH_LIMIT,
  FUNCTION_ROWS,
  INFIX_ROWS,
  LOOP_DEPTH_LIMIT,
  POSTFIX_LATEX,
  POSTFIX_SPELLINGS,
  PREFIX_LATEX,
  PREFIX_SPELLINGS,
  RAIL_WORDS,
  STATEMENT_WORDS,
  TABLE_INPUT_LIMIT,
  TABLE_SIGNS,
  TABLE_WORDS,
  WORDS,
} from '../../grammar/operators.ts';
import { StatementParser } from '../../grammar/parser.ts';
import { readEquations } from '../../src/equations/read-equations.ts';
import { STATEMENT_LIMIT } from '../../src/equations/unroll-loops.ts';
import { danglingNames, derive, readEbnf, recognises, terminalsOf } from '../support/ebnf.ts';
import { seededRandom } from '../support/seeded-random.ts';

const read = (name: string): string =>
  readFileSync(new URL(`../../grammar/${name}`, import.meta.url), 'utf8');
const readme = read('README.md');
const ebnf = readEbnf(read('equations.ebnf'));
const SEED = 20_260;

/** Codes of faults that are not of the grammar: a sentence may have them and still be one. */
const OF_MEANING = new Set([
  ...['unknown-name', 'defined-twice', 'declared-twice', 'input-defined', 'circular'],
  ...['output-undefined', 'no-equations', 'general-formula', 'unknown-index', 'no-such-index', 'loop-range'],
  ...['loop-variable', 'no-such-row', 'row-twice', 'mixed-table', 'unlisted-name', 'free-undefined'],
  ...['too-many-statements', 'too-many-inputs'],
]);

function grammarFaults(text: string): string[] {
  return readEquations(text)
    .diagnostics.filter(({ severity, code }) => severity === 'error' && !OF_MEANING.has(code))
    .map(({ code, message }) => `${code}: ${message}`);
}

test('the grammar of the parser is sound by the checks of the toolkit', () => {
  expect(() => new StatementParser(false)).not.toThrow();
});

describe('every spelling stands in the README and in the EBNF', () => {
  const spellings = [
    ...INFIX_ROWS.flatMap((row) => row.spellings),
    ...PREFIX_SPELLINGS,
    ...POSTFIX_SPELLINGS,
    ...CONSTANTS.keys(),
    ...FUNCTION_ROWS.map((row) => row.name),
    ...RAIL_WORDS,
    ...WORDS.keys(),
    ...Object.values(STATEMENT_WORDS),
    ...TABLE_SIGNS,
    ...TABLE_WORDS.keys(),
    ...['@', 'by', ';', ',', '=', '(', ')', '[', ']', '{', '}', ':', '..', '+', '-', '*', '/', '%'],
  ];
  const terminals = terminalsOf(ebnf);
  test.each([...new Set(spellings)])('%s', (spelling) => {
    expect(terminals.has(spelling)).toBe(true);
    const code = [...readme.matchAll(/`([^`\n]+)`/g)].map(([, text]) => text!.replaceAll('\\|', '|'));
    const pattern = /^[a-z]/.test(spelling) ? new RegExp(`\\b${spelling}\\b`) : null;
    expect(code.some((text) => (pattern === null ? text.includes(spelling) : pattern.test(text)))).toBe(true);
  });

  const commands = [...INFIX_ROWS.flatMap((row) => row.latex), ...PREFIX_LATEX, ...POSTFIX_LATEX];
  test.each(commands)('%s in a remark', (command) => {
    expect(read('equations.ebnf')).toContain(`"${command}"`);
    expect(readme).toContain(`\`${command}\``);
  });

  test('every look-alike stands in the README', () => {
    for (const character of LOOK_ALIKES.keys())
      expect([character, readme.includes(character)]).toEqual([character, true]);
  });

  test('and the EBNF has no other', () => {
    const known = new Set<string>(spellings);
    expect([...terminals].filter((terminal) => !known.has(terminal))).toEqual([]);
  });

  test('the README names the limits', () => {
    expect(readme).toContain(`${DEPTH_LIMIT} levels`);
    expect(readme).toContain(`${LOOP_DEPTH_LIMIT} levels`);
    expect(readme).toContain(`${STATEMENT_LIMIT} statements`);
    expect(readme).toContain(`${TABLE_INPUT_LIMIT} names`);
  });
});

describe('every example of the README', () => {
  const examples = [...readme.matchAll(/^```logic(?: fails (\S+))?\n([\s\S]*?)^```$/gm)];
  test('is found', () => {
    expect(examples.length).toBeGreaterThan(12);
    expect(examples.length).toBe([...readme.matchAll(/^```logic/gm)].length);
  });
  test.each(examples.map(([, code, text]) => [text!, code]))('%s', (text, code) => {
    const { value, diagnostics } = readEquations(text);
    if (code === undefined) expect([value !== null, diagnostics]).toEqual([true, []]);
    else expect([value, diagnostics.map((diagnostic) => diagnostic.code)]).toEqual([null, [code]]);
  });
});

describe('the EBNF', () => {
  test('defines what it uses and uses what it defines', () => {
    expect(danglingNames(ebnf)).toEqual({ undefined: [], unused: [] });
  });

  const random = seededRandom(SEED);
  const sentence = (start: string): string[] => derive(ebnf, start, random, () => '\n', 14);

  test(`derives only sentences that the parser accepts (seed ${SEED})`, () => {
    for (let round = 0; round < 250; round++) {
      const text = sentence('text').join(' ');
      expect([text, grammarFaults(text)]).toEqual([text, []]);
    }
  });

  test(`and the parser agrees with it about spoilt statements (seed ${SEED})`, () => {
    const pool = [
      'a',
      'x1',
      '(',
      ')',
      ',',
      '+',
      '&',
      "'",
      '!',
      '=',
      '^',
      'nand',
      'nor',
      'xnor',
      'and',
      'not',
      '->',
    ];
    pool.push(
      '<->',
      '1',
      'mux',
      'maj',
      'low',
      '@',
      'by',
      '2',
      'input',
      'never',
      '.',
      '[',
      ']',
      ':',
      '..',
      '-',
      '{',
    );
    const counts = { accepted: 0, refused: 0 };
    for (let round = 0; round < 800; round++) {
      const symbols = sentence('statement');
      if (symbols.length > 60) continue;
      for (let spoils = 1 + Math.floor(random() * 2); spoils > 0; spoils--) {
        const at = Math.floor(random() * symbols.length);
        const other = pool[Math.floor(random() * pool.length)]!;
        symbols.splice(at, random() < 0.6 ? 1 : 0, ...(random() < 0.7 ? [other] : []));
      }
      const text = symbols.join(' ');
      const accepted = recognises(ebnf, { kind: 'rule', name: 'statement' }, symbols);
      counts[accepted ? 'accepted' : 'refused']++;
      if (symbols.length > 0) expect([text, grammarFaults(text).length === 0]).toEqual([text, accepted]);
    }
    expect(counts.accepted).toBeGreaterThan(50);
    expect(counts.refused).toBeGreaterThan(50);
  });
});
