// Re-covering: other legs for one inverter or one output, under exactly the freedom that it has.
//
// Idea. An inverter that must be 1 on some rows (`forbidden` to its legs) and 0 on others (`needed` from its legs) may
// take any legs that are 0 on all forbidden rows and together 1 on all needed ones. Likewise an output: its legs must
// be 0 where it must be 0, and together 1 where it must be 1. A cover is found greedily in a random order and then
// thinned, so that calling again gives other covers: that is what lets the search drift between networks of one size.
//
// Where no wire serves, a new inverter NOR(S) does if every wire of S is 0 on the rows that are left and S is together 1
// on all forbidden rows: the same question one level down with the roles exchanged.

import { FIRST_INPUT, ZERO } from '../network/network.ts';
import { countRows, nthRow } from '../truth/table.ts';
import type { WordLoops } from '../truth/word-loops.ts';
import type { Random } from './random.ts';
import type { Workbench } from './workbench.ts';

/** An inverter slot `i >= 0`, or output `y` as `-1 - y`. */
export type User = number;

/** Inverters that may be new since a user was aimed at. */
const SPARE = 64;

export class Recovery {
  private readonly bench: Workbench;
  private readonly random: Random;
  private readonly loops: WordLoops;
  /** Where the rows stand on which the legs of the user must be 0, and those on which one must be 1. */
  private forbidden = 0;
  private needed = 0;
  /** Where those stand for an inverter; for an output they stand with it. */
  private readonly own: number;
  /** Needed rows that no leg covers yet, and forbidden ones that no leg of a new inverter covers yet. */
  private readonly open: number;
  private readonly closed: number;
  private barred = new Uint8Array(0);
  private limit = 0;
  /** Where the addresses of wires to choose from stand; the first `count` of them count. */
  private order = 0;
  private count = 0;
  /** Where rows that they gain, and lose, are counted. */
  private gains = 0;
  private losses = 0;

  constructor(bench: Workbench, random: Random) {
    this.bench = bench;
    this.random = random;
    this.loops = bench.loops;
    const { bytes } = bench;
    this.own = this.loops.take(4 * bytes);
    this.open = this.own + 2 * bytes;
    this.closed = this.own + 3 * bytes;
  }

  /** Works out the freedom of a user; the next calls are about it, until the bench changes. */
  aim(user: User): void {
    const { bench, loops, own } = this;
    const { bytes } = bench;
    const { joinTicks } = bench.task.rules;
    const wires = bench.first + bench.legs.length;
    if (this.barred.length < wires) this.makeRoom(2 * wires);
    this.barred.fill(0, 0, wires);
    if (user >= 0) {
      this.forbidden = own;
      this.needed = own + bytes;
      loops.run.split(bench.observe(user), bench.addressOf(bench.first + user), own, own + bytes, bytes);
      bench.cone(user, this.barred);
      this.limit = bench.latestOf(user) - bench.task.rules.inverterTicks - joinTicks;
    } else {
      this.forbidden = bench.offOf(-1 - user);
      this.needed = bench.onOf(-1 - user);
      this.limit = bench.bounds[-1 - user] - joinTicks;
    }
  }

  private makeRoom(wires: number): void {
    // New inverters may be chosen from as well.
    this.barred = new Uint8Array(wires + SPARE);
    const bytes = 4 * (wires + SPARE);
    this.order = this.loops.take(3 * bytes);
    this.gains = this.order + bytes;
    this.losses = this.gains + bytes;
  }

  legsOf(user: User): readonly number[] {
    return user >= 0 ? this.bench.legs[user] : this.bench.outputs[-1 - user];
  }

  /**
   * Legs for the user aimed at, without the wire `without` (-1 for none): its other legs stay unless they become
   * needless, and wires from all over the bench fill what is missing. Null when that is impossible.
   */
  cover(user: User, without: number): number[] | null {
    const { bench } = this;
    const legs = this.legsOf(user).filter((leg) => leg !== without);
    bench.work += 8 * bench.legs.length;
    if (!this.fill(legs, without)) return null;
    // Nothing is needed: the constant 0 serves, as a leg of an inverter that is always 1 or as an output.
    return legs.length === 0 ? [ZERO] : this.thin(legs, user);
  }

  /** Adds wires until all needed rows are covered; false when some cannot be. */
  private fill(legs: number[], without: number, partly = false): boolean {
    const { bench, loops, open } = this;
    const { bytes } = bench;
    if (!this.setOpen(legs)) return true;
    // Most questions have no answer; a row that no wire can cover shows it without looking at the rest.
    if (!partly && !this.coverable(without)) return false;
    this.listEarly(this.limit, legs, without);
    this.keep(this.forbidden, 0);
    for (;;) {
      const best = this.mostGaining(open);
      if (best < 0) return false;
      legs.push(this.chosen(best));
      if (loops.run.leave(this.order + 4 * best, 1, open, open, bytes) === 0) return true;
    }
  }

