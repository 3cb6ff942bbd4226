// Flattening: every output in two levels of inverters, as the fastest tick demands.
//
// Idea. An output is a join of direct wires and of terms; a term is an inverter whose legs are input wires and
// first-level inverters, which may hang on any set of input wires: a product of complements and of sums. A sum of
// products is the special case where every first-level inverter has one leg. We start from such a cover by prime
// implicants and then merge terms: two terms of an output become one if some inverter is 1 on all rows that only those
// two cover and 0 wherever the output must be 0. For a required set R that inverter needs legs that are 0 on R and
// together 1 on all OFF rows; each leg is an input wire, an existing first-level inverter, or a new one, NOR(S), where
// S meets every row of R; the fewer wires in S, the more OFF rows it serves. First-level inverters and terms are shared
// among all outputs. A look-ahead carry of nine inputs falls from 12 to 6 inverters that way.
//
// Correctness. Every step keeps "terms cover ON, and avoid OFF"; the draft is checked by the caller once more.
//
// Cost. Covers and merges are greedy and counted in table words; the number of merges tried is quadratic in the terms
// of one output. Not optimal: the exact search proves or betters it where it can.
//
// Lost. Choosing the cover by a covering problem over all prime implicants was slower and, after merging, no better.

import { FIRST_INPUT, ONE, ZERO } from '../network/network.ts';
import { countInCube, meetsCube, wordsOfCube } from '../truth/cube.ts';
import {
  and,
  constantTable,
  countRows,
  firstRow,
  hasRow,
  intersects,
  isEmpty,
  isInside,
  not,
  orInto,
  type Table,
  without,
  withoutInto,
} from '../truth/table.ts';
import { type Draft, requiredOff, requiredOn } from './draft.ts';
import { Allowance } from './limits.ts';
import type { Task } from './task.ts';

/** An inverter whose legs are input wires; `used` counts the terms it is a leg of. */
interface First {
  readonly key: string;
  readonly legs: readonly number[];
  readonly level: Table;
  readonly tick: number;
  used: number;
}

/** An inverter that stands in the join of one output or several. */
interface Term {
  readonly key: string;
  readonly wires: readonly number[];
  readonly firsts: readonly First[];
  readonly level: Table;
  used: number;
}

interface Cover {
  readonly wires: readonly number[];
  readonly firsts: readonly First[];
  readonly level: Table;
}

/**
 * A two-level draft in which output `y` settles by `by[y]`, or null where that is impossible, the allowance ran out,
 * or the cover has more than `most` terms.
 * Once every output has a cover, `mergeShare` of what is left may be spent to make it smaller.
 * `chosen` says which candidate wires exist, `low` which undecided outputs stand on the low rail.
 */
export function flattenDraft(
  task: Task,
  chosen: readonly boolean[],
  low: readonly boolean[],
  by: readonly number[],
  words: Allowance,
  most = Number.POSITIVE_INFINITY,
  mergeShare = 1,
): Draft | null {
  const { inverterLegs, outputLegs, joinTicks } = task.rules;
  if (outputLegs !== Number.POSITIVE_INFINITY || inverterLegs !== Number.POSITIVE_INFINITY || joinTicks > 0)
    return null;
  return new Flattening(task, chosen, low, by, words).draft(most, mergeShare);
}

/**
 * The same with an inverter over every wire first, so that what is two levels otherwise hangs on both rails of every
 * input and takes a tick more. Sums and products of either rail then merge terms that have nothing in common on one:
 * the verdict of a comparator of six bits falls from 63 terms to 6.
 */
