// Pruning: whatever can go without changing an output on the rows that count, goes.
//
// Idea. Three moves, tried in a fixed order until none succeeds: drop a leg of an inverter or of an output; let another
// wire that is there no later stand in for an inverter everywhere; drop what nobody uses. A move is kept when every
// output still has the right level on every row that is required, so don't-cares and the freedom that reconvergence
// gives (permissible functions) are used exactly, without being computed.
//
// Correctness. Each kept move was checked on whole tables. No move adds a leg, an inverter or a tick.
//
// Cost. A move re-simulates the inverters after it: (moves) x (inverters) x (words), counted against an allowance.
//
// After the transduction method (S. Muroga, Y. Kambayashi, H. C. Lai, J. N. Culliney, IEEE Trans. Computers 38 (1989)
// 1404-1424), of which this is the plainest form.

import { FIRST_INPUT, ONE, ZERO } from '../network/network.ts';
import { andInto, countBits, countRows, equal, isEmpty, nor, type Table } from '../truth/table.ts';
import { type Draft, draftTables, joinTable, requiredOff, requiredOn } from './draft.ts';
import type { Allowance } from './limits.ts';
import type { Task } from './task.ts';

/** A draft with the same outputs and no leg or inverter that can go by these moves; the same rails. */
export function pruneDraft(task: Task, draft: Draft, words: Allowance): Draft {
  const pruning = new Pruning(task, draft, words);
  while (!words.spent && pruning.round());
  return pruning.result();
}

class Pruning {
  private readonly task: Task;
  private readonly draft: Draft;
  private readonly words: Allowance;
  private readonly first: number;
  /** How many rows count. */
  private readonly rows: number;
  private readonly inverters: number[][];
  private readonly outputs: number[][];
  private readonly on: Table[];
  private readonly off: Table[];
  private tables: Table[];
  private readonly ticks: number[];

  constructor(task: Task, draft: Draft, words: Allowance) {
    this.task = task;
    this.draft = draft;
    this.words = words;
    this.first = FIRST_INPUT + task.wires.length;
    this.rows = countRows(task.care);
    this.inverters = draft.inverters.map((legs) => [...legs]);
    this.outputs = draft.outputs.map((legs) => [...legs]);
    this.on = draft.outputs.map((_, y) => requiredOn(task, y, draft.low[y]));
    this.off = draft.outputs.map((_, y) => requiredOff(task, y, draft.low[y]));
    this.tables = draftTables(task, this.inverters);
    this.ticks = [0, 0, ...task.wires.map((wire) => wire.tick)];
    for (let i = 0; i < this.inverters.length; i++) this.ticks.push(0);
    this.settle();
    this.sweep();
  }

  result(): Draft {
    const { chosen, low } = this.draft;
    return { chosen, low, inverters: this.inverters, outputs: this.outputs };
  }

  /** One pass over all moves; true when something went. */
  round(): boolean {
    let changed = false;
    for (let y = 0; y < this.outputs.length; y++) changed = this.thinJoin(y) || changed;
    for (let i = this.inverters.length - 1; i >= 0; i--) {
      if (this.words.spent) return false;
      if (this.inverters[i].length === 0) continue;
      if (this.standIn(i) || this.thinInverter(i)) changed = true;
    }
    this.sweep();
    return changed;
  }

  private thinJoin(y: number): boolean {
    const legs = this.outputs[y];
    let changed = false;
    for (let n = legs.length - 1; n >= 0 && legs.length > 1; n--) {
      const rest = legs.filter((_, other) => other !== n);
      this.words.take(legs.length * this.task.care.length);
      if (!this.outputRight(y, joinTable(this.task, this.tables, rest))) continue;
      legs.splice(n, 1);
      changed = true;
    }
    return changed;
  }

  private thinInverter(i: number): boolean {
    let changed = false;
    for (let n = this.inverters[i].length - 1; n >= 0 && this.inverters[i].length > 1; n--) {
      const legs = this.inverters[i];
      if (
        this.attempt(i, () => {
          this.inverters[i] = legs.filter((_, other) => other !== n);
        })
      )
        changed = true;
      else this.inverters[i] = legs;
    }
    return changed;
  }

