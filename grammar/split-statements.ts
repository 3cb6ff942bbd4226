// From tokens to statements. A line end ends a statement unless the statement plainly goes on: inside brackets, after
// a sign that wants something behind it, or before a sign that wants something in front of it. A line that begins
// like a statement (`name =`, `input`, `output`, `never`) begins one even inside brackets, so that a forgotten bracket
// costs one statement and not the rest of the file.
//
// Brackets are matched here, ahead of the parser: it never sees a statement whose brackets are open, closed once too
// often or nested too deep, and so its recursion is bounded. Heads of loops are read and indices are taken into their
// names, so that what is left is the statements of the first half of the language, with loops around them.

import type { IToken, TokenType } from 'chevrotain';
import { takeIndex } from './bit-names.ts';
import { BlockStack, type SplitItem } from './block-stack.ts';
import { beginsLoop, readLoopHead } from './loop-head.ts';
import { DEPTH_LIMIT, FAULT_LIMIT, STATEMENT_WORDS, WORDS, type WordRole } from './operators.ts';
import { beginsStatement } from './statement-start.ts';
import type { SyntaxFault } from './syntax.ts';
import {
  Arithmetic,
  By,
  Close,
  Colon,
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
  setType,
  TableSign,
  Truth,
} from './tokens.ts';
import {
  behindBlockFault,
  commaFault,
  extraBracketFault,
  otherBracketFault,
  rowRangeFault,
  strangerFault,
  strayBracketFault,
  tooDeepFault,
  twoIndicesFault,
  unclosedFault,
} from './wording.ts';

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
const ENDS: readonly TokenType[] = [LineEnd, Semicolon];
const CLOSES: Readonly<Record<string, string>> = { ')': '(', ']': '[', '}': '{' };

/**
 * Splits the tokens of a whole text. A line of nothing but stray characters is a statement without tokens. In LaTeX
 * braces may follow an operand.
 */
export function splitStatements(all: readonly IToken[], latex: boolean): SplitItem[] {
  sortWords(all);
  const blocks = new BlockStack();
  let statement = new StatementInWork();
  const finish = (): void => {
    const { tokens, faults } = statement.finished();
    if (tokens.length > 0 || faults.length > 0) blocks.add({ tokens, faults });
    statement = new StatementInWork();
  };

  for (let index = 0; index < all.length; index++) {
    const token = all[index]!;
    const type = token.tokenType;
    if (type === Semicolon) {
      const empty = statement.isEmpty;
      finish();
      if (empty) blocks.endEmpty();
    } else if (type === LineEnd) {
      let next = index + 1;
      while (next < all.length && all[next]!.tokenType === LineEnd) next++;
      index = next - 1;
      if (endsStatement(statement, all, next)) finish();
    } else if (statement.isEmpty && beginsLoop(all, index)) {
      const read = readLoopHead(all, index);
      blocks.open(read);
      index = read.next - 1;
    } else if (type === Close && token.image === '}' && statement.braces === 0 && blocks.inBlock) {
      finish();
      blocks.closeBlock();
      const next = all[index + 1];
      if (next !== undefined && !ENDS.includes(next.tokenType) && next.image !== '}') {
        blocks.add({ tokens: [], faults: [behindBlockFault(next)] });
      }
    } else if (type === Open && token.image === '[' && statement.lastType === Name) {
      index = statement.index(all, index) - 1;
    } else {
      statement.take(token, latex);
    }
  }
  finish();
  blocks.finish();
  return blocks.items;
}

/** The statement whose tokens are being gathered. */
class StatementInWork {
  readonly tokens: IToken[] = [];
  /** How many of the open brackets are braces. */
  braces = 0;
  private readonly faults: SyntaxFault[] = [];
  /** Where in `tokens` the brackets stand that are open. */
  private readonly open: number[] = [];
  private readonly seen = { equals: false, tableSign: false };
  private tooDeep = false;
  /** Where the last stray character ended. */
  private strayEnd = -1;

  get isEmpty(): boolean {
    return this.tokens.length === 0 && this.faults.length === 0;
  }

  get bracketOpen(): boolean {
    return this.open.length > 0;
  }

  get lastType(): TokenType | undefined {
    return this.tokens.at(-1)?.tokenType;
  }

  finished(): { tokens: IToken[]; faults: SyntaxFault[] } {
    const unclosed = this.open.at(-1);
    if (unclosed !== undefined && !this.tooDeep) {
      this.faults.push(unclosedFault(this.tokens[unclosed]!, this.open.length));
    }
    return { tokens: this.tokens, faults: this.faults };
  }

  /** Takes the index that begins with token number `at` of `all` into the name before it; returns what is next. */
  index(all: readonly IToken[], at: number): number {
    const name = this.tokens.at(-1)!;
    if (name.image.endsWith(']')) this.faults.push(twoIndicesFault(all[at]!));
    const { next, fault } = takeIndex(name.image.endsWith(']') ? { ...name } : name, all, at);
    if (fault !== null) this.faults.push(fault);
    return next;
  }

