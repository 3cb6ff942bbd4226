// What stands around a formula on a page and what stands in it for a sign elsewhere, where both can be read as something
// else here and nobody who pasted them meant that: the words of a sentence and the number of the formula as factors of a
// product, `c1 = g0 + p0 c0 where g0 ... (1)`; a letter v for OR as another factor; `#` for OR or behind the name of an
// active-low signal as the beginning of a comment. Each gets a warning.

import type { IToken } from 'chevrotain';
import type { StatementTokens } from './block-stack.ts';
import { equalsOutside } from './left-side.ts';
import { quote } from './quote.ts';
import type { SyntaxFault } from './syntax.ts';
import * as t from './tokens.ts';
import { fault, placeOf } from './wording.ts';

/** Words that join a formula to its sentence; hardly ever names of signals. */
const JOINING_WORDS = new Set(
  (
    'the this that these which where when while if then else because is are has have gives yields becomes equals ' +
    'means denotes from with without for thus hence therefore since using'
  ).split(' '),
);

const LINE = /[^\n\r\u0085\u2028\u2029]+/g;

/** Warns of the first joining word of each statement, unless a name is declared or defined so. */
export function sentenceWarnings(statements: readonly StatementTokens[]): SyntaxFault[] {
  const found: IToken[] = [];
  const brought = new Set<string>();
  for (const { tokens } of statements) {
    const first = tokens[0]?.tokenType;
    if (first === t.Input) for (const { image } of tokens) brought.add(image);
    const equals = equalsOutside(tokens)[0];
    if (equals === undefined) continue;
    for (const { image } of tokens.slice(0, equals)) brought.add(image);
    const word = tokens.find((token, index) => index > equals + 1 && isJoining(token, tokens[index - 1]!));
    if (word !== undefined) found.push(word);
  }
  return found.filter(({ image }) => !brought.has(image)).map(wordWarning);
}

/** Warns of `v` where it is used as a sign for OR, with blanks around it, and as nothing else. */
export function letterForOr(statements: readonly StatementTokens[]): SyntaxFault[] {
  let found: IToken | null = null;
  for (const { tokens } of statements) {
    for (let index = 0; index < tokens.length; index++) {
      const token = tokens[index]!;
      if (token.tokenType !== t.Name) continue;
      // The letters beside it in the alphabet show that these are names.
      if (/^[uwUW]$/.test(token.image)) return [];
      if (!/^[vV]$/.test(token.image)) continue;
      const [before, next] = [tokens[index - 1], tokens[index + 1]];
      if (before === undefined || next === undefined || !isOperandEnd(before)) return [];
      if (![t.Name, t.Prefix, t.Open, t.Digits, t.Truth].includes(next.tokenType)) return [];
      if (t.endOf(before) === token.startOffset || t.endOf(token) === next.startOffset) return [];
      found ??= token;
    }
  }
  if (found === null) return [];
  const message = `${quote(found.image)} is read as the name of a signal, in a product`;
  const hint = 'for OR write + or ∨; a signal with this name wants & on both sides, or an "input" line';
  return [{ ...fault('letter-for-or', placeOf(found), message, hint), severity: 'warning' }];
}

/**
 * Warns of each `#` that begins a comment though it looks like a part of the formula before it: close behind a name, or
 * with nothing but a formula behind it.
 */
export function commentWarnings(text: string): SyntaxFault[] {
  const warnings: SyntaxFault[] = [];
  if (!text.includes('#')) return warnings;
  for (const line of text.matchAll(LINE)) {
    const at = line[0].indexOf('#');
    const before = line[0].slice(0, Math.max(0, at));
    if (!before.includes('=') || before.includes('//')) continue;
    const behind = line[0].slice(at + 1);
    const close = /[A-Za-z0-9_)\]']$/.test(before);
    const formula = /^[\w\s!&|*+~'()[\]$#^]+;?\s*$/.test(behind) && /[&|*+~!$^]|;\s*$/.test(behind);
    if (!close && !formula) continue;
    const start = line.index + at;
    const message = '"#" begins a comment, and what stands behind it in this line is not read';
    const hint =
      "write + for OR, a' for the complement of a; a blank before # and words behind it make it a comment";
    warnings.push({
      ...fault('comment-in-formula', { start, end: start + 1 }, message, hint),
      severity: 'warning',
    });
  }
  return warnings;
}

/** A joining word with nothing but a blank between it and the operand before it. */
function isJoining({ tokenType, image }: IToken, before: IToken): boolean {
  if (tokenType !== t.Name || !JOINING_WORDS.has(image)) return false;
  return isOperandEnd(before);
}

function wordWarning(token: IToken): SyntaxFault {
  const warning = fault(
    'word-of-sentence',
    placeOf(token),
    `${quote(token.image)} is read as the name of a signal, in a product`,
    'write # before what belongs to no formula; a signal with this name wants & before it, or an "input" line',
  );
  return { ...warning, severity: 'warning' };
}

/** What there is to say of a number in brackets behind the last operand of `tokens`, as formulas are numbered. */
export function numberFault(tokens: readonly IToken[]): SyntaxFault | null {
  const last = tokens.length - 1;
  if (tokens[last]?.image !== ')') return null;
  let open = last - 1;
  while (open > 0 && (tokens[open]!.tokenType === t.Digits || tokens[open]!.image === '.')) open--;
  if (open === last - 1 || tokens[open]!.image !== '(' || !isOperandEnd(tokens[open - 1]!)) return null;
  const at = { start: tokens[open]!.startOffset, end: t.endOf(tokens[last]!) };
  const number = tokens[open + 1]!.image;
  const constant = open === last - 2 && /^[01]$/.test(number);
  const message = constant
    ? `${quote(`(${number})`)} is read as a factor, the constant ${number}`
    : 'a number in brackets is no factor; the only constants are 0 and 1';
  const hint = 'if this is the number of the formula, take it out or write # before it';
  return { ...fault('formula-number', at, message, hint), severity: constant ? 'warning' : 'error' };
}

function isOperandEnd({ tokenType }: IToken): boolean {
  return [t.Name, t.Digits, t.Truth, t.Close, t.Postfix].includes(tokenType);
}
