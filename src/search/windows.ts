// Windows: parts of a network that are small enough to be looked at whole, improved one after the other.
//
// Idea. Take an inverter, and inverters next to it one by one, those first that add fewest wires from outside, as long
// as no more than a handful of such wires, the leaves, feed the window. Over the leaves its tables are short and whole,
// however wide the system is. Who stands outside and takes wires of the window takes their join, and nothing else about
// it matters; that join is an output of the window. Growing and shrinking finds a smaller window, or another one of the
// same size, so that windows that overlap it find something new.
//
// Correctness. Every output of the new window is the same function of the leaves, on all their patterns, also on those
// that never happen; where a leaf is a leg of the same reader beside the join, rows where it is 1 are free. No leaf may
// depend on the window, else the new one could close a loop. Ticks are kept by bounds. So nothing has to be proved
// afterwards, and no pattern has to be sampled: this is what makes systems of hundreds of inputs smaller.
//
// Cost. A window costs its growing and shrinking, a few thousand words, and one look at the network for its ticks.
// Windows know nothing of what is free further away; on short tables growing and shrinking of the whole finds more.

import { FIRST_INPUT } from '../network/network.ts';
import { constantTable, inputTable, not, orInto, type Table, without } from '../truth/table.ts';
import type { Draft } from './draft.ts';
import { growAndShrink } from './grow-and-shrink.ts';
import type { Random } from './random.ts';
import type { Task, TaskOutput, TaskWire } from './task.ts';

/** Leaves and inverters of a window, and words for its improvement. */
const MOST_LEAVES = 10;
const MOST_INVERTERS = 24;
const WORDS = 60_000;
/** What choosing a window and looking at the network costs, in words for each inverter. */
const LOOK = 20;

/** A pass over all windows is followed by another when no more than this part of the inverters is left. */
const WORTH = 0.985;

export interface Improved {
  readonly draft: Draft;
  readonly size: number;
  readonly work: number;
}

/** Improves a draft window by window until `work` words are spent or little more is found; it stays right and within the tick bounds. */
export function improveByWindows(
  task: Task,
  draft: Draft,
  bounds: readonly number[],
  random: Random,
  work: number,
): Improved {
  return new Windows(task, draft, bounds, random).run(work);
}

/** An inverter slot, or output `y` as `-1 - y`. */
type Reader = number;

interface Window {
  /** Inverter slots, each after those that feed it. */
  readonly slots: readonly number[];
  readonly leaves: readonly number[];
}

class Windows {
  private readonly task: Task;
  private readonly draft: Draft;
  private readonly bounds: readonly number[];
  private readonly random: Random;
  private readonly first: number;
  /** Legs by slot; empty when the slot is free. */
  private readonly legs: (readonly number[])[];
  private readonly outputs: (readonly number[])[];
  /** Who takes wire w: `readers` from `useStart[w]` to `useStart[w + 1]`. */
  private readonly useStart: Int32Array;
  private readers = new Int32Array(0);
  private readonly tick: Float64Array;
  private readonly latest: Float64Array;
  /** Place of a slot in an order in which legs come first. */
  private readonly place: Int32Array;
  private readonly order: Int32Array;
  /** Inverters that are in use. */
  private size = 0;
  /** Slots that a search from the outputs has seen or left, and those that a window touches, by stamp. */
  private readonly state: Uint8Array;
  private readonly stack: number[] = [];
  private readonly touched: Int32Array;
  private stamp = 0;

  constructor(task: Task, draft: Draft, bounds: readonly number[], random: Random) {
    this.task = task;
    this.draft = draft;
    this.bounds = bounds;
    this.random = random;
    this.first = FIRST_INPUT + task.wires.length;
    this.legs = draft.inverters.map((legs) => [...legs]);
    this.outputs = draft.outputs.map((legs) => [...legs]);
    const slots = this.legs.length;
    this.useStart = new Int32Array(this.first + slots + 1);
    this.tick = new Float64Array(this.first + slots);
    task.wires.forEach((wire, w) => {
      this.tick[FIRST_INPUT + w] = wire.tick;
    });
    this.latest = new Float64Array(slots);
    this.place = new Int32Array(slots);
    this.order = new Int32Array(slots);
    this.state = new Uint8Array(slots);
    this.touched = new Int32Array(slots);
    this.look();
  }

