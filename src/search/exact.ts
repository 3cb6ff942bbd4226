// Exact search: is there a network of exactly `size` inverters that makes every output within its tick bound?
//
// Idea. The question is put to the solver. For each (inverter, possible leg) a selection variable says that the leg is
// laid, for each (inverter, row) a value variable holds its level, and clauses tie them: a selected leg at 1 forces 0,
// and a 0 needs a selected leg at 1. Outputs are joins in the same way, with their required levels in place of value
// variables. An input rail or an output rail left to the search is one more variable.
//
// Why it is correct. An assignment is read off as a network; every network of that size within the bounds satisfies
// the clauses after renumbering, because the clauses that only narrow the search never exclude all renumberings:
// - every inverter has a leg and feeds something (a smaller size has been refuted before, so none is superfluous);
// - two neighbours in the order that do not feed each other stand in the order of their leg sets. Of all topological
//   orders take the one whose sequence of leg sets is smallest: a violated pair could be exchanged to a smaller one;
// - under a tick bound the level of an inverter is a unary counter that is exact, the order goes by level, and the
//   inverters of one level are ordered by their leg sets. Sort level by level: leg sets mention earlier levels only;
// - an inverter whose single leg is an inverter with a single leg repeats a wire that exists earlier for nothing.
// Rows are added only when a candidate is wrong on them (counterexamples), so 512 rows cost no more than the few that
// matter; a refutation on some rows refutes all.
//
// Where an inverter feeds only so many separate wires, a unary counter over the different joins it stands in, and one
// more if it is used alone, says how many copies it needs (see network/copies.ts); all copies together are bounded. A
// network with a superfluous inverter is then no longer excluded by smaller sizes alone, so sizes and copies are asked
// for in the order of their sum.
//
// Cost. Exponential in size; limits are counted in conflicts. Leg limits are sequential counters.
//
// Lost. All rows at once was slower from five inputs on. Fixing how many inverters stand on each level and running
// through all such profiles was slower than one unary counter each.

import type { Network } from '../network/network.ts';
import { FIRST_INPUT, ONE, ZERO } from '../network/network.ts';
import { Solver } from '../solver/solver.ts';
import { and, firstRow, flipInput, hasRow, isEmpty } from '../truth/table.ts';
import { type Draft, draftNetwork, firstWrongRow } from './draft.ts';
import type { Task } from './task.ts';

export type ExactAnswer =
  | { readonly kind: 'found'; readonly network: Network }
  | { readonly kind: 'none' }
  | { readonly kind: 'undecided' };

export interface ExactQuestion {
  readonly task: Task;
  /** Number of inverters. All smaller sizes should be known to be impossible under the same bounds. */
  readonly size: number;
  /** Most copies that the network may need; of no account where an inverter feeds any number of wires. */
  readonly copies?: number;
  /** Latest tick of each output; Infinity for any. */
  readonly by: readonly number[];
  /** Most conflicts to spend. */
  readonly maxConflicts: number;
  /** Rows to start from; rows that were needed are added, so that the next question can start from them. */
  readonly rows: number[];
}

/** Answers the question; `spent` is told how many conflicts it took. */
export function exactNetwork(
  question: ExactQuestion,
  spent: (conflicts: number) => void = () => {},
): ExactAnswer {
  const encoding = new Encoding(question);
  const { task, rows, maxConflicts } = question;
  for (const row of rows) encoding.addRow(row);
  for (;;) {
    const before = encoding.solver.conflicts;
    const answer = encoding.solver.solve([], maxConflicts - before);
    spent(encoding.solver.conflicts - before);
    if (answer === 'unsatisfiable') return { kind: 'none' };
    if (answer === 'undecided') return { kind: 'undecided' };
    const draft = encoding.readDraft();
    const row = firstWrongRow(task, draft);
    if (row < 0) return { kind: 'found', network: draftNetwork(task, draft) };
    rows.push(row);
    encoding.addRow(row);
    if (encoding.solver.conflicts >= maxConflicts) return { kind: 'undecided' };
  }
}

