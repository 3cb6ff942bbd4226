// Sorts the statements of a text by kind and finds what is said twice. The first of two wins, so that later checks
// have something to go on.

import { quote } from '../../grammar/quote.ts';
import type { Node, Side } from '../../grammar/syntax.ts';
import type { Diagnostic, Span } from '../source/diagnostic.ts';
import type { FlatName, FlatStatement } from './statements.ts';

export interface CollectedDefinition {
  readonly name: string;
  readonly at: Span;
  /** The names behind that of the function; null when there are none. */
  readonly list: readonly ListedName[] | null;
  /** The first defines, each further one is claimed. Empty when the statement has a fault. */
  readonly sides: readonly Side[];
}

export interface ListedName extends Span {
  readonly name: string;
}

export interface CollectedFreedom {
  readonly name: string;
  readonly at: Span;
  readonly expression: Node;
}

export interface Collected {
  readonly inputs: ReadonlyMap<string, FlatName>;
  readonly outputs: ReadonlyMap<string, FlatName>;
  /** In text order. */
  readonly definitions: ReadonlyMap<string, CollectedDefinition>;
  /** Names, without an index, of which a statement with a fault may define any bit. */
  readonly unsure: ReadonlySet<string>;
  readonly never: readonly { readonly expression: Node; readonly at: Span }[];
  readonly free: readonly CollectedFreedom[];
  readonly declaresInputs: boolean;
  readonly declaresOutputs: boolean;
}

/** Faults found on the way are added to `diagnostics`. */
export function collectStatements(
  statements: readonly FlatStatement[],
  diagnostics: Diagnostic[],
): Collected {
  const inputs = new Map<string, FlatName>();
  const outputs = new Map<string, FlatName>();
  const definitions = new Map<string, CollectedDefinition>();
  const never: { expression: Node; at: Span }[] = [];
  const free: CollectedFreedom[] = [];
  const unsure = new Set<string>();
  for (const statement of statements) {
    if (statement.kind === 'never') {
      if (statement.expression !== null) never.push({ expression: statement.expression, at: statement.at });
    } else if (statement.kind === 'free') {
      const { name, nameAt: at, expression } = statement;
      if (expression !== null) free.push({ name, at, expression });
    } else if (statement.kind === 'definition' && statement.unsure) {
      unsure.add(statement.name);
    } else if (statement.kind === 'definition') {
      const { name, nameAt: at, list, sides } = statement;
      const first = definitions.get(name);
      if (first === undefined) definitions.set(name, { name, at, list, sides });
      // A loop with a fault brings its names again and again.
      else if (sides.length > 0 || at.start !== first.at.start)
        diagnostics.push(definedTwice(name, at, first.at));
    } else {
      const declared = statement.kind === 'input' ? inputs : outputs;
      for (const entry of statement.names) {
        const first = declared.get(entry.name);
        if (first === undefined) declared.set(entry.name, entry);
        else if (statement.whole) diagnostics.push(declaredTwice(statement.kind, entry, first));
      }
    }
  }
  for (const { name, at } of definitions.values()) {
    const input = inputs.get(name);
    if (input !== undefined) diagnostics.push(inputDefined(name, at, input));
  }
  const declaresInputs = statements.some((statement) => statement.kind === 'input');
  const declaresOutputs = statements.some((statement) => statement.kind === 'output');
  return { inputs, outputs, definitions, unsure, never, free, declaresInputs, declaresOutputs };
}

function placeOf({ start, end }: Span): Span {
  return { start, end };
}

function definedTwice(name: string, at: Span, first: Span): Diagnostic {
  if (at.start === first.start) {
    return {
      severity: 'error',
      code: 'defined-twice',
      message: `every pass of the loop defines ${quote(name)} anew`,
      at,
      hint: 'give it an index that the loop counts, as in c[i + 1]',
    };
  }
  return {
    severity: 'error',
    code: 'defined-twice',
    message: `${quote(name)} is defined twice`,
    at,
    hint: 'choose another name for one of the two, or join them into one definition with +',
    related: [{ at: first, note: 'first defined here' }],
  };
}

function declaredTwice(kind: 'input' | 'output', second: FlatName, first: FlatName): Diagnostic {
  return {
    severity: 'error',
    code: 'declared-twice',
    message: `${quote(second.name)} is declared as ${kind === 'input' ? 'an input' : 'an output'} twice`,
    at: placeOf(second),
    hint: 'keep one of the two, with all its attributes',
    related: [{ at: placeOf(first), note: 'first declared here' }],
  };
}

function inputDefined(name: string, at: Span, input: FlatName): Diagnostic {
  return {
    severity: 'error',
    code: 'input-defined',
    message: `${quote(name)} is declared as an input and defined as well`,
    at,
    hint: 'an input comes from outside: take it out of the "input" line, or choose another name here',
    related: [{ at: placeOf(input), note: 'declared as an input here' }],
  };
}
