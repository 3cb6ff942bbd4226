// For every input the slowest that an output can be when that input alone flips: the candidates for a test on the
// bench, one for each input, exact by simulation of all flips.

import { EDGES, type Edge } from './arrivals.ts';
import type { Circuit } from './circuit.ts';
import { isAffordable, type SettleOptions } from './settle.ts';
import { type SlowestChange, SlowestChanges } from './settle-exact.ts';
import { walkTransitions } from './walk-transitions.ts';

export interface Candidate extends SlowestChange {
  readonly output: number;
  readonly input: number;
  readonly edge: Edge;
}

/** By output, then by tick from the slowest on; null when there are too many flips to simulate. */
export function candidatesOf(circuit: Circuit, options: SettleOptions): Candidate[] | null {
  const { scope } = options;
  if (!isAffordable(circuit, 1, options)) return null;
  const found = scope.moving.flatMap((input) => {
    const slowest = new SlowestChanges(circuit);
    walkTransitions(circuit, { ...scope, moving: [input] }, 1, slowest);
    return slowest.records.flatMap((record, output) =>
      EDGES.flatMap((edge): Candidate[] => {
        const { tick, transition } = record[edge].settles;
        return transition === null ? [] : [{ output, input, edge, tick, transition }];
      }),
    );
  });
  return found
    .map((candidate, at) => ({ candidate, at }))
    .sort(
      (a, b) => a.candidate.output - b.candidate.output || b.candidate.tick - a.candidate.tick || a.at - b.at,
    )
    .map(({ candidate }) => candidate);
}
