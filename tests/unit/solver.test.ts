// The solver and the checker of its traces: against brute force on small random formulas, and on questions that are
// known to be contradictory. A trace that was tampered with must not pass.

import { describe, expect, test } from 'vitest';
import { checkProof } from '../../src/solver/check-proof.ts';
import { ClauseProof, DELETED, GIVEN, LEARNT } from '../../src/solver/clause-proof.ts';
import { DecisionHeap } from '../../src/solver/decision-heap.ts';
import { Solver } from '../../src/solver/solver.ts';
import { seeded } from './proof-samples.ts';

type Clauses = readonly (readonly number[])[];

function randomClauses(
  next: (below: number) => number,
  variables: number,
  count: number,
  width: number,
): Clauses {
  return Array.from({ length: count }, () =>
    Array.from({ length: 1 + next(width) }, () => (1 + next(variables)) * (next(2) === 0 ? 1 : -1)),
  );
}

function holds(clauses: Clauses, isTrue: (variable: number) => boolean): boolean {
  return clauses.every((clause) => clause.some((literal) => isTrue(Math.abs(literal)) === literal > 0));
}

function bruteForce(clauses: Clauses, variables: number): boolean {
  for (let row = 0; row < 1 << variables; row++) {
    if (holds(clauses, (variable) => ((row >> (variable - 1)) & 1) === 1)) return true;
  }
  return false;
}

function load(clauses: Clauses, variables: number, proof: ClauseProof | null = null): Solver {
  const solver = new Solver(proof);
  for (let v = 0; v < variables; v++) solver.newVariable(v % 3 === 0);
  for (const clause of clauses) solver.addClause(clause);
  return solver;
}

/** `birds` birds in one hole less: contradictory, and not by propagation alone. */
function pigeons(birds: number): { clauses: number[][]; variables: number } {
  const holes = birds - 1;
  const at = (bird: number, hole: number): number => bird * holes + hole + 1;
  const clauses: number[][] = [];
  for (let b = 0; b < birds; b++) {
    clauses.push(Array.from({ length: holes }, (_, h) => at(b, h)));
    for (let c = 0; c < b; c++) for (let h = 0; h < holes; h++) clauses.push([-at(b, h), -at(c, h)]);
  }
  return { clauses, variables: birds * holes };
}

/** The steps of a trace: opcode, literals. */
function stepsOf(steps: Int32Array): { opcode: number; literals: number[] }[] {
  const result: { opcode: number; literals: number[] }[] = [];
  for (let at = 0; at < steps.length; at += 2 + steps[at + 1]) {
    result.push({ opcode: steps[at], literals: [...steps.subarray(at + 2, at + 2 + steps[at + 1])] });
  }
  return result;
}

function traceOf(steps: readonly { opcode: number; literals: readonly number[] }[]): Int32Array {
  return Int32Array.from(steps.flatMap(({ opcode, literals }) => [opcode, literals.length, ...literals]));
}

describe('the solver', () => {
  test('random formulas: the answer of brute force, a model that holds, a trace that replays', () => {
    const answers = { satisfiable: 0, unsatisfiable: 0, undecided: 0 };
    for (let seed = 1; seed <= 400; seed++) {
      const next = seeded(seed);
      const variables = 1 + next(10);
      const clauses = randomClauses(next, variables, 1 + next(5 * variables), 4);
      const proof = new ClauseProof();
      const solver = load(clauses, variables, proof);
      const answer = solver.solve();
      answers[answer]++;
      expect(answer).toBe(bruteForce(clauses, variables) ? 'satisfiable' : 'unsatisfiable');
      if (answer === 'satisfiable') expect(holds(clauses, (v) => solver.value(v))).toBe(true);
      else {
        const seen: number[][] = [];
        const check = checkProof(proof.steps, (literals) => seen.push([...literals]));
        expect(check).toMatchObject({ refuted: true, wrongStep: null });
        expect(seen).toEqual(clauses.slice(0, seen.length));
      }
    }
    expect(Math.min(answers.satisfiable, answers.unsatisfiable)).toBeGreaterThan(80);
    expect(answers.undecided).toBe(0);
  });

  test('assumptions and clauses in between: as if asked afresh', () => {
    for (let seed = 1; seed <= 120; seed++) {
      const next = seeded(1000 + seed);
      const variables = 3 + next(7);
      const proof = new ClauseProof();
      const solver = load([], variables, proof);
      const clauses: (readonly number[])[] = [];
      for (let round = 0; round < 8; round++) {
        for (const clause of randomClauses(next, variables, 1 + next(variables), 3)) {
          clauses.push(clause);
          solver.addClause(clause);
        }
        const assumptions = randomClauses(next, variables, 1, 3)[0].filter(
          (a, i, all) => all.indexOf(a) === i,
        );
        const all = [...clauses, ...assumptions.map((literal) => [literal])];
        const answer = solver.solve(assumptions);
        expect(answer).toBe(bruteForce(all, variables) ? 'satisfiable' : 'unsatisfiable');
        if (answer === 'satisfiable') expect(holds(all, (v) => solver.value(v))).toBe(true);
        else if (bruteForce(clauses, variables)) {
          // What contradicts the assumptions follows by propagation from the trace so far.
          proof.push(
            LEARNT,
            assumptions.map((literal) => -literal),
          );
          expect(checkProof(proof.steps)).toMatchObject({ refuted: false, wrongStep: null });
        }
      }
    }
  });

  test('a count of conflicts that is too small leaves the question open, and it can go on', () => {
    const { clauses, variables } = pigeons(6);
    const proof = new ClauseProof();
    const solver = load(clauses, variables, proof);
    expect(solver.solve([], 10)).toBe('undecided');
    expect(solver.conflicts).toBe(10);
    expect(solver.solve()).toBe('unsatisfiable');
    expect(solver.solve()).toBe('unsatisfiable');
    expect(checkProof(proof.steps)).toMatchObject({ refuted: true, wrongStep: null });
  });

  test('clauses let go on the way are let go in the replay as well', () => {
    const { clauses, variables } = pigeons(8);
    const proof = new ClauseProof();
    expect(load(clauses, variables, proof).solve()).toBe('unsatisfiable');
    expect(stepsOf(proof.steps).some(({ opcode }) => opcode === DELETED)).toBe(true);
    expect(checkProof(proof.steps)).toMatchObject({ refuted: true, wrongStep: null });
  });

  test('the same clauses give the same trace', () => {
    const { clauses, variables } = pigeons(6);
    const run = (): Int32Array => {
      const proof = new ClauseProof();
      load(clauses, variables, proof).solve();
      return proof.steps.slice();
    };
    expect(run()).toEqual(run());
  });

  test('empty clauses, doubles and tautologies', () => {
    expect(load([[1, -1]], 1).solve()).toBe('satisfiable');
    expect(load([[1, 1]], 1).solve([-1])).toBe('unsatisfiable');
    const solver = load([], 1);
    expect(solver.addClause([])).toBe(false);
    expect(solver.solve()).toBe('unsatisfiable');
    expect(new Solver().solve()).toBe('satisfiable');
  });
});

