// The prover's own reading of a network: levels of its outputs for many patterns at once. It walks the packed legs in
// order; every leg stands before its reader (see check-delivery.ts), so one pass is enough.

import type { System } from '../equations/system.ts';
import type { Network } from '../network/network.ts';
import type { Words } from './evaluate-equations.ts';

/** What joined wires compute. */
export type Logic = 'or' | 'and';

/**
 * Level of every output. `inputs[i]` holds the values of the signal of `system.inputs[i]`, `words` words each. All levels
 * stand in one array, wire after wire, so that a large network costs no memory but that.
 */
export function evaluateNetwork(
  system: System,
  network: Network,
  logic: Logic,
  inputs: readonly Words[],
  words: number,
): Words[] {
  const given = new Map<number, Words>(system.inputs.map(({ signal }, i) => [signal, inputs[i]]));
  const first = 2 + network.inputs.length;
  const wires = first + network.size;
  const levels = new Uint32Array((wires + network.outputs.length) * words);
  levels.fill(0xffffffff, words, 2 * words);
  network.inputs.forEach(({ signal, rail }, i) => {
    const values = given.get(signal) as Words;
    const start = (2 + i) * words;
    const flip = rail === 'high' ? 0 : 0xffffffff;
    for (let w = 0; w < words; w++) levels[start + w] = values[w] ^ flip;
  });
  /** Writes the join of some legs behind all wires before it. */
  const join = (legs: Int32Array, from: number, to: number, start: number): void => {
    const one = legs[from] * words;
    levels.copyWithin(start, one, one + words);
    for (let at = from + 1; at < to; at++) {
      const leg = legs[at] * words;
      if (logic === 'or') for (let w = 0; w < words; w++) levels[start + w] |= levels[leg + w];
      else for (let w = 0; w < words; w++) levels[start + w] &= levels[leg + w];
    }
  };
  for (let i = 0; i < network.size; i++) {
    const start = (first + i) * words;
    join(network.legs, network.legStart[i], network.legStart[i + 1], start);
    for (let w = start; w < start + words; w++) levels[w] = ~levels[w];
  }
  return network.outputs.map((_, y) => {
    const start = (wires + y) * words;
    join(network.outputLegs, network.outputStart[y], network.outputStart[y + 1], start);
    return levels.subarray(start, start + words);
  });
}