  run(work: number): Improved {
    const { random } = this;
    let spent = 0;
    for (let before = Number.POSITIVE_INFINITY; this.size < WORTH * before; ) {
      before = this.size;
      const queue = random.shuffle([...this.order.subarray(0, this.size)]);
      for (const slot of queue) {
        if (this.legs[slot].length === 0) continue;
        spent += LOOK * this.size;
        const window = this.windowAround(slot);
        if (window !== null) spent += this.improve(window);
        if (spent >= work) return this.result(spent);
      }
    }
    return this.result(spent);
  }

  /** Order, uses, ticks and latest ticks of the whole network. */
  private look(): void {
    const { task, legs, first, place, order, tick, latest, useStart } = this;
    const { inverterTicks, joinTicks } = task.rules;
    this.sort();
    place.fill(-1);
    useStart.fill(0);
    for (let n = 0; n < this.size; n++) {
      const slot = order[n];
      place[slot] = n;
      for (const leg of legs[slot]) useStart[leg]++;
      tick[first + slot] = this.settles(legs[slot]) + inverterTicks;
    }
    for (const outputLegs of this.outputs) for (const leg of outputLegs) useStart[leg]++;
    for (let wire = 1; wire < useStart.length; wire++) useStart[wire] += useStart[wire - 1];
    const uses = useStart[useStart.length - 1];
    if (this.readers.length < uses) this.readers = new Int32Array(2 * uses);
    // Every start is an end as yet; filled from behind, it comes to where its readers begin.
    const { readers } = this;
    latest.fill(Number.POSITIVE_INFINITY);
    for (let y = this.outputs.length - 1; y >= 0; y--) {
      const outputLegs = this.outputs[y];
      const bound = this.bounds[y] - (outputLegs.length > 1 ? joinTicks : 0);
      for (const leg of outputLegs) {
        readers[--useStart[leg]] = -1 - y;
        this.lower(leg, bound);
      }
    }
    for (let n = this.size - 1; n >= 0; n--) {
      const slot = order[n];
      const bound = latest[slot] - inverterTicks - (legs[slot].length > 1 ? joinTicks : 0);
      for (const leg of legs[slot]) {
        readers[--useStart[leg]] = slot;
        this.lower(leg, bound);
      }
    }
  }

  private settles(legs: readonly number[]): number {
    let latest = 0;
    for (const leg of legs) latest = Math.max(latest, this.tick[leg]);
    return latest + (legs.length > 1 ? this.task.rules.joinTicks : 0);
  }

  private lower(wire: number, bound: number): void {
    if (wire >= this.first && bound < this.latest[wire - this.first]) this.latest[wire - this.first] = bound;
  }

  /** Orders the slots that outputs hang on so that legs come first, and frees the others. */
  private sort(): void {
    const { first, legs, state, stack, order } = this;
    state.fill(0);
    let size = 0;
    for (const outputLegs of this.outputs) {
      for (const root of outputLegs) {
        if (root < first || state[root - first] === 2) continue;
        stack.push(root - first);
        while (stack.length > 0) {
          const slot = stack[stack.length - 1];
          if (state[slot] !== 0) {
            stack.pop();
            if (state[slot] === 1) order[size++] = slot;
            state[slot] = 2;
            continue;
          }
          state[slot] = 1;
          for (const leg of legs[slot]) if (leg >= first && state[leg - first] === 0) stack.push(leg - first);
        }
      }
    }
    this.size = size;
    for (let slot = 0; slot < legs.length; slot++) if (state[slot] === 0) this.legs[slot] = [];
  }

