// How a network is laid with real wires: which legs meet before they go on, how many leads leave each driver, and how
// many wires there are to lay.
//
// A net is one piece of wire that is tied together. A driver that is used alone feeds one net, however many readers it
// has. Legs of an output that meet are a net of several drivers, and whoever has all of them among its legs takes that
// net as one leg. Legs that several inverters have in common can be laid as a net too, but only from separate leads:
// a join is symmetric, so a lead that also went elsewhere would carry the join back into that place. Sharing is
// therefore bounded by the leads that a driver has.
//
// Sharing is chosen greedily. A set S of legs that stands at every inverter of M takes |S| |M| wires without a join and
// |S| + |M| - 1 with one, so it saves (|S| - 1)(|M| - 1); the set that saves most is laid first, then the rest is looked
// at again. Candidates are the intersections of two leg sets. Finding the best cover by such sets is hard; the greedy
// choice is within a wire or two on the adders. Cost: inverters squared, times legs, for each join laid.

import type { WireNetwork } from './result.ts';

/** What bounds sharing; taken from the target. */
export interface WiringLimits {
  /** Joins can be laid anywhere; otherwise legs meet only at inverters. */
  readonly joins: boolean;
  /** Separate leads of an inverter and of an input, null for any number. */
  readonly inverterLeads: number | null;
  readonly inputLeads: number | null;
  /** Most legs that may meet in a join, null for any number. */
  readonly maxLegs: number | null;
}

export const UNLIMITED: WiringLimits = { joins: true, inverterLeads: null, inputLeads: null, maxLegs: null };

/** Index into the inverters or into the outputs of the network. */
export interface Reader {
  readonly kind: 'inverter' | 'output';
  readonly at: number;
}

export interface Net {
  /** The wire that drives it, or the name of the join. */
  readonly name: string;
  /** Wires that drive it; two or more: they are joined. */
  readonly drivers: readonly string[];
  readonly readers: readonly Reader[];
  /** Tick at which its level settles: that of its latest driver. */
  readonly tick: number;
}

export interface Wiring {
  /** Single wires first, in the order of the network, then joins in the order of their ticks. */
  readonly nets: readonly Net[];
  /** By inverter: indices of the nets that are its legs, in the order in which its legs are listed. */
  readonly legsOfInverter: readonly (readonly number[])[];
  /** By output: the net that goes outside. */
  readonly netOfOutput: readonly number[];
  /** Pieces of wire: each net ties its ends together, one piece fewer than it has ends. */
  readonly wires: number;
  /** The same if nothing but the outputs were joined. */
  readonly wiresUnshared: number;
}

/** A join is laid when it saves at least so many wires: a knot is work too. */
const LEAST_SAVING = 3;

interface Join {
  readonly legs: readonly string[];
  readonly inverters: number[];
  readonly outputs: number[];
}

/** Ticks of all wires by name; constants are there from the beginning. */
export function ticksByWire(network: WireNetwork): Map<string, number> {
  const ticks = new Map<string, number>([
    ['0', 0],
    ['1', 0],
  ]);
  for (const { wire, tick } of [...network.inputs, ...network.inverters]) ticks.set(wire, tick);
  return ticks;
}

/** The nets of a network. */
export function wiringOf(network: WireNetwork, limits: WiringLimits): Wiring {
  const joins = joinsOfOutputs(network);
  const alone = network.inverters.map(({ legs }) => new Set(legs));
  for (const join of joins) {
    network.inverters.forEach(({ legs }, at) => {
      if (!join.legs.every((leg) => legs.includes(leg))) return;
      join.inverters.push(at);
      for (const leg of join.legs) alone[at].delete(leg);
    });
  }
  const wiresUnshared = countWires(network, joins, alone);
  if (limits.joins) share(network, limits, joins, alone);
  return assembled(network, joins, alone, wiresUnshared);
}

function joinsOfOutputs({ outputs }: WireNetwork): Join[] {
  const joins = new Map<string, Join>();
  outputs.forEach(({ legs }, at) => {
    if (legs.length < 2) return;
    const key = JSON.stringify([...legs].sort());
    const join = joins.get(key) ?? { legs, inverters: [], outputs: [] };
    join.outputs.push(at);
    joins.set(key, join);
  });
  return [...joins.values()];
}

/** Leads that each wire has left when it feeds the joins laid so far and what it is used for alone. */
class Leads {
  private readonly limit = new Map<string, number>();
  private readonly joins: readonly Join[];
  private readonly alone: readonly ReadonlySet<string>[];
  private readonly outputs: ReadonlySet<string>;

  constructor(
    network: WireNetwork,
    limits: WiringLimits,
    joins: readonly Join[],
    alone: readonly ReadonlySet<string>[],
  ) {
    const any = Number.POSITIVE_INFINITY;
    for (const { wire } of network.inputs) this.limit.set(wire, limits.inputLeads ?? any);
    for (const { wire } of network.inverters) this.limit.set(wire, limits.inverterLeads ?? any);
    this.joins = joins;
    this.alone = alone;
    this.outputs = new Set(network.outputs.flatMap(({ legs }) => (legs.length === 1 ? legs : [])));
  }

  /** Can `wire` feed one more join that takes the place of its lone use at the inverters of `taken`? */
  allow(wire: string, taken: ReadonlySet<number>): boolean {
    const most = this.limit.get(wire) ?? Number.POSITIVE_INFINITY;
    if (most === Number.POSITIVE_INFINITY) return true;
    const staysAlone =
      this.outputs.has(wire) || this.alone.some((legs, at) => !taken.has(at) && legs.has(wire));
    const joins = this.joins.filter(({ legs }) => legs.includes(wire)).length;
    return joins + 1 + (staysAlone ? 1 : 0) <= most;
  }
}

