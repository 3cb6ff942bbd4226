// The workbench: a network that is being changed, with everything a move needs kept up to date.
//
// Wires are numbered as in a draft: constants, the candidate wires of the task, then slots for inverters; a slot may be
// empty. For every wire the bench holds its level on all rows of the task (one row of a flat array of words), the tick
// at which it settles, and who takes it as a leg. For every inverter the latest tick at which it may settle follows
// from the bounds of the outputs.
//
// The central question is what a move may do. Changing one inverter on some rows is right exactly when no output goes
// wrong on these rows, and rows are independent; so flipping the inverter on all rows at once and carrying that through
// its cone tells for every row whether the inverter matters there (`observe`). On rows that matter its level must stay,
// on the others it is free. That is the exact set of permissible functions of one inverter, for the network as it
// stands at this moment. After every change levels are brought up to date and the next question is asked afresh.
//
// Costs. `observe` and `refresh` walk the cone of one inverter: (inverters in the cone) x (legs) x (words). Nothing is
// allocated in these loops.

import { FIRST_INPUT, ONE } from '../network/network.ts';
import { type Draft, requiredOff, requiredOn } from './draft.ts';
import type { Task } from './task.ts';

/** Counted for every inverter visited and for every question asked, whatever the length of the tables. */
const VISIT = 16;
const QUESTION = 64;

export interface BenchState {
  readonly legs: readonly (readonly number[])[];
  readonly outputs: readonly (readonly number[])[];
}

export class Workbench {
  readonly task: Task;
  /** Number of the first inverter slot. */
  readonly first: number;
  readonly words: number;
  /** Legs of inverter slot `i`; empty when the slot is free. */
  readonly legs: number[][] = [];
  /** Legs of each output. */
  readonly outputs: number[][];
  /** By wire: inverter slots that have it as a leg, and outputs as `-1 - y`. */
  readonly uses: number[][] = [];
  /** By wire: tick at which it settles. */
  readonly tick: number[] = [];
  /** By inverter slot: latest tick at which it may settle. */
  readonly latest: number[] = [];
  /** Level of wire w on row word k: `levels[w * words + k]`. Behind all wires stand the levels that `observe` tries. */
  levels: Uint32Array;
  readonly on: Uint32Array[];
  readonly off: Uint32Array[];
  readonly bounds: readonly number[];
  readonly low: readonly boolean[];
  readonly chosen: readonly boolean[];
  /** Inverters in use. */
  size = 0;
  /** Words read and written so far: the unit of all limits. */
  work = 0;

  private readonly mask: number;
  /** Where the levels that `observe` tries begin. */
  private tried: number;
  private mark: Int32Array;
  private stamp = 0;
  private readonly observed: Uint32Array;
  private readonly join: Uint32Array;
  /** Inverters that wait, by tick, and how many of each list count. */
  private readonly buckets: number[][] = [];
  private readonly waiting: number[] = [];
  /** Where the rows of the legs of one inverter begin in `levels`. */
  private starts = new Int32Array(64);
  /** Inverter slots by tick, and what each still waits for, as `sort` leaves them. */
  private sorted = new Int32Array(64);
  private needs = new Int32Array(64);

  constructor(task: Task, draft: Draft, bounds: readonly number[]) {
    this.task = task;
    this.bounds = bounds;
    this.low = draft.low;
    this.chosen = draft.chosen;
    this.words = task.care.length;
    this.mask = task.rowBits >= 5 ? 0xffffffff : ((1 << (1 << task.rowBits)) - 1) >>> 0;
    this.first = FIRST_INPUT + task.wires.length;
    const slots = Math.max(64, 2 * draft.inverters.length + 32);
    this.tried = (this.first + slots) * this.words;
    this.levels = new Uint32Array(2 * this.tried);
    this.mark = new Int32Array(this.first + slots);
    this.observed = new Uint32Array(this.words);
    this.join = new Uint32Array(this.words);
    this.on = draft.outputs.map((_, y) => requiredOn(task, y, draft.low[y]));
    this.off = draft.outputs.map((_, y) => requiredOff(task, y, draft.low[y]));
    for (let w = 0; w < this.first; w++) {
      this.uses.push([]);
      this.tick.push(w < FIRST_INPUT ? 0 : task.wires[w - FIRST_INPUT].tick);
      if (w >= FIRST_INPUT) this.levels.set(task.wires[w - FIRST_INPUT].table, w * this.words);
    }
    this.levels.fill(0xffffffff, ONE * this.words, (ONE + 1) * this.words);
    this.levels[(ONE + 1) * this.words - 1] &= this.mask;
    this.outputs = draft.outputs.map(() => []);
    this.load({ legs: draft.inverters, outputs: draft.outputs });
  }

