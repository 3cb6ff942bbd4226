// The independent judge of our solver: logic-solver from the package registry, a widely used solver compiled to
// JavaScript, asked through the thinnest layer it offers, so that it is given the very clauses that ours is given.

import { createRequire } from 'node:module';

import type { Formula } from './formulas.ts';

interface Engine {
  ensureVar(variable: number): void;
  addClause(literals: number[]): boolean;
  solve(): boolean;
  solveAssuming(variable: number): boolean;
  getSolution(): (boolean | null)[];
}

const { _MiniSat: NewEngine } = createRequire(import.meta.url)('logic-solver') as {
  readonly _MiniSat: new () => Engine;
};

/** A fresh engine, ready to be given clauses: making one takes longer than most questions. */
export function registryEngine(variables: number): Engine {
  const engine = new NewEngine();
  engine.ensureVar(variables);
  return engine;
}

/** Answers many questions; several share an engine, each with variables and a switch of its own. */
export class RegistrySolver {
  private engine = registryEngine(1);
  private used = 1;
  private questions = 0;

  /** A satisfying assignment by variable (from 1 on; index 0 means nothing), or null when there is none. */
  model({ variables, clauses }: Formula): boolean[] | null {
    if (++this.questions % 50 === 0) {
      this.engine = registryEngine(1);
      this.used = 1;
    }
    const from = this.used;
    const on = from + variables + 1;
    this.used = on;
    this.engine.ensureVar(on);
    for (const clause of clauses) {
      this.engine.addClause([-on, ...clause.map((literal) => literal + Math.sign(literal) * from)]);
    }
    if (!this.engine.solveAssuming(on)) return null;
    return this.engine
      .getSolution()
      .slice(from, on)
      .map((value) => value === true);
  }
}
