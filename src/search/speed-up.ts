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
import { countBits } from '../truth/table.ts';
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
  /** By slot: the hash of its legs, and the set of their numbers modulo 32, as bits. */
  private readonly hashes: number[] = [];
  private readonly shades: number[] = [];
  /** Wires that belong to the list last marked have this stamp. */
  private mark = new Int32Array(0);
  private stamp = 0;
  private also = new Int32Array(0);
  private alsoStamp = 0;
  /** Legs looked at so far. */
  private work = 0;
  /** By wire, with room for more wires than there are. */
  private tick = new Float64Array(0);
  private latest = new Float64Array(0);
  private uses = new Int32Array(0);
  private state = new Uint8Array(0);
  /** By wire: the late outputs that depend on it, as a set of `words` words. */
  private reach = new Uint32Array(0);
  private readonly words: number;
  private topological: number[] = [];
  private readonly stack: number[] = [];

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
    this.words = (this.outputs.length + 31) >> 5;
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

  /** Late outputs that depend on a wire. */
  private lateOutputs(wire: number): number {
    let count = 0;
    for (let k = 0; k < this.words; k++) count += countBits(this.reach[wire * this.words + k]);
    return count;
  }

  private late(): boolean {
    return this.outputs.some((legs, y) =>
      legs.some((leg) => this.tick[leg] > this.bounds[y] - this.task.rules.joinTicks),
    );
  }

  /** Order, ticks, latest ticks and numbers of uses; inverters without use go. */
  private analyse(): void {
    const { first, bounds, outputs, legs: all, words } = this;
    // A join at an inverter is counted always: what is reached then is in time all the more.
    const { joinTicks } = this.task.rules;
    const inverterTicks = this.task.rules.inverterTicks + joinTicks;
    const wires = first + all.length;
    this.makeRoom(wires);
    const { uses, state, tick, latest, reach } = this;
    uses.fill(0, 0, wires);
    state.fill(0, 0, wires);
    this.topological = [];
    const { topological } = this;
    for (const legs of outputs) for (const leg of legs) this.visit(leg);
    for (let i = 0; i < all.length; i++) {
      if (state[first + i] !== 0 || all[i] === null) continue;
      this.forget(i);
      all[i] = null;
    }
    for (const i of topological) {
      const legs = all[i] as number[];
      let last = 0;
      this.work += legs.length;
      for (let n = 0; n < legs.length; n++) {
        if (tick[legs[n]] > last) last = tick[legs[n]];
        uses[legs[n]]++;
      }
      tick[first + i] = last + inverterTicks;
    }
    latest.fill(Number.POSITIVE_INFINITY, 0, wires);
    reach.fill(0, 0, wires * words);
    outputs.forEach((legs, y) => {
      const bound = bounds[y] - joinTicks;
      const isLate = legs.some((leg) => tick[leg] > bound);
      for (const leg of legs) {
        if (bound < latest[leg]) latest[leg] = bound;
        uses[leg]++;
        if (isLate) reach[leg * words + (y >> 5)] |= 1 << (y & 31);
      }
    });
    for (let n = topological.length - 1; n >= 0; n--) {
      const wire = first + topological[n];
      const legs = all[topological[n]] as number[];
      const bound = latest[wire] - inverterTicks;
      for (let m = 0; m < legs.length; m++) {
        const leg = legs[m];
        for (let k = 0; k < words; k++) reach[leg * words + k] |= reach[wire * words + k];
        if (bound < latest[leg]) latest[leg] = bound;
      }
    }
  }

  /** Lists the inverters that a wire depends on and that are not listed yet, those first that others hang on. */
  private visit(root: number): void {
    const { first, state, stack, topological } = this;
    stack.push(root);
    while (stack.length > 0) {
      const wire = stack[stack.length - 1];
      if (wire < first || state[wire] === 2) {
        stack.pop();
        continue;
      }
      if (state[wire] === 1) {
        state[wire] = 2;
        topological.push(wire - first);
        stack.pop();
        continue;
      }
      state[wire] = 1;
      const legs = this.legs[wire - first] as number[];
      for (let n = 0; n < legs.length; n++) if (legs[n] >= first && state[legs[n]] === 0) stack.push(legs[n]);
    }
  }

  /** Arrays by wire for so many wires; what they hold is made anew, but for ticks and marks. */
  private makeRoom(wires: number): void {
    if (wires <= this.tick.length) return;
    const tick = new Float64Array(2 * wires);
    this.task.wires.forEach((wire, s) => {
      tick[FIRST_INPUT + s] = wire.tick;
    });
    this.tick = tick;
    this.latest = new Float64Array(2 * wires);
    this.uses = new Int32Array(2 * wires);
    this.state = new Uint8Array(2 * wires);
    this.reach = new Uint32Array(2 * wires * this.words);
    this.mark = new Int32Array(2 * wires);
    this.also = new Int32Array(2 * wires);
  }

  /** The cheapest place on a path that is as late as any. */
  private choose(): Place | null {
    const { first, tick, latest, topological, legs: all } = this;
    let worst = 0;
    for (const i of topological) worst = Math.max(worst, tick[first + i] - latest[first + i]);
    let best: Place | null = null;
    let bestCost = Number.POSITIVE_INFINITY;
    let ties = 0;
    const late: number[] = [];
    const count = topological.length;
    for (let n = 0; n < count; n++) {
      const i = topological[this.order === 'from-outputs' ? count - 1 - n : n];
      const v = first + i;
      if (tick[v] - latest[v] < worst) continue;
      const legs = all[i] as number[];
      const hash = this.hashes[i];
      this.markAll(legs);
      for (let m = 0; m < legs.length; m++) {
        const u = legs[m];
        if (u < first || tick[u] - latest[u] < worst) continue;
        late.length = 0;
        for (const w of all[u - first] as number[])
          if (w >= first && tick[w] - latest[w] >= worst) late.push(w);
        if (late.length === 0) continue;
        const place = { v, u, late };
        if (this.limited && !this.withinLimits(place)) continue;
        const cost = (this.cost(place, hash) + 1) / this.lateOutputs(v);
        if (cost > bestCost) continue;
        ties = cost < bestCost ? 1 : ties + 1;
        if (cost < bestCost || (this.order === 'any' && this.random.oneIn(ties)))
          best = { v, u, late: [...late] };
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

  /** Inverters that the rule costs at a place whose `v` is marked; `hash` is the hash of its legs. */
  private cost({ v, u, late }: Place, hash: number): number {
    const { first, legs: all, uses } = this;
    for (const w of late) this.work += (all[w - first] as number[]).length;
    let cost = -1; // v itself
    const ofU = all[u - first] as number[];
    if (ofU.length > late.length) {
      if (this.known(ofU.filter((leg) => !late.includes(leg))) < 0) cost++;
      cost++;
    }
    const rest = (all[v - first] as number[]).length - 1;
    const hashOfRest = (hash - hashOfLeg(u)) | 0;
    for (let n = 0; n < late.length; n++) if (!this.knownUnion(rest, hashOfRest, late[n] - first, u)) cost++;
    if (uses[u] === 1) {
      cost--;
      for (let n = 0; n < late.length; n++) if (uses[late[n]] === 1) cost--;
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
    const legs = this.legs[slot] as readonly number[];
    const hash = hashOf(legs);
    this.hashes[slot] = hash;
    this.shades[slot] = legs.reduce((shade, leg) => shade | (1 << (leg & 31)), 0);
    if (!this.byLegs.has(hash)) this.byLegs.set(hash, slot);
  }

  private forget(slot: number): void {
    const hash = this.hashes[slot];
    if (this.byLegs.get(hash) === slot) this.byLegs.delete(hash);
  }

  /** Marks some wires and no others. */
  private markAll(wires: readonly number[]): void {
    this.stamp++;
    for (let n = 0; n < wires.length; n++) this.mark[wires[n]] = this.stamp;
  }

  private areMarked(wires: readonly number[]): boolean {
    for (let n = 0; n < wires.length; n++) if (this.mark[wires[n]] !== this.stamp) return false;
    return true;
  }

  /**
   * Is there an inverter with just the legs of another and the marked wires but `except`? These are `count`, with a hash
   * of `hash`; `except` is no leg of the other.
   */
  private knownUnion(count: number, hash: number, slot: number, except: number): boolean {
    const { mark, also, stamp } = this;
    const legs = this.legs[slot] as readonly number[];
    let sum = hash + this.hashes[slot];
    let size = count + legs.length;
    for (let n = 0; n < legs.length; n++) {
      if (mark[legs[n]] !== stamp) continue;
      sum -= hashOfLeg(legs[n]);
      size--;
    }
    const known = this.byLegs.get(sum | 0);
    if (known === undefined) return false;
    const own = this.legs[known] as readonly number[];
    if (own.length !== size) return false;
    this.alsoStamp++;
    for (let n = 0; n < legs.length; n++) also[legs[n]] = this.alsoStamp;
    for (let n = 0; n < size; n++) {
      const leg = own[n];
      if ((mark[leg] !== stamp || leg === except) && also[leg] !== this.alsoStamp) return false;
    }
    return true;
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
    const result = kept.filter((leg, n) => leg < this.first || !this.isAbsorbed(kept, n));
    return result.length === 0 ? [ZERO] : result;
  }

  /** Is there beside leg `n` of a join a NOR over a part of its legs, or over the same and earlier? */
  private isAbsorbed(join: readonly number[], n: number): boolean {
    const { first, shades } = this;
    const slot = join[n] - first;
    const mine = this.legs[slot] as readonly number[];
    let isMarked = false;
    for (let m = 0; m < join.length; m++) {
      const other = join[m] - first;
      if (m === n || other < 0 || (shades[other] & ~shades[slot]) !== 0) continue;
      const legs = this.legs[other] as readonly number[];
      if (legs.length > mine.length || (legs.length === mine.length && m > n)) continue;
      if (!isMarked) this.markAll(mine);
      isMarked = true;
      if (this.areMarked(legs)) return true;
    }
    return false;
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