  /** Takes over a saved state: everything that depends on legs is computed anew. */
  load(state: BenchState): void {
    for (let w = 0; w < this.uses.length; w++) this.uses[w].length = 0;
    for (let i = 0; i < this.legs.length; i++) this.legs[i] = [];
    this.size = 0;
    while (this.legs.length < state.legs.length) this.addSlot();
    state.legs.forEach((legs, i) => {
      if (legs.length === 0) return;
      this.legs[i] = [...legs];
      this.size++;
      for (const leg of legs) this.uses[leg].push(i);
    });
    state.outputs.forEach((legs, y) => {
      this.outputs[y] = [...legs];
      for (const leg of legs) this.uses[leg].push(-1 - y);
    });
    for (const i of this.topological()) {
      this.settle(i);
      this.evaluate(i);
    }
    this.relax();
  }

  save(): BenchState {
    return { legs: this.legs.map((legs) => [...legs]), outputs: this.outputs.map((legs) => [...legs]) };
  }

  toDraft(): Draft {
    // Slots in topological order, free slots left out.
    const order = this.topological();
    const number = new Map<number, number>();
    order.forEach((i, n) => {
      number.set(this.first + i, this.first + n);
    });
    const rename = (legs: readonly number[]): number[] => legs.map((leg) => number.get(leg) ?? leg);
    return {
      chosen: this.chosen,
      low: this.low,
      inverters: order.map((i) => rename(this.legs[i])),
      outputs: this.outputs.map(rename),
    };
  }

  /** The target limits legs. */
  get isLimited(): boolean {
    const { inverterLegs, outputLegs } = this.task.rules;
    return Number.isFinite(inverterLegs) || Number.isFinite(outputLegs);
  }

  /** Inverters, and outputs as `-1 - y`, that have more legs than the target allows. */
  crowded(): number[] {
    const { inverterLegs, outputLegs } = this.task.rules;
    const users: number[] = [];
    this.legs.forEach((legs, i) => {
      if (legs.length > inverterLegs) users.push(i);
    });
    this.outputs.forEach((legs, y) => {
      if (legs.length > outputLegs) users.push(-1 - y);
    });
    return users;
  }

  /** Legs beyond the limits of the target. */
  excess(): number {
    if (!this.isLimited) return 0;
    const { inverterLegs, outputLegs } = this.task.rules;
    let excess = 0;
    for (const user of this.crowded()) {
      excess +=
        user >= 0 ? this.legs[user].length - inverterLegs : this.outputs[-1 - user].length - outputLegs;
    }
    return excess;
  }

  /** A free slot for a new inverter; give it legs with `setLegs` at once. */
  freeSlot(): number {
    for (let i = 0; i < this.legs.length; i++) if (this.legs[i].length === 0) return i;
    return this.addSlot();
  }

  /** Gives an inverter other legs (or makes it, or with no legs lets it go) and brings everything up to date. */
  setLegs(i: number, legs: readonly number[]): void {
    for (const leg of this.legs[i]) this.removeUse(leg, i);
    if (this.legs[i].length === 0 && legs.length > 0) this.size++;
    if (this.legs[i].length > 0 && legs.length === 0) this.size--;
    this.legs[i] = [...legs];
    for (const leg of legs) this.uses[leg].push(i);
    if (legs.length === 0) return;
    this.refresh(i);
  }

