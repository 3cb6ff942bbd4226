// Ticks of every wire and of every output, from the costs of a target: an inverter settles so many ticks after its latest
// leg, and where two or more legs meet the join adds `joinTicks`.
//
// Two figures. An inverter may take longer to rise (`ticksOn`) than to fall (`ticksOff`) or the other way round. Then
// every wire has two ticks: when it may rise for the last time, and when it may fall for the last time. A join rises
// because a leg rises and falls because a leg falls, so its two ticks are the latest of its legs; an inverter rises
// because a leg falls and falls because a leg rises, so they change places there. Inputs may do either at their arrival.
// The tick of a wire is the later of the two: of two inverters in a row one rises and one falls, so a pair costs
// ticksOn + ticksOff, and not twice the larger. A pulse that is swallowed on the way only settles earlier.
//
// With equal durations both ticks are always equal, and one figure is kept. The search works with one figure, the larger
// (see tick-bounds.ts for what that means for its answers).

import type { Target } from '../target/target.ts';
import { legsOf, outputLegsOf } from './build-network.ts';
import { FIRST_INPUT, firstInverter, type Network } from './network.ts';

export interface TickCosts {
  readonly joinTicks: number;
  /** The larger of `ticksOn` and `ticksOff`. */
  readonly inverterTicks: number;
  /** Ticks until an inverter is at level 1, and at level 0; `inverterTicks` where they are left out. */
  readonly ticksOn?: number;
  readonly ticksOff?: number;
}

/** What a target's joins and inverters cost, exactly. */
export function tickCosts({ join, inverter }: Target): Required<TickCosts> {
  const { ticks, ticksOn, ticksOff } = inverter;
  return { joinTicks: join.ticks, inverterTicks: ticks, ticksOn, ticksOff };
}

/** Tick after which a wire does not rise any more, and after which it does not fall any more, by wire number. */
export interface EdgeTicks {
  readonly rise: Int32Array;
  readonly fall: Int32Array;
}

/** Both ticks of every wire. Constants are there at tick 0. */
export function edgeTicks(network: Network, costs: TickCosts): EdgeTicks {
  const { inverterTicks, ticksOn = inverterTicks, ticksOff = inverterTicks } = costs;
  const first = firstInverter(network);
  const rise = new Int32Array(first + network.size);
  const fall = new Int32Array(first + network.size);
  network.inputs.forEach((input, i) => {
    rise[FIRST_INPUT + i] = input.tick;
    fall[FIRST_INPUT + i] = input.tick;
  });
  for (let i = 0; i < network.size; i++) {
    const legs = legsOf(network, i);
    rise[first + i] = joinTick(legs, fall, costs) + ticksOn;
    fall[first + i] = joinTick(legs, rise, costs) + ticksOff;
  }
  return { rise, fall };
}

/** Tick at which each wire settles, by wire number. Constants are there at tick 0. */
export function wireTicks(network: Network, costs: TickCosts): Int32Array {
  if (costs.ticksOn !== costs.ticksOff) {
    const { rise, fall } = edgeTicks(network, costs);
    return rise.map((tick, wire) => Math.max(tick, fall[wire]));
  }
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

/** Tick at which each output settles; `wires` are the ticks of its wires, as `wireTicks` tells them. */
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
