// Every way to break a network by a single mistake.

import { packNetwork } from '../../src/network/build-network.ts';
import type { Network } from '../../src/network/network.ts';
import { inverterLegs, joinLegs } from './naive-evaluator.ts';

/**
 * All networks with one leg of an inverter or output gone, elsewhere or one too many, one inverter out of its readers'
 * legs, or two outputs swapped.
 */
export function* mutations(
  network: Network,
): Generator<{ readonly what: string; readonly network: Network }> {
  const first = 2 + network.inputs.length;
  const inverters = Array.from({ length: network.size }, (_, i) => inverterLegs(network, i));
  const outputs = network.outputs.map((_, y) => joinLegs(network, y));
  const pack = (i: number, legs: readonly number[], where: readonly number[][]): Network => {
    const changed = where.map((old, n) => (n === i ? [...legs].sort((a, b) => a - b) : old));
    const [nors, joins] = where === inverters ? [changed, outputs] : [inverters, changed];
    return packNetwork(network.inputs, network.outputs, nors, joins);
  };
  for (const where of [inverters, outputs]) {
    const kind = where === inverters ? 'inverter' : 'output';
    for (const [i, legs] of where.entries()) {
      const wires = where === inverters ? first + i : first + network.size;
      for (let wire = 0; wire < wires; wire++) {
        const without = legs.filter((leg) => leg !== wire);
        if (without.length < legs.length) {
          if (without.length > 0)
            yield { what: `${kind} ${i} without ${wire}`, network: pack(i, without, where) };
          continue;
        }
        yield { what: `${kind} ${i} and ${wire}`, network: pack(i, [...legs, wire], where) };
        for (const leg of legs) {
          const swapped = legs.map((old) => (old === leg ? wire : old));
          yield { what: `${kind} ${i}, ${wire} for ${leg}`, network: pack(i, swapped, where) };
        }
      }
    }
  }
  for (let i = 0; i < network.size; i++) {
    const drop = (lists: readonly number[][]): number[][] =>
      lists.map((legs) => legs.filter((leg) => leg !== first + i));
    const [nors, joins] = [drop(inverters), drop(outputs)];
    if ([...nors, ...joins].some((legs) => legs.length === 0)) continue;
    yield {
      what: `inverter ${i} dropped`,
      network: packNetwork(network.inputs, network.outputs, nors, joins),
    };
  }
  for (let y = 0; y < outputs.length; y++) {
    for (let z = 0; z < y; z++) {
      const joins = outputs.map((legs, n) => (n === y ? outputs[z] : n === z ? outputs[y] : legs));
      yield {
        what: `outputs ${z} and ${y} swapped`,
        network: packNetwork(network.inputs, network.outputs, inverters, joins),
      };
    }
  }
}
