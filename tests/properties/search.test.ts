// Laws of the search on random systems. The seed is fixed, so every run tries the same systems; fast-check prints the
// smallest system that breaks a law.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Expression, System } from '../../src/equations/system.ts';
import { countCopies } from '../../src/network/copies.ts';
import { networkTicks } from '../../src/network/levels.ts';
import type { Network } from '../../src/network/network.ts';
import { SHIPPED_TARGETS } from '../../src/target/shipped-targets.ts';
import type { Target } from '../../src/target/target.ts';
import { mostFalls } from '../support/function-classes.ts';
import { allPatterns, canHappen } from '../support/naive-evaluator.ts';
import { brokenLaws } from '../support/network-laws.ts';
import { type RandomSystemOptions, systemArbitrary } from '../support/random-system.ts';
import { type Searched, search, tableSystem, targetOf } from '../support/system-of.ts';

const SEED = 1964;

const SMALL: RandomSystemOptions = {
  mostInputs: 4,
  mostOutputs: 2,
  mostInternal: 2,
  depth: 3,
  never: true,
};
/** Less deep: where a network as written is large, proving a smaller one smallest takes its time. */
const WRITTEN: RandomSystemOptions = { ...SMALL, depth: 2, rails: ['high', 'low', 'either'] };
const RAILS: RandomSystemOptions = { ...SMALL, rails: ['high', 'low', 'either', 'both'], latestTick: 3 };

/** Random systems that leave some pattern possible. */
function systems(options: RandomSystemOptions): fc.Arbitrary<System> {
  return systemArbitrary(options).filter((system) =>
    [...allPatterns(system.inputs.length)].some((pattern) => canHappen(system, pattern)),
  );
}

const targets = fc.constantFrom(...SHIPPED_TARGETS);

function parts(network: Network, target: Target): number {
  return network.size + countCopies(network, target.inverter.outputs);
}

describe(`every network of the search (seed ${SEED})`, () => {
  test('keeps functions, rails, arrivals, deadlines and the limits of its target', () => {
    let answers = 0;
    fc.assert(
      fc.property(systems(RAILS), targets, (system, target) => {
        const { outcome } = search(system, { target, effort: 'quick' });
        expect(brokenLaws(system, outcome.asWritten, target, { limits: false })).toEqual([]);
        if (outcome.answer === null) {
          const deadlines = system.outputs.some(({ by }) => by !== null);
          expect(deadlines, 'no answer, although nothing is asked for').toBe(true);
          return;
        }
        answers++;
        expect(brokenLaws(system, outcome.answer.network, target)).toEqual([]);
        expect(outcome.answer.inverters).toBe(parts(outcome.answer.network, target));
        expect(outcome.answer.ticks).toBeGreaterThanOrEqual(outcome.fastest.withDeadlines ?? 0);
        expect(outcome.fastest.each.every((tick) => tick <= outcome.fastest.ticks)).toBe(true);
      }),
      { seed: SEED, numRuns: 120 },
    );
    expect(answers).toBeGreaterThan(60);
  });

  test('is there by the ticks that were asked for, and needs no more parts when more ticks are allowed', () => {
    fc.assert(
      fc.property(systems(SMALL), targets, fc.nat(3), (system, target, more) => {
        const { fastest } = search(system, { target, effort: 'quick', ticks: 0 }).outcome;
        let before = Number.POSITIVE_INFINITY;
        for (const ticks of [fastest.ticks, fastest.ticks + 1 + more]) {
          const { answer } = search(system, { target, effort: 'quick', ticks }).outcome;
          if (answer === null) {
            expect(fastest.exact).toBe(false);
            continue;
          }
          expect(brokenLaws(system, answer.network, target, { ticks })).toEqual([]);
          if (!answer.sizeProved) continue;
          expect(answer.inverters).toBeLessThanOrEqual(before);
          before = answer.inverters;
        }
      }),
      { seed: SEED, numRuns: 15 },
    );
  });

  test('is the same to the last byte when asked for again', () => {
    const bytes = ({ outcome }: Searched): string =>
      JSON.stringify(outcome, (_, value: unknown) => (value instanceof Int32Array ? [...value] : value));
    fc.assert(
      fc.property(systems(RAILS), targets, (system, target) => {
        const once = bytes(search(system, { target, effort: 'quick' }));
        expect(bytes(search(system, { target, effort: 'quick' }))).toBe(once);
      }),
      { seed: SEED, numRuns: 12 },
    );
  });
});

