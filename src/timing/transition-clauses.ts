// All transitions of a circuit as clauses: two patterns, the settled levels under each, and in between the level of
// every wire at every tick at which it can change.
//
// Idea. Outside its window (arrivals.ts) a wire has its old or its new level; inside, one literal for each tick says
// what it is then, tied to its legs at earlier ticks by the clauses of a NOR or an OR. Equal gates over equal literals
// are made once, so wires that cannot differ share their literals. Whether an output makes its last change at tick t is
// then a question under assumptions: one level at t - 1, the other from t on to the end of its window.

import type { Solver } from '../solver/solver.ts';
import { type Arrivals, arrivalsOf, type Edge, earliestChange, latestChange, NEVER } from './arrivals.ts';
import { type Circuit, legsOfWire, type Pattern } from './circuit.ts';
import type { Kind, Transition } from './settle-exact.ts';

/** Makes literals for the inputs of one pattern, with whatever says that the pattern can happen. */
export type PatternMaker = (solver: Solver) => readonly number[];

/** A pattern about which nothing is known. */
export function anyPattern(circuit: Circuit): PatternMaker {
  return (solver) => circuit.inputs.map(() => solver.newVariable());
}

export class TransitionClauses {
  readonly arrivals: Arrivals;
  private readonly solver: Solver;
  private readonly circuit: Circuit;
  private readonly order: Int32Array;
  private readonly one: number;
  private readonly from: readonly number[];
  private readonly to: readonly number[];
  private readonly old: Int32Array;
  private readonly settled: Int32Array;
  /** By wire: literals of ticks `first` to `last - 1`. */
  private readonly levels: Int32Array[];
  private readonly first: Int32Array;
  private readonly last: Int32Array;
  private readonly gates = new Map<string, number>();
  private single = 0;

  /** @param moving by input: whether it may flip. */
  constructor(solver: Solver, circuit: Circuit, pattern: PatternMaker, moving: ArrayLike<number>) {
    if (circuit.order === null) throw new Error('a circuit that feeds back into itself has no transitions');
    this.solver = solver;
    this.circuit = circuit;
    this.order = circuit.order;
    this.arrivals = arrivalsOf(circuit, moving);
    this.one = solver.newVariable(true);
    solver.addClause([this.one]);
    this.from = pattern(solver);
    this.to = pattern(solver);
    this.from.forEach((literal, i) => {
      if (moving[i]) return;
      solver.addClause([-literal, this.to[i]]);
      solver.addClause([literal, -this.to[i]]);
    });
    const wires = circuit.names.length;
    this.first = Int32Array.from(circuit.names, (_, w) => earliestChange(this.arrivals, w));
    this.last = Int32Array.from(circuit.names, (_, w) => latestChange(this.arrivals, w));
    this.old = new Int32Array(wires);
    this.settled = new Int32Array(wires);
    this.levels = circuit.names.map(() => new Int32Array(0));
    for (const wire of this.order) this.old[wire] = this.settledLiteral(wire, this.from, this.old);
    for (const wire of this.order) {
      this.settled[wire] =
        this.first[wire] === NEVER ? this.old[wire] : this.settledLiteral(wire, this.to, this.settled);
    }
    for (const wire of this.order) this.levels[wire] = this.history(wire);
  }

  /** Literal of a wire at a tick. */
  at(wire: number, tick: number): number {
    if (this.first[wire] === NEVER || tick < this.first[wire]) return this.old[wire];
    if (tick >= this.last[wire]) return this.settled[wire];
    return this.levels[wire][tick - this.first[wire]];
  }

  /** Assumptions under which the wire makes its last change at `tick`, on or off. */
  lastChange(wire: number, edge: Edge, kind: Kind, tick: number, single: boolean): number[] {
    const sign = edge === 'on' ? 1 : -1;
    const assumed = [-sign * this.at(wire, tick - 1)];
    for (let later = tick; later <= this.last[wire]; later++) assumed.push(sign * this.at(wire, later));
    if (kind === 'changes') assumed.push(-sign * this.old[wire]);
    if (single) assumed.push(this.atMostOne());
    return [...new Set(assumed)];
  }

