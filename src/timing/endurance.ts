// Wear and pulse widths: how often does an inverter change within the window of its target, and how short is the
// shortest pulse on a wire?
//
// In one run both are read off the changes of the wire. Over all transitions they come from the tables: changes are
// counted by adding the table of each tick to a counter of one bit plane for each binary digit, so that 32 transitions
// are counted at once; a pulse of w ticks is a change, w - 1 ticks without, and a change.
//
// A wire has a pulse between any two neighbouring changes; what an inverter with too short a pulse at a leg really
// does, no model says, so the simulation lets every pulse through and this file counts.

import { firstRow, type Table } from '../truth/table.ts';
import { NEVER } from './arrivals.ts';
import { type Circuit, legsOfWire } from './circuit.ts';
import { changesOf, type History } from './history.ts';
import { type Transition, transitionOf } from './settle-exact.ts';
import type { TransitionTables } from './transition-tables.ts';
import type { Observer } from './walk-transitions.ts';

/** Most changes of an inverter within the window. */
export interface Wear {
  readonly wire: number;
  readonly changes: number;
  /** In a run: first tick of the busiest window. */
  readonly tick: number | null;
  /** Over all transitions: the one with the most changes. */
  readonly transition: Transition | null;
}

/** The shortest pulse on a wire. */
export interface Pulse {
  readonly wire: number;
  readonly ticks: number;
  /** Level during the pulse, and in a run the tick at which it begins. */
  readonly tick: number | null;
  readonly transition: Transition | null;
}

/** An inverter that changes this often, as a part of what it stands, comes near. */
const NEAR = 3 / 4;

export type Strain = 'fails' | 'near';

/** `fails`: more changes than the target says it stands; `near`: at least three quarters of them. Null: neither. */
export function strainOf(circuit: Circuit, { changes }: Wear): Strain | null {
  const { wear } = circuit.endurance;
  if (wear === null) return null;
  return changes > wear.changes ? 'fails' : changes >= NEAR * wear.changes ? 'near' : null;
}

/** Is this pulse too short for the inverters that have the wire as a leg? */
export function isTooShort(circuit: Circuit, { wire, ticks }: Pulse): boolean {
  return ticks < circuit.endurance.minPulse && feedsInverter(circuit, wire);
}

/** Does a wire feed an inverter, by itself or through joins? */
function feedsInverter(circuit: Circuit, wire: number): boolean {
  return circuit.kinds.some(
    (kind, reader) =>
      legsOfWire(circuit, reader).includes(wire) &&
      (kind === 'inverter' || (reader !== wire && feedsInverter(circuit, reader))),
  );
}

/** Wear of every inverter in one run, for a window of so many ticks. */
export function wearInRun(history: History, window: number): Wear[] {
  const { circuit } = history;
  return inverters(circuit).map((wire) => {
    const ticks = changesOf(history, wire).map(({ tick }) => tick);
    let [most, at, first] = [0, 0, 0];
    ticks.forEach((tick, i) => {
      while (ticks[first] <= tick - window) first++;
      if (i - first + 1 > most) [most, at] = [i - first + 1, ticks[first]];
    });
    return { wire, changes: most, tick: at, transition: null };
  });
}

/** The shortest pulse of every wire that has one in the run. */
export function pulsesInRun(history: History): Pulse[] {
  return history.circuit.names.flatMap((_, wire): Pulse[] => {
    const changes = changesOf(history, wire);
    let best: Pulse | null = null;
    for (let i = 1; i < changes.length; i++) {
      const ticks = changes[i].tick - changes[i - 1].tick;
      if (best === null || ticks < best.ticks) {
        best = { wire, ticks, tick: changes[i - 1].tick, transition: null };
      }
    }
    return best === null ? [] : [best];
  });
}

function inverters(circuit: Circuit): number[] {
  return [...circuit.names.keys()].filter((wire) => circuit.kinds[wire] === 'inverter');
}

/** Wear and shortest pulses over all transitions that it sees. */
export class EnduranceOfTransitions implements Observer {
  private readonly circuit: Circuit;
  private readonly window: number;
  private readonly worn: Wear[];
  private readonly shortest = new Map<number, Pulse>();

