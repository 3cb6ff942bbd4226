// Every set of wires that a few inverters can make from four inputs, once each.
//
// Idea. Truth tables of four inputs are 16-bit numbers, a join is the OR of such numbers and an inverter the complement
// of a join. What a network can deliver depends on its wires alone, not on how they are laid: a function is there by
// tick t when it is the OR of wires of at most t ticks. So not networks are listed but sets of tables, level by level:
// the inverters of tick t + 1 are complements of joins of wires up to tick t that were no join of wires up to tick
// t - 1. An input that arrives at tick a joins the wires at level a. Within a level the tables ascend, so a set has one
// order and is met once. All joins of the wires so far are kept as one list, which grows with every wire. For every set
// all functions that are joins of it are told the number of its inverters, for all functions at once.
//
// Why it is complete. Take a network of n inverters whose output settles by tick t. Its inverters have tables; leave out
// doubles, constants, and every wire that is a join of others of its own tick or earlier (its consumers take those legs
// instead, no tick later). What is left, each wire at the earliest tick at which the others provide a join for it, is one
// of the sets met, or a smaller one. Renamings of inputs that keep the arrivals keep the cost, so first levels that such
// a renaming turns into one another count once; and of second levels that differ by a renaming which also keeps the
// first level, at least the one whose sorted list of tables comes first is met: its first table is the smallest that
// these renamings make of it, and they make nothing smaller of any other of its tables.
//
// Cost. All inputs at tick 0: six inverters are ten million sets and seconds; seven are about 40 times as many and
// minutes, most of it in the last loop, which looks up one table per join. Eight would take hours: there the solver is
// faster (see questions.ts). Arrivals that differ leave fewer renamings, so they cost more.
//
// Lost. Refuting each class by itself with the solver: the same seven inverters took hours.

import { INPUT_TABLES, RENAMINGS } from '../../truth/permutation-classes.ts';

const INPUTS = 4;
const FUNCTIONS = 65536;

/** Ticks above this are not told apart: so few inverters need no more. */
export const MOST_TICKS = 9;

/** All four inputs at tick 0. */
export const AT_ONCE: readonly number[] = [0, 0, 0, 0];

/** Told of a function that a set delivers with fewer inverters, or by an earlier tick, than any set before it. */
export type Delivery = (table: number, ticks: number, wires: readonly number[]) => void;

/** The renamings that keep the arrivals of the inputs, as moves of tables. */
function movesKeeping(arrivals: readonly number[]): ((table: number) => number)[] {
  const kept = RENAMINGS.filter(({ order }) => order.every((old, i) => arrivals[old] === arrivals[i]));
  return kept.map(({ move }) => move);
}

/**
 * First levels: sets of at most `most` complements of joins of the inputs that are there at tick 0, one of each orbit
 * under the renamings that keep the arrivals, none the join of others. The empty set is among them when inputs arrive
 * later.
 */
export function firstLevels(most: number, arrivals: readonly number[] = AT_ONCE): number[][] {
  const early = INPUT_TABLES.filter((_, i) => arrivals[i] === 0);
  const tables: number[] = [];
  for (let inputs = 1; inputs < 1 << early.length; inputs++) {
    tables.push(~early.reduce((join, input, i) => ((inputs >> i) & 1 ? join | input : join), 0) & 0xffff);
  }
  const moved = movesKeeping(arrivals).map((move) => tables.map((table) => tables.indexOf(move(table))));
  const found: number[][] = early.length < INPUTS ? [[]] : [];
  for (let set = 1; set < 1 << tables.length; set++) {
    const members = tables.filter((_, i) => (set >> i) & 1);
    if (members.length > most) continue;
    const isSmallest = moved.every((to) => {
      let image = 0;
      for (let i = 0; i < tables.length; i++) if ((set >> i) & 1) image |= 1 << to[i];
      return image >= set;
    });
    if (!isSmallest) continue;
    const others = (table: number): number[] =>
      members.filter((other) => other !== table && (other & ~table) === 0);
    const isJoin = (table: number): boolean =>
      others(table).reduce((join, other) => join | other, 0) === table;
    if (!members.some(isJoin)) found.push(members.sort((a, b) => a - b));
  }
  return found.sort((a, b) => a.length - b.length);
}

