// From the network of a result back to the one that the search and the timing work on. Copies are the same inverter
// once more, with the same legs at the same ticks, so they are put together again.

import type { System } from '../equations/system.ts';
import { packNetwork } from '../network/build-network.ts';
import type { Network } from '../network/network.ts';
import type { WireNetwork } from './result.ts';

/** The network of a result for this system. */
export function networkOfResult(network: WireNetwork, system: System): Network {
  const signalOf = new Map(system.signals.map((name, signal) => [name, signal]));
  const signal = (name: string): number => {
    const found = signalOf.get(name);
    if (found === undefined) throw new Error(`the network names ${name}, the equations do not`);
    return found;
  };
  const wires = new Map([
    ['0', 0],
    ['1', 1],
  ]);
  network.inputs.forEach(({ wire }, i) => {
    wires.set(wire, 2 + i);
  });
  const originals = network.inverters.filter(({ copyOf }) => copyOf === undefined);
  originals.forEach(({ wire }, i) => {
    wires.set(wire, 2 + network.inputs.length + i);
  });
  for (const { wire, copyOf } of network.inverters) {
    if (copyOf !== undefined) wires.set(wire, wires.get(copyOf) as number);
  }
  const legs = (names: readonly string[]): number[] =>
    [...new Set(names.map((name) => wires.get(name) as number))].sort((a, b) => a - b);
  return packNetwork(
    network.inputs.map(({ name, rail, tick }) => ({ signal: signal(name), rail, tick })),
    network.outputs.map(({ name, rail }) => ({ signal: signal(name), rail })),
    originals.map((inverter) => legs(inverter.legs)),
    network.outputs.map((output) => legs(output.legs)),
  );
}
