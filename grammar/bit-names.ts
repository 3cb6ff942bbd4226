// The square brackets behind a name. They are taken into the token of the name before the parser sees it, so that for
// the parser `c[i + 1]` is one name wherever a name may stand.

import type { IToken } from 'chevrotain';
import { evaluateIndex, isIndexForm, readArithmetic, variablesOf } from './index-form.ts';
import { INDEX_LIMIT } from './operators.ts';
import { quote } from './quote.ts';
import type { IndexForm, IndexVariable, SyntaxFault, WrittenName } from './syntax.ts';
import * as t from './tokens.ts';
import { fault, placeOf } from './wording.ts';

/** Takes the index that begins with token number `open` of `all` into `name`; `next` is the first token behind it. */
export function takeIndex(
  name: IToken,
  all: readonly IToken[],
  open: number,
): { next: number; fault: SyntaxFault | null } {
  const close = closingOf(all, open);
  if (close === null) {
    const message = 'this index is never closed';
    return {
      next: open + 1,
      fault: fault('missing-bracket', placeOf(all[open]!), message, 'write "]" behind the index'),
    };
  }
  const inside = all.slice(open + 1, close);
  const whole = { start: all[open]!.startOffset, end: t.endOf(all[close]!) };
  const colon = inside.findIndex((token) => token.tokenType === t.Colon);
  const first = readArithmetic(colon < 0 ? inside : inside.slice(0, colon), whole);
  const last = colon < 0 ? null : readArithmetic(inside.slice(colon + 1), whole);
  const next = close + 1;
  if (!isIndexForm(first)) return { next, fault: first };
  if (last !== null && !isIndexForm(last)) return { next, fault: last };
  const base = name.image;
  const shown = `${base}[${inside.map((token) => token.image).join('')}]`;
  name.endOffset = all[close]!.endOffset!;
  if (last === null && variablesOf(first).length === 0) {
    const value = indexValue(first, shown, () => 0);
    name.image = typeof value === 'number' ? `${base}[${value}]` : shown;
    return { next, fault: typeof value === 'number' ? null : value };
  }
  name.image = shown;
  name.payload = { name: base, first, last } satisfies WrittenName;
  return { next, fault: null };
}

/** The number that `form` comes to, or why it is no index. */
export function indexValue(
  form: IndexForm,
  shown: string,
  numberOf: (variable: string) => number,
): number | SyntaxFault {
  const value = evaluateIndex(form, numberOf);
  const at = { start: form.start, end: form.end };
  if (typeof value === 'string') {
    return fault('no-such-index', at, `${quote(shown)} has no index: ${value}`, 'write other numbers');
  }
  if (Math.abs(value) <= INDEX_LIMIT) return value;
  return fault(
    'no-such-index',
    at,
    `the index of ${quote(shown)} comes to ${value}; an index is a whole number from -${INDEX_LIMIT} to ${INDEX_LIMIT}`,
    'use smaller numbers',
  );
}

/** What a token of type `Name` says. */
export function writtenName(token: IToken): WrittenName {
  return (token.payload as WrittenName | undefined) ?? { name: token.image, first: null, last: null };
}

/** The name of a token without its index. */
export function baseOf(token: IToken): string {
  if (token.payload !== undefined) return (token.payload as WrittenName).name;
  const bracket = token.image.indexOf('[');
  return bracket < 0 ? token.image : token.image.slice(0, bracket);
}

/** Every mention of a loop variable in a name. */
export function variablesIn({ first, last }: WrittenName): IndexVariable[] {
  return [first, last].flatMap((form) => (form === null ? [] : variablesOf(form)));
}

/** A name where only one bit makes sense. */
export function rangeFault(token: IToken): SyntaxFault {
  const { name } = writtenName(token);
  return fault(
    'range-of-bits',
    placeOf(token),
    `${quote(token.image)} is a range of bits, and here stands a single signal`,
    `name one bit, as in ${name}[0], and use "for i in 0..7: ..." for an equation for every bit`,
  );
}

/** Number of the `]` that belongs to the `[`; null when the line or the statement ends before. */
function closingOf(all: readonly IToken[], open: number): number | null {
  const ends = [t.LineEnd, t.Semicolon, t.Equals];
  for (let index = open + 1; index < all.length; index++) {
    const { tokenType, image } = all[index]!;
    if (tokenType === t.Close && image === ']') return index;
    if (ends.includes(tokenType) || (tokenType === t.Open && image !== '(')) return null;
  }
  return null;
}
