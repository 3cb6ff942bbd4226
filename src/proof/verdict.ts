// What the prover is asked and what it answers.

/** Counted limits of one proof. */
export interface ProofLimits {
  /** Up to this many inputs every pattern is compared; above, a solver is asked. -1 asks the solver always. */
  readonly patternInputs: number;
  /** Conflicts that the solver may spend on all questions together. */
  readonly conflicts: number;
  /** False: a refutation is believed without being replayed. For those who look for a difference, not for a proof. */
  readonly replay?: boolean;
}

export const PROOF_LIMITS: ProofLimits = { patternInputs: 20, conflicts: 400_000 };

export interface Verdict {
  readonly verdict: 'equal' | 'different' | 'undecided';
  readonly method: 'patterns' | 'solver';
  /**
   * By patterns: how many allowed patterns were compared, up to the differing one when there is one. By solver: null.
   */
  readonly patterns: number | null;
  /** When a pattern differs: the value of every input signal by name, in the order of the system. */
  readonly counterexample?: Readonly<Record<string, 0 | 1>>;
  /** Name of the output that is wrong there, or whose delivery is at fault. */
  readonly wrongOutput?: string;
  /** Different or undecided for another cause than a pattern: a sentence that says which. */
  readonly reason?: string;
}
