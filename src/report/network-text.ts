// The parts of the screen that show a network: which rail carries what, the inverters by tick, the joins of the outputs.

import type { Painter } from './painter.ts';
import { paragraph, prose } from './paragraph.ts';
import type { NetworkInverter, NetworkOutput, Point, Result, WireRail } from './result.ts';

type JoinLogic = NonNullable<Result['join']>;

/** A row of a listing: cells in columns of equal width, then words that flow in the rest of the line. */
interface Row {
  readonly cells: readonly string[];
  readonly words: readonly string[];
}

const INDENT = '  ';
const GAP = '  ';

const RAIL_WORDS: Readonly<Record<string, string>> = {
  high: 'active-high',
  low: 'active-low',
  both: 'both rails',
  split: 'split',
  absorbed: 'no wire',
};

/** Rows under each other; a first cell that repeats the one above is left blank. */
function listing(rows: readonly Row[]): string[] {
  const widths = (rows[0]?.cells ?? []).map((_, at) =>
    Math.max(...rows.map((row) => row.cells[at]?.length ?? 0)),
  );
  let above = '';
  return rows.flatMap(({ cells, words }) => {
    const shown = cells.map((cell, at) => (at === 0 && cell === above ? '' : cell).padEnd(widths[at] ?? 0));
    above = cells[0] ?? '';
    return paragraph(words, INDENT + shown.map((cell) => cell + GAP).join(''));
  });
}

const SPLIT_WORDS = 'Split: a piece on each rail; the signal is true when either says so.';

function explained(text: string, painter: Painter): string[] {
  return prose(text, INDENT).map((line) => painter.faint(line));
}

/** Groups what is shown by rail, in the order of RAIL_WORDS; empty groups are left out. */
function railRows(
  kind: string,
  entries: readonly { readonly rail: string; readonly shown: string }[],
): Row[] {
  return Object.entries(RAIL_WORDS).flatMap(([rail, words]) => {
    const shown = entries.filter((entry) => entry.rail === rail).map((entry) => entry.shown);
    return shown.length > 0 ? [{ cells: [kind, words], words: [...new Set(shown)] }] : [];
  });
}

/** The rail of each name, `both` when it has a wire on either. */
function railsOf(wires: readonly { readonly name: string; readonly rail: WireRail }[]): Map<string, string> {
  const rails = new Map<string, string>();
  for (const { name, rail } of wires) rails.set(name, (rails.get(name) ?? rail) === rail ? rail : 'both');
  return rails;
}

/** Which rail every input, output and named signal inside is on. */
export function railLines(point: Point, painter: Painter): string[] {
  const { inputs, outputs } = point.network;
  const inputRails = railsOf(inputs);
  const outputRails = railsOf(outputs);
  const shownInput = (name: string): string => {
    const wires = inputs.filter((input) => input.name === name);
    const latest = Math.max(...wires.map((input) => input.tick));
    const other = wires.map((input) => input.wire).filter((wire) => wire !== name);
    return name + (latest > 0 ? `@${latest}` : '') + (other.length > 0 ? ` (${other.join(', ')})` : '');
  };
  const inside = point.rails.filter(({ signal }) => !inputRails.has(signal) && !outputRails.has(signal));
  const rows = [
    ...railRows(
      'inputs',
      [...inputRails].map(([name, rail]) => ({ rail, shown: shownInput(name) })),
    ),
    ...railRows(
      'outputs',
      [...outputRails].map(([name, rail]) => ({ rail, shown: name })),
    ),
    ...railRows(
      'inside',
      inside.map(({ signal, rail, wires, lowWires, tick }) => {
        const named = wires.map((wire) => (lowWires?.includes(wire) ? `${wire} low` : wire));
        const place = wires.length > 0 ? `@${tick} (${named.join(', ')})` : '';
        return { rail, shown: signal + place };
      }),
    ),
  ];
  const present = new Set(rows.map((row) => row.cells[1]));
  const hasMeanings = [...point.network.inverters, ...outputs].some(({ meaning }) => meaning !== undefined);
  const speaksOfLow = hasMeanings || [RAIL_WORDS.low, RAIL_WORDS.both].some((words) => present.has(words));
  const words = [
    'Active-high: the wire is 1 when the signal is true.',
    ...(speaksOfLow ? ['Active-low: it is 0 then.'] : []),
    ...(inside.some(({ rail }) => rail === 'split') ? [SPLIT_WORDS] : []),
    ...(inside.length > 0 ? ['In brackets: the wires of a signal.'] : []),
    ...(inside.some(({ tick }) => tick !== null)
      ? ['@ is the tick at which it is there.']
      : inputs.some((input) => input.tick > 0)
        ? ['@ is the tick at which an input arrives.']
        : []),
  ];
  return [...explained(words.join(' '), painter), ...listing(rows)];
}

