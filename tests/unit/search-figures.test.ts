// Answers that are known exactly (own, exhaustive): ticks and parts of small functions, of the full adder by the rails
// of its outputs, and of a look-ahead carry.

import { describe, expect, test } from 'vitest';
import type { RailNames } from '../../src/equations/override-rails.ts';
import { brokenLaws } from '../support/network-laws.ts';
import {
  figures,
  foundNetwork,
  type Searched,
  search,
  systemOf,
  targetOf,
  writtenFigures,
} from '../support/system-of.ts';

function checked(
  text: string,
  rails: RailNames = {},
  ticks: number | null = null,
  target = targetOf('joined-or'),
): Searched {
  const system = systemOf(text, rails);
  const searched = search(system, { ticks, target });
  const wishes = ticks === null ? {} : { ticks };
  expect(brokenLaws(system, foundNetwork(searched), searched.target, wishes)).toEqual([]);
  expect(brokenLaws(system, searched.outcome.asWritten, searched.target, { limits: false })).toEqual([]);
  return searched;
}

/** Names of the inputs whose wire is active-low. */
function activeLow(searched: Searched): string {
  return foundNetwork(searched)
    .inputs.filter(({ rail }) => rail === 'low')
    .map(({ signal }) => searched.system.signals[signal])
    .sort()
    .join(' ');
}

describe('small functions', () => {
  test.each([
    ['x = a xor b', '2:3'],
    ['x = a xnor b', '2:4'],
    ['x = a b', '2:3'],
    ['x = a nand b', '1:2'],
    ['x = a nor b', '1:1'],
    ['x = a + b', '0:0'],
    ['x = a', '0:0'],
    ['x = 0', '0:0'],
    ['x = 1', '0:0'],
    ['x = not a', '1:1'],
    ['x = a b c', '2:4'],
    ['x = maj(a, b, c)', '2:4'],
    ['x = not maj(a, b, c)', '1:3'],
    ['x = mux(a, b, c)', '2:4'],
    ['x = a ^ b ^ c', '2:7'],
    ['x = xnor(a, b, c)', '2:7'],
  ])('%s takes %s', (text, expected) => {
    const searched = checked(text);
    expect(figures(searched)).toBe(expected);
    expect(searched.outcome.answer?.ticksProved).toBe(true);
    expect(searched.outcome.stop).toBe('complete');
  });

  test.each([
    ['x = a ^ b ^ c', 3, '2:7'],
    ['x = a ^ b ^ c', 4, '4:6'],
    ['x = xnor(a, b, c)', 3, '3:6'],
  ])('%s with %i ticks takes %s', (text, ticks, expected) => {
    expect(figures(checked(text, {}, ticks))).toBe(expected);
  });

  test('asking for less than the fastest gives no network', () => {
    expect(search('x = a b', { ticks: 1 }).outcome).toMatchObject({ answer: null, fastest: { ticks: 2 } });
  });
});

