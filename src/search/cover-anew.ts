// Covering anew: the outputs of a network that is too slow, made once more over what of it is in time.
//
// Idea. A network of seven ticks knows much that one of six can use: all its wires but the last. So take the wires that
// settle a tick before the outputs are due, and both rails of every input, and cover each output by inverters over them.
// An inverter is grown around a row where the output must be 1: of the wires that are 0 there, take the one that is 1
// on most of the rows where the output must be 0 and on fewest of those still to be covered, until the former are used
// up; then drop legs that the others make needless. Where no wire is left, a new inverter serves in place of one: a wire
// that is 0 on what is to be covered, made the same way one level down. Wires that stand already are taken rather than
// new ones. Chance decides between the rest and orders the outputs, so that every call gives another network: a start
// for growing and shrinking, far from where hurrying the slow network ends. A good start is worth more than much work on
// a bad one. In three ticks a 4-bit adder with five low rails came to 43 inverters by hurrying alone, to 39 by two levels
// of primes over the slower networks, and comes to 38 this way; an 8-bit adder with all rails high from 92 to 88.
//
// Long tables. Looking at 4096 words for every leg would take too long, so legs are chosen on some of the rows: some
// that are kept throughout, and those that differ from the row in question in one input or two. The latter say most of
// which legs are needed; with random rows alone it took ten to a hundred times the corrections. Each inverter is then
// held against the whole table, and rows on which it is wrong are looked at in the next try.
//
// Correctness. Every leg of an output is 0 where the output must be 0, and they are taken until none of the rows where
// it must be 1 is left, both on whole tables. Ticks are kept with every wire.
//
// Cost. (terms) x (legs) x (wires in time) x (words looked at), and one pass over whole tables for each inverter.
//
// Lost. Two-level covers by prime products that are merged afterwards: larger, slower, and for short tables only.
// Mending a wrong inverter by more legs instead of choosing all of them again: quicker, but a fifth larger and more. Only
// the rows learnt last, without those around a row: what was forgotten had to be learnt again, without end.

import { FIRST_INPUT, ONE, ZERO } from '../network/network.ts';
import {
  andInto,
  constantTable,
  countBits,
  countRows,
  hasRow,
  intersects,
  isEmpty,
  nor,
  nthRow,
  setRow,
  type Table,
  withoutInto,
} from '../truth/table.ts';
import { type Draft, requiredOff, requiredOn } from './draft.ts';
import type { Allowance } from './limits.ts';
import type { Random } from './random.ts';
import type { Task } from './task.ts';

/** What an inverter that nothing uses yet is worth, beside one that is used. */
const FRESH = 0.5;
/** Scores are made larger by chance, by up to so much. */
const CHANCE = 1;
/** Words of tables for the rows that are always looked at, and for all. */
const KEPT_WORDS = 16;
const MOST_WORDS = 32;
/** Rows that are learnt from an inverter that is wrong; words are gone through in steps of so many, an odd number. */
const LEARNT = 4;
const APART = 1597;
/** So many words are tried before all are. */
const FEW_WORDS = 128;

/** The rows of long tables that are looked at: some that are kept, then others. */
export class View {
  private readonly rowBits: number;
  private readonly kept: readonly number[];
  private others: number[] = [];

  /** `rows` are kept, as many as there is room for. */
  constructor(rows: readonly number[], rowBits: number) {
    this.rowBits = rowBits;
    const kept = [...new Set(rows)].slice(0, 32 * KEPT_WORDS);
    this.kept = kept.slice(0, kept.length - (kept.length % 32));
  }

  /** Looks at the kept rows alone. */
  rest(): void {
    this.others = [];
  }

  /** From now on the others are a row and what differs from it in two inputs at most. */
  aim(row: number): void {
    this.others = [row];
    for (let i = 0; i < this.rowBits; i++) {
      this.others.push(row ^ (1 << i));
      for (let j = 0; j < i; j++) this.others.push(row ^ (1 << i) ^ (1 << j));
    }
  }

  /** Looks at one row more; its number, or -1 when there is no room. */
  add(row: number): number {
    const number = this.kept.length + this.others.length;
    if (number === 32 * MOST_WORDS) return -1;
    this.others.push(row);
    return number;
  }

  /** What of a whole table is looked at. */
  of(whole: Table): Table {
    const seen = new Uint32Array(MOST_WORDS);
    gather(whole, this.kept, seen, 0);
    this.again(whole, seen);
    return seen;
  }

  /** The same where the kept rows are there already. */
  again(whole: Table, seen: Table): void {
    gather(whole, this.others, seen, this.kept.length >> 5);
  }

  /** Words of a table that have rows. */
  get words(): number {
    return (this.kept.length + this.others.length + 31) >> 5;
  }