  /** Which of those to choose from has most rows in common with a table, ties at random? -1 when none has any. */
  private mostGaining(table: number): number {
    const { bench, loops, random } = this;
    bench.work += (8 + 2 * bench.words) * this.count;
    loops.run.countCommon(this.order, this.count, table, this.gains, bench.bytes);
    const { words } = loops;
    const gains = this.gains >> 2;
    let best = -1;
    let bestGain = 1;
    let ties = 0;
    for (let n = 0; n < this.count; n++) {
      const gain = words[gains + n];
      if (gain < bestGain) continue;
      ties = gain > bestGain ? 1 : ties + 1;
      if (ties === 1 || random.oneIn(ties)) best = n;
      bestGain = gain;
    }
    return best;
  }

  /** Is there an admissible wire for the first and for the last open row? */
  private coverable(without: number): boolean {
    const { bench, loops } = this;
    const { bytes } = bench;
    const { words } = loops;
    const open = this.open >> 2;
    let low = 0;
    while (words[open + low] === 0) low++;
    let high = bench.words - 1;
    while (words[open + high] === 0) high--;
    const lowest = words[open + low] & -words[open + low];
    const highest = 1 << (31 - Math.clz32(words[open + high]));
    let covered = 0;
    const wires = bench.first + bench.legs.length;
    bench.work += 2 * wires;
    const stride = bytes >> 2;
    let at = bench.addressOf(FIRST_INPUT) >> 2;
    for (let w = FIRST_INPUT; w < wires && covered !== 3; w++, at += stride) {
      let mine = 0;
      if ((words[at + low] & lowest) !== 0) mine |= 1;
      if ((words[at + high] & highest) !== 0) mine |= 2;
      if ((mine & ~covered) !== 0 && w !== without && this.admissible(w)) covered |= mine;
    }
    return covered === 3;
  }

  /**
   * A wire that the inverter aimed at may take beside its legs and that changes its level somewhere, chosen at random;
   * -1 when there is none.
   */
  connectable(slot: number): number {
    const { bench } = this;
    const legs = this.legsOf(slot);
    if (legs.length >= bench.task.rules.inverterLegs) return -1;
    this.listAdmissible(legs);
    this.keep(bench.addressOf(bench.first + slot), 1);
    bench.work += 2 * bench.words * bench.legs.length;
    return this.count === 0 ? -1 : this.chosen(this.random.below(this.count));
  }

  /** The legs of the user aimed at with a wire more that it may take, chosen at random, and without those it replaces. */
  exchange(user: User): number[] | null {
    const legs = this.legsOf(user);
    this.listAdmissible(legs);
    this.keep(this.needed, 1);
    if (this.count === 0) return null;
    const wire = this.chosen(this.random.below(this.count));
    return this.thin([...this.random.shuffle([...legs]), wire], user, true);
  }

  /** Drops legs that the others make needless, in random order; null when more remain than the target allows. */
  thin(legs: number[], user: User, ordered = false): number[] | null {
    const { bench, loops, random } = this;
    const { rules } = bench.task;
    if (!ordered) random.shuffle(legs);
    for (let n = 0; n < legs.length; ) {
      bench.work += bench.words * legs.length;
      const isNeedless =
        legs.length > 1 &&
        loops.run.isCovered(bench.list, this.list(legs, n), this.needed, bench.bytes) !== 0;
      if (isNeedless) legs.splice(n, 1);
      else n++;
    }
    // Who has more legs than he may keeps them until he can do with fewer.
    const most = user >= 0 ? rules.inverterLegs : rules.outputLegs;
    return legs.length <= most || legs.length <= this.legsOf(user).length ? legs : null;
  }

  /**
   * Legs S of a new inverter that the user aimed at may take in place of the legs `without`: it covers all needed rows
   * that the others leave open. Null when there is no such inverter, or nothing is open.
   */
  newLeg(user: User, without: readonly number[]): number[] | null {
    const { bench, loops, open, closed } = this;
    const { bytes } = bench;
    if (!this.setOpen(this.legsOf(user).filter((leg) => !without.includes(leg)))) return null;
    const limit = this.limit - bench.task.rules.inverterTicks - bench.task.rules.joinTicks;
    this.listEarly(limit, without);
    this.keep(open, 0);
    loops.run.leave(0, 0, this.forbidden, closed, bytes);
    const legs: number[] = [];
    for (;;) {
      const best = this.mostGaining(closed);
      if (best < 0) return null;
      legs.push(this.chosen(best));
      if (loops.run.leave(this.order + 4 * best, 1, closed, closed, bytes) === 0) break;
    }
    return legs.length <= bench.task.rules.inverterLegs ? legs : null;
  }

