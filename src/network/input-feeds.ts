// Inputs that feed more separate wires than they can. An inverter with too few outputs is built more than once
// (copies.ts); an input cannot be copied, so all that can be done is to say so. What a separate wire is stands in
// copies.ts; copies of inverters add none, since where an input is used alone all its readers share one wire, and copies
// take the joins that their original takes.

import { separateWires } from './copies.ts';
import { FIRST_INPUT, type Network } from './network.ts';

/** An input wire that feeds more than it can. */
export interface OverfedInput {
  /** Number of the input wire. */
  readonly input: number;
  /** Separate wires that it feeds. */
  readonly wires: number;
}

/** The inputs that feed more than `outputs` separate wires (null for any number), in the order of the network. */
export function overfedInputs(network: Network, outputs: number | null): OverfedInput[] {
  if (outputs === null) return [];
  const separate = separateWires(network);
  return network.inputs.flatMap((_, input) => {
    const { joins, alone } = separate[FIRST_INPUT + input];
    const wires = joins.length + (alone ? 1 : 0);
    return wires > outputs ? [{ input, wires }] : [];
  });
}
