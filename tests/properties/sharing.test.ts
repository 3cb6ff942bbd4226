// Laws of systems that are searched in parts, on random systems: whatever is shared or not, the network is right.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { countCopies } from '../../src/network/copies.ts';
import { searchSystem } from '../../src/search/search-system.ts';
import { searchShared, WAYS } from '../../src/search/sharing.ts';
import { SHIPPED_TARGETS } from '../../src/target/shipped-targets.ts';
import { allPatterns, canHappen } from '../support/naive-evaluator.ts';
import { brokenLaws } from '../support/network-laws.ts';
import { type RandomSystemOptions, systemArbitrary } from '../support/random-system.ts';
import { taskOf } from '../support/system-of.ts';

const SEED = 1976;
const OPTIONS: RandomSystemOptions = {
  mostInputs: 6,
  mostOutputs: 4,
  mostInternal: 2,
  depth: 2,
  never: true,
  free: true,
  rails: ['high', 'low', 'either', 'both'],
  latestTick: 2,
};

const systems = systemArbitrary(OPTIONS).filter((system) =>
  [...allPatterns(system.inputs.length)].some((pattern) => canHappen(system, pattern)),
);
const targets = fc.constantFrom(...SHIPPED_TARGETS);
const wishes = { ticks: null, effort: 'quick', seed: 1 } as const;
const judgeOf = () => () => null;

describe(`searched in parts (seed ${SEED})`, () => {
  test('keeps functions, rails, arrivals, deadlines and the limits of its target, every way', () => {
    let apart = 0;
    fc.assert(
      fc.property(systems, targets, fc.constantFrom(...WAYS), (system, target, way) => {
        const task = taskOf(system, target);
        const outcome = searchShared(system, task, target, way, wishes, judgeOf);
        expect(brokenLaws(system, outcome.asWritten, target, { limits: false })).toEqual([]);
        if (outcome.answer === null) {
          expect(system.outputs.some(({ by }) => by !== null)).toBe(true);
          return;
        }
        const { network, inverters } = outcome.answer;
        if (outcome.apart !== undefined) apart++;
        expect(brokenLaws(system, network, target)).toEqual([]);
        expect(inverters).toBe(network.size + countCopies(network, target.inverter.outputs));
      }),
      { seed: SEED, numRuns: 400 },
    );
    expect(apart).toBeGreaterThan(80);
  });

  test('nothing settles sooner than is said, and nothing proved is beaten by another way', () => {
    fc.assert(
      fc.property(systems, targets, (system, target) => {
        const task = taskOf(system, target);
        const whole = searchSystem(system, task, target, wishes, judgeOf);
        const alone = searchShared(system, task, target, 'alone', wishes, judgeOf);
        expect(alone.fastest.ticks).toBe(whole.fastest.ticks);
        expect(alone.fastest.each).toEqual(whole.fastest.each);
        if (whole.answer === null || alone.answer === null) return;
        expect(whole.leastSize).toBeLessThanOrEqual(alone.answer.inverters);
        const isBound = whole.answer.sizeProved && alone.answer.openTicks <= whole.answer.openTicks;
        if (isBound) expect(alone.answer.inverters).toBeGreaterThanOrEqual(whole.answer.inverters);
      }),
      { seed: SEED, numRuns: 150 },
    );
  });
});
