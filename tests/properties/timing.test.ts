// Laws of timing on random systems, random targets and random arrivals, against the naive simulator of tests/support.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Target } from '../../src/target/target.ts';
import { arrivalsOf, EDGES, pathTick } from '../../src/timing/arrivals.ts';
import { circuitFaults } from '../../src/timing/circuit.ts';
import { exerciseOf } from '../../src/timing/exercise.ts';
import { falsePaths } from '../../src/timing/false-paths.ts';
import { simulateTransition } from '../../src/timing/history.ts';
import { settle, usualOptions } from '../../src/timing/settle.ts';
import { NaiveTimer, naiveSettling, transitionsOf } from '../support/naive-timing.ts';
import { systemArbitrary } from '../support/random-system.ts';
import { targetOf } from '../support/system-of.ts';
import { type Timed, writtenCircuit } from '../support/timed-circuit.ts';

const SEED = 20261125;

/** Targets whose inverters are slower one way, whose joins take time, and whose joins are AND. */
const targets: fc.Arbitrary<Target> = fc
  .record({
    ticksOn: fc.integer({ min: 1, max: 3 }),
    ticksOff: fc.integer({ min: 1, max: 3 }),
    joinTicks: fc.integer({ min: 0, max: 1 }),
    logic: fc.constantFrom('or' as const, 'and' as const),
  })
  .map(({ ticksOn, ticksOff, joinTicks, logic }) => {
    const base = targetOf('joined-or');
    const ticks = Math.max(ticksOn, ticksOff);
    return {
      ...base,
      join: { ...base.join, logic, ticks: joinTicks },
      inverter: { ...base.inverter, ticks, ticksOn, ticksOff },
    };
  });

const systems = systemArbitrary({ mostInputs: 4, rails: ['high', 'low', 'both'], latestTick: 2, depth: 3 });

function until({ circuit }: Timed): number {
  const { latest } = arrivalsOf(circuit);
  return Math.max(1, ...latest.on, ...latest.off) + 2;
}

describe(`settling, seed ${SEED}`, () => {
  test('tables, clauses and naive simulation agree, and no figure is above the static bound', () => {
    fc.assert(
      fc.property(systems, targets, (system, target) => {
        const made = writtenCircuit(system, target);
        const { circuit, network, signals } = made;
        expect(circuitFaults(circuit)).toEqual([]);
        const exact = settle(circuit);
        const solved = settle(circuit, { ...usualOptions(circuit), mostWork: 0 });
        expect([exact.method.any, solved.method.any, solved.method.single]).toEqual([
          'simulated',
          'solver',
          'solver',
        ]);
        const timer = new NaiveTimer(network, target, signals);
        for (const flips of ['single', 'any'] as const) {
          const transitions = transitionsOf(signals.length, flips);
          const naive = naiveSettling(timer, network.outputs.length, transitions, until(made));
          for (const settling of [exact, solved]) {
            const figures = settling.outputs.map(({ slowest, bound }) => {
              const { on, off } = slowest[flips];
              for (const edge of EDGES) {
                expect(slowest[flips][edge].settles.tick).toBeLessThanOrEqual(bound[edge]);
                expect(slowest[flips][edge].settles.claim).not.toBe('found');
              }
              return {
                on: on.settles.tick,
                off: off.settles.tick,
                changeOn: on.changes.tick,
                changeOff: off.changes.tick,
              };
            });
            expect(figures).toEqual(naive);
          }
        }
      }),
      { seed: SEED, numRuns: 60 },
    );
  });

  test('every transition that is named does what is said of it', () => {
    fc.assert(
      fc.property(systems, targets, (system, target) => {
        const { circuit, network, signals } = writtenCircuit(system, target);
        const timer = new NaiveTimer(network, target, signals);
        for (const { output, slowest } of settle(circuit).outputs) {
          for (const flips of ['single', 'any'] as const) {
            for (const edge of EDGES) {
              for (const kind of ['settles', 'changes'] as const) {
                const { tick, transition } = slowest[flips][edge][kind];
                expect(transition === null).toBe(tick < 0);
                if (transition === null) continue;
                const { from, to } = transition;
                const changed = from.filter((value, i) => value !== to[i]).length;
                expect(flips === 'any' ? changed > 0 : changed === 1).toBe(true);
                const levels = timer.run(Array.from(from, Boolean), Array.from(to, Boolean), tick + 9);
                const of = (at: number): boolean => levels[at + 1][output];
                expect([of(tick), of(tick - 1)]).toEqual([edge === 'on', edge !== 'on']);
                for (let later = tick; later < tick + 9; later++) expect(of(later)).toBe(edge === 'on');
                if (kind === 'changes') expect(of(-1)).toBe(edge !== 'on');
              }
            }
          }
        }
      }),
      { seed: SEED, numRuns: 40 },
    );
  });
});

