// Which names of a text stand where, and which of them could be products of shorter ones: what products.ts decides by.

import type { IToken } from 'chevrotain';
import { baseOf } from './bit-names.ts';
import type { StatementTokens } from './block-stack.ts';
import { equalsOutside } from './left-side.ts';
import { TABLE_WORDS } from './operators.ts';
import { isLettersLine } from './read-statement.ts';
import * as t from './tokens.ts';

export interface ProductClues {
  /** Whether the caller asks for letters. */
  readonly letters: boolean;
  readonly latex: boolean;
  /** A name of which a part has a bar over it, if there is one. */
  readonly barredPart: IToken | null;
  /** Names whose letters have a bar each. */
  readonly barredRuns: ReadonlySet<IToken>;
  /** Names that the text marks as one word. */
  readonly wholeNames: ReadonlySet<string>;
}

/** A name longer than this is no product. */
const LONGEST_PRODUCT = 60;
const PIECE = /[A-Za-z](?:_?[0-9]+)?/y;
const PIECE_IN_LATEX = /[A-Za-z](?:_?[0-9]+|_[A-Za-z0-9_]+$)?/y;

export type Names = Pick<ReadonlySet<string>, 'has'>;

export interface Survey {
  readonly lettersLine: boolean;
  /** Names that are declared, defined or listed behind a function. */
  readonly kept: ReadonlySet<string>;
  /** Whether a name can be unknown. */
  readonly declares: boolean;
  /** Every other name of several pieces, with its first token. */
  readonly products: ReadonlyMap<string, IToken>;
  /** Every name of one piece. */
  readonly single: ReadonlySet<string>;
  /** Every name that is used. */
  readonly used: ReadonlySet<string>;
  /** A complement sign with a letter close behind: what is written without blanks is a product. */
  readonly close: boolean;
  /** A product that is written with a sign or a blank. */
  readonly spaced: boolean;
  readonly latex: boolean;
}

export function surveyOf(
  statements: readonly StatementTokens[],
  { latex, wholeNames }: ProductClues,
): Survey {
  const kept = new Set<string>(wholeNames);
  let declares = false;
  let lettersLine = false;
  const used = new Map<string, IToken>();
  let [close, spaced] = [false, false];
  for (const { tokens } of statements) {
    const first = tokens[0]?.tokenType;
    if (isLettersLine(tokens)) lettersLine = true;
    if (first === t.Input) declares = true;
    const start = firstUsed(tokens);
    for (let index = 0; index < tokens.length; index++) {
      const token = tokens[index]!;
      if (token.tokenType === t.Name) {
        if (index < start) kept.add(baseOf(token));
        else if (!isTableWord(token, tokens[index + 1])) {
          const base = baseOf(token);
          if (!used.has(base)) used.set(base, token);
        }
      } else if (index < start && token.tokenType === t.FunctionWord) kept.add(token.image);
      if (index > 0 && index < start && token.image === '(' && first !== t.Never) declares = true;
      if (index <= start) continue;
      const before = tokens[index - 1]!;
      const touches = t.endOf(before) === token.startOffset;
      if (before.tokenType === t.Postfix && token.tokenType === t.Name && touches) close = true;
      if (token.tokenType === t.Name && before.tokenType === t.Name && !touches) spaced = true;
      if (!spaced && token.tokenType === t.Infix && /^(?:[&*·∧.]|&&|and)$/i.test(token.image)) spaced = true;
    }
  }
  const products = new Map<string, IToken>();
  const single = new Set<string>([...kept].filter((name) => name.length === 1));
  const seen = new Set<string>(kept);
  for (const [base, token] of used) {
    if (kept.has(base)) continue;
    seen.add(base);
    const pieces = piecesOf(base, null, latex);
    if (pieces === null) continue;
    if (pieces.length > 1) products.set(base, token);
    else single.add(base);
  }
  return { lettersLine, kept, declares, products, single, used: seen, close, spaced, latex };
}

/** A word before the rows of a table. */
function isTableWord({ image }: IToken, next: IToken | undefined): boolean {
  return next?.image === '(' && TABLE_WORDS.has(image.toLowerCase());
}

/** Number of the first token that uses names and does not bring them; all of them for declarations. */
export function firstUsed(tokens: readonly IToken[]): number {
  const first = tokens[0]?.tokenType;
  if (first === t.Never) return 1;
  if (first === t.Input || first === t.Output || isLettersLine(tokens)) return tokens.length;
  const colon = tokens[2]?.tokenType === t.Colon ? 2 : null;
  return (colon ?? equalsOutside(tokens)[0] ?? -1) + 1;
}

/** The names that `name` falls into; null when it is no product. */
export function piecesOf(name: string, kept: Names | null, latex: boolean): string[] | null {
  if (name.length > LONGEST_PRODUCT) return null;
  const pattern = latex ? PIECE_IN_LATEX : PIECE;
  const pieces: string[] = [];
  for (let at = 0; at < name.length; ) {
    let piece: string | null = null;
    for (let end = kept === null ? 0 : name.length; end > at + 1 && piece === null; end--) {
      if (kept!.has(name.slice(at, end)) && !/^[0-9_]/.test(name.slice(end))) piece = name.slice(at, end);
    }
    if (piece === null) {
      pattern.lastIndex = at;
      piece = pattern.exec(name)?.[0] ?? null;
    }
    if (piece === null) return null;
    pieces.push(piece);
    at += piece.length;
  }
  return pieces;
}