/** Rows to start from: all when there are few, else for each output and input a pair of rows that only that input tells apart. */
export function startingRows(task: Task): number[] {
  const rows = new Set<number>();
  const total = 2 ** task.rowBits;
  if (total <= 16) {
    for (let row = 0; row < total; row++) if (hasRow(task.care, row)) rows.add(row);
    return [...rows];
  }
  for (const { on, off } of task.outputs) {
    for (const side of [on, off]) if (!isEmpty(side)) rows.add(firstRow(side));
    if (!task.exhaustive) continue;
    for (let i = 0; i < task.rowBits; i++) {
      const edge = and(on, flipInput(off, i));
      const row = firstRow(edge);
      if (row < 0) continue;
      rows.add(row);
      rows.add(row ^ (1 << i));
    }
  }
  return [...rows];
}

class Encoding {
  readonly solver = new Solver();
  private readonly question: ExactQuestion;
  private readonly task: Task;
  private readonly size: number;
  /** Number of input wires; leg `s` below this is an input wire, leg `s` from it on inverter `s - sources`. */
  private readonly sources: number;
  /** Outputs that a constant serves take it, and nothing else. */
  private readonly constant: readonly (number | null)[];
  private readonly select: number[][] = [];
  private readonly join: number[][] = [];
  /** True: the candidate wire of the low rail is the one that exists. By wire number, 0 where there is no choice. */
  private readonly used: number[] = [];
  private readonly swapped: number[] = [];
  /** `several[i]`: inverter i has two legs or more. */
  private readonly several: number[] = [];
  /** `late[i][t]`: inverter i settles at tick `firstTick + t` or later. */
  private readonly late: number[][] = [];

  constructor(question: ExactQuestion) {
    this.question = question;
    this.task = question.task;
    this.size = question.size;
    this.sources = question.task.wires.length;
    this.constant = question.task.outputs.map(({ on, off }) =>
      isEmpty(on) ? ZERO : isEmpty(off) ? ONE : null,
    );
    this.makeVariables();
    this.structure();
    this.ticks();
    if (this.task.rules.inverterOutputs !== Number.POSITIVE_INFINITY) this.copies(this.question.copies ?? 0);
  }

  private makeVariables(): void {
    const { solver, task } = this;
    task.wires.forEach((wire, s) => {
      if (wire.rival < 0) this.used.push(0);
      else if (wire.rival > s) this.used.push(solver.newVariable(true));
      else this.used.push(-this.used[wire.rival]);
    });
    for (const output of task.outputs) {
      this.join.push(Array.from({ length: this.sources + this.size }, () => solver.newVariable()));
      this.swapped.push(output.rail === 'either' ? solver.newVariable() : 0);
    }
    for (let i = this.size - 1; i >= 0; i--) {
      this.select[i] = Array.from({ length: this.sources + i }, () => solver.newVariable());
    }
  }

  private structure(): void {
    const { solver, task, select, join, sources, size } = this;
    for (let i = 0; i < size; i++) {
      solver.addClause(select[i]);
      const uses = join.map((legs) => legs[sources + i]);
      for (let k = i + 1; k < size; k++) uses.push(select[k][sources + i]);
      solver.addClause(uses);
      this.atMost(select[i], task.rules.inverterLegs);
    }
    for (let s = 0; s < sources; s++) {
      if (this.used[s] === 0) continue;
      for (const legs of [...select, ...join]) solver.addClause([-legs[s], this.used[s]]);
    }
    join.forEach((legs, y) => {
      if (this.constant[y] !== null) for (const leg of legs) solver.addClause([-leg]);
      else solver.addClause(legs);
      this.atMost(legs, task.rules.outputLegs);
    });
    this.noDoubleInversion();
  }

  /** `single[i]`: inverter i has one leg. If that leg is an inverter with one leg, the pair does nothing. */
  private noDoubleInversion(): void {
    const { solver, select, sources, size } = this;
    const single: number[] = [];
    for (let i = 0; i < size; i++) {
      const several = solver.newVariable();
      single.push(-several);
      this.several.push(several);
      if (this.task.rules.joinTicks > 0) this.severalIfTwo(several, select[i]);
      // several -> at least two legs: for each leg, some other leg.
      for (let s = 0; s < select[i].length; s++) {
        solver.addClause([-several, ...select[i].filter((_, other) => other !== s)]);
      }
      for (let j = 0; j < i; j++) solver.addClause([-select[i][sources + j], several, -single[j]]);
    }
  }

  private severalIfTwo(several: number, legs: readonly number[]): void {
    legs.forEach((leg, s) => {
      for (let other = 0; other < s; other++) this.solver.addClause([-leg, -legs[other], several]);
    });
  }

