// Levels over ticks as a picture: one row for each wire, a raised bar while the wire is 1 and a thin line while it is 0,
// so that it reads the same without colour.

import { joinLevel, type Pattern, settledLevels, type Transition } from './levels.ts';
import { type Frame, MARGIN } from './picture.ts';
import type { Point, Result, WireNetwork, WireRail } from './result.ts';
import { railOfMeaning } from './schematic-plan.ts';
import { number, onRail, text } from './schematic-svg.ts';
import { escaped, shortened, widthOf } from './svg-text.ts';

const STEP = 52;
const ROW = 24;
const BAR = 12;
const NAMES = 20;

export interface WaveRow {
  readonly name: string;
  readonly rail: WireRail | null;
  readonly levels: readonly (0 | 1)[];
  /** First of a group of rows: what the group is called. */
  readonly group?: string;
}

/** Rows of a transition: the inputs, then the inverters by tick, then the outputs. */
export function transitionRows(
  network: WireNetwork,
  found: Transition,
  logic: 'or' | 'and',
  railOf: (wire: string) => WireRail | null = () => null,
): WaveRow[] {
  const steps = [settledLevels(network, found.from, logic), ...found.steps];
  const over = (wire: string): (0 | 1)[] => steps.map((levels) => levels.get(wire) ?? 0);
  const grouped = (group: string, rows: readonly Omit<WaveRow, 'group'>[]): WaveRow[] =>
    rows.map((row, at) => (at === 0 ? { ...row, group } : row));
  const inverters = [...network.inverters].sort((a, b) => a.tick - b.tick);
  return [
    ...grouped(
      'inputs',
      network.inputs.map(({ wire, rail }) => ({ name: wire, rail, levels: over(wire) })),
    ),
    ...grouped(
      'inverters',
      inverters.map(({ wire }) => ({ name: wire, rail: railOf(wire), levels: over(wire) })),
    ),
    ...grouped(
      'outputs',
      network.outputs.map(({ name, rail, legs }) => ({
        name,
        rail,
        levels: steps.map((levels) => joinLevel(legs, levels, logic)),
      })),
    ),
  ];
}

/** The pattern in words: `a=1 b=0`. */
export function patternWords(pattern: Pattern): string {
  return Object.entries(pattern)
    .map(([name, level]) => `${name}=${level}`)
    .join(' ');
}

function wave({ levels, rail }: WaveRow, left: number, top: number): string {
  const base = top + ROW - 6;
  const parts = levels.map((level, tick) => {
    const x = left + tick * STEP;
    return level === 1
      ? `<rect class="half" x="${number(x)}" y="${number(base - BAR)}" width="${STEP}" height="${BAR}"/>`
      : `<path class="axis" d="M${number(x)} ${number(base)}h${STEP}"/>`;
  });
  return rail === null ? `<g class="none">${parts.join('')}</g>` : onRail(rail, parts.join(''));
}

/** The picture of one transition. */
export function waveformPicture(result: Result, { network, rails }: Point, found: Transition): Frame {
  const named = new Map(rails.flatMap(({ rail, wires }) => wires.map((wire) => [wire, rail] as const)));
  const railOf = (wire: string): WireRail | null => {
    const meant = railOfMeaning(network.inverters.find((inverter) => inverter.wire === wire)?.meaning);
    const rail = meant ?? named.get(wire);
    return rail === 'high' || rail === 'low' ? rail : null;
  };
  const rows = transitionRows(network, found, result.join ?? 'or', railOf);
  const left = 12 + Math.max(...rows.map(({ name }) => widthOf(shortened(name, NAMES), 12)), 60);
  const title = 'The slowest transition found, tick by tick';
  const from = shortened(`from ${patternWords(found.from)}`, 110);
  const to = shortened(`to   ${patternWords(found.to)}`, 110);
  const body = [text(0, 14, title, 'head'), text(0, 32, from, 'note'), text(0, 48, to, 'note')];
  let y = 84;
  const columns = found.steps.length + 1;
  const top = y;
  for (const row of rows) {
    if (row.group !== undefined) {
      body.push(text(0, y + 12, row.group, 'note'));
      y += 18;
    }
    const said = row.levels
      .map((level, at) => `${at === 0 ? 'before' : `tick ${at - 1}`}: ${level}`)
      .join(', ');
    body.push(
      `<g class="row"><title>${escaped(`${row.name}: ${said}`)}</title>${text(8, y + ROW - 8, shortened(row.name, NAMES))}${wave(row, left, y)}</g>`,
    );
    y += ROW;
  }
  const grid = Array.from({ length: columns }, (_, tick) => {
    const x = left + tick * STEP;
    return `<path class="grid" d="M${number(x)} ${top - 8}V${y}"/>${text(x + STEP / 2, top - 12, tick === 0 ? 'before' : `tick ${tick - 1}`, 'small', 'middle')}`;
  });
  const width = Math.max(left + columns * STEP, widthOf(title, 15), widthOf(from, 11), widthOf(to, 11));
  const changes = rows
    .filter(({ levels }) => levels.some((level) => level !== levels[0]))
    .map(({ name, levels }) => `${name} ${levels.join('')}`);
  return {
    width: width + 2 * MARGIN,
    height: y + 10 + 2 * MARGIN,
    title,
    description: `Levels by tick of the wires that change: ${changes.join('; ')}`,
    body: `<g transform="translate(${MARGIN} ${MARGIN})">${grid.join('')}${body.join('\n')}</g>`,
  };
}
