// The speed-up rule: takes two ticks off a late path by giving inverters more legs.
//
// Idea. For inverters v = NOR(R, u), u = NOR(S, w..), w = NOR(T), one inside the other,
//     v = NOT R (S + w + ..) = NOR(R, NOR(S)) joined with NOR(R, T) for every such w,
// so T now passes one inverter where it passed three. R stands several times and v becomes a join; with S empty its
// term goes. Along a carry chain the rule, used again and again, yields look-ahead; used in part, prefix structures.
//
// Order. While an output is late, take a place (v, u) on a late path where the rule costs the fewest inverters; among
// equals the order decides (from the inputs, from the outputs, or by a seed), and gives different networks to start
// from. Joins are expanded at once, an inverter equal to one that exists is that one, and in a join a NOR over more legs
// is dropped beside a NOR over a part of them (absorption).
//
// Correctness. The rule is an identity of Boolean algebra and holds wherever it is used. It ends: each step shortens
// every path through the place and lengthens none. A path that is still late with fewer than three inverters cannot be
// helped. When the network has grown beyond `most` inverters, after a number of steps,
// or when `work` legs have been looked at, the attempt is given up. Where
// legs are limited, places that would break a limit are passed over.
//
// Cost. Every step looks at all inverters: (steps) x (legs).

import { FIRST_INPUT, ONE, ZERO } from '../network/network.ts';
import type { Draft } from './draft.ts';
import type { Random } from './random.ts';
import type { Task } from './task.ts';

/** Which of several places that cost the same is taken. */
export type PlaceOrder = 'from-inputs' | 'from-outputs' | 'any';

/** A draft of the same functions in which output `y` settles by `bounds[y]`, or null when that was not reached. */
export function speedUp(
  task: Task,
  draft: Draft,
  bounds: readonly number[],
  order: PlaceOrder,
  random: Random,
  most: number,
  work = Number.POSITIVE_INFINITY,
): Draft | null {
  return new SpeedUp(task, draft, bounds, order, random).run(most, work);
}

/** Steps before an attempt is given up, for each inverter that the network may have. */
const STEPS_PER_INVERTER = 2;

interface Place {
  readonly v: number;
  readonly u: number;
  readonly late: readonly number[];
}

class SpeedUp {
  private readonly task: Task;
  private readonly draft: Draft;
  private readonly bounds: readonly number[];
  private readonly order: PlaceOrder;
  private readonly random: Random;
  private readonly first: number;
  private readonly limited: boolean;
  /** Legs by inverter slot; null when it is gone. */
  private readonly legs: (number[] | null)[] = [];
  private readonly outputs: number[][];
  /** Slot of an inverter by the hash of its leg set; see `known`. */
  private readonly byLegs = new Map<number, number>();
  /** Wires that belong to the list last marked have this stamp. */
  private readonly mark: number[] = [];
  private stamp = 0;
  /** Legs looked at so far. */
  private work = 0;
  private tick: number[] = [];
  private latest: number[] = [];
  private uses: number[] = [];
  private topological: number[] = [];
  /** By wire: number of late outputs that depend on it. */
  private lateOutputs: number[] = [];

  constructor(task: Task, draft: Draft, bounds: readonly number[], order: PlaceOrder, random: Random) {
    this.task = task;
    this.draft = draft;
    this.bounds = bounds;
    this.order = order;
    this.random = random;
    this.first = FIRST_INPUT + task.wires.length;
    this.limited = Number.isFinite(task.rules.inverterLegs) || Number.isFinite(task.rules.outputLegs);
    draft.inverters.forEach((legs) => {
      this.legs.push([...legs]);
    });
    this.outputs = draft.outputs.map((legs) => [...legs]);
    for (let i = 0; i < this.legs.length; i++) this.register(i);
  }

