// A simulation as a waveform in text: a line for each wire, a character for each tick, `_` at level 0 and `#` at level
// 1. What is wider than the screen goes on further down; pieces in which nothing changes are left out.

import { visible } from '../../grammar/quote.ts';
import type { History } from '../timing/history.ts';
import { WIDTH } from './paragraph.ts';
import type { WatchedWire } from './watched-wires.ts';

const INDENT = '  ';
const RULE = 10;
const LONGEST_LABEL = 24;

/** Lines of the waveform. */
export function waveform(history: History, wires: readonly WatchedWire[], width = WIDTH): string[] {
  const labels = wires.map(({ label }) => shortened(visible(label)));
  const margin = Math.max(4, ...labels.map((label) => label.length)) + INDENT.length + 1;
  // Tick -1 stands for everything before tick 0.
  const room = Math.max(RULE, Math.floor((width - margin - 1) / RULE) * RULE);
  const lines: string[] = [];
  let skipped: number | null = null;
  const quiet = (to: number): void => {
    if (skipped === null) return;
    lines.push('', `${INDENT}nothing changes at ticks ${skipped} to ${to}`);
    skipped = null;
  };
  for (let from = 0; from <= history.ticks; from += room) {
    const to = Math.min(from + room - 1, history.ticks);
    if (from > 0 && !wires.some(({ wire }) => changes(history, wire, from, to))) {
      skipped ??= from;
      continue;
    }
    quiet(from - 1);
    if (lines.length > 0) lines.push('');
    lines.push(`${`${INDENT}tick`.padEnd(margin)} ${ruler(from, to)}`);
    wires.forEach(({ wire }, at) => {
      const before = from === 0 ? history.before[wire] : history.levels[wire][from - 1];
      const levels = [before, ...history.levels[wire].subarray(from, to + 1)];
      const drawn = levels.map((level) => (level === 1 ? '#' : '_')).join('');
      lines.push((INDENT + labels[at]).padEnd(margin) + drawn);
    });
  }
  quiet(history.ticks);
  return lines;
}

function changes(history: History, wire: number, from: number, to: number): boolean {
  const levels = history.levels[wire];
  for (let tick = from; tick <= to; tick++) if (levels[tick] !== levels[tick - 1]) return true;
  return false;
}

/** Numbers of ticks, each beginning above its tick. */
function ruler(from: number, to: number): string {
  let line = '';
  for (let tick = from; tick <= to; tick += RULE) {
    line = line.padEnd(tick - from) + String(tick);
  }
  return line;
}

function shortened(label: string): string {
  return label.length <= LONGEST_LABEL ? label : `${label.slice(0, LONGEST_LABEL - 2)}..`;
}
