// The left side of a definition in its full form: NOT signs before or behind the name define the complement, brackets
// behind the name list what a function depends on.

import type { IToken } from 'chevrotain';
import { WORDS } from './operators.ts';
import * as t from './tokens.ts';

export interface LeftSide {
  /** Of type `Name`. */
  readonly name: IToken;
  /** Whether the complement of the name is defined. */
  readonly inverted: boolean;
  /** The names in brackets behind the name; null without brackets. */
  readonly list: readonly IToken[] | null;
}

/** Numbers of the "=" outside of all brackets. */
export function equalsOutside(tokens: readonly IToken[]): number[] {
  const found: number[] = [];
  let depth = 0;
  for (let index = 0; index < tokens.length; index++) {
    const type = tokens[index]!.tokenType;
    if (type === t.Open) depth++;
    else if (type === t.Close) depth--;
    else if (type === t.Equals && depth === 0) found.push(index);
  }
  return found;
}

/** Reads `tokens`, all that stands before the first "="; null when they are no left side. */
export function readLeftSide(tokens: readonly IToken[]): LeftSide | null {
  let at = 0;
  let inverted = false;
  let open = 0;
  while (tokens[at]?.tokenType === t.Prefix || (at > 0 && tokens[at]?.image === '{')) {
    if (tokens[at]!.tokenType === t.Open) open++;
    else inverted = !inverted;
    at++;
  }
  const name = tokens[at++];
  if (name === undefined || (name.tokenType !== t.Name && !isListHead(name))) return null;
  let list: IToken[] | null = null;
  while (at < tokens.length) {
    const { tokenType, image } = tokens[at]!;
    if (tokenType === t.Postfix) inverted = !inverted;
    else if (tokenType === t.Close && open > 0) open--;
    else if (image === '(' && tokenType === t.Open && list === null) {
      list = listAt(tokens, at);
      if (list === null) return null;
      at += 2 * list.length;
    } else return null;
    at++;
  }
  if (open > 0) return null;
  return { name: { ...name, tokenType: t.Name, tokenTypeIdx: t.Name.tokenTypeIdx! }, inverted, list };
}

/** The names of the list that opens at number `open`; null when it is none. */
function listAt(tokens: readonly IToken[], open: number): IToken[] | null {
  const list: IToken[] = [];
  let at = open;
  do {
    const listed = tokens[at + 1];
    if (listed?.tokenType !== t.Name) return null;
    list.push(listed);
    at += 2;
  } while (tokens[at]?.tokenType === t.Comma);
  return tokens[at]?.image === ')' ? list : null;
}

/** A name before a bracket with commas in it has become the name of a function; a word of the language is none. */
function isListHead({ tokenType, image }: IToken): boolean {
  return tokenType === t.FunctionWord && !WORDS.has(image.toLowerCase());
}
