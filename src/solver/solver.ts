// A conflict-driven clause-learning solver: is there an assignment that satisfies all clauses?
//
// Idea. Decide a variable, propagate what follows (every clause watches two of its literals, so that only clauses
// whose watched literal became false are visited), and when a clause becomes false, derive by resolution the reason:
// a new clause with exactly one literal of the current level (the first unique implication point). The clause is
// kept, the solver jumps back to where it becomes a unit, and goes on. Variables that took part in conflicts are
// decided first; the last value of a variable is tried again; restarts come when recent clauses are worse than usual
// (measured in the number of levels they span); the worse half of the learnt clauses is dropped from time to time.
//
// Correctness. Learnt clauses are resolvents, so they follow from the given ones; "unsatisfiable" means that the empty
// clause was derived (or, under assumptions, that they contradict each other). With a ClauseProof attached every
// learnt clause is written down and can be replayed by check-proof.ts, which shares no code with this file.
//
// Cost. Exponential in the worst case; limits are counted in conflicts, never in time, so that the same clauses in the
// same order give the same answer on every machine. All state is in typed arrays: clauses in one arena
// (size, quality, literals...), watch lists as packed (clause, blocking literal) pairs.
//
// Lost. Clause vivification and inprocessing brought nothing on the small dense questions of the exact search and
// would have to be logged as well.
//
// Source: the method is common knowledge of the field since the late 1990s (conflict-driven learning, two watched
// literals, activity-based decisions); everything here is written afresh.

import { type ClauseProof, DELETED, GIVEN, LEARNT } from './clause-proof.ts';
import { DecisionHeap } from './decision-heap.ts';

export type SolverAnswer = 'satisfiable' | 'unsatisfiable' | 'undecided';

const HEADER = 2;
const NO_REASON = -1;

export class Solver {
  /** Conflicts met since the solver was made; the unit in which limits are given. */
  conflicts = 0;
  /** Literals propagated since the solver was made. */
  propagations = 0;

  private variables = 0;
  private contradiction = false;

  // Clause arena. At a reference: number of literals, levels spanned (0 for a given clause), then the literals.
  private arena = new Int32Array(1 << 12);
  private arenaUsed = 0;
  private given: number[] = [];
  private learnt: number[] = [];

  // Watch lists by literal: visited when that literal becomes true. Pairs of (clause, blocking literal).
  private watches: Int32Array[] = [];
  private watchSizes = new Int32Array(16);

  // Assignment. Literal 2v is variable v, 2v+1 its negation. levelOf and reasonOf are stale for unassigned variables.
  private values = new Int8Array(16);
  private levelOf = new Int32Array(8);
  private reasonOf = new Int32Array(8);
  private phase = new Uint8Array(8);
  private trail = new Int32Array(8);
  private trailSize = 0;
  private trailHead = 0;
  private levelStart = new Int32Array(8);
  private level = 0;

  private readonly order = new DecisionHeap();
  private seen = new Uint8Array(8);
  private model = new Int8Array(8);
  private levelStamp = new Int32Array(9);
  private stamp = 0;
  private readonly clause: number[] = [];
  private readonly toClear: number[] = [];
  private readonly stack: number[] = [];

  private fastQuality = 0;
  private slowQuality = 0;
  private reduceAt = 2000;
  private reductions = 0;

  private readonly proof: ClauseProof | null;

  constructor(proof: ClauseProof | null = null) {
    this.proof = proof;
  }

  /** Number of variables made so far. */
  get variableCount(): number {
    return this.variables;
  }

  /** Makes a variable and returns its number (from 1 on), with the value to try first. */
  newVariable(firstValue = false): number {
    const v = this.variables++;
    if (v >= this.levelOf.length) this.growVariables(v + 1);
    this.phase[v] = firstValue ? 1 : 0;
    this.watches.push(new Int32Array(0), new Int32Array(0));
    this.order.insert(v);
    return v + 1;
  }

