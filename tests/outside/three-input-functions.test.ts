// All 256 functions of three inputs. Only renaming of inputs keeps the cost, so one function of each of the 80 classes
// is searched and counts for its whole class.

import { describe, expect, test } from 'vitest';
import type { Rail } from '../../src/equations/system.ts';
import type { Target } from '../../src/target/target.ts';
import { type FunctionClass, firstOfClass, functionClasses, mostFalls } from '../support/function-classes.ts';
import { brokenLaws } from '../support/network-laws.ts';
import { foundNetwork, search, tableSystem, targetOf } from '../support/system-of.ts';

const ANY_TICKS = 30;
const CLASSES = functionClasses(3);

/** Parts by class (by its first function), every answer proved smallest and checked against every law. */
function partsByClass(target: Target, ticks: number, rail: Rail = 'high'): Map<number, number> {
  const parts = new Map<number, number>();
  for (const { first } of CLASSES) {
    const system = tableSystem(3, first, { rails: [rail, rail, rail] });
    const searched = search(system, { target, ticks });
    const network = foundNetwork(searched);
    expect(brokenLaws(system, network, target, { ticks })).toEqual([]);
    expect(searched.outcome.answer?.sizeProved, `function ${first.toString(16)}`).toBe(true);
    parts.set(first, network.size);
  }
  return parts;
}

/** Number of functions by parts, without the two constants. */
function distribution(parts: ReadonlyMap<number, number>): number[] {
  const counts: number[] = [];
  for (const { first, size } of CLASSES) {
    if (first === 0 || first === 255) continue;
    const n = parts.get(first) as number;
    while (counts.length <= n) counts.push(0);
    counts[n] += size;
  }
  return counts;
}

function hardest(parts: ReadonlyMap<number, number>): FunctionClass[] {
  const most = Math.max(...parts.values());
  return CLASSES.filter(({ first }) => parts.get(first) === most);
}

const smallest = partsByClass(targetOf('joined-or'), ANY_TICKS);
const norGates = partsByClass(targetOf('nor-gates'), ANY_TICKS);

describe('all functions of three inputs', () => {
  // Own, exhaustive.
  test('joined wires, at most two ticks: functions by parts', () => {
    const counts = distribution(partsByClass(targetOf('joined-or'), 2));
    expect(counts).toEqual([7, 19, 30, 62, 73, 41, 19, 3]);
  });

  // Own, exhaustive.
  test('NOR gates with any number of inputs: functions by gates', () => {
    expect(distribution(norGates)).toEqual([3, 7, 16, 30, 62, 79, 47, 10]);
  });

  // Own, exhaustive.
  test('NOR gates with two inputs: functions by gates, and the single hardest', () => {
    const parts = partsByClass(targetOf('nor-gates', 2), ANY_TICKS);
    expect(distribution(parts)).toEqual([3, 6, 12, 25, 43, 48, 53, 36, 22, 5, 1]);
    expect(hardest(parts)).toEqual([{ first: 0x97, size: 1 }]);
  });

  // Own: an output join saves the last gate, since the OR of the gates before it is free.
  test('joined wires take one part less than the NOR gates of the complement', () => {
    const notOneInput = 0x0f;
    for (const { first } of CLASSES) {
      if ([0, 255, notOneInput].includes(first)) continue;
      const gates = norGates.get(firstOfClass(~first & 255, 3)) as number;
      expect(smallest.get(first), first.toString(16)).toBe(gates - 1);
    }
    expect([0, 255, notOneInput].map((f) => smallest.get(f))).toEqual([0, 0, 1]);
  });

  // Published (abstract): R. A. Smith, "Minimal Three-Variable NOR and NAND Logic Circuits", University of Illinois
  // Report 162, 1964: with complemented inputs free, at most five NOR gates for each of the 256 functions.
  test('NOR gates with complemented inputs for free: five are enough', () => {
    const parts = partsByClass(targetOf('nor-gates'), ANY_TICKS, 'both');
    expect(Math.max(...parts.values())).toBeLessThanOrEqual(5);
  });

  // From memory: A. A. Markov 1957/1958, ceil(log2(d + 1)) inverters are necessary, where d is the most falls of the
  // function along a rising chain of inputs. A lower bound here, since AND is not free.
  test('no function takes fewer inverters than its falls demand', () => {
    for (const { first } of CLASSES) {
      const bound = Math.ceil(Math.log2(mostFalls(first, 3) + 1));
      expect(smallest.get(first), first.toString(16)).toBeGreaterThanOrEqual(bound);
    }
  });
});
