// A sample of input patterns for systems whose whole tables are too long to work with.
//
// Idea. The moves of the search ask whether outputs stay right, row by row. On a sample they are a thousand times
// faster, and what they find is right on the sample; the caller checks every network that it wants to keep on all
// patterns, and each pattern on which one is wrong joins the sample together with its neighbours. So the sample need
// not be perfect, but a good one saves such rounds.
//
// What is drawn: patterns at random, and pairs of neighbours that differ in one input and, climbing from random
// patterns, change as many outputs as possible: they lie on long chains of dependence that random patterns hardly ever
// excite (a carry through all bits needs every bit to pass it on).
//
// Patterns that a `never` forbids are drawn like others; they do not count because the tables say so.

import type { System } from '../equations/system.ts';
import type { Target } from '../target/target.ts';
import { evaluateSystem, type SystemTables } from '../truth/system-tables.ts';
import type { Table } from '../truth/table.ts';
import { Random } from './random.ts';
import { makeTask, type Task } from './task.ts';

/** Values of all inputs, in the order of the system. */
export type Pattern = Uint8Array;

/** Tables over a small sample, for a system that is too wide for whole ones. */
export function sampleTables(system: System, seed: number): SystemTables {
  return new Sample(system, null, 6, new Random(seed)).tables();
}

export class Sample {
  private readonly system: System;
  private readonly target: Target | null;
  private readonly random: Random;
  private readonly patterns: Pattern[] = [];
  private readonly known = new Set<string>();
  private readonly capacity: number;

  /** Draws `2^rowBits` patterns, less a part left free for counterexamples. */
  constructor(system: System, target: Target | null, rowBits: number, random: Random) {
    this.system = system;
    this.target = target;
    this.random = random;
    this.capacity = 2 ** rowBits;
    const inputs = system.inputs.length;
    for (const value of [0, 1]) this.add(new Uint8Array(inputs).fill(value));
    const drawn = this.capacity - (this.capacity >> 3);
    while (this.patterns.length < drawn / 2) this.add(this.anyPattern());
    for (let tries = 0; this.patterns.length < drawn && tries < drawn; tries++) this.climb();
  }

  /** Adds a pattern on which a network was wrong, and some of its neighbours; the sample grows when it must. */
  addCounterexample(pattern: Pattern): void {
    this.add(pattern);
    for (let n = 0; n < 8; n++) {
      const near = pattern.slice();
      const flips = 1 + this.random.below(2);
      for (let f = 0; f < flips; f++) near[this.random.below(near.length)] ^= 1;
      this.add(near);
    }
  }

  /** The task on the rows of the sample. */
  task(): Task {
    if (this.target === null) throw new Error('a sample without a target has no task');
    return makeTask(this.system, this.tables(), this.target, false);
  }

  /** Values of all signals on the rows of the sample. */
  tables(): SystemTables {
    return this.evaluate(this.patterns);
  }

  private add(pattern: Pattern): void {
    const key = pattern.join('');
    if (this.known.has(key)) return;
    this.known.add(key);
    this.patterns.push(pattern);
  }

  private anyPattern(): Pattern {
    const pattern = new Uint8Array(this.system.inputs.length);
    for (let i = 0; i < pattern.length; i++) pattern[i] = this.random.next() & 1;
    return pattern;
  }

  /** One climb: of all neighbours of a pattern go to the one whose flips change most outputs, and keep the way. */
  private climb(): void {
    let pattern = this.anyPattern();
    let best = -1;
    for (let step = 0; step < 2 * pattern.length; step++) {
      const near = Array.from({ length: pattern.length }, (_, i) => {
        const other = pattern.slice();
        other[i] ^= 1;
        return other;
      });
      const tables = this.evaluate([pattern, ...near]);
      let total = 0;
      const changes = new Array(near.length).fill(0);
      for (const { signal } of this.system.outputs) {
        const table = tables.signals[signal];
        const here = table[0] & 1;
        for (let n = 0; n < near.length; n++) {
          const there = (table[(n + 1) >> 5] >>> ((n + 1) & 31)) & 1;
          if (there !== here) {
            changes[n]++;
            total++;
          }
        }
      }
      if (total <= best) return;
      best = total;
      this.add(pattern);
      // Walk on over the neighbour that changes most; a random one when there is nothing to choose by.
      const most = Math.max(...changes);
      const choices = changes.flatMap((count, n) => (count === most ? [n] : []));
      const chosen = choices[this.random.below(choices.length)];
      this.add(near[chosen]);
      pattern = near[chosen];
      if (this.patterns.length >= this.capacity) return;
    }
  }

  private evaluate(patterns: readonly Pattern[]): SystemTables {
    let rowBits = 5;
    while (2 ** rowBits < patterns.length) rowBits++;
    const words = (2 ** rowBits) >> 5;
    const columns: Table[] = this.system.inputs.map(() => new Uint32Array(words));
    for (let row = 0; row < 2 ** rowBits; row++) {
      const pattern = patterns[row < patterns.length ? row : 0];
      for (let i = 0; i < columns.length; i++) if (pattern[i] === 1) columns[i][row >> 5] |= 1 << (row & 31);
    }
    return evaluateSystem(this.system, columns, rowBits);
  }
}
