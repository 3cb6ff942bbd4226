// Every set of wires that a few inverters can make from four inputs, once each.
//
// Idea. Truth tables of four inputs are 16-bit numbers, a join is the OR of such numbers and an inverter the complement
// of a join. What a network can deliver depends on its wires alone, not on how they are laid: a function is there by
// tick t when it is the OR of wires of at most t ticks. So not networks are listed but sets of tables, level by level:
// the wires of tick 1 are complements of joins of inputs, those of tick t + 1 complements of joins of wires up to
// tick t that were no join of wires up to tick t - 1. Within a level the tables ascend, so a set has one order and is
// met once. All joins of the wires so far are kept as one list, which grows with every wire. For every set all
// functions that are joins of it are told the number of its inverters, for all classes at once.
//
// Why it is complete. Take a network of n inverters whose outputs settle by tick t. Its inverters have tables; leave out
// doubles, constants, and every wire that is a join of others of its own tick or earlier (its consumers take those legs
// instead, no tick later). What is left, each wire at the earliest tick at which the others provide a join for it, is one
// of the sets met, or a smaller one. Functions are counted by class, so first levels that a renaming of inputs turns into
// one another count once; and of second levels that differ by a renaming which keeps the first level, at least the one
// whose sorted list of tables comes first is met: its first table is the smallest that these renamings make of it, and
// they make nothing smaller of any other of its tables.
//
// Cost. Six inverters are 25 million sets and seconds; seven are about 40 times as many and minutes, most of it in the
// last loop, which looks up one table per join. Eight would take a day: there the solver is faster (see
// build-questions.ts).
//
// Lost. Refuting each class by itself with the solver: the same seven inverters took hours.

import { INPUT_TABLES, MOVES } from './four-inputs.ts';

const INPUTS = 4;
const FUNCTIONS = 65536;

/** Ticks above this are not told apart: so few inverters need no more. */
export const MOST_TICKS = 9;

/** Told of a function that a set delivers with fewer inverters, or by an earlier tick, than any set before it. */
export type Delivery = (table: number, ticks: number, wires: readonly number[]) => void;

/** First levels: sets of complements of joins of inputs, one of each orbit under renaming, none the join of others. */
export function firstLevels(most: number): number[][] {
  const tables: number[] = [];
  for (let inputs = 1; inputs < 16; inputs++) {
    let join = 0;
    for (let i = 0; i < INPUTS; i++) if ((inputs >> i) & 1) join |= INPUT_TABLES[i];
    tables.push(~join & 0xffff);
  }
  const moved = MOVES.map((move) => tables.map((table) => tables.indexOf(move(table))));
  const found: number[][] = [];
  for (let set = 1; set < 1 << tables.length; set++) {
    const members = tables.filter((_, i) => (set >> i) & 1);
    if (members.length > most) continue;
    const isSmallest = moved.every((to) => {
      let image = 0;
      for (let i = 0; i < tables.length; i++) if ((set >> i) & 1) image |= 1 << to[i];
      return image >= set;
    });
    if (!isSmallest) continue;
    const isJoin = (table: number): boolean =>
      members.reduce(
        (join, other) => (other !== table && (other & ~table) === 0 ? join | other : join),
        0,
      ) === table;
    if (!members.some(isJoin)) found.push(members.sort((a, b) => a - b));
  }
  return found.sort((a, b) => a.length - b.length);
}

export class WireSets {
  private readonly most: number;
  private readonly tell: Delivery;
  /** `wires[0..3]` are the inputs, then the inverters, level by level. */
  private readonly wires = new Uint16Array(INPUTS + 16);
  private readonly level = new Uint8Array(INPUTS + 16);
  /** `joins[k]`: all joins of the inputs and the first k inverters; the first `count[k]` entries. */
  private readonly joins: Uint16Array[] = [];
  private readonly count = new Int32Array(17);
  /** `smallest[table]`: the smallest table that a renaming which keeps the first level turns it into. */
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
   * @param fewest by tick, 0 to MOST_TICKS, and table; kept up to date for whole classes.
   */
  constructor(most: number, fewest: readonly Uint8Array[], tell: Delivery) {
    this.most = most;
    this.tell = tell;
    this.fewest = fewest;
    for (let k = 0; k <= most; k++) this.joins.push(new Uint16Array(1 << (INPUTS + k)));
    for (const known of fewest) this.open.push(known.map((parts) => (parts > most ? 1 : 0)));
    this.wires.set(INPUT_TABLES);
    const inputs = this.joins[0];
    for (let set = 0; set < 16; set++) {
      for (let i = 0; i < INPUTS; i++) if ((set >> i) & 1) inputs[set] |= INPUT_TABLES[i];
    }
    this.count[0] = 16;
    this.deliverAll(0, 0);
  }

