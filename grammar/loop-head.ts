// The head of a loop, `for i in 0..7` with `:` or `{` behind it, read before the statements it stands over are split.

import type { IToken } from 'chevrotain';
import { isIndexForm, readArithmetic } from './index-form.ts';
import { STATEMENT_WORDS } from './operators.ts';
import { quote } from './quote.ts';
import type { IndexForm, Place, SyntaxFault } from './syntax.ts';
import * as t from './tokens.ts';
import { fault, placeOf } from './wording.ts';

export interface LoopHead {
  readonly variable: string;
  readonly variableAt: Place;
  readonly from: IndexForm;
  readonly to: IndexForm;
}

export interface ReadHead {
  /** Null when the head has a fault. */
  readonly head: LoopHead | null;
  readonly fault: SyntaxFault | null;
  /** What follows: statements in `{ }`, one statement, or, where the head does not end as it must, nothing. */
  readonly over: 'block' | 'statement' | 'nothing';
  /** Number of the first token of what the loop stands over. */
  readonly next: number;
  /** The whole head. */
  readonly at: Place;
}

/** Whether token number `index`, which begins a statement, is the word before the variable of a loop. */
export function beginsLoop(all: readonly IToken[], index: number): boolean {
  return (
    all[index]!.tokenType === t.Name &&
    all[index]!.image.toLowerCase() === STATEMENT_WORDS.loop &&
    all[index + 1] !== undefined &&
    /^[A-Za-z_]/.test(all[index + 1]!.image)
  );
}

/** Reads the head that begins with token number `index`. */
export function readLoopHead(all: readonly IToken[], index: number): ReadHead {
  let end = headEnd(all, index + 1);
  const foreignRange = isForeignRange(all, end);
  if (foreignRange) end = headEnd(all, end + 1);
  const tokens = all.slice(index, end);
  let next = end;
  const colon = all[next]?.tokenType === t.Colon;
  if (colon) next++;
  let brace = next;
  while (all[brace]?.tokenType === t.LineEnd) brace++;
  const block = all[brace]?.tokenType === t.Open && all[brace]!.image === '{';
  if (block) next = brace + 1;
  const at = { start: tokens[0]!.startOffset, end: t.endOf(tokens.at(-1)!) };
  // A head that lacks only its colon stands over the next line.
  const bare = all[next]?.tokenType === t.LineEnd && !tokens.some(({ tokenType }) => tokenType === t.Equals);
  const over = block ? 'block' : colon || bare ? 'statement' : 'nothing';
  const read = readTokens(tokens, at, over !== 'nothing');
  if ('code' in read) return { head: null, fault: read, over, next, at };
  if (block || colon) return { head: read, fault: null, over, next, at };
  const missing = fault(
    'wrong-loop',
    tokens.some((token) => token.tokenType === t.Equals) ? at : { start: at.end, end: at.end },
    'the head of the loop ends without ":" or "{"',
    'write "for i in 0..7: statement", or { } around several statements',
  );
  return { head: null, fault: missing, over, next, at };
}

/** Number of the token that ends a head, seen from token number `from` in it. */
function headEnd(all: readonly IToken[], from: number): number {
  let end = from;
  while (end < all.length && ![t.LineEnd, t.Semicolon, t.Colon].includes(all[end]!.tokenType)) {
    if (all[end]!.tokenType === t.Open && all[end]!.image === '{') break;
    end++;
  }
  return end;
}

/** Whether token number `colon` stands between two numbers, as in `0:7`, with the end of the head behind them. */
function isForeignRange(all: readonly IToken[], colon: number): boolean {
  if (all[colon]?.tokenType !== t.Colon || all[colon - 1]?.tokenType !== t.Digits) return false;
  const behind = all[colon + 2];
  return all[colon + 1]?.tokenType === t.Digits && (behind?.tokenType === t.Colon || behind?.image === '{');
}

function readTokens(tokens: readonly IToken[], at: Place, ends: boolean): LoopHead | SyntaxFault {
  const [, variable, word] = tokens;
  const shape = 'write "for i in 0..7: c[i+1] = g[i] + p[i] c[i]"';
  if (variable!.tokenType !== t.Name || variable!.image.includes('[')) {
    const message = `${quote(variable!.image)} cannot be the variable of a loop`;
    return fault(
      'wrong-loop',
      placeOf(variable!),
      message,
      'choose another letter, as in "for i in 0..7: ..."',
    );
  }
  if (word === undefined || word.image.toLowerCase() !== STATEMENT_WORDS.within) {
    const place = word === undefined ? { start: at.end, end: at.end } : placeOf(word);
    return fault('wrong-loop', place, `"in" is missing behind the variable ${variable!.image}`, shape);
  }
  const range = tokens.findIndex((token) => token.tokenType === t.Range);
  if (range < 0) {
    const place = { start: word.startOffset, end: at.end };
    return fault('wrong-loop', place, 'the loop does not say from where to where it runs', shape);
  }
  const place = placeOf(tokens[range]!);
  const from = readArithmetic(tokens.slice(3, range), place);
  if (!isIndexForm(from)) return from;
  // Without an end of the head what follows may be anything, and that is the fault to name.
  const to = ends ? readArithmetic(tokens.slice(range + 1), place) : from;
  if (!isIndexForm(to)) return to;
  return { variable: variable!.image, variableAt: placeOf(variable!), from, to };
}