export class WireSets {
  private readonly most: number;
  private readonly arrivals: readonly number[];
  private readonly latest: number;
  private readonly moves: readonly ((table: number) => number)[];
  private readonly tell: Delivery;
  /** Inputs that have arrived and inverters, level by level. */
  private readonly wires = new Uint16Array(INPUTS + 16);
  /** `joins[w]`: all joins of the first w wires; the first `count[w]` entries. */
  private readonly joins: Uint16Array[] = [];
  private readonly count = new Int32Array(INPUTS + 17);
  /** `smallest[table]`: the smallest table that a renaming which keeps arrivals and first level turns it into. */
  private readonly smallest = new Uint16Array(FUNCTIONS);
  /** Marks tables that stand in the list being made. */
  private readonly mark = new Int32Array(FUNCTIONS);
  private stamp = 0;
  /** `fewest[t][table]`: fewest inverters seen for the function by tick t. The caller shares and may preset it. */
  readonly fewest: readonly Uint8Array[];
  /** `open[t][table]` is 1 while `fewest[t][table]` exceeds `most`: the last loop reads this alone. */
  private readonly open: Uint8Array[] = [];

  /**
   * @param most inverters in a set at most, 1 to 12.
   * @param fewest by tick, 0 to MOST_TICKS, and table; kept up to date for all renamings that keep the arrivals.
   * @param arrivals tick of each input; the earliest is 0.
   */
  constructor(
    most: number,
    fewest: readonly Uint8Array[],
    tell: Delivery,
    arrivals: readonly number[] = AT_ONCE,
  ) {
    this.most = most;
    this.tell = tell;
    this.fewest = fewest;
    this.arrivals = arrivals;
    this.latest = Math.max(...arrivals);
    this.moves = movesKeeping(arrivals);
    for (let w = 0; w <= INPUTS + most; w++) this.joins.push(new Uint16Array(1 << w));
    for (const known of fewest) this.open.push(known.map((parts) => (parts > most ? 1 : 0)));
    this.count[0] = 1;
    const w = this.arrive(0, 0);
    this.deliverAll(w, 0, 0);
  }

  /** Meets all sets whose first level is the given one (from `firstLevels` for the same arrivals). */
  run(first: readonly number[]): void {
    const kept = this.moves.filter((move) => first.every((table) => first.includes(move(table))));
    for (let table = 0; table < FUNCTIONS; table++) {
      // Most first levels are kept by the renaming alone that changes nothing.
      if (kept.length === 1) this.smallest[table] = table;
      else this.smallest[table] = kept.reduce((least, move) => Math.min(least, move(table)), table);
    }
    const start = this.arrive(0, 0);
    let w = this.arrive(start, 1);
    for (const table of first) this.joinWith(w++, table);
    this.deliverAll(w, 1, first.length);
    this.nextLevel(w, first.length, 2, this.count[start]);
  }

  /** The inputs that arrive at this tick join the first w wires; returns how many wires there are then. */
  private arrive(w: number, tick: number): number {
    let wires = w;
    if (tick <= this.latest) {
      for (let i = 0; i < INPUTS; i++) if (this.arrivals[i] === tick) this.joinWith(wires++, INPUT_TABLES[i]);
    }
    return wires;
  }