  setOutput(y: number, legs: readonly number[]): void {
    for (const leg of this.outputs[y]) this.removeUse(leg, -1 - y);
    this.outputs[y] = [...legs];
    for (const leg of legs) this.uses[leg].push(-1 - y);
  }

  /** Lets go of an inverter that nobody uses, and of those that only it used. */
  sweep(i: number): void {
    if (this.legs[i].length === 0 || this.uses[this.first + i].length > 0) return;
    const legs = this.legs[i];
    this.setLegs(i, []);
    for (const leg of legs) if (leg >= this.first) this.sweep(leg - this.first);
  }

  /**
   * Levels and ticks of an inverter and of all that depends on it, as far as they change. Inverters wait in buckets by
   * tick; one that settles later than thought is met again when its late leg has been brought up to date.
   */
  refresh(i: number): void {
    this.settle(i);
    this.evaluate(i);
    this.enqueueUses(this.first + i, 0, null);
    for (let t = 0; t < this.buckets.length; t++) {
      const bucket = this.buckets[t];
      for (let n = 0; n < this.waiting[t]; n++) {
        const k = bucket[n];
        const wire = this.first + k;
        this.mark[wire] = 0;
        const wasTick = this.tick[wire];
        this.settle(k);
        if (this.evaluate(k) || this.tick[wire] !== wasTick) this.enqueueUses(wire, t + 1, null);
      }
      this.waiting[t] = 0;
    }
  }

  /**
   * Rows on which inverter `i` matters: the level of some output would be wrong if `i` were flipped there. The network
   * must be right as it stands.
   * The array is overwritten by the next call.
   */
  observe(i: number): Uint32Array {
    const { words, first, tried, levels, observed } = this;
    observed.fill(0);
    this.work += QUESTION;
    this.stamp = this.stamp + 1;
    const touched = this.stamp;
    const wire = first + i;
    const at = wire * words;
    for (let k = 0; k < words; k++) levels[tried + at + k] = ~levels[at + k];
    levels[tried + at + words - 1] &= this.mask;
    const changed = this.changedMark;
    changed[wire] = touched;
    const outputs: number[] = [];
    this.enqueueUses(wire, 0, outputs);
    for (let t = 0; t < this.buckets.length; t++) {
      const bucket = this.buckets[t];
      for (let n = 0; n < this.waiting[t]; n++) {
        const k = bucket[n];
        this.mark[first + k] = 0;
        if (this.evaluateFlipped(k, touched)) {
          changed[first + k] = touched;
          this.enqueueUses(first + k, t + 1, outputs);
        }
      }
      this.waiting[t] = 0;
    }
    for (let n = 0; n < outputs.length; n++) {
      const y = outputs[n];
      this.joinFlipped(this.outputs[y], touched);
      const on = this.on[y];
      const off = this.off[y];
      for (let k = 0; k < words; k++) observed[k] |= (on[k] & ~this.join[k]) | (off[k] & this.join[k]);
      this.work += 3 * words;
    }
    return observed;
  }

  /** Latest ticks of all inverters, from the bounds of the outputs. */
  relax(): void {
    const { inverterTicks, joinTicks } = this.task.rules;
    const { first, latest, legs: all } = this;
    latest.fill(Number.POSITIVE_INFINITY);
    for (let y = 0; y < this.outputs.length; y++) {
      const legs = this.outputs[y];
      const bound = this.bounds[y] - (legs.length > 1 ? joinTicks : 0);
      for (let n = 0; n < legs.length; n++) if (legs[n] >= first) this.lower(legs[n] - first, bound);
    }
    const count = this.sort();
    const { sorted } = this;
    this.work += VISIT * count;
    for (let n = count - 1; n >= 0; n--) {
      const i = sorted[n];
      const legs = all[i];
      const bound = latest[i] - inverterTicks - (legs.length > 1 ? joinTicks : 0);
      for (let m = 0; m < legs.length; m++) if (legs[m] >= first) this.lower(legs[m] - first, bound);
    }
  }

