// At which ticks does a wire ever go on or off, over all transitions? By simulation of all of them, or by the solver
// where they are too many; null when the solver ran out of its limit.

import { Solver } from '../solver/solver.ts';
import type { Table } from '../truth/table.ts';
import { EDGES, type Edge, NEVER } from './arrivals.ts';
import type { Circuit } from './circuit.ts';
import { isAffordable, type SettleOptions } from './settle.ts';
import { TransitionClauses } from './transition-clauses.ts';
import type { TransitionTables } from './transition-tables.ts';
import { type Observer, walkTransitions } from './walk-transitions.ts';

export type Happens = (wire: number, edge: Edge, tick: number) => boolean | null;

/** Collects which changes happen at all. */
class SeenChanges implements Observer {
  private readonly seen: Readonly<Record<Edge, Set<number>>>[];

  constructor(circuit: Circuit) {
    this.seen = circuit.names.map(() => ({ on: new Set(), off: new Set() }));
  }

  see(tables: TransitionTables, rows: Table): void {
    this.seen.forEach((seen, wire) => {
      const first = tables.first[wire];
      if (first === NEVER) return;
      for (let tick = first; tick <= tables.last[wire]; tick++) {
        if (EDGES.every((edge) => seen[edge].has(tick))) continue;
        const now = tables.at(wire, tick);
        const before = tables.at(wire, tick - 1);
        let [on, off] = [0, 0];
        for (let w = 0; w < rows.length; w++) {
          const changed = (now[w] ^ before[w]) & rows[w];
          on |= changed & now[w];
          off |= changed & before[w];
        }
        if (on !== 0) seen.on.add(tick);
        if (off !== 0) seen.off.add(tick);
      }
    });
  }

  happens(wire: number, edge: Edge, tick: number): boolean {
    return this.seen[wire][edge].has(tick);
  }
}

/** The answer over all changes of the inputs that the options allow. */
export function exerciseOf(circuit: Circuit, options: SettleOptions): Happens {
  const { scope } = options;
  if (isAffordable(circuit, scope.moving.length, options)) {
    const seen = new SeenChanges(circuit);
    walkTransitions(circuit, scope, scope.moving.length, seen);
    return (wire, edge, tick) => seen.happens(wire, edge, tick);
  }
  const solver = new Solver();
  const moving = circuit.inputs.map((_, i) => (scope.moving.includes(i) ? 1 : 0));
  const clauses = new TransitionClauses(solver, circuit, options.pattern, moving);
  return (wire, edge, tick) => {
    const answer = solver.solve(clauses.change(wire, edge, tick), options.conflicts);
    return answer === 'undecided' ? null : answer === 'satisfiable';
  };
}
