// The circuit: a network as timing sees it. Found networks and networks as built are both turned into one of these, and
// everything in this folder works on it.
//
// Wires are numbered. A wire is a constant, an input, an inverter or a join of others; what was built may also have a
// run, which follows its leg some ticks later, and a tap, a further separate output of its legs. Runs and taps have the
// level of their legs, as a join, but tie nothing (tie-joins.ts). Legs are packed in one array. Unlike the network of the search a join may be a wire of its own with its own delay,
// an input wire may be the complement of its input, and every wire has two delays: `ticksOn` from the moment its legs
// say 1 to the moment it is 1, `ticksOff` likewise for 0.
//
// When the two delays differ, a change that is overtaken by a later one never shows: a wire that goes on quickly and
// off slowly stays on through a short gap. Exactly: with off >= on the wire is 1 at tick t when its legs said 1 at any
// tick from t - off to t - on; with on > off, when they said 1 at all of the ticks from t - on to t - off. With equal
// delays both are the plain shift in time. No state is kept, so the level of a wire is a function of what its legs were
// within a window; the simulators, the bit-parallel tables and the clauses all use this definition.
//
// A pattern gives every input a value; bit i of its number is input i. A transition goes from one pattern to another:
// everything has settled in the first, at tick 0 the inputs are changed, and input i shows it at tick `inputs[i].tick`.

import type { JoinLogic } from '../target/target.ts';

export type WireKind = 'constant' | 'input' | 'inverter' | 'join' | 'run' | 'tap';

export interface CircuitInput {
  readonly name: string;
  /** Ticks from the change of the input to the change on its wires. */
  readonly tick: number;
}

export interface CircuitOutput {
  readonly name: string;
  /** On the low rail the level of the wire is the complement of what the name says. */
  readonly rail: 'high' | 'low';
  readonly wire: number;
  /** Latest tick that is asked for, or null. */
  readonly by: number | null;
}

/** What the target says about the endurance of an inverter. */
export interface Endurance {
  /** Shortest pulse, in ticks, that an inverter passes on; 0 for every pulse. */
  readonly minPulse: number;
  readonly wear: { readonly changes: number; readonly window: number } | null;
}

export interface Circuit {
  readonly logic: JoinLogic;
  readonly inputs: readonly CircuitInput[];
  readonly outputs: readonly CircuitOutput[];
  /** By wire; the name under which screens show it. All different. */
  readonly names: readonly string[];
  readonly kinds: readonly WireKind[];
  /** By wire: the level of a constant, the number of an input, else -1. */
  readonly source: Int32Array;
  /** By wire: 1 where an input wire is the complement of its input. */
  readonly inverted: Uint8Array;
  /** Legs of wire `w`: `legs[legStart[w]] .. legs[legStart[w + 1] - 1]`. Empty for constants and inputs. */
  readonly legStart: Int32Array;
  readonly legs: Int32Array;
  /** By wire, in ticks; 0 for constants and inputs. */
  readonly ticksOn: Int32Array;
  readonly ticksOff: Int32Array;
  /** Wires, every one behind its legs; null when wires feed back into themselves. */
  readonly order: Int32Array | null;
  readonly endurance: Endurance;
}

/** A wire in plain words, for `makeCircuit`. */
export interface WirePlan {
  readonly name: string;
  readonly kind: WireKind;
  readonly source?: number;
  readonly inverted?: boolean;
  readonly legs?: readonly number[];
  readonly ticksOn?: number;
  readonly ticksOff?: number;
}

/** Packs a circuit. Legs may name any wire; where they run in a circle, `order` is null. */
export function makeCircuit(
  logic: JoinLogic,
  inputs: readonly CircuitInput[],
  wires: readonly WirePlan[],
  outputs: readonly CircuitOutput[],
  endurance: Endurance = { minPulse: 0, wear: null },
): Circuit {
  const legStart = new Int32Array(wires.length + 1);
  wires.forEach(({ legs = [] }, w) => {
    legStart[w + 1] = legStart[w] + legs.length;
  });
  const legs = new Int32Array(legStart[wires.length]);
  wires.forEach((wire, w) => {
    legs.set(wire.legs ?? [], legStart[w]);
  });
  return {
    logic,
    inputs,
    outputs,
    names: wires.map(({ name }) => name),
    kinds: wires.map(({ kind }) => kind),
    source: Int32Array.from(wires, ({ source }) => source ?? -1),
    inverted: Uint8Array.from(wires, ({ inverted }) => (inverted === true ? 1 : 0)),
    legStart,
    legs,
    ticksOn: Int32Array.from(wires, ({ ticksOn }) => ticksOn ?? 0),
    ticksOff: Int32Array.from(wires, ({ ticksOff }) => ticksOff ?? 0),
    order: orderOf(legStart, legs),
    endurance,
  };
}

/** The legs of a wire. */
export function legsOfWire(circuit: Circuit, wire: number): Int32Array {
  return circuit.legs.subarray(circuit.legStart[wire], circuit.legStart[wire + 1]);
}

/** Every wire behind its legs, smaller numbers first where that leaves a choice; null when there is a circle. */
function orderOf(legStart: Int32Array, legs: Int32Array): Int32Array | null {
  const wires = legStart.length - 1;
  const open = Int32Array.from({ length: wires }, (_, w) => legStart[w + 1] - legStart[w]);
  const readers: number[][] = Array.from({ length: wires }, () => []);
  for (let w = 0; w < wires; w++) {
    for (let l = legStart[w]; l < legStart[w + 1]; l++) readers[legs[l]].push(w);
  }
  const order = new Int32Array(wires);
  let placed = 0;
  for (let w = 0; w < wires; w++) if (open[w] === 0) order[placed++] = w;
  for (let at = 0; at < placed; at++) {
    for (const reader of readers[order[at]]) if (--open[reader] === 0) order[placed++] = reader;
  }
  return placed === wires ? order : null;
}

/** Broken invariants in sentences; an empty list means that all is well. */
export function circuitFaults(circuit: Circuit): string[] {
  const faults: string[] = [];
  const { names, kinds, source, legStart, legs, ticksOn, ticksOff, inputs } = circuit;
  if (new Set(names).size !== names.length) faults.push('two wires have the same name');
  kinds.forEach((kind, w) => {
    const count = legStart[w + 1] - legStart[w];
    const hasLegs = kind !== 'constant' && kind !== 'input';
    if (hasLegs !== count > 0) faults.push(`wire ${names[w]}, ${kind}, has ${count} legs`);
    if (kind === 'input' && !(source[w] >= 0 && source[w] < inputs.length)) {
      faults.push(`wire ${names[w]} has the input ${source[w]}`);
    }
    if (kind === 'constant' && source[w] !== 0 && source[w] !== 1) {
      faults.push(`wire ${names[w]} has the constant level ${source[w]}`);
    }
    if (kind === 'inverter' && (ticksOn[w] < 1 || ticksOff[w] < 1)) {
      faults.push(`wire ${names[w]} is an inverter that takes no time`);
    }
  });
  for (const leg of legs) if (leg < 0 || leg >= names.length) faults.push(`there is a leg ${leg}`);
  for (const { name, wire } of circuit.outputs) {
    if (wire < 0 || wire >= names.length) faults.push(`output ${name} is wire ${wire}`);
  }
  return faults;
}

/** A pattern as bits of a list: the value of every input, 0 or 1. */
export type Pattern = Uint8Array;

/** The pattern of a number, bit i for input i. */
export function patternOf(row: number, inputs: number): Pattern {
  return Uint8Array.from({ length: inputs }, (_, i) => Math.floor(row / 2 ** i) % 2);
}
