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
  let proofs = 0;
  return railsReport(system, sample, network, target).filter((place) => {
    if (outside.has(place.signal) || place.rail === 'absorbed') return true;
    return proofs++ < MOST_PROOFS && isProved(system, network, target, place);
  });
}

function isProved(system: System, network: Network, target: Target, place: SignalPlace): boolean {
  const { signal, rail, high, low } = place;
  const holds = (
    legs: readonly number[],
    on: 'high' | 'low',
    extra: readonly number[] | null = null,
  ): boolean => {
    const inverters = Array.from({ length: network.size }, (_, i) => [...legsOf(network, i)]);
    const join = [...legs];
    if (extra !== null) {
      join.push(firstInverter(network) + inverters.length);
      inverters.push([...extra]);
    }
    const asked: System = { ...system, outputs: [{ signal, rail: on, by: null }], claims: [], free: [] };
    const built = packNetwork(network.inputs, [{ signal, rail: on }], inverters, [join]);
    return (
      prove(asked, built, target.join.logic, { ...PROOF_LIMITS, conflicts: CONFLICTS }).verdict === 'equal'
    );
  };
  const isHome = (home: Home | null, on: 'high' | 'low'): boolean =>
    home === null || (home.isJoin ? holds(home.wires, on) : home.wires.every((wire) => holds([wire], on)));
  if (rail === 'split') return holds(high?.wires ?? [], 'high', low?.wires ?? []);
  return isHome(high, 'high') && isHome(low, 'low');
}
