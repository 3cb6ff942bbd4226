// The walk over all transitions of a circuit, set of flipped inputs by set, and what it would cost. Whoever wants to
// know something about all transitions hands in an observer.

import { constantTable, flipInput, isEmpty, and as rowsOfBoth, type Table } from '../truth/table.ts';
import { type Arrivals, arrivalsOf, earliestChange, latestChange, NEVER } from './arrivals.ts';
import type { Circuit } from './circuit.ts';
import { TransitionTables } from './transition-tables.ts';

/** Which transitions there are. */
export interface Scope {
  /** Patterns that can happen, a row for each; null for all. Both ends of a transition must be among them. */
  readonly allowed: Table | null;
  /** Inputs that may flip. */
  readonly moving: readonly number[];
}

/** Everything may happen. */
export function wholeScope(circuit: Circuit): Scope {
  return { allowed: null, moving: circuit.inputs.map((_, i) => i) };
}

export interface Observer {
  /** Whether transitions with these arrivals can tell anything new; true when absent. */
  wants?(arrivals: Arrivals, flips: number): boolean;
  /** The transitions at hand; `rows` are the starting patterns that count, at least one. */
  see(tables: TransitionTables, rows: Table, flips: number): void;
}

/** Shows an observer all transitions that flip 1 to `mostFlips` inputs, those that flip fewer first. */
export function walkTransitions(circuit: Circuit, scope: Scope, mostFlips: number, observer: Observer): void {
  const tables = new TransitionTables(circuit);
  const rowBits = circuit.inputs.length;
  const all = scope.allowed ?? constantTable(rowBits, 1);
  for (let flips = 1; flips <= Math.min(mostFlips, scope.moving.length); flips++) {
    for (const mask of flipSets(scope.moving, flips)) {
      const rows = scope.allowed === null ? all : rowsOfBoth(all, movedTable(scope.allowed, mask, rowBits));
      if (isEmpty(rows)) continue;
      if (tables.flip(mask, (arrivals) => observer.wants?.(arrivals, flips) ?? true)) {
        observer.see(tables, rows, flips);
      }
    }
  }
}

/** About how many word operations a walk takes, and how many words of tables it keeps. */
export function costOfWalk(
  circuit: Circuit,
  scope: Scope,
  mostFlips: number,
): { readonly work: number; readonly memory: number } {
  const { legStart, names, inputs } = circuit;
  const moving = inputs.map((_, i) => (scope.moving.includes(i) ? 1 : 0));
  const arrivals = arrivalsOf(circuit, moving);
  let [tables, operations] = [names.length, 0];
  for (let wire = 0; wire < names.length; wire++) {
    const last = latestChange(arrivals, wire);
    if (last === NEVER) continue;
    const spread = Math.abs(circuit.ticksOn[wire] - circuit.ticksOff[wire]);
    const ticks = last - earliestChange(arrivals, wire) + 1;
    tables += (ticks + spread) * (spread > 0 ? 2 : 1);
    operations += (ticks + spread) * (legStart[wire + 1] - legStart[wire] + 1 + spread);
  }
  const words = 2 ** Math.max(0, inputs.length - 5);
  const sets = mostFlips === 1 ? scope.moving.length : 2 ** scope.moving.length;
  // The start of a loop over a table costs about as much as sixteen words.
  return { work: sets * operations * (words + 16), memory: tables * words };
}

/** The sets of `count` inputs as masks, in ascending order of the masks. */
export function* flipSets(inputs: readonly number[], count: number): Generator<number> {
  const chosen = Array.from({ length: count }, (_, i) => i);
  if (count === 0 || count > inputs.length) return;
  for (;;) {
    yield chosen.reduce((mask, at) => mask | (1 << inputs[at]), 0);
    let i = 0;
    while (i < count - 1 && chosen[i] + 1 === chosen[i + 1]) i++;
    if (i === count - 1 && chosen[i] + 1 === inputs.length) return;
    chosen[i]++;
    for (let j = 0; j < i; j++) chosen[j] = j;
  }
}

/** The table in which row m is row m with the bits of `mask` flipped. */
export function movedTable(table: Table, mask: number, rowBits: number): Table {
  let moved = table;
  for (let i = 0; i < rowBits; i++) if (((mask >>> i) & 1) === 1) moved = flipInput(moved, i);
  return moved;
}
