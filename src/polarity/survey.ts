// Everything about a built block that is asked row by row: what every wire is as drawn, what it is as tied, and what it
// is meant to be. Up to 20 inputs the rows are all patterns; above that they are a sample, which the caller may extend
// by the patterns that a proof brings up.
//
// What a wire of which nothing is said is meant to be follows from its legs: it is wished to be made of what its legs
// are wished to be. So a single mistake is one wrong wire, and what lies behind it is not blamed.

import type { BuiltBlock } from '../equations/built.ts';
import type { Expression, System } from '../equations/system.ts';
import { type Nets, netsOf } from '../network/built-nets.ts';
import { type BuiltNetwork, builtLegs } from '../network/built-network.ts';
import { FIRST_INPUT } from '../network/network.ts';
import { Random } from '../search/random.ts';
import { type Pattern, Sample } from '../search/sample.ts';
import type { Target } from '../target/target.ts';
import { expressionTable, type SystemTables, systemTables } from '../truth/system-tables.ts';
import {
  and,
  constantTable,
  firstRow,
  hasRow,
  MAX_INPUTS,
  not,
  orInto,
  type Table,
  without,
  xor,
} from '../truth/table.ts';
import { electricalLevels } from './electrical.ts';
import { type Wish, type Wishes, wishedLevel } from './wishes.ts';

export interface Survey {
  readonly block: BuiltBlock;
  readonly built: BuiltNetwork;
  readonly target: Target;
  readonly wishes: Wishes;
  readonly rowBits: number;
  /** The rows are all patterns. */
  readonly exhaustive: boolean;
  readonly care: Table;
  /** By signal of the system of wishes. */
  readonly signals: readonly Table[];
  readonly nets: Nets;
  /** By wire: level as drawn, as tied, and as wished. */
  readonly drawn: readonly Table[];
  readonly tied: readonly Table[];
  readonly wished: readonly Table[];
  /** Rows on which the whole does not settle to one level; null for none. */
  readonly unsettled: Table | null;
}

/** `extra` are patterns that the sample must hold; they count only where the rows are a sample. */
export function survey(
  block: BuiltBlock,
  built: BuiltNetwork,
  target: Target,
  wishes: Wishes,
  extra: readonly Pattern[] = [],
): Survey {
  const { system } = wishes;
  const exhaustive = system.inputs.length <= MAX_INPUTS;
  const tables = exhaustive ? systemTables(system) : sampled(system, extra);
  const rowBits = tables.inputs;
  const drawn = built.kinds.map((_, wire) => tables.signals[wishes.levelOf[wire]]);
  const inputs = built.inputs.map((_, i) => drawn[FIRST_INPUT + i]);
  const { levels, unsettled } = electricalLevels(built, inputs, rowBits);
  const moving = unsettled === null ? null : and(unsettled, tables.care);
  return {
    block,
    built,
    target,
    wishes,
    rowBits,
    exhaustive,
    care: tables.care,
    signals: tables.signals,
    nets: netsOf(built),
    drawn,
    tied: levels,
    wished: wishedLevels(built, wishes, tables, drawn),
    unsettled: moving !== null && firstRow(moving) >= 0 ? moving : null,
  };
}

function sampled(system: System, extra: readonly Pattern[]): SystemTables {
  const sample = new Sample(system, null, 10, new Random(1));
  for (const pattern of extra) sample.addCounterexample(pattern);
  return sample.tables();
}

function wishedLevels(
  built: BuiltNetwork,
  wishes: Wishes,
  tables: SystemTables,
  drawn: readonly Table[],
): Table[] {
  const wished: Table[] = [];
  built.kinds.forEach((_, wire) => {
    const wish = wishes.byWire[wire];
    if (wire < FIRST_INPUT + built.inputs.length) wished.push(drawn[wire]);
    else if (wish !== null && !wish.part) wished.push(tableOf(wishedLevel(wish), tables));
    else wished.push(madeOf(built, wire, wished, tables.inputs));
  });
  return wished;
}

function tableOf(expression: Expression, tables: SystemTables): Table {
  return expressionTable(expression, tables.signals, tables.inputs);
}

/** What a wire is when its legs have these levels. */
export function madeOf(built: BuiltNetwork, wire: number, levels: readonly Table[], rowBits: number): Table {
  const isOr = built.logic === 'or';
  const joined = constantTable(rowBits, isOr ? 0 : 1);
  for (const leg of builtLegs(built, wire)) {
    const level = levels[leg];
    if (isOr) orInto(joined, level);
    else for (let w = 0; w < joined.length; w++) joined[w] &= level[w];
  }
  return built.kinds[wire] === 'inverter' ? not(joined, rowBits) : joined;
}

/** The first row that can happen on which two levels differ, or -1. */
export function firstDifference({ care }: Pick<Survey, 'care'>, a: Table, b: Table): number {
  return firstRow(and(care, xor(a, b)));
}

/** The first row on which a piece is true and its signal is not, or -1. */
export function firstBeside(found: Survey, wire: number, wish: Wish): number {
  const signal = expressionTable(wish.expression, found.signals, found.rowBits);
  const level = found.drawn[wire];
  const says = wish.rail === 'high' ? level : not(level, found.rowBits);
  return firstRow(and(found.care, without(says, signal)));
}

/** The values of the inputs on a row, by name, in the order of the system. */
export function patternOn({ wishes, signals }: Survey, row: number): [string, 0 | 1][] {
  return wishes.system.inputs.map(({ signal }) => [
    wishes.system.signals[signal],
    hasRow(signals[signal], row) ? 1 : 0,
  ]);
}
