// Short expressions for people: products, sums and exclusive ORs over symbols, a symbol being anything that has a name
// and a table (an input, a named signal, a wire). They print in the equation language (`p3 (g2 + p2)`, `a'`, `a ^ b`),
// can be evaluated, and have a cost that says how much there is to read.
//
// The makers tidy as they go: equal operands once, a product inside a product and a sum inside a sum opened, and what
// a literal beside it makes superfluous taken out: x (x + y) is x, x (x' + y) is x y, and the same with the roles of
// product and sum exchanged.

import { lastMask, type Table, wordsFor } from '../truth/table.ts';

export interface Named {
  readonly name: string;
  readonly table: Table;
}

export type Form =
  | { readonly kind: 'constant'; readonly value: 0 | 1 }
  | { readonly kind: 'symbol'; readonly symbol: Named }
  | { readonly kind: 'not'; readonly of: Form }
  | { readonly kind: 'and' | 'or' | 'xor'; readonly of: readonly Form[] };

export function constant(value: 0 | 1): Form {
  return { kind: 'constant', value };
}

export function symbol(of: Named): Form {
  return { kind: 'symbol', symbol: of };
}

export function isLiteral(form: Form): boolean {
  return form.kind === 'symbol' || (form.kind === 'not' && form.of.kind === 'symbol');
}

/** The complement, written with as few complement signs as possible. */
export function complement(form: Form): Form {
  switch (form.kind) {
    case 'constant':
      return constant(form.value === 1 ? 0 : 1);
    case 'not':
      return form.of;
    case 'symbol':
    case 'xor':
      return { kind: 'not', of: form };
    default: {
      const pushed = group(form.kind === 'and' ? 'or' : 'and', form.of.map(complement));
      const wrapped: Form = { kind: 'not', of: form };
      const limit = form.kind === 'or' && form.of.every(isLiteral) ? 1 : 0;
      return signs(pushed) <= signs(wrapped) + limit ? pushed : wrapped;
    }
  }
}

export function product(factors: readonly Form[]): Form {
  return group('and', factors);
}

export function sum(terms: readonly Form[]): Form {
  return group('or', terms);
}

export function exclusive(of: readonly Form[]): Form {
  return of.length === 1 ? of[0] : { kind: 'xor', of };
}

function group(kind: 'and' | 'or', operands: readonly Form[]): Form {
  const inner = kind === 'and' ? 'or' : 'and';
  const strong = kind === 'and' ? 0 : 1; // this constant decides the result, the other one can go
  let list = operands.flatMap((operand) => (operand.kind === kind ? operand.of : [operand]));
  if (list.some((operand) => operand.kind === 'constant' && operand.value === strong))
    return constant(strong);
  list = list.filter(({ kind: own }) => own !== 'constant');
  const literals = new Set(list.filter(isLiteral).map(printForm));
  const opposite = (operand: Form): boolean =>
    isLiteral(operand) && literals.has(printForm(complement(operand)));
  if (list.some(opposite)) return constant(strong);
  const seen = new Set<string>();
  const kept: Form[] = [];
  for (const operand of list) {
    let form = operand;
    if (operand.kind === inner) {
      if (operand.of.some((part) => literals.has(printForm(part)))) continue;
      const parts = operand.of.filter((part) => !opposite(part));
      if (parts.length < operand.of.length) form = group(inner, parts);
    }
    const text = printForm(form);
    if (!seen.has(text)) kept.push(form);
    seen.add(text);
  }
  if (kept.length === 0) return constant(strong === 0 ? 1 : 0);
  return kept.length === 1 ? kept[0] : { kind, of: kept };
}

/** Literals before brackets, otherwise as they stand. */
export function printForm(form: Form): string {
  const inside = (part: Form): string =>
    part.kind === 'and' || part.kind === 'or' || part.kind === 'xor'
      ? `(${printForm(part)})`
      : printForm(part);
  switch (form.kind) {
    case 'constant':
      return String(form.value);
    case 'symbol':
      return form.symbol.name;
    case 'not':
      return `${inside(form.of)}'`;
    case 'and':
      return literalsFirst(form.of).map(inside).join(' ');
    case 'or':
      return literalsFirst(form.of)
        .map((part) => (part.kind === 'and' ? printForm(part) : inside(part)))
        .join(' + ');
    case 'xor':
      return form.of.map(inside).join(' ^ ');
  }
}

function literalsFirst(parts: readonly Form[]): Form[] {
  return [...parts.filter(isLiteral), ...parts.filter((part) => !isLiteral(part))];
}

/** How much there is to read: two a name, one a complement sign, one a pair of brackets. */
export function readingCost(form: Form): number {
  const text = printForm(form);
  const brackets = text.split('(').length - 1;
  return 2 * names(form) + signs(form) + brackets;
}

function names(form: Form): number {
  if (form.kind === 'constant' || form.kind === 'symbol') return 1;
  return form.kind === 'not' ? names(form.of) : form.of.reduce((count, part) => count + names(part), 0);
}

/** Number of complement signs. */
export function signs(form: Form): number {
  if (form.kind === 'constant' || form.kind === 'symbol') return 0;
  if (form.kind === 'not') return 1 + signs(form.of);
  return form.of.reduce((count, part) => count + signs(part), 0);
}

/** Does the symbol stand anywhere in the form? */
export function mentions(form: Form, name: string): boolean {
  if (form.kind === 'constant') return false;
  if (form.kind === 'symbol') return form.symbol.name === name;
  return form.kind === 'not' ? mentions(form.of, name) : form.of.some((part) => mentions(part, name));
}

/** The table of a form over `inputs` inputs. */
export function formTable(form: Form, inputs: number): Table {
  switch (form.kind) {
    case 'constant':
      return new Uint32Array(wordsFor(inputs)).fill(form.value === 1 ? lastMask(inputs) : 0);
    case 'symbol':
      return form.symbol.table;
    case 'not':
      return formTable(form.of, inputs).map((word) => ~word & lastMask(inputs));
    default: {
      const [first, ...rest] = form.of.map((part) => formTable(part, inputs));
      const result = first.slice();
      for (const table of rest) {
        if (form.kind === 'and') for (let w = 0; w < result.length; w++) result[w] &= table[w];
        else if (form.kind === 'or') for (let w = 0; w < result.length; w++) result[w] |= table[w];
        else for (let w = 0; w < result.length; w++) result[w] ^= table[w];
      }
      return result;
    }
  }
}