export function flattenOverBothRails(
  task: Task,
  chosen: readonly boolean[],
  low: readonly boolean[],
  by: readonly number[],
  words: Allowance,
  most = Number.POSITIVE_INFINITY,
): Draft | null {
  const { rules, rowBits } = task;
  const complements = task.wires.map((wire) => ({
    ...wire,
    table: not(wire.table, rowBits),
    tick: wire.tick + rules.inverterTicks,
    straight: !wire.straight,
  }));
  const doubled: Task = { ...task, wires: [...task.wires, ...complements] };
  const draft = flattenDraft(doubled, [...chosen, ...chosen], low, by, words, most);
  if (draft === null) return null;
  // The doubled wires have the numbers of inverters that stand before all others; nobody takes those of wires not chosen.
  const inverted = task.wires.map((_, s) => [chosen[s] ? FIRST_INPUT + s : ZERO]);
  return { ...draft, chosen, inverters: [...inverted, ...draft.inverters] };
}

class Flattening {
  private readonly task: Task;
  private readonly chosen: readonly boolean[];
  private readonly low: readonly boolean[];
  private readonly by: readonly number[];
  private words: Allowance;
  private readonly firsts = new Map<string, First>();
  private readonly terms = new Map<string, Term>();
  private readonly joins: { wires: number[]; terms: Term[] }[] = [];

  constructor(
    task: Task,
    chosen: readonly boolean[],
    low: readonly boolean[],
    by: readonly number[],
    words: Allowance,
  ) {
    this.task = task;
    this.chosen = chosen;
    this.low = low;
    this.by = by;
    this.words = words;
  }

  draft(most: number, mergeShare: number): Draft | null {
    for (let y = 0; y < this.task.outputs.length; y++) {
      if (!this.coverOutput(y) || this.terms.size > most) return null;
    }
    if (mergeShare < 1) this.words = new Allowance(mergeShare * this.words.remaining);
    for (let round = 0; round < 3 && this.mergeAll(); round++);
    return this.assemble();
  }

  private spend(tables: number): boolean {
    this.words.take(tables * this.task.care.length);
    return !this.words.spent;
  }

  /** A cover of one output by direct wires and products. */
  private coverOutput(y: number): boolean {
    const { task } = this;
    const on = requiredOn(task, y, this.low[y]);
    const off = requiredOff(task, y, this.low[y]);
    const join = { wires: [] as number[], terms: [] as Term[] };
    this.joins.push(join);
    if (isEmpty(on)) return true;
    if (isEmpty(off)) {
      join.wires.push(ONE);
      return true;
    }
    let open = on;
    task.wires.forEach((wire, s) => {
      if (!this.chosen[s] || wire.tick > this.by[y] || intersects(wire.table, off)) return;
      if (!intersects(wire.table, open)) return;
      join.wires.push(FIRST_INPUT + s);
      open = without(open, wire.table);
    });
    for (const term of this.terms.values()) {
      if (intersects(term.level, open) && !intersects(term.level, off) && this.termTick(term) <= this.by[y]) {
        this.useTerm(term);
        join.terms.push(term);
        open = without(open, term.level);
      }
    }
    for (let row = firstRow(open); row >= 0; row = firstRow(open)) {
      const term = this.product(row, open, off, this.by[y]);
      if (term === null || !this.spend(1)) return false;
      this.useTerm(term);
      join.terms.push(term);
      open = without(open, term.level);
    }
    this.dropCovered(join, on);
    return true;
  }