  take(token: IToken, latex: boolean): void {
    const type = token.tokenType;
    if (this.isStray(token)) return;
    if (type === Equals) this.seen.equals = true;
    else if (type === TableSign) this.seen.tableSign = true;
    if (type === Open) this.openBracket(token, latex);
    else if (type === Close) this.closeBracket(token);
    else if (type === Comma && this.open.length > 0) {
      const fault = takeComma(token, this.tokens, this.open.at(-1)!, this.seen);
      if (fault !== null) this.faults.push(fault);
    }
    this.tokens.push(token);
  }

  /** Whether a token has no place in a statement; if so, it has its fault now. */
  private isStray(token: IToken): boolean {
    const { tokenType: type, image } = token;
    const follows = token.startOffset === this.strayEnd;
    const stray = type === Stranger || type === Arithmetic || (type === Colon && !this.wantsColon());
    if (!stray) return false;
    if (type === Arithmetic && image === '-' && this.lastType === Digits && !follows) {
      this.faults.push(rowRangeFault(token));
    } else if (!follows && this.faults.length <= FAULT_LIMIT) {
      this.faults.push(strangerFault(image, token.startOffset));
    }
    this.strayEnd = endOf(token);
    return true;
  }

  private openBracket(token: IToken, latex: boolean): void {
    const stray = token.image === '[' || (token.image === '{' && !latex);
    if (stray && isOperandEnd(this.lastType)) this.faults.push(strayBracketFault(token));
    if (token.image === '{') this.braces++;
    this.open.push(this.tokens.length);
    if (this.open.length > DEPTH_LIMIT && !this.tooDeep) {
      this.tooDeep = true;
      this.faults.push(tooDeepFault(token.startOffset, endOf(token)));
    }
  }

  private closeBracket(token: IToken): void {
    const at = this.open.pop();
    if (at === undefined) {
      if (this.faults.at(-1)?.code !== 'extra-bracket') this.faults.push(extraBracketFault(token));
      return;
    }
    const opener = this.tokens[at]!;
    if (opener.image === '{') this.braces--;
    if (opener.image !== CLOSES[token.image] && this.faults.at(-1)?.code !== 'other-bracket') {
      this.faults.push(otherBracketFault(opener, token));
    }
  }

  /** The colon behind the name in `free name: expression`. */
  private wantsColon(): boolean {
    const [word, name] = this.tokens;
    return (
      this.tokens.length === 2 &&
      word!.image.toLowerCase() === STATEMENT_WORDS.free &&
      name!.tokenType === Name
    );
  }
}

/** Gives words their token types. An infix word is a function where an operand is expected and `(` follows. */
function sortWords(all: readonly IToken[]): void {
  let operandBefore = false;
  for (let index = 0; index < all.length; index++) {
    const token = all[index]!;
    if (token.tokenType === LineEnd) continue;
    if (token.tokenType === Name && token.image.length <= LONGEST_WORD) {
      const role = WORDS.get(token.image.toLowerCase());
      if (role === 'infix' && !operandBefore && all[index + 1]?.image === '(') setType(token, FunctionWord);
      else if (role !== undefined) setType(token, TYPE_OF_ROLE[role]);
    }
    operandBefore = isOperandEnd(token.tokenType);
  }
}

/**
 * A comma in brackets makes the name before the bracket the name of a function, known or not. In a table, and in the
 * list of names of a left side, commas stand behind other things as well.
 */
function takeComma(
  comma: IToken,
  tokens: readonly IToken[],
  bracket: number,
  seen: { readonly equals: boolean; readonly tableSign: boolean },
): SyntaxFault | null {
  const before = tokens[bracket - 1];
  if (seen.tableSign || (!seen.equals && (before?.tokenType === Postfix || before?.image === '}')))
    return null;
  if (before?.tokenType === Name && tokens[bracket]!.image === '(') setType(before, FunctionWord);
  if (before?.tokenType === FunctionWord || before?.tokenType === TableSign) return null;
  return commaFault(comma, before?.tokenType === Prefix);
}

function isOperandEnd(type: TokenType | undefined): boolean {
  return type === Name || type === Digits || type === Truth || type === Close || type === Postfix;
}

/** Whether the statement in work ends at a line end, when the next line begins with token number `next`. */
function endsStatement(statement: StatementInWork, all: readonly IToken[], next: number): boolean {
  const following = all[next]?.tokenType;
  if (following === undefined || beginsStatement(all, next)) return true;
  if (statement.bracketOpen) return false;
  const last = statement.lastType;
  if (last === Infix || last === Prefix || last === Comma || last === Equals) return false;
  const goesOn = following === Infix || following === Comma || following === Equals;
  return !(statement.tokens.length > 0 && goesOn);
}
