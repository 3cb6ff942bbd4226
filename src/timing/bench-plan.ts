// The bench plan: the slowest transitions as steps for somebody with the real thing on the table. Set the inputs, wait
// until everything has settled, flip, and watch the output: these changes, at these ticks.

import { EDGES, type Edge, type Path } from './arrivals.ts';
import type { Circuit } from './circuit.ts';
import { changesOf, type LevelChange, simulateTransition, slowestPath } from './history.ts';
import type { Claim, Flips, Settling } from './settle.ts';
import type { Transition } from './settle-exact.ts';
import { traceCause } from './trace-cause.ts';

export interface BenchTest {
  readonly output: number;
  readonly edge: Edge;
  readonly flips: Flips;
  readonly claim: Claim;
  readonly tick: number;
  readonly transition: Transition;
  /** Ticks after which everything has settled under the first pattern, whatever was there before. */
  readonly wait: number;
  /** Inputs that are changed, by number. */
  readonly changed: readonly number[];
  /** Level of the output before, and its changes; the last is the one to watch. */
  readonly before: number;
  readonly changes: readonly LevelChange[];
  /** Every wire on the way from the input to the last change. */
  readonly path: Path;
}

/**
 * The tests of a settling, one for on and one for off of every output. A change of several inputs gets a test of its own
 * only where it is slower than a single flip.
 */
export function benchPlan(circuit: Circuit, settling: Settling): BenchTest[] {
  return settling.outputs.flatMap(({ output, slowest }) =>
    EDGES.flatMap((edge) =>
      (['single', 'any'] as const).flatMap((flips): BenchTest[] => {
        const { tick, transition, claim } = slowest[flips][edge].settles;
        if (transition === null) return [];
        if (flips === 'any' && tick <= slowest.single[edge].settles.tick) return [];
        return [benchTest(circuit, output, edge, flips, claim, transition)];
      }),
    ),
  );
}

/** One test; the transition must make the output settle with that edge. */
export function benchTest(
  circuit: Circuit,
  output: number,
  edge: Edge,
  flips: Flips,
  claim: Claim,
  transition: Transition,
): BenchTest {
  const history = simulateTransition(circuit, transition.from, transition.to);
  const { wire } = circuit.outputs[output];
  const changes = changesOf(history, wire);
  const tick = changes[changes.length - 1].tick;
  return {
    output,
    edge,
    flips,
    claim,
    tick,
    transition,
    wait: slowestPath(circuit),
    changed: changedInputs(transition),
    before: history.before[wire],
    changes,
    path: traceCause(history, wire, tick),
  };
}

export function changedInputs({ from, to }: Transition): number[] {
  return [...from.keys()].filter((i) => from[i] !== to[i]);
}