  /** A prime product around a row: of a few orders of dropping literals the one that covers most of what is open. */
  private product(row: number, open: Table, off: Table, by: number): Term | null {
    const { task } = this;
    const { inverterTicks } = task.rules;
    const plain: { input: number; leg: number; viaFirst: boolean }[] = [];
    for (let i = 0; i < task.rowBits; i++) {
      let best: { input: number; leg: number; viaFirst: boolean } | null = null;
      task.wires.forEach((wire, s) => {
        if (!this.chosen[s] || wire.input !== i) return;
        const level = hasRow(wire.table, row);
        if (wire.tick + (level ? 2 : 1) * inverterTicks > by) return;
        if (best === null || (best.viaFirst && !level))
          best = { input: i, leg: FIRST_INPUT + s, viaFirst: level };
      });
      if (best !== null) plain.push(best);
    }
    const given = plain.reduce((fixed, { input }) => fixed | (1 << input), 0);
    if (meetsCube(off, { row, fixed: given })) return null;
    const costly = plain.filter((literal) => literal.viaFirst);
    const cheap = plain.filter((literal) => !literal.viaFirst);
    const orders = [
      [...costly, ...cheap],
      [...costly].reverse().concat([...cheap].reverse()),
      [...cheap, ...costly],
    ];
    let bestLegs: typeof plain | null = null;
    let bestGain = -1;
    for (const order of orders) {
      let fixed = given;
      const kept: typeof plain = [];
      for (const literal of order) {
        // Without the literal the cube has the rows on its other side as well.
        const bit = 1 << literal.input;
        const beyond = { row: row ^ bit, fixed };
        this.words.take(wordsOfCube(off, beyond));
        if (this.words.spent) return null;
        if (meetsCube(off, beyond)) kept.push(literal);
        else fixed ^= bit;
      }
      const gain =
        countInCube(open, { row, fixed }) / (1 + kept.filter((literal) => literal.viaFirst).length);
      if (gain > bestGain) {
        bestGain = gain;
        bestLegs = kept;
      }
    }
    if (bestLegs === null) return null;
    const wires = bestLegs.filter((literal) => !literal.viaFirst).map((literal) => literal.leg);
    const firsts = bestLegs.filter((literal) => literal.viaFirst).map((literal) => this.first([literal.leg]));
    return this.term(wires, firsts);
  }

  private first(legs: readonly number[]): First {
    const sorted = [...legs].sort((a, b) => a - b);
    const key = sorted.join(' ');
    let found = this.firsts.get(key);
    if (found === undefined) {
      const joined = constantTable(this.task.rowBits, 0);
      let tick = 0;
      for (const leg of sorted) {
        orInto(joined, this.task.wires[leg - FIRST_INPUT].table);
        tick = Math.max(tick, this.task.wires[leg - FIRST_INPUT].tick);
      }
      this.spend(sorted.length);
      const level = not(joined, this.task.rowBits);
      found = { key, legs: sorted, level, tick: tick + this.task.rules.inverterTicks, used: 0 };
      this.firsts.set(key, found);
    }
    return found;
  }

  private term(wires: readonly number[], firsts: readonly First[]): Term {
    const sorted = [...wires].sort((a, b) => a - b);
    const key = `${sorted.join(' ')} | ${firsts
      .map((first) => first.key)
      .sort()
      .join(' , ')}`;
    let found = this.terms.get(key);
    if (found === undefined) {
      const joined = constantTable(this.task.rowBits, 0);
      for (const leg of sorted) orInto(joined, this.task.wires[leg - FIRST_INPUT].table);
      for (const first of firsts) orInto(joined, first.level);
      this.spend(sorted.length + firsts.length);
      found = { key, wires: sorted, firsts, level: not(joined, this.task.rowBits), used: 0 };
      this.terms.set(key, found);
    }
    return found;
  }

  private termTick(term: Term): number {
    let tick = 0;
    for (const leg of term.wires) tick = Math.max(tick, this.task.wires[leg - FIRST_INPUT].tick);
    for (const first of term.firsts) tick = Math.max(tick, first.tick);
    return tick + this.task.rules.inverterTicks;
  }

  private useTerm(term: Term): void {
    if (term.used++ === 0) for (const first of term.firsts) first.used++;
  }

  private dropTerm(term: Term): void {
    if (--term.used > 0) return;
    this.terms.delete(term.key);
    for (const first of term.firsts) if (--first.used === 0) this.firsts.delete(first.key);
  }

  /** Inverters in use: what everything here tries to lower. */
  private cost(): number {
    let cost = 0;
    this.words.take(this.terms.size + this.firsts.size);
    for (const term of this.terms.values()) if (term.used > 0) cost++;
    for (const first of this.firsts.values())
      if (first.used > 0 && !this.terms.has(`${first.key} | `)) cost++;
    return cost;
  }

