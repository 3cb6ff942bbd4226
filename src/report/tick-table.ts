// A simulation as a table: a line for each tick at which something changes, a column for each wire. The first line has
// the levels before tick 0; further down only changes stand, and a dot for what stays.

import { visible } from '../../grammar/quote.ts';
import type { History } from '../timing/history.ts';
import { WIDTH } from './paragraph.ts';
import type { WatchedWire } from './watched-wires.ts';

const INDENT = '  ';
const GAP = '  ';
const FIRST = 6;

/** Lines of the table, in as many pieces side by side as the width asks for; `most` ticks with changes are shown. */
export function tickTable(
  history: History,
  wires: readonly WatchedWire[],
  most = Number.POSITIVE_INFINITY,
): string[] {
  const lines: string[] = [];
  for (let from = 0; from < wires.length; ) {
    let width = INDENT.length + FIRST;
    let to = from;
    while (to < wires.length) {
      width += GAP.length + visible(wires[to].label).length;
      if (width > WIDTH && to > from) break;
      to++;
    }
    if (from > 0) lines.push('');
    lines.push(...piece(history, wires.slice(from, to), most));
    from = to;
  }
  return lines;
}

function piece(history: History, wires: readonly WatchedWire[], most: number): string[] {
  const labels = wires.map(({ label }) => visible(label));
  const row = (tick: string, cells: readonly string[]): string =>
    INDENT + tick.padStart(FIRST) + cells.map((cell, at) => GAP + cell.padStart(labels[at].length)).join('');
  const levels = wires.map(({ wire }) => history.levels[wire]);
  const last = wires.map(({ wire }) => history.before[wire]);
  const lines = [
    row('tick', labels),
    row(
      'before',
      last.map((level) => String(level)),
    ),
  ];
  let left = 0;
  for (let tick = 0; tick <= history.ticks; tick++) {
    const changed = levels.map((level, at) => level[tick] !== last[at]);
    if (!changed.includes(true)) continue;
    if (lines.length - 2 >= most) {
      left++;
      continue;
    }
    lines.push(
      row(
        String(tick),
        levels.map((level, at) => (changed[at] ? String(level[tick]) : '.')),
      ),
    );
    levels.forEach((level, at) => {
      last[at] = level[tick];
    });
  }
  if (left > 0) lines.push(`${INDENT}and ${left} more ticks with changes`);
  return lines;
}