  /**
   * Adds a clause of signed variable numbers. May be called between calls of `solve`.
   * Returns false when the clauses are now known to be contradictory.
   */
  addClause(literals: ArrayLike<number>): boolean {
    if (this.contradiction) return false;
    this.proof?.push(GIVEN, literals);
    this.backtrack(0);
    const clause: number[] = [];
    let dropped = false;
    for (let i = 0; i < literals.length; i++) {
      const literal = internal(literals[i]);
      const value = this.values[literal];
      if (value > 0 || clause.includes(literal ^ 1)) return true;
      if (value < 0) dropped = true;
      else if (!clause.includes(literal)) clause.push(literal);
    }
    if (dropped) this.log(LEARNT, clause);
    if (clause.length === 0) {
      this.contradiction = true;
      return false;
    }
    if (clause.length === 1) {
      this.assign(clause[0], NO_REASON);
      if (this.propagate() >= 0) this.refute();
      return !this.contradiction;
    }
    this.given.push(this.attach(clause, 0));
    return true;
  }

  /**
   * Searches for an assignment under the given assumptions (signed variable numbers), with at most `maxConflicts`
   * further conflicts. After 'satisfiable', `value` tells the assignment until the next call.
   */
  solve(assumptions: readonly number[] = [], maxConflicts = Number.POSITIVE_INFINITY): SolverAnswer {
    if (this.contradiction) return 'unsatisfiable';
    this.backtrack(0);
    const assumed = assumptions.map(internal);
    const stopAt = this.conflicts + maxConflicts;
    let sinceRestart = 0;
    for (;;) {
      const conflict = this.propagate();
      if (conflict >= 0) {
        this.conflicts++;
        sinceRestart++;
        if (this.level === 0) {
          this.refute();
          return 'unsatisfiable';
        }
        this.learn(conflict);
        if (this.conflicts >= stopAt) {
          this.backtrack(0);
          return 'undecided';
        }
        continue;
      }
      if (sinceRestart > 100 && this.fastQuality > 1.15 * this.slowQuality) {
        sinceRestart = 0;
        this.fastQuality = this.slowQuality;
        this.backtrack(0);
        continue;
      }
      if (this.conflicts >= this.reduceAt) {
        this.reductions++;
        this.reduceAt = this.conflicts + 2000 + 500 * this.reductions;
        this.reduce();
      }
      let next = -1;
      while (this.level < assumed.length) {
        const literal = assumed[this.level];
        if (this.values[literal] > 0) this.openLevel();
        else if (this.values[literal] < 0) {
          this.backtrack(0);
          return 'unsatisfiable';
        } else {
          next = literal;
          break;
        }
      }
      if (next < 0) {
        while (!this.order.empty) {
          const v = this.order.pop();
          if (this.values[2 * v] === 0) {
            next = 2 * v + (this.phase[v] === 1 ? 0 : 1);
            break;
          }
        }
        if (next < 0) {
          if (this.model.length < this.variables) this.model = new Int8Array(this.levelOf.length);
          for (let v = 0; v < this.variables; v++) this.model[v] = this.values[2 * v];
          this.backtrack(0);
          return 'satisfiable';
        }
      }
      this.openLevel();
      this.assign(next, NO_REASON);
    }
  }

  /** Value of a variable (from 1 on) in the last satisfying assignment. */
  value(variable: number): boolean {
    return this.model[variable - 1] > 0;
  }

  private growVariables(count: number): void {
    const capacity = Math.max(count, this.levelOf.length * 2);
    this.levelOf = grown(this.levelOf, capacity);
    this.reasonOf = grown(this.reasonOf, capacity);
    this.trail = grown(this.trail, capacity);
    this.levelStart = grown(this.levelStart, capacity + 1);
    this.levelStamp = grown(this.levelStamp, capacity + 1);
    this.watchSizes = grown(this.watchSizes, 2 * capacity);
    const values = new Int8Array(2 * capacity);
    values.set(this.values);
    this.values = values;
    const phase = new Uint8Array(capacity);
    phase.set(this.phase);
    this.phase = phase;
    const seen = new Uint8Array(capacity);
    seen.set(this.seen);
    this.seen = seen;
    this.order.reserve(capacity);
  }

  private refute(): void {
    this.contradiction = true;
    this.log(LEARNT, []);
  }

  private log(opcode: typeof LEARNT | typeof DELETED, literals: readonly number[]): void {
    this.proof?.push(opcode, literals.map(external));
  }