  run(most: number, work: number): Draft | null {
    for (let step = 0; step <= STEPS_PER_INVERTER * most; step++) {
      this.analyse();
      if (!this.late()) return this.result();
      if (this.topological.length > most || this.work > work) return null;
      const place = this.choose();
      if (place === null) return null;
      this.apply(place);
    }
    return null;
  }

  private countLateOutputs(reach: Uint32Array, words: number): void {
    this.lateOutputs = new Array(this.first + this.legs.length).fill(0);
    for (let k = 0; k < reach.length; k++) {
      let bits = reach[k];
      let count = 0;
      for (; bits !== 0; bits &= bits - 1) count++;
      this.lateOutputs[Math.floor(k / words)] += count;
    }
  }

  private late(): boolean {
    return this.outputs.some((legs, y) =>
      legs.some((leg) => this.tick[leg] > this.bounds[y] - this.task.rules.joinTicks),
    );
  }

  /** Order, ticks, latest ticks and numbers of uses; inverters without use go. */
  private analyse(): void {
    // A join at an inverter is counted always: what is reached then is in time all the more.
    const inverterTicks = this.task.rules.inverterTicks + this.task.rules.joinTicks;
    const wires = this.first + this.legs.length;
    this.uses = new Array(wires).fill(0);
    this.topological = [];
    const state = new Uint8Array(wires);
    const stack: number[] = [];
    const visit = (root: number): void => {
      stack.push(root);
      while (stack.length > 0) {
        const wire = stack[stack.length - 1];
        if (wire < this.first || state[wire] === 2) {
          stack.pop();
          continue;
        }
        const legs = this.legs[wire - this.first] as number[];
        if (state[wire] === 1) {
          state[wire] = 2;
          this.topological.push(wire - this.first);
          stack.pop();
          continue;
        }
        state[wire] = 1;
        for (const leg of legs) if (leg >= this.first && state[leg] === 0) stack.push(leg);
      }
    };
    for (const legs of this.outputs) for (const leg of legs) visit(leg);
    for (let i = 0; i < this.legs.length; i++) {
      const legs = this.legs[i];
      if (state[this.first + i] === 0 && legs !== null) {
        this.forget(i);
        this.legs[i] = null;
      }
    }
    this.tick = new Array(wires).fill(0);
    this.task.wires.forEach((wire, s) => {
      this.tick[FIRST_INPUT + s] = wire.tick;
    });
    for (const i of this.topological) {
      let tick = 0;
      this.work += (this.legs[i] as number[]).length;
      for (const leg of this.legs[i] as number[]) {
        tick = Math.max(tick, this.tick[leg]);
        this.uses[leg]++;
      }
      this.tick[this.first + i] = tick + inverterTicks;
    }
    this.latest = new Array(wires).fill(Number.POSITIVE_INFINITY);
    this.outputs.forEach((legs, y) => {
      for (const leg of legs) {
        this.latest[leg] = Math.min(this.latest[leg], this.bounds[y] - this.task.rules.joinTicks);
        this.uses[leg]++;
      }
    });
    const words = (this.outputs.length + 31) >> 5;
    const reach = new Uint32Array(wires * words);
    this.outputs.forEach((legs, y) => {
      if (!legs.some((leg) => this.tick[leg] > this.bounds[y] - this.task.rules.joinTicks)) return;
      for (const leg of legs) reach[leg * words + (y >> 5)] |= 1 << (y & 31);
    });
    for (let n = this.topological.length - 1; n >= 0; n--) {
      const i = this.topological[n];
      const from = (this.first + i) * words;
      for (const leg of this.legs[i] as number[]) {
        for (let k = 0; k < words; k++) reach[leg * words + k] |= reach[from + k];
        this.latest[leg] = Math.min(this.latest[leg], this.latest[this.first + i] - inverterTicks);
      }
    }
    this.countLateOutputs(reach, words);
  }