describe(`as written (seed ${SEED})`, () => {
  test('never beats what is found: with its ticks allowed, no more parts are needed', () => {
    fc.assert(
      fc.property(systems(WRITTEN), targets, (system, target) => {
        const free = search(system, { target, effort: 'quick' });
        const written = free.outcome.asWritten;
        const ticks = networkTicks(written, free.task.rules);
        const { answer } = search(system, { target, effort: 'quick', ticks }).outcome;
        expect(answer).not.toBeNull();
        expect(answer?.ticks).toBeLessThanOrEqual(ticks);
        expect(answer?.inverters).toBeLessThanOrEqual(parts(written, target));
        const chosen = free.outcome.answer;
        expect(chosen).not.toBeNull();
        if (chosen !== null && ticks <= chosen.ticks) {
          expect(chosen.inverters).toBeLessThanOrEqual(parts(written, target));
        }
      }),
      { seed: SEED, numRuns: 15 },
    );
  });
});

describe(`joins that are AND (seed ${SEED})`, () => {
  test('mirror joins that are OR: the dual system takes the same ticks and parts', () => {
    let compared = 0;
    fc.assert(
      fc.property(systems(RAILS), (system) => {
        const one = search(system, { effort: 'quick' }).outcome;
        const target = targetOf('joined-and');
        const mirrored = dualSystem(system);
        const other = search(mirrored, { target, effort: 'quick' }).outcome;
        expect(other.fastest).toEqual(one.fastest);
        if (one.answer === null || other.answer === null) {
          expect(other.answer).toBe(one.answer);
          return;
        }
        expect(brokenLaws(mirrored, other.answer.network, target)).toEqual([]);
        if (!one.answer.sizeProved || !other.answer.sizeProved) return;
        compared++;
        const figures = ({ ticks, inverters }: { ticks: number; inverters: number }) => [ticks, inverters];
        expect(figures(other.answer)).toEqual(figures(one.answer));
      }),
      { seed: SEED, numRuns: 60 },
    );
    expect(compared).toBeGreaterThan(30);
  });
});

describe(`lower bounds (seed ${SEED})`, () => {
  // From memory: A. A. Markov 1957/1958, ceil(log2(d + 1)) inverters are necessary, where d is the most falls of the
  // function along a rising chain of inputs. A lower bound here, since AND is not free.
  test('no function of four inputs is found with fewer inverters than its falls demand', () => {
    fc.assert(
      fc.property(fc.nat(65535), (table) => {
        const { answer } = search(tableSystem(4, table), { effort: 'quick' }).outcome;
        expect(answer?.inverters).toBeGreaterThanOrEqual(Math.ceil(Math.log2(mostFalls(table, 4) + 1)));
      }),
      { seed: SEED, numRuns: 12 },
    );
  });
});

/** The system of the complements of all outputs as functions of the complements of all inputs. */
function dualSystem(system: System): System {
  return {
    ...system,
    definitions: system.definitions.map((definition) => ({
      ...definition,
      expression: dual(definition.expression),
    })),
    never: system.never.map((forbidden) => ({ kind: 'not', argument: dual(forbidden) })),
  };
}

function dual(e: Expression): Expression {
  switch (e.kind) {
    case 'constant':
      return { kind: 'constant', value: e.value === 1 ? 0 : 1 };
    case 'signal':
      return e;
    case 'not':
      return { kind: 'not', argument: dual(e.argument) };
    case 'and':
    case 'or':
    case 'nand':
    case 'nor': {
      const kind = ({ and: 'or', or: 'and', nand: 'nor', nor: 'nand' } as const)[e.kind];
      return { kind, args: e.args.map(dual) };
    }
    case 'xor':
    case 'xnor': {
      const flips = e.args.length % 2 === 0;
      return { kind: (e.kind === 'xor') !== flips ? 'xor' : 'xnor', args: e.args.map(dual) };
    }
    case 'implies':
      return { kind: 'and', args: [{ kind: 'not', argument: dual(e.left) }, dual(e.right)] };
    case 'equals':
      return { kind: 'xor', args: [dual(e.left), dual(e.right)] };
    case 'mux':
      return { kind: 'mux', select: dual(e.select), when0: dual(e.when1), when1: dual(e.when0) };
    case 'maj':
      return { kind: 'maj', args: [dual(e.args[0]), dual(e.args[1]), dual(e.args[2])] };
  }
}