  /** Marks the inverter slots that depend on `i` (itself included) in `into`. */
  cone(i: number, into: Uint8Array): void {
    const stack = [i];
    into[this.first + i] = 1;
    while (stack.length > 0) {
      const uses = this.uses[this.first + (stack.pop() as number)];
      for (let n = 0; n < uses.length; n++) {
        const k = uses[n];
        if (k < 0 || into[this.first + k] === 1) continue;
        into[this.first + k] = 1;
        stack.push(k);
      }
    }
  }

  /** Inverter slots in use, by tick. */
  topological(): number[] {
    const count = this.sort();
    return Array.from(this.sorted.subarray(0, count));
  }

  /** Lists the inverter slots in use in `sorted`, those first that others hang on; returns how many there are. */
  private sort(): number {
    const { first, legs: all, uses } = this;
    const slots = all.length;
    if (slots > this.sorted.length) {
      this.sorted = new Int32Array(2 * slots);
      this.needs = new Int32Array(2 * slots);
    }
    const { sorted, needs } = this;
    let count = 0;
    for (let i = 0; i < slots; i++) {
      const legs = all[i];
      if (legs.length === 0) continue;
      let need = 0;
      for (let n = 0; n < legs.length; n++) if (legs[n] >= first) need++;
      needs[i] = need;
      if (need === 0) sorted[count++] = i;
    }
    for (let n = 0; n < count; n++) {
      const users = uses[first + sorted[n]];
      for (let m = 0; m < users.length; m++)
        if (users[m] >= 0 && --needs[users[m]] === 0) sorted[count++] = users[m];
    }
    return count;
  }

  /** A row on which some output is wrong, or -1. */
  wrongRow(): number {
    for (let y = 0; y < this.outputs.length; y++) {
      this.joinFlipped(this.outputs[y], -1);
      const on = this.on[y];
      const off = this.off[y];
      for (let k = 0; k < this.words; k++) {
        const wrong = (on[k] & ~this.join[k]) | (off[k] & this.join[k]);
        if (wrong !== 0) return 32 * k + (31 - Math.clz32(wrong & -wrong));
      }
    }
    return -1;
  }

  /** Is every output right on every row, and in time? For tests and for checked mode. */
  isRight(): boolean {
    return this.outputs.every((legs, y) => {
      for (const leg of legs) if (this.tick[leg] > this.bounds[y]) return false;
      this.joinFlipped(legs, -1);
      for (let k = 0; k < this.words; k++) {
        if (((this.on[y][k] & ~this.join[k]) | (this.off[y][k] & this.join[k])) !== 0) return false;
      }
      return true;
    });
  }

  private get changedMark(): Int32Array {
    if (this.changedStamps.length < this.mark.length) {
      const grown = new Int32Array(this.mark.length);
      grown.set(this.changedStamps);
      this.changedStamps = grown;
    }
    return this.changedStamps;
  }

  private changedStamps = new Int32Array(0);

  private addSlot(): number {
    const i = this.legs.length;
    this.legs.push([]);
    this.uses.push([]);
    this.tick.push(0);
    this.latest.push(Number.POSITIVE_INFINITY);
    const wires = this.first + i + 1;
    if (wires * this.words > this.tried) {
      const capacity = this.first + 2 * (i + 1);
      const levels = new Uint32Array(2 * capacity * this.words);
      levels.set(this.levels.subarray(0, this.tried));
      this.levels = levels;
      this.tried = capacity * this.words;
      const mark = new Int32Array(capacity);
      mark.set(this.mark);
      this.mark = mark;
    }
    return i;
  }

  private removeUse(wire: number, user: number): void {
    const uses = this.uses[wire];
    const at = uses.indexOf(user);
    uses[at] = uses[uses.length - 1];
    uses.pop();
  }