  private attach(literals: readonly number[], quality: number): number {
    const need = this.arenaUsed + HEADER + literals.length;
    if (need > this.arena.length) this.arena = grown(this.arena, Math.max(need, this.arena.length * 2));
    const reference = this.arenaUsed;
    this.arena[reference] = literals.length;
    this.arena[reference + 1] = quality;
    for (let i = 0; i < literals.length; i++) this.arena[reference + HEADER + i] = literals[i];
    this.arenaUsed = need;
    this.watch(literals[0] ^ 1, reference, literals[1]);
    this.watch(literals[1] ^ 1, reference, literals[0]);
    return reference;
  }

  private watch(literal: number, reference: number, blocker: number): void {
    let list = this.watches[literal];
    const size = this.watchSizes[literal];
    if (size + 2 > list.length) {
      list = grown(list, Math.max(8, list.length * 2));
      this.watches[literal] = list;
    }
    list[size] = reference;
    list[size + 1] = blocker;
    this.watchSizes[literal] = size + 2;
  }

  private openLevel(): void {
    this.levelStart[this.level++] = this.trailSize;
  }

  private assign(literal: number, reason: number): void {
    this.values[literal] = 1;
    this.values[literal ^ 1] = -1;
    const v = literal >> 1;
    this.levelOf[v] = this.level;
    this.reasonOf[v] = reason;
    this.trail[this.trailSize++] = literal;
  }

  private backtrack(level: number): void {
    if (this.level <= level) return;
    const start = this.levelStart[level];
    for (let i = this.trailSize - 1; i >= start; i--) {
      const literal = this.trail[i];
      this.values[literal] = 0;
      this.values[literal ^ 1] = 0;
      this.phase[literal >> 1] = (literal & 1) ^ 1;
      this.order.insert(literal >> 1);
    }
    this.trailSize = start;
    this.trailHead = start;
    this.level = level;
  }

  /** Returns the clause that became false, or -1. */
  private propagate(): number {
    const { values, watches, watchSizes } = this;
    while (this.trailHead < this.trailSize) {
      const literal = this.trail[this.trailHead++];
      const list = watches[literal];
      const size = watchSizes[literal];
      const falsified = literal ^ 1;
      this.propagations++;
      let keep = 0;
      for (let i = 0; i < size; i += 2) {
        const blocker = list[i + 1];
        if (values[blocker] > 0) {
          list[keep++] = list[i];
          list[keep++] = blocker;
          continue;
        }
        const reference = list[i];
        const arena = this.arena;
        const first = reference + HEADER;
        const other = arena[first] ^ arena[first + 1] ^ falsified;
        if (values[other] > 0) {
          list[keep++] = reference;
          list[keep++] = other;
          continue;
        }
        const end = first + arena[reference];
        let at = first + 2;
        while (at < end && values[arena[at]] < 0) at++;
        if (at < end) {
          const replacement = arena[at];
          arena[first] = other;
          arena[first + 1] = replacement;
          arena[at] = falsified;
          this.watch(replacement ^ 1, reference, other);
          continue;
        }
        arena[first] = other;
        arena[first + 1] = falsified;
        list[keep++] = reference;
        list[keep++] = other;
        if (values[other] < 0) {
          for (i += 2; i < size; i++) list[keep++] = list[i];
          watchSizes[literal] = keep;
          return reference;
        }
        this.assign(other, reference);
      }
      watchSizes[literal] = keep;
    }
    return -1;
  }

