// LaTeX as encyclopedias and papers hold it. Commands that are signs of logic become tokens with the command as their
// image (operators.ts knows them as spellings); commands that only place things on the page are skipped; environments of
// aligned lines become lines; braces stay as brackets unless they group nothing that is one.
//
// In LaTeX some signs of this language mean something else: `~` is a blank, `^` raises, `&` aligns. `&` is skipped inside
// of an environment that aligns, the others are refused rather than guessed.

import type { IToken, TokenType } from 'chevrotain';
import { INFIX_ROWS, POSTFIX_LATEX, PREFIX_LATEX, WORDS } from './operators.ts';
import type { NameReader } from './pasted-name.ts';
import * as t from './tokens.ts';

const SIGNS: ReadonlyMap<string, TokenType> = new Map<string, TokenType>([
  ...INFIX_ROWS.flatMap((row) => row.latex.map((command) => [command, t.Infix] as const)),
  ...PREFIX_LATEX.map((command) => [command, t.Prefix] as const),
]);
/** Commands that stand for a sign of the language. */
const SPELLED: ReadonlyMap<string, readonly [TokenType, string]> = new Map<
  string,
  readonly [TokenType, string]
>([
  ['\\top', [t.Truth, 'true']],
  ['\\bot', [t.Truth, 'false']],
  ['\\sum', [t.TableSign, 'Σ']],
  ['\\Sigma', [t.TableSign, 'Σ']],
  ['\\prod', [t.TableSign, 'Π']],
  ['\\Pi', [t.TableSign, 'Π']],
  ['\\lbrace', [t.Open, '{']],
  ['\\{', [t.Open, '{']],
  ['\\rbrace', [t.Close, '}']],
  ['\\}', [t.Close, '}']],
  ['\\lbrack', [t.Open, '[']],
  ['\\rbrack', [t.Close, ']']],
]);
/** Commands that say how things look or how far apart they are. */
const SKIPPED = new Set([
  ...[
    'displaystyle',
    'textstyle',
    'scriptstyle',
    'left',
    'right',
    'middle',
    'limits',
    'nolimits',
    'nonumber',
  ],
  ...[
    'notag',
    'quad',
    'qquad',
    'big',
    'Big',
    'bigl',
    'bigr',
    'Bigl',
    'Bigr',
    'bigg',
    'Bigg',
    'hfill',
    'thinspace',
  ],
  ...['enspace', 'enskip', 'allowbreak', 'mathstrut', 'strut', 'ensuremath', 'mathord', 'mathbin', 'mathrel'],
]);
const COMMAND = /\\(?:[A-Za-z]+\*?|[\s\S])/y;
const ENVIRONMENT = /\\(begin|end)\s*\{([A-Za-z]+\*?)\}(?:\{[^{}\n]*\})?/y;
const ENVIRONMENTS = new Set([
  ...['align', 'aligned', 'alignat', 'alignedat', 'array', 'displaymath', 'eqnarray', 'equation', 'flalign'],
  ...['cases', 'gather', 'gathered', 'math', 'multline', 'split'],
]);
/** Upright words; with braces around everything. */
const WORD =
  /\\(?:text|textrm|textit|texttt|textsf|textbf|mathrm|mathit|mathtt|mathsf|mathbf|operatorname|mbox|hbox)\s*\{((?:[^{}\\\n]|\\_|\\ )*)\}/y;
