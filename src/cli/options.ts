// Options of the command line. One that several commands take stands here exactly once; one of a single command stands
// in its row of commands.ts. The argument parser, the checks of values, the help and the table in the README derive
// from these rows. An option takes a value in all commands or in none, and has one letter in all of them.

import { SHIPPED_TARGETS } from '../target/shipped-targets.ts';

export interface OptionRow {
  readonly name: string;
  /** One letter, for the options that everybody tries. */
  readonly letter?: string;
  /** What stands after the option, null when nothing does. */
  readonly value: string | null;
  readonly kind: 'flag' | 'text' | 'names' | 'count' | 'choice';
  /** For `text`: what may be given, as a pattern for the check and in words. */
  readonly form?: { readonly pattern: RegExp; readonly words: string };
  /** The value when the option is not given, as it would be typed; null when there is none. */
  readonly fallback: string | null;
  /** For `choice`: what may be given. */
  readonly choices?: readonly string[];
  /** For `count`: smallest and largest whole number. */
  readonly from?: number;
  readonly to?: number;
  readonly purpose: string;
}

export const EFFORTS = ['quick', 'normal', 'deep'] as const;

export type Effort = (typeof EFFORTS)[number];

/** On which rails inputs and outputs are. */
export const RAILS: readonly OptionRow[] = [
  ['high', 'these inputs and outputs are active-high: the wire is 1 when the signal is true'],
  ['low', 'these are active-low: the wire is 0 when the signal is true'],
  ['either', 'these are on one wire; the search chooses active-high or active-low'],
  ['both', 'these are on two wires, one active-high, one active-low'],
].map(([name = '', purpose = '']) => ({ name, value: 'NAMES', kind: 'names', fallback: null, purpose }));

export const TARGET: OptionRow = {
  name: 'target',
  value: 'NAME|FILE.json',
  kind: 'text',
  fallback: SHIPPED_TARGETS[0]?.name ?? null,
  purpose: 'what joined wires and inverters can do: a shipped target, or a profile of your own',
};

export const TICKS: OptionRow = {
  name: 'ticks',
  value: 'N',
  kind: 'count',
  from: 0,
  to: 1_000_000,
  fallback: null,
  purpose: 'settle within so many ticks, with the fewest parts',
};

export const PARTS: OptionRow = {
  name: 'parts',
  value: 'N',
  kind: 'count',
  from: 0,
  to: 1_000_000,
  fallback: null,
  purpose: 'take at most so many parts, with the fewest ticks',
};

export const BUDGET: OptionRow = {
  name: 'budget',
  value: 'FACTOR|N',
  kind: 'text',
  form: {
    pattern: /^(?:[1-9][0-9]{0,5}(?:\.[0-9]{1,3})?x|[0-9]{1,7})$/,
    words: 'a factor such as 1.5x, times the parts of the smallest network, or a number of parts',
  },
  fallback: '2x',
  purpose: 'what the answer may spend to be fast',
};

export const FRONTIER: OptionRow = {
  name: 'frontier',
  value: null,
  kind: 'flag',
  fallback: null,
  purpose: 'find the fewest parts at every number of ticks, from the fastest to the smallest',
};

export const SHARE: OptionRow = {
  name: 'share',
  value: 'WAY',
  kind: 'choice',
  choices: ['together', 'grouped', 'alone'],
  fallback: null,
  purpose:
    'which outputs may share inverters: together, all (as without this); grouped, those with more than half of their ' +
    'inputs in common; alone, none. The screen then says what sharing saves',
};

export const EFFORT: OptionRow = {
  name: 'effort',
  value: 'LEVEL',
  kind: 'choice',
  choices: EFFORTS,
  fallback: 'normal',
  purpose: 'how far the search goes; counted in steps, so the answer does not depend on the machine',
};

export const SEED: OptionRow = {
  name: 'seed',
  value: 'N',
  kind: 'count',
  from: 0,
  to: 2 ** 32 - 1,
  fallback: '1',
  purpose: 'another seed, another way through the search; the same seed, the same answer',
};

export const WORKERS: OptionRow = {
  name: 'workers',
  value: 'N',
  kind: 'count',
  from: 1,
  to: 64,
  fallback: '2',
  purpose: 'walks over a frontier that run at the same time; the answer does not depend on it',
};

export const EXPLAIN: OptionRow = {
  name: 'explain',
  value: null,
  kind: 'flag',
  fallback: null,
  purpose: 'say for every inverter what its wire means',
};

export const LETTERS: OptionRow = {
  name: 'letters',
  value: null,
  kind: 'flag',
  fallback: null,
  purpose: "read each letter with its digits as a name, as in AB' + A'B",
};

export const JSON_OUT: OptionRow = {
  name: 'json',
  value: null,
  kind: 'flag',
  fallback: null,
  purpose: 'print an array of results for programs (format tickwright.result/1)',
};

export const WIRE_NAMES: OptionRow = {
  name: 'wire-names',
  value: 'KIND',
  kind: 'choice',
  choices: ['numbered', 'telling'],
  fallback: 'numbered',
  purpose: 'names of inverters: n1, n2 and so on, or from the signal and the tick that they serve, as c4_1a',
};

export const SVG: OptionRow = {
  name: 'svg',
  value: 'FILE',
  kind: 'text',
  fallback: null,
  purpose: 'draw the schematic into this file',
};

export const HTML: OptionRow = {
  name: 'html',
  value: 'FILE',
  kind: 'text',
  fallback: null,
  purpose: 'write a report with everything into this file, one page that needs no network',
};

export const SHEET: OptionRow = {
  name: 'sheet',
  value: null,
  kind: 'flag',
  fallback: null,
  purpose: 'print the build sheet: what to build, by tick, with boxes to tick off and levels to test',
};

export const OUT: OptionRow = {
  name: 'out',
  letter: 'o',
  value: 'FILE',
  kind: 'text',
  fallback: null,
  purpose: 'write what would be printed into this file, whole or not at all',
};

export const FORCE: OptionRow = {
  name: 'force',
  value: null,
  kind: 'flag',
  fallback: null,
  purpose: 'write over files that are there already',
};

export const HELP: OptionRow = {
  name: 'help',
  letter: 'h',
  value: null,
  kind: 'flag',
  fallback: null,
  purpose: 'print this help',
};

export const VERSION: OptionRow = {
  name: 'version',
  letter: 'V',
  value: null,
  kind: 'flag',
  fallback: null,
  purpose: 'print the version',
};

/** How the option is typed: `--target NAME|FILE.json`. */
export function typed(row: OptionRow): string {
  return `--${row.name}${row.value === null ? '' : ` ${row.value}`}`;
}

/** What may be given, in words; null where the purpose says it all. */
export function rangeOf(row: OptionRow): string | null {
  if (row.kind === 'choice') return (row.choices ?? []).join(', ');
  if (row.kind === 'count') return `whole numbers from ${row.from} to ${row.to}`;
  if (row.form !== undefined) return row.form.words;
  if (row.kind === 'names') return 'names with commas between';
  return null;
}
