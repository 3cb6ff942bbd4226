// Whether a line can only be the beginning of a statement. What is asked is a few tokens at the start of a line; a left
// side in its widest form is `!f[i]'(a, b)' =`.

import type { IToken, TokenType } from 'chevrotain';
import { beginsLoop } from './loop-head.ts';
import { STATEMENT_WORDS } from './operators.ts';
import * as t from './tokens.ts';

/** Whether a line that begins with token number `first` begins a statement. */
export function beginsStatement(all: readonly IToken[], first: number): boolean {
  const { tokenType: type, image } = all[first]!;
  if (type === t.Input || type === t.Output || type === t.Never || beginsLoop(all, first)) return true;
  if (type === t.Name && image.toLowerCase() === STATEMENT_WORDS.free) {
    if (all[first + 1]?.tokenType === t.Name && skipIndex(all, first + 2, t.Colon)) return true;
  }
  return beginsDefinition(all, first);
}

function beginsDefinition(all: readonly IToken[], first: number): boolean {
  let at = first;
  while (all[at]?.tokenType === t.Prefix || (at > first && all[at]?.image === '{')) at++;
  if (all[at] === undefined || !/^[A-Za-z_]/.test(all[at]!.image) || all[at]!.tokenType === t.Prefix)
    return false;
  if (all[at]!.tokenType === t.Infix) return false;
  at++;
  // The brackets behind the name hold an index or the names of a table: no operators but those of whole numbers.
  let depth = 0;
  for (; at < all.length; at++) {
    const { tokenType: type, image } = all[at]!;
    if (depth < 0) return false;
    if (type === t.Equals) return depth === 0;
    if (type === t.Open) depth++;
    else if (type === t.Close) depth--;
    else if (type === t.LineEnd || type === t.Semicolon) return false;
    else if (depth === 0 && type !== t.Postfix) return false;
    else if (depth > 0 && type === t.Infix && image !== '+' && image !== '*') return false;
  }
  return false;
}

/** Whether, behind an index if there is one, a token of the wanted type stands at number `at`. */
function skipIndex(all: readonly IToken[], at: number, wanted: TokenType): boolean {
  if (all[at]?.tokenType === wanted) return true;
  if (all[at]?.image !== '[') return false;
  let end = at;
  while (end < all.length && all[end]!.image !== ']' && all[end]!.tokenType !== t.LineEnd) end++;
  return all[end + 1]?.tokenType === wanted;
}