  /** A window that holds the slot; null when there is none of at least two inverters. */
  private windowAround(slot: number): Window | null {
    const slots = new Set([slot]);
    const leaves = new Set(this.leavesOf(slot));
    if (leaves.size > MOST_LEAVES) return null;
    while (slots.size < MOST_INVERTERS) {
      let best = -1;
      let bestCost = Number.POSITIVE_INFINITY;
      let ties = 0;
      for (const near of this.neighbours(slots, leaves)) {
        let more = leaves.has(this.first + near) ? -1 : 0;
        for (const leg of this.legs[near]) {
          if (leg < FIRST_INPUT || leaves.has(leg)) continue;
          if (!(leg >= this.first && slots.has(leg - this.first))) more++;
          if (leaves.size + more > MOST_LEAVES || more > bestCost) break;
        }
        if (leaves.size + more > MOST_LEAVES || more > bestCost) continue;
        ties = more < bestCost ? 1 : ties + 1;
        if (ties === 1 || this.random.oneIn(ties)) best = near;
        bestCost = more;
      }
      if (best < 0) break;
      slots.add(best);
      leaves.delete(this.first + best);
      for (const leg of this.leavesOf(best)) {
        if (!(leg >= this.first && slots.has(leg - this.first))) leaves.add(leg);
      }
    }
    this.close(slots, leaves);
    if (slots.size < 2) return null;
    const sorted = [...slots].sort((a, b) => this.place[a] - this.place[b]);
    return { slots: sorted, leaves: [...leaves] };
  }

  /** Who takes a wire, in order. */
  private uses(wire: number): Int32Array {
    return this.readers.subarray(this.useStart[wire], this.useStart[wire + 1]);
  }

  private leavesOf(slot: number): number[] {
    return this.legs[slot].filter((leg) => leg >= FIRST_INPUT);
  }

  /** Inverters outside that feed the window or take one of its wires or leaves. */
  private neighbours(slots: ReadonlySet<number>, leaves: ReadonlySet<number>): Set<number> {
    const { useStart, readers } = this;
    const near = new Set<number>();
    for (const leaf of leaves) {
      if (leaf >= this.first) near.add(leaf - this.first);
      // A leaf with many readers says nothing about who belongs together.
      if (useStart[leaf + 1] - useStart[leaf] > MOST_LEAVES) continue;
      for (let at = useStart[leaf]; at < useStart[leaf + 1]; at++) {
        const reader = readers[at];
        if (reader >= 0 && !slots.has(reader)) near.add(reader);
      }
    }
    for (const slot of slots) {
      const wire = this.first + slot;
      for (let at = useStart[wire]; at < useStart[wire + 1]; at++) {
        const reader = readers[at];
        if (reader >= 0 && !slots.has(reader)) near.add(reader);
      }
    }
    return near;
  }

  /** Takes inverters out again until no leaf depends on the window. */
  private close(slots: Set<number>, leaves: Set<number>): void {
    const { first, order, place, touched } = this;
    for (;;) {
      let from = order.length;
      let last = -1;
      const stamp = ++this.stamp;
      for (const slot of slots) {
        from = Math.min(from, place[slot]);
        touched[slot] = stamp;
      }
      for (const leaf of leaves) if (leaf >= first) last = Math.max(last, place[leaf - first]);
      for (let n = from; n <= last; n++) {
        const slot = order[n];
        for (const leg of this.legs[slot]) {
          if (leg < first || touched[leg - first] !== stamp) continue;
          touched[slot] = stamp;
          break;
        }
      }
      const bad = [...leaves].filter((leaf) => leaf >= first && touched[leaf - first] === stamp);
      if (bad.length === 0) return;
      // The readers of such a leaf go; what they alone had as leaves is no leaf any more.
      for (const leaf of bad) {
        for (const reader of this.uses(leaf)) if (reader >= 0) slots.delete(reader);
      }
      leaves.clear();
      for (const slot of slots) {
        for (const leg of this.leavesOf(slot)) {
          if (!(leg >= this.first && slots.has(leg - this.first))) leaves.add(leg);
        }
      }
      if (slots.size === 0 || leaves.size > MOST_LEAVES) {
        slots.clear();
        return;
      }
    }
  }