  /** Where joins cost ticks: levels are bounded from below only, and the order does without them. */
  private ticksWithJoins(): void {
    const { solver, task, size, select, join, sources } = this;
    const { inverterTicks, joinTicks } = task.rules;
    const bound = Math.max(...this.question.by);
    const latest = this.latestPossible() + (size + 1) * joinTicks;
    const last = Number.isFinite(bound) ? bound : latest;
    // late[i][t]: inverter i settles after tick t.
    for (let i = 0; i < size; i++) {
      const late = Array.from({ length: last + 1 }, () => solver.newVariable());
      this.late.push(late);
      const after = (cause: readonly number[], tick: number): void => {
        for (const [more, extra] of [
          [[], inverterTicks],
          [[-this.several[i]], inverterTicks + joinTicks],
        ] as const) {
          const settles = tick + extra;
          if (settles > last) solver.addClause([...cause, ...more]);
          else if (settles > 0) solver.addClause([...cause, ...more, late[settles - 1]]);
        }
      };
      for (let t = 0; t < last; t++) solver.addClause([-late[t + 1], late[t]]);
      for (let s = 0; s < sources; s++) after([-select[i][s]], task.wires[s].tick);
      for (let j = 0; j < i; j++) {
        for (let t = 0; t <= last; t++) after([-select[i][sources + j], -this.late[j][t]], t + 1);
      }
      if (i + 1 < size) this.ordered(select[i], select[i + 1], [select[i + 1][sources + i]]);
    }
    join.forEach((legs, y) => {
      const by = this.question.by[y];
      if (!Number.isFinite(by)) return;
      const several = solver.newVariable();
      this.severalIfTwo(several, legs);
      for (const [more, latestLeg] of [
        [[], by],
        [[-several], by - joinTicks],
      ] as const) {
        for (let s = 0; s < sources; s++) {
          if (task.wires[s].tick > latestLeg) solver.addClause([-legs[s], ...more]);
        }
        for (let i = 0; i < size; i++) {
          if (latestLeg < 0) solver.addClause([-legs[sources + i], ...more]);
          else solver.addClause([-legs[sources + i], ...more, -this.late[i][latestLeg]]);
        }
      }
    });
  }

  /** Unary levels and the order of the inverters. */
  private ticks(): void {
    if (this.task.rules.joinTicks > 0) {
      this.ticksWithJoins();
      return;
    }
    const { solver, task, size, select, join, sources } = this;
    const { inverterTicks } = task.rules;
    const bound = Math.max(...this.question.by);
    const earliest = Math.min(...task.wires.map((wire) => wire.tick), bound) + inverterTicks;
    const bounded = Number.isFinite(bound) && this.latestPossible() > Math.min(...this.question.by);
    // Ticks an inverter may settle at: `earliest .. bound`; late[i][t] says "at earliest + t or later".
    const span = bounded ? bound - earliest + 1 : 0;
    for (let i = 0; i < size && bounded; i++) {
      this.late.push(Array.from({ length: Math.max(span, 1) + 1 }, () => solver.newVariable()));
      const late = this.late[i];
      solver.addClause([late[0]]);
      solver.addClause([-late[Math.max(span, 0)]]);
      for (let t = 0; t + 1 < late.length; t++) solver.addClause([-late[t + 1], late[t]]);
      const reasons: number[][] = late.map(() => []);
      for (let s = 0; s < sources; s++) {
        const t = task.wires[s].tick + inverterTicks - earliest;
        for (let u = 0; u < late.length; u++) if (t >= u) reasons[u].push(select[i][s]);
        if (t >= late.length) solver.addClause([-select[i][s]]);
        else if (t >= 0) solver.addClause([-select[i][s], late[t]]);
      }
      for (let j = 0; j < i; j++) {
        const leg = select[i][sources + j];
        for (let t = 0; t < late.length; t++) {
          const next = Math.min(t + inverterTicks, late.length - 1);
          solver.addClause([-leg, -this.late[j][t], late[next]]);
        }
        for (let u = 1; u < late.length; u++) {
          const because = solver.newVariable();
          solver.addClause([-because, leg]);
          solver.addClause([-because, this.late[j][Math.max(0, u - inverterTicks)]]);
          if (u - inverterTicks <= 0) reasons[u].push(leg);
          else reasons[u].push(because);
        }
      }
      for (let u = 1; u < late.length; u++) solver.addClause([-late[u], ...reasons[u]]);
    }
    for (let y = 0; y < join.length; y++) {
      const by = this.question.by[y];
      for (let s = 0; s < sources; s++) if (task.wires[s].tick > by) solver.addClause([-join[y][s]]);
      for (let i = 0; i < size && bounded; i++) {
        const t = by + 1 - earliest;
        if (t <= 0) solver.addClause([-join[y][sources + i]]);
        else if (t < this.late[i].length) solver.addClause([-join[y][sources + i], -this.late[i][t]]);
      }
    }
    for (let i = 0; i + 1 < size; i++) {
      if (!bounded) {
        this.ordered(select[i], select[i + 1], [select[i + 1][sources + i]]);
        continue;
      }
      // Levels ascend; where two neighbours share a level their leg sets do.
      const different: number[] = [];
      for (let t = 0; t < this.late[i].length; t++) {
        solver.addClause([-this.late[i][t], this.late[i + 1][t]]);
        const step = solver.newVariable();
        solver.addClause([-step, this.late[i + 1][t]]);
        solver.addClause([-step, -this.late[i][t]]);
        different.push(step);
      }
      this.ordered(select[i], select[i + 1], different);
    }
  }