  /** The cheapest place on a path that is as late as any. */
  private choose(): Place | null {
    let worst = 0;
    for (const i of this.topological)
      worst = Math.max(worst, this.tick[this.first + i] - this.latest[this.first + i]);
    let best: Place | null = null;
    let bestCost = Number.POSITIVE_INFINITY;
    let ties = 0;
    const list = this.order === 'from-outputs' ? [...this.topological].reverse() : this.topological;
    for (const i of list) {
      const v = this.first + i;
      if (this.tick[v] - this.latest[v] < worst) continue;
      for (const u of this.legs[i] as number[]) {
        if (u < this.first || this.tick[u] - this.latest[u] < worst) continue;
        const late = (this.legs[u - this.first] as number[]).filter(
          (w) => w >= this.first && this.tick[w] - this.latest[w] >= worst,
        );
        if (late.length === 0) continue;
        const place = { v, u, late };
        if (this.limited && !this.withinLimits(place)) continue;
        const cost = (this.cost(place) + 1) / this.lateOutputs[v];
        if (cost > bestCost) continue;
        ties = cost < bestCost ? 1 : ties + 1;
        if (cost < bestCost || (this.order === 'any' && this.random.oneIn(ties))) best = place;
        bestCost = cost;
      }
    }
    return best;
  }

  /** Do the new inverters, and all that take the join in place of `v`, keep the limits on legs? */
  private withinLimits({ v, u, late }: Place): boolean {
    const { inverterLegs, outputLegs } = this.task.rules;
    const rest = (this.legs[v - this.first] as number[]).length - 1;
    const others = (this.legs[u - this.first] as number[]).length - late.length;
    const join = late.length + (others > 0 ? 1 : 0);
    if (others > 0 && rest + 1 > inverterLegs) return false;
    if (late.some((w) => rest + (this.legs[w - this.first] as number[]).length > inverterLegs)) return false;
    const tooMany = (legs: readonly number[] | null, limit: number): boolean =>
      legs !== null && legs.length - 1 + join > limit && legs.includes(v);
    if (this.legs.some((legs) => tooMany(legs, inverterLegs))) return false;
    return !this.outputs.some((legs) => tooMany(legs, outputLegs));
  }

  private cost({ v, u, late }: Place): number {
    for (const w of late) this.work += (this.legs[w - this.first] as number[]).length;
    const rest = (this.legs[v - this.first] as number[]).filter((leg) => leg !== u);
    const others = (this.legs[u - this.first] as number[]).filter((leg) => !late.includes(leg));
    let cost = -1; // v itself
    if (others.length > 0) {
      if (this.known(others) < 0) cost++;
      cost++;
    }
    this.stamp++;
    for (const leg of rest) this.mark[leg] = this.stamp;
    const hash = hashOf(rest);
    for (const w of late) if (!this.knownUnion(rest, hash, this.legs[w - this.first] as number[])) cost++;
    if (this.uses[u] === 1) {
      cost--;
      for (const w of late) if (this.uses[w] === 1) cost--;
    }
    return cost;
  }

  private apply({ v, u, late }: Place): void {
    const rest = (this.legs[v - this.first] as number[]).filter((leg) => leg !== u);
    const others = (this.legs[u - this.first] as number[]).filter((leg) => !late.includes(leg));
    const join: number[] = [];
    if (others.length > 0) {
      const complement = this.inverter(others);
      join.push(this.inverter([...rest, complement]));
    }
    for (const w of late) join.push(this.inverter([...rest, ...(this.legs[w - this.first] as number[])]));
    this.replace(v, join);
  }

  private inverter(legs: readonly number[]): number {
    const clean = [...new Set(legs)].filter((leg) => leg !== ZERO).sort((a, b) => a - b);
    if (clean.includes(ONE)) return ZERO;
    if (clean.length === 0) return ONE;
    const known = this.known(clean);
    if (known >= 0) return this.first + known;
    this.legs.push(clean);
    this.register(this.legs.length - 1);
    return this.first + this.legs.length - 1;
  }