  /** Words of those that `again` makes. */
  get otherWords(): number {
    return (this.others.length + 31) >> 5;
  }
}

/** Writes rows of a table one behind the other. */
function gather(whole: Table, rows: readonly number[], to: Table, start: number): void {
  for (let n = 0, w = start; n < rows.length; n += 32, w++) {
    let word = 0;
    const end = Math.min(n + 32, rows.length);
    for (let m = n; m < end; m++) word |= ((whole[rows[m] >> 5] >>> (rows[m] & 31)) & 1) << (m & 31);
    to[w] = word;
  }
}

export interface Anew {
  /** With whole tables. */
  readonly task: Task;
  /** What is looked at of its tables; null to look at everything. */
  readonly view: View | null;
  /** A right network, as slow as may be. */
  readonly known: Draft;
  /** Levels of all its wires (`draftTables`): many covers are made over one network. */
  readonly levels: readonly Table[];
  /** Latest tick of each output. */
  readonly by: readonly number[];
  /** Inverters that settle as late as the latest output may serve as well: whole outputs then often stay as they are. */
  readonly keepsLast: boolean;
  /** The most inverters. */
  readonly most: number;
  readonly random: Random;
  readonly words: Allowance;
}

/**
 * A right draft whose outputs settle in time, with what is needed of the known network; it also holds inverters that
 * nothing uses. Null where no way was found, it takes too many inverters, or the words ran out. Limits on legs are not
 * heeded.
 */
export function coverAnew(anew: Anew): Draft | null {
  return anew.task.rules.joinTicks > 0 ? null : new CoverAnew(anew).run();
}

/** An inverter that is not made yet, and what is looked at of it. */
interface NewLeg {
  readonly legs: readonly number[];
  readonly seen: Table;
}

class CoverAnew {
  private readonly anew: Anew;
  private readonly inverterTicks: number;
  /** Number of the first inverter. */
  private readonly first: number;
  private readonly inverters: (readonly number[])[] = [];
  /** By wire: its level, and what is looked at of that. */
  private readonly levels: Table[] = [];
  private readonly seen: Table[] = [];
  private readonly tick: number[] = [];
  /** Rows aimed at so far, and by wire, after how many its level was looked at last. */
  private aims = 0;
  private readonly aimed: number[] = [];
  /** Rows that are still wrong. */
  private readonly open: Table;
  /** By wire: is it out of the question? */
  private readonly barred: boolean[] = [];
  /** By wire: does anything that was made depend on it? */
  private readonly used: boolean[] = [];
  private readonly byLegs = new Map<string, number>();
  /** Inverters in use. */
  private size = 0;

  constructor(anew: Anew) {
    const { task, known, by, keepsLast } = anew;
    this.anew = anew;
    this.inverterTicks = task.rules.inverterTicks;
    this.first = FIRST_INPUT + task.wires.length;
    this.open = constantTable(task.rowBits, 0);
    for (const value of [0, 1] as const) this.addWire(constantTable(task.rowBits, value), 0, true);
    task.wires.forEach((wire, s) => {
      this.addWire(wire.table, wire.tick, !known.chosen[s]);
    });
    const latest = Math.max(...by) - (keepsLast ? 0 : this.inverterTicks);
    known.inverters.forEach((legs, i) => {
      const wire = this.addInverter(legs, anew.levels[this.first + i]);
      this.barred[wire] = this.tick[wire] > latest;
    });
    task.wires.forEach((_, s) => {
      if (known.chosen[s]) this.inverter([FIRST_INPUT + s]);
    });
  }

  run(): Draft | null {
    const { task, known, random, most, words } = this.anew;
    const outputs: (readonly number[])[] = task.outputs.map(() => []);
    for (const y of random.shuffle(task.outputs.map((_, output) => output))) {
      const legs = this.output(y);
      if (legs === null || this.size > most || words.spent) return null;
      outputs[y] = legs;
    }
    return { ...known, inverters: this.inverters, outputs };
  }

  /** Legs of an output: wires that are there, then inverters made for it. */
  private output(y: number): number[] | null {
    const { task, known, by, words, most } = this.anew;
    const on = requiredOn(task, y, known.low[y]);
    const off = requiredOff(task, y, known.low[y]);
    if (isEmpty(on)) return [ZERO];
    if (isEmpty(off)) return [ONE];
    const legs = this.direct(on, off, by[y]);
    const open = new Uint32Array(on);
    for (const leg of legs) withoutInto(open, this.levels[leg]);
    while (!isEmpty(open)) {
      const term = this.term(open, off, by[y]);
      if (term === null || words.spent || this.size + legs.length > most) return null;
      legs.push(term);
      withoutInto(open, this.levels[term]);
    }
    this.thin(legs, on);
    for (const leg of legs) this.use(leg);
    return legs;
  }