  /** Bounds the copies of all inverters together. */
  private copies(most: number): void {
    const { solver, task, select, join, sources, size } = this;
    // several[y]: output y is a join of two legs or more. No harm in claiming it of a single leg.
    const several = join.map((legs) => {
      const variable = solver.newVariable();
      legs.forEach((leg, s) => {
        for (let other = 0; other < s; other++) solver.addClause([-leg, -legs[other], variable]);
        solver.addClause([-variable, -leg, ...legs.filter((_, other) => other !== s)]);
      });
      return variable;
    });
    // counted[y]: the join is not the same as an earlier one.
    const counted = join.map((legs, y) => {
      const variable = solver.newVariable();
      const repeats = join.slice(0, y).map((earlier) => {
        const same = solver.newVariable();
        legs.forEach((leg, s) => {
          solver.addClause([-same, -leg, earlier[s]]);
          solver.addClause([-same, leg, -earlier[s]]);
        });
        return same;
      });
      solver.addClause([-several[y], variable, ...repeats]);
      return variable;
    });
    // whole[i][y]: inverter i has all legs of join y among its own.
    const whole = select.map((legs, i) =>
      join.map((joined, y) => {
        const variable = solver.newVariable();
        solver.addClause([-variable, several[y]]);
        for (let s = 0; s < joined.length; s++) {
          if (s < sources + i) solver.addClause([-variable, -joined[s], legs[s]]);
          else solver.addClause([-variable, -joined[s]]);
        }
        return variable;
      }),
    );
    const extra: number[] = [];
    for (let j = 0; j < size; j++) {
      const wire = sources + j;
      const alone = solver.newVariable();
      join.forEach((legs, y) => {
        solver.addClause([-legs[wire], several[y], alone]);
      });
      for (let i = j + 1; i < size; i++) {
        const within = join.map((legs, y) => this.both(whole[i][y], legs[wire]));
        solver.addClause([-select[i][wire], alone, ...within]);
      }
      const wires = [alone];
      join.forEach((legs, y) => {
        const stands = solver.newVariable();
        solver.addClause([-legs[wire], -counted[y], stands]);
        wires.push(stands);
      });
      const atLeast = this.counter(wires);
      for (let n = task.rules.inverterOutputs; n < atLeast.length; n += task.rules.inverterOutputs)
        extra.push(atLeast[n]);
    }
    this.atMost(extra, most);
  }

  /** Unary counter: literal `n` of the result is true if more than `n` of the literals are. */
  private counter(literals: readonly number[]): number[] {
    const { solver } = this;
    let above: number[] = [];
    for (const literal of literals) {
      const counts = Array.from({ length: above.length + 1 }, () => solver.newVariable());
      for (let c = 0; c < counts.length; c++) {
        if (c < above.length) solver.addClause([-above[c], counts[c]]);
        solver.addClause(c === 0 ? [-literal, counts[0]] : [-literal, -above[c - 1], counts[c]]);
      }
      above = counts;
    }
    return above;
  }

  private latestPossible(): number {
    const latest = Math.max(0, ...this.task.wires.map((wire) => wire.tick));
    return latest + this.size * this.task.rules.inverterTicks;
  }

