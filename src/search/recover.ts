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
import { countBits, countRows, nthRow, type Table } from '../truth/table.ts';
import type { Random } from './random.ts';
import type { Workbench } from './workbench.ts';

/** An inverter slot `i >= 0`, or output `y` as `-1 - y`. */
export type User = number;

export class Recovery {
  private readonly bench: Workbench;
  private readonly random: Random;
  readonly forbidden: Uint32Array;
  readonly needed: Uint32Array;
  private readonly open: Table;
  private readonly closed: Uint32Array;
  /** Words that have open rows; the first `openCount` of them count. */
  private readonly openWords: Int32Array;
  private openCount = 0;
  private barred = new Uint8Array(0);
  private limit = 0;
  /** Wires to choose from; the first `count` of them count. */
  private order = new Int32Array(64);
  private count = 0;

  constructor(bench: Workbench, random: Random) {
    this.bench = bench;
    this.random = random;
    this.forbidden = new Uint32Array(bench.words);
    this.needed = new Uint32Array(bench.words);
    this.open = new Uint32Array(bench.words);
    this.closed = new Uint32Array(bench.words);
    this.openWords = new Int32Array(bench.words);
  }

  /** Works out the freedom of a user; the next calls are about it, until the bench changes. */
  aim(user: User): void {
    const { bench, forbidden, needed } = this;
    const { joinTicks } = bench.task.rules;
    const wires = bench.first + bench.legs.length;
    if (this.barred.length < wires) {
      this.barred = new Uint8Array(2 * wires);
      this.order = new Int32Array(2 * wires);
    }
    this.barred.fill(0, 0, wires);
    if (user >= 0) {
      const observed = bench.observe(user);
      const at = (bench.first + user) * bench.words;
      for (let k = 0; k < bench.words; k++) {
        forbidden[k] = observed[k] & bench.levels[at + k];
        needed[k] = observed[k] & ~bench.levels[at + k];
      }
      bench.cone(user, this.barred);
      this.limit = bench.latest[user] - bench.task.rules.inverterTicks - joinTicks;
    } else {
      forbidden.set(bench.off[-1 - user]);
      needed.set(bench.on[-1 - user]);
      this.limit = bench.bounds[-1 - user] - joinTicks;
    }
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
    const { bench, open, order } = this;
    if (!this.setOpen(legs)) return true;
    // Most questions have no answer; a row that no wire can cover shows it without looking at the rest.
    if (!partly && !this.coverable(without)) return false;
    this.count = 0;
    for (let w = FIRST_INPUT; w < bench.first + bench.legs.length; w++) {
      if (w !== without && this.admissible(w) && !legs.includes(w)) order[this.count++] = w;
    }
    for (;;) {
      bench.work += 8 * this.count;
      let best = -1;
      let bestGain = 0;
      let ties = 0;
      for (let n = 0; n < this.count; n++) {
        const gain = this.gain(order[n]);
        if (gain === 0 || gain < bestGain) continue;
        ties = gain > bestGain ? 1 : ties + 1;
        if (ties === 1 || this.random.oneIn(ties)) best = order[n];
        bestGain = gain;
      }
      if (best < 0) return false;
      legs.push(best);
      const at = best * bench.words;
      for (let k = 0; k < bench.words; k++) open[k] &= ~bench.levels[at + k];
      if (!this.listOpen()) return true;
    }
  }

  /** Is there an admissible wire for the first and for the last open row? */
  private coverable(without: number): boolean {
    const { bench, open } = this;
    const { words, levels } = bench;
    let low = 0;
    while (open[low] === 0) low++;
    let high = words - 1;
    while (open[high] === 0) high--;
    const lowest = open[low] & -open[low];
    const highest = 1 << (31 - Math.clz32(open[high]));
    let covered = 0;
    const wires = bench.first + bench.legs.length;
    bench.work += 2 * wires;
    for (let w = FIRST_INPUT; w < wires && covered !== 3; w++) {
      const at = w * words;
      let mine = 0;
      if ((levels[at + low] & lowest) !== 0) mine |= 1;
      if ((levels[at + high] & highest) !== 0) mine |= 2;
      if ((mine & ~covered) !== 0 && w !== without && this.admissible(w)) covered |= mine;
    }
    return covered === 3;
  }

