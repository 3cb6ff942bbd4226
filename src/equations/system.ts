// A system of equations: what the reader wrote, with names resolved and buses and loops unrolled. It is the input of
// every later stage: the baseline reads its operators as written, the search reads its functions, the prover
// evaluates it on its own.
//
// Invariants (checked by `systemFaults` in check-system.ts):
// - signals are numbered 0..signals.length-1; inputs and defined signals are disjoint; names are unique;
// - `definitions` is ordered so that an expression mentions only inputs and signals defined before it;
// - n-ary nodes have at least one argument; `not` has exactly one, `implies` and `equals` two, `mux` and `maj` three;
// - `free` and `claims` stand in the order of the definitions they belong to; an expression of `free` mentions only
//   inputs and signals defined before its own, one of `claims` may mention any signal;
// - expression depth is limited by the reader, so recursion over an expression is safe.

import type { Span } from '../source/diagnostic.ts';

/** high: level = signal. low: level = NOT signal. either: one wire, the search chooses. both: two wires. */
export type Rail = 'high' | 'low' | 'either' | 'both';

/** Operators that take any number of arguments from one on (an infix chain of the same operator is one node). */
export type ChainOperator = 'and' | 'or' | 'nand' | 'nor';

export type Expression =
  | { readonly kind: 'constant'; readonly value: 0 | 1 }
  | { readonly kind: 'signal'; readonly signal: number }
  | { readonly kind: 'not'; readonly argument: Expression }
  | { readonly kind: ChainOperator; readonly args: readonly Expression[] }
  /** Parity of all arguments: a chain of infix XOR from the left, or `xor(...)`. */
  | { readonly kind: 'xor'; readonly args: readonly Expression[] }
  /** NOT parity of all arguments, `xnor(...)`; an infix XNOR is this with two arguments. */
  | { readonly kind: 'xnor'; readonly args: readonly Expression[] }
  | { readonly kind: 'implies'; readonly left: Expression; readonly right: Expression }
  | { readonly kind: 'equals'; readonly left: Expression; readonly right: Expression }
  | {
      readonly kind: 'mux';
      readonly select: Expression;
      readonly when0: Expression;
      readonly when1: Expression;
    }
  | { readonly kind: 'maj'; readonly args: readonly [Expression, Expression, Expression] };

export interface InputDeclaration {
  readonly signal: number;
  readonly rail: Rail;
  /** Tick at which the wire of this input settles; 0 unless declared. */
  readonly tick: number;
}

export interface OutputDeclaration {
  readonly signal: number;
  readonly rail: Rail;
  /** Latest tick allowed, or null when the output should be as fast as possible. */
  readonly by: number | null;
}

export interface Definition {
  readonly signal: number;
  readonly expression: Expression;
  readonly at: Span | null;
}

/**
 * Patterns on which a definition is not fixed, such as the free rows of a table. On each of them the signal may be built
 * as 0 or as 1, whatever its definition says there (in a table: 0); it is one choice, so every other equation, and every
 * claim, sees the signal that was built.
 */
export interface Freedom {
  readonly signal: number;
  /** 1 on the free patterns. A signal may have several of these: the patterns of all of them are free. */
  readonly expression: Expression;
  readonly at: Span | null;
}

/**
 * A further right side of a definition, `signal = first = expression`. The text is right only if it has the value of the
 * definition on every pattern that `never` allows and on which the signal is not free.
 */
export interface Claim {
  readonly signal: number;
  readonly expression: Expression;
  /** The right side in the text. */
  readonly at: Span | null;
}

export interface System {
  /** Name of every signal, by signal number. The name of a bit holds its index: `c[4]`. */
  readonly signals: readonly string[];
  /** In the order of declaration, or of first mention when nothing is declared. */
  readonly inputs: readonly InputDeclaration[];
  /** In the order of declaration, or of definition when nothing is declared. */
  readonly outputs: readonly OutputDeclaration[];
  readonly definitions: readonly Definition[];
  /** Input patterns for which any of these is 1 cannot happen. Expressions over inputs and defined signals. */
  readonly never: readonly Expression[];
  /** Where each of `never` stands in the text; same length. Absent when no text stands behind the system. */
  readonly neverAt?: readonly (Span | null)[];
  /** Absent when every definition is fixed. */
  readonly free?: readonly Freedom[];
  /** Absent when there are none. */
  readonly claims?: readonly Claim[];
}
