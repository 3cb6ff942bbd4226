// What stands, counted: ticks of every wire, parts with copies, legs. As drawn; no levels are needed for it.
//
// A join is expanded into what drives it before its legs are counted, as everywhere: nested joins are one join, and its
// delay, where the target has one, counts once.

import type { Target } from '../target/target.ts';
import { type BuiltNetwork, builtLegs } from './built-network.ts';
import { driversOf } from './lay-built.ts';
import { FIRST_INPUT } from './network.ts';

export interface BuiltCosts {
  /** By wire: the tick at which it settles. */
  readonly wireTicks: Int32Array;
  /** By output. */
  readonly outputTicks: readonly number[];
  /** The latest output. */
  readonly ticks: number;
  /** Everything to build: inverters and copies, times what one counts. */
  readonly parts: number;
  readonly inverters: number;
  /** Further inverters needed because one feeds more separate wires than it has outputs. */
  readonly copies: number;
  /** Legs of all inverters and of all joins of two or more. */
  readonly legs: number;
}

export function builtCosts(built: BuiltNetwork, target: Target): BuiltCosts {
  const { kinds } = built;
  const wireTicks = new Int32Array(kinds.length);
  const meeting = (drivers: readonly number[]): number => {
    const latest = drivers.reduce((tick, wire) => Math.max(tick, wireTicks[wire]), 0);
    return latest + (drivers.length > 1 ? target.join.ticks : 0);
  };
  const inverters = kinds.filter((kind) => kind === 'inverter').length;
  let legs = 0;
  for (let wire = 0; wire < kinds.length; wire++) {
    const drivers = new Set<number>();
    for (const leg of builtLegs(built, wire)) for (const driver of driversOf(built, leg)) drivers.add(driver);
    const own = [...drivers];
    if (kinds[wire] === 'input') wireTicks[wire] = built.inputs[wire - FIRST_INPUT].tick;
    else if (kinds[wire] === 'inverter') wireTicks[wire] = meeting(own) + target.inverter.ticks;
    else wireTicks[wire] = meeting(own) + built.delay[wire];
    if (kinds[wire] === 'inverter' || (kinds[wire] === 'join' && own.length > 1)) legs += own.length;
  }
  const copies = copiesOfBuilt(built, target);
  const outputTicks = built.outputs.map(({ wire }) => wireTicks[wire]);
  return {
    wireTicks,
    outputTicks,
    ticks: Math.max(0, ...outputTicks),
    parts: (inverters + copies) * target.inverter.parts,
    inverters,
    copies,
    legs,
  };
}

/** By wire: how many separate wires leave it; 0 for what drives nothing by itself. */
export function separateWiresOf(built: BuiltNetwork): Int32Array {
  const { kinds } = built;
  const wires = Int32Array.from(kinds, (kind) => (kind === 'inverter' || kind === 'input' ? 1 : 0));
  kinds.forEach((kind, wire) => {
    if (kind !== 'tap') return;
    for (const leg of builtLegs(built, wire)) if (wires[leg] > 0) wires[leg]++;
  });
  return wires;
}

function copiesOfBuilt(built: BuiltNetwork, target: Target): number {
  const { outputs } = target.inverter;
  if (outputs === null) return 0;
  const separate = separateWiresOf(built);
  let copies = 0;
  built.kinds.forEach((kind, wire) => {
    if (kind === 'inverter') copies += Math.max(0, Math.ceil(separate[wire] / outputs) - 1);
  });
  return copies;
}
