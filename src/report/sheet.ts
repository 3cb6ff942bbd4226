// The build sheet: everything that is to be built, by tick, in an order in which it can be tested step by step. It is
// plain data here; sheet-text.ts, sheet-markdown.ts and sheet-csv.ts print it.
//
// After the inverters of a tick come the joins whose last leg settles then. Beside everything stand the levels that it
// must show for a few input patterns. The patterns are chosen so that as many wires as possible are seen at both levels:
// one after the other, each time the one that shows most wires at a level at which they were not seen yet.

import {
  inputSignals,
  joinLevel,
  type Levels,
  type Pattern,
  settledLevels,
  trialPatterns,
} from './levels.ts';
import type { Point, Result, WireRail } from './result.ts';
import { type Net, type Reader, type Wiring, type WiringLimits, wiringOf } from './wiring.ts';

export interface SheetInverter {
  readonly wire: string;
  /** What is soldered to its input: wires and joins by name. */
  readonly legs: readonly string[];
  /** Separate leads that leave it, each with all places it goes to. */
  readonly leads: readonly Lead[];
  readonly copyOf: string | null;
  readonly meaning: string | null;
  /** By pattern. */
  readonly levels: readonly (0 | 1)[];
}

export interface Lead {
  /** The join that it enters; null when it goes to its readers alone. */
  readonly join: string | null;
  readonly to: readonly string[];
}

export interface SheetJoin {
  readonly name: string;
  readonly legs: readonly string[];
  readonly to: readonly string[];
  readonly levels: readonly (0 | 1)[];
}

export interface SheetStep {
  readonly tick: number;
  readonly inverters: readonly SheetInverter[];
  readonly joins: readonly SheetJoin[];
}

export interface SheetInput {
  readonly wire: string;
  readonly name: string;
  readonly rail: WireRail;
  readonly tick: number;
  readonly leads: readonly Lead[];
  readonly levels: readonly (0 | 1)[];
}

export interface SheetOutput {
  readonly name: string;
  readonly rail: WireRail;
  readonly tick: number;
  readonly from: string;
  readonly levels: readonly (0 | 1)[];
}

export interface Sheet {
  readonly source: string;
  readonly target: string;
  readonly logic: 'or' | 'and';
  readonly ticks: number;
  readonly parts: number;
  readonly proof: string;
  /** Names of the patterns are A, B, C; each gives the level of every input wire, see `inputs`. */
  readonly patterns: readonly string[];
  readonly inputs: readonly SheetInput[];
  readonly steps: readonly SheetStep[];
  readonly outputs: readonly SheetOutput[];
  readonly totals: {
    readonly inverters: number;
    readonly copies: number;
    readonly joins: number;
    readonly legs: number;
    readonly wires: number;
    /** Wires that laying common legs once saves. */
    readonly saved: number;
  };
}

const MOST_PATTERNS = 4;

function choosePatterns(point: Point, logic: 'or' | 'and'): Levels[] {
  const { network } = point;
  const tried = trialPatterns(inputSignals(network)).map((pattern: Pattern) =>
    settledLevels(network, pattern, logic),
  );
  const seen = new Set<string>();
  const fresh = (levels: Levels): number =>
    [...levels].reduce((sum, [wire, level]) => sum + (seen.has(`${level} ${wire}`) ? 0 : 1), 0);
  const chosen: Levels[] = [];
  while (chosen.length < MOST_PATTERNS) {
    let best: Levels | null = null;
    let most = 0;
    for (const levels of tried) {
      const count = fresh(levels);
      if (count > most) [best, most] = [levels, count];
    }
    if (best === null) break;
    chosen.push(best);
    for (const [wire, level] of best) seen.add(`${level} ${wire}`);
  }
  return chosen;
}

/** Makes the sheet of one point. */
export function sheetOf(result: Result, point: Point, limits: WiringLimits): Sheet {
  const { network } = point;
  const logic = result.join ?? 'or';
  const wiring: Wiring = wiringOf(network, limits);
  const patterns = choosePatterns(point, logic);
  const place = ({ kind, at }: Reader): string =>
    kind === 'inverter' ? network.inverters[at].wire : `output ${network.outputs[at].name}`;
  const leadsOf = (wire: string): Lead[] =>
    wiring.nets
      .filter(({ drivers }) => drivers.includes(wire))
      .map((net) => (isJoin(net) ? { join: net.name, to: [] } : { join: null, to: net.readers.map(place) }));
  const levelsOf = (legs: readonly string[]): (0 | 1)[] =>
    patterns.map((levels) => joinLevel(legs, levels, logic));
  const ticks = [
    ...new Set([
      ...network.inverters.map(({ tick }) => tick),
      ...wiring.nets.filter(isJoin).map(({ tick }) => tick),
    ]),
  ];
  const steps = ticks
    .sort((a, b) => a - b)
    .map(
      (tick): SheetStep => ({
        tick,
        inverters: network.inverters.flatMap((inverter, at): SheetInverter[] =>
          inverter.tick !== tick
            ? []
            : [
                {
                  wire: inverter.wire,
                  legs: wiring.legsOfInverter[at].map((net) => wiring.nets[net].name),
                  leads: leadsOf(inverter.wire),
                  copyOf: inverter.copyOf ?? null,
                  meaning: inverter.meaning ?? null,
                  levels: levelsOf([inverter.wire]),
                },
              ],
        ),
        joins: wiring.nets
          .filter((net) => isJoin(net) && net.tick === tick)
          .map(({ name, drivers, readers }) => ({
            name,
            legs: drivers,
            to: readers.map(place),
            levels: levelsOf(drivers),
          })),
      }),
    );
  const { verdict } = point.proof;
  return {
    source: result.source,
    target: result.target,
    logic,
    ticks: point.ticks,
    parts: point.parts,
    proof:
      verdict === 'equal'
        ? 'proved equal to the equations'
        : verdict === 'different'
          ? 'DIFFERENT from the equations: do not build this'
          : 'NOT PROVED equal to the equations',
    patterns: patterns.map((_, at) => 'ABCDEFGH'[at]),
    inputs: network.inputs.map(({ wire, name, rail, tick }) => ({
      wire,
      name,
      rail,
      tick,
      leads: leadsOf(wire),
      levels: levelsOf([wire]),
    })),
    steps,
    outputs: network.outputs.map(({ name, rail, tick, legs }, at) => ({
      name,
      rail,
      tick,
      from: sourceWords(wiring.nets[wiring.netOfOutput[at]]),
      levels: levelsOf(legs),
    })),
    totals: {
      inverters: network.inverters.length,
      copies: point.copies,
      joins: wiring.nets.filter(isJoin).length,
      legs: wiring.legsOfInverter.reduce((sum, legs) => sum + legs.length, 0),
      wires: wiring.wires,
      saved: wiring.wiresUnshared - wiring.wires,
    },
  };
}

function isJoin({ drivers }: Net): boolean {
  return drivers.length > 1;
}

function sourceWords(net: Net): string {
  return isJoin(net) ? `join ${net.name}` : net.name;
}

/** Where a lead goes, in words. */
export function leadWords({ join, to }: Lead): string {
  return join === null ? to.join(', ') : `join ${join}`;
}