  /** Derives the clause of the first unique implication point, jumps back and asserts it. */
  private learn(conflict: number): void {
    const { clause, seen, levelOf, reasonOf, toClear } = this;
    clause.length = 0;
    clause.push(0);
    toClear.length = 0;
    let open = 0;
    let at = this.trailSize - 1;
    let reference = conflict;
    let resolved = -1;
    for (;;) {
      const first = reference + HEADER;
      const end = first + this.arena[reference];
      for (let i = first; i < end; i++) {
        const literal = this.arena[i];
        const v = literal >> 1;
        if (literal === resolved || seen[v] === 1 || levelOf[v] === 0) continue;
        seen[v] = 1;
        toClear.push(v);
        this.order.bump(v);
        if (levelOf[v] === this.level) open++;
        else clause.push(literal);
      }
      while (seen[this.trail[at] >> 1] === 0) at--;
      resolved = this.trail[at--];
      if (--open === 0) break;
      reference = reasonOf[resolved >> 1];
    }
    clause[0] = resolved ^ 1;

    let kept = 1;
    for (let i = 1; i < clause.length; i++) if (!this.redundant(clause[i])) clause[kept++] = clause[i];
    clause.length = kept;
    for (const v of toClear) seen[v] = 0;

    let jump = 0;
    for (let i = 1; i < clause.length; i++) {
      if (levelOf[clause[i] >> 1] > jump) {
        jump = levelOf[clause[i] >> 1];
        const swap = clause[1];
        clause[1] = clause[i];
        clause[i] = swap;
      }
    }
    const quality = this.levelsSpanned(clause);
    this.fastQuality += (quality - this.fastQuality) / 32;
    this.slowQuality += (quality - this.slowQuality) / Math.min(this.conflicts, 4096);
    this.order.decay(0.9);
    this.log(LEARNT, clause);
    this.backtrack(jump);
    if (clause.length === 1) this.assign(clause[0], NO_REASON);
    else {
      const added = this.attach(clause, quality);
      this.learnt.push(added);
      this.assign(clause[0], added);
    }
  }

  /** A literal of a learnt clause can go when the others imply it: all its reasons end in the clause or at level 0. */
  private redundant(literal: number): boolean {
    const { seen, levelOf, reasonOf, toClear, stack } = this;
    if (reasonOf[literal >> 1] === NO_REASON) return false;
    const mark = toClear.length;
    stack.length = 0;
    stack.push(literal >> 1);
    while (stack.length > 0) {
      const reference = reasonOf[stack.pop() as number];
      const first = reference + HEADER;
      const end = first + this.arena[reference];
      for (let i = first; i < end; i++) {
        const v = this.arena[i] >> 1;
        if (seen[v] === 1 || levelOf[v] === 0) continue;
        if (reasonOf[v] === NO_REASON) {
          for (let j = mark; j < toClear.length; j++) seen[toClear[j]] = 0;
          toClear.length = mark;
          return false;
        }
        seen[v] = 1;
        toClear.push(v);
        stack.push(v);
      }
    }
    return true;
  }

  private levelsSpanned(clause: readonly number[]): number {
    this.stamp++;
    let count = 0;
    for (const literal of clause) {
      const level = this.levelOf[literal >> 1];
      if (this.levelStamp[level] !== this.stamp) {
        this.levelStamp[level] = this.stamp;
        count++;
      }
    }
    return count;
  }

  /** Drops the worse half of the learnt clauses that are neither excellent nor in use, and packs the arena. */
  private reduce(): void {
    this.backtrack(0);
    const candidates = this.learnt.filter((reference) => this.arena[reference + 1] > 2);
    candidates.sort(
      (a, b) => this.arena[b + 1] - this.arena[a + 1] || this.arena[b] - this.arena[a] || a - b,
    );
    const dropped = new Set(candidates.slice(0, candidates.length >> 1));
    for (let i = 0; i < this.trailSize; i++) {
      const reason = this.reasonOf[this.trail[i] >> 1];
      if (reason !== NO_REASON) this.reasonOf[this.trail[i] >> 1] = NO_REASON;
    }
    if (this.proof !== null) {
      for (const reference of dropped) {
        const first = reference + HEADER;
        this.log(DELETED, Array.from(this.arena.subarray(first, first + this.arena[reference])));
      }
    }
    const old = this.arena;
    this.arena = new Int32Array(old.length);
    this.arenaUsed = 0;
    this.watchSizes.fill(0);
    const move = (reference: number): number =>
      this.attach(
        Array.from(old.subarray(reference + HEADER, reference + HEADER + old[reference])),
        old[reference + 1],
      );
    this.given = this.given.map(move);
    this.learnt = this.learnt.filter((reference) => !dropped.has(reference)).map(move);
  }
}

function grown(array: Int32Array, length: number): Int32Array<ArrayBuffer> {
  const copy = new Int32Array(length);
  copy.set(array);
  return copy;
}

function internal(literal: number): number {
  return literal > 0 ? 2 * (literal - 1) : 2 * (-literal - 1) + 1;
}

function external(literal: number): number {
  return (literal & 1) === 0 ? (literal >> 1) + 1 : -((literal >> 1) + 1);
}
