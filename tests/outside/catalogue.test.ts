// The catalogue against everything that is known from elsewhere: counts, small values, a second method, a second solver.

import { describe, expect, test } from 'vitest';
import { type CatalogueClass, pointWithin } from '../../src/search/catalogue/catalogue.ts';
import { allRepresentatives, CLASSES, widenTable } from '../../src/truth/permutation-classes.ts';
import { functionClasses, mostFalls } from '../support/function-classes.ts';
import { existsNetwork } from '../support/network-question.ts';
import { seededRandom } from '../support/seeded-random.ts';
import { shippedCatalogue } from '../support/shipped-catalogue.ts';
import { fewestWithinTwoTicks } from '../support/two-tick-covers.ts';

const catalogue = shippedCatalogue();
const classes = Array.from({ length: CLASSES }, (_, number) => catalogue.at(number));
const ANY = 99;

const partsWithin = (entry: CatalogueClass, ticks: number): number => pointWithin(entry, ticks)?.parts ?? ANY;

function distribution(values: Iterable<number>): number[] {
  const counts: number[] = [];
  for (const value of values) {
    while (counts.length <= value) counts.push(0);
    counts[value]++;
  }
  return counts;
}

/** Levels of a network by evaluating each row by itself, and the most inverters on any way from an input. */
function simulate(legs: readonly number[], output: number | null): { table: number; ticks: number } {
  if (output === null) return { table: 0xffff, ticks: 0 };
  let table = 0;
  const ticks = [0, 0, 0, 0];
  const among = (mask: number): number[] => ticks.map((_, w) => w).filter((w) => ((mask >> w) & 1) === 1);
  for (const mask of legs) ticks.push(1 + Math.max(...among(mask).map((w) => ticks[w])));
  for (let row = 0; row < 16; row++) {
    const levels = [0, 1, 2, 3].map((i) => ((row >> i) & 1) === 1);
    for (const mask of legs) levels.push(!among(mask & ((1 << levels.length) - 1)).some((w) => levels[w]));
    if (among(output).some((w) => levels[w])) table |= 1 << row;
  }
  return { table, ticks: Math.max(0, ...among(output).map((w) => ticks[w])) };
}

describe('the catalogue', () => {
  // Published: On-Line Encyclopedia of Integer Sequences, A003180.
  test('has 3984 classes, and within them 4, 12 and 80 of fewer inputs', () => {
    expect(new Set(classes.map(({ table }) => table)).size).toBe(3984);
    for (const [inputs, count] of [
      [1, 4],
      [2, 12],
      [3, 80],
    ]) {
      const numbers = allRepresentatives(inputs).map(
        (table) => catalogue.lookUp(widenTable(table, inputs)).entry.number,
      );
      expect(new Set(numbers).size).toBe(count);
    }
  });

  test('every network computes its function in its ticks, and is the right size', () => {
    for (const { table, curve, others } of classes) {
      for (const { network, parts, ticks } of [...curve, ...others]) {
        expect(simulate(network.legs, network.output)).toEqual({ table, ticks });
        expect(network.legs).toHaveLength(parts);
      }
    }
  });

  test('every curve falls, begins within two ticks and is proved', () => {
    for (const { curve } of classes) {
      expect(curve[0].ticks).toBeLessThanOrEqual(2);
      for (let i = 1; i < curve.length; i++) {
        expect(curve[i].ticks).toBeGreaterThan(curve[i - 1].ticks);
        expect(curve[i].parts).toBeLessThan(curve[i - 1].parts);
      }
      expect(curve.every(({ proved }) => proved)).toBe(true);
    }
  });
});

describe('at most two ticks', () => {
  // Own, exhaustive: tests/support/two-tick-covers.ts run over all classes.
  test('classes by parts', () => {
    const counts = distribution(classes.map((entry) => partsWithin(entry, 2)));
    expect(counts).toEqual([6, 10, 21, 77, 226, 530, 886, 998, 698, 374, 111, 40, 7]);
  });

  const share = process.env.TICKWRIGHT_ALL_CLASSES === undefined ? 16 : 1;
  test(`a second method finds the same for one class in ${share}`, { timeout: 300_000 }, () => {
    const random = seededRandom(4);
    const some = classes.filter(() => random() * share < 1);
    const fewest = fewestWithinTwoTicks(some.map(({ table }) => table));
    expect(some.map((entry) => partsWithin(entry, 2))).toEqual(fewest);
  });

  // Own, exhaustive.
  test('functions of three inputs by parts', () => {
    expect(threeInputs((entry) => partsWithin(entry, 2))).toEqual([7, 19, 30, 62, 73, 41, 19, 3]);
  });
});

/** Functions of three inputs by a figure of their class, without the constants. */
function threeInputs(figure: (entry: CatalogueClass, table: number) => number): number[] {
  const values: number[] = [];
  for (let table = 1; table < 255; table++) {
    values.push(figure(catalogue.lookUp(widenTable(table, 3)).entry, table));
  }
  return distribution(values);
}

/** Fewest NOR gates: the last gate is the inverter of the join that gives the complement. */
function gates(table: number): number {
  const complement = catalogue.lookUp(~table & 0xffff).entry;
  const isInput = [0xaaaa, 0xcccc, 0xf0f0, 0xff00].includes(table);
  return isInput ? 0 : partsWithin(complement, ANY) + 1;
}

