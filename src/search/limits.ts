// Counted limits. Nothing in the search looks at a clock; `effort` scales these counts, so that the same input gives
// the same answer on every machine.

export type Effort = 'quick' | 'normal' | 'deep';

export interface Limits {
  /** Conflicts that the exact search may spend on one question before the ladder is tried. */
  readonly firstConflicts: number;
  /** Conflicts that the exact search may spend on one question. */
  readonly conflicts: number;
  /** Words of truth tables that a constructive step may read or write. */
  readonly words: number;
}

export const LIMITS: Readonly<Record<Effort, Limits>> = {
  quick: { firstConflicts: 2_000, conflicts: 10_000, words: 2.5e8 },
  normal: { firstConflicts: 8_000, conflicts: 60_000, words: 1.25e9 },
  deep: { firstConflicts: 100_000, conflicts: 1_000_000, words: 2e10 },
};

/** A count that runs down. */
export class Allowance {
  private left: number;

  constructor(amount: number) {
    this.left = amount;
  }

  get remaining(): number {
    return Math.max(0, this.left);
  }

  get spent(): boolean {
    return this.left <= 0;
  }

  take(amount: number): void {
    this.left -= amount;
  }
}