  private dropCovered(join: { wires: number[]; terms: Term[] }, on: Table): void {
    const order = [...join.terms].sort((a, b) => b.firsts.length - a.firsts.length);
    for (const term of order) {
      this.spend(join.terms.length);
      if (!this.isCoveredWithout(join, term, on)) continue;
      join.terms.splice(join.terms.indexOf(term), 1);
      this.dropTerm(term);
    }
  }

  /** Do the others cover what a term covers of `on`? Most terms are needed, and one word shows it. */
  private isCoveredWithout(join: { wires: number[]; terms: Term[] }, term: Term, on: Table): boolean {
    const { wires } = this.task;
    for (let w = 0; w < on.length; w++) {
      let open = on[w] & term.level[w];
      for (const leg of join.wires) if (leg !== ONE) open &= ~wires[leg - FIRST_INPUT].table[w];
      for (let n = 0; n < join.terms.length && open !== 0; n++) {
        if (join.terms[n] !== term) open &= ~join.terms[n].level[w];
      }
      if (open !== 0) return false;
    }
    return true;
  }

  private coveredBy(join: { wires: number[]; terms: Term[] }, keep: (term: Term) => boolean): Table {
    const covered = constantTable(this.task.rowBits, 0);
    for (const leg of join.wires) if (leg !== ONE) orInto(covered, this.task.wires[leg - FIRST_INPUT].table);
    for (const term of join.terms) if (keep(term)) orInto(covered, term.level);
    this.spend(join.terms.length);
    return covered;
  }

  /** Merges pairs of terms, and re-covers single ones, while that saves inverters. Returns whether anything changed. */
  private mergeAll(): boolean {
    let changed = false;
    for (let y = 0; y < this.joins.length; y++) {
      const join = this.joins[y];
      if (join.wires.includes(ONE)) continue;
      if (join.terms.length > 1 && this.replace(y, [...join.terms])) changed = true;
      for (let i = 0; i < join.terms.length; i++) {
        if (this.replace(y, [join.terms[i]])) changed = true;
        for (let j = i + 1; j < join.terms.length; j++) {
          if (this.words.spent) return changed;
          if (this.replace(y, [join.terms[i], join.terms[j]])) {
            changed = true;
            j = i;
          }
        }
      }
    }
    return changed;
  }

  /** Puts one term in place of some terms of an output if that costs less. */
  private replace(y: number, old: readonly Term[]): boolean {
    const join = this.joins[y];
    const on = requiredOn(this.task, y, this.low[y]);
    const off = requiredOff(this.task, y, this.low[y]);
    const required = without(
      on,
      this.coveredBy(join, (term) => !old.includes(term)),
    );
    const before = this.cost();
    const at = join.terms.indexOf(old[0]);
    for (const term of old) {
      join.terms.splice(join.terms.indexOf(term), 1);
      this.dropTerm(term);
    }
    if (isEmpty(required)) return true;
    const cover = this.coverOff(required, off, this.by[y]);
    if (cover !== null) {
      const term = this.term(cover.wires, cover.firsts);
      for (const first of cover.firsts) this.firsts.set(first.key, first);
      this.useTerm(term);
      if (this.cost() < before) {
        join.terms.splice(at, 0, term);
        return true;
      }
      this.dropTerm(term);
    }
    old.forEach((term, n) => {
      this.terms.set(term.key, term);
      for (const first of term.firsts) this.firsts.set(first.key, first);
      this.useTerm(term);
      join.terms.splice(at + n, 0, term);
    });
    return false;
  }

