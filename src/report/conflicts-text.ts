// Conflicts on a screen: the fault with its line, what the wire carries and what it should, a pattern that shows it, and
// the ways out with what they cost.

import { railWord } from '../polarity/conflicts.ts';
import type { Standing, WayOut } from '../polarity/ways-out.ts';
import type { Diagnostic } from '../source/diagnostic.ts';
import { type RenderOptions, renderDiagnostic } from '../source/render-diagnostics.ts';
import type { SourceText } from '../source/source-text.ts';
import type { BlockReport, ConflictsReport, PlacedConflict } from './conflicts.ts';
import type { Painter } from './painter.ts';
import { counted, prose } from './paragraph.ts';

const INDENT = '  ';
/** Lines of a changed block that are shown; the rest is in the JSON. */
const MOST_LINES = 8;

/** The whole report; ends with a line feed. */
export function conflictsText(
  report: ConflictsReport,
  source: SourceText,
  painter: Painter,
  render: RenderOptions = {},
): string {
  const blocks = report.blocks.map((block) => blockText(block, source, painter, render));
  const head = `${report.source}, target ${report.target}`;
  if (blocks.length === 0) {
    const nothing = prose('No OR of these equations needs a wire on another rail than declared.', '');
    return `${[head, '', ...nothing].join('\n')}\n`;
  }
  return `${[head, ...blocks].join('\n\n')}\n`;
}

function blockText(block: BlockReport, source: SourceText, painter: Painter, render: RenderOptions): string {
  const { name, ticks, parts, copies, conflicts, proved } = block;
  const lines: string[] = [];
  if (name !== null) {
    const copied = copies > 0 ? `, ${counted(copies, 'copy').replace('copys', 'copies')} among them` : '';
    lines.push(
      painter.strong(`${name} stands at ${counted(ticks, 'tick')} and ${counted(parts, 'part')}${copied}.`),
    );
    const faults = conflicts.filter(({ severity }) => severity !== 'notice');
    if (faults.length === 0) {
      const sure = proved ? 'Proved on all patterns' : 'Found on a sample of the patterns; not proved';
      lines.push(
        ...prose(`No conflicts: every wire that is read is what was drawn and declared. ${sure}.`, ''),
      );
    }
  }
  const texts = conflicts.map((conflict) => conflictText(conflict, source, painter, render, name === null));
  return [lines.join('\n'), ...texts].filter((text) => text !== '').join('\n\n');
}

function conflictText(
  conflict: PlacedConflict,
  source: SourceText,
  painter: Painter,
  render: RenderOptions,
  ofEquations: boolean,
): string {
  const { severity, kind, at, message, carries, meant, pattern, readers, waysOut } = conflict;
  const told = ofEquations ? `these wires cannot simply be joined for it: ${message}` : message;
  const diagnostic: Diagnostic = { severity, code: kind, message: told, at, hint: null };
  const lines = renderDiagnostic(diagnostic, source, render).split('\n');
  const row = (label: string, text: string): void => {
    lines.push(...prose(text, `${INDENT}${label.padEnd(9)}`));
  };
  if (carries !== null) row('carries', `${carries.high} active-high, which is ${carries.low} active-low`);
  if (meant !== null) row('meant', `${meant.signal} ${railWord(meant.rail)}`);
  if (pattern !== null) {
    const values = pattern.inputs.map(([name, value]) => `${name} = ${value}`).join(', ');
    row('shows at', values);
    for (const { wire, level, says } of pattern.legs) {
      row('', `${wire} is ${level}${says === null ? '' : `: ${says}`}`);
    }
    const is = pattern.is === null ? 'does not settle' : `is ${pattern.is}, meant ${pattern.meant}`;
    row('', `so ${pattern.wire} ${is}`);
  }
  if (readers.length > 0 && severity === 'error' && !ofEquations) row('read by', readers.join(', '));
  if (waysOut.length > 0) lines.push('', ...wayLines(waysOut, painter));
  return lines.join('\n');
}

function cost(standing: Standing | null): string {
  return standing === null ? '-' : `${standing.ticks} / ${standing.parts}`;
}

function wayLines(ways: readonly WayOut[], painter: Painter): string[] {
  const hasRemade = ways.some(({ stands, remade }) => remade !== null && remade !== stands);
  const head = hasRemade
    ? 'Ways out, best first: ticks / parts as it stands, and with the readers made anew'
    : 'Ways out, best first: ticks / parts as it stands';
  const lines = prose(head, INDENT).map((line) => painter.faint(line));
  ways.forEach(({ what, stands, remade, consumer }, n) => {
    const again = hasRemade ? `  ${cost(remade).padStart(7)}` : '';
    const lead = `${INDENT}${String(n + 1).padStart(2)}  ${cost(stands).padStart(7)}${again}  `;
    lines.push(...prose(what, lead));
    const indent = ' '.repeat(6);
    if (consumer !== null && n === 0) lines.push(...prose(`(what reads it: ${consumer})`, indent));
    const shown = (remade ?? stands)?.lines ?? [];
    const first = shown.slice(0, MOST_LINES);
    for (const line of first) lines.push(painter.faint(`${indent}${line}`));
    if (shown.length > MOST_LINES)
      lines.push(painter.faint(`${indent}and ${shown.length - MOST_LINES} more; --json has all`));
  });
  return lines;
}
