// ORs of equations that cannot be tied as they are written: an operand is a signal whose wire is declared active-low. In
// equations that is no fault, since the search builds what is asked for; but whoever joins these wires by hand gets
// something else. Each such OR is turned into a small built block that joins its operands, and explained like any other.

import type { BuiltBlock } from '../equations/built.ts';
import { elementOf } from '../equations/edit-built.ts';
import { printExpression } from '../equations/print-system.ts';
import type { Expression, System } from '../equations/system.ts';
import type { Span } from '../source/diagnostic.ts';

export interface UntiedOr {
  /** The operands joined, as a block: inputs on their declared rails, one join, what it is meant to be. */
  readonly block: BuiltBlock;
  /** The definition in which it stands. */
  readonly at: Span | null;
  readonly shown: string;
}

/** Every OR of two or more different signals, at least one of them active-low, in the order of the definitions. */
export function untiedOrs(system: System): UntiedOr[] {
  const rails = new Map<number, 'high' | 'low'>();
  const ticks = new Map<number, number>();
  for (const { signal, rail, tick } of system.inputs) {
    ticks.set(signal, tick);
    if (rail === 'high' || rail === 'low') rails.set(signal, rail);
  }
  for (const { signal, rail } of system.outputs)
    if (rail === 'high' || rail === 'low') rails.set(signal, rail);
  const found: UntiedOr[] = [];
  const seen = new Set<string>();
  for (const { signal, expression, at } of system.definitions) {
    walk(expression, (or) => {
      const operands = [...new Set(or.flatMap((arg) => (arg.kind === 'signal' ? [arg.signal] : [])))];
      const known = operands.filter((operand) => rails.has(operand));
      if (known.length < 2 || !known.some((operand) => rails.get(operand) === 'low')) return;
      const names = known.map((operand) => system.signals[operand]);
      const key = `${signal} ${names.join(' ')}`;
      if (seen.has(key)) return;
      seen.add(key);
      const shown = names.join(' + ');
      found.push({
        at,
        shown,
        block: blockOf(
          joinName(system.signals[signal], names),
          known.map((operand, n) => ({
            name: names[n],
            rail: rails.get(operand) ?? 'high',
            tick: ticks.get(operand) ?? 0,
          })),
          printExpression(
            { kind: 'or', args: known.map((operand) => ({ kind: 'signal', signal: operand })) },
            system.signals,
          ),
        ),
      });
    });
  }
  return found;
}

/** The block `name = join(...)` with `name is ...`, the OR of the inputs, or their AND; `text` is that in words. */
export function blockOf(
  name: string,
  inputs: readonly { readonly name: string; readonly rail: 'high' | 'low'; readonly tick: number }[],
  text: string,
  operator: 'or' | 'and' = 'or',
): BuiltBlock {
  const nowhere = { start: 0, end: 0 };
  const legs = inputs.map((input) => input.name);
  const args = legs.map((leg) => ({ kind: 'name' as const, name: leg, ...nowhere }));
  return {
    name: 'join',
    nameAt: nowhere,
    inputs: inputs.map((input) => ({ ...input, signal: input.name, at: null })),
    elements: [elementOf({ name, gate: 'join', legs })],
    meanings: [
      {
        wire: name,
        expression: { kind: 'infix', operator, args, depth: 2, ...nowhere },
        text,
        rail: 'high',
        part: false,
        at: nowhere,
        expressionAt: nowhere,
      },
    ],
    keep: [],
    outputs: [{ wire: name, rail: null, by: null, at: nowhere }],
  };
}

function joinName(name: string, taken: readonly string[]): string {
  let joined = name.replace(/[^A-Za-z0-9_]/g, '_');
  while (taken.includes(joined)) joined += '_';
  return joined;
}

function walk(expression: Expression, onOr: (args: readonly Expression[]) => void): void {
  switch (expression.kind) {
    case 'constant':
    case 'signal':
      return;
    case 'not':
      walk(expression.argument, onOr);
      return;
    case 'implies':
    case 'equals':
      walk(expression.left, onOr);
      walk(expression.right, onOr);
      return;
    case 'mux':
      for (const part of [expression.select, expression.when0, expression.when1]) walk(part, onOr);
      return;
    default:
      if (expression.kind === 'or') onOr(expression.args);
      for (const arg of expression.args) walk(arg, onOr);
  }
}
