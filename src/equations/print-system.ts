// A system as text in one settled form, which reads back to the same system: the same signals with the same numbers
// (inputs first, then definitions in order), the same operators around the same operands. Products stand side by side,
// complements are marked behind, and brackets stand wherever two operators meet that bind equally.

import { INFIX_BY_SPELLING, type InfixOperator, RAIL_WORDS } from '../../grammar/operators.ts';
import type { Expression, System } from './system.ts';

/** Ends with a line feed. The names of the signals must be names of the language. */
export function printSystem(system: System): string {
  const lines: string[] = [];
  const name = (signal: number): string => system.signals[signal]!;
  if (system.inputs.length > 0) {
    const shown = system.inputs.map(
      ({ signal, rail, tick }) => name(signal) + railAttribute(rail) + (tick > 0 ? ` @ ${tick}` : ''),
    );
    lines.push(`input ${shown.join(', ')}`);
  }
  if (system.outputs.length > 0) {
    const shown = system.outputs.map(
      ({ signal, rail, by }) => name(signal) + railAttribute(rail) + (by !== null ? ` by ${by}` : ''),
    );
    lines.push(`output ${shown.join(', ')}`);
  }
  const claims = new Map<number, Expression[]>();
  for (const { signal, expression } of system.claims ?? []) {
    const before = claims.get(signal);
    if (before === undefined) claims.set(signal, [expression]);
    else before.push(expression);
  }
  for (const { signal, expression } of system.definitions) {
    const sides = [expression, ...(claims.get(signal) ?? [])];
    const shown = sides.map((side) => printExpression(side, system.signals));
    lines.push(`${name(signal)} = ${shown.join(' = ')}`);
  }
  for (const { signal, expression } of system.free ?? []) {
    lines.push(`free ${name(signal)}: ${printExpression(expression, system.signals)}`);
  }
  for (const expression of system.never) lines.push(`never ${printExpression(expression, system.signals)}`);
  return `${lines.join('\n')}\n`;
}

/** One expression; `signals` are the names by number. */
export function printExpression(expression: Expression, signals: readonly string[]): string {
  return print(expression, signals).text;
}

interface Printed {
  readonly text: string;
  /** Strength of the operator outside all brackets; what needs no brackets anywhere has `CLOSED`. */
  readonly strength: number;
}

const CLOSED = 10;
const SIGNS: Readonly<Partial<Record<InfixOperator, string>>> = {
  or: ' + ',
  xor: ' ^ ',
  xnor: ' xnor ',
  implies: ' -> ',
  equals: ' <-> ',
};

function print(expression: Expression, signals: readonly string[]): Printed {
  const inner = (argument: Expression): Printed => print(argument, signals);
  switch (expression.kind) {
    case 'constant':
      return { text: String(expression.value), strength: CLOSED };
    case 'signal':
      return { text: signals[expression.signal]!, strength: CLOSED };
    case 'not':
      return { text: `${bracketed(inner(expression.argument), CLOSED - 1)}'`, strength: CLOSED };
    case 'implies':
    case 'equals':
      return infix(expression.kind, [expression.left, expression.right].map(inner));
    case 'mux':
      return call('mux', [expression.select, expression.when0, expression.when1].map(inner));
    case 'and':
    case 'or':
    case 'xor':
      if (expression.args.length > 1) return infix(expression.kind, expression.args.map(inner));
      return call(expression.kind, expression.args.map(inner));
    case 'xnor':
      if (expression.args.length === 2) return infix('xnor', expression.args.map(inner));
      return call('xnor', expression.args.map(inner));
    default:
      return call(expression.kind, expression.args.map(inner));
  }
}

function call(name: string, args: readonly Printed[]): Printed {
  return { text: `${name}(${args.map(({ text }) => text).join(', ')})`, strength: CLOSED };
}

function infix(operator: InfixOperator, args: readonly Printed[]): Printed {
  const { strength } = INFIX_BY_SPELLING.get(operator) ?? INFIX_BY_SPELLING.get(SIGNS[operator]!.trim())!;
  const shown = args.map((argument) => bracketed(argument, strength));
  const sign = SIGNS[operator];
  if (sign !== undefined) return { text: shown.join(sign), strength };
  // After an operand a word such as `nor` would be read as the sign between two, so a call needs a sign before it.
  // A constant behind a name looks like its subscript.
  const text = shown.reduce(
    (left, right) => left + (/^(?:x?n?(?:and|or)\(|[01]$)/.test(right) ? ' & ' : ' ') + right,
  );
  return { text, strength };
}

/** In brackets unless it binds tighter than `strength`. */
function bracketed({ text, strength: own }: Printed, strength: number): string {
  return own > strength ? text : `(${text})`;
}

function railAttribute(rail: string): string {
  return rail === RAIL_WORDS[0] ? '' : ` ${rail}`;
}
