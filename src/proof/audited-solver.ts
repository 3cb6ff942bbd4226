// A solver whose "no" can be believed. Every clause that stands for the equations, the network or the question is
// written down here, apart from the solver. At the end the trace of the solver is replayed by check-proof.ts, and its
// given clauses are compared with those written down.
//
// Lemmas. The solver answers under assumptions as well, and such an answer leaves no clause in the trace. But when it
// says that the literal a without b is impossible, then at that moment propagation alone leads from a to b (or to a
// conflict): that is how it found out. So the clause (NOT a, b) follows from the clauses of the trace in the very way
// in which a learnt clause must, and it is appended as learnt, to be replayed like the others, and then handed to the
// solver. In the trace it stands twice, as learnt and right behind it as given; a given clause that only repeats the
// learnt one before it adds nothing, which is what `replay` allows and nothing else.
//
// Lost. A fresh solver for every question would need no such argument, but loads a cone of thousands of clauses a
// thousand times; activation literals would make every later proof depend on clauses that are never retired.

import { checkProof } from '../solver/check-proof.ts';
import { ClauseProof, GIVEN, isSameClause, LEARNT } from '../solver/clause-proof.ts';
import { Solver, type SolverAnswer } from '../solver/solver.ts';

export interface Replay {
  readonly trusted: boolean;
  /** Learnt clauses and lemmas replayed. */
  readonly replayed: number;
}

export class AuditedSolver {
  private readonly trace = new ClauseProof();
  private readonly solver = new Solver(this.trace);
  private readonly written: number[][] = [];
  private readonly limit: number;

  /** `limit`: conflicts for all questions together. */
  constructor(limit: number) {
    this.limit = limit;
  }

  get conflicts(): number {
    return this.solver.conflicts;
  }

  newVariable(): number {
    return this.solver.newVariable();
  }

  /** A clause that is part of what is to be proved. */
  add(clause: readonly number[]): void {
    this.written.push([...clause]);
    this.solver.addClause(clause);
  }

  /** Can all clauses and the assumptions hold? At most `conflicts`, and never more than is left. */
  solve(assumptions: readonly number[], conflicts: number): SolverAnswer {
    const left = Math.min(conflicts, this.limit - this.solver.conflicts);
    return left <= 0 ? 'undecided' : this.solver.solve(assumptions, left);
  }

  /** Is `b` true wherever `a` is? When it is ('unsatisfiable'), that becomes a clause for all later questions. */
  implies(a: number, b: number, conflicts: number): SolverAnswer {
    const answer = this.solve([a, -b], conflicts);
    if (answer === 'unsatisfiable') {
      this.trace.push(LEARNT, [-a, b]);
      this.solver.addClause([-a, b]);
    }
    return answer;
  }

  /** Value of a variable after 'satisfiable'. */
  value(variable: number): boolean {
    return this.solver.value(variable);
  }

  /** After the solver found the clauses contradictory: is that so? */
  replay(): Replay {
    const { steps } = this.trace;
    let next = 0;
    let lemma: readonly number[] | null = null;
    for (let at = 0; at < steps.length; ) {
      const literals = Array.from(steps.subarray(at + 2, at + 2 + steps[at + 1]));
      if (steps[at] === GIVEN) {
        if (next < this.written.length && isSameClause(this.written[next], literals)) next++;
        else if (lemma === null || !isSameClause(lemma, literals)) return { trusted: false, replayed: 0 };
      }
      lemma = steps[at] === LEARNT ? literals : null;
      at += 2 + literals.length;
    }
    const { refuted, replayed } = checkProof(steps);
    return { trusted: refuted, replayed };
  }
}
