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
// allocated there, and levels lie in the memory of the word loops (src/truth/word-loops.ts). What was observed is kept
// until the network changes: most moves fail and are taken back, and the next one often asks the same. It is counted as
// work all the same, so that what the search does hangs on no such saving.

import { FIRST_INPUT, ONE, ZERO } from '../network/network.ts';
import { firstRow } from '../truth/table.ts';
import { type WordLoops, wordLoops } from '../truth/word-loops.ts';
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
  /** By inverter slot: latest tick at which it may settle, unless that is to be worked out first. */
  private readonly latest: number[] = [];
  private isRelaxed = false;
  /** Where the levels of all wires begin in the memory of the loops, and the bytes that one takes. */
  base: number;
  readonly bytes: number;
  readonly loops: WordLoops;
  /** Addresses of legs, for the loops. */
  list: number;
  readonly bounds: readonly number[];
  readonly low: readonly boolean[];
  readonly chosen: readonly boolean[];
  /** Inverters in use. */
  size = 0;
  /** Words read and written so far: the unit of all limits. */
  work = 0;
  /** Number of the network as it stands: every change gives a new one. */
  private version = 0;
  private versions = 0;

  private readonly mask: number;
  /** From a level to the one that `observe` tries. */
  private tried: number;
  private mark: Int32Array;
  private changedStamps: Int32Array;
  private stamp = 0;
  /** By inverter slot: what `observe` found last, for which network, and what that cost. */
  private seen: number;
  private seenAt: Float64Array;
  private seenWork: Float64Array;
  /** Slots that there is room for. */
  private room: number;
  /** By output: where its required levels stand, those for 1 and behind them those for 0. */
  private readonly required: number;
  private readonly wrong: number;
  /** Inverters that wait, by tick, and how many of each list count. */
  private readonly buckets: number[][] = [];
  private readonly waiting: number[] = [];
  /** Inverter slots by tick, and what each still waits for, as `sort` leaves them. */
  private sorted = new Int32Array(64);
  private needs = new Int32Array(64);

  constructor(task: Task, draft: Draft, bounds: readonly number[]) {
    this.task = task;
    this.bounds = bounds;
    this.low = draft.low;
    this.chosen = draft.chosen;
    this.words = task.care.length;
    this.first = FIRST_INPUT + task.wires.length;
    this.loops = wordLoops();
    this.bytes = this.loops.bytesOf(this.words);
    this.mask = this.loops.maskOf(task.rowBits);
    this.required = this.loops.take(2 * draft.outputs.length * this.bytes);
    this.wrong = this.loops.take(this.bytes);
    draft.outputs.forEach((_, y) => {
      this.setRequired(y, requiredOn(task, y, draft.low[y]), requiredOff(task, y, draft.low[y]));
    });
    this.room = Math.max(64, 2 * draft.inverters.length + 32);
    const wires = this.first + this.room;
    this.tried = wires * this.bytes;
    this.base = this.loops.take(2 * this.tried);
    this.list = this.loops.take(4 * wires);
    this.seen = this.loops.take(this.room * this.bytes);
    this.seenAt = new Float64Array(this.room);
    this.seenWork = new Float64Array(this.room);
    this.mark = new Int32Array(wires);
    this.changedStamps = new Int32Array(wires);
    for (let w = 0; w < this.first; w++) {
      this.uses.push([]);
      this.tick.push(w < FIRST_INPUT ? 0 : task.wires[w - FIRST_INPUT].tick);
      if (w >= FIRST_INPUT) this.loops.words.set(task.wires[w - FIRST_INPUT].table, this.addressOf(w) >> 2);
    }
    // The complement of the constant 0.
    const [zero, one] = [this.addressOf(ZERO), this.addressOf(ONE)];
    this.loops.run.nor3(zero, zero, zero, one, one, this.bytes, this.mask);
    this.outputs = draft.outputs.map(() => []);
    this.load({ legs: draft.inverters, outputs: draft.outputs });
  }

  /** Takes over a saved state: everything that depends on legs is computed anew. */
  load(state: BenchState): void {
    this.version = ++this.versions;
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

  /** Number of the network as it stands. */
  get current(): number {
    return this.version;
  }

  /** Tells that all changes since the network had this number have been taken back: what was observed then holds again. */
  isBackAt(version: number): void {
    this.version = version;
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
    this.version = ++this.versions;
    for (const leg of this.legs[i]) this.removeUse(leg, i);
    if (this.legs[i].length === 0 && legs.length > 0) this.size++;
    if (this.legs[i].length > 0 && legs.length === 0) this.size--;
    this.legs[i] = [...legs];
    for (const leg of legs) this.uses[leg].push(i);
    if (legs.length === 0) return;
    this.refresh(i);
  }

  setOutput(y: number, legs: readonly number[]): void {
    this.version = ++this.versions;
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

  /** Where the level of a wire stands in the memory of the loops. */
  addressOf(wire: number): number {
    return this.base + wire * this.bytes;
  }

  /** Makes these the rows on which an output must be 1, and those on which it must be 0. */
  setRequired(y: number, on: Uint32Array, off: Uint32Array): void {
    this.version = ++this.versions;
    this.loops.words.set(on, this.onOf(y) >> 2);
    this.loops.words.set(off, this.offOf(y) >> 2);
  }

  /** Where the rows stand on which an output must be 1. */
  onOf(y: number): number {
    return this.required + 2 * y * this.bytes;
  }

  /** Where the rows stand on which it must be 0. */
  offOf(y: number): number {
    return this.onOf(y) + this.bytes;
  }

  /**
   * Rows on which inverter `i` matters: the level of some output would be wrong if `i` were flipped there. The network
   * must be right as it stands. Returns where they stand in the memory of the loops.
   */
  observe(i: number): number {
    const { seenAt, seenWork } = this;
    const observed = this.seen + i * this.bytes;
    if (seenAt[i] === this.version) {
      this.work += seenWork[i];
      return observed;
    }
    const before = this.work;
    this.flip(i, observed);
    seenAt[i] = this.version;
    seenWork[i] = this.work - before;
    return observed;
  }

  private flip(i: number, observed: number): void {
    const { words, bytes, first, tried, loops, list, mask } = this;
    this.work += QUESTION;
    this.stamp = this.stamp + 1;
    const touched = this.stamp;
    const wire = first + i;
    const at = this.addressOf(wire);
    loops.run.nor3(at, at, at, at, tried + at, bytes, mask);
    const changed = this.changedStamps;
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
    loops.clear(observed, bytes);
    for (let n = 0; n < outputs.length; n++) {
      const y = outputs[n];
      const legs = this.outputs[y];
      this.listFlipped(legs, touched);
      loops.run.addWrong(list, legs.length, this.onOf(y), this.offOf(y), observed, bytes);
      this.work += words * (legs.length + 3);
    }
  }

  /** Latest ticks of all inverters follow from the bounds of the outputs anew; they are worked out when one is asked for. */
  relax(): void {
    this.work += VISIT * this.size;
    this.isRelaxed = false;
  }

  /** Latest tick at which an inverter may settle, for the network at the last call of `relax`. */
  latestOf(i: number): number {
    if (!this.isRelaxed) this.lowerAll();
    this.isRelaxed = true;
    return this.latest[i];
  }

  private lowerAll(): void {
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
    const { words, bytes, wrong, loops } = this;
    loops.clear(wrong, bytes);
    for (let y = 0; y < this.outputs.length; y++) {
      const legs = this.outputs[y];
      this.listFlipped(legs, -1);
      this.work += words * legs.length;
      if (loops.run.addWrong(this.list, legs.length, this.onOf(y), this.offOf(y), wrong, bytes) === 0)
        continue;
      return firstRow(loops.words.subarray(wrong >> 2, (wrong >> 2) + words));
    }
    return -1;
  }

  /** Is every output right on every row, and in time? For tests and for checked mode. */
  isRight(): boolean {
    const late = this.outputs.some((legs, y) => legs.some((leg) => this.tick[leg] > this.bounds[y]));
    return !late && this.wrongRow() < 0;
  }

  private addSlot(): number {
    const i = this.legs.length;
    this.legs.push([]);
    this.uses.push([]);
    this.tick.push(0);
    this.latest.push(Number.POSITIVE_INFINITY);
    if (i >= this.room) this.makeRoom(2 * (i + 1));
    return i;
  }

  private makeRoom(slots: number): void {
    const wires = this.first + slots;
    const base = this.loops.take(2 * wires * this.bytes);
    this.loops.words.copyWithin(base >> 2, this.base >> 2, (this.base + this.tried) >> 2);
    this.room = slots;
    this.base = base;
    this.tried = wires * this.bytes;
    const mark = new Int32Array(wires);
    mark.set(this.mark);
    this.mark = mark;
    // What was tried and observed is made anew.
    this.list = this.loops.take(4 * wires);
    this.changedStamps = new Int32Array(wires);
    this.seen = this.loops.take(slots * this.bytes);
    this.seenAt = new Float64Array(slots);
    this.seenWork = new Float64Array(slots);
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
    return this.invert(i, -1, 0);
  }

  /** The same for the levels that are tried. */
  private evaluateFlipped(i: number, touched: number): boolean {
    return this.invert(i, touched, this.tried);
  }

  /** Writes the level of an inverter, by so many bytes away from where it stands; is it another one than there? */
  private invert(i: number, touched: number, away: number): boolean {
    const { bytes, base, tried, loops, changedStamps, mask } = this;
    const legs = this.legs[i];
    const count = legs.length;
    const at = base + (this.first + i) * bytes;
    this.work += VISIT + this.words * (count + 1);
    // Most inverters have three legs or fewer.
    if (count > 3) {
      this.listFlipped(legs, touched);
      return loops.run.norOf(this.list, count, at, at + away, bytes, mask) !== 0;
    }
    let a = base + legs[0] * bytes;
    if (changedStamps[legs[0]] === touched) a += tried;
    let b = a;
    let c = a;
    if (count > 1) {
      b = base + legs[1] * bytes;
      if (changedStamps[legs[1]] === touched) b += tried;
    }
    if (count > 2) {
      c = base + legs[2] * bytes;
      if (changedStamps[legs[2]] === touched) c += tried;
    }
    return loops.run.nor3(a, b, c, at, at + away, bytes, mask) !== 0;
  }

  /** Lists where the levels of legs stand, those that are tried where there are such. */
  private listFlipped(legs: readonly number[], touched: number): void {
    const { base, bytes, tried, changedStamps, loops } = this;
    const { words } = loops;
    const to = this.list >> 2;
    for (let n = 0; n < legs.length; n++) {
      const at = base + legs[n] * bytes;
      words[to + n] = changedStamps[legs[n]] === touched ? at + tried : at;
    }
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