  /** All joins of the first w wires and one more wire. */
  private joinWith(w: number, table: number): void {
    this.wires[w] = table;
    const old = this.joins[w];
    const joins = this.joins[w + 1];
    const n = this.count[w];
    const stamp = ++this.stamp;
    const mark = this.mark;
    for (let i = 0; i < n; i++) {
      const join = old[i];
      joins[i] = join;
      mark[join] = stamp;
    }
    let count = n;
    for (let i = 0; i < n; i++) {
      const join = old[i] | table;
      if (mark[join] !== stamp) {
        mark[join] = stamp;
        joins[count++] = join;
      }
    }
    this.count[w + 1] = count;
  }

  /**
   * Adds inverter number k as wire w; the level inverts the joins of the first `start` wires from number `low` on, and
   * its own inverters begin at wire `own`.
   */
  private add(
    w: number,
    k: number,
    level: number,
    start: number,
    low: number,
    own: number,
    table: number,
  ): void {
    if (k + 1 === this.most && level >= this.latest) {
      const joins = this.joins[w];
      const n = this.count[w];
      const open = this.open[Math.min(level, MOST_TICKS)];
      this.wires[w] = table;
      for (let i = 0; i < n; i++) {
        const join = joins[i] | table;
        if (open[join] !== 0) this.deliver(join, level, k + 1, w + 1);
      }
      return;
    }
    this.joinWith(w, table);
    this.deliverAll(w + 1, level, k + 1);
    if (k + 1 < this.most) this.sameLevel(w + 1, k + 1, level, start, low, own);
    this.nextLevel(w + 1, k + 1, level + 1, this.count[start]);
  }

  private sameLevel(w: number, k: number, level: number, start: number, low: number, own: number): void {
    const joins = this.joins[start];
    const last = this.wires[w - 1];
    const least = level === 2 ? this.wires[own] : 0;
    const n = this.count[start];
    for (let i = low; i < n; i++) {
      const table = ~joins[i] & 0xffff;
      if (table <= last || this.smallest[table] < least) continue;
      if (!this.isJoin(w, table)) this.add(w, k, level, start, low, own, table);
    }
  }

  /** Begins a level over the first `start` wires: it inverts the joins of them from number `low` on. */
  private nextLevel(start: number, k: number, level: number, low: number): void {
    const w = this.arrive(start, level);
    if (w > start) this.deliverAll(w, level, k);
    if (k < this.most) {
      const joins = this.joins[start];
      const n = this.count[start];
      for (let i = low; i < n; i++) {
        const table = ~joins[i] & 0xffff;
        if (table === 0 || (level === 2 && this.smallest[table] < table)) continue;
        if (!this.isJoin(w, table)) this.add(w, k, level, start, low, w, table);
      }
    }
    // A level without inverters makes sense only while inputs are still to arrive.
    if (level <= this.latest) this.nextLevel(w, k, level + 1, this.count[start]);
  }

  /** Is the table a join of the first w wires? */
  private isJoin(w: number, table: number): boolean {
    const wires = this.wires;
    const rest = ~table;
    let join = 0;
    for (let i = 0; i < w; i++) if ((wires[i] & rest) === 0) join |= wires[i];
    return join === table;
  }

  private deliverAll(w: number, level: number, k: number): void {
    const joins = this.joins[w];
    const fewest = this.fewest[Math.min(level, MOST_TICKS)];
    for (let i = 0; i < this.count[w]; i++) {
      if (fewest[joins[i]] > k) this.deliver(joins[i], level, k, w);
    }
  }

  private deliver(table: number, level: number, k: number, w: number): void {
    const ticks = Math.min(level, MOST_TICKS);
    for (const move of this.moves) {
      const member = move(table);
      for (let t = ticks; t <= MOST_TICKS; t++) {
        if (this.fewest[t][member] <= k) break;
        this.fewest[t][member] = k;
        this.open[t][member] = k > this.most ? 1 : 0;
      }
    }
    const wires = this.wires.subarray(0, w);
    this.tell(
      table,
      ticks,
      Array.from(wires).filter((wire) => !INPUT_TABLES.includes(wire)),
    );
  }
}
