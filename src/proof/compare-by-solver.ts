// Proof by solver, for systems with too many inputs to try all patterns: is there an allowed pattern on which an
// output is wrong? Equations and network become clauses over shared inputs, one variable a gate.
//
// Idea. Asked outright, such a question is hard when the two sides are built differently: a solver has to find out by
// conflicts that carry 40 of one adder is carry 40 of the other. So that is asked first, from the inputs to the
// outputs. Simulation of a few thousand patterns groups the nodes of both sides by fingerprint (equal so far, or
// complements so far). Each node is compared with the first of its group: when the solver says they cannot differ, the
// equality becomes two clauses and the next question above starts from it; when it finds a pattern on which they do,
// the pattern and its neighbours refine all groups. In the end every output question is a small step.
//
// Correctness. "Different" is only said when the prover's own evaluators confirm the pattern. "Equal" is only said
// when the clauses of both sides, joined by "some output is wrong", were refuted and the whole trace, lemmas included,
// was replayed (see audited-solver.ts). Fingerprints and equalities on the way only decide how quick it is. `never`
// stands among the clauses, so equality on allowed patterns is what is proved everywhere.
//
// Free patterns. The level that a free signal was built with is read off the network, and the equations behind it are
// translated with that level (free-choices.ts), so the questions stay the same: is the level of the output what the
// equations want? Choices that leave no wire are enumerated; a pattern is then wrong only if it is under all of them.
//
// Cost. Close to linear when the two sides have intermediate values in common, as circuits for one arithmetic function
// do: a 64-bit ripple adder against a prefix network of 3,563 inverters takes 1,400 conflicts and 0.3 s with replay,
// 128 bits a second. Out of reach stay questions without such values: multipliers from about 8 x 8 bits, and parities
// of more than about 20 inputs chained in another order; these come back as "undecided". Limits count conflicts.
//
// Lost. Steps given up after a few hundred conflicts: what is not proved equal makes every question above it harder, and
// a sparse prefix network of 300 bits took a third more conflicts in all. The outputs asked outright: 64 bits took six
// times the conflicts and eight times the time. A fresh solver for every question: see audited-solver.ts. Only leaders
// of groups are compared, not all pairs: two nodes of one group are both equal to its leader or not worth more questions.

import type { System } from '../equations/system.ts';
import type { Network } from '../network/network.ts';
import { AuditedSolver } from './audited-solver.ts';
import { type Difference, wrongOutputOn } from './compare-patterns.ts';
import type { Logic } from './evaluate-network.ts';
import { TOO_MANY_CHOICES } from './free-choices.ts';
import { type GateGraph, translate } from './gate-graph.ts';
import { GraphSimulation } from './simulate-graph.ts';

/** Words of 32 drawn patterns before the first question. */
const DRAWN_WORDS = 64;
/** Conflicts for one question on the way; conflicts for one output before all are asked together. */
const STEP_CONFLICTS = 2_000;
const OUTPUT_CONFLICTS = 20_000;
/** Patterns of the solver that may refine the groups; each costs a simulation of the whole graph. */
const REFINEMENTS = 2_000;
/** Groups that one node may try. */
const TRIES = 12;

export interface SolverComparison {
  readonly answer: 'equal' | 'different' | 'undecided';
  readonly difference: Difference | null;
  readonly conflicts: number;
  /** Equalities between nodes proved on the way. */
  readonly equalities: number;
  /** Learnt clauses replayed; 0 unless equal. */
  readonly replayed: number;
  readonly reason: string | null;
}

/**
 * See the head of this file. `limit`: conflicts in all; without `replay` an "equal" is only what the solver says. The
 * network must have passed `deliveryFault`.
 */
export function compareBySolver(
  system: System,
  network: Network,
  logic: Logic,
  limit: number,
  replay = true,
): SolverComparison {
  return new Comparison(system, network, logic, limit, replay).run();
}

class Comparison {
  private readonly system: System;
  private readonly network: Network;
  private readonly logic: Logic;
  private readonly translation: ReturnType<typeof translate>;
  private readonly graph: GateGraph;
  private readonly simulation: GraphSimulation;
  private readonly solver: AuditedSolver;
  /** Nodes that stand for their group, by fingerprint; and all of them in the order of their numbers. */
  private readonly groups = new Map<number, number>();
  private readonly leaders: number[] = [];
  private refinements = 0;
  private equalities = 0;
  /** A drawn pattern on which some output seems wrong. */
  private suspicion: (0 | 1)[] | null = null;

  private readonly replay: boolean;

  constructor(system: System, network: Network, logic: Logic, limit: number, replay: boolean) {
    this.replay = replay;
    this.system = system;
    this.network = network;
    this.logic = logic;
    this.translation = translate(system, network, logic);
    this.graph = this.translation.graph;
    this.simulation = new GraphSimulation(this.translation);
    this.solver = new AuditedSolver(limit);
  }

