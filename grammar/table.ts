// The rows of a table: `minterms(1, 3, 5..7) + free(0, 2)`, `Σm(1, 3) + d(0)`, `ΠM(0, 4) · D(2)`. Only here are `m`, `M`,
// `d` and `D` words. Whether the rows exist is not asked here: that depends on the left side.

import type { IToken } from 'chevrotain';
import { INFIX_BY_SPELLING, type RowKind, TABLE_WORDS } from './operators.ts';
import { quote } from './quote.ts';
import type { RowList, RowRange, SyntaxFault, Table } from './syntax.ts';
import * as t from './tokens.ts';
import { fault, placeOf } from './wording.ts';

const SIGN_IN_WORDS = /^(?:sum|sop|sigma|prod|product|pos|pi)$/i;
/** What nobody calls a signal of a function with a list of names. */
const FIXED_WORDS = /^(?:min|max)terms$/i;
const SHAPE = 'write f(a, b, c) = minterms(1, 3, 5..7) + free(0, 2)';

/** Whether the right side in `tokens` is a table; `named` says whether the left side lists names. */
export function isTable(tokens: readonly IToken[], named: boolean): boolean {
  const [first, second] = tokens;
  if (first === undefined) return false;
  if (first.tokenType === t.TableSign) return true;
  const word = wordOf(first);
  if (word === null || second?.image !== '(') return false;
  // Without names on the left a word of one letter may well be a name of its own.
  const third = tokens[2]?.tokenType;
  const rows = third === t.Digits || third === t.Close;
  return (named || first.image.length > 1) && (rows || (named && FIXED_WORDS.test(first.image)));
}

/** Reads `tokens`, not empty; null when there are faults, which are added to `faults`. */
export function readTable(tokens: readonly IToken[], inverted: boolean, faults: SyntaxFault[]): Table | null {
  const lists: RowList[] = [];
  const before = faults.length;
  let at = 0;
  for (;;) {
    const start = at;
    const sign = tokens[at]?.tokenType === t.TableSign ? tokens[at++] : undefined;
    const word = tokens[at] !== undefined && wordOf(tokens[at]!) !== null ? tokens[at++] : undefined;
    const kind = kindOf(sign, word, faults);
    if (kind === null || tokens[at]?.image !== '(') {
      if (faults.length === before) faults.push(noListFault(tokens, at, start));
      return null;
    }
    let close = at;
    while (tokens[close]!.tokenType !== t.Close) close++;
    const place = { start: tokens[start]!.startOffset, end: t.endOf(tokens[close]!) };
    lists.push({ kind, rows: readRows(tokens.slice(at + 1, close), faults), ...place });
    at = close + 1;
    if (at === tokens.length) break;
    const { operator } = INFIX_BY_SPELLING.get(tokens[at]!.image.toLowerCase()) ?? {};
    if (operator !== 'or' && operator !== 'and') {
      faults.push(
        fault(
          'wrong-table',
          placeOf(tokens[at]!),
          `${quote(tokens[at]!.image)} does not belong in a table`,
          SHAPE,
        ),
      );
      return null;
    }
    at++;
  }
  if (faults.length > before) return null;
  return { lists, inverted, start: tokens[0]!.startOffset, end: t.endOf(tokens.at(-1)!) };
}

/** Tables that begin with a word for their sign, `sum m(1, 2)`; null for anything else. */
export function spelledSignFault(tokens: readonly IToken[]): SyntaxFault | null {
  const [sign, next] = tokens;
  if (sign === undefined || !SIGN_IN_WORDS.test(sign.image)) return null;
  const rows = next?.image === '(' ? tokens[2] : tokens[3];
  const word = next?.image === '(' || (next !== undefined && wordOf(next) !== null);
  if (!word || rows?.tokenType !== t.Digits) return null;
  return fault('wrong-table', placeOf(sign), `${quote(sign.image)} begins no table`, SHAPE);
}

export function unlistedFault(tokens: readonly IToken[]): SyntaxFault {
  return fault(
    'wrong-table',
    { start: tokens[0]!.startOffset, end: t.endOf(tokens.at(-1)!) },
    'nothing says of which names these are the rows',
    'write the names behind that of the function, f(a, b, c) = ...; the first is the most significant',
  );
}

function wordOf({ tokenType, image }: IToken): RowKind | null {
  if (tokenType !== t.Name && tokenType !== t.FunctionWord) return null;
  return TABLE_WORDS.get(image.length === 1 ? image : image.toLowerCase()) ?? null;
}

function kindOf(sign: IToken | undefined, word: IToken | undefined, faults: SyntaxFault[]): RowKind | null {
  const bySign = sign === undefined ? null : /[Σ∑]/.test(sign.image) ? 'on' : 'off';
  if (word === undefined) return bySign;
  const byWord = wordOf(word)!;
  if (byWord === 'free' || bySign === null || bySign === byWord) return byWord;
  faults.push(
    fault(
      'wrong-table',
      { start: sign!.startOffset, end: t.endOf(word) },
      `${quote(sign!.image + word.image)}: a sum is made of minterms, m, and a product of maxterms, M`,
      'write Σm(...) with the rows where the function is 1, or ΠM(...) with those where it is 0',
    ),
  );
  return null;
}

function readRows(tokens: readonly IToken[], faults: SyntaxFault[]): RowRange[] {
  const rows: RowRange[] = [];
  for (let at = 0; at < tokens.length; at++) {
    const first = tokens[at]!;
    const from = rowOf(first);
    const last = tokens[at + 1]?.tokenType === t.Range ? tokens[at + 2] : first;
    const to = last === undefined ? null : rowOf(last);
    if (from === null || to === null) {
      const wrong = from === null ? first : (last ?? tokens[at + 1]!);
      faults.push(rowFault(wrong));
      return rows;
    }
    rows.push({ from, to, start: first.startOffset, end: t.endOf(last!) });
    if (last !== first) at += 2;
    const comma = tokens[++at];
    if (comma !== undefined && (comma.tokenType !== t.Comma || at === tokens.length - 1)) {
      faults.push(rowFault(comma));
      return rows;
    }
  }
  return rows;
}

function rowOf({ tokenType, image }: IToken): number | null {
  return tokenType === t.Digits && /^[0-9]{1,15}$/.test(image) ? Number(image) : null;
}

function rowFault(token: IToken): SyntaxFault {
  const what = token.tokenType === t.Comma ? 'a row is missing behind this comma' : null;
  return fault(
    'wrong-row',
    placeOf(token),
    what ?? `${quote(token.image)} is not a row of a table`,
    'write the numbers of the rows with commas between them, ranges as 5..7',
  );
}

function noListFault(tokens: readonly IToken[], at: number, start: number): SyntaxFault {
  const token = tokens[at] ?? tokens.at(-1)!;
  const message =
    at === start && tokens[at] !== undefined
      ? `${quote(token.image)} does not belong in a table`
      : `a list of rows in brackets is missing ${tokens[at] === undefined ? 'behind' : 'before'} ${quote(token.image)}`;
  return fault('wrong-table', placeOf(token), message, SHAPE);
}
