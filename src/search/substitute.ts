// Expressions with a signal replaced, and what an expression mentions.

import type { Expression } from '../equations/system.ts';

/** Signals that stand in an expression. */
export function mentioned(expression: Expression): Set<number> {
  const found = new Set<number>();
  const visit = (e: Expression): void => {
    if (e.kind === 'signal') found.add(e.signal);
    for (const part of operandsOf(e)) visit(part);
  };
  visit(expression);
  return found;
}

/** The expression with `by` in place of a signal; what constants decide is worked out. */
export function substitute(e: Expression, signal: number, by: Expression): Expression {
  const inner = (part: Expression): Expression => substitute(part, signal, by);
  switch (e.kind) {
    case 'constant':
      return e;
    case 'signal':
      return e.signal === signal ? by : e;
    case 'not':
      return complement(inner(e.argument));
    case 'and':
    case 'or':
      return chain(e.kind, e.args.map(inner));
    case 'nand':
      return complement(chain('and', e.args.map(inner)));
    case 'nor':
      return complement(chain('or', e.args.map(inner)));
    case 'xor':
      return { kind: 'xor', args: e.args.map(inner) };
    case 'xnor':
      return { kind: 'xnor', args: e.args.map(inner) };
    case 'equals':
    case 'implies':
      return { kind: e.kind, left: inner(e.left), right: inner(e.right) };
    case 'mux':
      return { kind: 'mux', select: inner(e.select), when0: inner(e.when0), when1: inner(e.when1) };
    case 'maj': {
      const [a, b, c] = e.args.map(inner);
      return { kind: 'maj', args: [a, b, c] };
    }
  }
}

function operandsOf(e: Expression): readonly Expression[] {
  switch (e.kind) {
    case 'constant':
    case 'signal':
      return [];
    case 'not':
      return [e.argument];
    case 'equals':
    case 'implies':
      return [e.left, e.right];
    case 'mux':
      return [e.select, e.when0, e.when1];
    default:
      return e.args;
  }
}

/** NOT of an expression, without a double NOT. */
export function complement(e: Expression): Expression {
  if (e.kind === 'constant') return { kind: 'constant', value: e.value === 1 ? 0 : 1 };
  return e.kind === 'not' ? e.argument : { kind: 'not', argument: e };
}

/** AND or OR without the operands that constants make needless. */
function chain(kind: 'and' | 'or', args: readonly Expression[]): Expression {
  const deciding = kind === 'and' ? 0 : 1;
  if (args.some((arg) => arg.kind === 'constant' && arg.value === deciding)) {
    return { kind: 'constant', value: deciding };
  }
  const rest = args.filter((arg) => arg.kind !== 'constant');
  if (rest.length === 0) return { kind: 'constant', value: deciding === 0 ? 1 : 0 };
  return rest.length === 1 ? rest[0] : { kind, args: rest };
}