  /** Slot of the inverter with just these legs, in any order but each once; -1 when there is none. */
  private known(legs: readonly number[]): number {
    const slot = this.byLegs.get(hashOf(legs));
    if (slot === undefined) return -1;
    const own = this.legs[slot] as readonly number[];
    return own.length === legs.length && legs.every((leg) => own.includes(leg)) ? slot : -1;
  }

  private register(slot: number): void {
    const hash = hashOf(this.legs[slot] as readonly number[]);
    if (!this.byLegs.has(hash)) this.byLegs.set(hash, slot);
  }

  private forget(slot: number): void {
    const hash = hashOf(this.legs[slot] as readonly number[]);
    if (this.byLegs.get(hash) === slot) this.byLegs.delete(hash);
  }

  /** Is there an inverter with just the legs of both lists? `rest` is marked, and `hash` is its hash. */
  private knownUnion(rest: readonly number[], hash: number, legs: readonly number[]): boolean {
    let sum = hash;
    let size = rest.length;
    for (const leg of legs) {
      if (this.mark[leg] === this.stamp) continue;
      sum = (sum + hashOfLeg(leg)) | 0;
      size++;
    }
    const slot = this.byLegs.get(sum);
    if (slot === undefined) return false;
    const own = this.legs[slot] as readonly number[];
    return own.length === size && own.every((leg) => this.mark[leg] === this.stamp || legs.includes(leg));
  }

  /** Every user of `wire` takes the legs of a join instead. */
  private replace(wire: number, join: readonly number[]): void {
    for (let i = 0; i < this.legs.length; i++) {
      const legs = this.legs[i];
      if (legs === null || !legs.includes(wire)) continue;
      this.forget(i);
      const swapped = [...new Set([...legs.filter((leg) => leg !== wire), ...join])];
      this.legs[i] = this.absorb(swapped).sort((a, b) => a - b);
      this.register(i);
    }
    for (let y = 0; y < this.outputs.length; y++) {
      if (!this.outputs[y].includes(wire)) continue;
      this.outputs[y] = this.absorb([
        ...new Set([...this.outputs[y].filter((leg) => leg !== wire), ...join]),
      ]);
    }
  }

  /** Drops legs that another leg of the same join contains: constants, and NORs over more legs. */
  private absorb(legs: readonly number[]): number[] {
    if (legs.includes(ONE)) return [ONE];
    const kept = legs.filter((leg) => leg !== ZERO);
    const sets = kept.map((leg) => (leg >= this.first ? new Set(this.legs[leg - this.first]) : null));
    const result = kept.filter((_, n) => {
      const mine = sets[n];
      if (mine === null) return true;
      return !sets.some((other, m) => {
        if (m === n || other === null || other.size > mine.size || (other.size === mine.size && m > n))
          return false;
        for (const leg of other) if (!mine.has(leg)) return false;
        return true;
      });
    });
    return result.length === 0 ? [ZERO] : result;
  }

  private result(): Draft {
    const number = new Map<number, number>();
    this.topological.forEach((i, n) => {
      number.set(this.first + i, this.first + n);
    });
    const rename = (legs: readonly number[]): number[] => legs.map((leg) => number.get(leg) ?? leg);
    return {
      chosen: this.draft.chosen,
      low: this.draft.low,
      inverters: this.topological.map((i) => rename(this.legs[i] as number[])),
      outputs: this.outputs.map(rename),
    };
  }
}

/** The same for the same legs in any order. */
function hashOf(legs: readonly number[]): number {
  let sum = 0;
  for (const leg of legs) sum = (sum + hashOfLeg(leg)) | 0;
  return sum;
}

function hashOfLeg(leg: number): number {
  const mixed = Math.imul(leg ^ (leg >>> 7), 0x9e3779b1);
  return Math.imul(mixed ^ (mixed >>> 15), 0x85ebca77);
}
