// Which patterns of the inputs can happen: what `never` leaves over, and what is held.

import type { System } from '../equations/system.ts';
import { addSystem } from '../search/system-clauses.ts';
import type { Solver } from '../solver/solver.ts';
import { systemTables } from '../truth/system-tables.ts';
import { and, constantTable, inputTable, MAX_INPUTS, not, type Table } from '../truth/table.ts';
import type { PatternMaker } from './transition-clauses.ts';
import type { Scope } from './walk-transitions.ts';

/** An input that keeps its value all the time. */
export interface Held {
  readonly input: number;
  readonly value: 0 | 1;
}

/** Patterns that no `never` of the system forbids, with inputs held; for tables only up to MAX_INPUTS inputs. */
export function scopeOf(system: System, held: readonly Held[] = []): Scope {
  const count = system.inputs.length;
  const still = new Set(held.map(({ input }) => input));
  const moving = system.inputs.map((_, i) => i).filter((i) => !still.has(i));
  if (count > MAX_INPUTS || (system.never.length === 0 && held.length === 0)) {
    return { allowed: null, moving };
  }
  let allowed: Table = system.never.length > 0 ? systemTables(system).care : constantTable(count, 1);
  for (const { input, value } of held) {
    const table = inputTable(count, input);
    allowed = and(allowed, value === 1 ? table : not(table, count));
  }
  return { allowed, moving };
}

/** The same for the solver. */
export function patternMaker(system: System, held: readonly Held[] = []): PatternMaker {
  return (solver: Solver) => {
    const { signals } =
      system.never.length > 0 ? addSystem(solver, system) : { signals: freshSignals(solver, system) };
    const literals = system.inputs.map(({ signal }) => signals[signal]);
    for (const { input, value } of held) solver.addClause([value === 1 ? literals[input] : -literals[input]]);
    return literals;
  };
}

function freshSignals(solver: Solver, system: System): number[] {
  const signals: number[] = [];
  for (const { signal } of system.inputs) signals[signal] = solver.newVariable();
  return signals;
}