  /** Meets all sets whose first level is the given one (from `firstLevels`). */
  run(first: readonly number[]): void {
    first.forEach((table, k) => {
      this.wires[INPUTS + k] = table;
      this.level[INPUTS + k] = 1;
      this.joinWith(k, table);
    });
    const k = first.length;
    this.deliverAll(k, 1);
    const kept = MOVES.filter((move) => first.every((table) => first.includes(move(table))));
    for (let table = 0; table < FUNCTIONS; table++) {
      // Most first levels are kept by the renaming alone that changes nothing.
      if (kept.length === 1) this.smallest[table] = table;
      else this.smallest[table] = kept.reduce((least, move) => Math.min(least, move(table)), table);
    }
    if (k < this.most) this.nextLevel(k, 2, 0);
  }

  /** All joins of the first k inverters and one more wire. */
  private joinWith(k: number, table: number): void {
    const old = this.joins[k];
    const joins = this.joins[k + 1];
    const n = this.count[k];
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
    this.count[k + 1] = count;
  }

  /** Adds one inverter; `start` and `low` say where the joins stand that only this level may invert. */
  private add(k: number, level: number, start: number, low: number, table: number): void {
    this.wires[INPUTS + k] = table;
    this.level[INPUTS + k] = level;
    if (k + 1 === this.most) {
      const joins = this.joins[k];
      const n = this.count[k];
      const open = this.open[Math.min(level, MOST_TICKS)];
      for (let i = 0; i < n; i++) {
        const join = joins[i] | table;
        if (open[join] !== 0) this.deliver(join, level, k + 1);
      }
      return;
    }
    this.joinWith(k, table);
    this.deliverAll(k + 1, level);
    this.sameLevel(k + 1, level, start, low);
    this.nextLevel(k + 1, level + 1, this.count[start]);
  }

  private sameLevel(k: number, level: number, start: number, low: number): void {
    const joins = this.joins[start];
    const last = this.wires[INPUTS + k - 1];
    const least = level === 2 ? this.wires[INPUTS + start] : 0;
    const n = this.count[start];
    for (let i = low; i < n; i++) {
      const table = ~joins[i] & 0xffff;
      if (this.smallest[table] < least) continue;
      if (table > last && !this.isJoin(k, table)) this.add(k, level, start, low, table);
    }
  }

  /** Begins a level over the first k inverters: it inverts the joins of them from number `low` on. */
  private nextLevel(k: number, level: number, low: number): void {
    const joins = this.joins[k];
    const n = this.count[k];
    const from = level === 2 ? 16 : low;
    for (let i = from; i < n; i++) {
      const table = ~joins[i] & 0xffff;
      if (level === 2 && this.smallest[table] < table) continue;
      if (table !== 0 && !this.isJoin(k, table)) this.add(k, level, k, from, table);
    }
  }

  /** Is the table a join of the inputs and the first k inverters? */
  private isJoin(k: number, table: number): boolean {
    const wires = this.wires;
    const rest = ~table;
    let join = 0;
    for (let w = 0; w < INPUTS + k; w++) if ((wires[w] & rest) === 0) join |= wires[w];
    return join === table;
  }

  private deliverAll(k: number, level: number): void {
    const joins = this.joins[k];
    const fewest = this.fewest[Math.min(level, MOST_TICKS)];
    for (let i = 0; i < this.count[k]; i++) if (fewest[joins[i]] > k) this.deliver(joins[i], level, k);
  }

  private deliver(table: number, level: number, k: number): void {
    const ticks = Math.min(level, MOST_TICKS);
    for (const move of MOVES) {
      const member = move(table);
      for (let t = ticks; t <= MOST_TICKS; t++) {
        if (this.fewest[t][member] <= k) break;
        this.fewest[t][member] = k;
        this.open[t][member] = k > this.most ? 1 : 0;
      }
    }
    this.tell(table, ticks, Array.from(this.wires.subarray(INPUTS, INPUTS + k)));
  }
}