  private lower(i: number, bound: number): void {
    if (bound < this.latest[i]) this.latest[i] = bound;
  }

  private settle(i: number): void {
    const { inverterTicks, joinTicks } = this.task.rules;
    const legs = this.legs[i];
    let latest = 0;
    for (let n = 0; n < legs.length; n++) if (this.tick[legs[n]] > latest) latest = this.tick[legs[n]];
    this.tick[this.first + i] = latest + inverterTicks + (legs.length > 1 ? joinTicks : 0);
  }

  /** Level of an inverter from its legs; true when it changed. */
  private evaluate(i: number): boolean {
    const { words } = this;
    const legs = this.legs[i];
    const at = (this.first + i) * words;
    const starts = this.startsFor(legs.length);
    for (let n = 0; n < legs.length; n++) starts[n] = legs[n] * words;
    return this.invert(legs.length, at, at);
  }

  /** The same for the levels that are tried. */
  private evaluateFlipped(i: number, touched: number): boolean {
    const { words, tried, changedStamps } = this;
    const legs = this.legs[i];
    const at = (this.first + i) * words;
    const starts = this.startsFor(legs.length);
    for (let n = 0; n < legs.length; n++) {
      const leg = legs[n];
      starts[n] = changedStamps[leg] === touched ? tried + leg * words : leg * words;
    }
    return this.invert(legs.length, at, tried + at);
  }

  /** Writes the complement of the join of `count` legs, which begin at `starts`, to `to`; does it differ from what is at `at`? */
  private invert(count: number, at: number, to: number): boolean {
    const { words, levels, starts } = this;
    const a = starts[0];
    const b = count > 1 ? starts[1] : a;
    const c = count > 2 ? starts[2] : a;
    let changed = 0;
    // Most inverters have three legs or fewer, and a loop in the loop would take most of the time.
    if (count <= 3) {
      for (let k = 0; k < words; k++) {
        const level = ~(levels[a + k] | levels[b + k] | levels[c + k]);
        changed |= levels[at + k] ^ level;
        levels[to + k] = level;
      }
    } else {
      const d = starts[3];
      for (let k = 0; k < words; k++) {
        let joined = levels[a + k] | levels[b + k] | levels[c + k] | levels[d + k];
        for (let n = 4; n < count; n++) joined |= levels[starts[n] + k];
        const level = ~joined;
        changed |= levels[at + k] ^ level;
        levels[to + k] = level;
      }
    }
    if (words === 1) {
      levels[to] &= this.mask;
      changed &= this.mask;
    }
    this.work += VISIT + words * (count + 1);
    return changed !== 0;
  }

  private startsFor(legs: number): Int32Array {
    if (legs > this.starts.length) this.starts = new Int32Array(2 * legs);
    return this.starts;
  }

  private joinFlipped(legs: readonly number[], touched: number): void {
    const { words, levels, tried, join, changedStamps } = this;
    join.fill(0);
    for (let n = 0; n < legs.length; n++) {
      const leg = legs[n];
      const at = (touched >= 0 && changedStamps[leg] === touched ? tried : 0) + leg * words;
      for (let k = 0; k < words; k++) join[k] |= levels[at + k];
    }
    this.work += words * legs.length;
  }

  /** Puts the users of a wire into the buckets, none into a bucket before `from`; outputs are listed when asked for. */
  private enqueueUses(wire: number, from: number, outputs: number[] | null): void {
    const uses = this.uses[wire];
    for (let n = 0; n < uses.length; n++) {
      const k = uses[n];
      if (k < 0) {
        if (outputs !== null && !outputs.includes(-1 - k)) outputs.push(-1 - k);
        continue;
      }
      const user = this.first + k;
      if (this.mark[user] === 1) continue;
      this.mark[user] = 1;
      const bucket = Math.max(from, this.tick[user]);
      while (this.buckets.length <= bucket) {
        this.buckets.push([]);
        this.waiting.push(0);
      }
      this.buckets[bucket][this.waiting[bucket]++] = k;
    }
  }
}