describe('the checker', () => {
  const { clauses, variables } = pigeons(5);
  const proof = new ClauseProof();
  load(clauses, variables, proof).solve();
  const steps = stepsOf(proof.steps);

  test('a sound trace passes', () => {
    expect(checkProof(traceOf(steps))).toMatchObject({ refuted: true, wrongStep: null });
  });

  test('without the end nothing is refuted', () => {
    const firstLearnt = steps.findIndex(({ opcode }) => opcode === LEARNT);
    expect(checkProof(traceOf(steps.slice(0, firstLearnt))).refuted).toBe(false);
    expect(steps.at(-1)).toEqual({ opcode: LEARNT, literals: [] });
  });

  test('without one of the given clauses it does not pass', () => {
    // Every clause of this question is needed: without one of them there is a way to place the birds.
    clauses.forEach((_, missing) => {
      expect(checkProof(traceOf(steps.filter((_, i) => i !== missing))).refuted).toBe(false);
    });
  });

  test('a learnt clause that does not follow is found, whatever comes after', () => {
    const wrong = [
      { opcode: GIVEN, literals: [1, 2] },
      { opcode: LEARNT, literals: [1] },
    ];
    expect(checkProof(traceOf(wrong))).toEqual({ refuted: false, replayed: 0, wrongStep: 0 });
    const emptyAtOnce = [...steps.slice(0, clauses.length), { opcode: LEARNT, literals: [] }];
    expect(checkProof(traceOf(emptyAtOnce))).toEqual({ refuted: false, replayed: 0, wrongStep: 0 });
  });

  test('satisfiable formulas cannot be refuted by any trace', () => {
    for (let seed = 1; seed <= 300; seed++) {
      const next = seeded(5000 + seed);
      const given = randomClauses(next, 6, 12, 3);
      if (!bruteForce(given, 6)) continue;
      const trace = given.map((literals) => ({ opcode: GIVEN as number, literals }));
      for (const literals of randomClauses(next, 6, 20, 3)) {
        trace.push({ opcode: next(5) === 0 ? DELETED : LEARNT, literals });
      }
      const { refuted, wrongStep } = checkProof(traceOf([...trace, { opcode: LEARNT, literals: [] }]));
      expect(refuted).toBe(false);
      expect(wrongStep).not.toBeNull();
    }
  });
});

test('the order of decisions: most active first, ties by number', () => {
  const heap = new DecisionHeap();
  heap.reserve(200);
  for (let v = 0; v < 200; v++) heap.insert(v);
  for (const v of [7, 150, 7, 31]) heap.bump(v);
  heap.decay(0.5);
  heap.bump(99);
  const order = Array.from({ length: 200 }, () => heap.pop());
  const rest = Array.from({ length: 200 }, (_, v) => v).filter((v) => ![7, 31, 99, 150].includes(v));
  expect(order).toEqual([7, 99, 31, 150, ...rest]);
  expect(heap.empty).toBe(true);
});
