// Which patterns of the inputs can happen: what `never` leaves over, and what is held.

import type { System } from '../equations/system.ts';
import { addSystem } from '../search/system-clauses.ts';
import type { Solver } from '../solver/solver.ts';
import { systemTables } from '../truth/system-tables.ts';
import { and, constantTable, inputTable, MAX_INPUTS, not, type Table } from '../truth/table.ts';
import type { Circuit } from './circuit.ts';
import { anyPattern, type PatternMaker } from './transition-clauses.ts';
import type { Scope } from './walk-transitions.ts';

/** An input that keeps its value all the time. */
export interface Held {
  readonly input: number;
  readonly value: 0 | 1;
}

/**
 * Patterns that no `never` of the system forbids, with inputs held; tables only up to MAX_INPUTS inputs. Without a
 * system everything can happen. The inputs of the system are those of the circuit.
 */
export function scopeOf(circuit: Circuit, system: System | null, held: readonly Held[] = []): Scope {
  const count = circuit.inputs.length;
  const still = new Set(held.map(({ input }) => input));
  const moving = circuit.inputs.map((_, i) => i).filter((i) => !still.has(i));
  const isFree = system === null || system.never.length === 0;
  if (count > MAX_INPUTS || (isFree && held.length === 0)) return { allowed: null, moving };
  let allowed: Table = isFree ? constantTable(count, 1) : systemTables(system).care;
  for (const { input, value } of held) {
    const table = inputTable(count, input);
    allowed = and(allowed, value === 1 ? table : not(table, count));
  }
  return { allowed, moving };
}

/** The same for the solver. */
export function patternMaker(
  circuit: Circuit,
  system: System | null,
  held: readonly Held[] = [],
): PatternMaker {
  const any = anyPattern(circuit);
  return (solver: Solver) => {
    let literals = any(solver);
    if (system !== null && system.never.length > 0) {
      const { signals } = addSystem(solver, system);
      literals = system.inputs.map(({ signal }) => signals[signal]);
    }
    for (const { input, value } of held) solver.addClause([value === 1 ? literals[input] : -literals[input]]);
    return literals;
  };
}