  run(): SolverComparison {
    const { translation, simulation, solver, graph } = this;
    for (let round = 0; round < DRAWN_WORDS; round++) {
      simulation.drawn(round);
      this.lookAtOutputs();
    }
    if (this.suspicion !== null) return this.different(this.suspicion);

    for (let node = 0; node < translation.networkFrom; node++) this.load(node);
    for (const literal of translation.never) solver.add([-variable(literal)]);
    if (!simulation.seen) {
      // No drawn pattern was allowed: ask for one. None at all means that nothing can be wrong.
      const answer = solver.solve([], Number.POSITIVE_INFINITY);
      if (answer === 'unsatisfiable') return this.refuted();
      if (answer === 'undecided') return this.undecided();
      simulation.around(this.solverPattern());
      this.lookAtOutputs();
      if (this.suspicion !== null) return this.different(this.suspicion);
    }
    for (let node = 0; node < graph.size; node++) {
      if (node >= translation.networkFrom) this.load(node);
      this.place(node);
      if (this.suspicion !== null) return this.different(this.suspicion);
    }
    return this.askOutputs();
  }

  private askOutputs(): SolverComparison {
    const { solver, translation } = this;
    const certain = translation.otherwise.length === 0;
    for (const pairs of [translation.outputs, ...translation.otherwise]) {
      const differences: number[] = [];
      for (const { level, wanted } of pairs) {
        const [a, b] = [variable(level), variable(wanted)];
        const answer = this.equal(a, b, OUTPUT_CONFLICTS);
        if (answer === 'satisfiable' && certain) return this.different(this.solverPattern());
        const differs = solver.newVariable();
        solver.add([-differs, a, b]);
        solver.add([-differs, -a, -b]);
        differences.push(differs);
      }
      solver.add(differences);
    }
    const answer = solver.solve([], Number.POSITIVE_INFINITY);
    if (answer === 'unsatisfiable') return this.refuted();
    return answer === 'undecided' ? this.undecided() : this.different(this.solverPattern());
  }

  /** Finds the group of a node and proves it equal to the leader of the group, or makes it a leader. */
  private place(node: number): void {
    const { simulation, groups } = this;
    for (let tries = 0; tries < TRIES && this.refinements < REFINEMENTS; tries++) {
      const print = simulation.fingerprint(node);
      const leader = groups.get(print);
      if (leader === undefined) {
        groups.set(print, node);
        this.leaders.push(node);
        return;
      }
      const opposite = simulation.flipped[node] !== simulation.flipped[leader];
      const answer = this.equal(
        variable(2 * leader),
        variable(2 * node + (opposite ? 1 : 0)),
        STEP_CONFLICTS,
      );
      if (answer === 'unsatisfiable') this.equalities++;
      if (answer !== 'satisfiable') return;
      this.refinements++;
      simulation.around(this.solverPattern());
      this.lookAtOutputs();
      if (this.suspicion !== null) return;
      groups.clear();
      for (const other of this.leaders) groups.set(simulation.fingerprint(other), other);
    }
  }

  /** Can the two literals differ? When not, both implications stand among the clauses afterwards. */
  private equal(a: number, b: number, conflicts: number): ReturnType<AuditedSolver['implies']> {
    const forth = this.solver.implies(a, b, conflicts);
    return forth === 'unsatisfiable' ? this.solver.implies(b, a, conflicts) : forth;
  }

  /** Makes the variable of a node and says by clauses what it is. Variable n + 1 belongs to node n. */
  private load(node: number): void {
    const { graph, solver } = this;
    const own = solver.newVariable();
    const args = graph.args.slice(graph.start[node], graph.start[node + 1]).map(variable);
    if (node === 0) solver.add([-own]);
    else if (graph.xor[node] === 1) {
      const [a, b] = args;
      solver.add([-own, a, b]);
      solver.add([-own, -a, -b]);
      solver.add([own, -a, b]);
      solver.add([own, a, -b]);
    } else if (args.length > 0) {
      for (const arg of args) solver.add([-own, arg]);
      solver.add([own, ...args.map((arg) => -arg)]);
    }
  }

  private lookAtOutputs(): void {
    const { simulation, translation } = this;
    if (this.suspicion !== null) return;
    let wrong = simulation.allowed;
    for (const pairs of [translation.outputs, ...translation.otherwise]) {
      let any = 0;
      for (const { level, wanted } of pairs) any |= simulation.valueOf(level) ^ simulation.valueOf(wanted);
      wrong &= any;
    }
    if (wrong !== 0) this.suspicion = simulation.pattern(31 - Math.clz32(wrong & -wrong));
  }

  private solverPattern(): (0 | 1)[] {
    return this.translation.inputs.map((literal) => (this.solver.value(variable(literal)) ? 1 : 0));
  }

  private different(values: readonly (0 | 1)[]): SolverComparison {
    const output = wrongOutputOn(this.system, this.network, this.logic, values);
    if (output < 0) return this.undecided('the solver named a pattern on which nothing is wrong');
    if (!this.translation.complete) return this.undecided(TOO_MANY_CHOICES);
    return this.result('different', { values, output });
  }

  private refuted(): SolverComparison {
    if (!this.replay) return this.result('equal');
    const { trusted, replayed } = this.solver.replay();
    if (!trusted) return this.undecided('the trace of the solver could not be replayed');
    return { ...this.result('equal'), replayed };
  }

  private undecided(reason = 'the limit of conflicts was reached'): SolverComparison {
    return { ...this.result('undecided'), reason };
  }

  private result(answer: SolverComparison['answer'], difference: Difference | null = null): SolverComparison {
    const { equalities } = this;
    const { conflicts } = this.solver;
    return { answer, difference, conflicts, equalities, replayed: 0, reason: null };
  }
}

/** The signed variable of a literal of the graph. */
function variable(literal: number): number {
  const number = (literal >> 1) + 1;
  return (literal & 1) === 1 ? -number : number;
}
