// What a changed block is proved against: the outputs of the block as drawn, with one wire as it was meant.

import type { BuiltBlock } from '../equations/built.ts';
import type { Definition, Expression, System } from '../equations/system.ts';
import { type Delivery, tiedNetwork } from '../network/built-nets.ts';
import { type BuiltNetwork, builtWire } from '../network/built-network.ts';
import { layBuilt } from '../network/lay-built.ts';
import type { Network } from '../network/network.ts';
import type { Target } from '../target/target.ts';
import { drawnExpression, type Wishes, wishedLevel } from './wishes.ts';

/** Compares a network with a system on every pattern that can happen. */
export type Judge = (system: System, network: Network) => 'equal' | 'different' | 'undecided';

/** The wishes of a block with the levels of its outputs as outputs; `asMeant` are wires that are what they should be. */
export function referenceSystem(
  built: BuiltNetwork,
  { system, levelOf, byWire }: Wishes,
  asMeant: ReadonlySet<number>,
): System {
  const signals = [...system.signals];
  const definitions: Definition[] = [...system.definitions];
  const now = [...levelOf];
  const changed = new Set<number>();
  const level = (wire: number): Expression => ({ kind: 'signal', signal: now[wire] });
  built.kinds.forEach((_, wire) => {
    const wish = byWire[wire];
    const isMeant = asMeant.has(wire) && wish !== null && !wish.part;
    const legs = built.legs.subarray(built.legStart[wire], built.legStart[wire + 1]);
    if (!isMeant && !legs.some((leg) => changed.has(leg))) return;
    changed.add(wire);
    const expression = isMeant ? wishedLevel(wish) : drawnExpression(built, wire, level);
    signals.push(`meant ${built.names[wire]}`);
    definitions.push({ signal: signals.length - 1, expression, at: null });
    now[wire] = signals.length - 1;
  });
  return {
    ...system,
    signals,
    definitions,
    outputs: built.outputs.map(({ wire }) => ({ signal: now[wire], rail: 'high', by: null })),
  };
}

/**
 * The network of a block, as its wires are really tied, that delivers the outputs of `system`; both have the same
 * outputs in the same order. Null when it feeds back into itself.
 */
export function networkFor(block: BuiltBlock, target: Target, system: System): Network | null {
  const built = layBuilt(block, target);
  const deliveries = block.outputs.map(
    ({ wire }, y): Delivery => ({
      wire: builtWire(built, wire),
      output: { signal: system.outputs[y].signal, rail: 'high' },
    }),
  );
  return tiedNetwork(built, (name) => system.signals.indexOf(name), deliveries);
}
