// The trace of a solver run: every clause it was given, every clause it learnt and every clause it let go, in order.
// A learnt clause must follow from the clauses before it by unit propagation alone (assume it false, propagate, meet
// a conflict); that is what check-proof.ts replays. The trace is one packed list of numbers: an opcode, the number of
// literals, the literals as signed variable numbers.

export const GIVEN = 1;
export const LEARNT = 2;
export const DELETED = 3;

export class ClauseProof {
  private data = new Int32Array(1024);
  private used = 0;

  /** The packed steps. */
  get steps(): Int32Array {
    return this.data.subarray(0, this.used);
  }

  /** Appends one step; `literals` are signed variable numbers from 1 on. */
  push(opcode: typeof GIVEN | typeof LEARNT | typeof DELETED, literals: ArrayLike<number>): void {
    const need = this.used + 2 + literals.length;
    if (need > this.data.length) {
      const grown = new Int32Array(Math.max(need, this.data.length * 2));
      grown.set(this.data);
      this.data = grown;
    }
    this.data[this.used++] = opcode;
    this.data[this.used++] = literals.length;
    for (let i = 0; i < literals.length; i++) this.data[this.used++] = literals[i];
  }
}

/** The same literals in the same order. */
export function isSameClause(a: readonly number[], b: readonly number[]): boolean {
  return a.length === b.length && a.every((literal, i) => literal === b[i]);
}
