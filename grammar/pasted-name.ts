// Names as they come in pasted text: with subscripts (`c₄`, in LaTeX `C_{1}`, `C_1`, `C_{in}`), with bars over letters
// that are characters of their own (a letter and a combining bar, or a letter that has one), or both.
//
// A subscript of digits is written on the line, `c₄` is `c4`; one of letters keeps its underscore, `C_{in}` is `C_in`; a
// number below zero is an index, `c_{-1}` is `c[-1]`; and so is an index letter, `c_{i+1}` is `c[i + 1]`. A name ends with
// its subscript, so that `P₃G₂` is two names.
//
// A bar over a whole name complements it. A bar over a part shows that the parts are names of their own.

import type { IToken } from 'chevrotain';
import { takeIndex } from './bit-names.ts';
import * as t from './tokens.ts';

const BARRED = /(?:(?!\u0304|\u0305)[\s\S](?:\u0304|\u0305)+)+/uy;

const SUBSCRIPTS: ReadonlyMap<string, string> = new Map(
  [...'₀0₁1₂2₃3₄4₅5₆6₇7₈8₉9₊+₋-ᵢiⱼjₖkₙn'.matchAll(/(.)(.)/gu)].map(([, sign, plain]) => [sign!, plain!]),
);
/** Letters with a bar over them that are one character. */
const BARRED_LETTERS: ReadonlyMap<string, string> = new Map(
  [...'ĀAāaĒEēeĪIīiŌOōoŪUūuȲYȳyḠGḡg'.matchAll(/(.)(.)/gu)].map(([, barred, plain]) => [barred!, plain!]),
);
/** Letters that stand for every number; another letter below the line is part of the name. */
const INDEX_LETTERS = 'ijkn';
const BASE = /[A-Za-z_\u0100\u0101\u0112\u0113\u012a\u012b\u014c\u014d\u016a\u016b\u0232\u0233\u1e20\u1e21]/;
const LATEX_SUBSCRIPT = / *_ *(?:\{([^{}]*(?:\{[^{}]*\}[^{}]*)*)\}|([0-9]+|[A-Za-z]+))/y;

export function isSubscript(character: string | undefined): boolean {
  return character !== undefined && SUBSCRIPTS.has(character);
}

/** The characters with a bar over each that begin at `offset`. */
export function barredRun(text: string, offset: number): string {
  BARRED.lastIndex = offset;
  return BARRED.exec(text)?.[0] ?? '';
}

/** Whether more than a name is under the bar. */
export function isGroup(run: string): boolean {
  return !/^(?:[A-Za-z0-9_₀-₉][\u0304\u0305]+)*$/u.test(run);
}

/** A letter with its digits, or a letter of a longer name. */
interface Piece {
  text: string;
  barred: boolean;
  readonly start: number;
  end: number;
}

export class NameReader {
  barredPart: IToken | null = null;
  readonly barredRuns = new Set<IToken>();
  /** Names that the text marks as one word. */
  readonly wholeNames = new Set<string>();
  private readonly text: string;
  private readonly latex: boolean;

  constructor(text: string, latex: boolean) {
    this.text = text;
    this.latex = latex;
  }

  /** Reads a name at `offset`, of one letter when `short`; returns the offset behind it, or `offset` when there is none. */
  read(offset: number, tokens: IToken[], short = false): number {
    const pieces = this.pieces(offset, short);
    if (pieces.length === 0) return offset;
    let end = pieces.at(-1)!.end;
    const bare = pieces.every((piece) => !piece.barred);
    const all = pieces.every((piece) => piece.barred);
    const first = tokens.length;
    for (let from = 0; from < pieces.length; ) {
      // Side by side in one name as long as they are alike.
      let to = from;
      while (to < pieces.length && pieces[to]!.barred === pieces[from]!.barred) to++;
      const run = pieces.slice(from, to);
      const name = t.tokenOf(t.Name, run.map(({ text }) => text).join(''), run[0]!.start, run.at(-1)!.end);
      tokens.push(name);
      let { barred } = run[0]!;
      if (to === pieces.length) {
        const behind = this.subscript(end, name);
        if (this.text.slice(end, behind).match(/[\u0304\u0305]/) !== null) barred = true;
        end = behind;
      }
      if (barred) tokens.push(t.tokenOf(t.Postfix, "'", run[0]!.start, run.at(-1)!.end));
      if (all && run.length > 1) this.barredRuns.add(name);
      from = to;
    }
    if (!bare && !all) this.barredPart ??= tokens[first]!;
    return end;
  }

