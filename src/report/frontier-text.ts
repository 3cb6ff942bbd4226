// The frontier on the screen: a table of its points and a plot of parts over ticks. Proved points are marked apart from
// those that are merely the best found, in both, without colour.

import type { Painter } from './painter.ts';
import { prose } from './paragraph.ts';
import type { Point, Result } from './result.ts';

const INDENT = '  ';
const PROVED = '*';
const FOUND = 'o';
/** Columns for the curve, and rows at most. */
const PLOT_WIDTH = 60;
const PLOT_HEIGHT = 12;
/** Columns from one tick to the next at most. */
const WIDEST_TICK = 5;

function markOf(point: Point): string {
  return point.partsProved ? PROVED : FOUND;
}

/** What is special about a point. */
function remarkOf(result: Result, at: number): string {
  const remarks: string[] = [];
  if (at === result.chosen) remarks.push('the answer');
  if (result.points[at]?.ticksProved) remarks.push('fastest possible');
  if (at === result.points.length - 1) remarks.push('smallest found');
  return remarks.join(', ');
}

function tableLines(result: Result, painter: Painter): string[] {
  const lines = [painter.faint(`${INDENT}   ticks  parts   legs`)];
  const columns = (mark: string, cells: readonly (number | string)[]): string =>
    `${INDENT}${mark}  ${cells.map((cell) => String(cell).padStart(5)).join('  ')}`;
  const first = result.points[0]?.ticks ?? 0;
  const from = result.fastest?.ticks ?? first;
  if (from < first) {
    const ticks = from + 1 < first ? `${from}-${first - 1}` : from;
    lines.push(`${columns(' ', [ticks, '?', '?'])}  none was found; that there is none is not proved`);
  }
  result.points.forEach((point, at) => {
    const remark = remarkOf(result, at);
    const line = `${columns(markOf(point), [point.ticks, point.parts, point.legs])}  ${remark}`.trimEnd();
    lines.push(at === result.chosen ? painter.strong(line) : line);
  });
  return lines;
}

/** Parts over ticks; a line from each point to the tick where the next one saves something. */
function plotLines(points: readonly Point[], painter: Painter): string[] {
  const ticks = points.map((point) => point.ticks);
  const parts = points.map((point) => point.parts);
  const [left, right] = [Math.min(...ticks), Math.max(...ticks)];
  const [low, high] = [Math.min(...parts), Math.max(...parts)];
  if (left === right || low === high) return [];
  const step = Math.min(WIDEST_TICK, PLOT_WIDTH / (right - left + 1));
  const columnOf = (tick: number): number => Math.round((tick - left) * step);
  const height = Math.min(PLOT_HEIGHT, high - low + 1);
  // By ratio, not by difference: the fastest points are often many times larger than the rest.
  const scale = (height - 1) / Math.log((high + 1) / (low + 1));
  const rowOf = (count: number): number => Math.round(Math.log((high + 1) / (count + 1)) * scale);
  const width = columnOf(right) + 1;
  const rows = Array.from({ length: height }, () => new Array<string>(width).fill(' '));
  const labels = new Array<string>(height).fill('');
  points.forEach((point, at) => {
    const row = rowOf(point.parts);
    const end = columnOf(points[at + 1]?.ticks ?? right);
    for (let column = columnOf(point.ticks); column < end; column++) rows[row][column] = '-';
  });
  points.forEach((point) => {
    const row = rowOf(point.parts);
    rows[row][columnOf(point.ticks)] = markOf(point);
    if (labels[row] === '') labels[row] = String(point.parts);
  });
  let axis = '';
  for (const tick of ticks) {
    const column = columnOf(tick);
    if (axis === '' || axis.length < column) axis = `${axis.padEnd(column)}${tick}`;
  }
  const margin = Math.max('parts'.length, String(high).length) + 1;
  const plot = rows.map((row, at) => `${INDENT}${labels[at].padStart(margin)} | ${row.join('')}`.trimEnd());
  return [
    painter.faint(`${INDENT}${'parts'.padStart(margin)}`),
    ...plot,
    painter.faint(`${INDENT}${' '.repeat(margin)} +-${'-'.repeat(width)}`),
    painter.faint(`${INDENT}${' '.repeat(margin)}   ${axis}  ticks`),
  ];
}

/** Table and plot of a result that holds a frontier. */
export function frontierLines(result: Result, painter: Painter): string[] {
  const legend =
    `The frontier is the fewest parts at every number of ticks. ${PROVED} proved: no network of so many ticks has fewer ` +
    `parts; ${FOUND} the best that was found.`;
  const plot = plotLines(result.points, painter);
  return [
    ...prose(legend, INDENT).map((line) => painter.faint(line)),
    '',
    ...tableLines(result, painter),
    ...(plot.length > 0 ? ['', ...plot] : []),
    '',
    ...prose('The answer follows; --json prints every network.', INDENT).map((line) => painter.faint(line)),
  ];
}
