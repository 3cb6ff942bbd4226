// Settling: for every output the slowest change on and the slowest change off, with a transition that causes it.
//
// Order of work. Where all transitions can be afforded they are simulated, 32 at a time (settle-exact.ts); the answer is
// then exact. Otherwise the static bound says where to begin: is there a transition whose last change of this output
// comes at that tick? If not, one tick earlier? The solver answers (transition-clauses.ts): it looks for patterns that
// sensitize a path of that length, and the first transition it finds is the slowest, unless a question before it hit
// the limit. Flips of a single input are few, so they are nearly always simulated, and what they reach need not be
// asked for again.
//
// What is claimed. `all`: every transition was simulated. `bound`: the figure equals the static bound, so nothing can be
// slower. `refuted`: the solver has refuted every later tick. `found`: the slowest that was found within the limit.
// Every transition that comes from the solver is simulated once more before it is believed, and so is every refutation:
// a question that cannot be under its assumptions is written down as a learnt clause, the complement of the
// assumptions, and in the end the whole trace is replayed by check-proof.ts. If a step does not follow, or the trace is
// too long to be replayed, nothing counts as refuted.

import { checkProof } from '../solver/check-proof.ts';
import { ClauseProof, LEARNT } from '../solver/clause-proof.ts';
import { Solver } from '../solver/solver.ts';
import { type Arrivals, arrivalsOf, EDGES, type Edge, NEVER } from './arrivals.ts';
import type { Circuit } from './circuit.ts';
import { changesOf, simulateTransition } from './history.ts';
import {
  emptyRecords,
  KINDS,
  type Kind,
  type Records,
  SlowestChanges,
  type Transition,
} from './settle-exact.ts';
import { anyPattern, type PatternMaker, TransitionClauses } from './transition-clauses.ts';
import { costOfWalk, type Scope, walkTransitions, wholeScope } from './walk-transitions.ts';

export type Claim = 'all' | 'bound' | 'refuted' | 'found';

/** Which transitions: flips of one input, or any change of the inputs. */
export type Flips = 'single' | 'any';
export const FLIPS: readonly Flips[] = ['single', 'any'];

export interface Slowest {
  /** Tick of the last change; NEVER when no transition ends so. */
  readonly tick: number;
  readonly transition: Transition | null;
  readonly claim: Claim;
}

export interface OutputSettling {
  /** Number of the output in the circuit. */
  readonly output: number;
  /** Latest tick by arrival alone; NEVER when the output cannot go that way. */
  readonly bound: Readonly<Record<Edge, number>>;
  readonly slowest: Readonly<Record<Flips, Readonly<Record<Edge, Readonly<Record<Kind, Slowest>>>>>>;
}

export interface Settling {
  readonly outputs: readonly OutputSettling[];
  /** How the transitions of each kind were looked through. */
  readonly method: Readonly<Record<Flips, 'simulated' | 'solver'>>;
  /** Conflicts that the solver met. */
  readonly conflicts: number;
}

export interface SettleOptions {
  readonly scope: Scope;
  /** Makes patterns that can happen, for the solver. */
  readonly pattern: PatternMaker;
  /** Most word operations of a walk over all transitions. */
  readonly mostWork: number;
  /** Most words of tables that such a walk keeps. */
  readonly mostMemory: number;
  /** Most conflicts of the solver for one question. */
  readonly conflicts: number;
}

export const SETTLE_LIMITS = { mostWork: 6e9, mostMemory: 5e7, conflicts: 20_000 } as const;

/** Everything may happen, and the usual limits. */
export function usualOptions(circuit: Circuit): SettleOptions {
  return { scope: wholeScope(circuit), pattern: anyPattern(circuit), ...SETTLE_LIMITS };
}

/** Most inputs for which there are tables of patterns. */
const MOST_TABLE_INPUTS = 20;

/** Can all transitions that flip at most so many inputs be simulated? */
export function isAffordable(circuit: Circuit, mostFlips: number, options: SettleOptions): boolean {
  if (circuit.inputs.length > MOST_TABLE_INPUTS) return false;
  const { work, memory } = costOfWalk(circuit, options.scope, mostFlips);
  return work <= options.mostWork && memory <= options.mostMemory;
}

/** The slowest changes of every output of a circuit without circles. */
export function settle(circuit: Circuit, options: SettleOptions = usualOptions(circuit)): Settling {
  const { scope } = options;
  const moving = circuit.inputs.map((_, i) => (scope.moving.includes(i) ? 1 : 0));
  const arrivals = arrivalsOf(circuit, moving);
  const singles = isAffordable(circuit, 1, options);
  const all = isAffordable(circuit, scope.moving.length, options);
  const claims = { single: new Claims(circuit, 'all'), any: new Claims(circuit, 'all') };
  let records: Readonly<Record<Flips, Records>> = {
    single: emptyRecords(circuit),
    any: emptyRecords(circuit),
  };
  if (singles) {
    const slowest = new SlowestChanges(circuit);
    walkTransitions(circuit, scope, 1, slowest);
    const single = copyOf(slowest.records);
    if (all) walkTransitions(circuit, scope, scope.moving.length, slowest);
    records = { single, any: slowest.records };
  }
  let conflicts = 0;
  if (!singles || !all) {
    const search = new Search(circuit, arrivals, moving, options);
    if (!singles) search.lower('single', records.single, claims.single);
    takeOver(records.single, records.any);
    search.lower('any', records.any, claims.any);
    conflicts = search.conflicts;
    if (!search.isTrusted()) for (const flips of FLIPS) claims[flips].withdraw('refuted');
  }
  const outputs = circuit.outputs.map(({ wire }, output): OutputSettling => {
    const bound = { on: arrivals.latest.on[wire], off: arrivals.latest.off[wire] };
    const figures = (flips: Flips, edge: Edge, kind: Kind): Slowest => {
      const { tick, transition } = records[flips][output][edge][kind];
      return { tick, transition, claim: claims[flips].of(output, edge, kind) };
    };
    const ofEdge = (flips: Flips, edge: Edge): Record<Kind, Slowest> => ({
      settles: figures(flips, edge, 'settles'),
      changes: figures(flips, edge, 'changes'),
    });
    const ofFlips = (flips: Flips): Record<Edge, Record<Kind, Slowest>> => ({
      on: ofEdge(flips, 'on'),
      off: ofEdge(flips, 'off'),
    });
    return { output, bound, slowest: { single: ofFlips('single'), any: ofFlips('any') } };
  });
  return {
    outputs,
    method: { single: singles ? 'simulated' : 'solver', any: all ? 'simulated' : 'solver' },
    conflicts,
  };
}