  /**
   * Legs S of a new inverter that the user aimed at may take and that is 1 on some row that `legs` leave open: any
   * such inverter, not one that covers them all. Null when there is none.
   */
  partLeg(legs: readonly number[], without: number): number[] | null {
    const { bench, loops, open, closed, random } = this;
    const { bytes } = bench;
    if (!this.setOpen(legs)) return null;
    const limit = this.limit - bench.task.rules.inverterTicks - bench.task.rules.joinTicks;
    const rows = loops.words.subarray(open >> 2, (open >> 2) + bench.words);
    const row = nthRow(rows, random.below(countRows(rows)));
    const word = row >> 5;
    const bit = 1 << (row & 31);
    this.listEarly(limit, [], without);
    this.keepZero(word, bit);
    loops.run.leave(0, 0, this.forbidden, closed, bytes);
    const gains = this.gains >> 2;
    const losses = this.losses >> 2;
    const chosen: number[] = [];
    for (;;) {
      loops.run.countCommon(this.order, this.count, closed, this.gains, bytes);
      loops.run.countCommon(this.order, this.count, open, this.losses, bytes);
      const { words } = loops;
      let best = -1;
      let bestGain = 0;
      for (let n = 0; n < this.count; n++) {
        const gain = words[gains + n];
        if (gain === 0) continue;
        const score = (gain / (1 + words[losses + n])) * (1 + random.below(64) / 64);
        if (score <= bestGain) continue;
        best = n;
        bestGain = score;
      }
      bench.work += (8 + 4 * bench.words) * this.count;
      if (best < 0) return null;
      chosen.push(this.chosen(best));
      loops.run.leave(this.order + 4 * best, 1, open, open, bytes);
      if (loops.run.leave(this.order + 4 * best, 1, closed, closed, bytes) === 0) break;
    }
    return chosen.length <= bench.task.rules.inverterLegs ? chosen : null;
  }

  /** Adds wires from all over the bench to legs of the user aimed at, greedily, even if rows stay open. */
  coverPartly(legs: number[], without: number): void {
    this.fill(legs, without, true);
  }

  /** The latest tick at which a leg of the user aimed at may settle. */
  get latestLeg(): number {
    return this.limit;
  }

  /** Are all needed rows covered by these legs? */
  isCovered(legs: readonly number[]): boolean {
    return !this.setOpen(legs);
  }

  /** Works out which needed rows the legs leave open; are there any? */
  private setOpen(legs: readonly number[]): boolean {
    const { bench, loops } = this;
    bench.work += bench.words * (legs.length + 1);
    return loops.run.leave(bench.list, this.list(legs, -1), this.needed, this.open, bench.bytes) !== 0;
  }

  /** Lists the addresses of legs, but not of the one numbered `except`; how many? */
  private list(legs: readonly number[], except: number): number {
    const { bench, loops } = this;
    const { words } = loops;
    let to = bench.list >> 2;
    for (let n = 0; n < legs.length; n++) if (n !== except) words[to++] = bench.addressOf(legs[n]);
    return to - (bench.list >> 2);
  }

  /** All wires that are there by `limit` and not behind the user aimed at are to choose from, but none of some. */
  private listEarly(limit: number, but: readonly number[], without = -1): void {
    const { bench, barred } = this;
    const { first, legs, tick, chosen, bytes } = bench;
    const memory = this.loops.words;
    // Those that are left out are barred for as long as this takes.
    const wasBarred = without >= 0 ? barred[without] : 0;
    if (without >= 0) barred[without] = 1;
    for (let n = 0; n < but.length; n++) barred[but[n]] |= 2;
    const list = this.order >> 2;
    let count = 0;
    let at = bench.addressOf(FIRST_INPUT);
    for (let w = FIRST_INPUT; w < first; w++, at += bytes)
      if (chosen[w - FIRST_INPUT] && barred[w] === 0 && tick[w] <= limit) memory[list + count++] = at;
    for (let i = 0; i < legs.length; i++, at += bytes)
      if (legs[i].length > 0 && barred[first + i] === 0 && tick[first + i] <= limit)
        memory[list + count++] = at;
    for (let n = 0; n < but.length; n++) barred[but[n]] &= 1;
    if (without >= 0) barred[without] = wasBarred;
    this.count = count;
  }

  /** Of those to choose from leaves the ones that are 0 where a word has this bit. */
  private keepZero(word: number, bit: number): void {
    const memory = this.loops.words;
    const list = this.order >> 2;
    let count = 0;
    for (let n = 0; n < this.count; n++)
      if ((memory[(memory[list + n] >> 2) + word] & bit) === 0) memory[list + count++] = memory[list + n];
    this.count = count;
  }

  /** Wire number `n` of those to choose from. */
  private chosen(n: number): number {
    const { bench } = this;
    return (this.loops.words[(this.order >> 2) + n] - bench.base) / bench.bytes;
  }

  /** Of those to choose from leaves the ones that meet a table, or that do not. */
  private keep(table: number, meeting: 0 | 1): void {
    this.count = this.loops.run.keep(this.order, this.count, table, meeting, this.bench.bytes);
  }

  /** All wires but legs that the user aimed at may take are to choose from. */
  private listAdmissible(legs: readonly number[]): void {
    this.listEarly(this.limit, legs);
    this.keep(this.forbidden, 0);
  }

  /** May the user aimed at take this wire? */
  private admissible(wire: number): boolean {
    const { bench } = this;
    const isThere =
      wire < bench.first ? bench.chosen[wire - FIRST_INPUT] : bench.legs[wire - bench.first].length > 0;
    if (!isThere || this.barred[wire] === 1 || bench.tick[wire] > this.limit) return false;
    return this.loops.run.meets(this.forbidden, bench.addressOf(wire), bench.bytes) === 0;
  }
}
