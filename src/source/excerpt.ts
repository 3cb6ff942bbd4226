// The line of a fault and a line of carets under it, as text of fixed width. A long line is clipped around the caret,
// so its length does not matter for the cost; what cannot be shown as it is, is spelled out.

import { visible } from '../../grammar/quote.ts';
import type { Span } from './diagnostic.ts';
import { charactersOf, type SourceText } from './source-text.ts';

const TAB = '    ';
const CUT = '...';

export interface Excerpt {
  readonly line: number;
  /** The line, clipped. */
  readonly shown: string;
  /** Cells of a terminal before the first caret, and how many carets; at least one. */
  readonly indent: number;
  readonly carets: number;
}

interface Cell {
  readonly shown: string;
  readonly width: number;
  /** Offsets into the text. */
  readonly start: number;
  readonly end: number;
}

/** The line on which `span` starts, in at most `width` cells. A span over several lines is marked on its first. */
export function excerptOf(source: SourceText, span: Span, width: number): Excerpt {
  const line = source.lineAt(span.start);
  const lineStart = source.lineStart(line);
  const lineEnd = source.lineEnd(line);
  const start = Math.min(Math.max(span.start, lineStart), lineEnd);
  const end = Math.min(span.end, lineEnd);

  // A character takes up some code units and at least one cell, so this much on each side is always enough.
  const from = Math.max(lineStart, start - 4 * width);
  const to = Math.min(lineEnd, start + 4 * width);
  const cells = cellsOf(source.text.slice(from, to), from);
  let first = cells.findIndex((cell) => cell.end > start);
  if (first < 0) first = cells.length;
  const [left, right] = windowAround(cells, first, end, width, from > lineStart, to < lineEnd);

  const cutLeft = left > 0 || from > lineStart ? CUT : '';
  const cutRight = right < cells.length || to < lineEnd ? CUT : '';
  const inside = cells.slice(left, right);
  const marked = inside.slice(first - left).filter((cell) => cell.start < end);
  return {
    line,
    shown: cutLeft + inside.map((cell) => cell.shown).join('') + cutRight,
    indent: cutLeft.length + widthOf(inside.slice(0, first - left)),
    carets: Math.max(1, widthOf(marked)),
  };
}

/** Which cells to show: all when they fit, else as many as fit with the caret in the first third. */
function windowAround(
  cells: readonly Cell[],
  first: number,
  end: number,
  width: number,
  moreLeft: boolean,
  moreRight: boolean,
): [number, number] {
  if (!moreLeft && !moreRight && widthOf(cells) <= width) return [0, cells.length];
  const room = width - 2 * CUT.length;
  const wanted = widthOf(cells.slice(first).filter((cell) => cell.start < end));
  const before = Math.max(Math.floor(room / 3), Math.min(Math.floor(room * 0.8), room - wanted - 8));
  let left = first;
  let used = 0;
  while (left > 0 && used + cells[left - 1]!.width <= before) used += cells[--left]!.width;
  let right = first;
  while (right < cells.length && used + cells[right]!.width <= room) used += cells[right++]!.width;
  while (right === cells.length && left > 0 && used + cells[left - 1]!.width <= room)
    used += cells[--left]!.width;
  return [left, right];
}

function cellsOf(text: string, offset: number): Cell[] {
  const cells: Cell[] = [];
  let start = offset;
  for (const character of charactersOf(text)) {
    const shown = character === '\t' ? TAB : visible(character);
    const width = shown === character ? (isWide(character) ? 2 : 1) : shown.length;
    const end = start + character.length;
    cells.push({ shown, width, start, end });
    start = end;
  }
  return cells;
}

function widthOf(cells: readonly Cell[]): number {
  return cells.reduce((sum, cell) => sum + cell.width, 0);
}

/** Whether a terminal draws a character two cells wide: East Asian letters and pictures. */
function isWide(character: string): boolean {
  const code = character.codePointAt(0)!;
  return (
    (code >= 0x1100 && code <= 0x115f) ||
    (code >= 0x2e80 && code <= 0xa4cf) ||
    (code >= 0xac00 && code <= 0xd7a3) ||
    (code >= 0xf900 && code <= 0xfaff) ||
    (code >= 0xfe30 && code <= 0xfe6f) ||
    (code >= 0xff01 && code <= 0xff60) ||
    (code >= 0xffe0 && code <= 0xffe6) ||
    (code >= 0x1f000 && code <= 0x1faff) ||
    (code >= 0x20000 && code <= 0x3fffd)
  );
}