const LABEL = /\\(?:tag|label|hspace|vspace|phantom)\*?\s*\{[^{}\n]*\}/y;
const BARRED_LETTER = /\\(?:overline|bar)\s*\{\s*([A-Za-z])\s*\}(?=\s*_)/y;
const WORD_BELOW = /\s*(?:\\limits\s*)?_\s*(?:\{\s*([mMdD])\s*\}|([mMdD])\b)/y;
const RAISED_COMPLEMENT = /\^\s*(?:\{\s*(?:\\prime|')\s*\}|\\prime\b)\s*/y;

export class LatexReader {
  private readonly text: string;
  /** How many environments are open in which `&` aligns. */
  private aligned = 0;
  /** Behind a dollar sign that opened a formula. */
  private inFormula = false;

  constructor(text: string) {
    this.text = text;
  }

  /** Reads what is LaTeX at `offset`; returns the offset behind it, or `offset`. */
  read(offset: number, tokens: IToken[], names: NameReader): number {
    switch (this.text[offset]) {
      case '\\':
        return this.command(offset, tokens, names);
      case '$':
        return this.dollar(offset, tokens);
      case '&':
        return this.aligned > 0 ? offset + 1 : offset;
      case '^': {
        const end = this.matchEnd(RAISED_COMPLEMENT, offset) ?? offset + 1;
        const type = end > offset + 1 ? t.Postfix : t.Stranger;
        tokens.push(t.tokenOf(type, type === t.Postfix ? POSTFIX_LATEX[0]! : '^', offset, end));
        return end;
      }
      case '~':
        tokens.push(t.tokenOf(t.Stranger, '~', offset, offset + 1));
        return offset + 1;
      default:
        return offset;
    }
  }

  /** A dollar sign opens or closes a formula; between two operands it is a sign of other languages. */
  private dollar(offset: number, tokens: IToken[]): number {
    const double = this.text[offset + 1] === '$';
    const end = offset + (double ? 2 : 1);
    const closes = this.inFormula;
    this.inFormula = false;
    if (closes) return end;
    const before = this.text.slice(Math.max(0, offset - 40), offset);
    const opens =
      double ||
      !/[A-Za-z0-9_)\]}']\s*$/.test(before) ||
      (/\s$/.test(before) && /\S/.test(this.text[end] ?? ''));
    this.inFormula = opens;
    if (!opens) tokens.push(t.tokenOf(t.Stranger, '$', offset, end));
    return end;
  }

  private command(offset: number, tokens: IToken[], names: NameReader): number {
    const environment = this.environment(offset);
    if (environment !== null) return environment;
    const label = this.matchEnd(LABEL, offset);
    if (label !== null) return label;
    const word = this.word(offset, tokens, names);
    if (word !== null) return word;
    const barred = this.barredLetter(offset, tokens, names);
    if (barred !== null) return barred;

    COMMAND.lastIndex = offset;
    const command = COMMAND.exec(this.text)?.[0] ?? '\\';
    const end = offset + command.length;
    if (command === '\\\\' || command === '\\newline') {
      const gap = /^\s*\[[^\]\n]*\]/.exec(this.text.slice(end, end + 20))?.[0].length ?? 0;
      tokens.push(t.tokenOf(t.LineEnd, '\n', offset, end));
      return end + gap;
    }
    const spelled = SPELLED.get(command);
    if (spelled !== undefined) {
      tokens.push(t.tokenOf(...spelled, offset, end));
      return spelled[0] === t.TableSign ? this.wordBelow(end, tokens) : end;
    }
    const type = SIGNS.get(command);
    if (type !== undefined) {
      tokens.push(t.tokenOf(type, command, offset, end));
      return type === t.Prefix ? this.shortArgument(command, end, tokens, names) : end;
    }
    // Blanks, and brackets that switch to formulas.
    if (/^\\[\s,;:!()[\]]$/.test(command) || SKIPPED.has(command.slice(1))) return end;
    tokens.push(t.tokenOf(t.Stranger, command, offset, end));
    return end;
  }

  /** `\sum_m(1, 2)`: the word of a list of rows stands below the sign. */
  private wordBelow(offset: number, tokens: IToken[]): number {
    WORD_BELOW.lastIndex = offset;
    const found = WORD_BELOW.exec(this.text);
    if (found === null) return offset;
    const end = offset + found[0].length;
    tokens.push(t.tokenOf(t.Name, found[1] ?? found[2]!, offset, end));
    return end;
  }

  /** `\overline AB` is a bar over the A alone. */
  private shortArgument(command: string, offset: number, tokens: IToken[], names: NameReader): number {
    if (command !== '\\overline' && command !== '\\bar') return offset;
    const start = offset + /^\s*/.exec(this.text.slice(offset, offset + 20))![0].length;
    return /[A-Za-z]/.test(this.text[start] ?? '') ? names.read(start, tokens, true) : offset;
  }

  /** `\overline{C}_1` is the complement of `C1`. */
  private barredLetter(offset: number, tokens: IToken[], names: NameReader): number | null {
    BARRED_LETTER.lastIndex = offset;
    const found = BARRED_LETTER.exec(this.text);
    if (found === null) return null;
    const end = offset + found[0].length;
    const name = t.tokenOf(t.Name, found[1]!, offset, end);
    tokens.push(t.tokenOf(t.Prefix, PREFIX_LATEX[0]!, offset, end), name);
    return names.subscript(end, name);
  }

  private word(offset: number, tokens: IToken[], names: NameReader): number | null {
    WORD.lastIndex = offset;
    const found = WORD.exec(this.text);
    if (found === null) return null;
    const end = offset + found[0].length;
    const word = found[1]!.replaceAll('\\_', '_').replaceAll('\\ ', ' ').trim();
    if (!/^[A-Za-z_][A-Za-z0-9_]*$/.test(word)) {
      tokens.push(t.tokenOf(t.Stranger, found[0], offset, end));
      return end;
    }
    const name = t.tokenOf(t.Name, word, offset, end);
    tokens.push(name);
    if (WORDS.has(word.toLowerCase())) return end;
    const behind = names.subscript(end, name);
    names.wholeNames.add(name.image);
    return behind;
  }

  private environment(offset: number): number | null {
    ENVIRONMENT.lastIndex = offset;
    const found = ENVIRONMENT.exec(this.text);
    if (found === null || !ENVIRONMENTS.has(found[2]!.replace('*', ''))) return null;
    this.aligned = Math.max(0, this.aligned + (found[1] === 'begin' ? 1 : -1));
    return offset + found[0].length;
  }

  private matchEnd(pattern: RegExp, offset: number): number | null {
    pattern.lastIndex = offset;
    return pattern.test(this.text) ? pattern.lastIndex : null;
  }
}

