// A circuit as somebody built it, in his own words: every wire with what it is made of, nothing changed. Names have been
// checked, the order is one of evaluation; what a gate takes in inverters is decided later, by the target
// (src/network/lay-built.ts).

import type { GateWord } from '../../grammar/built-statements.ts';
import type { Node } from '../../grammar/syntax.ts';
import type { Span } from '../source/diagnostic.ts';

export type { GateWord } from '../../grammar/built-statements.ts';

export interface BuiltInput {
  /** The wire. A signal declared `both` gives two: `a` and `a_low`. */
  readonly name: string;
  readonly signal: string;
  /** low: the level of the wire is NOT signal. */
  readonly rail: 'high' | 'low';
  readonly tick: number;
  /** Null when the input is not declared but only mentioned. */
  readonly at: Span | null;
}

export interface BuiltElement {
  readonly name: string;
  readonly gate: GateWord;
  /** Names of wires that stand before this one, or the constants `0` and `1`. */
  readonly legs: readonly string[];
  /** Ticks of a run, else 0. */
  readonly delay: number;
  /** The whole line, the name in it, and each leg. */
  readonly at: Span;
  readonly nameAt: Span;
  readonly legsAt: readonly Span[];
}

/** What a wire is meant to carry. */
export interface BuiltMeaning {
  readonly wire: string;
  /** Over signals: the block's own and those of the equations around it. */
  readonly expression: Node;
  readonly rail: 'high' | 'low';
  /** The wire carries a piece of the signal: it is true only where the signal is. */
  readonly part: boolean;
  readonly at: Span;
  readonly expressionAt: Span;
}

export interface BuiltOutput {
  readonly wire: string;
  /** The rail that the `output` line states, null when it states none. */
  readonly rail: 'high' | 'low' | null;
  readonly by: number | null;
  readonly at: Span;
}

export interface BuiltBlock {
  readonly name: string;
  readonly nameAt: Span;
  readonly inputs: readonly BuiltInput[];
  /** Every element behind its legs, otherwise in the order of the text. */
  readonly elements: readonly BuiltElement[];
  readonly meanings: readonly BuiltMeaning[];
  /** Wires that stay as they are when the rest is made anew. */
  readonly keep: readonly string[];
  /** As declared; without an `output` line the wires that no other wire uses. */
  readonly outputs: readonly BuiltOutput[];
}
