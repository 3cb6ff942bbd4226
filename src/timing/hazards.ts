// Hazards: where an output may show a pulse although it should stay, or change more than once although it should change
// once.
//
// Two answers stand side by side for every transition. `possible`: with some delays of inverters and wires there is a
// pulse (three-valued.ts). `happens`: with the delays of this very circuit there is one, seen in the simulation of
// transition-tables.ts. The second implies the first. A pulse is a stretch at the level that the output leaves in the
// end, after it has already been at its last level; its width is what the screen shows.
//
// When several inputs change, a pulse may be the function's own: on the way from one pattern to the other, one input
// after the other, the function itself may go back and forth in some order. That is a function hazard, and no circuit
// can be without it. A logic hazard is one where the function behaves in every order and the circuit still wavers.
// `steady` tells the two apart: for each set D of inputs and each pattern A, does the function never fall (or never
// rise) on any way from A through D? It is so iff it is so from A through D less one input, and from A with that input
// flipped, for every input of D. With one changing input there are no function hazards.

import {
  and,
  constantTable,
  countRows,
  firstRow,
  flipInput,
  isEmpty,
  not,
  or,
  type Table,
  without,
  xor,
} from '../truth/table.ts';
import { NEVER } from './arrivals.ts';
import type { Circuit } from './circuit.ts';
import { type Transition, transitionOf } from './settle-exact.ts';
import { waveringWires } from './three-valued.ts';
import { TransitionTables } from './transition-tables.ts';
import { flipSets, movedTable, type Scope, wholeScope } from './walk-transitions.ts';

/** `static-1`: stays 1; `static-0`: stays 0; `dynamic`: changes once. */
export type HazardKind = 'static-1' | 'static-0' | 'dynamic';
export const HAZARD_KINDS: readonly HazardKind[] = ['static-1', 'static-0', 'dynamic'];

/** Hazards of one output and one kind, over all transitions that flip the inputs of one set. */
export interface Hazard {
  readonly output: number;
  readonly kind: HazardKind;
  /** Inputs that flip, by number. */
  readonly flipped: readonly number[];
  /** Number of transitions that have it with some delays. */
  readonly possible: number;
  /** Number of transitions that show it in this circuit; never more than `possible`. */
  readonly happens: number;
  /** Of the possible ones, how many are the function's own; 0 when a single input flips. */
  readonly ofFunction: number;
  /** Width in ticks of the widest pulse that happens, 0 when none does. */
  readonly widest: number;
  /** One that has the widest pulse; else one that is not the function's own; else any. */
  readonly example: Transition;
}

export interface HazardOptions {
  readonly scope: Scope;
  /** Most inputs that flip at once. */
  readonly mostFlips: number;
}

/** Hazards of every output, ordered by number of flipped inputs, then output, then kind, then inputs. */
export function hazardsOf(
  circuit: Circuit,
  options: HazardOptions = { scope: wholeScope(circuit), mostFlips: 1 },
): Hazard[] {
  const { scope, mostFlips } = options;
  const count = circuit.inputs.length;
  const tables = new TransitionTables(circuit);
  const all = scope.allowed ?? constantTable(count, 1);
  const steady = circuit.outputs.map(({ wire }) => new SteadyWays(tables.old[wire], count));
  const found: Hazard[] = [];
  for (let flips = 1; flips <= Math.min(mostFlips, scope.moving.length); flips++) {
    for (const mask of flipSets(scope.moving, flips)) {
      const rows = scope.allowed === null ? all : and(all, movedTable(all, mask, count));
      if (isEmpty(rows)) continue;
      const wavering = waveringWires(circuit, tables.old, mask);
      tables.flip(mask);
      circuit.outputs.forEach(({ wire }, output) => {
        const possible = and(rows, wavering[wire].wavers);
        if (isEmpty(possible)) return;
        const pulses = pulsesOf(tables, wire, rows);
        const own = flips === 1 ? constantTable(count, 0) : not(steady[output].through(mask), count);
        found.push(
          ...split(circuit, output, mask, possible, pulses, own, tables.old[wire], tables.settled(wire)),
        );
      });
    }
  }
  const flipsOf = ({ flipped }: Hazard): number => flipped.length;
  return found
    .map((hazard, at) => ({ hazard, at }))
    .sort(
      (a, b) =>
        flipsOf(a.hazard) - flipsOf(b.hazard) ||
        a.hazard.output - b.hazard.output ||
        HAZARD_KINDS.indexOf(a.hazard.kind) - HAZARD_KINDS.indexOf(b.hazard.kind) ||
        a.at - b.at,
    )
    .map(({ hazard }) => hazard);
}

