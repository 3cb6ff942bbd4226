// Which functions can be there at all by a tick, by brute force: start from the wires that have arrived, join them in
// every possible way, invert every join, and so on, tick by tick. Functions are numbers (bit `m` is the level on row
// `m`), so this is for three inputs; it knows nothing of cubes and literals, which is what the search goes by.

import type { Target } from '../../src/target/target.ts';

export interface ArrivingWire {
  readonly level: number;
  readonly tick: number;
}

/** For every tick from 0 to `last`: the functions that an output can be by then. */
export function reachableOutputs(
  wires: readonly ArrivingWire[],
  rows: number,
  target: Target,
  last: number,
): ReadonlySet<number>[] {
  const all = 2 ** rows - 1;
  const { join, inverter } = target;
  const combine = join.logic === 'or' ? (a: number, b: number) => a | b : (a: number, b: number) => a & b;
  const single: Set<number>[] = [];
  const before = (tick: number): ReadonlySet<number> => single[tick] ?? new Set();
  /** Joins of at most `legs` wires, each there `join.ticks` earlier when there are two or more. */
  const joins = (tick: number, legs: number): Set<number> => {
    const wiresThen = [...before(tick - join.ticks)];
    const found = new Set(wiresThen);
    for (let count = 2, grown = true; grown && count <= legs; count++) {
      const size = found.size;
      for (const a of [...found]) for (const b of wiresThen) found.add(combine(a, b));
      grown = found.size > size;
    }
    for (const a of before(tick)) found.add(a);
    return found;
  };
  const outputs: ReadonlySet<number>[] = [];
  for (let tick = 0; tick <= last; tick++) {
    const now = new Set([0, all]);
    for (const wire of wires) if (wire.tick <= tick) now.add(wire.level);
    if (tick >= inverter.ticks) {
      for (const level of joins(tick - inverter.ticks, inverter.maxLegs ?? Number.POSITIVE_INFINITY)) {
        now.add(all & ~level);
      }
    }
    single.push(now);
    outputs.push(
      join.where === 'inverter-inputs' ? now : joins(tick, join.maxLegs ?? Number.POSITIVE_INFINITY),
    );
  }
  return outputs;
}

/** The first tick by which some reachable function is 1 on all of `on` and 0 on all of `off`; -1 when none is. */
export function firstTick(outputs: readonly ReadonlySet<number>[], on: number, off: number): number {
  return outputs.findIndex((functions) => {
    for (const level of functions) if ((on & ~level) === 0 && (off & level) === 0) return true;
    return false;
  });
}
