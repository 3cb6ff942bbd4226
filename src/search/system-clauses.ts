// A system of equations as clauses: every signal becomes a literal of the solver, every operator a few clauses that tie
// its literal to those of its operands (in both directions). Chains of n operands take n + 1 clauses, parities four for
// each operand after the first. For systems whose tables are too long.

import { usableFreedom } from '../equations/free-signals.ts';
import type { Expression, System } from '../equations/system.ts';
import type { Solver } from '../solver/solver.ts';

export interface SystemClauses {
  /** Literal of every signal, by signal number. */
  readonly signals: readonly number[];
  /** By signal: a literal that is 1 where the signal may be built either way. */
  readonly free: ReadonlyMap<number, number>;
}

/** Adds one copy of the system: fresh variables for its inputs, and every `never` forbidden. */
export function addSystem(solver: Solver, system: System): SystemClauses {
  const encoder = new Encoder(solver, system.signals.length);
  for (const { signal } of system.inputs) encoder.signals[signal] = solver.newVariable();
  for (const { signal, expression } of system.definitions)
    encoder.signals[signal] = encoder.literal(expression);
  for (const expression of system.never) solver.addClause([-encoder.literal(expression)]);
  const free = new Map<number, number>();
  for (const [signal, patterns] of usableFreedom(system)) {
    free.set(signal, encoder.literal({ kind: 'or', args: patterns }));
  }
  return { signals: encoder.signals, free };
}

class Encoder {
  readonly signals: number[];
  private readonly solver: Solver;
  private constant = 0;

  constructor(solver: Solver, signals: number) {
    this.solver = solver;
    this.signals = new Array(signals).fill(0);
  }

  literal(e: Expression): number {
    switch (e.kind) {
      case 'constant':
        return e.value === 1 ? this.one() : -this.one();
      case 'signal':
        return this.signals[e.signal];
      case 'not':
        return -this.literal(e.argument);
      case 'and':
        return this.and(e.args.map((arg) => this.literal(arg)));
      case 'nand':
        return -this.and(e.args.map((arg) => this.literal(arg)));
      case 'or':
        return -this.and(e.args.map((arg) => -this.literal(arg)));
      case 'nor':
        return this.and(e.args.map((arg) => -this.literal(arg)));
      case 'xor':
        return this.parity(e.args);
      case 'xnor':
        return -this.parity(e.args);
      case 'equals':
        return -this.parity([e.left, e.right]);
      case 'implies':
        return -this.and([this.literal(e.left), -this.literal(e.right)]);
      case 'mux': {
        const select = this.literal(e.select);
        const when0 = this.and([-select, this.literal(e.when0)]);
        const when1 = this.and([select, this.literal(e.when1)]);
        return -this.and([-when0, -when1]);
      }
      case 'maj': {
        const [a, b, c] = e.args.map((arg) => this.literal(arg));
        return -this.and([-this.and([a, b]), -this.and([a, c]), -this.and([b, c])]);
      }
    }
  }

  private one(): number {
    if (this.constant === 0) {
      this.constant = this.solver.newVariable(true);
      this.solver.addClause([this.constant]);
    }
    return this.constant;
  }

  private and(literals: readonly number[]): number {
    if (literals.length === 1) return literals[0];
    const result = this.solver.newVariable();
    for (const literal of literals) this.solver.addClause([-result, literal]);
    this.solver.addClause([result, ...literals.map((literal) => -literal)]);
    return result;
  }

  private parity(args: readonly Expression[]): number {
    let result = this.literal(args[0]);
    for (let i = 1; i < args.length; i++) {
      const other = this.literal(args[i]);
      const sum = this.solver.newVariable();
      this.solver.addClause([-sum, result, other]);
      this.solver.addClause([-sum, -result, -other]);
      this.solver.addClause([sum, -result, other]);
      this.solver.addClause([sum, result, -other]);
      result = sum;
    }
    return result;
  }
}