function split(
  circuit: Circuit,
  output: number,
  mask: number,
  possible: Table,
  pulses: readonly Table[],
  own: Table,
  before: Table,
  after: Table,
): Hazard[] {
  const changes = xor(before, after);
  const kinds: Readonly<Record<HazardKind, Table>> = {
    'static-1': and(before, after),
    'static-0': without(without(possible, before), after),
    dynamic: changes,
  };
  return HAZARD_KINDS.flatMap((kind): Hazard[] => {
    const here = and(possible, kinds[kind]);
    if (isEmpty(here)) return [];
    const widths = pulses.map((rows) => and(rows, here));
    let widest = widths.length;
    while (widest > 0 && isEmpty(widths[widest - 1])) widest--;
    const real = widths.reduce(or, constantTable(circuit.inputs.length, 0));
    const logic = without(here, own);
    const row = firstRow(widest > 0 ? widths[widest - 1] : isEmpty(logic) ? here : logic);
    return [
      {
        output,
        kind,
        flipped: circuit.inputs.flatMap((_, i) => (((mask >>> i) & 1) === 1 ? [i] : [])),
        possible: countRows(here),
        happens: countRows(real),
        ofFunction: countRows(and(here, own)),
        widest,
        example: transitionOf(circuit, row, mask),
      },
    ];
  });
}

/** Transitions in which the wire has a pulse of exactly so many ticks, at index ticks - 1. */
function pulsesOf(tables: TransitionTables, wire: number, rows: Table): Table[] {
  const first = tables.first[wire];
  if (first === NEVER) return [];
  const after = tables.settled(wire);
  const been = new Uint32Array(rows.length);
  /** Where the wire is at the wrong level since exactly so many ticks, after it has been at the right one. */
  let running: Table[] = [];
  const pulses: Table[] = [];
  for (let tick = first - 1; tick <= tables.last[wire]; tick++) {
    const now = tables.at(wire, tick);
    const next: Table[] = [];
    const begins = new Uint32Array(rows.length);
    for (let w = 0; w < been.length; w++) {
      const wrong = (now[w] ^ after[w]) & rows[w];
      let goesOn = 0;
      for (const run of running) goesOn |= run[w];
      begins[w] = wrong & been[w] & ~goesOn;
      been[w] |= ~wrong & rows[w];
    }
    next.push(begins);
    running.forEach((run, length) => {
      const kept = new Uint32Array(rows.length);
      pulses[length] ??= new Uint32Array(rows.length);
      for (let w = 0; w < kept.length; w++) {
        const wrong = now[w] ^ after[w];
        kept[w] = run[w] & wrong;
        pulses[length][w] |= run[w] & ~wrong;
      }
      next.push(kept);
    });
    running = next;
  }
  return pulses;
}

/** Of one function: from which patterns does it never go back and forth on any way that flips the inputs of a set? */
export class SteadyWays {
  private readonly table: Table;
  private readonly inputs: number;
  private readonly known = new Map<number, { readonly rises: Table; readonly falls: Table }>();

  constructor(table: Table, inputs: number) {
    this.table = table;
    this.inputs = inputs;
  }

  /** Patterns from which every way through the set only rises, or only falls, or stays. */
  through(mask: number): Table {
    const { rises, falls } = this.ways(mask);
    return or(rises, falls);
  }

  private ways(mask: number): { readonly rises: Table; readonly falls: Table } {
    const known = this.known.get(mask);
    if (known !== undefined) return known;
    const { table, inputs } = this;
    let rises = constantTable(inputs, 1);
    let falls = constantTable(inputs, 1);
    for (let i = 0; i < inputs; i++) {
      if (((mask >>> i) & 1) === 0) continue;
      const rest = mask & ~(1 << i);
      if (rest === 0) {
        const flipped = flipInput(table, i);
        rises = not(without(table, flipped), inputs);
        falls = not(without(flipped, table), inputs);
      } else {
        const ways = this.ways(rest);
        rises = and(rises, and(ways.rises, flipInput(ways.rises, i)));
        falls = and(falls, and(ways.falls, flipInput(ways.falls, i)));
      }
    }
    const ways = { rises, falls };
    this.known.set(mask, ways);
    return ways;
  }
}