  /** Assumptions under which the wire goes on, or off, at `tick`. */
  change(wire: number, edge: Edge, tick: number): number[] {
    const sign = edge === 'on' ? 1 : -1;
    return [-sign * this.at(wire, tick - 1), sign * this.at(wire, tick)];
  }

  /** The assumption that at most one input flips. */
  atMostOne(): number {
    if (this.single !== 0) return this.single;
    const { solver } = this;
    this.single = solver.newVariable();
    let before = -this.one;
    this.from.forEach((from, i) => {
      const to = this.to[i];
      const flips = solver.newVariable();
      solver.addClause([-flips, from, to]);
      solver.addClause([-flips, -from, -to]);
      solver.addClause([flips, -from, to]);
      solver.addClause([flips, from, -to]);
      solver.addClause([-this.single, -flips, -before]);
      const until = solver.newVariable();
      solver.addClause([-flips, until]);
      solver.addClause([-before, until]);
      before = until;
    });
    return this.single;
  }

  /** The transition of the last satisfying assignment. */
  transition(): Transition {
    const read = (literals: readonly number[]): Pattern =>
      Uint8Array.from(literals, (literal) => {
        const value = this.solver.value(Math.abs(literal));
        return value === literal > 0 ? 1 : 0;
      });
    return { from: read(this.from), to: read(this.to) };
  }

  private history(wire: number): Int32Array {
    const { circuit, first, last } = this;
    if (first[wire] === NEVER || circuit.kinds[wire] === 'input') return new Int32Array(0);
    const on = circuit.ticksOn[wire];
    const off = circuit.ticksOff[wire];
    return Int32Array.from({ length: last[wire] - first[wire] }, (_, i) => {
      const window: number[] = [];
      for (let back = Math.min(on, off); back <= Math.max(on, off); back++) {
        window.push(this.said(wire, first[wire] + i - back));
      }
      return off >= on ? -this.and(window.map((literal) => -literal)) : this.and(window);
    });
  }

  /** What the legs of a wire say at a tick. */
  private said(wire: number, tick: number): number {
    const legs = Array.from(legsOfWire(this.circuit, wire), (leg) => this.at(leg, tick));
    return this.gate(wire, legs);
  }

  private settledLiteral(wire: number, pattern: readonly number[], levels: Int32Array): number {
    const { kinds, source, inverted } = this.circuit;
    if (kinds[wire] === 'constant') return source[wire] === 1 ? this.one : -this.one;
    if (kinds[wire] === 'input') return inverted[wire] === 1 ? -pattern[source[wire]] : pattern[source[wire]];
    return this.gate(
      wire,
      Array.from(legsOfWire(this.circuit, wire), (leg) => levels[leg]),
    );
  }

  private gate(wire: number, legs: readonly number[]): number {
    const { logic, kinds } = this.circuit;
    const joined = logic === 'or' ? -this.and(legs.map((leg) => -leg)) : this.and(legs);
    return kinds[wire] === 'inverter' ? -joined : joined;
  }

  private and(operands: readonly number[]): number {
    const literals = [...new Set(operands)].filter((literal) => literal !== this.one).sort((a, b) => a - b);
    if (literals.includes(-this.one) || literals.some((literal) => literals.includes(-literal))) {
      return -this.one;
    }
    if (literals.length === 0) return this.one;
    if (literals.length === 1) return literals[0];
    const key = literals.join(' ');
    const known = this.gates.get(key);
    if (known !== undefined) return known;
    const gate = this.solver.newVariable();
    for (const literal of literals) this.solver.addClause([-gate, literal]);
    this.solver.addClause([gate, ...literals.map((literal) => -literal)]);
    this.gates.set(key, gate);
    return gate;
  }
}