  /** Wires that are there in time and 0 on all of `off`, as long as they cover more of `on`. */
  private direct(on: Table, off: Table, by: number): number[] {
    this.anew.view?.rest();
    const candidates = this.wiresBy(by).filter((wire) => !intersects(this.levels[wire], off));
    this.anew.words.take(off.length * (1 + candidates.length));
    const gained = this.look(on);
    const legs: number[] = [];
    for (;;) {
      const best = this.best(candidates, gained, null);
      if (best < 0) return legs;
      legs.push(best);
      withoutInto(gained, this.seen[best]);
    }
  }

  /** An inverter that is 1 on some of `open` and 0 on all of `off`. */
  private term(open: Table, off: Table, by: number): number | null {
    const { random, view, words } = this.anew;
    const row = nthRow(open, random.below(countRows(open)));
    if (view !== null) {
      view.aim(row);
      this.aims++;
      words.take(4 * this.levels.length * view.otherWords);
    }
    for (;;) {
      const legs = this.termLegs(row, open, off, by - this.inverterTicks);
      if (legs === null || words.spent) return null;
      const wrong = this.wrongRows(legs, off);
      if (wrong.length === 0) {
        const wires = legs.map((leg) => (typeof leg === 'number' ? leg : this.inverter(leg.legs)));
        this.thin(wires, off);
        return this.inverter(wires);
      }
      if (!this.learn(wrong)) return null;
    }
  }

  /** Legs that are 0 at `row` and, as far as is looked at, together 1 on `off` and 0 on much of `open`. */
  private termLegs(row: number, open: Table, off: Table, by: number): (number | NewLeg)[] | null {
    const candidates = this.aim(this.wiresBy(by).filter((wire) => !hasRow(this.levels[wire], row)));
    const gained = this.look(off);
    const lost = this.look(open);
    const legs: (number | NewLeg)[] = [];
    while (!isEmpty(gained)) {
      const best = this.best(candidates, gained, lost);
      const leg = best < 0 ? this.newLeg(row, gained, lost, by) : best;
      if (leg === null || this.anew.words.spent) return null;
      legs.push(leg);
      const seen = typeof leg === 'number' ? this.seen[leg] : leg.seen;
      withoutInto(gained, seen);
      withoutInto(lost, seen);
    }
    return legs;
  }

  /** An inverter that is 1 on some of `gained`, and 0 at `row` and on as much of `lost` as can be. */
  private newLeg(row: number, gained: Table, lost: Table, by: number): NewLeg | null {
    const { random } = this.anew;
    const other = nthRow(gained, random.below(countRows(gained)));
    const candidates = this.aim(this.wiresBy(by - this.inverterTicks)).filter(
      (wire) => !hasRow(this.seen[wire], other),
    );
    const closed = new Uint32Array(lost);
    const kept = new Uint32Array(gained);
    const seen = new Uint32Array(gained.length).fill(0xffffffff);
    const legs: number[] = [];
    while (legs.length === 0 || !isEmpty(closed)) {
      const may = legs.length > 0 ? candidates : candidates.filter((wire) => hasRow(this.levels[wire], row));
      const best = this.best(may, closed, kept);
      if (best < 0) break;
      legs.push(best);
      withoutInto(closed, this.seen[best]);
      withoutInto(kept, this.seen[best]);
      withoutInto(seen, this.seen[best]);
    }
    return legs.length === 0 ? null : { legs, seen };
  }

  /** Some rows of `off`, far from each other, on which none of the legs is 1; none when there are no such rows. */
  private wrongRows(legs: readonly (number | NewLeg)[], off: Table): number[] {
    const { task, words } = this.anew;
    const { open } = this;
    open.set(off);
    for (const leg of legs)
      withoutInto(
        open,
        typeof leg === 'number' ? this.levels[leg] : nor(this.tables(leg.legs), task.rowBits),
      );
    const rows: number[] = [];
    let n = isEmpty(open) ? open.length : 0;
    for (; n < open.length && rows.length < LEARNT; n++) {
      const w = Math.imul(n, APART) & (open.length - 1);
      if (open[w] !== 0) rows.push(32 * w + 31 - Math.clz32(open[w]));
    }
    words.take(n * legs.length);
    return rows;
  }

  /** Of some wires one that is 1 on much of `gained` and on little of `lost`; -1 when none is 1 on any of `gained`. */
  private best(candidates: readonly number[], gained: Table, lost: Table | null): number {
    const { random, view, words } = this.anew;
    const count = view?.words ?? gained.length;
    let best = -1;
    let bestScore = 0;
    for (const wire of candidates) {
      const level = this.seen[wire];
      let gain = 0;
      let loss = 0;
      for (let k = 0; k < count; k++) gain += countBits(gained[k] & level[k]);
      if (gain === 0) continue;
      if (lost !== null) for (let k = 0; k < count; k++) loss += countBits(lost[k] & level[k]);
      const chance = 1 + (CHANCE * random.below(64)) / 64;
      const score = (gain / (1 + loss)) * chance * (this.used[wire] ? 1 : FRESH);
      if (score <= bestScore) continue;
      best = wire;
      bestScore = score;
    }
    words.take(2 * candidates.length * count);
    return best;
  }

