// Tokens and the lexer that finds them. The lexer is our own because a whole run of the program must not take much
// longer than starting node: it looks up the first character of a token in a small table and tries the one, two or
// three patterns that can begin with it. Words are found as names and sorted afterwards by split-statements.ts, which
// keeps them free of case.

import { createToken, type IToken, Lexer, type TokenType } from 'chevrotain';
import { INFIX_ROWS, POSTFIX_SPELLINGS, PREFIX_SPELLINGS, TABLE_SIGNS } from './operators.ts';

const token = (name: string): TokenType => createToken({ name, pattern: Lexer.NA });

export const Name = token('Name');
/** Anything that begins with a digit; which numbers make sense depends on where they stand. */
export const Digits = token('Digits');
/** Groups of characters that belong to other languages, and characters of no use at all: kept to be explained. */
export const Stranger = token('Stranger');
export const Infix = token('Infix');
export const Prefix = token('Prefix');
export const Postfix = token('Postfix');
/** Any of `(`, `[`, `{` around an operand; a `[` behind a name is part of its token instead. */
export const Open = token('Open');
export const Close = token('Close');
export const Comma = token('Comma');
export const Semicolon = token('Semicolon');
export const Equals = token('Equals');
export const At = token('At');
export const LineEnd = token('LineEnd');
/** Two points, between the ends of a range. */
export const Range = token('Range');
export const Colon = token('Colon');
/** Signs of whole numbers that are no signs of logic. */
export const Arithmetic = token('Arithmetic');
/** The sum or product sign before the rows of a table. */
export const TableSign = token('TableSign');

// Sorted out of `Name`.
export const Truth = token('Truth');
export const FunctionWord = token('FunctionWord');
export const RailName = token('RailName');
export const By = token('By');
export const Input = token('Input');
export const Output = token('Output');
export const Never = token('Never');

/** The vocabulary of the parser. */
export const PARSED: TokenType[] = [
  ...[Name, Digits, Truth, FunctionWord, Infix, Prefix, Postfix, Open, Close, Comma, Equals],
  ...[At, By, RailName, Input, Output, Never],
];

interface Pattern {
  /** Null for what is skipped. */
  readonly type: TokenType | null;
  /** Every character that a match can begin with. */
  readonly first: string;
  /** Sticky. */
  readonly match: RegExp;
}

const DIGITS = '0123456789';
const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz_';
const BLANKS =
  ' \t\v\f\u00a0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u200b\u200c\u200d\u202f\u205f\u2060\u3000\ufeff';
const LINE_ENDS = '\n\r\u0085\u2028\u2029';

/** Of two patterns for one character the first that matches wins. */
const PATTERNS: readonly Pattern[] = [
  { type: null, first: BLANKS, match: new RegExp(`[${BLANKS}]+`, 'y') },
  { type: null, first: '#/', match: new RegExp(`(?:#|//)[^${LINE_ENDS}]*`, 'y') },
  { type: LineEnd, first: LINE_ENDS, match: new RegExp(`\\r\\n|[${LINE_ENDS}]`, 'y') },
  { type: Name, first: LETTERS, match: /[A-Za-z_][A-Za-z0-9_]*/y },
  {
    type: Stranger,
    first: `=!:<>/${DIGITS}`,
    match: /==+|!=+|:=|<=>?|=>|>=|\/\*|[0-9]+'[bdhoBDHO][0-9A-Fa-f]+/y,
  },
  signs(Range, ['..']),
  signs(
    Infix,
    INFIX_ROWS.flatMap((row) => row.spellings),
  ),
  signs(Prefix, PREFIX_SPELLINGS),
  signs(Postfix, POSTFIX_SPELLINGS),
  { type: Digits, first: DIGITS, match: /[0-9][A-Za-z0-9_]*/y },
  signs(Open, ['(', '[', '{']),
  signs(Close, [')', ']', '}']),
  signs(Comma, [',']),
  signs(Semicolon, [';']),
  signs(Equals, ['=']),
  signs(At, ['@']),
  signs(Colon, [':']),
  signs(Arithmetic, ['-', '/', '%']),
  signs(TableSign, TABLE_SIGNS),
];

