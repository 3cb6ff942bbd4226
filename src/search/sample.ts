// A sample of input patterns for systems whose whole tables are too long to work with.
//
// Idea. The moves of the search ask whether outputs stay right, row by row. On a sample they are a thousand times
// faster, and what they find is right on the sample; the caller checks every network that it wants to keep on all
// patterns, and each pattern on which one is wrong joins the sample together with its neighbours. So the sample need
// not be perfect, but a good one saves such rounds.
//
// What is drawn: patterns at random; and summits, reached from random patterns by flipping inputs so that flips change
// as many outputs as possible, with their surroundings. Summits lie on long chains of dependence that random patterns
// hardly ever excite (a carry through all bits needs every bit to pass it on), and a pattern that differs from one in a
// few short windows of inputs breaks such a chain in a few places, which shows whether these places are heeded.
//
// Patterns that a `never` forbids are drawn like others; they do not count because the tables say so.

import type { System } from '../equations/system.ts';
import type { Target } from '../target/target.ts';
import { evaluateSystem, type SystemTables } from '../truth/system-tables.ts';
import type { Table } from '../truth/table.ts';
import { Random } from './random.ts';
import { mentioned } from './substitute.ts';
import { makeTask, type Task } from './task.ts';

const MOST_CLIMBS = 24;
/** No climb begins when those before have cost so much: signals computed, times words of their tables and some for each. */
const CLIMB_WORK = 1.2e7;
const TABLE_WORK = 20;
/** Of the patterns on the way up one in so many is kept. */
const KEPT_STEP = 4;
/** Patterns around a summit differ from it in so many windows of neighbouring inputs, most of them so long. */
const MOST_WINDOWS = 5;
const MOST_WINDOW = 6;
/** Others differ from it in a few single inputs. */
const MOST_FLIPS = 4;

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
  /** What climbs have cost. */
  private climbed = 0;

  /** Draws `2^rowBits` patterns, less a part left free for counterexamples. */
  constructor(system: System, target: Target | null, rowBits: number, random: Random) {
    this.system = system;
    this.target = target;
    this.random = random;
    this.capacity = 2 ** rowBits;
    const inputs = system.inputs.length;
    for (const value of [0, 1]) this.add(new Uint8Array(inputs).fill(value));
    const drawn = this.capacity - (this.capacity >> 3);
    const anywhere = Math.min(drawn / 4, 2 ** Math.min(inputs, 30));
    for (let tries = 0; this.patterns.length < anywhere && tries < 2 * anywhere; tries++)
      this.add(this.anyPattern());
    const peaks: Pattern[] = [];
    for (let n = 0; n < MOST_CLIMBS && this.patterns.length < drawn / 2; n++) {
      if (this.climbed < CLIMB_WORK) peaks.push(this.climb());
    }
    for (const peak of peaks) {
      for (let i = 0; i < inputs && this.patterns.length < drawn / 2 + drawn / 8; i++)
        this.add(flipped(peak, [i]));
    }
    const neighbours = inputOrder(system);
    for (let tries = 0; this.patterns.length < drawn && tries < 2 * drawn; tries++) {
      const peak = peaks[this.random.below(peaks.length)];
      if (this.random.oneIn(2)) {
        const flips = 2 + this.random.below(MOST_FLIPS - 1);
        this.add(
          flipped(
            peak,
            Array.from({ length: flips }, () => this.random.below(inputs)),
          ),
        );
        continue;
      }
      const pattern = peak.slice();
      for (let windows = 1 + this.random.below(MOST_WINDOWS); windows > 0; windows--) {
        const length = 1 + this.random.below(this.random.oneIn(8) ? inputs : MOST_WINDOW);
        const from = this.random.below(inputs);
        for (let n = from; n < Math.min(inputs, from + length); n++)
          pattern[neighbours[n]] = this.random.next() & 1;
      }
      this.add(pattern);
    }
  }

  /** Adds a pattern on which a network was wrong, and some of its neighbours; the sample grows when it must. */
  addCounterexample(pattern: Pattern): void {
    this.add(pattern);
    for (let n = 0; n < 8; n++) {
      const flips = Array.from({ length: 1 + this.random.below(2) }, () => this.random.below(pattern.length));
      this.add(flipped(pattern, flips));
    }
  }

  /** Patterns that have been drawn or learnt. */
  get size(): number {
    return this.patterns.length;
  }

  /** The pattern of a row; rows beyond the last repeat the first. */
  pattern(row: number): Pattern {
    return this.patterns[row < this.patterns.length ? row : 0];
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

  /**
   * One climb: of all neighbours of a pattern go to the one whose flips change most outputs, until none changes more.
   * Keeps some patterns of the way, and returns the last.
   */
  private climb(): Pattern {
    let pattern = this.anyPattern();
    let best = -1;
    for (let step = 0; step < 2 * pattern.length; step++) {
      const near = Array.from({ length: pattern.length }, (_, i) => flipped(pattern, [i]));
      const tables = this.evaluate([pattern, ...near]);
      this.climbed += this.system.signals.length * (TABLE_WORK + tables.care.length);
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
      if (total <= best) break;
      best = total;
      if (step % KEPT_STEP === 0) this.add(pattern);
      // Walk on over the neighbour that changes most; a random one when there is nothing to choose by.
      const most = Math.max(...changes);
      const choices = changes.flatMap((count, n) => (count === most ? [n] : []));
      pattern = near[choices[this.random.below(choices.length)]];
    }
    this.add(pattern);
    return pattern;
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

function flipped(pattern: Pattern, inputs: readonly number[]): Pattern {
  const other = pattern.slice();
  for (const i of inputs) other[i] ^= 1;
  return other;
}

/** Inputs that stand together in the equations, together. */
function inputOrder(system: System): number[] {
  const index = new Map(system.inputs.map(({ signal }, i) => [signal, i]));
  const order = new Set<number>();
  for (const { expression } of system.definitions) {
    for (const signal of mentioned(expression)) {
      const i = index.get(signal);
      if (i !== undefined) order.add(i);
    }
  }
  for (let i = 0; i < system.inputs.length; i++) order.add(i);
  return [...order];
}