/** The words of a meaning, set under the legs. */
function meaningRow(cells: readonly string[], meaning: string | undefined): Row[] {
  if (meaning === undefined) return [];
  return [{ cells: cells.map((cell, at) => (at === 0 ? cell : '')), words: `= ${meaning}`.split(' ') }];
}

function constantNote(consumers: readonly { readonly legs: readonly string[] }[]): string {
  const used = consumers.some(({ legs }) => legs.includes('0') || legs.includes('1'));
  return used ? ' A leg 0 or 1 is a wire that always has that level.' : '';
}

function meaningNote(consumers: readonly { readonly meaning?: string }[]): string {
  return consumers.some(({ meaning }) => meaning !== undefined)
    ? ' After = stands the signal that the wire carries.'
    : '';
}

/** The inverters by the tick at which they settle. */
export function inverterLines(
  inverters: readonly NetworkInverter[],
  logic: JoinLogic,
  painter: Painter,
): string[] {
  const [level, legLevel] = logic === 'or' ? [1, 0] : [0, 1];
  const rule = `An inverter is ${level} only while all its legs, the wires at its input, are ${legLevel}.`;
  const rows = inverters
    .map((inverter, at) => ({ inverter, at }))
    .sort((a, b) => a.inverter.tick - b.inverter.tick || a.at - b.at)
    .flatMap(({ inverter: { wire, legs, tick, copyOf, separate, meaning } }) => {
      const cells = [String(tick).padStart(4), wire];
      const feeds = separate === undefined ? [] : [`(feeds ${separate} separate wires)`];
      const words = copyOf === undefined ? [...legs, ...feeds] : [...legs, `(copy of ${copyOf})`];
      return [{ cells, words }, ...meaningRow(cells, meaning)];
    });
  const [head = '', ...lines] = listing([{ cells: ['tick', 'wire'], words: ['legs'] }, ...rows]);
  const notes = rule + constantNote(inverters) + meaningNote(inverters);
  return [...explained(notes, painter), painter.faint(head), ...lines];
}

/** The outputs, each a join of legs, with its own tick. */
export function outputLines(outputs: readonly NetworkOutput[], logic: JoinLogic, painter: Painter): string[] {
  const any = logic === 'or' ? 'while any of them is 1' : 'only while all of them are 1';
  const rule = outputs.some(({ legs }) => legs.length > 1)
    ? `A join ties its legs together: it is 1 ${any}, at once and for nothing.`
    : 'Each output is one wire.';
  const rows = outputs.flatMap(({ name, rail, legs, tick, meaning }) => {
    const cells = [String(tick).padStart(4), name, RAIL_WORDS[rail] ?? rail];
    return [{ cells, words: legs }, ...meaningRow(cells, meaning)];
  });
  const [head = '', ...lines] = listing([{ cells: ['tick', 'output', 'rail'], words: ['join of'] }, ...rows]);
  const notes = rule + constantNote(outputs) + meaningNote(outputs);
  return [...explained(notes, painter), painter.faint(head), ...lines];
}
