// Where the named signals of the equations live in a found network, and on which rail.
//
// Idea. A wire carries a signal on the high rail when its level equals the signal on every row that can happen, on the
// low rail when it equals the complement. Inputs and outputs are what they are declared to be: an input lives on its
// input wires, an output in its join, whose legs are listed. An internal signal is looked for among all wires. When no
// wire carries it, it may still live as a join inside a consumer: legs that together are the signal, among others that
// are not. Found in neither way it may be split: one place carries an active-high piece of it, another an active-low
// piece, and the signal is the OR of the two; no join can put them together, so its readers absorb both. Found in no way
// it is absorbed: the network gets along without it.
//
// A piece is a wire or a group of legs of one reader. For an active-high piece H of the signal S the legs that may make
// the active-low rest are those that are never 1 where S is true and H is not; together they must be 1 wherever S is
// false. Where joins are AND the mirror image holds.
//
// Correct because rows are compared whole; a signal that happens to equal another one lives on the same wires.
// Joins are only looked for when no wire was found, since the legs of the inverter that makes a signal are always a
// join of its other rail and would make everything `both`.
//
// Cost: wires are found by their tables at once; joins and pieces cost (named signals) x (legs) x (words of a table), most
// comparisons end at the first word. That is counted, and once a count is spent the signals that are left and that no
// wire carries are not told of, rather than called absorbed.

import type { System } from '../equations/system.ts';
import { legsOf, outputLegsOf } from '../network/build-network.ts';
import { type TickCosts, tickCosts, wireTicks } from '../network/levels.ts';
import { FIRST_INPUT, type Network, type WireRail } from '../network/network.ts';
import type { Target } from '../target/target.ts';
import type { SystemTables } from '../truth/system-tables.ts';
import type { Table } from '../truth/table.ts';
import { wireTables } from './wire-tables.ts';

/** Where one signal lives. */
export interface SignalPlace {
  /** Signal number in the system. */
  readonly signal: number;
  /** `split`: a piece on each rail, whose OR it is. */
  readonly rail: WireRail | 'both' | 'absorbed' | 'split';
  /** Wire numbers, ascending: wires that carry it, or the legs of the join in which it lives. */
  readonly wires: readonly number[];
  /** Those of the wires that carry it, or a piece of it, active-low. */
  readonly lowWires: readonly number[];
  /** When the latest of them settles, the join included; null when there is none. */
  readonly tick: number | null;
  /** The places on each rail; for `split` the pieces. */
  readonly high: Home | null;
  readonly low: Home | null;
}

/** Wires that each carry a signal on one rail, or, as a join, carry it together. */
export interface Home {
  readonly wires: readonly number[];
  readonly isJoin: boolean;
}

/**
 * A place for each signal of the system, in their order; of systems with thousands of signals some are left out (see
 * above). `tables` must have been made from the same system.
 */
export function railsReport(
  system: System,
  tables: SystemTables,
  network: Network,
  target: Target,
): SignalPlace[] {
  return new RailFinder(system, tables, network, target).places();
}

/** In longer tables pieces are not looked for: that would cost more than the search. */
const MOST_SPLIT_WORDS = 2048;
/** So many pairs of pieces are looked at for one signal. */
const MOST_SPLIT_PAIRS = 4000;
/** Legs and words that may be looked at for joins and pieces of all signals together. */
const MOST_WORK = 1.2e7;

interface Reader {
  readonly legs: readonly number[];
  readonly level: Table;
}

class RailFinder {
  private readonly system: System;
  private readonly tables: SystemTables;
  private readonly network: Network;
  private readonly costs: TickCosts;
  private readonly isAnd: boolean;
  private readonly levels: readonly Table[];
  private readers: readonly Reader[] | null = null;
  private readonly ticks: Int32Array;
  /** Wires by a fingerprint of their table on the rows that can happen. */
  private readonly wiresBy = new Map<number, number[]>();
  private readonly firstWords: Int32Array;
  private work = MOST_WORK;

  constructor(system: System, tables: SystemTables, network: Network, target: Target) {
    this.system = system;
    this.tables = tables;
    this.network = network;
    this.costs = tickCosts(target);
    this.isAnd = target.join.logic === 'and';
    this.levels = wireTables(system, network, target.join.logic, tables);
    this.ticks = wireTicks(network, this.costs);
    this.firstWords = Int32Array.from(this.levels, (level) => level[0]);
    for (let wire = FIRST_INPUT; wire < this.levels.length; wire++) {
      const print = this.fingerprint(this.levels[wire], false);
      const known = this.wiresBy.get(print);
      if (known === undefined) this.wiresBy.set(print, [wire]);
      else known.push(wire);
    }
  }

