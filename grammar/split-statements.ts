// From tokens to statements. A line end ends a statement unless the statement plainly goes on: inside brackets, after
// a sign that wants something behind it, or before a sign that wants something in front of it. A line that begins
// like a statement (`name =`, `input`, `output`, `never`) begins one even inside brackets, so that a forgotten bracket
// costs one statement and not the rest of the file.
//
// Brackets are matched here, ahead of the parser: it never sees a statement whose brackets are open, closed once too
// often or nested too deep, and so its recursion is bounded.

import type { IToken, TokenType } from 'chevrotain';
import { DEPTH_LIMIT, FAULT_LIMIT, WORDS, type WordRole } from './operators.ts';
import type { SyntaxFault } from './syntax.ts';
import {
  By,
  Close,
  Comma,
  Digits,
  Equals,
  endOf,
  FunctionWord,
  Infix,
  Input,
  LineEnd,
  Name,
  Never,
  Open,
  Output,
  Postfix,
  Prefix,
  RailName,
  Semicolon,
  Stranger,
  Truth,
} from './tokens.ts';
import { commaFault, extraBracketFault, strangerFault, tooDeepFault, unclosedFault } from './wording.ts';

/** The tokens of one statement, without line ends. With faults in it, it is not worth parsing. */
export interface StatementTokens {
  readonly tokens: IToken[];
  readonly faults: SyntaxFault[];
}

const TYPE_OF_ROLE: Readonly<Record<WordRole, TokenType>> = {
  infix: Infix,
  prefix: Prefix,
  constant: Truth,
  function: FunctionWord,
  rail: RailName,
  by: By,
  input: Input,
  output: Output,
  never: Never,
};
const LONGEST_WORD = Math.max(...[...WORDS.keys()].map((word) => word.length));

/** Splits the tokens of a whole text. A line of nothing but stray characters is a statement without tokens. */
export function splitStatements(all: readonly IToken[]): StatementTokens[] {
  sortWords(all);
  const statements: StatementTokens[] = [];
  let tokens: IToken[] = [];
  let faults: SyntaxFault[] = [];
  /** Where in `tokens` the brackets stand that are open. */
  let open: number[] = [];
  let tooDeep = false;

  const finish = (): void => {
    const unclosed = open.at(-1);
    if (unclosed !== undefined && !tooDeep) faults.push(unclosedFault(tokens[unclosed]!, open.length));
    if (tokens.length > 0 || faults.length > 0) statements.push({ tokens, faults });
    tokens = [];
    faults = [];
    open = [];
    tooDeep = false;
  };

  for (let index = 0; index < all.length; index++) {
    const token = all[index]!;
    const type = token.tokenType;
    if (type === Semicolon) {
      finish();
    } else if (type === LineEnd) {
      let next = index + 1;
      while (next < all.length && all[next]!.tokenType === LineEnd) next++;
      index = next - 1;
      if (endsStatement(tokens, open.length > 0, all, next)) finish();
    } else if (type === Stranger) {
      if (faults.length <= FAULT_LIMIT) faults.push(strangerFault(token.image, token.startOffset));
    } else {
      if (type === Open) {
        open.push(tokens.length);
        if (open.length > DEPTH_LIMIT && !tooDeep) {
          tooDeep = true;
          faults.push(tooDeepFault(token.startOffset, endOf(token)));
        }
      } else if (type === Close && open.pop() === undefined && faults.at(-1)?.code !== 'extra-bracket') {
        faults.push(extraBracketFault(token));
      } else if (type === Comma && open.length > 0) {
        const fault = takeComma(token, tokens, open.at(-1)!);
        if (fault !== null) faults.push(fault);
      }
      tokens.push(token);
    }
  }
  finish();
  return statements;
}

/** Gives words their token types. An infix word is a function where an operand is expected and `(` follows. */
function sortWords(all: readonly IToken[]): void {
  let operandBefore = false;
  for (let index = 0; index < all.length; index++) {
    const token = all[index]!;
    if (token.tokenType === LineEnd) continue;
    if (token.tokenType === Name && token.image.length <= LONGEST_WORD) {
      const role = WORDS.get(token.image.toLowerCase());
      if (role === 'infix' && !operandBefore && all[index + 1]?.tokenType === Open)
        setType(token, FunctionWord);
      else if (role !== undefined) setType(token, TYPE_OF_ROLE[role]);
    }
    operandBefore = isOperandEnd(token.tokenType);
  }
}

/** A comma in brackets makes the name before the bracket the name of a function, known or not. */
function takeComma(comma: IToken, tokens: readonly IToken[], bracket: number): SyntaxFault | null {
  const before = tokens[bracket - 1];
  if (before?.tokenType === Name) setType(before, FunctionWord);
  return before?.tokenType === FunctionWord ? null : commaFault(comma, before?.tokenType === Prefix);
}

function setType(token: IToken, type: TokenType): void {
  token.tokenType = type;
  token.tokenTypeIdx = type.tokenTypeIdx!;
}

function isOperandEnd(type: TokenType): boolean {
  return type === Name || type === Digits || type === Truth || type === Close || type === Postfix;
}

/** Whether the statement in `tokens` ends at a line end, when the next line begins with token number `next`. */
function endsStatement(
  tokens: readonly IToken[],
  bracketOpen: boolean,
  all: readonly IToken[],
  next: number,
): boolean {
  const following = all[next]?.tokenType;
  if (following === undefined || beginsStatement(all, next)) return true;
  if (bracketOpen) return false;
  const last = tokens.at(-1)?.tokenType;
  if (last === Infix || last === Prefix || last === Comma || last === Equals) return false;
  return !(tokens.length > 0 && (following === Infix || following === Comma));
}

/** Whether a line that begins with token number `first` can only be the beginning of a statement. */
function beginsStatement(all: readonly IToken[], first: number): boolean {
  const type = all[first]!.tokenType;
  if (type === Input || type === Output || type === Never) return true;
  if (!/^[A-Za-z_]/.test(all[first]!.image)) return false;
  let after = first + 1;
  while (all[after]?.tokenType === Postfix) after++;
  return all[after]?.tokenType === Equals;
}
