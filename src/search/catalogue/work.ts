// What is known while the catalogue is made: for every class and every bound on ticks the fewest inverters cannot be
// below, the fewest that a network was found for, and that network. Facts come in any order, from several runs; each
// only ever tightens. A fact is one line of text, so that a run that was ended goes on from the lines it left behind:
//
//   network 6996 4 0f0f 3c3c ...   the class of 6996 has a network of these inverters (by table) that takes 4 ticks
//   none 6996 any 8                no network of 8 inverters (nor, by earlier lines, of fewer) within any ticks
//   swept 7 31                     all sets of up to 7 wires over first level number 31 were met

import { classMaps, MOVES } from '../../truth/permutation-classes.ts';
import type { FiledNetwork } from './catalogue-file.ts';
import { layNetwork, outputTable, type SmallNetwork, ticksOf, withoutIdleInputs } from './lay.ts';
import { firstLevels, MOST_TICKS } from './wire-sets.ts';

/** Bounds on ticks are 0 to ANY - 1; ANY is no bound at all. */
export const ANY = MOST_TICKS;
export const UNKNOWN = 99;

export class CatalogueWork {
  readonly tables: readonly number[];
  readonly classOf: Uint16Array;
  /** `refuted[t][c]`: the solver has shown that class c takes at least so many inverters within t ticks. */
  private readonly refuted: Uint8Array[] = [];
  /** `upper[t][c]`: a network of class c within t ticks has so many; UNKNOWN when none was found. */
  readonly upper: Uint8Array[] = [];
  /** `networks[t][c]`: such a network, of the representative. */
  readonly networks: (SmallNetwork | null)[][] = [];
  /** By number of inverters, the first levels that were swept. */
  private readonly swept = new Map<number, Set<number>>();
  private readonly levelCounts = new Map<number, number>();
  /** The largest sweep that is complete. */
  private complete = -1;

  constructor() {
    const { tables, classOf } = classMaps();
    this.tables = [...tables];
    this.classOf = classOf;
    for (let t = 0; t <= ANY; t++) {
      this.refuted.push(new Uint8Array(tables.length));
      this.upper.push(new Uint8Array(tables.length).fill(UNKNOWN));
      this.networks.push(this.tables.map(() => null));
    }
    this.learn('network ffff 0');
  }

  /** Takes in one line; returns whether it says something new. Throws when it cannot be true. */
  learn(line: string): boolean {
    const [word, ...rest] = line.trim().split(' ');
    if (word === 'network') {
      const [table, ticks, ...wires] = rest;
      return this.learnNetwork(
        Number.parseInt(table, 16),
        Number(ticks),
        wires.map((wire) => Number.parseInt(wire, 16)),
      );
    }
    if (word === 'none') {
      const [table, ticks, size] = rest;
      const c = this.classOf[Number.parseInt(table, 16)];
      return this.raise(c, ticks === 'any' ? ANY : Number(ticks), Number(size) + 1);
    }
    if (word === 'swept') return this.learnSwept(Number(rest[0]), Number(rest[1]));
    throw new Error(`not a fact: ${line}`);
  }

  /** Has the sweep met all sets over this first level? */
  hasSwept(most: number, level: number): boolean {
    return this.complete >= most || (this.swept.get(most)?.has(level) ?? false);
  }

  /** Is the point of this class at this bound settled: proved smallest, or proved impossible? */
  isProved(c: number, t: number): boolean {
    return this.least(c, t) >= this.upper[t][c] || this.least(c, t) >= UNKNOWN;
  }

  /** Class c takes at least so many inverters within t ticks; UNKNOWN when no number is enough. */
  least(c: number, t: number): number {
    const known = this.upper[t][c];
    // What the sweep has not met takes more. Within one tick and none no number is enough then: the legs of the output
    // are inputs and complements of joins of inputs, none inside another, and of those there are six at most.
    const swept = known <= this.complete ? known : t < 2 && this.complete >= 6 ? UNKNOWN : this.complete + 1;
    return Math.max(swept, this.refuted[t][c]);
  }

  private learnNetwork(table: number, ticks: number, wires: readonly number[]): boolean {
    const c = this.classOf[table];
    const bound = Math.min(ticks, ANY);
    if (this.upper[bound][c] <= wires.length) return false;
    const move = MOVES.find((candidate) => candidate(table) === this.tables[c]);
    const laid = move === undefined ? null : layNetwork(this.tables[c], ticks, wires.map(move));
    const network = laid === null ? null : withoutIdleInputs(laid, this.tables[c]);
    if (network === null || ticksOf(network) > ticks || outputTable(network) !== this.tables[c])
      throw new Error(`these wires do not make ${table.toString(16)}`);
    for (let t = Math.min(ticksOf(network), ANY); t <= ANY; t++) {
      if (this.upper[t][c] <= wires.length) break;
      if (this.refuted[t][c] > wires.length)
        throw new Error(`a refutation of ${table.toString(16)} is wrong`);
      this.upper[t][c] = wires.length;
      this.networks[t][c] = network;
    }
    return true;
  }

  private raise(c: number, t: number, least: number): boolean {
    let isNew = false;
    for (let s = 0; s <= t; s++) {
      if (this.refuted[s][c] >= least) continue;
      if (this.upper[s][c] < least)
        throw new Error(`a refutation of ${this.tables[c].toString(16)} is wrong`);
      this.refuted[s][c] = least;
      isNew = true;
    }
    return isNew;
  }

  private learnSwept(most: number, level: number): boolean {
    const levels = this.swept.get(most) ?? new Set();
    if (levels.has(level)) return false;
    this.swept.set(most, levels.add(level));
    const count = this.levelCounts.get(most) ?? firstLevels(most).length;
    this.levelCounts.set(most, count);
    if (most <= this.complete || levels.size < count) return true;
    this.complete = most;
    return true;
  }

  /** The curve of a class, fastest first. */
  curve(c: number): FiledNetwork[] {
    const curve: FiledNetwork[] = [];
    for (let t = 0; t <= ANY; t++) {
      const network = this.networks[t][c];
      const parts = this.upper[t][c];
      if (network === null || (t > 0 && this.upper[t - 1][c] === parts)) continue;
      let proved = true;
      for (let s = t; s <= ANY && this.upper[s][c] === parts; s++) proved &&= this.isProved(c, s);
      curve.push({ proved, network });
    }
    return curve;
  }

  /** The largest sweep that is complete. */
  get sweptTo(): number {
    return this.complete;
  }
}
