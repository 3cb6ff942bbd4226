// The way of writing must not matter: one function, three texts, answers of the same ticks, and of the same parts within a
// few percent. They need not be the same, since what a reader wrote is one of the starts and chance falls otherwise then.

import { expect, test } from 'vitest';
import { shippedTarget } from '../../src/target/shipped-targets.ts';
import { optimize } from '../../src/tickwright.ts';
import { catalogueBytes } from '../support/shipped-catalogue.ts';

const BITS = 4;
const LANES = Array.from({ length: BITS }, (_, i) => i);

const NAMES = {
  inputs: [...LANES.map((i) => `a${i}`), ...LANES.map((i) => `b${i}`), 'c0'],
  outputs: [...LANES.map((i) => `s${i}`), `c${BITS}`],
};
const DECLARED = `input ${NAMES.inputs.join(', ')}\noutput ${NAMES.outputs.join(', ')}\n`;
const HALVES = LANES.map((i) => `p${i} = a${i} ^ b${i}\ng${i} = a${i} b${i}\n`).join('');
const SUMS = LANES.map((i) => `s${i} = p${i} ^ c${i}\n`).join('');

const RIPPLE = `${DECLARED}${HALVES}${SUMS}${LANES.map((i) => `c${i + 1} = g${i} + p${i} c${i}\n`).join('')}`;

const LOOK_AHEAD = `${DECLARED}${HALVES}${SUMS}${LANES.map((i) => {
  const products = [];
  for (let from = i; from >= -1; from--) {
    const passed = LANES.slice(from + 1, i + 1).map((lane) => `p${lane}`);
    products.push([...passed, from < 0 ? 'c0' : `g${from}`].join(' '));
  }
  return `c${i + 1} = ${products.join(' + ')}\n`;
}).join('')}`;

/** All 512 rows of each output; the first name is the most significant bit of a row. */
function table(): string {
  const value = (row: number): number => {
    const bit = (name: string): number => (row >> (NAMES.inputs.length - 1 - NAMES.inputs.indexOf(name))) & 1;
    return LANES.reduce((sum, i) => sum + 2 ** i * (bit(`a${i}`) + bit(`b${i}`)), bit('c0'));
  };
  const rows = Array.from({ length: 2 ** NAMES.inputs.length }, (_, row) => row);
  return NAMES.outputs
    .map((name, i) => {
      const ones = rows.filter((row) => ((value(row) >> i) & 1) === 1);
      return `${name}(${NAMES.inputs.join(', ')}) = minterms(${ones.join(', ')})\n`;
    })
    .join('');
}

test('a four-bit adder as ripple, as look-ahead and as a table of 512 rows', { timeout: 300_000 }, () => {
  const target = shippedTarget('joined-or');
  if (target === null) throw new Error('the default target is gone');
  const options = {
    target,
    ticks: null,
    effort: 'normal',
    seed: 1,
    explain: false,
    version: 'test',
    catalogue: catalogueBytes(),
  } as const;
  const found = [RIPPLE, LOOK_AHEAD, table()].map((text) => {
    const [point] = optimize('adder', text, {}, options).result.points;
    expect(point.proof).toMatchObject({ verdict: 'equal', patterns: 512 });
    return { ticks: point.ticks, parts: point.parts };
  });
  process.stderr.write(`the same adder in three ways: ${JSON.stringify(found)}\n`);
  expect(found.map(({ ticks }) => ticks)).toEqual(found.map(() => found[0].ticks));
  const parts = found.map((point) => point.parts);
  expect(Math.max(...parts) / Math.min(...parts)).toBeLessThanOrEqual(1.05);
});
