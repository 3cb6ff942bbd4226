// The lesson: why wires of different rails must not be joined, on any two or more signals, as data. A screen shows it
// (src/report/lesson-text.ts), and a page can show the same.
//
// Everything in it is computed: the levels on every pattern, what each choice of rails makes of the join, and the ways
// out, which come from the same search as those of `conflicts`.

import type { BuiltBlock } from '../equations/built.ts';
import { elementOf } from '../equations/edit-built.ts';
import type { JoinLogic, Target } from '../target/target.ts';
import { type CounterJudge, conflictsOf } from './conflicts.ts';
import { blockOf } from './equation-ors.ts';
import type { Standing, WayOut } from './ways-out.ts';

export type LessonRail = 'high' | 'low';

export interface LessonSignal {
  readonly name: string;
  readonly rail: LessonRail;
}

export interface LessonRow {
  /** Values of the signals. */
  readonly values: readonly (0 | 1)[];
  /** Levels of their wires. */
  readonly levels: readonly (0 | 1)[];
  readonly joined: 0 | 1;
  /** What somebody hopes for who joins them: the OR of the signals, the AND where joins are AND. */
  readonly meant: 0 | 1;
}

export interface RailChoice {
  readonly rails: readonly LessonRail[];
  /** Level of the join, by row. */
  readonly joined: readonly (0 | 1)[];
  /** `meant`: it is what was hoped for. `other`: the active-low wire of AND for OR, of OR for AND. `neither`. */
  readonly comesTo: 'meant' | 'other' | 'neither';
  /** What the join carries active-high, and active-low. */
  readonly high: string;
  readonly low: string;
  /** The choice that was asked about. */
  readonly isAsked: boolean;
}

export interface Lesson {
  readonly format: 'tickwright.lesson/1';
  readonly target: string;
  readonly logic: JoinLogic;
  readonly signals: readonly LessonSignal[];
  /** `carry1 + carry2`. */
  readonly meant: string;
  /** `carry1 carry2`: what active-low wires joined come to, active-low. */
  readonly other: string;
  /** One for every pattern, the last signal changes fastest. */
  readonly rows: readonly LessonRow[];
  /** For two signals all four; for more: all high, as asked, the reverse, all low. */
  readonly choices: readonly RailChoice[];
  /** Ways out at the join itself. */
  readonly waysOut: readonly WayOut[];
  /** Taking a signal where its other rail still exists; null when that is no way out. */
  readonly upstream: WayOut | null;
  /** For somebody who reads the join, `x ^ (carry1 + carry2)`: with the join repaired, and with the pieces absorbed. */
  readonly reader: {
    readonly words: string;
    readonly repaired: Standing;
    readonly absorbed: Standing;
  } | null;
}

/** More would be no lesson. */
export const MOST_SIGNALS = 4;

/** The lesson on two to `MOST_SIGNALS` signals. */
export function lessonOn(signals: readonly LessonSignal[], target: Target, judge: CounterJudge): Lesson {
  const { logic } = target.join;
  const names = signals.map(({ name }) => name);
  const patterns = Array.from({ length: 2 ** names.length }, (_, row) =>
    names.map((_name, i): 0 | 1 => (((row >> (names.length - 1 - i)) & 1) === 1 ? 1 : 0)),
  );
  const asked = signals.map(({ rail }) => rail);
  const meant = names.join(logic === 'or' ? ' + ' : ' ');
  const rows = patterns.map((values): LessonRow => {
    const levels = levelsOf(values, asked);
    return { values, levels, joined: together(levels, logic), meant: together(values, logic) };
  });
  const joined = fresh('joined', names);
  const inputs = signals.map((signal) => ({ ...signal, tick: 0 }));
  const waysFor = (block: BuiltBlock): readonly WayOut[] => {
    const { value } = conflictsOf(block, null, target, judge);
    return (value?.conflicts ?? [])
      .filter(({ severity }) => severity === 'error')
      .flatMap((one) => one.waysOut);
  };
  const block = blockOf(joined, inputs, meant, logic);
  const waysOut = waysFor(block);
  return {
    format: 'tickwright.lesson/1',
    target: target.name,
    logic,
    signals,
    meant,
    other: names.join(logic === 'or' ? ' ' : ' + '),
    rows,
    choices: railChoices(asked).map((rails) => ({
      rails,
      joined: patterns.map((values) => together(levelsOf(values, rails), logic)),
      comesTo: rails.every((rail) => rail === 'high')
        ? 'meant'
        : rails.every((rail) => rail === 'low')
          ? 'other'
          : 'neither',
      ...carried(names, rails, logic),
      isAsked: rails.every((rail, i) => rail === asked[i]),
    })),
    waysOut,
    upstream:
      waysOut.length === 0
        ? null
        : (waysFor(onBothRails(block)).find(({ kind }) => kind === 'other-rail') ?? null),
    reader: waysOut.length === 0 ? null : readerOf(block, names, meant, logic, waysFor),
  };
}

