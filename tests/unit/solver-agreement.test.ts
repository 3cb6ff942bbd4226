// Our solver against a solver from the registry: a thousand formulas of six shapes, the same clauses for both. Models are
// tried on the clauses; every "unsatisfiable" of ours is replayed by the checker, which is shown the clauses that were
// meant and nothing else.

import { describe, expect, test } from 'vitest';
import { checkProof } from '../../src/solver/check-proof.ts';
import { ClauseProof } from '../../src/solver/clause-proof.ts';
import { Solver } from '../../src/solver/solver.ts';
import { disguised, type Formula, holds, SHAPES } from '../support/formulas.ts';
import { RegistrySolver } from '../support/registry-solver.ts';
import { seeded } from './proof-samples.ts';

const FORMULAS = 1000;

/** What our solver says; a refutation counts only when it was replayed over the given clauses. */
function ours(formula: Formula): 'satisfiable' | 'refuted' | 'not replayed' {
  const proof = new ClauseProof();
  const solver = new Solver(proof);
  for (let v = 0; v < formula.variables; v++) solver.newVariable();
  for (const clause of formula.clauses) solver.addClause(clause);
  if (solver.solve() === 'satisfiable') {
    expect(holds(formula, (variable) => solver.value(variable))).toBe(true);
    return 'satisfiable';
  }
  const given: (readonly number[])[] = [];
  const { refuted, wrongStep } = checkProof(proof.steps, (literals) => given.push([...literals]));
  // The solver stops taking clauses once they contradict each other.
  expect(given).toEqual(formula.clauses.slice(0, given.length));
  return refuted && wrongStep === null ? 'refuted' : 'not replayed';
}

describe(`${FORMULAS} formulas: the registry solver and ours agree`, () => {
  test.each(SHAPES.map((shape, at) => [shape.name, shape, at] as const))('%s', (_, shape, at) => {
    const registry = new RegistrySolver();
    const answers = { satisfiable: 0, refuted: 0 };
    for (let seed = at; seed < FORMULAS; seed += SHAPES.length) {
      const draw = seeded(40_000 + seed);
      const formula = disguised(shape(draw), draw);
      const model = registry.model(formula);
      if (model !== null) expect(holds(formula, (variable) => model[variable])).toBe(true);
      const expected = model === null ? 'refuted' : 'satisfiable';
      expect({ seed, answer: ours(formula) }).toEqual({ seed, answer: expected });
      answers[expected]++;
    }
    // Both answers come often enough to mean something.
    expect(Math.min(answers.satisfiable, answers.refuted), JSON.stringify(answers)).toBeGreaterThan(20);
  });
});