describe('full adder, by the rails of sum and carry', () => {
  const ADDER = 'half = a ^ b\nsum = half ^ c\ncarry = a b + half c\noutput sum, carry';
  test.each([
    ['high', 'high', 2, '2:10'],
    ['high', 'high', 3, '3:8'],
    ['high', 'high', 4, '3:8'],
    ['high', 'high', 5, '5:7'],
    ['high', 'high', 30, '5:7'],
    ['high', 'low', 2, '2:8'],
    ['high', 'low', 3, '3:7'],
    ['high', 'low', 4, '4:6'],
    ['high', 'low', 30, '4:6'],
    ['low', 'high', 2, '2:8'],
    ['low', 'high', 3, '3:7'],
    ['low', 'high', 30, '3:7'],
    ['low', 'low', 2, '2:7'],
    ['low', 'low', 3, '3:6'],
    ['low', 'low', 30, '3:6'],
  ] as const)('sum %s, carry %s, at most %i ticks: %s', (sum, carry, ticks, expected) => {
    const names = (rail: string) => [...(sum === rail ? ['sum'] : []), ...(carry === rail ? ['carry'] : [])];
    const searched = checked(ADDER, { high: names('high'), low: names('low') }, ticks);
    expect(figures(searched)).toBe(expected);
    expect(searched.outcome.answer?.ticksProved).toBe(expected.startsWith('2'));
  });

  // Each inverter feeds one separate wire: what must feed more is built more often, and copies are parts.
  test.each([
    ['high', 'high', 2, 2, 10],
    ['high', 'high', 3, 3, 9],
    ['high', 'high', 30, 4, 8],
    ['high', 'low', 2, 2, 10],
    ['high', 'low', 30, 3, 8],
    ['low', 'high', 2, 2, 8],
    ['low', 'high', 30, 3, 7],
    ['low', 'low', 2, 2, 7],
    ['low', 'low', 30, 2, 7],
  ] as const)(
    'one output an inverter, sum %s, carry %s, at most %i ticks: %i ticks and %i parts',
    (sum, carry, ticks, least, parts) => {
      const names = (rail: string) => [
        ...(sum === rail ? ['sum'] : []),
        ...(carry === rail ? ['carry'] : []),
      ];
      const rails = { high: names('high'), low: names('low') };
      const { outcome } = checked(ADDER, rails, ticks, targetOf('joined-or-single'));
      expect(outcome.answer).toMatchObject({ ticks: least, inverters: parts, sizeProved: true });
    },
  );

  test('by default the fastest, since it has at most twice the parts of the smallest', () => {
    expect(figures(checked(ADDER))).toBe('2:10');
    expect(writtenFigures(checked(ADDER))).toBe('4:12');
  });

  test('rails left to the search: the best of the four, all inputs as declared', () => {
    expect(figures(checked(ADDER, { either: ['sum', 'carry'] }, 2))).toBe('2:7');
    expect(figures(checked(ADDER, { either: ['sum', 'carry'] }, 3))).toBe('3:6');
  });
});

describe('look-ahead carry', () => {
  const CARRY = 'c4 = g3 + p3 g2 + p3 p2 g1 + p3 p2 p1 g0 + p3 p2 p1 p0 c0';
  const P = ['p0', 'p1', 'p2', 'p3'];
  const ALL = [...P, 'g0', 'g1', 'g2', 'g3', 'c0'];

  test('all active-high: 6 parts, 18 as written', () => {
    const searched = checked(CARRY);
    expect([figures(searched), writtenFigures(searched)]).toEqual(['2:6', '2:18']);
    expect(searched.outcome).toMatchObject({ fastest: { ticks: 2, exact: true }, fastestSize: 6 });
  });

  test('p active-low: 8 parts', () => {
    const searched = checked(CARRY, { low: P });
    expect([figures(searched), activeLow(searched)]).toEqual(['2:8', P.join(' ')]);
  });

  test('p free: 5 parts, p3 alone active-low', () => {
    const searched = checked(CARRY, { either: P });
    expect([figures(searched), activeLow(searched)]).toEqual(['2:5', 'p3']);
  });

  test('all free: 1 tick and 4 parts, g3 alone active-high', () => {
    const searched = checked(CARRY, { either: ALL });
    expect(figures(searched)).toBe('1:4');
    expect(activeLow(searched)).toBe('c0 g0 g1 g2 p0 p1 p2 p3');
  });

  test.each(['c4', 'p3, p2, p1, p0', 'g3, c0'])(
    'the mirror image for joins that are AND: %s low',
    (names) => {
      // The dual equation, every rail exchanged: levels and parts are those of the carry itself.
      const dual = 'c4 = g3 (p3 + g2) (p3 + p2 + g1) (p3 + p2 + p1 + g0) (p3 + p2 + p1 + p0 + c0)';
      const low = names.split(', ');
      const one = search(systemOf(CARRY, { low }));
      const other = search(systemOf(dual, { low }), { target: targetOf('joined-and') });
      expect(figures(other)).toBe(figures(one));
      expect(brokenLaws(other.system, foundNetwork(other), other.target)).toEqual([]);
    },
  );
});