/** The same join, with every active-low signal on a second wire that is active-high. */
function onBothRails(block: BuiltBlock): BuiltBlock {
  const low = new Map(
    block.inputs.filter(({ rail }) => rail === 'low').map(({ name }) => [name, `${name}_low`]),
  );
  return {
    ...block,
    inputs: block.inputs.flatMap((input) => {
      const lowName = low.get(input.name);
      return lowName === undefined
        ? [input]
        : [
            { ...input, rail: 'high' as const },
            { ...input, name: lowName },
          ];
    }),
    elements: block.elements.map((element) =>
      elementOf({ ...element, legs: element.legs.map((leg) => low.get(leg) ?? leg) }),
    ),
  };
}

/** A sum bit that reads the join: XOR with a signal that is there on both rails. */
function readerOf(
  block: BuiltBlock,
  names: readonly string[],
  meant: string,
  logic: JoinLogic,
  waysFor: (block: BuiltBlock) => readonly WayOut[],
): Lesson['reader'] {
  const [join] = block.elements;
  const taken = [...names, join.name];
  const x = fresh('x', taken);
  const nor = logic === 'or' ? 'nor' : 'nand';
  const made = (name: string): string => fresh(name, [...taken, x, `${x}_low`]);
  const [not, p, q, sum] = [`${join.name}_not`, 'p', 'q', 'sum'].map(made);
  const input = { signal: x, tick: 0, at: null };
  const ways = waysFor({
    ...block,
    inputs: [
      ...block.inputs,
      { ...input, name: x, rail: 'high' },
      { ...input, name: `${x}_low`, rail: 'low' },
    ],
    elements: [
      join,
      elementOf({ name: not, gate: 'not', legs: [join.name] }),
      elementOf({ name: p, gate: nor, legs: [`${x}_low`, join.name] }),
      elementOf({ name: q, gate: nor, legs: [x, not] }),
      elementOf({ name: sum, gate: 'join', legs: [p, q] }),
    ],
    outputs: [{ wire: sum, rail: null, by: null, at: join.at }],
  });
  const absorbed = ways.find(({ kind }) => kind === 'absorb')?.remade;
  const repaired = ways.find(({ stands }) => stands !== null)?.stands;
  if (absorbed === undefined || absorbed === null || repaired === undefined || repaired === null) return null;
  const words = logic === 'or' ? `${x} ^ (${meant})` : `${x} xnor (${meant})`;
  return { words, repaired, absorbed };
}

function levelsOf(values: readonly (0 | 1)[], rails: readonly LessonRail[]): (0 | 1)[] {
  return values.map((value, i) => (rails[i] === 'high' ? value : value === 1 ? 0 : 1));
}

function together(levels: readonly (0 | 1)[], logic: JoinLogic): 0 | 1 {
  const is = logic === 'or' ? levels.includes(1) : !levels.includes(0);
  return is ? 1 : 0;
}

function railChoices(asked: readonly LessonRail[]): LessonRail[][] {
  const all = (rail: LessonRail): LessonRail[] => asked.map(() => rail);
  const reversed = asked.map((rail): LessonRail => (rail === 'high' ? 'low' : 'high'));
  const choices: LessonRail[][] =
    asked.length === 2
      ? [all('high'), ['low', 'high'], ['high', 'low'], all('low')]
      : [all('high'), [...asked], reversed, all('low')];
  const seen = new Set<string>();
  return choices.filter((rails) => seen.size < seen.add(rails.join(' ')).size);
}

function carried(
  names: readonly string[],
  rails: readonly LessonRail[],
  logic: JoinLogic,
): { high: string; low: string } {
  const or = (isHigh: boolean): string =>
    names.map((name, i) => ((rails[i] === 'high') === isHigh ? name : `${name}'`)).join(' + ');
  const and = (isHigh: boolean): string =>
    names.map((name, i) => ((rails[i] === 'high') === isHigh ? name : `${name}'`)).join(' ');
  return logic === 'or' ? { high: or(true), low: and(false) } : { high: and(true), low: or(false) };
}

function fresh(base: string, taken: readonly string[]): string {
  let name = base;
  while (taken.includes(name)) name += '_';
  return name;
}
