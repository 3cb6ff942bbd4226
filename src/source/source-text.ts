// A text with its name, and where an offset stands in it for people: lines count from 1 and end with LF, CR LF or a
// lone CR (and the line ends of Unicode); columns count from 1 in characters as a person sees them, so a letter with
// its accents is one, a flag is one, a tab is one and a byte order mark is none.

export interface Position {
  /** From 1. */
  readonly line: number;
  /** From 1. */
  readonly column: number;
}

/** A letter with all that is drawn onto it, a pair that makes a flag, or pictures that are joined to one. */
const CHARACTER =
  /\p{Regional_Indicator}{2}|\P{M}(?:[\p{M}\p{Emoji_Modifier}]|\u200d\p{Extended_Pictographic})*|\p{M}+/gsu;

/** Splits `text` into characters as a person sees them. */
export function charactersOf(text: string): string[] {
  return text.match(CHARACTER) ?? [];
}

export class SourceText {
  /** As it shall be shown, a file name mostly; empty when there is none. */
  readonly name: string;
  readonly text: string;
  /** Offset of the first character of every line; found when first needed. */
  private starts: number[] | null = null;
  /** Characters of a line before `end`. */
  private counted = { line: 0, end: 0, characters: 0 };

  constructor(name: string, text: string) {
    this.name = name;
    this.text = text;
  }

  /** Where the character at `offset` stands. Offsets outside the text count as its nearest end. */
  positionOf(offset: number): Position {
    const line = this.lineAt(offset);
    const end = Math.min(offset, this.text.length);
    // Faults come mostly in order: what was counted of a line for the last one need not be counted again.
    const known = this.counted.line === line && this.counted.end <= end ? this.counted : null;
    const from = known?.end ?? this.lineStart(line);
    const characters = (known?.characters ?? 0) + countCharacters(this.text.slice(from, end));
    const inside = /^[\p{M}\p{Emoji_Modifier}\u200d]/u.test(this.text.slice(offset, offset + 2));
    if (!inside && isBetweenCharacters(this.text, end)) this.counted = { line, end, characters };
    return { line, column: Math.max(1, characters + (inside ? 0 : 1)) };
  }

  /** Number, from 1, of the line that holds `offset`. */
  lineAt(offset: number): number {
    const starts = this.lineStarts();
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (starts[middle]! <= offset) low = middle;
      else high = middle - 1;
    }
    return low + 1;
  }

  /** Offset of the first character of a line; a byte order mark before the first is left out. */
  lineStart(line: number): number {
    const start = this.lineStarts()[line - 1]!;
    return line === 1 && this.text.startsWith('\ufeff') ? 1 : start;
  }

  /** Offset of the line end that closes a line, or of the end of the text. */
  lineEnd(line: number): number {
    const next = this.lineStarts()[line];
    if (next === undefined) return this.text.length;
    return this.text.startsWith('\r\n', next - 2) ? next - 2 : next - 1;
  }

  private lineStarts(): number[] {
    if (this.starts !== null) return this.starts;
    const starts = [0];
    for (const { index, 0: end } of this.text.matchAll(/\r\n|[\n\r\u0085\u2028\u2029]/g))
      starts.push(index + end.length);
    this.starts = starts;
    return starts;
  }
}

/** No character of several units goes over this place, as far as its neighbours tell. */
function isBetweenCharacters(text: string, at: number): boolean {
  return !/[\ud800-\udbff\u200d]$|\p{Regional_Indicator}$/u.test(text.slice(Math.max(0, at - 2), at));
}

function countCharacters(text: string): number {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: every character of ASCII is one to the eye
  if (/^[\u0000-\u007f]*$/.test(text)) return text.length;
  let count = 0;
  for (const _ of text.matchAll(CHARACTER)) count++;
  return count;
}
