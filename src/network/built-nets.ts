// What is one piece of wire. A join ties its legs for good, so everything that a join touches is a single net, and each
// place where one of these wires is used sees the OR of all that drives the net. Legs of an inverter tie nothing, a tap
// is a separate output, a run that takes time goes one way; a constant is a source of its own wherever it is used.
//
// From nets there is a plain network again (`drawnNetwork` as drawn, `tiedNetwork` as tied), so that everything that
// judges networks can judge what stands. Ticks of runs are lost in it; where the nets feed back into themselves there is
// none, since the level then depends on what was before.

import { packNetwork } from './build-network.ts';
import { type BuiltNetwork, builtLegs } from './built-network.ts';
import { driversOf } from './lay-built.ts';
import { FIRST_INPUT, type Network, ONE, type OutputWire } from './network.ts';

export interface Nets {
  /** By wire: the number of its net, which is the smallest wire in it. */
  readonly netOf: Int32Array;
  /** By net: what drives it, ascending; empty for a number that is no net. */
  readonly drivers: readonly (readonly number[])[];
  /** By net: the wires that are it. */
  readonly wires: readonly (readonly number[])[];
}

/** Merges wires that are tied. */
export function netsOf(built: BuiltNetwork): Nets {
  const { kinds } = built;
  const parent = Int32Array.from(kinds, (_, wire) => wire);
  const root = (wire: number): number => {
    let at = wire;
    while (parent[at] !== at) at = parent[at];
    parent[wire] = at;
    return at;
  };
  const tie = (a: number, b: number): void => {
    const [low, high] = [root(a), root(b)].sort((x, y) => x - y);
    parent[high] = low;
  };
  kinds.forEach((kind, wire) => {
    if (kind !== 'join' && !(kind === 'run' && built.delay[wire] === 0)) return;
    for (const leg of builtLegs(built, wire)) if (leg >= FIRST_INPUT) tie(wire, leg);
  });
  const netOf = Int32Array.from(kinds, (_, wire) => root(wire));
  const drivers = kinds.map(() => new Set<number>());
  const wires: number[][] = kinds.map(() => []);
  kinds.forEach((kind, wire) => {
    const net = netOf[wire];
    wires[net].push(wire);
    if (kind === 'tap') for (const leg of builtLegs(built, wire)) drivers[net].add(leg);
    else if (kind === 'join' || (kind === 'run' && built.delay[wire] === 0)) {
      for (const leg of builtLegs(built, wire)) if (leg < FIRST_INPUT) drivers[net].add(leg);
    } else drivers[net].add(wire);
  });
  return { netOf, drivers: drivers.map((set) => [...set].sort((a, b) => a - b)), wires };
}

/** Which wires a network delivers, and as what. */
export interface Delivery {
  readonly wire: number;
  readonly output: OutputWire;
}

/**
 * The network as drawn: every wire is driven by its own legs alone.
 *
 * @param signalOf the signal number of an input of the block, by name.
 */
export function drawnNetwork(
  built: BuiltNetwork,
  signalOf: (name: string) => number,
  deliveries: readonly Delivery[],
): Network {
  const expand = (wires: Iterable<number>): number[] => {
    const found = new Set<number>();
    for (const wire of wires) for (const driver of driversOf(built, wire)) found.add(driver);
    return [...found];
  };
  return (
    assemble(
      built,
      signalOf,
      deliveries,
      (wire) => expand(builtLegs(built, wire)),
      (wire) => expand([wire]),
    ) ?? fail()
  );
}

/** The network as its wires are really tied; null when it feeds back into itself. */
export function tiedNetwork(
  built: BuiltNetwork,
  signalOf: (name: string) => number,
  deliveries: readonly Delivery[],
): Network | null {
  const nets = netsOf(built);
  const ofNet = (wire: number): readonly number[] =>
    wire < FIRST_INPUT ? [wire] : nets.drivers[nets.netOf[wire]];
  return assemble(
    built,
    signalOf,
    deliveries,
    (wire) => [...builtLegs(built, wire)].flatMap(ofNet),
    (wire) => [...ofNet(wire)],
  );
}

function fail(): never {
  throw new Error('a built network has its wires behind their legs');
}

/** Puts inverters in order; runs pass on what drives their leg. `driving` says what drives a wire itself. */
function assemble(
  built: BuiltNetwork,
  signalOf: (name: string) => number,
  deliveries: readonly Delivery[],
  legsOf: (wire: number) => readonly number[],
  driving: (wire: number) => readonly number[],
): Network | null {
  const inputs = built.inputs.map(({ signal, rail, tick }) => ({ signal: signalOf(signal), rail, tick }));
  const first = FIRST_INPUT + inputs.length;
  const number = new Map<number, number>();
  for (let wire = 0; wire < first; wire++) number.set(wire, wire);
  const inverters: number[][] = [];
  const open = new Set<number>();
  /** Numbers of what drives, through runs; null in a circle. */
  const resolve = (drivers: readonly number[]): number[] | null => {
    const found = new Set<number>();
    for (const driver of drivers) {
      const known = number.get(driver);
      if (known !== undefined) found.add(known);
      else if (open.has(driver)) return null;
      else {
        open.add(driver);
        const legs = resolve(legsOf(driver));
        open.delete(driver);
        if (legs === null) return null;
        if (built.kinds[driver] === 'inverter') {
          number.set(driver, first + inverters.length);
          found.add(first + inverters.length);
          inverters.push(tidyLegs(legs));
        } else for (const leg of legs) found.add(leg);
      }
    }
    return [...found];
  };
  const joins: number[][] = [];
  for (const { wire } of deliveries) {
    const legs = resolve(driving(wire));
    if (legs === null) return null;
    joins.push(tidyLegs(legs));
  }
  return packNetwork(
    inputs,
    deliveries.map(({ output }) => output),
    inverters,
    joins,
  );
  function tidyLegs(legs: readonly number[]): number[] {
    const decides = built.logic === 'or' ? ONE : 0;
    if (legs.includes(decides)) return [decides];
    const kept = legs.filter((leg) => leg >= FIRST_INPUT).sort((a, b) => a - b);
    return kept.length > 0 ? kept : [1 - decides];
  }
}