/** A pattern for the spellings that are not words, longest first. */
function signs(type: TokenType, spellings: readonly string[]): Pattern {
  const listed = spellings.filter((spelling) => !LETTERS.includes(spelling[0]!));
  listed.sort((a, b) => b.length - a.length);
  const escaped = listed.map((spelling) => spelling.replace(/[$()*+.?[\\\]^{|}]/g, '\\$&'));
  return {
    type,
    first: listed.map((spelling) => spelling[0]).join(''),
    match: new RegExp(escaped.join('|'), 'y'),
  };
}

const BY_FIRST: ReadonlyMap<number, readonly Pattern[]> = groupByFirst();

function groupByFirst(): Map<number, Pattern[]> {
  const groups = new Map<number, Pattern[]>();
  for (const pattern of PATTERNS) {
    for (const character of new Set(pattern.first)) {
      const code = character.charCodeAt(0);
      const group = groups.get(code);
      if (group === undefined) groups.set(code, [pattern]);
      else group.push(pattern);
    }
  }
  return groups;
}

/** Where a token ends in the text, which may be longer or shorter than its image. */
export function endOf({ endOffset }: IToken): number {
  return endOffset! + 1;
}

/** `image` is the token in the spelling of the language, `start` and `end` say where it stands in the text. */
export function tokenOf(type: TokenType, image: string, start: number, end: number): IToken {
  return {
    image,
    startOffset: start,
    endOffset: end - 1,
    tokenType: type,
    tokenTypeIdx: type.tokenTypeIdx!,
    payload: undefined,
  };
}

export function setType(token: IToken, type: TokenType): void {
  token.tokenType = type;
  token.tokenTypeIdx = type.tokenTypeIdx!;
}

/**
 * Reads what stands at `offset` in a way of its own and adds its tokens to `tokens`.
 *
 * @returns the offset behind it, or `offset` itself when it leaves the place to the lexer.
 */
export type SpecialReader = (offset: number, tokens: IToken[]) => number;

/**
 * All tokens of `text`, line ends among them. A run of characters that begin no token is one `Stranger`. At each place
 * `special` is asked first.
 */
export function tokenize(text: string, special: SpecialReader | null = null): IToken[] {
  const tokens: IToken[] = [];
  let strangerStart = -1;
  const lastCommentEnd = text.lastIndexOf('*/');
  let offset = 0;
  /** Puts the run of stray characters that ends here before token number `index`. */
  const endStranger = (index: number): void => {
    if (strangerStart < 0) return;
    const image = text.slice(strangerStart, offset);
    tokens.splice(index, 0, tokenOf(Stranger, image, strangerStart, offset));
    strangerStart = -1;
  };
  while (offset < text.length) {
    if (special !== null) {
      const before = tokens.length;
      const end = special(offset, tokens);
      if (end > offset) {
        endStranger(before);
        offset = end;
        continue;
      }
    }
    const found = matchAt(text, offset);
    // A square bracket close behind a stray character belongs to whatever that was.
    if (found === null || (strangerStart >= 0 && (text[offset] === '[' || text[offset] === ']'))) {
      if (strangerStart < 0) strangerStart = offset;
      offset++;
      continue;
    }
    let end = found.match.lastIndex;
    endStranger(tokens.length);
    if (found.type === Stranger && text.startsWith('/*', offset) && end <= lastCommentEnd) {
      // The whole foreign comment is one stranger, so that its lines are not read as equations.
      end = text.indexOf('*/', end) + 2;
    }
    if (found.type !== null) tokens.push(tokenOf(found.type, text.slice(offset, end), offset, end));
    offset = end;
  }
  endStranger(tokens.length);
  return tokens;
}

/** The pattern that matches at `offset`; its `lastIndex` is then the end of the match. */
function matchAt(text: string, offset: number): Pattern | null {
  const candidates = BY_FIRST.get(text.charCodeAt(offset));
  if (candidates === undefined) return null;
  for (const candidate of candidates) {
    candidate.match.lastIndex = offset;
    if (candidate.match.test(text)) return candidate;
  }
  return null;
}