/** Lays joins of legs that inverters have in common, as long as one saves enough. */
function share(network: WireNetwork, limits: WiringLimits, joins: Join[], alone: Set<string>[]): void {
  const leads = new Leads(network, limits, joins, alone);
  for (;;) {
    let best: { legs: string[]; inverters: number[]; saving: number } | null = null;
    const seen = new Set<string>();
    for (let i = 0; i < alone.length; i++) {
      for (let j = i + 1; j < alone.length; j++) {
        const legs = [...alone[i]].filter((leg) => alone[j].has(leg));
        if (legs.length < 2 || legs.length > (limits.maxLegs ?? legs.length)) continue;
        const key = JSON.stringify([...legs].sort());
        if (seen.has(key)) continue;
        seen.add(key);
        const inverters = [...alone.keys()].filter((at) => legs.every((leg) => alone[at].has(leg)));
        const saving = (legs.length - 1) * (inverters.length - 1);
        if (saving < LEAST_SAVING || saving <= (best?.saving ?? 0)) continue;
        const taken = new Set(inverters);
        if (legs.every((leg) => leads.allow(leg, taken))) best = { legs, inverters, saving };
      }
    }
    if (best === null) return;
    joins.push({ legs: best.legs, inverters: best.inverters, outputs: [] });
    for (const at of best.inverters) for (const leg of best.legs) alone[at].delete(leg);
  }
}

function countWires(
  network: WireNetwork,
  joins: readonly Join[],
  alone: readonly ReadonlySet<string>[],
): number {
  const single = network.outputs.filter(({ legs }) => legs.length === 1).length;
  const lone = alone.reduce((sum, legs) => sum + legs.size, 0);
  const joined = joins.map(
    ({ legs, inverters, outputs }) => legs.length + inverters.length + outputs.length - 1,
  );
  return joined.reduce((sum, count) => sum + count, single + lone);
}

function assembled(
  network: WireNetwork,
  joins: readonly Join[],
  alone: readonly ReadonlySet<string>[],
  wiresUnshared: number,
): Wiring {
  const ticks = ticksByWire(network);
  const nets: Net[] = [];
  const ofWire = new Map<string, number>();
  for (const wire of ticks.keys()) {
    const readers: Reader[] = [
      ...network.inverters.flatMap((_, at): Reader[] =>
        alone[at].has(wire) ? [{ kind: 'inverter', at }] : [],
      ),
      ...network.outputs.flatMap(({ legs }, at): Reader[] =>
        legs.length === 1 && legs[0] === wire ? [{ kind: 'output', at }] : [],
      ),
    ];
    if (readers.length === 0) continue;
    ofWire.set(wire, nets.length);
    nets.push({ name: wire, drivers: [wire], readers, tick: ticks.get(wire) ?? 0 });
  }
  const latest = ({ legs }: Join): number => Math.max(...legs.map((leg) => ticks.get(leg) ?? 0));
  const ordered = joins
    .map((join, at) => ({ join, at }))
    .sort((a, b) => latest(a.join) - latest(b.join) || a.at - b.at);
  const names = joinNames(
    network,
    ordered.map(({ join }) => join),
  );
  const ofJoin = ordered.map(({ join }, n) => {
    const readers: Reader[] = [
      ...join.inverters.map((at): Reader => ({ kind: 'inverter', at })),
      ...join.outputs.map((at): Reader => ({ kind: 'output', at })),
    ];
    nets.push({ name: names[n], drivers: join.legs, readers, tick: latest(join) });
    return { join, net: nets.length - 1 };
  });
  const legsOfInverter = network.inverters.map(({ legs }, at) => {
    const found: number[] = [];
    for (const leg of legs) {
      const nets = ofJoin
        .filter(({ join }) => join.inverters.includes(at) && join.legs.includes(leg))
        .map(({ net }) => net);
      const single = alone[at].has(leg) ? ofWire.get(leg) : undefined;
      for (const net of single === undefined ? nets : [single]) if (!found.includes(net)) found.push(net);
    }
    return found;
  });
  const netOfOutput = network.outputs.map(({ legs }, at) =>
    legs.length === 1
      ? (ofWire.get(legs[0]) ?? 0)
      : (ofJoin.find(({ join }) => join.outputs.includes(at))?.net ?? 0),
  );
  return { nets, legsOfInverter, netOfOutput, wires: countWires(network, joins, alone), wiresUnshared };
}

/** A join that goes outside is called like its output; the others are numbered. None is the name of a wire. */
function joinNames(network: WireNetwork, joins: readonly Join[]): string[] {
  const taken = new Set([
    ...ticksByWire(network).keys(),
    ...[...network.inputs, ...network.outputs].map(({ name }) => name),
  ]);
  let prefix = 'j';
  while ([...taken].some((name) => name.startsWith(prefix) && /^\d+$/.test(name.slice(prefix.length))))
    prefix += '_';
  let next = 1;
  return joins.map(({ outputs }) => {
    if (outputs.length === 0) return `${prefix}${next++}`;
    const { name, rail } = network.outputs[outputs[0]];
    const isTwice = network.outputs.filter((other) => other.name === name).length > 1;
    return isTwice ? `${name} (active-${rail})` : name;
  });
}