  /** Improves a window and puts the result in its place when it is no larger; tells what that cost. */
  private improve({ slots, leaves }: Window): number {
    const { first, task } = this;
    const rowBits = Math.max(1, leaves.length);
    const local = new Map<number, number>();
    leaves.forEach((leaf, n) => {
      local.set(leaf, FIRST_INPUT + n);
    });
    slots.forEach((slot, n) => {
      local.set(first + slot, FIRST_INPUT + leaves.length + n);
    });
    const toLocal = (leg: number): number => local.get(leg) ?? leg;
    const wires: TaskWire[] = leaves.map((leaf, n) => ({
      signal: n,
      rail: 'high',
      tick: this.tick[leaf],
      input: n,
      straight: true,
      table: inputTable(rowBits, n),
      rival: -1,
    }));
    const tables = new Map<number, Table>();
    leaves.forEach((leaf, n) => {
      tables.set(leaf, inputTable(rowBits, n));
    });
    const joined = (legs: readonly number[]): Table => {
      const level = constantTable(rowBits, 0);
      for (const leg of legs) {
        const table = tables.get(leg);
        if (table !== undefined) orInto(level, table);
        else if (leg === 1) orInto(level, constantTable(rowBits, 1));
      }
      return level;
    };
    for (const slot of slots) tables.set(first + slot, not(joined(this.legs[slot]), rowBits));
    const inside = new Set(slots);
    const isMine = (leg: number): boolean => leg >= first && inside.has(leg - first);
    const readers = new Set<Reader>();
    for (const slot of slots) {
      for (const reader of this.uses(first + slot))
        if (reader < 0 || !inside.has(reader)) readers.add(reader);
    }
    const list = [...readers];
    const { inverterTicks } = task.rules;
    const bounds: number[] = [];
    const outputs: TaskOutput[] = [];
    for (const reader of list) {
      const legs = this.legsOf(reader);
      const mine = joined(legs.filter(isMine));
      const beside = joined(legs.filter((leg) => !isMine(leg)));
      outputs.push({
        signal: outputs.length,
        rail: 'high',
        on: without(mine, beside),
        off: not(joined(legs), rowBits),
        by: null,
      });
      bounds.push(reader < 0 ? this.bounds[-1 - reader] : this.latest[reader] - inverterTicks);
    }
    const small: Task = {
      rowBits,
      exhaustive: true,
      wires,
      outputs,
      care: constantTable(rowBits, 1),
      rules: { ...task.rules, inverterLegs: Number.POSITIVE_INFINITY, outputLegs: Number.POSITIVE_INFINITY },
      mirrored: false,
    };
    const before: Draft = {
      chosen: wires.map(() => true),
      low: outputs.map(() => false),
      inverters: slots.map((slot) => this.legs[slot].map(toLocal)),
      outputs: list.map((reader) => this.legsOf(reader).filter(isMine).map(toLocal)),
    };
    const after = growAndShrink(small, before, bounds, this.random, WORDS);
    if (after.size <= slots.length) this.replace({ slots, leaves }, list, isMine, after.draft);
    return after.work;
  }

  private legsOf(reader: Reader): readonly number[] {
    return reader >= 0 ? this.legs[reader] : this.outputs[-1 - reader];
  }

  private replace(
    { slots, leaves }: Window,
    readers: readonly Reader[],
    isMine: (leg: number) => boolean,
    draft: Draft,
  ): void {
    const { first, task } = this;
    const toGlobal = (leg: number): number => {
      if (leg < FIRST_INPUT) return leg;
      if (leg < FIRST_INPUT + leaves.length) return leaves[leg - FIRST_INPUT];
      return first + slots[leg - FIRST_INPUT - leaves.length];
    };
    const newLegs = draft.inverters.map((legs) => legs.map(toGlobal));
    const kept = readers.map((reader, n) => {
      const rest = this.legsOf(reader).filter((leg) => !isMine(leg));
      const all = [...new Set([...rest, ...draft.outputs[n].map(toGlobal)])];
      const real = all.filter((leg) => leg !== 0);
      return real.length > 0 ? real : [0];
    });
    const { inverterLegs, outputLegs } = task.rules;
    if (newLegs.some((legs) => legs.length > inverterLegs)) return;
    if (kept.some((legs, n) => legs.length > (readers[n] >= 0 ? inverterLegs : outputLegs))) return;
    slots.forEach((slot, n) => {
      this.legs[slot] = newLegs[n] ?? [];
    });
    readers.forEach((reader, n) => {
      if (reader >= 0) this.legs[reader] = kept[n];
      else this.outputs[-1 - reader] = kept[n];
    });
    this.look();
  }

  private result(work: number): Improved {
    const order = this.order.subarray(0, this.size);
    const rename = (legs: readonly number[]): number[] =>
      legs.map((leg) => (leg >= this.first ? this.first + this.place[leg - this.first] : leg));
    const draft: Draft = {
      chosen: this.draft.chosen,
      low: this.draft.low,
      inverters: Array.from(order, (slot) => rename(this.legs[slot])),
      outputs: this.outputs.map(rename),
    };
    return { draft, size: this.size, work };
  }
}
