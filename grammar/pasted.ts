// The lexer for text that was pasted from books, pages and word processors. Most of it is the lexer of the language
// (tokens.ts); at each place this reader is asked first, and takes what needs more than a look at a character: names with
// subscripts and bars (pasted-name.ts), groups under a bar, LaTeX (latex.ts). What it makes are tokens of the language,
// so nothing behind it knows of pasted forms. Plain text never comes here.

import type { IToken } from 'chevrotain';
import { LatexReader, withoutEmptyGroups } from './latex.ts';
import { withoutLookAlikes } from './look-alikes.ts';
import { barredRun, isGroup, isSubscript, NameReader } from './pasted-name.ts';
import * as t from './tokens.ts';

export interface PastedTokens {
  readonly tokens: IToken[];
  readonly latex: boolean;
  /** A name of which a part has a bar over it, if there is one. */
  readonly barredPart: IToken | null;
  /** Names whose letters have a bar each. */
  readonly barredRuns: ReadonlySet<IToken>;
  /** Names that the text marks as one word. */
  readonly wholeNames: ReadonlySet<string>;
}

/** Characters beyond those of the language itself, and what only LaTeX has. */
const FOREIGN = /(?![·∧⊕⊙∨→≡¬′’ΣΠ∑∏])\P{ASCII}|\\[A-Za-z]|\$[^$\n]*\$|_\{/u;
const LATEX = /\\[A-Za-z]|\$[^$\n]*\$|_\{/;

/** Whether `text` may hold more than the language itself. */
export function isPasted(text: string): boolean {
  return FOREIGN.test(text);
}

export function tokenizePasted(text: string): PastedTokens {
  const plain = withoutLookAlikes(text);
  const latex = LATEX.test(plain) ? new LatexReader(plain) : null;
  const names = new NameReader(plain, latex !== null);
  const read = (offset: number, tokens: IToken[]): number => {
    const code = plain.charCodeAt(offset);
    if (latex !== null) {
      const end = latex.read(offset, tokens, names);
      if (end > offset) return end;
    }
    if (code < 128 && !/[A-Za-z_]/.test(plain[offset]!) && !isBarred(plain, offset)) return offset;
    const group = barredGroup(plain, offset);
    if (group !== null) {
      readGroup(plain, group, tokens);
      return group.end;
    }
    return names.read(offset, tokens);
  };
  const tokens = t.tokenize(plain, read);
  return {
    tokens: latex === null ? tokens : withoutEmptyGroups(tokens),
    latex: latex !== null,
    barredPart: names.barredPart,
    barredRuns: names.barredRuns,
    wholeNames: names.wholeNames,
  };
}

function isBarred(text: string, offset: number): boolean {
  return isBar(text[offset + 1]);
}

function isBar(character: string | undefined): boolean {
  return character === '\u0305' || character === '\u0304';
}

/** A run of characters with a bar over each, an operator or a bracket among them, that begins at `offset`. */
function barredGroup(text: string, offset: number): { start: number; end: number } | null {
  const run = barredRun(text, offset);
  return isGroup(run) ? { start: offset, end: offset + run.length } : null;
}

/** The inside of the group without its bars, in brackets and complemented. */
function readGroup(text: string, { start, end }: { start: number; end: number }, tokens: IToken[]): void {
  let inside = '';
  const places: number[] = [];
  for (let at = start; at < end; at++) {
    if (isBar(text[at])) continue;
    inside += text[at];
    places.push(at);
  }
  places.push(end);
  tokens.push(t.tokenOf(t.Open, '(', start, start + 1));
  const names = new NameReader(inside, false);
  const read = (offset: number, inner: IToken[]): number =>
    isSubscript(inside[offset]) || /[A-Za-z_]/.test(inside[offset]!) ? names.read(offset, inner) : offset;
  for (const token of t.tokenize(inside, read)) {
    token.startOffset = places[token.startOffset]!;
    token.endOffset = places[token.endOffset! + 1]! - 1;
    tokens.push(token);
  }
  tokens.push(t.tokenOf(t.Close, ')', end - 1, end), t.tokenOf(t.Postfix, "'", end - 1, end));
}
