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
import { constantTable, countRows, isEmpty, nthRow, type Table } from '../truth/table.ts';
import { type WordLoops, wordLoops } from '../truth/word-loops.ts';
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

  /** Writes what of a whole table is looked at; both by where they begin in `memory`. */
  write(memory: Table, whole: number, seen: number): void {
    gather(memory, whole, this.kept, seen);
    this.again(memory, whole, seen);
  }

  /** The same where the kept rows are there already. */
  again(memory: Table, whole: number, seen: number): void {
    gather(memory, whole, this.others, seen + (this.kept.length >> 5));
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
function gather(memory: Table, whole: number, rows: readonly number[], to: number): void {
  for (let n = 0, w = to; n < rows.length; n += 32, w++) {
    let word = 0;
    const end = Math.min(n + 32, rows.length);
    for (let m = n; m < end; m++)
      word |= ((memory[whole + (rows[m] >> 5)] >>> (rows[m] & 31)) & 1) << (m & 31);
    memory[w] = word;
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
  if (anew.task.rules.joinTicks > 0) return null;
  const loops = wordLoops();
  const mark = loops.mark();
  try {
    return new CoverAnew(anew, loops).run();
  } finally {
    loops.release(mark);
  }
}

/** An inverter that is not made yet, and where what is looked at of it stands. */
interface NewLeg {
  readonly legs: readonly number[];
  readonly seen: number;
}

/** Tables are named by their addresses in the memory of the loops, those that are looked at as well. */
class CoverAnew {
  private readonly anew: Anew;
  private readonly loops: WordLoops;
  /** Bytes of a whole table, and of what is looked at. */
  private readonly bytes: number;
  private readonly seenBytes: number;
  private readonly mask: number;
  private readonly inverterTicks: number;
  /** Number of the first inverter. */
  private readonly first: number;
  private readonly inverters: (readonly number[])[] = [];
  /** By wire: its level, and what is looked at of that. */
  private readonly levels: number[] = [];
  private readonly seen: number[] = [];
  private readonly tick: number[] = [];
  /** Rows aimed at so far, and by wire, after how many its level was looked at last. */
  private aims = 0;
  private readonly aimed: number[] = [];
  /** Rows of the output where it must be 1 and 0, and where it must be 1 and is not yet. */
  private readonly on: number;
  private readonly off: number;
  private readonly left: number;
  /** Rows that are still wrong, and room for a level. */
  private readonly open: number;
  private readonly level: number;
  /** What a new leg gains and loses, as far as is looked at, and the same one level down. */
  private readonly gained: number;
  private readonly lost: number;
  private readonly closed: number;
  private readonly kept: number;
  /** What is looked at of new legs; the first so many belong to those of the inverter in hand. */
  private readonly legTables: number[] = [];
  private newLegs = 0;
  /** Room for a list of wires and two counts for each. */
  private lists = 0;
  private room = 0;
  /** By wire: is it out of the question? */
  private readonly barred: boolean[] = [];
  /** By wire: does anything that was made depend on it? */
  private readonly used: boolean[] = [];
  private readonly byLegs = new Map<string, number>();
  /** Inverters in use. */
  private size = 0;

  constructor(anew: Anew, loops: WordLoops) {
    const { task, known, by, keepsLast, view } = anew;
    this.anew = anew;
    this.loops = loops;
    this.bytes = loops.bytesOf(task.care.length);
    this.seenBytes = view === null ? this.bytes : loops.bytesOf(MOST_WORDS);
    this.mask = loops.maskOf(task.rowBits);
    this.inverterTicks = task.rules.inverterTicks;
    this.first = FIRST_INPUT + task.wires.length;
    [this.on, this.off, this.left, this.open, this.level] = this.take(5, this.bytes);
    [this.gained, this.lost, this.closed, this.kept] = this.take(4, this.seenBytes);
    for (const value of [0, 1] as const) this.addWire(this.copy(constantTable(task.rowBits, value)), 0, true);
    task.wires.forEach((wire, s) => {
      this.addWire(this.copy(wire.table), wire.tick, !known.chosen[s]);
    });
    const latest = Math.max(...by) - (keepsLast ? 0 : this.inverterTicks);
    known.inverters.forEach((legs, i) => {
      const wire = this.addInverter(legs, this.copy(anew.levels[this.first + i]));
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
    const { loops, on, off, left, bytes } = this;
    const onRows = requiredOn(task, y, known.low[y]);
    const offRows = requiredOff(task, y, known.low[y]);
    if (isEmpty(onRows)) return [ZERO];
    if (isEmpty(offRows)) return [ONE];
    loops.words.set(onRows, on >> 2);
    loops.words.set(offRows, off >> 2);
    const legs = this.direct(by[y]);
    for (
      let isLeft = loops.run.leave(this.list(this.tables(legs)), legs.length, on, left, bytes);
      isLeft !== 0;
    ) {
      const term = this.term(by[y]);
      if (term === null || words.spent || this.size + legs.length > most) return null;
      legs.push(term);
      isLeft = this.without(left, this.levels[term], bytes);
    }
    this.thin(legs, on);
    for (const leg of legs) this.use(leg);
    return legs;
  }

  /** Wires that are there in time and 0 on all of `off`, as long as they cover more of `on`. */
  private direct(by: number): number[] {
    const { anew, loops, on, off, bytes, gained, seenBytes } = this;
    anew.view?.rest();
    const candidates = this.wiresBy(by).filter(
      (wire) => loops.run.meets(this.levels[wire], off, bytes) === 0,
    );
    anew.words.take(anew.task.care.length * (1 + candidates.length));
    this.look(on, gained);
    const legs: number[] = [];
    for (;;) {
      const best = this.best(candidates, gained, null);
      if (best < 0) return legs;
      legs.push(best);
      this.without(gained, this.seen[best], seenBytes);
    }
  }

  /** An inverter that is 1 on some of what is left and 0 on all of `off`. */
  private term(by: number): number | null {
    const { random, view, words, task } = this.anew;
    const { loops, left, off } = this;
    const open = loops.words.subarray(left >> 2, (left >> 2) + task.care.length);
    const row = nthRow(open, random.below(countRows(open)));
    if (view !== null) {
      view.aim(row);
      this.aims++;
      words.take(4 * this.levels.length * view.otherWords);
    }
    for (;;) {
      const legs = this.termLegs(row, by - this.inverterTicks);
      if (legs === null || words.spent) return null;
      const wrong = this.wrongRows(legs);
      if (wrong.length === 0) {
        const wires = legs.map((leg) => (typeof leg === 'number' ? leg : this.inverter(leg.legs)));
        this.thin(wires, off);
        return this.inverter(wires);
      }
      if (!this.learn(wrong)) return null;
    }
  }

  /** Legs that are 0 at `row` and, as far as is looked at, together 1 on `off` and 0 on much of what is left. */
  private termLegs(row: number, by: number): (number | NewLeg)[] | null {
    const { gained, lost, seenBytes } = this;
    const candidates = this.aim(this.wiresBy(by).filter((wire) => !this.hasRow(this.levels[wire], row)));
    this.newLegs = 0;
    this.look(this.off, gained);
    this.look(this.left, lost);
    const legs: (number | NewLeg)[] = [];
    for (let isLeft = this.hasRows(gained, seenBytes); isLeft; ) {
      const best = this.best(candidates, gained, lost);
      const leg = best < 0 ? this.newLeg(row, by) : best;
      if (leg === null || this.anew.words.spent) return null;
      legs.push(leg);
      const seen = typeof leg === 'number' ? this.seen[leg] : leg.seen;
      isLeft = this.without(gained, seen, seenBytes) !== 0;
      this.without(lost, seen, seenBytes);
    }
    return legs;
  }

  /** An inverter that is 1 on some of what is gained, and 0 at `row` and on as much of what is lost as can be. */
  private newLeg(row: number, by: number): NewLeg | null {
    const { random } = this.anew;
    const { loops, gained, closed, kept, seenBytes } = this;
    const open = loops.words.subarray(gained >> 2, (gained + seenBytes) >> 2);
    const other = nthRow(open, random.below(countRows(open)));
    const candidates = this.aim(this.wiresBy(by - this.inverterTicks)).filter(
      (wire) => !this.hasRow(this.seen[wire], other),
    );
    loops.run.leave(0, 0, this.lost, closed, seenBytes);
    loops.run.leave(0, 0, gained, kept, seenBytes);
    if (this.newLegs === this.legTables.length) this.legTables.push(...this.take(1, seenBytes));
    const seen = this.legTables[this.newLegs++];
    loops.words.fill(0xffffffff, seen >> 2, (seen + seenBytes) >> 2);
    const legs: number[] = [];
    while (legs.length === 0 || this.hasRows(closed, seenBytes)) {
      const may =
        legs.length > 0 ? candidates : candidates.filter((wire) => this.hasRow(this.levels[wire], row));
      const best = this.best(may, closed, kept);
      if (best < 0) break;
      legs.push(best);
      for (const table of [closed, kept, seen]) this.without(table, this.seen[best], seenBytes);
    }
    return legs.length === 0 ? null : { legs, seen };
  }

  /** Some rows of `off`, far from each other, on which none of the legs is 1; none when there are no such rows. */
  private wrongRows(legs: readonly (number | NewLeg)[]): number[] {
    const { loops, open, level, bytes, mask, off } = this;
    const { words, task } = this.anew;
    loops.run.leave(0, 0, off, open, bytes);
    for (const leg of legs) {
      if (typeof leg !== 'number')
        loops.run.norOf(this.list(this.tables(leg.legs)), leg.legs.length, level, level, bytes, mask);
      this.without(open, typeof leg === 'number' ? this.levels[leg] : level, bytes);
    }
    const memory = loops.words;
    const length = task.care.length;
    const rows: number[] = [];
    let n = this.hasRows(open, bytes) ? 0 : length;
    for (; n < length && rows.length < LEARNT; n++) {
      const w = Math.imul(n, APART) & (length - 1);
      const word = memory[(open >> 2) + w];
      if (word !== 0) rows.push(32 * w + 31 - Math.clz32(word));
    }
    words.take(n * legs.length);
    return rows;
  }

  /** Of some wires one that is 1 on much of `gained` and on little of `lost`; -1 when none is 1 on any of `gained`. */
  private best(candidates: readonly number[], gained: number, lost: number | null): number {
    const { random, view, words, task } = this.anew;
    const { loops, seenBytes, seen, used } = this;
    const list = this.list(candidates, seen);
    const gains = list + 4 * this.room;
    const losses = gains + 4 * this.room;
    loops.run.countCommon(list, candidates.length, gained, gains, seenBytes);
    if (lost !== null) loops.run.countCommon(list, candidates.length, lost, losses, seenBytes);
    const memory = loops.words;
    let best = -1;
    let bestScore = 0;
    for (let n = 0; n < candidates.length; n++) {
      const gain = memory[(gains >> 2) + n];
      if (gain === 0) continue;
      const loss = lost === null ? 0 : memory[(losses >> 2) + n];
      const chance = 1 + (CHANCE * random.below(64)) / 64;
      const score = (gain / (1 + loss)) * chance * (used[candidates[n]] ? 1 : FRESH);
      if (score <= bestScore) continue;
      best = candidates[n];
      bestScore = score;
    }
    words.take(2 * candidates.length * (view?.words ?? task.care.length));
    return best;
  }

  /** Drops legs without which `needed`, which they cover, stays covered, first those that nothing uses yet. */
  private thin(legs: number[], needed: number): void {
    const { used, loops, bytes } = this;
    const { words, task } = this.anew;
    const length = task.care.length;
    legs.sort((a, b) => Number(used[a]) - Number(used[b]) || b - a);
    const levels = this.tables(legs);
    for (let n = 0; n < legs.length; ) {
      // Most legs are needed, and few words show it.
      const memory = loops.words;
      let left = 0;
      let seen = 0;
      for (; seen < Math.min(FEW_WORDS, length) && left === 0; seen++) {
        const w = Math.imul(seen, APART) & (length - 1);
        left = memory[(needed >> 2) + w] & memory[(levels[n] >> 2) + w];
        for (let m = 0; m < levels.length && left !== 0; m++)
          if (m !== n) left &= ~memory[(levels[m] >> 2) + w];
      }
      if (left === 0 && seen < length) {
        seen = length;
        const others = levels.filter((_, m) => m !== n);
        left = loops.run.isCovered(this.list(others), others.length, needed, bytes) === 1 ? 0 : 1;
      }
      words.take(seen * legs.length);
      if (left !== 0) n++;
      else {
        legs.splice(n, 1);
        levels.splice(n, 1);
      }
    }
  }

  /** Looks at wires on the rows that are aimed at, where that was not done yet. */
  private aim(wires: number[]): number[] {
    const { view } = this.anew;
    if (view === null) return wires;
    for (const wire of wires) {
      if (this.aimed[wire] === this.aims) continue;
      view.again(this.loops.words, this.levels[wire] >> 2, this.seen[wire] >> 2);
      this.aimed[wire] = this.aims;
    }
    return wires;
  }

  /** Looks at some rows more; false when there is no room. */
  private learn(rows: readonly number[]): boolean {
    const { view } = this.anew;
    const memory = this.loops.words;
    if (view === null) throw new Error('what is wrong was looked at');
    for (const row of rows) {
      const at = view.add(row);
      if (at < 0) return false;
      // Where a table is not looked at, old bits may stand.
      const bit = 1 << (at & 31);
      this.levels.forEach((level, wire) => {
        const word = (this.seen[wire] >> 2) + (at >> 5);
        if (this.hasRow(level, row)) memory[word] |= bit;
        else memory[word] &= ~bit;
      });
    }
    return true;
  }

  /** Writes what is looked at of a whole table. */
  private look(table: number, to: number): void {
    const { loops, seenBytes } = this;
    const { view } = this.anew;
    if (view === null) loops.run.leave(0, 0, table, to, seenBytes);
    else {
      loops.clear(to, seenBytes);
      view.write(loops.words, table >> 2, to >> 2);
    }
  }

  private hasRow(table: number, row: number): boolean {
    return ((this.loops.words[(table >> 2) + (row >> 5)] >>> (row & 31)) & 1) === 1;
  }

  private hasRows(table: number, bytes: number): boolean {
    return this.loops.run.meets(table, table, bytes) === 1;
  }

  /** Takes the rows of a level out of a table; 0 when none are left. */
  private without(table: number, level: number, bytes: number): number {
    return this.loops.run.leave(this.list([level]), 1, table, table, bytes);
  }

  private tables(wires: readonly number[]): number[] {
    return wires.map((wire) => this.levels[wire]);
  }

  /** Room for some tables. */
  private take(count: number, bytes: number): number[] {
    return Array.from({ length: count }, () => this.loops.take(bytes));
  }

  /** Lists addresses, or what `of` has for each, for the loops; where the list stands. */
  private list(items: readonly number[], of: readonly number[] | null = null): number {
    if (items.length > this.room) {
      this.room = 2 * items.length + 64;
      this.lists = this.loops.take(3 * 4 * this.room);
    }
    const memory = this.loops.words;
    const to = this.lists >> 2;
    for (let n = 0; n < items.length; n++) memory[to + n] = of === null ? items[n] : of[items[n]];
    return this.lists;
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
    const { loops, bytes, mask } = this;
    const { task, words } = this.anew;
    words.take(task.care.length * (1 + legs.length));
    const [level] = this.take(1, bytes);
    loops.run.norOf(this.list(this.tables(legs)), legs.length, level, level, bytes, mask);
    return this.addInverter(legs, level);
  }

  private addInverter(legs: readonly number[], level: number): number {
    const wire = this.levels.length;
    this.inverters.push(legs);
    this.byLegs.set([...legs].sort((a, b) => a - b).join(' '), wire);
    const tick = Math.max(0, ...legs.map((leg) => this.tick[leg])) + this.inverterTicks;
    this.addWire(level, tick, false);
    return wire;
  }

  /** A table in the memory of the loops. */
  private copy(table: Table): number {
    const [at] = this.take(1, this.bytes);
    this.loops.words.set(table, at >> 2);
    return at;
  }

  private addWire(level: number, tick: number, isBarred: boolean): void {
    const { view } = this.anew;
    this.levels.push(level);
    if (view === null) this.seen.push(level);
    else {
      const [seen] = this.take(1, this.seenBytes);
      view.write(this.loops.words, level >> 2, seen >> 2);
      this.seen.push(seen);
    }
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
