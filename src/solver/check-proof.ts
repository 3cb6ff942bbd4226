// Replays the trace of a solver run and says whether it really refutes the clauses it was given.
//
// Idea. A learnt clause is accepted when assuming all its literals false and propagating units leads to a conflict
// (reverse unit propagation). If the empty clause is accepted, the given clauses contradict each other. Whoever
// trusts this file need not trust the solver: nothing is shared with it but the format of the trace.
//
// Cost. One propagation a learnt clause, over clauses indexed by two watched literals; clauses that the solver let go
// are let go here as well, found by a text of their literals. All literals of all clauses stand in one array, a clause
// is the place where it begins, and what is asked of every literal stands in arrays with the literal plus the largest
// variable as index. With maps the replay took four times the time of the search, with an object for every clause twice.
//
// Method: E. Goldberg and Y. Novikov, "Verification of Proofs of Unsatisfiability for CNF Formulas", 2003 (from
// memory); written afresh.

import { DELETED, GIVEN, isSameClause, LEARNT } from './clause-proof.ts';

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
  const watching: (number[] | undefined)[] = new Array(2 * most + 1); // by the literal that is watched, + most
  const byText = new Map<string, number[]>();
  // A clause is an index into `pool`: there stands its length, or 0 when it was let go, and behind it its literals. No
  // clause takes more room here than in the trace.
  const pool = new Int32Array(steps.length);
  let poolEnd = 0;
  // Literals made true, in order; those before `trailStart` for good.
  const trail = new Int32Array(most + 1);
  let trailStart = 0;
  let trailEnd = 0;
  let refuted = false;
  let replayed = 0;

  const watch = (literal: number, clause: number): void => {
    const found = watching[literal + most];
    if (found === undefined) watching[literal + most] = [clause];
    else found.push(clause);
  };

  /** Makes a literal true; false when its opposite is true already. */
  const put = (literal: number): boolean => {
    if (truth[most - literal] === 1) return false;
    if (truth[most + literal] === 0) {
      truth[most + literal] = 1;
      trail[trailEnd++] = literal;
    }
    return true;
  };

  /** Makes true all that follows from the trail from `trailStart` on; returns true on a conflict. */
  const propagate = (): boolean => {
    for (let head = trailStart; head < trailEnd; head++) {
      const falsified = -trail[head];
      const clauses = watching[most + falsified];
      if (clauses === undefined) continue;
      const count = clauses.length;
      let keep = 0;
      for (let i = 0; i < count; i++) {
        const clause: number = clauses[i];
        const length = pool[clause];
        if (length === 0) continue;
        const first = clause + 1;
        if (pool[first] === falsified) {
          pool[first] = pool[first + 1];
          pool[first + 1] = falsified;
        }
        const other = pool[first];
        if (truth[most + other] === 1) {
          clauses[keep++] = clause;
          continue;
        }
        const end = first + length;
        let at = first + 2;
        while (at < end && truth[most - pool[at]] === 1) at++;
        if (at < end) {
          const next = pool[at];
          pool[first + 1] = next;
          pool[at] = falsified;
          watch(next, clause);
          continue;
        }
        clauses[keep++] = clause;
        if (!put(other)) {
          for (i++; i < count; i++) clauses[keep++] = clauses[i];
          clauses.length = keep;
          return true;
        }
      }
      clauses.length = keep;
    }
    return false;
  };

  /** Does the clause follow by propagation alone? Leaves nothing but moved watches. */
  const follows = (from: number, to: number): boolean => {
    let conflict = false;
    for (let i = from; i < to && !conflict; i++) conflict = !put(-steps[i]);
    conflict ||= propagate();
    while (trailEnd > trailStart) truth[most + trail[--trailEnd]] = 0;
    return conflict;
  };

  /** Adds a clause for good; watches are put on literals that are not false, so units propagate at once. */
  const add = (literals: readonly number[]): void => {
    const all = new Set(literals);
    const distinct = [...all];
    if (distinct.some((literal) => all.has(-literal))) return;
    const clause = poolEnd;
    if (letsGo) {
      const key = keyOf(distinct);
      const same = byText.get(key);
      if (same === undefined) byText.set(key, [clause]);
      else same.push(clause);
    }
    distinct.sort((a, b) => truth[most - a] - truth[most - b]);
    pool[poolEnd++] = distinct.length;
    for (const literal of distinct) pool[poolEnd++] = literal;
    if (distinct.length > 1) for (const literal of distinct.slice(0, 2)) watch(literal, clause);
    if (distinct.slice(1).some((literal) => truth[most - literal] === 0)) return;
    if (distinct.length === 0 || !put(distinct[0]) || propagate()) refuted = true;
    trailStart = trailEnd;
  };

  // A given clause that only repeats the learnt one right before it is not watched a second time.
  let before: readonly number[] = [];
  for (let at = 0; at < steps.length && !refuted; ) {
    const opcode = steps[at];
    const literals = Array.from(steps.subarray(at + 2, at + 2 + steps[at + 1]));
    if (opcode === GIVEN) {
      onGiven(literals);
      if (literals.length === 0 || !isSameClause(literals, before)) add(literals);
    } else if (opcode === LEARNT) {
      if (!follows(at + 2, at + 2 + literals.length))
        return { refuted: false, replayed, wrongStep: replayed };
      replayed++;
      add(literals);
    } else if (opcode === DELETED) {
      const clause = byText.get(keyOf(literals))?.pop();
      if (clause !== undefined) pool[clause] = 0;
    }
    before = opcode === LEARNT ? literals : [];
    at += 2 + literals.length;
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
