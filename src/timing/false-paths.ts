// False paths: where an output always settles before its static bound, the ways through the circuit that make up the
// bound are never exercised. Each is named wire by wire, with the first step that never happens.
//
// Why there is such a step. If every step of a path happened in some transition or other, so would the last one, a change
// of the output at the tick of the path. When that is later than any settling of the output, on or off, there is no such
// change, so some step never happens; the step before it does: its change arrives, and another leg always hides it.
//
// One direction alone may also fall short for another reason: the output does go on so late, but always only for a pulse
// that ends later still, so that it settles off. Then the path is exercised, and `pulse` says so.

import { type Arrivals, EDGES, type Edge, longestPaths, type Path } from './arrivals.ts';
import type { Circuit } from './circuit.ts';
import type { Happens } from './exercise.ts';
import type { Settling } from './settle.ts';

export interface FalsePath {
  /** Number of the output in the circuit. */
  readonly output: number;
  readonly edge: Edge;
  /** Static bound of the output, and the tick by which it really settles. */
  readonly bound: number;
  readonly settles: number;
  readonly path: Path;
  /** Index of the first step of the path that never happens at its tick; null for a pulse, or when the limit was hit. */
  readonly stuck: number | null;
  /** Every step happens, and the last begins a pulse. */
  readonly pulse: boolean;
}

/** False paths of every output and edge whose bound is proved not to be reached, the longest first. */
export function falsePaths(
  circuit: Circuit,
  arrivals: Arrivals,
  settling: Settling,
  exercise: () => Happens,
  mostForEach = 3,
): FalsePath[] {
  let happens: Happens | null = null;
  return settling.outputs.flatMap(({ output, bound, slowest }) =>
    EDGES.flatMap((edge) => {
      const { tick, claim } = slowest.any[edge].settles;
      if (tick >= bound[edge] || claim === 'found') return [];
      happens ??= exercise();
      const asked = happens;
      const { wire } = circuit.outputs[output];
      return longestPaths(circuit, arrivals, wire, edge, tick, mostForEach).map((path): FalsePath => {
        const answers = path.steps.map((step) => asked(step.wire, step.edge, step.tick));
        const stuck = answers.indexOf(false);
        const known = stuck >= 0 && !answers.slice(0, stuck).includes(null);
        const pulse = answers.every((answer) => answer === true);
        return { output, edge, bound: bound[edge], settles: tick, path, stuck: known ? stuck : null, pulse };
      });
    }),
  );
}
