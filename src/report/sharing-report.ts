// What sharing saves, for a result: the groups of outputs with what each is made of, and the parts of every way of
// sharing beside each other.

import type { System } from '../equations/system.ts';
import { legsOf, outputLegsOf } from '../network/build-network.ts';
import { copiesOf } from '../network/copies.ts';
import { outputTicks, tickCosts } from '../network/levels.ts';
import { firstInverter, type Network } from '../network/network.ts';
import type { Target } from '../target/target.ts';
import type { Sharing } from './result.ts';

/** Inverters found under each way; null where nothing was found. */
export type SizeByWay = ReadonlyMap<Sharing['way'], number | null>;

/**
 * The report.
 *
 * @param groups positions of the outputs that may share inverters in `network`.
 * @param sizes of the way of the network, and of those it is compared with.
 */
export function sharingReport(
  system: System,
  network: Network,
  groups: readonly (readonly number[])[],
  way: Sharing['way'],
  sizes: SizeByWay,
  target: Target,
): Sharing {
  const { parts } = target.inverter;
  const known = [...sizes.values()].filter((size) => size !== null);
  const inParts = (size: number | null | undefined): number | null => (size == null ? null : size * parts);
  const ticks = outputTicks(network, tickCosts(target));
  return {
    way,
    groups: groups.map((outputs) => {
      const signals = new Set(outputs.map((y) => system.outputs[y].signal));
      const wires = network.outputs.flatMap(({ signal }, y) => (signals.has(signal) ? [y] : []));
      return {
        outputs: outputs.map((y) => system.signals[system.outputs[y].signal]),
        ticks: Math.max(0, ...wires.map((y) => ticks[y])),
        parts: parts * invertersBehind(network, wires, target.inverter.outputs),
      };
    }),
    alone: inParts(sizes.get('alone')),
    ...(sizes.has('grouped') ? { grouped: inParts(sizes.get('grouped')) } : {}),
    together: known.length === 0 ? null : inParts(Math.min(...known)),
  };
}

/** Inverters, copies included, that some outputs are made of. */
function invertersBehind(
  network: Network,
  outputs: readonly number[],
  inverterOutputs: number | null,
): number {
  const first = firstInverter(network);
  const copies = copiesOf(network, inverterOutputs);
  const used = new Uint8Array(first + network.size);
  for (const y of outputs) for (const leg of outputLegsOf(network, y)) used[leg] = 1;
  let count = 0;
  for (let i = network.size - 1; i >= 0; i--) {
    if (used[first + i] === 0) continue;
    count += 1 + copies[i];
    for (const leg of legsOf(network, i)) used[leg] = 1;
  }
  return count;
}