  /** Legs that are 0 on `required` and together 1 on `off`, new first-level inverters as few as the greedy rule finds. */
  private coverOff(required: Table, off: Table, by: number): Cover | null {
    const { task } = this;
    const { inverterTicks } = task.rules;
    const wires: number[] = [];
    const firsts: First[] = [];
    let open = off;
    task.wires.forEach((wire, s) => {
      if (!this.chosen[s] || wire.tick + inverterTicks > by || intersects(wire.table, required)) return;
      if (!intersects(wire.table, open)) return;
      wires.push(FIRST_INPUT + s);
      open = without(open, wire.table);
    });
    for (const first of this.firsts.values()) {
      if (first.used === 0 || first.tick + inverterTicks > by || intersects(first.level, required)) continue;
      if (!intersects(first.level, open)) continue;
      firsts.push(first);
      open = without(open, first.level);
    }
    for (let row = firstRow(open); row >= 0; row = firstRow(open)) {
      const first = this.widestFirst(row, required, by - inverterTicks);
      if (first === null || !this.spend(2)) return null;
      firsts.push(first);
      open = without(open, first.level);
    }
    return this.irredundant(wires, firsts, off);
  }

  /** NOR(S) that is 1 at `row`, 0 on `required`, with no wire in S that can go. */
  private widestFirst(row: number, required: Table, by: number): First | null {
    const { task } = this;
    const candidates: number[] = [];
    task.wires.forEach((wire, s) => {
      if (this.chosen[s] && wire.tick + task.rules.inverterTicks <= by && !hasRow(wire.table, row))
        candidates.push(s);
    });
    // Take wires that meet most of what is required first, then drop what is not needed.
    const taken: number[] = [];
    let open = required;
    while (!isEmpty(open)) {
      let best = -1;
      let bestGain = 0;
      for (const s of candidates) {
        const gain = countRows(and(task.wires[s].table, open));
        if (gain > bestGain) {
          bestGain = gain;
          best = s;
        }
      }
      if (best < 0 || !this.spend(2 * candidates.length)) return null;
      taken.push(best);
      open = without(open, task.wires[best].table);
    }
    for (let n = 0; n < taken.length; ) {
      const rest = constantTable(task.rowBits, 0);
      taken.forEach((s, other) => {
        if (other !== n) orInto(rest, task.wires[s].table);
      });
      if (isInside(required, rest)) taken.splice(n, 1);
      else n++;
    }
    return taken.length === 0 ? null : this.first(taken.map((s) => FIRST_INPUT + s));
  }

  /** Drops legs that the others make unnecessary, first-level inverters that nobody else uses first. */
  private irredundant(wires: readonly number[], firsts: readonly First[], off: Table): Cover {
    const legs: (number | First)[] = [
      ...firsts.filter((first) => first.used === 0),
      ...firsts.filter((first) => first.used > 0),
      ...wires,
    ];
    const level = (leg: number | First): Table =>
      typeof leg === 'number' ? this.task.wires[leg - FIRST_INPUT].table : leg.level;
    for (let n = 0; n < legs.length; ) {
      const uncovered = new Uint32Array(off);
      legs.forEach((leg, other) => {
        if (other !== n) withoutInto(uncovered, level(leg));
      });
      this.spend(legs.length);
      if (isEmpty(uncovered)) legs.splice(n, 1);
      else n++;
    }
    const joined = constantTable(this.task.rowBits, 0);
    for (const leg of legs) orInto(joined, level(leg));
    return {
      wires: legs.filter((leg) => typeof leg === 'number'),
      firsts: legs.filter((leg) => typeof leg !== 'number'),
      level: not(joined, this.task.rowBits),
    };
  }

  private assemble(): Draft {
    const inverters: number[][] = [];
    const base = FIRST_INPUT + this.task.wires.length;
    const wireOf = new Map<First | Term, number>();
    for (const first of this.firsts.values()) {
      if (first.used === 0) continue;
      wireOf.set(first, base + inverters.length);
      inverters.push([...first.legs]);
    }
    for (const term of this.terms.values()) {
      if (term.used === 0) continue;
      wireOf.set(term, base + inverters.length);
      inverters.push([...term.wires, ...term.firsts.map((first) => wireOf.get(first) as number)]);
    }
    return {
      chosen: this.chosen,
      low: this.low,
      inverters,
      outputs: this.joins.map(({ wires, terms }) => {
        const legs = [...wires, ...terms.map((term) => wireOf.get(term) as number)];
        return legs.length === 0 ? [ZERO] : legs;
      }),
    };
  }
}
