// Simulation tick by tick, of one run: given when the inputs change, what is the level of every wire at every tick?
//
// Idea. The level of a wire at tick t depends on its legs at earlier ticks only (or at the same tick, where a join takes
// none), so the ticks are taken in order and within a tick the wires behind their legs. The levels of a wire are a row
// of bytes. Before tick 0 everything has settled under the first pattern.
//
// Circles. A circuit as built may feed back into itself. Then joins without delay are taken in the order of their
// numbers, again and again until nothing changes; and what a wire is before tick 0 may not follow from the inputs at
// all: levels that remain unknown under three-valued simulation are taken as 0 and reported.
//
// Cost. Ticks times legs; `mostLevels` limits what one run may keep.

import { type Circuit, legsOfWire, type Pattern } from './circuit.ts';

/** Input `input` is given the value `value` at `tick`; its wires follow after the ticks of the input. */
export interface InputChange {
  readonly tick: number;
  readonly input: number;
  readonly value: 0 | 1;
}

export interface History {
  readonly circuit: Circuit;
  /** Ticks 0 to `ticks` are simulated. */
  readonly ticks: number;
  /** By wire: its level before tick 0. */
  readonly before: Uint8Array;
  /** By wire, then by tick from 0. */
  readonly levels: readonly Uint8Array[];
  /** Wires whose level before tick 0 does not follow from the inputs; only where the circuit feeds back. */
  readonly undetermined: readonly number[];
}

/** Most levels that one simulation keeps: wires times ticks. */
export const MOST_LEVELS = 64_000_000;

/**
 * Simulates ticks 0 to `ticks`. Changes may come in any order; of two changes of one input at the same tick the later in
 * the list counts.
 */
export function simulate(
  circuit: Circuit,
  start: Pattern,
  changes: readonly InputChange[],
  ticks: number,
): History {
  const { kinds, source, inverted, names } = circuit;
  const wires = names.length;
  if ((ticks + 1) * wires > MOST_LEVELS) throw new RangeError(`${ticks} ticks are too many to keep`);
  const { levels: before, undetermined } = settledLevels(circuit, start);
  const levels = names.map(() => new Uint8Array(ticks + 1));
  const inputLevels = inputHistories(circuit, start, changes, ticks);
  const inOrder = circuit.order ?? Int32Array.from(names, (_, w) => w);
  const level = (wire: number, tick: number): number => (tick < 0 ? before[wire] : levels[wire][tick]);
  /** What the legs say at a tick: 1 for a wire that shall be on. */
  const said = (wire: number, tick: number): number => {
    const joined = joinLevel(circuit, wire, (leg) => level(leg, tick));
    return kinds[wire] === 'inverter' ? 1 - joined : joined;
  };
  for (let tick = 0; tick <= ticks; tick++) {
    for (let round = 0, again = true; again; round++) {
      again = false;
      for (const wire of inOrder) {
        let now: number;
        if (kinds[wire] === 'constant') now = source[wire];
        else if (kinds[wire] === 'input') now = inputLevels[source[wire]][tick] ^ inverted[wire];
        else {
          const on = circuit.ticksOn[wire];
          const off = circuit.ticksOff[wire];
          // Off slowly: 1 while the legs said so at any tick of the window. On slowly: while they did all along.
          const any = off >= on ? 1 : 0;
          now = 1 - any;
          for (let back = Math.min(on, off); back <= Math.max(on, off); back++) {
            if (said(wire, tick - back) === any) {
              now = any;
              break;
            }
          }
        }
        if (levels[wire][tick] !== now) {
          levels[wire][tick] = now;
          again = circuit.order === null && round < wires;
        }
      }
    }
  }
  return { circuit, ticks, before, levels, undetermined };
}

/** Value of every input by tick, as its wires see it. */
function inputHistories(
  circuit: Circuit,
  start: Pattern,
  changes: readonly InputChange[],
  ticks: number,
): Uint8Array[] {
  const inOrder = changes.map((change, at) => ({ ...change, at }));
  inOrder.sort((a, b) => a.tick - b.tick || a.at - b.at);
  const histories = circuit.inputs.map((_, i) => new Uint8Array(ticks + 1).fill(start[i]));
  for (const { tick, input, value } of inOrder) {
    const seen = tick + circuit.inputs[input].tick;
    if (seen <= ticks) histories[input].fill(value, seen);
  }
  return histories;
}

