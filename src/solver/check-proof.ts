// Replays the trace of a solver run and says whether it really refutes the clauses it was given.
//
// Idea. A learnt clause is accepted when assuming all its literals false and propagating units leads to a conflict
// (reverse unit propagation). If the empty clause is accepted, the given clauses contradict each other. Whoever
// trusts this file need not trust the solver: nothing is shared with it but the format of the trace.
//
// Cost. One propagation a learnt clause, over clauses indexed by two watched literals; clauses that the solver let go
// are let go here as well, found by a text of their literals. What is asked of every literal stands in arrays, with the
// literal plus the largest variable as index: with maps the replay took four times the time of the search.
//
// Method: E. Goldberg and Y. Novikov, "Verification of Proofs of Unsatisfiability for CNF Formulas", 2003 (from
// memory); written afresh.

import { DELETED, GIVEN, LEARNT } from './clause-proof.ts';

interface Clause {
  readonly literals: number[];
  live: boolean;
}

/** What the replay found: `refuted` when the empty clause was derived and every step before it holds. */
export interface ProofCheck {
  readonly refuted: boolean;
  /** Learnt clauses replayed. */
  readonly replayed: number;
  /** First learnt clause (counted from 0) that does not follow, or null. */
  readonly wrongStep: number | null;
}

/**
 * Replays a packed trace (see clause-proof.ts). The caller must compare the given clauses with the ones it meant:
 * `onGiven` is called with each of them in order.
 */
export function checkProof(
  steps: Int32Array,
  onGiven: (literals: readonly number[]) => void = () => {},
): ProofCheck {
  const { most, letsGo } = extent(steps);
  const truth = new Uint8Array(2 * most + 1); // by literal + most: holds without assumption
  const watching: (Clause[] | undefined)[] = new Array(2 * most + 1); // by the literal that is watched, + most
  const byText = new Map<string, Clause[]>();
  let refuted = false;
  let replayed = 0;

  const list = (literal: number): Clause[] => {
    let found = watching[literal + most];
    if (found === undefined) {
      found = [];
      watching[literal + most] = found;
    }
    return found;
  };

  /** Makes the literals true and all that follows; returns true on a conflict. Undone by the caller via `trail`. */
  const propagate = (start: readonly number[], trail: number[]): boolean => {
    const put = (literal: number): boolean => {
      if (truth[most - literal] === 1) return false;
      if (truth[most + literal] === 0) {
        truth[most + literal] = 1;
        trail.push(literal);
      }
      return true;
    };
    for (const literal of start) if (!put(literal)) return true;
    for (let head = 0; head < trail.length; head++) {
      const falsified = -trail[head];
      const clauses = watching[most + falsified];
      if (clauses === undefined) continue;
      let keep = 0;
      for (let i = 0; i < clauses.length; i++) {
        const clause = clauses[i];
        if (!clause.live) continue;
        const { literals } = clause;
        if (literals[0] === falsified) {
          literals[0] = literals[1];
          literals[1] = falsified;
        }
        let at = truth[most + literals[0]] === 1 ? literals.length : 2;
        while (at < literals.length && truth[most - literals[at]] === 1) at++;
        if (at < literals.length) {
          literals[1] = literals[at];
          literals[at] = falsified;
          list(literals[1]).push(clause);
          continue;
        }
        clauses[keep++] = clause;
        if (!put(literals[0])) {
          for (i++; i < clauses.length; i++) clauses[keep++] = clauses[i];
          clauses.length = keep;
          return true;
        }
      }
      clauses.length = keep;
    }
    return false;
  };

  /** Adds a clause for good; watches are put on literals that are not false, so units propagate at once. */
  const add = (literals: readonly number[]): void => {
    const all = new Set(literals);
    const distinct = [...all];
    if (distinct.some((literal) => all.has(-literal))) return;
    const key = letsGo ? keyOf(distinct) : '';
    distinct.sort((a, b) => truth[most - a] - truth[most - b]);
    const clause = { literals: distinct, live: true };
    const same = byText.get(key);
    if (letsGo && same === undefined) byText.set(key, [clause]);
    else same?.push(clause);
    if (distinct.length > 1) for (const literal of distinct.slice(0, 2)) list(literal).push(clause);
    const unit = distinct.length === 0 || distinct.slice(1).every((literal) => truth[most - literal] === 1);
    if (unit && (distinct.length === 0 || propagate([distinct[0]], []))) refuted = true;
  };

  for (let at = 0; at < steps.length && !refuted; ) {
    const opcode = steps[at];
    const literals = Array.from(steps.subarray(at + 2, at + 2 + steps[at + 1]));
    at += 2 + literals.length;
    if (opcode === GIVEN) {
      onGiven(literals);
      add(literals);
    } else if (opcode === LEARNT) {
      const trail: number[] = [];
      const follows = propagate(
        literals.map((literal) => -literal),
        trail,
      );
      for (const literal of trail) truth[most + literal] = 0;
      if (!follows) return { refuted: false, replayed, wrongStep: replayed };
      replayed++;
      add(literals);
    } else if (opcode === DELETED) {
      const clause = byText.get(keyOf(literals))?.pop();
      if (clause !== undefined) clause.live = false;
    }
  }
  return { refuted, replayed, wrongStep: null };
}

/** The largest variable of a trace, and whether clauses are let go in it. */
function extent(steps: Int32Array): { readonly most: number; readonly letsGo: boolean } {
  let most = 0;
  let letsGo = false;
  for (let at = 0; at < steps.length; at += 2 + steps[at + 1]) {
    if (steps[at] === DELETED) letsGo = true;
    for (let i = 0; i < steps[at + 1]; i++) most = Math.max(most, Math.abs(steps[at + 2 + i]));
  }
  return { most, letsGo };
}

function keyOf(literals: readonly number[]): string {
  return [...literals].sort((a, b) => a - b).join(' ');
}
