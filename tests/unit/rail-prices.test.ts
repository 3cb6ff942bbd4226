// What the choice of rails costs: the full adder against the exhaustive figures of the design.

import { describe, expect, test } from 'vitest';
import type { RailPrices } from '../../src/report/rail-prices.ts';
import { runCli } from '../support/run-cli.ts';

const ADDER = `input a, b, c
output sum either, carry either
sum = a ^ b ^ c
carry = maj(a, b, c)
`;

/** Own, exhaustive: fewest parts within 2, 3, 4 and 5 ticks, by the rails of sum and carry. */
const FIGURES: Readonly<Record<string, Readonly<Record<string, readonly number[]>>>> = {
  'joined-or': {
    'low low': [7, 6, 6, 6],
    'high low': [8, 7, 6, 6],
    'low high': [8, 7, 7, 7],
    'high high': [10, 8, 8, 7],
  },
  'joined-or-single': {
    'low low': [7, 7, 7, 7],
    'low high': [8, 7, 7, 7],
    'high low': [10, 8, 8, 8],
    'high high': [10, 9, 8, 8],
  },
};

describe('a full adder with both rails free', () => {
  test.each(Object.keys(FIGURES))('%s', async (target) => {
    const files = { 'adder.logic': ADDER };
    const { out, code } = await runCli(['rails', 'adder.logic', '--target', target, '--json'], { files });
    expect(code).toBe(0);
    const [prices] = JSON.parse(out) as RailPrices[];
    expect(prices.taken).toEqual({ rails: ['low', 'low'], ticks: 2, parts: 7 });
    expect(prices.ticks).toEqual([2, 3, 4, 5]);
    const found = Object.fromEntries(prices.prices.map(({ rails, parts }) => [rails.join(' '), parts]));
    expect(found).toEqual(FIGURES[target]);
    expect(prices.prices.map(({ rails }) => rails.join(' '))).toEqual(Object.keys(FIGURES[target]));
    expect(prices.prices.every(({ proved }) => !proved.includes(false))).toBe(true);
    expect(prices.prices.map(({ isTaken }) => isTaken)).toEqual([true, false, false, false]);
  });

  test('as a screen', async () => {
    const { out, code } = await runCli(['rails', 'adder.logic'], { files: { 'adder.logic': ADDER } });
    expect(code).toBe(0);
    expect(out).toBe(`adder.logic, target joined-or

Taken: sum active-low, carry active-low; 2 ticks, 7 parts.

The fewest parts within so many ticks, for every choice, proved:

  sum   carry      2    3    4    5  ticks
  low   low        7    6    6    6  taken
  high  low        8    7    6    6
  low   high       8    7    7    7
  high  high      10    8    8    7
`);
  });
});

test('with many free names only those choices are priced that differ in one', async () => {
  const args = ['rails', 'f = a b c d', '--either', 'a,b,c,d,f', '--json', '--effort', 'quick'];
  const { out, code } = await runCli(args);
  expect(code).toBe(0);
  const [prices] = JSON.parse(out) as RailPrices[];
  expect(prices.prices.length).toBe(6);
  expect(prices.taken.parts).toBe(Math.min(...prices.prices.map(({ parts }) => parts.at(-1) ?? 99)));
});

test('nothing free', async () => {
  const { err, code } = await runCli(['rails', 'f = a b']);
  expect(code).toBe(1);
  expect(err).toBe(`arguments: error: every input and every output is on a given rail: there is
    nothing to choose
help: write "output sum either", or name them with --either
`);
});