/** Levels once everything has settled under a pattern. */
export function settledLevels(
  circuit: Circuit,
  pattern: Pattern,
): { readonly levels: Uint8Array; readonly undetermined: readonly number[] } {
  const UNKNOWN = 2;
  const { kinds, source, inverted, names } = circuit;
  const levels = new Uint8Array(names.length).fill(UNKNOWN);
  const inOrder = circuit.order ?? Int32Array.from(names, (_, w) => w);
  const run = (): void => {
    for (let round = 0, again = true; again && round <= names.length; round++) {
      again = false;
      for (const wire of inOrder) {
        let now: number;
        if (kinds[wire] === 'constant') now = source[wire];
        else if (kinds[wire] === 'input') now = pattern[source[wire]] ^ inverted[wire];
        else {
          now = joinLevel(circuit, wire, (leg) => levels[leg]);
          if (kinds[wire] === 'inverter' && now !== UNKNOWN) now = 1 - now;
        }
        if (now !== levels[wire]) {
          levels[wire] = now;
          again = circuit.order === null;
        }
      }
    }
  };
  run();
  const undetermined: number[] = [];
  levels.forEach((level, wire) => {
    if (level === UNKNOWN) undetermined.push(wire);
  });
  // An unknown wire is taken as 0 until the others say otherwise; what follows from that follows.
  for (let wire = 0; wire < levels.length; wire++) if (levels[wire] === UNKNOWN) levels[wire] = 0;
  if (undetermined.length > 0) run();
  return { levels, undetermined };
}

/** OR of the legs, or AND; levels 0, 1 and 2 for unknown. */
function joinLevel(circuit: Circuit, wire: number, of: (leg: number) => number): number {
  const decisive = circuit.logic === 'or' ? 1 : 0;
  let level = 1 - decisive;
  for (const leg of legsOfWire(circuit, wire)) {
    const said = of(leg);
    if (said === decisive) return decisive;
    if (said === 2) level = 2;
  }
  return level;
}

/** A change of one wire. */
export interface LevelChange {
  readonly tick: number;
  readonly level: number;
}

/** The changes of a wire in the order of ticks. */
export function changesOf(history: History, wire: number): LevelChange[] {
  const changes: LevelChange[] = [];
  let last = history.before[wire];
  history.levels[wire].forEach((level, tick) => {
    if (level !== last) changes.push({ tick, level });
    last = level;
  });
  return changes;
}

/** Simulates one transition until everything has settled. */
export function simulateTransition(circuit: Circuit, from: Pattern, to: Pattern): History {
  const changes = circuit.inputs.flatMap((_, input): InputChange[] =>
    from[input] === to[input] ? [] : [{ tick: 0, input, value: to[input] === 1 ? 1 : 0 }],
  );
  return simulate(circuit, from, changes, slowestPath(circuit) + 1);
}

/** An upper bound on the ticks from a change of the inputs until nothing moves any more; crude but cheap. */
export function slowestPath(circuit: Circuit): number {
  const { order, names } = circuit;
  const longest = new Int32Array(names.length);
  if (order === null) {
    const delays = names.map((_, w) => Math.max(circuit.ticksOn[w], circuit.ticksOff[w]));
    return delays.reduce((sum, ticks) => sum + ticks, 0) + Math.max(0, ...circuit.inputs.map((i) => i.tick));
  }
  let most = 0;
  for (const wire of order) {
    if (circuit.kinds[wire] === 'input') longest[wire] = circuit.inputs[circuit.source[wire]].tick;
    for (const leg of legsOfWire(circuit, wire)) longest[wire] = Math.max(longest[wire], longest[leg]);
    longest[wire] += Math.max(circuit.ticksOn[wire], circuit.ticksOff[wire]);
    most = Math.max(most, longest[wire]);
  }
  return most;
}