  /** Another wire, no later, takes the place of inverter `i` in every leg. */
  private standIn(i: number): boolean {
    const wire = this.first + i;
    for (let w = 0; w < wire; w++) {
      if (w >= FIRST_INPUT && w < this.first && !this.draft.chosen[w - FIRST_INPUT]) continue;
      if (w >= this.first && this.inverters[w - this.first].length === 0) continue;
      if (this.ticks[w] > this.ticks[wire]) continue;
      if (this.words.spent) return false;
      const kept = this.tables[wire];
      const level = this.tables[w];
      this.words.take(this.task.care.length);
      if (!equal(kept, level) && !this.worthTrying(kept, level)) continue;
      if (this.consumersAccept(i, level)) {
        this.replaceEverywhere(wire, w);
        this.settle();
        return true;
      }
    }
    return false;
  }

  /** Wires that differ on most rows hardly ever stand in for each other. */
  private worthTrying(a: Table, b: Table): boolean {
    const { care } = this.task;
    const most = this.rows / 2;
    let differing = 0;
    for (let w = 0; w < a.length && differing <= most; w++) differing += countBits((a[w] ^ b[w]) & care[w]);
    return differing <= most;
  }

  /** Are all outputs right when inverter `i` has another level? Then the tables are those with that level. */
  private consumersAccept(i: number, level: Table): boolean {
    const before = this.tables;
    this.tables = [...before];
    this.tables[this.first + i] = level;
    if (this.resimulate(i + 1)) return true;
    this.tables = before;
    return false;
  }

  private replaceEverywhere(old: number, by: number): void {
    const swap = (legs: readonly number[]): number[] => {
      if (!legs.includes(old)) return [...legs];
      const swapped = new Set(legs.map((leg) => (leg === old ? by : leg)));
      if (swapped.size > 1) swapped.delete(ZERO);
      return swapped.has(ONE) ? [ONE] : [...swapped];
    };
    for (let k = 0; k < this.inverters.length; k++) this.inverters[k] = swap(this.inverters[k]);
    for (let y = 0; y < this.outputs.length; y++) this.outputs[y] = swap(this.outputs[y]);
    this.inverters[old - this.first] = [];
  }

  /** Applies a change of inverter `i`; keeps the new tables when all outputs are right. */
  private attempt(i: number, change: () => void): boolean {
    const before = this.tables;
    change();
    this.tables = [...before];
    if (this.resimulate(i)) {
      this.settle();
      return true;
    }
    this.tables = before;
    return false;
  }

  /** Recomputes levels from inverter `from` on where a leg changed; false as soon as an output is wrong. */
  private resimulate(from: number): boolean {
    const changed = new Uint8Array(this.tables.length);
    if (from > 0) changed[this.first + from - 1] = 1;
    for (let k = from; k < this.inverters.length; k++) {
      if (this.inverters[k].length === 0) continue;
      if (k > from && !this.inverters[k].some((leg) => changed[leg] === 1)) continue;
      const level = nor(
        this.inverters[k].map((leg) => this.tables[leg]),
        this.task.rowBits,
      );
      this.words.take(level.length * (this.inverters[k].length + 2));
      if (equal(level, this.tables[this.first + k])) continue;
      this.tables[this.first + k] = level;
      changed[this.first + k] = 1;
    }
    return this.outputs.every((legs, y) => {
      if (!legs.some((leg) => changed[leg] === 1)) return true;
      this.words.take(legs.length * this.task.care.length);
      return this.outputRight(y, joinTable(this.task, this.tables, legs));
    });
  }

  private outputRight(y: number, level: Table): boolean {
    const on = this.on[y];
    const off = this.off[y];
    for (let w = 0; w < level.length; w++)
      if ((on[w] & ~level[w]) !== 0 || (off[w] & level[w]) !== 0) return false;
    return true;
  }

  private settle(): void {
    for (let k = 0; k < this.inverters.length; k++) {
      let latest = 0;
      for (const leg of this.inverters[k]) latest = Math.max(latest, this.ticks[leg]);
      const { inverterTicks, joinTicks } = this.task.rules;
      this.ticks[this.first + k] = latest + inverterTicks + (this.inverters[k].length > 1 ? joinTicks : 0);
    }
  }

  /** Empties inverters that nothing uses, and makes inverters that never change constants. */
  private sweep(): void {
    const used = new Uint8Array(this.tables.length);
    for (const legs of this.outputs) for (const leg of legs) used[leg] = 1;
    for (let k = this.inverters.length - 1; k >= 0; k--) {
      const wire = this.first + k;
      if (used[wire] === 0) this.inverters[k] = [];
      const level = new Uint32Array(this.tables[wire]);
      andInto(level, this.task.care);
      if (used[wire] === 1 && isEmpty(level)) this.replaceEverywhere(wire, ZERO);
      for (const leg of this.inverters[k]) used[leg] = 1;
    }
  }
}
