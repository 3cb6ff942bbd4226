// What the parser returns: statements as they stand in the text, with places and without meaning. Nothing here knows
// whether a name is an input, or whether a function takes three arguments; `src/equations` decides that.

import type { InfixOperator, RailWord, RowKind } from './operators.ts';

/** A half-open range of UTF-16 offsets into the text. */
export interface Place {
  readonly start: number;
  readonly end: number;
}

export type IndexOperator = '+' | '-' | '*' | '/' | '%' | 'negate';

export interface IndexVariable {
  readonly variable: string;
  readonly at: Place;
}

export type IndexStep = number | IndexVariable | IndexOperator;

/** A whole number that may depend on the variables of loops, as the steps of a stack machine (index-form.ts). */
export interface IndexForm extends Place {
  readonly steps: readonly IndexStep[];
}

/**
 * A name as it was written. An index without variables is part of `name` (`c[4]`). `first` alone is an index with
 * variables in it; with `last` it is a range of bits, in the order of the text.
 */
export interface WrittenName {
  /** Without the index when there is a `first`. */
  readonly name: string;
  readonly first: IndexForm | null;
  readonly last: IndexForm | null;
}

export type Node =
  /** `index` is there only when it depends on the variables of loops; else it is part of the name. */
  | ({ readonly kind: 'name'; readonly name: string; readonly index?: IndexForm } & Place)
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
export interface DeclaredName extends WrittenName, Place {
  readonly rail: RailWord | null;
  /** The number after `@` (inputs) or `by` (outputs). */
  readonly tick: number | null;
}

/** `from..to`, both included; one row is a range of one. */
export interface RowRange extends Place {
  readonly from: number;
  readonly to: number;
}

/** One list of rows of a table. */
export interface RowList extends Place {
  readonly kind: RowKind;
  readonly rows: readonly RowRange[];
}

/** `minterms(...) + free(...)` and its like: what the rows are rows of is said on the left side. */
export interface Table extends Place {
  readonly lists: readonly RowList[];
  /** The complement of the name was defined, so 0 and 1 change places. */
  readonly inverted: boolean;
}

/** One right side of a definition; exactly one of the two is there. */
export interface Side extends Place {
  readonly expression: Node | null;
  readonly table: Table | null;
}

export interface Definition extends WrittenName {
  readonly kind: 'definition';
  readonly nameAt: Place;
  /** The names in brackets behind the name, `f(a, b) = ...`; null when there are none. */
  readonly list: readonly (WrittenName & Place)[] | null;
  /** The first defines, each further one says the same in another way. Empty when the statement has a fault. */
  readonly sides: readonly Side[];
  /** There when, because of a fault, which bits of the name are defined is not known. */
  readonly unsure?: true;
  readonly extent: Place;
  readonly whole: boolean;
}

/** `free name: expression`: the definition of the name is not fixed where the expression is 1. */
export interface Freedom extends WrittenName {
  readonly kind: 'free';
  readonly nameAt: Place;
  readonly expression: Node | null;
  readonly extent: Place;
  readonly whole: boolean;
}

/** `for variable in from..to` over statements. */
export interface Loop {
  readonly kind: 'loop';
  readonly variable: string;
  readonly variableAt: Place;
  readonly from: IndexForm;
  readonly to: IndexForm;
  readonly body: readonly Statement[];
}

export interface Declaration {
  readonly kind: 'input' | 'output';
  readonly names: readonly DeclaredName[];
  readonly extent: Place;
  readonly whole: boolean;
}

export interface Constraint {
  readonly kind: 'never';
  readonly expression: Node | null;
  readonly at: Place;
  readonly whole: boolean;
}

/** `whole` is false when the statement has a fault: then only the names in it can be relied on. */
export type PlainStatement = Definition | Freedom | Declaration | Constraint;
export type Statement = PlainStatement | Loop;

/** A fault of the text, in the shape of a diagnostic. */
export interface SyntaxFault {
  readonly severity: 'error' | 'warning' | 'notice';
  readonly code: string;
  readonly message: string;
  readonly at: Place;
  readonly hint: string | null;
}

export interface ParsedText {
  readonly statements: readonly Statement[];
  /** At most `FAULT_LIMIT` and then one that says that there are more. */
  readonly faults: readonly SyntaxFault[];
  /** Whether a name has an index or a range that is not part of `name`. */
  readonly indexed: boolean;
}
