// Statements as they are once buses are spelled out and loops unrolled: a name is a text, `c[4]`, and no index depends on
// anything any more.

import type { Constraint, DeclaredName, Definition, Freedom } from '../../grammar/syntax.ts';

/** One signal of an `input` or `output` line. */
export interface FlatName extends DeclaredName {
  /** Ends of the range it stands in, as they were written; absent when it stands alone. */
  readonly range?: readonly [number, number];
  /** A range with a fault: every bit of the name may be declared by it. */
  readonly unsure?: true;
}

export interface FlatDeclaration {
  readonly kind: 'input' | 'output';
  readonly names: readonly FlatName[];
  readonly whole: boolean;
}

/** All `first` and `last` are null, no node has an index. */
export type FlatStatement = FlatDeclaration | Definition | Freedom | Constraint;

/** The name in front of an index, and the index; null for a name without one. */
export function splitName(name: string): { base: string; index: number } | null {
  if (!name.endsWith(']')) return null;
  const bracket = name.indexOf('[');
  return { base: name.slice(0, bracket), index: Number(name.slice(bracket + 1, -1)) };
}
