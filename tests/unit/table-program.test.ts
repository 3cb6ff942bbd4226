// Tables by the program of steps against the same by walking through the expressions one after the other: random systems
// with `never` and free patterns, and one so large that its steps run block by block.

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { usableFreedom } from '../../src/equations/free-signals.ts';
import type { System } from '../../src/equations/system.ts';
import { evaluateSystem, expressionTable } from '../../src/truth/system-tables.ts';
import { constantTable, inputTable, or, type Table, without } from '../../src/truth/table.ts';
import { systemArbitrary } from '../support/random-system.ts';
import { seededRandom } from '../support/seeded-random.ts';
import { systemOf } from '../support/system-of.ts';

const whole = ({ inputs }: System): Table[] => inputs.map((_, i) => inputTable(inputs.length, i));

function expectTheSame(system: System): void {
  const rowBits = system.inputs.length;
  const { signals, care, free } = evaluateSystem(system, whole(system), rowBits);
  const walked: Table[] = [];
  system.inputs.forEach(({ signal }, i) => {
    walked[signal] = inputTable(rowBits, i);
  });
  for (const { signal, expression } of system.definitions) {
    walked[signal] = expressionTable(expression, walked, rowBits);
  }
  expect(signals.map((table) => [...table])).toEqual(walked.map((table) => [...table]));
  const allowed = system.never.reduce(
    (rows, expression) => without(rows, expressionTable(expression, walked, rowBits)),
    constantTable(rowBits, 1),
  );
  expect([...care]).toEqual([...allowed]);
  const freedom = usableFreedom(system);
  expect([...free.keys()]).toEqual([...freedom.keys()]);
  for (const [signal, expressions] of freedom) {
    const tables = expressions.map((expression) => expressionTable(expression, walked, rowBits));
    expect([...(free.get(signal) ?? [])]).toEqual([...tables.reduce(or)]);
  }
}

test('random systems, from no row to a few words', () => {
  fc.assert(fc.property(systemArbitrary({ never: true, free: true, mostInputs: 8 }), expectTheSame), {
    numRuns: 400,
    seed: 20,
  });
});

test('every operator, constants and operators within operators', () => {
  expectTheSame(
    systemOf(`
      w = mux(a, mux(b, c, d), mux(c, a b, b + d))
      x = maj(a b, maj(b, c, d), a ^ d) xnor nand(a, b, c)
      y = (a -> (b <-> c)) nor (d' ^ 1 ^ a)
      z = 0 + (a + b)(c + d)(a' + d')
    `),
  );
});

test('thousands of rows of hundreds of signals, block by block', () => {
  const random = seededRandom(20);
  const known = Array.from({ length: 12 }, (_, i) => `a${i}`);
  const drawn = (): string => known[Math.floor(random() * known.length)] as string;
  const lines = Array.from({ length: 2500 }, (_, i) => {
    const line = `w${i} = ${drawn()} ${['', '+', '^'][Math.floor(random() * 3)]} ${drawn()}'`;
    known.push(`w${i}`);
    return line;
  });
  expectTheSame(systemOf(`input ${known.slice(0, 12).join(', ')}\noutput w2499\n${lines.join('\n')}`));
});