describe('NOR gates', () => {
  // Own, exhaustive, by another method.
  test('functions of three inputs by gates', () => {
    expect(threeInputs((_, table) => gates(widenTable(table, 3)))).toEqual([3, 7, 16, 30, 62, 79, 47, 10]);
  });

  // Common textbook results.
  test('of two inputs', () => {
    const known: [number, number][] = [
      [0b0001, 1],
      [0b1110, 2],
      [0b1000, 3],
      [0b0111, 4],
      [0b0110, 5],
      [0b1001, 4],
    ];
    for (const [table, count] of known) expect(gates(widenTable(table, 2))).toBe(count);
  });
});

describe('functions of four inputs', () => {
  /** By figure, without the constants. */
  const fourInputs = (figure: (table: number) => number): number[] =>
    distribution(Array.from({ length: 65534 }, (_, n) => figure(n + 1)));
  const within = (ticks: number): number[] =>
    fourInputs((f) => partsWithin(catalogue.lookUp(f).entry, ticks));

  // Own: wire sets swept up to seven inverters, beyond that refuted by the solver.
  test('by parts at each number of ticks, and by NOR gates', () => {
    expect(within(2)).toEqual([15, 65, 207, 986, 3279, 8900, 15502, 17350, 11713, 5684, 1519, 293, 21]);
    expect(within(3)).toEqual([15, 65, 207, 986, 3939, 12236, 21919, 18482, 6588, 1014, 80, 3]);
    expect(within(4)).toEqual([15, 65, 207, 986, 3939, 12608, 23817, 19379, 4134, 379, 5]);
    expect(within(5)).toEqual([15, 65, 207, 986, 3939, 12608, 23925, 19521, 4012, 256]);
    const any = [15, 65, 207, 986, 3939, 12608, 23925, 19527, 4006, 256];
    expect(within(6)).toEqual(any);
    expect(within(ANY)).toEqual(any);
    expect(fourInputs(gates)).toEqual([4, 15, 61, ...any.slice(2)]);
  });
});

describe('small values', () => {
  // Own, proved elsewhere: parts within two ticks, parts at any number of ticks, ticks of the smallest.
  test.each([
    ['AND of two', widenTable(0b1000, 2), 3, 3, 2],
    ['NAND of two', widenTable(0b0111, 2), 2, 2, 1],
    ['XOR of two', widenTable(0b0110, 2), 3, 3, 2],
    ['XNOR of two', widenTable(0b1001, 2), 4, 4, 2],
    ['AND of three', widenTable(0x80, 3), 4, 4, 2],
    ['majority', widenTable(0xe8, 3), 4, 4, 2],
    ['complement of majority', widenTable(0x17, 3), 3, 3, 1],
    ['two-way multiplexer', widenTable(0xca, 3), 4, 4, 2],
    ['XOR of three', widenTable(0x96, 3), 7, 6, 4],
    ['XNOR of three', widenTable(0x69, 3), 7, 6, 3],
  ])('%s', (_, table, fast, fewest, ticks) => {
    const { entry } = catalogue.lookUp(table);
    expect(partsWithin(entry, 2)).toBe(fast);
    expect(partsWithin(entry, ANY)).toBe(fewest);
    expect(entry.curve.at(-1)?.ticks).toBe(ticks);
  });

  // From memory: A. A. Markov 1957/1958, ceil(log2(d + 1)) inverters are necessary, where d is the most falls of the
  // function along a rising chain of inputs.
  test('no class takes fewer inverters than its falls demand', () => {
    for (const { first } of functionClasses(4)) {
      const bound = Math.ceil(Math.log2(mostFalls(first, 4) + 1));
      expect(partsWithin(catalogue.lookUp(first).entry, ANY)).toBeGreaterThanOrEqual(bound);
    }
  });
});

describe('a solver from the registry agrees', () => {
  const random = seededRandom(16);
  const sample = Array.from({ length: 24 }, () => classes[Math.floor(random() * CLASSES)]).flatMap((entry) =>
    entry.curve.map((point, i) => ({ entry, point, until: (entry.curve[i + 1]?.ticks ?? ANY) - 1 })),
  );
  test.each(sample)('$entry.table at $point.ticks ticks', ({ entry, point, until }) => {
    const { table } = entry;
    const within = (ticks: number, size: number): boolean =>
      existsNetwork({ table, size, delays: new Array(4).fill(Math.min(ticks, size)) });
    expect(within(point.ticks, point.parts)).toBe(true);
    if (point.parts > 0) expect(within(until, point.parts - 1)).toBe(false);
  });

  const late = classes.flatMap((entry) => entry.others.map((other) => ({ entry, other })));
  const lateSample = Array.from({ length: 24 }, () => late[Math.floor(random() * late.length)]).filter(
    ({ other }) => other.proved,
  );
  test.each(lateSample)('$entry.table with delays $other.delays', ({ entry, other }) => {
    const { table } = entry;
    const delays = other.delays.map((delay) => (delay < 0 ? 4 : delay));
    expect(existsNetwork({ table, size: other.parts, delays })).toBe(true);
    expect(existsNetwork({ table, size: other.parts - 1, delays })).toBe(false);
  });
});
