// Where the named signals live, for a result. Where the system is too wide for whole tables the report is made on a
// sample of rows. What a sample rules out is ruled out for good; what it suggests is proved by the solver before it is
// told, within a small limit, and left out where that ends first.

import type { System } from '../equations/system.ts';
import { legsOf, packNetwork } from '../network/build-network.ts';
import { firstInverter, type Network } from '../network/network.ts';
import { type Home, railsReport, type SignalPlace } from '../polarity/rails.ts';
import { prove } from '../proof/prove.ts';
import { PROOF_LIMITS } from '../proof/verdict.ts';
import { Random } from '../search/random.ts';
import { Sample } from '../search/sample.ts';
import type { Target } from '../target/target.ts';
import type { SystemTables } from '../truth/system-tables.ts';

/** Row bits of the sample, conflicts for one proof, and how often the sample is mended. */
const SAMPLE_BITS = 10;
const CONFLICTS = 2000;
const MOST_ROUNDS = 12;
/** Where that does not end, signals are proved one by one; so many inverters may be looked at for it. */
const MOST_PROVED = 200_000;
/** Signals times inverters: beyond this nothing is proved, and only inputs and outputs are told. */
const MOST_ASKED = 1e6;

/** `tables` are whole truth tables, or null. */
export function signalRails(
  system: System,
  tables: SystemTables | null,
  network: Network,
  target: Target,
): SignalPlace[] {
  if (tables !== null) return railsReport(system, tables, network, target);
  const sample = new Sample(system, null, SAMPLE_BITS, new Random(1));
  const outside = new Set([...system.inputs, ...network.outputs].map(({ signal }) => signal));
  const isAsked = ({ signal, rail }: SignalPlace): boolean => !outside.has(signal) && rail !== 'absorbed';
  const prover = new Prover(system, network, target);
  let places = railsReport(system, sample.tables(), network, target);
  if (places.filter(isAsked).length * network.size > MOST_ASKED) {
    return places.filter((place) => !isAsked(place));
  }
  // Mostly all are right: then one question for all of them answers it, because one proof leads to the next. A pattern
  // on which one is wrong joins the sample.
  let doubtful = new Set<SignalPlace>();
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const answer = prover.all(places.filter(isAsked));
    doubtful = answer.doubtful;
    if (answer.pattern === null) break;
    sample.addCounterexample(answer.pattern);
    places = railsReport(system, sample.tables(), network, target);
  }
  if (doubtful.size === 0) return places;
  let proofs = MOST_PROVED / (1 + network.size);
  return places.filter((place) => {
    if (!doubtful.has(place)) return true;
    return proofs-- > 0 && claimsOf(place).every((claim) => prover.ask([claim], CONFLICTS) === 'equal');
  });
}

/** What must hold for a place: these legs joined, with an inverter more over `extra`, are the signal on that rail. */
interface Claim {
  readonly signal: number;
  readonly on: 'high' | 'low';
  readonly legs: readonly number[];
  readonly extra: readonly number[] | null;
}

function claimsOf({ signal, rail, high, low }: SignalPlace): Claim[] {
  if (rail === 'split') {
    return [{ signal, on: 'high', legs: high?.wires ?? [], extra: low?.wires ?? [] }];
  }
  const ofHome = (home: Home | null, on: 'high' | 'low'): Claim[] => {
    if (home === null) return [];
    const joins = home.isJoin ? [home.wires] : home.wires.map((wire) => [wire]);
    return joins.map((legs) => ({ signal, on, legs, extra: null }));
  };
  return [...ofHome(high, 'high'), ...ofHome(low, 'low')];
}

class Prover {
  private readonly system: System;
  private readonly network: Network;
  private readonly target: Target;

  constructor(system: System, network: Network, target: Target) {
    this.system = system;
    this.network = network;
    this.target = target;
  }

  /** The places of which a claim is not proved; and a pattern on which one is wrong, if there is such. */
  all(places: readonly SignalPlace[]): { doubtful: Set<SignalPlace>; pattern: Uint8Array | null } {
    const doubtful = new Set<SignalPlace>();
    for (let n = 0; ; n++) {
      const now = places.filter((place) => claimsOf(place).length > n);
      if (now.length === 0) return { doubtful, pattern: null };
      const answer = this.ask(
        now.map((place) => claimsOf(place)[n]),
        CONFLICTS * now.length,
      );
      if (answer === 'equal') continue;
      for (const place of now) doubtful.add(place);
      if (answer !== 'undecided') return { doubtful, pattern: answer };
    }
  }

  /** Whether all claims hold, no two of them about one signal; else a pattern on which one does not. */
  ask(claims: readonly Claim[], conflicts: number): 'equal' | 'undecided' | Uint8Array {
    const { system, network, target } = this;
    const inverters = Array.from({ length: network.size }, (_, i) => [...legsOf(network, i)]);
    const joins = claims.map(({ legs, extra }) => {
      if (extra === null) return [...legs];
      inverters.push([...extra]);
      return [...legs, firstInverter(network) + inverters.length - 1];
    });
    const outputs = claims.map(({ signal, on }) => ({ signal, rail: on, by: null }));
    const asked: System = { ...system, outputs, claims: [], free: [] };
    const built = packNetwork(
      network.inputs,
      outputs.map(({ signal, rail }) => ({ signal, rail })),
      inverters,
      joins,
    );
    const limits = { ...PROOF_LIMITS, conflicts };
    const { verdict, counterexample } = prove(asked, built, target.join.logic, limits);
    if (verdict === 'equal') return 'equal';
    if (counterexample === undefined) return 'undecided';
    return Uint8Array.from(system.inputs, ({ signal }) => counterexample[system.signals[signal]]);
  }
}
