// The slowest changes of every output, exact over all transitions: see transition-tables.ts for how they are simulated.
//
// A transition is judged by the last change of the output: the tick of that change is when the output has settled, and
// its direction says whether it settled on or off. Two figures are kept for each direction: over all transitions, and
// over those that change the output for good (its level before differs from its level after); in the others the last
// change is the end of a pulse.

import { firstRow, type Table } from '../truth/table.ts';
import { type Arrivals, EDGES, type Edge, latestChange, NEVER } from './arrivals.ts';
import { type Circuit, type Pattern, patternOf } from './circuit.ts';
import type { TransitionTables } from './transition-tables.ts';
import type { Observer } from './walk-transitions.ts';

export interface Transition {
  readonly from: Pattern;
  readonly to: Pattern;
}

/** `settles`: the last change, be it the end of a pulse. `changes`: the last change where the output changes for good. */
export type Kind = 'settles' | 'changes';
export const KINDS: readonly Kind[] = ['settles', 'changes'];

/** The slowest transition known for an output, an edge and a kind. */
export interface SlowestChange {
  /** NEVER when no transition ends so. */
  tick: number;
  transition: Transition | null;
}

/** By output, edge and kind. */
export type Records = readonly Readonly<Record<Edge, Record<Kind, SlowestChange>>>[];

export function emptyRecords(circuit: Circuit): Records {
  const none = (): SlowestChange => ({ tick: NEVER, transition: null });
  return circuit.outputs.map(() => ({
    on: { settles: none(), changes: none() },
    off: { settles: none(), changes: none() },
  }));
}

/** Keeps the slowest of all transitions that it sees; of equally slow ones the first. */
export class SlowestChanges implements Observer {
  readonly records: Records;
  private readonly circuit: Circuit;

  constructor(circuit: Circuit) {
    this.circuit = circuit;
    this.records = emptyRecords(circuit);
  }

  wants(arrivals: Arrivals): boolean {
    return this.circuit.outputs.some(({ wire }, y) => latestChange(arrivals, wire) > this.least(y));
  }

  see(tables: TransitionTables, rows: Table): void {
    const { circuit, records } = this;
    const open = new Uint32Array(rows.length);
    const found = new Uint32Array(rows.length);
    circuit.outputs.forEach(({ wire }, y) => {
      const first = tables.first[wire];
      if (first === NEVER) return;
      open.set(rows);
      const before = tables.old[wire];
      const after = tables.settled(wire);
      for (let tick = tables.last[wire]; tick >= first && tick > this.least(y); tick--) {
        const now = tables.at(wire, tick);
        const last = tables.at(wire, tick - 1);
        let any = 0;
        for (let w = 0; w < open.length; w++) {
          const changed = (now[w] ^ last[w]) & open[w];
          found[w] = changed;
          open[w] &= ~changed;
          any |= changed;
        }
        if (any === 0) continue;
        for (const edge of EDGES) {
          for (const kind of KINDS) {
            const record = records[y][edge][kind];
            if (tick <= record.tick) continue;
            const row = rowOf(found, before, after, edge, kind);
            if (row < 0) continue;
            record.tick = tick;
            record.transition = transitionOf(circuit, row, tables.flipped);
          }
        }
      }
    });
  }

  /** The fastest of the four records of an output: only what is slower matters. */
  private least(y: number): number {
    const { on, off } = this.records[y];
    return Math.min(on.settles.tick, on.changes.tick, off.settles.tick, off.changes.tick);
  }
}

export function transitionOf(circuit: Circuit, row: number, mask: number): Transition {
  const count = circuit.inputs.length;
  return { from: patternOf(row, count), to: patternOf((row ^ mask) >>> 0, count) };
}

/** The first transition of `found` that ends with the edge, or -1. */
function rowOf(found: Table, before: Table, after: Table, edge: Edge, kind: Kind): number {
  const fits = new Uint32Array(found.length);
  let any = 0;
  for (let w = 0; w < fits.length; w++) {
    const end = edge === 'on' ? after[w] : ~after[w];
    fits[w] = found[w] & end & (kind === 'changes' ? before[w] ^ after[w] : -1);
    any |= fits[w];
  }
  return any === 0 ? -1 : firstRow(fits);
}
