// What a schematic shows, before anything has a place: boxes in columns, and the wires between their ends.
//
// A column belongs to a tick: what settles then stands in it, inputs at the tick at which they arrive. Joins stand
// between the column of their latest leg and the next, outputs behind the last column. A box has its ends on the left
// (what it reads) and on the right (one for each separate lead that leaves it).

import { criticalWires } from './critical-path.ts';
import type { NetworkInverter, Point, WireRail } from './result.ts';
import { legStrip } from './schematic-symbols.ts';
import { type Reader, type Wiring, type WiringLimits, wiringOf } from './wiring.ts';

export type BoxKind = 'input' | 'constant' | 'inverter' | 'join' | 'output';

export interface Box {
  readonly id: number;
  readonly kind: BoxKind;
  /** The name that is written beside it; empty for a join that is not an output's. */
  readonly name: string;
  /** What its level means; null when that is not known. */
  readonly rail: WireRail | null;
  /** The signal that it carries, in words; null when that is not known. */
  readonly meaning: string | null;
  readonly tick: number;
  /** Number of its column, even for ticks and odd for the joins between them. */
  readonly column: number;
  /** Nets that end here. */
  readonly legs: readonly number[];
  /** Names of these nets as they stand at the legs. */
  readonly legNames: readonly string[];
  /** Nets that begin here. */
  readonly leads: readonly number[];
  /** Room for the names over the legs of an inverter, the same in the whole column. */
  readonly strip: number;
  /** Lies on the slowest path. */
  readonly critical: boolean;
  /** A remark on what is wrong here; null when nothing is. */
  readonly conflict: string | null;
}

export interface Line {
  readonly net: number;
  readonly from: number;
  readonly to: number;
  readonly critical: boolean;
}

export interface Plan {
  readonly boxes: readonly Box[];
  readonly lines: readonly Line[];
  readonly wiring: Wiring;
  /** Ticks of the columns 0, 2, 4 and so on. */
  readonly ticks: readonly number[];
  /** By net: the name, the rail and the meaning of what it carries. */
  readonly nets: readonly NetFace[];
}

export interface NetFace {
  readonly name: string;
  readonly rail: WireRail | null;
  readonly meaning: string | null;
  readonly tick: number;
  readonly critical: boolean;
}

/** A wire or an output with something wrong. */
export interface Conflict {
  readonly wire: string;
  readonly text: string;
}

/** The rail that a meaning ends in, `g2 + p2, active-low`; null when it has none. */
export function railOfMeaning(meaning: string | undefined): WireRail | null {
  if (meaning === undefined) return null;
  return meaning.endsWith(', active-high') ? 'high' : meaning.endsWith(', active-low') ? 'low' : null;
}

/** Rails and meanings of all wires and joins of a point. */
class Faces {
  private readonly rails = new Map<string, WireRail | null>();
  private readonly meanings = new Map<string, string | null>();

  constructor(point: Point) {
    const named = new Map<string, WireRail>();
    for (const { rail, wires } of point.rails)
      if (rail === 'high' || rail === 'low') for (const wire of wires) named.set(wire, rail);
    for (const { wire, rail, name } of point.network.inputs) {
      this.rails.set(wire, rail);
      this.meanings.set(wire, `${name}, active-${rail}`);
    }
    for (const inverter of point.network.inverters) {
      this.rails.set(inverter.wire, railOf(inverter, named));
      this.meanings.set(inverter.wire, inverter.meaning ?? null);
    }
  }

  rail(wire: string): WireRail | null {
    return this.rails.get(wire) ?? null;
  }

  meaning(wire: string): string | null {
    return this.meanings.get(wire) ?? null;
  }
}

function railOf({ wire, meaning }: NetworkInverter, named: ReadonlyMap<string, WireRail>): WireRail | null {
  return railOfMeaning(meaning) ?? named.get(wire) ?? null;
}