/**
 * Leaves out braces that are no brackets of an expression: around a whole definition or its name, around a sign alone,
 * around nothing; and the comma or full stop with which a sentence goes on behind a formula.
 */
export function withoutEmptyGroups(tokens: readonly IToken[]): IToken[] {
  const dropped = new Set<number>();
  const open: { at: number; startsLine: boolean; equals: boolean; operands: boolean }[] = [];
  /** Whether nothing but braces stands before this token on its line. */
  let startsLine = true;
  tokens.forEach(({ tokenType: type, image }, index) => {
    if (type === t.LineEnd || type === t.Semicolon) startsLine = true;
    else if (image !== '{' && image !== '}') startsLine = false;
    if (type === t.Open && image === '{') {
      open.push({ at: index, startsLine, equals: false, operands: false });
    } else if (type === t.Close && image === '}' && open.length > 0) {
      const group = open.pop()!;
      const outer = open.at(-1);
      if (outer !== undefined) {
        outer.equals ||= group.equals;
        outer.operands ||= group.operands;
      }
      const leftSide = index === group.at + 2 && tokens[index + 1]?.tokenType === t.Equals;
      if ((group.startsLine && (group.equals || leftSide)) || !group.operands) {
        dropped.add(group.at).add(index);
      }
    } else if (open.length > 0) {
      const group = open.at(-1)!;
      if (type === t.Equals) group.equals = true;
      if (type === t.Name && WORDS.get(image.toLowerCase()) === 'infix') return;
      if (type === t.Name || type === t.Digits || type === t.Truth) group.operands = true;
    }
  });
  dropSentenceEnds(tokens, dropped);
  return tokens.filter((_, index) => !dropped.has(index));
}

/** Adds to `dropped` the comma or full stop behind each line that defines something. */
function dropSentenceEnds(tokens: readonly IToken[], dropped: Set<number>): void {
  let [depth, defines, last] = [0, false, -1];
  for (let index = 0; index <= tokens.length; index++) {
    const type = tokens[index]?.tokenType;
    if (type === undefined || type === t.LineEnd || type === t.Semicolon) {
      const end = tokens[last];
      const isEnd = end !== undefined && (end.tokenType === t.Comma || end.image === '.');
      if (isEnd && defines && depth === 0) dropped.add(last);
      [depth, defines, last] = [0, false, -1];
    } else if (!dropped.has(index)) {
      last = index;
      if (type === t.Equals) defines = true;
      else if (type === t.Open) depth++;
      else if (type === t.Close) depth--;
    }
  }
}
