// What a choice of rails costs: for every choice of the rails that were left to the search, the fewest parts at each
// number of ticks. The search itself is handed in, since it is the business of whoever calls.

import type { Painter } from './painter.ts';
import { counted, prose } from './paragraph.ts';
import type { Result } from './result.ts';

export type ChosenRail = 'high' | 'low';

export interface RailPrice {
  /** In the order of `names`. */
  readonly rails: readonly ChosenRail[];
  /** The fewest parts found within so many ticks, in the order of `RailPrices.ticks`; null where nothing is so fast. */
  readonly parts: readonly (number | null)[];
  /** Whether none can have fewer. */
  readonly proved: readonly boolean[];
  /** The choice that the search makes by itself. */
  readonly isTaken: boolean;
}

export interface RailPrices {
  readonly format: 'tickwright.rails/1';
  readonly source: string;
  readonly target: string;
  /** Inputs and outputs whose rails were free. */
  readonly names: readonly string[];
  readonly ticks: readonly number[];
  /** The answer of the search. */
  readonly taken: { readonly rails: readonly ChosenRail[]; readonly ticks: number; readonly parts: number };
  /** The choice taken first, then the others by their parts from the fewest ticks on. */
  readonly prices: readonly RailPrice[];
}

/** With more names only those choices are priced that differ from the answer in one rail. */
export const MOST_CHOICES = 16;

/** Results of a search with rails fixed, or with them free (null). */
export type Priced = (rails: readonly ChosenRail[] | null) => Result | null;

/** Prices all choices; null when the search finds nothing. */
export function railPrices(
  source: string,
  target: string,
  names: readonly string[],
  search: Priced,
): RailPrices | null {
  const free = search(null);
  const answer = free?.points[free.chosen ?? 0];
  if (answer === undefined) return null;
  const wires = [...answer.network.inputs, ...answer.network.outputs];
  const takenRails = names.map(
    (name): ChosenRail => wires.find((wire) => wire.name === name)?.rail ?? 'high',
  );
  const points = choicesAround(takenRails).map((rails) => {
    const result = search(rails);
    return { rails, points: result?.points ?? [], isComplete: result?.stop === 'complete' };
  });
  const ends = points.flatMap((choice) => choice.points.map((point) => point.ticks));
  const first = Math.min(...ends);
  const last = Math.max(first + 3, ...ends);
  const ticks = Array.from({ length: last - first + 1 }, (_, n) => first + n);
  const prices = points.map(({ rails, points: found, isComplete }): RailPrice => {
    const within = ticks.map((most) =>
      found.reduce<(typeof found)[number] | null>((best, point) => {
        const fits = point.ticks <= most;
        return fits && (best === null || point.parts < best.parts) ? point : best;
      }, null),
    );
    return {
      rails,
      parts: within.map((point) => point?.parts ?? null),
      // Between two points of a frontier only a search that answered all its questions has proved anything.
      proved: within.map(
        (point, n) => point?.partsProved === true && (isComplete || point.ticks === ticks[n]),
      ),
      isTaken: rails.every((rail, i) => rail === takenRails[i]),
    };
  });
  prices.sort((a, b) => Number(b.isTaken) - Number(a.isTaken) || compareParts(a, b));
  const taken = { rails: takenRails, ticks: answer.ticks, parts: answer.parts };
  return { format: 'tickwright.rails/1', source, target, names, ticks, taken, prices };
}

function compareParts(a: RailPrice, b: RailPrice): number {
  for (let n = 0; n < a.parts.length; n++) {
    const difference = (a.parts[n] ?? Number.MAX_SAFE_INTEGER) - (b.parts[n] ?? Number.MAX_SAFE_INTEGER);
    if (difference !== 0) return difference;
  }
  return 0;
}

/** All choices, or those that differ from `taken` in one rail at most. */
function choicesAround(taken: readonly ChosenRail[]): ChosenRail[][] {
  if (2 ** taken.length <= MOST_CHOICES) {
    return Array.from({ length: 2 ** taken.length }, (_, set) =>
      taken.map((_rail, i): ChosenRail => (((set >> i) & 1) === 1 ? 'low' : 'high')),
    );
  }
  const turned = taken.map((_, turn) =>
    taken.map((rail, i): ChosenRail => (i !== turn ? rail : rail === 'high' ? 'low' : 'high')),
  );
  return [[...taken], ...turned];
}

/** The prices on a screen; ends with a line feed. */
export function railPricesText(prices: RailPrices, painter: Painter): string {
  const { names, taken, ticks } = prices;
  const shown = names.map((name, i) => `${name} active-${taken.rails[i]}`).join(', ');
  const lines = [
    `${prices.source}, target ${prices.target}`,
    '',
    ...prose(`Taken: ${shown}; ${counted(taken.ticks, 'tick')}, ${counted(taken.parts, 'part')}.`, '').map(
      (line) => painter.strong(line),
    ),
    '',
    ...prose(
      `The fewest parts within so many ticks, for ${2 ** names.length <= MOST_CHOICES ? 'every choice' : 'this choice and those that differ in one rail'}${prices.prices.some(({ parts, proved }) => parts.some((count, n) => count !== null && !proved[n])) ? '; ~ marks what is found but not proved to be the fewest' : ', proved'}:`,
      '',
    ),
    '',
  ];
  const widths = names.map((name) => Math.max(4, name.length));
  const row = (cells: readonly string[], parts: readonly string[]): string =>
    `  ${cells.map((cell, i) => cell.padEnd(widths[i])).join('  ')}  ${parts.map((part) => part.padStart(5)).join('')}`;
  lines.push(painter.faint(`${row(names, ticks.map(String))}  ticks`));
  for (const { rails, parts, proved, isTaken } of prices.prices) {
    const cells = parts.map((count, n) => (count === null ? '-' : `${proved[n] ? '' : '~'}${count}`));
    const line = row(rails, cells);
    lines.push(isTaken ? painter.strong(`${line}  taken`) : line);
  }
  return `${lines.join('\n')}\n`;
}