  /** Takes a subscript at `offset` into `name`; returns the offset behind it. */
  subscript(offset: number, name: IToken): number {
    let end = offset;
    let below = '';
    while (isSubscript(this.text[end]) || (below !== '' && /[\u0304\u0305]/.test(this.text[end] ?? ''))) {
      below += SUBSCRIPTS.get(this.text[end++]!) ?? '';
    }
    if (below === '' && this.latex) {
      LATEX_SUBSCRIPT.lastIndex = offset;
      const found = LATEX_SUBSCRIPT.exec(this.text);
      if (found !== null) {
        const [whole, group, plain] = found;
        below = group === undefined ? this.shortSubscript(plain!, offset + whole.length) : plainText(group);
        end = offset + whole.length - (group === undefined ? plain!.length - below.length : 0);
      }
    }
    if (below === '') return offset;
    name.endOffset = end - 1;
    this.apply(below, name, offset, end);
    return end;
  }

  /** Of letters below the line without braces: in `p_ic_i` the last letter belongs to the next name. */
  private shortSubscript(letters: string, end: number): string {
    if (/^[0-9]/.test(letters)) return letters;
    const last = /^\s*_/.test(this.text.slice(end, end + 3)) ? letters.slice(0, -1) : letters;
    if (last.length > 1 && INDEX_LETTERS.includes(last[0]!) && /^[A-Z]/.test(last[1]!)) return last[0]!;
    return last;
  }

  private apply(below: string, name: IToken, start: number, end: number): void {
    if (/^[0-9]+$/.test(below)) name.image += below;
    else if (
      /^[A-Za-z][A-Za-z0-9_]*$/.test(below) &&
      !(below.length === 1 && INDEX_LETTERS.includes(below))
    ) {
      name.image += `_${below}`;
    } else if (/^[0-9]+(?:\s*[:,;-]\s*[0-9]+)+$/.test(below))
      name.image += `_${below.replace(/[^0-9]+/g, '_')}`;
    else {
      const spelled = below.replace(/([0-9])(?=[ijkn]\b)/, '$1*');
      const inside = t
        .tokenize(`[${spelled}]`)
        .map((token) => ({ ...token, startOffset: start, endOffset: end - 1 }));
      const { fault } = takeIndex(name, inside, 0);
      // Shown as it stands in the text where the arithmetic cannot be read.
      if (fault !== null) name.image += `_${below.replace(/\W+/g, '_')}`;
    }
  }

  private pieces(offset: number, short: boolean): Piece[] {
    const pieces: Piece[] = [];
    let at = offset;
    /** Up to here bars are known to be over names only. */
    let checked = offset;
    while (at < this.text.length) {
      const character = this.text[at]!;
      const isLetter = BASE.test(character);
      const last = pieces.at(-1);
      if (!isLetter && (last === undefined || !/[0-9]/.test(character))) break;
      if (short && last !== undefined) break;
      if (this.latex && character === '_' && this.isSubscriptAt(at)) break;
      if (at >= checked) {
        const run = barredRun(this.text, at);
        // A bar that goes on over an operator is over a group.
        if (isGroup(run)) break;
        checked = at + run.length;
      }
      const bars = /^[\u0304\u0305]*/.exec(this.text.slice(at + 1, at + 9))![0].length;
      const barred = bars > 0 || BARRED_LETTERS.has(character);
      const end = at + 1 + bars;
      const text = BARRED_LETTERS.get(character) ?? character;
      if (isLetter || last === undefined) pieces.push({ text, barred, start: at, end });
      else {
        last.text += text;
        last.barred ||= barred;
        last.end = end;
      }
      at = end;
    }
    return pieces;
  }

  private isSubscriptAt(offset: number): boolean {
    LATEX_SUBSCRIPT.lastIndex = offset;
    return LATEX_SUBSCRIPT.test(this.text);
  }
}

/** What stands in the braces of a subscript, without the commands for upright letters. */
function plainText(group: string): string {
  return group
    .replace(/\\(?:text|mathrm|mathit|operatorname|textrm|rm|it)\b\s*/g, '')
    .replace(/\\[,;:! ]/g, '')
    .replace(/[{}]/g, '')
    .trim();
}