  /**
   * A wire that the inverter aimed at may take beside its legs and that changes its level somewhere, chosen at random;
   * -1 when there is none.
   */
  connectable(slot: number): number {
    const { bench, order } = this;
    const { words, levels } = bench;
    const legs = this.legsOf(slot);
    const own = (bench.first + slot) * words;
    this.count = 0;
    if (legs.length >= bench.task.rules.inverterLegs) return -1;
    for (let w = FIRST_INPUT; w < bench.first + bench.legs.length; w++) {
      if (legs.includes(w) || !this.admissible(w)) continue;
      let changes = 0;
      for (let k = 0; k < words && changes === 0; k++) changes = levels[own + k] & levels[w * words + k];
      if (changes !== 0) order[this.count++] = w;
    }
    bench.work += 2 * words * bench.legs.length;
    return this.count === 0 ? -1 : order[this.random.below(this.count)];
  }

  /** The legs of the user aimed at with a wire more that it may take, chosen at random, and without those it replaces. */
  exchange(user: User): number[] | null {
    const { bench, order, needed } = this;
    const legs = this.legsOf(user);
    this.count = 0;
    for (let w = FIRST_INPUT; w < bench.first + bench.legs.length; w++) {
      if (legs.includes(w) || !this.admissible(w)) continue;
      let helps = 0;
      for (let k = 0; k < bench.words && helps === 0; k++)
        helps = needed[k] & bench.levels[w * bench.words + k];
      if (helps !== 0) order[this.count++] = w;
    }
    if (this.count === 0) return null;
    const wire = order[this.random.below(this.count)];
    return this.thin([...this.random.shuffle([...legs]), wire], user, true);
  }

