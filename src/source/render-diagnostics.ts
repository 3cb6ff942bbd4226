// Diagnostics as text for people, all in one shape:
//
//     hall.logic:3:11: error: "p9" is neither an input nor defined
//       3 | c4 = g3 + p9 g2
//         |           ^^
//     help: did you mean "p0"?
//
// Place, what is wrong, the line, a caret, what to write instead. Other places that belong to the fault follow the
// first with `-` for a caret and a few words. Colours come from a painter that the caller hands in.

import { visible } from '../../grammar/quote.ts';
import type { Diagnostic, Severity, Span } from './diagnostic.ts';
import { excerptOf } from './excerpt.ts';
import type { SourceText } from './source-text.ts';

/** What a piece of the output is, for colouring. */
export type Role = Severity | 'place' | 'margin' | 'caret' | 'related' | 'help';

/** Returns `text`, perhaps with codes around it that take no room on the screen. */
export type Painter = (role: Role, text: string) => string;

export interface RenderOptions {
  /** Most diagnostics to show; the rest is counted. */
  readonly limit?: number;
  /** Cells of a line. */
  readonly width?: number;
  readonly paint?: Painter;
}

const LIMIT = 20;
const WIDTH = 80;
const PLAIN: Painter = (_role, text) => text;

/**
 * All of `diagnostics`, an empty line between two, no line feed at the end; empty text for none. When there are more
 * than the limit, errors go before the rest, and the last line counts what is left out. `source` is null when no text
 * stands behind them.
 */
export function renderDiagnostics(
  diagnostics: readonly Diagnostic[],
  source: SourceText | null,
  options: RenderOptions = {},
): string {
  const { limit = LIMIT } = options;
  const shown = chooseShown(diagnostics, limit);
  const blocks = shown.map((diagnostic) => renderDiagnostic(diagnostic, source, options));
  const isShown = new Set(shown);
  const left = diagnostics.filter((diagnostic) => !isShown.has(diagnostic));
  if (left.length > 0) blocks.push(`and ${left.length} more: ${countBySeverity(left)}`);
  return blocks.join('\n\n');
}

/** One diagnostic, some lines without a line feed at the end. */
export function renderDiagnostic(
  diagnostic: Diagnostic,
  source: SourceText | null,
  options: RenderOptions = {},
): string {
  const { width = WIDTH, paint = PLAIN } = options;
  const { severity, at, hint, related = [] } = diagnostic;
  const name = source === null || source.name === '' ? '' : `${visible(source.name)}:`;
  let place = name;
  if (source !== null && at !== null) {
    const { line, column } = source.positionOf(at.start);
    place = `${name === '' ? 'line ' : name}${line}:${column}:`;
  }
  const lead = place === '' ? '' : `${place} `;
  const [firstLine, ...more] = wrap(`${lead}${severity}: ${visible(diagnostic.message)}`, width, 4);
  const lines = [paintLead(firstLine!, place, severity, paint), ...more];
  if (source !== null && at !== null) {
    const marks = [{ at, note: '' }, ...related];
    const margin = Math.max(...marks.map((mark) => String(source.lineAt(mark.at.start)).length), 1) + 2;
    marks.forEach((mark, index) => {
      lines.push(
        ...markLines(source, mark.at, mark.note, index === 0 ? 'caret' : 'related', margin, options),
      );
    });
  }
  if (hint !== null) {
    const [first, ...rest] = wrap(`help: ${visible(hint)}`, width, 6);
    lines.push(paint('help', 'help:') + first!.slice(5), ...rest);
  }
  return lines.join('\n');
}

function paintLead(line: string, place: string, severity: Severity, paint: Painter): string {
  const word = `${severity}:`;
  if (place === '') return line.startsWith(word) ? paint(severity, word) + line.slice(word.length) : line;
  const rest = line.slice(place.length);
  if (!line.startsWith(place) || !rest.startsWith(` ${word}`)) return line;
  return `${paint('place', place)} ${paint(severity, word)}${rest.slice(word.length + 1)}`;
}

/** The excerpt with its carets; `margin` is the room for line numbers. */
function markLines(
  source: SourceText,
  at: Span,
  note: string,
  role: 'caret' | 'related',
  margin: number,
  { width = WIDTH, paint = PLAIN }: RenderOptions,
): string[] {
  const { line, shown, indent, carets } = excerptOf(source, at, width - margin - 3);
  const under = (role === 'caret' ? '^' : '-').repeat(carets);
  return [
    `${paint('margin', `${String(line).padStart(margin)} |`)}${shown === '' ? '' : ` ${shown}`}`,
    `${paint('margin', `${' '.repeat(margin)} |`)} ${' '.repeat(indent)}${paint(role, note === '' ? under : `${under} ${visible(note)}`)}`,
  ];
}

/** Breaks at blanks so that lines stay within `width` where words allow it; lines after the first are indented. */
function wrap(text: string, width: number, indent: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line.trim() !== '' && line.length + 1 + word.length > width) {
      lines.push(line);
      line = ' '.repeat(indent) + word;
    } else {
      line = line === '' ? word : `${line} ${word}`;
    }
  }
  return [...lines, line];
}

function chooseShown(diagnostics: readonly Diagnostic[], limit: number): readonly Diagnostic[] {
  if (diagnostics.length <= limit) return diagnostics;
  const errors = diagnostics.filter((diagnostic) => diagnostic.severity === 'error');
  const others = diagnostics.filter((diagnostic) => diagnostic.severity !== 'error');
  const chosen = new Set([...errors.slice(0, limit), ...others.slice(0, Math.max(0, limit - errors.length))]);
  return diagnostics.filter((diagnostic) => chosen.has(diagnostic));
}

function countBySeverity(diagnostics: readonly Diagnostic[]): string {
  const counts = (['error', 'warning', 'notice'] as const).map((severity) => {
    const count = diagnostics.filter((diagnostic) => diagnostic.severity === severity).length;
    return count === 0 ? null : `${count} ${severity}${count === 1 ? '' : 's'}`;
  });
  return counts.filter((count) => count !== null).join(', ');
}