/** What is claimed of each figure. */
class Claims {
  private readonly claims: Record<Edge, Record<Kind, Claim>>[];

  constructor(circuit: Circuit, claim: Claim) {
    this.claims = circuit.outputs.map(() => ({
      on: { settles: claim, changes: claim },
      off: { settles: claim, changes: claim },
    }));
  }

  of(output: number, edge: Edge, kind: Kind): Claim {
    return this.claims[output][edge][kind];
  }

  /** What was claimed so is merely found. */
  withdraw(claim: Claim): void {
    for (const claims of this.claims) {
      for (const edge of EDGES) {
        for (const kind of KINDS) if (claims[edge][kind] === claim) claims[edge][kind] = 'found';
      }
    }
  }

  set(output: number, edge: Edge, kind: Kind, claim: Claim): void {
    this.claims[output][edge][kind] = claim;
  }
}

/** Longer traces are not replayed. */
const MOST_REPLAYED = 100_000;

/** From the static bound down, tick by tick. */
class Search {
  private readonly trace = new ClauseProof();
  private readonly solver = new Solver(this.trace);
  private readonly circuit: Circuit;
  private readonly arrivals: Arrivals;
  private readonly options: SettleOptions;
  private readonly clauses: TransitionClauses;
  private refutations = 0;

  constructor(circuit: Circuit, arrivals: Arrivals, moving: readonly number[], options: SettleOptions) {
    this.circuit = circuit;
    this.arrivals = arrivals;
    this.options = options;
    this.clauses = new TransitionClauses(this.solver, circuit, options.pattern, moving);
  }

  get conflicts(): number {
    return this.solver.conflicts;
  }

  /** Do all refutations follow, step by step? */
  isTrusted(): boolean {
    if (this.refutations === 0) return true;
    return this.solver.conflicts <= MOST_REPLAYED && checkProof(this.trace.steps).wrongStep === null;
  }

  lower(flips: Flips, records: Records, claims: Claims): void {
    this.circuit.outputs.forEach((_, output) => {
      for (const edge of EDGES) {
        for (const kind of KINDS)
          claims.set(output, edge, kind, this.figure(flips, records, output, edge, kind));
      }
    });
  }

  private figure(flips: Flips, records: Records, output: number, edge: Edge, kind: Kind): Claim {
    const { circuit, arrivals, clauses, solver } = this;
    const { wire } = circuit.outputs[output];
    const bound = arrivals.latest[edge][wire];
    const record = records[output][edge][kind];
    // What changes for good also settles, so a slow change is a slow settling; and no change is slower than settling.
    const settled = kind === 'changes' ? records[output][edge].settles : null;
    let complete = true;
    for (let tick = bound; tick > record.tick && tick > NEVER; tick--) {
      if (settled !== null && tick > settled.tick && complete) continue;
      const assumed = clauses.lastChange(wire, edge, kind, tick, flips === 'single');
      const answer = solver.solve(assumed, this.options.conflicts);
      if (answer === 'undecided') complete = false;
      if (answer === 'unsatisfiable') {
        this.refutations++;
        this.trace.push(
          LEARNT,
          assumed.map((literal) => -literal),
        );
      }
      if (answer !== 'satisfiable') continue;
      record.tick = tick;
      record.transition = clauses.transition();
      this.replay(record.transition, wire, tick);
      if (flips === 'any' && solver.solve([...assumed, clauses.atMostOne()], 1000) === 'satisfiable') {
        record.transition = clauses.transition();
      }
      break;
    }
    if (record.tick === bound) return 'bound';
    return complete ? 'refuted' : 'found';
  }

  /** What the solver says happens must happen in the simulation. */
  private replay({ from, to }: Transition, wire: number, tick: number): void {
    const last = changesOf(simulateTransition(this.circuit, from, to), wire).at(-1);
    if (last?.tick !== tick) {
      const name = this.circuit.names[wire];
      throw new Error(`the solver has ${name} settle at tick ${tick}, the simulation at ${last?.tick}`);
    }
  }
}

function copyOf(records: Records): Records {
  return records.map(({ on, off }) => ({
    on: { settles: { ...on.settles }, changes: { ...on.changes } },
    off: { settles: { ...off.settles }, changes: { ...off.changes } },
  }));
}

/** A flip of a single input is a change of the inputs as well. */
function takeOver(from: Records, to: Records): void {
  from.forEach((record, output) => {
    for (const edge of EDGES) {
      for (const kind of KINDS) {
        if (record[edge][kind].tick > to[output][edge][kind].tick) {
          Object.assign(to[output][edge][kind], record[edge][kind]);
        }
      }
    }
  });
}