describe(`false paths, seed ${SEED}`, () => {
  test('every gap below the static bound has a named path whose stuck step never happens', () => {
    let gaps = 0;
    fc.assert(
      fc.property(systems, targets, (system, target) => {
        const made = writtenCircuit(system, target);
        const { circuit, network, signals } = made;
        const settling = settle(circuit);
        const options = usualOptions(circuit);
        const arrivals = arrivalsOf(circuit);
        const named = falsePaths(circuit, arrivals, settling, () => exerciseOf(circuit, options));
        const solver = exerciseOf(circuit, { ...options, mostWork: 0 });
        expect(falsePaths(circuit, arrivals, settling, () => solver)).toEqual(named);
        for (const { output, bound, slowest } of settling.outputs) {
          for (const edge of EDGES) {
            if (slowest.any[edge].settles.tick >= bound[edge]) continue;
            gaps++;
            expect(named.some((path) => path.output === output && path.edge === edge)).toBe(true);
          }
          // An output that always settles before its bound has a path that is really stuck.
          const settles = Math.max(...EDGES.map((edge) => slowest.any[edge].settles.tick));
          if (settles >= Math.max(bound.on, bound.off)) continue;
          const late = named.filter((path) => path.output === output && pathTick(path.path) > settles);
          expect(late.length).toBeGreaterThan(0);
          for (const { stuck } of late) expect(stuck).not.toBeNull();
        }
        if (named.length === 0) return;
        const timer = new NaiveTimer(network, target, signals);
        const ticks = until(made);
        const seen = new Set<string>();
        const first = 2 + network.inputs.length;
        for (const [before, after] of transitionsOf(signals.length, 'any')) {
          const note = (levels: boolean[][], wireOf: (at: number) => number): void => {
            for (let tick = 0; tick <= ticks; tick++) {
              levels[tick + 1].forEach((level, at) => {
                if (level !== levels[tick][at]) seen.add(`${wireOf(at)} ${level ? 'on' : 'off'} ${tick}`);
              });
            }
          };
          note(timer.inverterLevels(before, after, ticks), (at) => first + at);
          note(timer.run(before, after, ticks), (at) => circuit.outputs[at].wire);
          network.inputs.forEach(({ tick, rail, signal }, i) => {
            const input = signals.indexOf(signal);
            if (before[input] === after[input]) return;
            seen.add(`${2 + i} ${after[input] === (rail === 'high') ? 'on' : 'off'} ${tick}`);
          });
        }
        for (const { path, stuck, pulse } of named) {
          const happens = path.steps.map(({ wire, edge, tick }) => seen.has(`${wire} ${edge} ${tick}`));
          expect(happens.indexOf(false)).toBe(stuck ?? -1);
          expect(pulse).toBe(stuck === null);
        }
      }),
      { seed: SEED, numRuns: 60 },
    );
    // The property is worth something only when there are gaps at all.
    expect(gaps).toBeGreaterThan(20);
  });
});

describe(`simulation, seed ${SEED}`, () => {
  test('agrees with the naive one on every inverter and output, tick by tick', () => {
    const rows = fc.array(fc.boolean(), { minLength: 4, maxLength: 4 });
    fc.assert(
      fc.property(systems, targets, rows, rows, (system, target, before, after) => {
        const { circuit, network, signals } = writtenCircuit(system, target);
        const from = before.slice(0, signals.length);
        const to = after.slice(0, signals.length);
        const history = simulateTransition(
          circuit,
          Uint8Array.from(from, Number),
          Uint8Array.from(to, Number),
        );
        const timer = new NaiveTimer(network, target, signals);
        const naive = timer.run(from, to, history.ticks);
        circuit.outputs.forEach(({ wire }, y) => {
          expect(history.before[wire]).toBe(Number(naive[0][y]));
          expect([...history.levels[wire]]).toEqual(naive.slice(1).map((levels) => Number(levels[y])));
        });
        const inverters = timer.inverterLevels(from, to, history.ticks);
        const first = 2 + network.inputs.length;
        for (let i = 0; i < network.size; i++) {
          expect([...history.levels[first + i]]).toEqual(
            inverters.slice(1).map((levels) => Number(levels[i])),
          );
        }
      }),
      { seed: SEED, numRuns: 100 },
    );
  });
});
