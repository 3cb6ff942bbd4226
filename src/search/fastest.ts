// The fewest ticks that are possible, exactly.
//
// Idea. Without a leg limit two levels of inverters always suffice, so only the last ticks matter. An output that
// settles by tick T is a join of wires; each of them is an input wire that has arrived, or an inverter, and an
// inverter is 1 exactly where all its legs are 0: its level is a product of conditions, each of which can use a wire at
// level 0 if the wire is there one inverter before T, and a wire at level 1 if it is there two inverters before T.
// So the output can be 1 at a row m by an inverter iff the smallest usable cube around m (fix every literal that can
// arrive) meets no row where the output must be 0. An input wire that has arrived by T may also be joined directly if
// its level is never 1 where the output must be 0.
//
// Whether m's cube meets an OFF row is a question of reaching: from m one may change an input from 1 to 0 if the
// literal "input is 1" cannot arrive, and from 0 to 1 if "input is 0" cannot. The changes of different inputs are
// independent, so one backward sweep over the inputs, whole tables at a time, finds all rows that reach an OFF row.
//
// Where only inverter inputs may join, an output is an input wire or one inverter, so the question moves to the
// complement one inverter earlier. Rails that are left to the search are tried by depth-first search in which an open
// rail counts as both rails present; that relaxation prunes nearly everything.
//
// Exact for joins of 0 ticks without leg limits; otherwise a lower bound (`exact` says which): a join that costs ticks
// or a limit on legs can only delay. Cost: (ticks tried) x (rails tried) x outputs x inputs x words.

import {
  and,
  flipInput,
  inputTable,
  intersects,
  isEmpty,
  isInside,
  or,
  type Table,
  without,
} from '../truth/table.ts';
import { requiredOff, requiredOn } from './draft.ts';
import type { Task } from './task.ts';

export interface Fastest {
  /** Fewest ticks of the latest output, deadlines not counted. */
  readonly ticks: number;
  /** Fewest ticks of the latest output among those without a deadline, when all deadlines are met; null if they cannot. */
  readonly withDeadlines: number | null;
  /** Earliest tick of each output taken alone. */
  readonly each: readonly number[];
  /** False when the figures are lower bounds only. */
  readonly exact: boolean;
}

/** Most rail choices tried for one tick count before the relaxation is taken as a bound. */
const RAIL_TRIALS = 4096;

export function fastest(task: Task): Fastest {
  const { rules } = task;
  const unlimited =
    rules.joinTicks === 0 &&
    rules.inverterLegs === Number.POSITIVE_INFINITY &&
    (rules.outputLegs === Number.POSITIVE_INFINITY || rules.outputLegs === 1);
  const search = new RailSearch(task);
  const outputs = task.outputs.map((_, y) => y);
  const each = outputs.map((y) => search.first((ticks) => [[y, ticks]]));
  const ticks = search.first((t) => outputs.map((y) => [y, t]));
  const fixed: Demand[] = outputs.flatMap((y) => {
    const { by } = task.outputs[y];
    return by === null ? [] : [[y, by] as const];
  });
  const open = outputs.filter((y) => task.outputs[y].by === null);
  let withDeadlines: number | null = ticks;
  if (fixed.length > 0) {
    withDeadlines = search.possible(fixed)
      ? search.first((t) => [...fixed, ...open.map((y) => [y, t] as const)])
      : null;
  }
  return { ticks, withDeadlines, each, exact: unlimited && search.complete };
}

/** An output and the tick by which it must have settled. */
type Demand = readonly [output: number, by: number];

class RailSearch {
  /** False once a choice of rails was cut short. */
  complete = true;
  private readonly task: Task;
  private readonly latest: number;
  private readonly literals: Table[];

  constructor(task: Task) {
    this.task = task;
    this.latest = Math.max(0, ...task.wires.map((wire) => wire.tick)) + 3 * task.rules.inverterTicks;
    this.literals = Array.from({ length: task.rowBits }, (_, i) => inputTable(task.rowBits, i));
  }

  /** The first tick for which the demands can be met. */
  first(demands: (ticks: number) => Demand[]): number {
    for (let ticks = 0; ticks < this.latest; ticks++) if (this.possible(demands(ticks))) return ticks;
    return this.latest;
  }

  possible(demands: readonly Demand[]): boolean {
    const chosen: (boolean | null)[] = this.task.wires.map((wire) => (wire.rival < 0 ? true : null));
    let trials = 0;
    const extend = (): boolean => {
      if (!demands.every((demand) => this.met(demand, chosen))) return false;
      const next = chosen.indexOf(null);
      if (next < 0) return true;
      if (++trials > RAIL_TRIALS) {
        this.complete = false;
        return true;
      }
      const { rival } = this.task.wires[next];
      for (const first of [true, false]) {
        chosen[next] = first;
        chosen[rival] = !first;
        if (extend()) return true;
      }
      chosen[next] = null;
      chosen[rival] = null;
      return false;
    };
    return extend();
  }

  private met([output, by]: Demand, chosen: readonly (boolean | null)[]): boolean {
    const rails = this.task.outputs[output].rail === 'either' ? [false, true] : [false];
    return rails.some((low) => {
      const on = requiredOn(this.task, output, low);
      const off = requiredOff(this.task, output, low);
      return this.task.rules.outputLegs === 1
        ? this.asWire(on, off, by, chosen)
        : this.asJoin(on, off, by, chosen);
    });
  }

  private asWire(on: Table, off: Table, by: number, chosen: readonly (boolean | null)[]): boolean {
    if (isEmpty(on) || isEmpty(off)) return true;
    const direct = this.task.wires.some(
      (wire, s) =>
        chosen[s] !== false && wire.tick <= by && isInside(on, wire.table) && !intersects(wire.table, off),
    );
    return direct || this.asJoin(off, on, by - this.task.rules.inverterTicks, chosen);
  }

  private asJoin(on: Table, off: Table, by: number, chosen: readonly (boolean | null)[]): boolean {
    const { wires, rowBits: inputs, rules } = this.task;
    if (by < 0) return false;
    if (isEmpty(on) || isEmpty(off)) return true;
    let open = on;
    let reaching: Table = off;
    for (let i = 0; i < inputs; i++) {
      const literal = this.literals[i];
      let whenOne = false; // a literal "input is 1" can arrive
      let whenZero = false;
      for (let s = 0; s < wires.length; s++) {
        const wire = wires[s];
        if (chosen[s] === false || wire.input !== i) continue;
        if (wire.tick <= by && !intersects(wire.table, off)) open = without(open, wire.table);
        const late = wire.tick + 2 * rules.inverterTicks <= by;
        const soon = wire.tick + rules.inverterTicks <= by;
        if (wire.straight ? late : soon) whenOne = true;
        if (wire.straight ? soon : late) whenZero = true;
      }
      const moved = flipInput(reaching, i);
      if (!whenOne) reaching = or(reaching, and(moved, literal));
      if (!whenZero) reaching = or(reaching, without(moved, literal));
    }
    return !intersects(open, reaching);
  }
}