  /** Drops legs that the others make needless, in random order; null when more remain than the target allows. */
  thin(legs: number[], user: User, ordered = false): number[] | null {
    const { bench, needed, random } = this;
    const { rules } = bench.task;
    const { words, levels } = bench;
    if (!ordered) random.shuffle(legs);
    for (let n = 0; n < legs.length; ) {
      let left = 0;
      for (let k = 0; k < words && left === 0; k++) {
        left = needed[k];
        for (let m = 0; m < legs.length && left !== 0; m++) if (m !== n) left &= ~levels[legs[m] * words + k];
      }
      bench.work += words * legs.length;
      if (left === 0 && legs.length > 1) legs.splice(n, 1);
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
    const { bench, open, closed, order, random } = this;
    const { words, levels } = bench;
    if (!this.setOpen(this.legsOf(user).filter((leg) => !without.includes(leg)))) return null;
    const limit = this.limit - bench.task.rules.inverterTicks - bench.task.rules.joinTicks;
    this.count = 0;
    for (let w = FIRST_INPUT; w < bench.first + bench.legs.length; w++) {
      if (without.includes(w) || !this.isEarly(w, limit)) continue;
      let meets = 0;
      for (let k = 0; k < bench.words && meets === 0; k++)
        meets = open[k] & bench.levels[w * bench.words + k];
      if (meets === 0) order[this.count++] = w;
    }
    closed.set(this.forbidden);
    const legs: number[] = [];
    let left = 1;
    while (left !== 0) {
      let best = -1;
      let bestGain = 0;
      let ties = 0;
      for (let n = 0; n < this.count; n++) {
        let gain = 0;
        const at = order[n] * words;
        for (let k = 0; k < words; k++) gain += countBits(closed[k] & levels[at + k]);
        if (gain === 0 || gain < bestGain) continue;
        ties = gain > bestGain ? 1 : ties + 1;
        if (ties === 1 || random.oneIn(ties)) best = order[n];
        bestGain = gain;
      }
      bench.work += (8 + 2 * bench.words) * this.count;
      if (best < 0) return null;
      legs.push(best);
      left = 0;
      const at = best * bench.words;
      for (let k = 0; k < bench.words; k++) {
        closed[k] &= ~bench.levels[at + k];
        left |= closed[k];
      }
    }
    return legs.length <= bench.task.rules.inverterLegs ? legs : null;
  }

  /**
   * Legs S of a new inverter that the user aimed at may take and that is 1 on some row that `legs` leave open: any
   * such inverter, not one that covers them all. Null when there is none.
   */
  partLeg(legs: readonly number[], without: number): number[] | null {
    const { bench, open, closed, order, random } = this;
    const { words, levels } = bench;
    if (!this.setOpen(legs)) return null;
    const limit = this.limit - bench.task.rules.inverterTicks - bench.task.rules.joinTicks;
    const row = nthRow(open, this.random.below(countRows(open)));
    const word = row >> 5;
    const bit = 1 << (row & 31);
    this.count = 0;
    for (let w = FIRST_INPUT; w < bench.first + bench.legs.length; w++) {
      if (w === without || !this.isEarly(w, limit)) continue;
      if ((bench.levels[w * bench.words + word] & bit) === 0) order[this.count++] = w;
    }
    closed.set(this.forbidden);
    const chosen: number[] = [];
    for (let left = 1; left !== 0; ) {
      let best = -1;
      let bestGain = 0;
      for (let n = 0; n < this.count; n++) {
        let gain = 0;
        const at = order[n] * words;
        for (let k = 0; k < words; k++) gain += countBits(closed[k] & levels[at + k]);
        if (gain === 0) continue;
        let loss = 0;
        for (let k = 0; k < words; k++) loss += countBits(open[k] & levels[at + k]);
        const score = (gain / (1 + loss)) * (1 + random.below(64) / 64);
        if (score <= bestGain) continue;
        best = order[n];
        bestGain = score;
      }
      bench.work += (8 + 4 * bench.words) * this.count;
      if (best < 0) return null;
      chosen.push(best);
      left = 0;
      const at = best * bench.words;
      for (let k = 0; k < bench.words; k++) {
        closed[k] &= ~bench.levels[at + k];
        open[k] &= ~bench.levels[at + k];
        left |= closed[k];
      }
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

  private setOpen(legs: readonly number[]): boolean {
    const { bench, open, needed } = this;
    const { words, levels } = bench;
    open.set(needed);
    for (let n = 0; n < legs.length; n++) {
      const at = legs[n] * words;
      for (let k = 0; k < words; k++) open[k] &= ~levels[at + k];
    }
    bench.work += words * (legs.length + 1);
    return this.listOpen();
  }

  /** Lists the words that have open rows; false when there are none. */
  private listOpen(): boolean {
    const { bench, open, openWords } = this;
    let count = 0;
    for (let k = 0; k < bench.words; k++) if (open[k] !== 0) openWords[count++] = k;
    this.openCount = count;
    return count > 0;
  }

  private gain(wire: number): number {
    const { bench, open, openWords, openCount } = this;
    const { levels, words } = bench;
    const at = wire * words;
    let gain = 0;
    for (let n = 0; n < openCount; n++) {
      const k = openWords[n];
      gain += countBits(open[k] & levels[at + k]);
    }
    bench.work += 2 * words;
    return gain;
  }

  /** Is the wire there, by this tick, and not behind the user aimed at? */
  private isEarly(wire: number, limit: number): boolean {
    const { bench } = this;
    const isThere =
      wire < bench.first
        ? wire >= FIRST_INPUT && bench.chosen[wire - FIRST_INPUT]
        : bench.legs[wire - bench.first].length > 0;
    return isThere && this.barred[wire] !== 1 && bench.tick[wire] <= limit;
  }

  private admissible(wire: number): boolean {
    const { bench, forbidden } = this;
    if (!this.isEarly(wire, this.limit)) return false;
    const at = wire * bench.words;
    for (let k = 0; k < bench.words; k++) if ((forbidden[k] & bench.levels[at + k]) !== 0) return false;
    return true;
  }
}
