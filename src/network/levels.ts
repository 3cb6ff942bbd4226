// Ticks of every wire and of every output, from the two costs of a target: an inverter settles `inverterTicks` after
// its latest leg, and where two or more legs meet the join adds `joinTicks`.

import { legsOf, outputLegsOf } from './build-network.ts';
import { FIRST_INPUT, firstInverter, type Network } from './network.ts';

export interface TickCosts {
  readonly joinTicks: number;
  readonly inverterTicks: number;
}

/** Tick at which each wire settles, by wire number. Constants are there at tick 0. */
export function wireTicks(network: Network, costs: TickCosts): Int32Array {
  const first = firstInverter(network);
  const ticks = new Int32Array(first + network.size);
  network.inputs.forEach((input, i) => {
    ticks[FIRST_INPUT + i] = input.tick;
  });
  for (let i = 0; i < network.size; i++) {
    ticks[first + i] = joinTick(legsOf(network, i), ticks, costs) + costs.inverterTicks;
  }
  return ticks;
}

/** Tick at which each output settles. */
export function outputTicks(network: Network, costs: TickCosts, wires = wireTicks(network, costs)): number[] {
  return network.outputs.map((_, y) => joinTick(outputLegsOf(network, y), wires, costs));
}

/** Ticks of the network: its latest output (0 when it has none). */
export function networkTicks(network: Network, costs: TickCosts): number {
  return Math.max(0, ...outputTicks(network, costs));
}

function joinTick(legs: Int32Array, ticks: Int32Array, costs: TickCosts): number {
  let latest = 0;
  for (let l = 0; l < legs.length; l++) if (ticks[legs[l]] > latest) latest = ticks[legs[l]];
  return legs.length > 1 ? latest + costs.joinTicks : latest;
}