/** Makes the plan of one network. */
export function planOf(point: Point, limits: WiringLimits, conflicts: readonly Conflict[] = []): Plan {
  const { network } = point;
  const wiring = wiringOf(network, limits);
  const faces = new Faces(point);
  const critical = criticalWires(point.network);
  const wrong = new Map(conflicts.map(({ wire, text }) => [wire, text]));
  const ticks = [
    ...new Set([0, ...network.inputs.map(({ tick }) => tick), ...network.inverters.map(({ tick }) => tick)]),
  ].sort((a, b) => a - b);
  const columnOf = (tick: number): number =>
    2 * Math.max(0, ticks.length - 1 - [...ticks].reverse().findIndex((known) => known <= tick));
  const last = 2 * (ticks.length - 1) + 2;

  const keyOf = ({ kind, at }: Reader): string | number =>
    kind === 'output' ? at : network.inverters[at].wire;
  const nets = wiring.nets.map(({ name, drivers, tick, readers }): NetFace => {
    const output = readers.find(({ kind }) => kind === 'output');
    const isJoin = drivers.length > 1;
    const rails = new Set(drivers.map((wire) => faces.rail(wire)));
    const [rail] = rails;
    const ofOutput = isJoin && output !== undefined ? network.outputs[output.at] : undefined;
    return {
      name,
      tick,
      rail: ofOutput?.rail ?? (rails.size === 1 ? rail : null),
      meaning: isJoin
        ? (ofOutput?.meaning ?? `${point.network.inverters.length > 0 ? drivers.join(' + ') : name}`)
        : faces.meaning(name),
      critical: drivers.some((wire) => readers.some((reader) => critical.steps(wire, keyOf(reader)))),
    };
  });

  const boxes: Box[] = [];
  const ofWire = new Map<string, number>();
  const leadsOf = (wire: string): number[] =>
    wiring.nets.flatMap(({ drivers }, net) => (drivers.includes(wire) ? [net] : []));
  const strips = new Map<number, number>();
  network.inverters.forEach(({ tick }, at) => {
    const names = wiring.legsOfInverter[at].map((net) => wiring.nets[net].name);
    strips.set(tick, Math.max(strips.get(tick) ?? 0, legStrip(names)));
  });
  const add = (box: Omit<Box, 'id' | 'strip'>): number => {
    const strip = box.kind === 'inverter' ? (strips.get(box.tick) ?? 0) : 0;
    return boxes.push({ id: boxes.length, strip, ...box }) - 1;
  };
  for (const wire of ['0', '1']) {
    if (leadsOf(wire).length === 0) continue;
    const common = { tick: 0, column: 0, legs: [], legNames: [], critical: false, conflict: null };
    const id = add({
      kind: 'constant',
      name: wire,
      rail: null,
      meaning: `always ${wire}`,
      leads: leadsOf(wire),
      ...common,
    });
    ofWire.set(wire, id);
  }
  for (const { wire, rail, tick } of network.inputs) {
    const id = add({
      kind: 'input',
      name: wire,
      rail,
      meaning: faces.meaning(wire),
      tick,
      column: columnOf(tick),
      legs: [],
      legNames: [],
      leads: leadsOf(wire),
      critical: critical.has(wire),
      conflict: wrong.get(wire) ?? null,
    });
    ofWire.set(wire, id);
  }
  network.inverters.forEach(({ wire, tick, meaning }, at) => {
    const id = add({
      kind: 'inverter',
      name: wire,
      rail: faces.rail(wire),
      meaning: meaning ?? null,
      tick,
      column: columnOf(tick),
      legs: wiring.legsOfInverter[at],
      legNames: wiring.legsOfInverter[at].map((net) => wiring.nets[net].name),
      leads: leadsOf(wire),
      critical: critical.has(wire),
      conflict: wrong.get(wire) ?? null,
    });
    ofWire.set(wire, id);
  });
  const source: number[] = wiring.nets.map(({ drivers, tick, readers, name }, net) => {
    if (drivers.length === 1) return ofWire.get(drivers[0]) ?? 0;
    const { rail, meaning, critical: onPath } = nets[net];
    return add({
      kind: 'join',
      name: readers.some(({ kind }) => kind === 'output') ? '' : name,
      rail,
      meaning,
      tick,
      column: columnOf(tick) + 1,
      legs: drivers.map(() => net),
      legNames: drivers,
      leads: [net],
      critical: onPath,
      conflict: wrong.get(name) ?? null,
    });
  });
  const outputBoxes = network.outputs.map(({ name, rail, tick, meaning }, at) =>
    add({
      kind: 'output',
      name,
      rail,
      meaning: meaning ?? null,
      tick,
      column: last,
      legs: [wiring.netOfOutput[at]],
      legNames: [],
      leads: [],
      critical: critical.output === at,
      conflict: wrong.get(name) ?? null,
    }),
  );

  const lines: Line[] = [];
  const inverterBox = (at: number): number => ofWire.get(network.inverters[at].wire) ?? 0;
  wiring.nets.forEach(({ drivers, readers }, net) => {
    if (drivers.length > 1) {
      for (const wire of drivers) {
        const isCritical = readers.some((reader) => critical.steps(wire, keyOf(reader)));
        lines.push({ net, from: ofWire.get(wire) ?? 0, to: source[net], critical: isCritical });
      }
    }
    for (const reader of readers) {
      const to = reader.kind === 'output' ? outputBoxes[reader.at] : inverterBox(reader.at);
      const isCritical = drivers.some((wire) => critical.steps(wire, keyOf(reader)));
      lines.push({ net, from: source[net], to, critical: isCritical });
    }
  });
  return { boxes, lines, wiring, ticks, nets };
}