  places(): SignalPlace[] {
    const { system, network } = this;
    const inputs = new Set(system.inputs.map(({ signal }) => signal));
    const outputs = new Set(network.outputs.map(({ signal }) => signal));
    return system.signals.flatMap((_, signal): SignalPlace | readonly SignalPlace[] => {
      if (outputs.has(signal)) return this.output(signal);
      return inputs.has(signal) ? this.input(signal) : (this.internal(signal) ?? []);
    });
  }

  private input(signal: number): SignalPlace {
    const wiresOn = (rail: WireRail): Home | null => {
      const wires = this.network.inputs.flatMap((input, i) =>
        input.signal === signal && input.rail === rail ? [FIRST_INPUT + i] : [],
      );
      return wires.length > 0 ? { wires, isJoin: false } : null;
    };
    return this.place(signal, wiresOn('high'), wiresOn('low'));
  }

  private output(signal: number): SignalPlace {
    const joinOn = (rail: WireRail): Home | null => {
      const y = this.network.outputs.findIndex((output) => output.signal === signal && output.rail === rail);
      if (y < 0) return null;
      const wires = [...outputLegsOf(this.network, y)];
      return { wires, isJoin: wires.length > 1 };
    };
    return this.place(signal, joinOn('high'), joinOn('low'));
  }

  /** Null when the count is spent. */
  private internal(signal: number): SignalPlace | null {
    const table = this.tables.signals[signal];
    const high = this.wiresWith(table, false);
    const low = this.wiresWith(table, true);
    if (high !== null || low !== null) return this.place(signal, high, low);
    if (this.work <= 0) return null;
    const [highJoin, lowJoin] = [this.joinWith(table, false), this.joinWith(table, true)];
    if (highJoin !== null || lowJoin !== null) return this.place(signal, highJoin, lowJoin);
    const split = this.split(signal, table);
    if (split !== null) return split;
    return this.work <= 0 ? null : this.place(signal, null, null);
  }

  /** A piece on each rail; the pair that settles first. */
  private split(signal: number, table: Table): SignalPlace | null {
    if (table.length > MOST_SPLIT_WORDS) return null;
    const readers = this.readersOnce();
    const groups = [...this.levels.keys()].slice(FIRST_INPUT).map((wire) => [wire]);
    this.work -= 2 * this.levels.length + readers.length;
    for (const { legs } of readers) {
      this.work -= legs.length;
      const fitting = legs.filter((leg) => this.fits(this.levels[leg], table, false));
      if (fitting.length > 1) groups.push(fitting);
    }
    // Of the other readers no legs can be the active-low piece, whatever the active-high one is.
    const covering = readers.filter(({ level }) => this.covers(level, table));
    let pairs = 0;
    let best: SignalPlace | null = null;
    for (const high of groups) {
      if (high.some((wire) => !this.fits(this.levels[wire], table, false))) continue;
      const rest = this.restOf(table, this.joined(high));
      if (rest === null) continue;
      pairs += covering.length;
      this.work -= covering.length * table.length + high.length * table.length;
      if (pairs > MOST_SPLIT_PAIRS) return best;
      for (const { legs } of covering) {
        const low = legs.filter((leg) => this.fits(this.levels[leg], rest, true));
        if (low.length === 0 || !this.covers(this.joined(low), table)) continue;
        const found = this.place(
          signal,
          { wires: high, isJoin: high.length > 1 },
          { wires: low, isJoin: low.length > 1 },
        );
        const isBetter =
          best === null ||
          (found.tick ?? 0) < (best.tick ?? 0) ||
          (found.tick === best.tick && found.wires.length < best.wires.length);
        if (isBetter) best = { ...found, rail: 'split' };
      }
    }
    return best;
  }

  /** Legs of all inverters and outputs, with their join. */
  private readersOnce(): readonly Reader[] {
    const { network } = this;
    if (this.readers !== null) return this.readers;
    const readers: Reader[] = [];
    for (let reader = 0; reader < network.size + network.outputs.length; reader++) {
      const all =
        reader < network.size ? legsOf(network, reader) : outputLegsOf(network, reader - network.size);
      const legs = [...all].filter((leg) => leg >= FIRST_INPUT);
      if (legs.length > 0) readers.push({ legs, level: this.joined(legs) });
    }
    this.readers = readers;
    return readers;
  }

  /** Where the signal is true and the piece is not; null when the piece is nothing. */
  private restOf(table: Table, piece: Table): Table | null {
    const { care } = this.tables;
    const rest = new Uint32Array(table.length);
    let isNothing = true;
    for (let w = 0; w < rest.length; w++) {
      // Under AND the level of a piece is 1 around the signal, and 0 where it says that the signal is false.
      rest[w] = this.isAnd ? ~(~table[w] & piece[w]) : table[w] & ~piece[w];
      const says = this.isAnd ? ~piece[w] : piece[w];
      if ((says & care[w]) !== 0) isNothing = false;
    }
    return isNothing ? null : rest;
  }

