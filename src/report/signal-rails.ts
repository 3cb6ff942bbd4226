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

/** Row bits of the sample, conflicts for one proof, and how many signals are proved at most. */
const SAMPLE_BITS = 10;
const CONFLICTS = 2000;
const MOST_PROOFS = 400;
/** Signals times inverters: beyond this nothing is proved, and only inputs and outputs are told. */
const MOST_ASKED = 1e7;

/** `tables` are whole truth tables, or null. */
export function signalRails(
  system: System,
  tables: SystemTables | null,
  network: Network,
  target: Target,
): SignalPlace[] {
  if (tables !== null) return railsReport(system, tables, network, target);
  const sample = new Sample(system, null, SAMPLE_BITS, new Random(1)).tables();
  const outside = new Set([...system.inputs, ...network.outputs].map(({ signal }) => signal));
  const places = railsReport(system, sample, network, target);
  const asked = places.filter(({ signal, rail }) => !outside.has(signal) && rail !== 'absorbed');
  if (asked.length * network.size > MOST_ASKED) {
    const left = new Set(asked);
    return places.filter((place) => !left.has(place));
  }
  const prover = new Prover(system, network, target);
  // Mostly all are right: then one question for all of them answers it, because one proof leads to the next.
  const rounds = asked.map((place) => claimsOf(place));
  const longest = Math.max(0, ...rounds.map((claims) => claims.length));
  const doubtful = new Set<SignalPlace>();
  for (let n = 0; n < longest; n++) {
    const now = asked.filter((_, k) => rounds[k].length > n);
    const hold = prover.hold(
      now.map((place) => claimsOf(place)[n]),
      CONFLICTS * now.length,
    );
    if (!hold) for (const place of now) doubtful.add(place);
  }
  let proofs = 0;
  return places.filter((place) => {
    if (!doubtful.has(place)) return true;
    return proofs++ < MOST_PROOFS && claimsOf(place).every((claim) => prover.hold([claim], CONFLICTS));
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

  /** Whether all claims are proved, no two of them about one signal. */
  hold(claims: readonly Claim[], conflicts: number): boolean {
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
    return prove(asked, built, target.join.logic, { ...PROOF_LIMITS, conflicts }).verdict === 'equal';
  }
}