  /** Drops legs without which `needed` stays covered, first those that nothing uses yet. */
  private thin(legs: number[], needed: Table): void {
    const { used } = this;
    legs.sort((a, b) => Number(used[a]) - Number(used[b]) || b - a);
    const levels = this.tables(legs);
    for (let n = 0; n < legs.length; ) {
      // Most legs are needed, and few words show it.
      let left = 0;
      let seen = 0;
      for (; seen < Math.min(FEW_WORDS, needed.length) && left === 0; seen++) {
        const w = Math.imul(seen, APART) & (needed.length - 1);
        left = needed[w] & levels[n][w];
        for (let m = 0; m < levels.length && left !== 0; m++) if (m !== n) left &= ~levels[m][w];
      }
      if (left === 0 && seen < needed.length) {
        seen = needed.length;
        left = this.isCoveredWithout(levels, n, needed) ? 0 : 1;
      }
      this.anew.words.take(seen * legs.length);
      if (left !== 0) n++;
      else {
        legs.splice(n, 1);
        levels.splice(n, 1);
      }
    }
  }

  /** Do the other tables cover what table `n` covers of `needed`? */
  private isCoveredWithout(tables: readonly Table[], n: number, needed: Table): boolean {
    const { open } = this;
    open.set(needed);
    andInto(open, tables[n]);
    for (let m = 0; m < tables.length; m++) if (m !== n) withoutInto(open, tables[m]);
    return isEmpty(open);
  }

  /** Looks at wires on the rows that are aimed at, where that was not done yet. */
  private aim(wires: number[]): number[] {
    const { view } = this.anew;
    if (view === null) return wires;
    for (const wire of wires) {
      if (this.aimed[wire] === this.aims) continue;
      view.again(this.levels[wire], this.seen[wire]);
      this.aimed[wire] = this.aims;
    }
    return wires;
  }

  /** Looks at some rows more; false when there is no room. */
  private learn(rows: readonly number[]): boolean {
    const { view } = this.anew;
    if (view === null) throw new Error('what is wrong was looked at');
    for (const row of rows) {
      const at = view.add(row);
      if (at < 0) return false;
      // Where a table is not looked at, old bits may stand.
      this.levels.forEach((level, wire) => {
        const seen = this.seen[wire];
        if (hasRow(level, row)) setRow(seen, at);
        else seen[at >> 5] &= ~(1 << (at & 31));
      });
    }
    return true;
  }

  /** What is looked at of a whole table, to be written to. */
  private look(table: Table): Table {
    return this.anew.view?.of(table) ?? new Uint32Array(table);
  }

  private tables(wires: readonly number[]): Table[] {
    return wires.map((wire) => this.levels[wire]);
  }

  private wiresBy(tick: number): number[] {
    const wires: number[] = [];
    for (let wire = FIRST_INPUT; wire < this.levels.length; wire++)
      if (!this.barred[wire] && this.tick[wire] <= tick) wires.push(wire);
    return wires;
  }

  /** The inverter with such legs, a new one if there is none. */
  private inverter(legs: readonly number[]): number {
    const sorted = [...legs].sort((a, b) => a - b);
    const known = this.byLegs.get(sorted.join(' '));
    return known !== undefined && !this.barred[known] ? known : this.newInverter(sorted);
  }

  private newInverter(legs: readonly number[]): number {
    const { task, words } = this.anew;
    words.take(task.care.length * (1 + legs.length));
    return this.addInverter(legs, nor(this.tables(legs), task.rowBits));
  }

  private addInverter(legs: readonly number[], level: Table): number {
    const wire = this.levels.length;
    this.inverters.push(legs);
    this.byLegs.set([...legs].sort((a, b) => a - b).join(' '), wire);
    const tick = Math.max(0, ...legs.map((leg) => this.tick[leg])) + this.inverterTicks;
    this.addWire(level, tick, false);
    return wire;
  }

  private addWire(level: Table, tick: number, isBarred: boolean): void {
    this.levels.push(level);
    this.seen.push(this.anew.view?.of(level) ?? level);
    this.aimed.push(this.aims);
    this.tick.push(tick);
    this.barred.push(isBarred);
    this.used.push(this.levels.length <= this.first);
  }

  private use(wire: number): void {
    if (this.used[wire]) return;
    this.used[wire] = true;
    this.size++;
    for (const leg of this.inverters[wire - this.first]) this.use(leg);
  }
}
