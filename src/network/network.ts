// The network: the one central data structure. Everything that leaves the tool is one of these, the search rewrites
// them, the prover judges them and the printers draw them.
//
// A network knows two things, inverters and joins. A wire carries a level, 0 or 1. An inverter has legs; its level is
// NOT (OR of the levels of its legs), one tick after the latest leg. An output is a join of legs; its level is their
// OR, at once. Rails say what a level means: on the high rail the level is the signal, on the low rail it is its
// complement. Rails never change how a level is computed. Under a target whose joins are AND, read AND for OR in both
// places: the structure is the same.
//
// Wires are numbered: 0 and 1 are the constants of that level, then come the input wires, then the inverters in
// topological order, so that every leg of an inverter has a smaller number than the inverter itself. All legs of all
// inverters stand in one packed array with offsets, likewise the legs of the outputs; nothing is kept per node on the
// heap. In a found network every leg is an input wire or an inverter: joins are expanded into the legs of their
// consumers, and equal leg sets are reported as one join that is laid once.

export type WireRail = 'high' | 'low';

/** A wire that comes from outside. An input declared `both` gives two of these. */
export interface InputWire {
  /** Signal number in the system of equations. */
  readonly signal: number;
  readonly rail: WireRail;
  /** Tick at which the level settles. */
  readonly tick: number;
}

/** A wire that goes outside: a join of legs. An output declared `both` gives two of these. */
export interface OutputWire {
  /** Signal number in the system of equations. */
  readonly signal: number;
  readonly rail: WireRail;
}

export interface Network {
  readonly inputs: readonly InputWire[];
  readonly outputs: readonly OutputWire[];
  /** Number of inverters. */
  readonly size: number;
  /** Legs of inverter `i`: `legs[legStart[i]] .. legs[legStart[i + 1] - 1]`, wire numbers, ascending, no doubles. */
  readonly legStart: Int32Array;
  readonly legs: Int32Array;
  /** Legs of output `y`, packed in the same way; never empty (constant 0 is the leg 0). */
  readonly outputStart: Int32Array;
  readonly outputLegs: Int32Array;
}

/** Wire number of constant 0 and constant 1. */
export const ZERO = 0;
export const ONE = 1;
/** Wire number of input `i` is `FIRST_INPUT + i`. */
export const FIRST_INPUT = 2;

/** Wire number of the first inverter. */
export function firstInverter(network: Pick<Network, 'inputs'>): number {
  return FIRST_INPUT + network.inputs.length;
}