  /** Whether joined active-low legs say nothing beside the signal. */
  private covers(level: Table, table: Table): boolean {
    const { care } = this.tables;
    for (let w = 0; w < care.length; w++) {
      const wrong = this.isAnd ? table[w] & level[w] : ~table[w] & ~level[w];
      if ((wrong & care[w]) !== 0) return false;
    }
    return true;
  }

  /** Wires other than constants whose level is the table, or its complement, on the rows that can happen. */
  private wiresWith(table: Table, flipped: boolean): Home | null {
    const alike = this.wiresBy.get(this.fingerprint(table, flipped)) ?? [];
    const wires = alike.filter((wire) => !this.differs(this.levels[wire], table, flipped));
    return wires.length > 0 ? { wires, isJoin: false } : null;
  }

  /** The first consumer some of whose legs, joined, are the table or its complement. */
  private joinWith(table: Table, flipped: boolean): Home | null {
    const { network } = this;
    const { care } = this.tables;
    const wanted = flipped ? ~table[0] : table[0];
    for (let reader = 0; reader < network.size + network.outputs.length; reader++) {
      const legs =
        reader < network.size ? legsOf(network, reader) : outputLegsOf(network, reader - network.size);
      this.work -= legs.length;
      const fitting: number[] = [];
      for (const leg of legs) {
        // Nearly all legs are told apart by the first word.
        const outside = this.isAnd ? wanted & ~this.firstWords[leg] : this.firstWords[leg] & ~wanted;
        if ((outside & care[0]) !== 0 || leg < FIRST_INPUT) continue;
        if (this.fits(this.levels[leg], table, flipped)) fitting.push(leg);
      }
      if (fitting.length > 1) this.work -= fitting.length * table.length;
      if (fitting.length > 1 && !this.differs(this.joined(fitting), table, flipped)) {
        return { wires: fitting, isJoin: true };
      }
    }
    return null;
  }

  private joined(legs: readonly number[]): Table {
    const level = new Uint32Array(this.levels[legs[0]]);
    for (const leg of legs.slice(1)) {
      const other = this.levels[leg];
      if (this.isAnd) for (let w = 0; w < level.length; w++) level[w] &= other[w];
      else for (let w = 0; w < level.length; w++) level[w] |= other[w];
    }
    return level;
  }

  /** Equal for tables, or their complements, that do not differ on the rows that can happen. */
  private fingerprint(table: Table, flipped: boolean): number {
    const { care } = this.tables;
    const flip = flipped ? 0xffffffff : 0;
    let print = 0;
    for (let w = 0; w < care.length; w++) {
      print = Math.imul(print ^ ((table[w] ^ flip) & care[w]), 0x01000193) + (print >>> 15);
    }
    return print >>> 0;
  }

  private differs(level: Table, table: Table, flipped: boolean): boolean {
    const { care } = this.tables;
    const flip = flipped ? 0xffffffff : 0;
    for (let w = 0; w < care.length; w++) if (((level[w] ^ table[w] ^ flip) & care[w]) !== 0) return true;
    return false;
  }

  /** Can the level be a leg of a join that is the table? Under OR it must lie inside it, under AND around it. */
  private fits(level: Table, table: Table, flipped: boolean): boolean {
    const { care } = this.tables;
    const flip = flipped ? 0xffffffff : 0;
    for (let w = 0; w < care.length; w++) {
      const wanted = table[w] ^ flip;
      const outside = this.isAnd ? wanted & ~level[w] : level[w] & ~wanted;
      if ((outside & care[w]) !== 0) return false;
    }
    return true;
  }

  private place(signal: number, high: Home | null, low: Home | null): SignalPlace {
    const homes = [high, low].filter((home) => home !== null);
    const ticks = homes.map(
      ({ wires, isJoin }) =>
        Math.max(...wires.map((wire) => this.ticks[wire])) + (isJoin ? this.costs.joinTicks : 0),
    );
    return {
      signal,
      rail: high !== null ? (low !== null ? 'both' : 'high') : low !== null ? 'low' : 'absorbed',
      wires: [...new Set(homes.flatMap(({ wires }) => wires))].sort((a, b) => a - b),
      lowWires: [...(low?.wires ?? [])].sort((a, b) => a - b),
      tick: ticks.length > 0 ? Math.max(...ticks) : null,
      high,
      low,
    };
  }
}