  constructor(circuit: Circuit) {
    this.circuit = circuit;
    this.window = circuit.endurance.wear?.window ?? Number.POSITIVE_INFINITY;
    this.worn = inverters(circuit).map((wire) => ({ wire, changes: 0, tick: null, transition: null }));
  }

  /** By inverter. */
  get wear(): readonly Wear[] {
    return this.worn;
  }

  /** Of every wire that has a pulse at all. */
  get pulses(): readonly Pulse[] {
    return [...this.shortest.values()].sort((a, b) => a.wire - b.wire);
  }

  see(tables: TransitionTables, rows: Table): void {
    const { circuit } = this;
    this.worn.forEach((wear, i) => {
      const changes = changeTables(tables, wear.wire, rows);
      if (changes.length <= wear.changes) return;
      const { count, row } = this.busiest(changes);
      if (count <= wear.changes) return;
      const transition = transitionOf(circuit, row, tables.flipped);
      this.worn[i] = { ...wear, changes: count, transition };
    });
    for (let wire = 0; wire < circuit.names.length; wire++) {
      if (tables.last[wire] <= tables.first[wire]) continue;
      const changes = changeTables(tables, wire, rows);
      const known = this.shortest.get(wire)?.ticks ?? changes.length;
      const found = shortestPulse(changes, known);
      if (found === null) continue;
      const transition = transitionOf(circuit, found.row, tables.flipped);
      this.shortest.set(wire, { wire, ticks: found.ticks, tick: null, transition });
    }
  }

  /** The most changes within the window, and a row that has them. */
  private busiest(changes: readonly Table[]): { count: number; row: number } {
    let best = { count: 0, row: -1 };
    const window = Math.min(this.window, changes.length);
    for (let start = 0; start + window <= changes.length; start++) {
      const found = mostOf(changes.slice(start, start + window));
      if (found.count > best.count) best = found;
    }
    return best;
  }
}

/** A table for each tick of the window of a wire: where it changes at that tick. */
function changeTables(tables: TransitionTables, wire: number, rows: Table): Table[] {
  const first = tables.first[wire];
  if (first === NEVER) return [];
  return Array.from({ length: tables.last[wire] - first + 1 }, (_, i) => {
    const now = tables.at(wire, first + i);
    const before = tables.at(wire, first + i - 1);
    const changed = new Uint32Array(rows.length);
    for (let w = 0; w < changed.length; w++) changed[w] = (now[w] ^ before[w]) & rows[w];
    return changed;
  });
}

/** In how many of the tables is a row at most, and which row? */
function mostOf(tables: readonly Table[]): { count: number; row: number } {
  const planes: Table[] = [];
  for (const table of tables) {
    let carry = table;
    for (let p = 0; ; p++) {
      if (p === planes.length) planes.push(new Uint32Array(table.length));
      const plane = planes[p];
      const next = new Uint32Array(table.length);
      let any = 0;
      for (let w = 0; w < table.length; w++) {
        next[w] = plane[w] & carry[w];
        plane[w] ^= carry[w];
        any |= next[w];
      }
      if (any === 0) break;
      carry = next;
    }
  }
  let rows: Table | null = null;
  let count = 0;
  for (let p = planes.length - 1; p >= 0; p--) {
    const narrowed: Table = new Uint32Array(planes[p]);
    let any = 0;
    for (let w = 0; w < narrowed.length; w++) {
      if (rows !== null) narrowed[w] &= rows[w];
      any |= narrowed[w];
    }
    if (any === 0) continue;
    rows = narrowed;
    count += 2 ** p;
  }
  return { count, row: rows === null ? -1 : firstRow(rows) };
}

/** The shortest pulse below `below` ticks, or null. */
function shortestPulse(changes: readonly Table[], below: number): { ticks: number; row: number } | null {
  for (let ticks = 1; ticks < below; ticks++) {
    for (let start = 0; start + ticks < changes.length; start++) {
      const both = new Uint32Array(changes[start]);
      let any = 0;
      for (let w = 0; w < both.length; w++) {
        let bits = both[w] & changes[start + ticks][w];
        for (let between = start + 1; between < start + ticks; between++) bits &= ~changes[between][w];
        both[w] = bits;
        any |= bits;
      }
      if (any !== 0) return { ticks, row: firstRow(both) };
    }
  }
  return null;
}
