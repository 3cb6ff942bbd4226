// A slowest path of a network: from the latest output back over the latest leg, again and again. Of equals the first in
// the order of the network is taken, so that the same network always shows the same path.

import type { WireNetwork } from './result.ts';
import { ticksByWire } from './wiring.ts';

export interface CriticalPath {
  /** Wires from the input to the last inverter. */
  readonly wires: readonly string[];
  /** Index of the latest output, -1 when there is none. */
  readonly output: number;
  has(wire: string): boolean;
  /** Whether the path goes from this wire straight to that inverter, or to the output of that index. */
  steps(from: string, to: string | number): boolean;
}

/** The slowest path; only the output when that is a constant. */
export function criticalWires(network: WireNetwork): CriticalPath {
  const ticks = ticksByWire(network);
  const legsOf = new Map(network.inverters.map(({ wire, legs }) => [wire, legs]));
  const latest = (legs: readonly string[]): string =>
    legs.reduce((best, leg) => ((ticks.get(leg) ?? 0) > (ticks.get(best) ?? 0) ? leg : best));
  let output = -1;
  network.outputs.forEach(({ tick }, at) => {
    if (output < 0 || tick > network.outputs[output].tick) output = at;
  });
  const wires: string[] = [];
  if (output >= 0) {
    for (let legs: readonly string[] | undefined = network.outputs[output].legs; legs !== undefined; ) {
      const wire: string = latest(legs);
      wires.unshift(wire);
      legs = legsOf.get(wire);
    }
  }
  const found = new Set(wires);
  return {
    wires,
    output,
    has: (wire) => found.has(wire),
    steps: (from, to) => found.has(from) && to === (wires[wires.indexOf(from) + 1] ?? output),
  };
}
