// What the parser returns: statements as they stand in the text, with places and without meaning. Nothing here knows
// whether a name is an input, or whether a function takes three arguments; `src/equations` decides that.

import type { InfixOperator, RailWord } from './operators.ts';

/** A half-open range of UTF-16 offsets into the text. */
export interface Place {
  readonly start: number;
  readonly end: number;
}

export type Node =
  | ({ readonly kind: 'name'; readonly name: string } & Place)
  | ({ readonly kind: 'constant'; readonly value: 0 | 1 } & Place)
  | ({ readonly kind: 'not'; readonly argument: Node; readonly depth: number } & Place)
  /** Two or more operands; more than two only for `and`, `or` and `xor`, whose chains are one node. */
  | ({
      readonly kind: 'infix';
      readonly operator: InfixOperator;
      readonly args: readonly Node[];
      readonly depth: number;
    } & Place)
  /** `name(...)`; the place of the name is kept because faults of a call point at it. */
  | ({
      readonly kind: 'call';
      readonly name: string;
      readonly nameAt: Place;
      readonly args: readonly Node[];
      readonly depth: number;
    } & Place);

/** Levels of operators and calls above the deepest name of `node`, itself included; a name or constant has 1. */
export function depthOf(node: Node): number {
  return node.kind === 'name' || node.kind === 'constant' ? 1 : node.depth;
}

/** One name of an `input` or `output` line with its attributes; null where an attribute is not given. */
export interface DeclaredName extends Place {
  readonly name: string;
  readonly rail: RailWord | null;
  /** The number after `@` (inputs) or `by` (outputs). */
  readonly tick: number | null;
}

/** `whole` is false when the statement has a fault: then only the names in it can be relied on. */
export type Statement =
  | {
      readonly kind: 'definition';
      readonly name: string;
      readonly nameAt: Place;
      readonly expression: Node | null;
      readonly whole: boolean;
    }
  | { readonly kind: 'input' | 'output'; readonly names: readonly DeclaredName[]; readonly whole: boolean }
  | { readonly kind: 'never'; readonly expression: Node | null; readonly at: Place; readonly whole: boolean };

/** A fault of the text, in the shape of a diagnostic. */
export interface SyntaxFault {
  readonly severity: 'error' | 'warning';
  readonly code: string;
  readonly message: string;
  readonly at: Place;
  readonly hint: string | null;
}

export interface ParsedText {
  readonly statements: readonly Statement[];
  /** In the order of the text, at most `FAULT_LIMIT` and then one that says that there are more. */
  readonly faults: readonly SyntaxFault[];
}
