// The prover's own reading of a network: levels of its outputs for many patterns at once. It walks the packed legs in
// order; every leg stands before its reader (see check-delivery.ts), so one pass is enough.

import type { System } from '../equations/system.ts';
import type { Network } from '../network/network.ts';
import type { Words } from './evaluate-equations.ts';

/** What joined wires compute. */
export type Logic = 'or' | 'and';

/** Level of every output. `inputs[i]` holds the values of the signal of `system.inputs[i]`, `words` words each. */
export function evaluateNetwork(
  system: System,
  network: Network,
  logic: Logic,
  inputs: readonly Words[],
  words: number,
): Words[] {
  const given = new Map<number, Words>(system.inputs.map(({ signal }, i) => [signal, inputs[i]]));
  const levels: Words[] = [new Uint32Array(words), new Uint32Array(words).fill(0xffffffff)];
  for (const { signal, rail } of network.inputs) {
    const signalValue = given.get(signal) as Words;
    levels.push(rail === 'high' ? signalValue : signalValue.map((word) => ~word));
  }
  const join = (legs: Int32Array, from: number, to: number): Words => {
    const level = levels[legs[from]].slice();
    for (let at = from + 1; at < to; at++) {
      const leg = levels[legs[at]];
      if (logic === 'or') for (let w = 0; w < words; w++) level[w] |= leg[w];
      else for (let w = 0; w < words; w++) level[w] &= leg[w];
    }
    return level;
  };
  for (let i = 0; i < network.size; i++) {
    const level = join(network.legs, network.legStart[i], network.legStart[i + 1]);
    for (let w = 0; w < words; w++) level[w] = ~level[w];
    levels.push(level);
  }
  return network.outputs.map((_, y) =>
    join(network.outputLegs, network.outputStart[y], network.outputStart[y + 1]),
  );
}
