// A network as it stands: what a `built` block comes to once its gates are inverters and joins. Unlike a found network
// it keeps the wires that the reader named, joins and long runs among them, in the order of evaluation.
//
// Wires are numbered as in a network (network.ts): 0 and 1 are the constants, then the input wires, then everything that
// was built, every wire behind its legs. What a wire is made of:
// - `constant`, `input`: no legs;
// - `inverter`: NOT (OR of its legs); the legs are separate inputs and tie nothing;
// - `join`: OR of its legs, which are tied together: electrically the legs and the join are one wire;
// - `run`: a long wire in one direction, its single leg so many ticks later; a run of 0 ticks is the same piece of wire
//   as its leg and tied to it;
// - `tap`: a further separate output of the drivers that its legs name (inverters, inputs, runs); it is not tied to them.
// Under a target whose joins are AND, read AND for OR in both places.
//
// As drawn, level and tick of a wire follow from its legs. What joined wires really do to each other is a second
// question: built-nets.ts.

import type { Span } from '../source/diagnostic.ts';
import type { JoinLogic } from '../target/target.ts';
import type { WireRail } from './network.ts';

export type BuiltKind = 'constant' | 'input' | 'inverter' | 'join' | 'run' | 'tap';

export interface BuiltInputWire {
  /** Name of the signal; two wires of one signal when it was declared on both rails. */
  readonly signal: string;
  readonly rail: WireRail;
  readonly tick: number;
}

export interface BuiltOutputWire {
  readonly wire: number;
  /** The rail that the `output` line or the meaning of the wire states; high when nothing is stated. */
  readonly rail: WireRail;
  readonly by: number | null;
}

export interface BuiltNetwork {
  readonly name: string;
  readonly logic: JoinLogic;
  readonly inputs: readonly BuiltInputWire[];
  readonly outputs: readonly BuiltOutputWire[];
  /** By wire. The inverters inside a gate of several have names with a dot, `n3.1`, which no reader can give. */
  readonly names: readonly string[];
  readonly kinds: readonly BuiltKind[];
  /** Legs of wire `w`: `legs[legStart[w]] .. legs[legStart[w + 1] - 1]`, in the order of the text, no doubles. */
  readonly legStart: Int32Array;
  readonly legs: Int32Array;
  /** By wire: ticks of a run, else 0. */
  readonly delay: Int32Array;
  /** By wire: the index of the element of the block that it belongs to; -1 for constants and inputs. */
  readonly element: Int32Array;
  /** Wires that stay as they are when the rest is made anew. */
  readonly keep: readonly number[];
  /** By wire: where it stands in the text, null for constants and inputs that are only mentioned. */
  readonly at: readonly (Span | null)[];
}

/** The legs of a wire. */
export function builtLegs(built: Pick<BuiltNetwork, 'legStart' | 'legs'>, wire: number): Int32Array {
  return built.legs.subarray(built.legStart[wire], built.legStart[wire + 1]);
}

/** The number of the wire of that name, -1 when there is none. */
export function builtWire(built: Pick<BuiltNetwork, 'names'>, name: string): number {
  return built.names.indexOf(name);
}