  /** Leg set `a` comes strictly before leg set `b` in lexicographic order, unless one of `unless` holds. */
  private ordered(a: readonly number[], b: readonly number[], unless: readonly number[]): void {
    const { solver } = this;
    let same: number[] = [...unless]; // clause part: "or the prefixes differ already in the right way"
    for (let s = 0; s < a.length; s++) {
      solver.addClause([...same, -a[s], b[s]]);
      // decided: b[s] > a[s] at s or before.
      const decided = solver.newVariable();
      if (s === 0) {
        solver.addClause([-decided, -a[s]]);
        solver.addClause([-decided, b[s]]);
      } else {
        const before = same[same.length - 1];
        solver.addClause([-decided, before, -a[s]]);
        solver.addClause([-decided, before, b[s]]);
      }
      same = [...unless, decided];
    }
    solver.addClause(same);
  }

  private atMost(literals: readonly number[], most: number): void {
    const { solver } = this;
    if (most >= literals.length) return;
    if (most === 0) {
      for (const literal of literals) solver.addClause([-literal]);
      return;
    }
    let above: number[] = [];
    literals.forEach((literal, n) => {
      const counts = Array.from({ length: Math.min(n + 1, most) }, () => solver.newVariable());
      for (let c = 0; c < counts.length; c++) {
        if (c < above.length) solver.addClause([-above[c], counts[c]]);
        if (c === 0) solver.addClause([-literal, counts[0]]);
        else if (c - 1 < above.length) solver.addClause([-literal, -above[c - 1], counts[c]]);
      }
      if (above.length === most) solver.addClause([-literal, -above[most - 1]]);
      above = counts;
    });
  }

  /** Ties the levels at one row to the selections. */
  addRow(row: number): void {
    const { solver, task, select, join, sources, size } = this;
    const source = task.wires.map((wire) => hasRow(wire.table, row));
    const value = Array.from({ length: size }, () => solver.newVariable());
    for (let i = 0; i < size; i++) {
      const causes = [value[i]];
      for (let s = 0; s < sources; s++) {
        if (!source[s]) continue;
        solver.addClause([-select[i][s], -value[i]]);
        causes.push(select[i][s]);
      }
      for (let j = 0; j < i; j++) {
        const leg = select[i][sources + j];
        solver.addClause([-leg, -value[j], -value[i]]);
        causes.push(this.both(leg, value[j]));
      }
      solver.addClause(causes);
    }
    task.outputs.forEach((output, y) => {
      const on = hasRow(output.on, row);
      if (this.constant[y] !== null) return;
      if (!on && !hasRow(output.off, row)) return;
      const swap = this.swapped[y];
      const zero = swap === 0 ? (on ? null : []) : [on ? -swap : swap];
      const one = swap === 0 ? (on ? [] : null) : [on ? swap : -swap];
      const legs = join[y];
      if (zero !== null) {
        for (let s = 0; s < sources; s++) if (source[s]) solver.addClause([...zero, -legs[s]]);
        for (let i = 0; i < size; i++) solver.addClause([...zero, -legs[sources + i], -value[i]]);
      }
      if (one !== null) {
        const causes = [...one];
        for (let s = 0; s < sources; s++) if (source[s]) causes.push(legs[s]);
        for (let i = 0; i < size; i++) causes.push(this.both(legs[sources + i], value[i]));
        solver.addClause(causes);
      }
    });
  }

  private both(a: number, b: number): number {
    const both = this.solver.newVariable();
    this.solver.addClause([-both, a]);
    this.solver.addClause([-both, b]);
    return both;
  }

  /** The network of the last satisfying assignment. */
  readDraft(): Draft {
    const { solver, task, select, join } = this;
    const legsOf = (variables: readonly number[]): number[] => {
      const legs: number[] = [];
      variables.forEach((variable, s) => {
        if (solver.value(variable)) legs.push(FIRST_INPUT + s);
      });
      return legs;
    };
    const chosen = task.wires.map((_, s) => {
      const used = this.used[s];
      return used === 0 || solver.value(Math.abs(used)) === used > 0;
    });
    return {
      chosen,
      low: this.swapped.map((swap) => swap !== 0 && solver.value(swap)),
      inverters: select.map(legsOf),
      outputs: join.map((legs, y) => {
        const constant = this.constant[y];
        return constant === null ? legsOf(legs) : [constant];
      }),
    };
  }
}
