// What stands around a formula on a page: the words of its sentence, and its number in brackets. Both can be read as
// factors of a product, `c1 = g0 + p0 c0 where g0 ... (1)`, and nobody who pasted them meant that.

import type { IToken } from 'chevrotain';
import type { StatementTokens } from './block-stack.ts';
import { equalsOutside } from './left-side.ts';
import { quote } from './quote.ts';
import type { SyntaxFault } from './syntax.ts';
import * as t from './tokens.ts';
import { fault, placeOf } from './wording.ts';

/** Words that join a formula to its sentence; hardly ever names of signals. */
const JOINING_WORDS = new Set([
  ...['the', 'this', 'that', 'these', 'which', 'where', 'when', 'while', 'if', 'then', 'else', 'because'],
  ...['is', 'are', 'be', 'can', 'has', 'have', 'gives', 'yields', 'becomes', 'equals', 'means', 'denotes'],
  ...[
    'of',
    'from',
    'with',
    'without',
    'for',
    'as',
    'so',
    'thus',
    'hence',
    'therefore',
    'since',
    'we',
    'using',
  ],
]);

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

/** A joining word with nothing but a blank between it and the operand before it. */
function isJoining({ tokenType, image }: IToken, before: IToken): boolean {
  if (tokenType !== t.Name || !JOINING_WORDS.has(image.toLowerCase())) return false;
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
