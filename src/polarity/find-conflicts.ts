// What is wrong with a built block, and where it begins.
//
// Faults of level are found by comparing levels on all rows, never by looking at words:
// - a wire is not what it is declared to carry although it would be wrong even if its legs were right (a wire that is
//   wrong only because something before it is, is not blamed);
// - a wire that stands in a join is read somewhere else as well, and what is read there is not what was drawn: the join
//   feeds back. Such a wire is a leg of a join and at the same time used alone, or a leg of two joins. Every difference
//   between the levels as drawn and as tied begins at one of these: follow the ties from the wire that reads wrong to
//   what should not drive it; the way climbs from a leg into a join somewhere, and the wire where it climbs is shared;
// - nets that feed back into themselves and do not come to rest, or not always to the same levels.
// Rails only give a fault its name: which legs would have to be turned over for the join to be what was meant.
//
// Faults of structure are counted: legs, places where the target joins nothing, separate wires of an input, and shared
// wires that happen to do no harm. They have severities of their own: `error` for wrong levels, `warning` for what
// cannot be built under the target, `notice` for the rest.

import { separateWiresOf } from '../network/built-costs.ts';
import { builtLegs } from '../network/built-network.ts';
import { driversOf } from '../network/lay-built.ts';
import { FIRST_INPUT } from '../network/network.ts';
import type { Severity, Span } from '../source/diagnostic.ts';
import { and, equal, firstRow, not, type Table, xor } from '../truth/table.ts';
import { firstBeside, firstDifference, madeOf, type Survey } from './survey.ts';

export type ConflictKind =
  | 'join-mixed'
  | 'join-low-as-or'
  | 'join-pieces'
  | 'wrong-rail'
  | 'wrong-signal'
  | 'shared-leg'
  | 'unsettled'
  | 'join-is-and'
  | 'shared-leg-harmless'
  | 'too-many-legs'
  | 'join-place'
  | 'input-wires';

export interface Finding {
  readonly kind: ConflictKind;
  readonly severity: Severity;
  /** The join, the declared wire, the shared wire, or what has too many legs. */
  readonly wire: number;
  /** For shared wires: all that are legs of the same joins in the same way, `wire` first. */
  readonly wires: readonly number[];
  readonly at: Span | null;
  /** A row on which it shows, -1 for faults of structure. */
  readonly row: number;
  /** For shared wires: the joins that it stands in; for joins: legs that would have to be turned over. */
  readonly joins: readonly number[];
  readonly turned: readonly number[];
  /** For shared wires: wires of the same net that are read and are not what was drawn. */
  readonly victims: readonly number[];
  /** What is allowed and what is there, for faults that are counted. */
  readonly most: number;
  readonly count: number;
}

/** All findings: errors first, each group in the order of the wires. */
export function findConflicts(found: Survey): Finding[] {
  const findings = [
    ...wrongWires(found),
    ...sharedWires(found),
    ...andJoins(found),
    ...structureFaults(found),
  ];
  const order: readonly Severity[] = ['error', 'warning', 'notice'];
  return findings.sort((a, b) => order.indexOf(a.severity) - order.indexOf(b.severity) || a.wire - b.wire);
}

/** Whether levels are wrong anywhere: what the findings of severity `error` stand for. */
export function hasLevelFault(findings: readonly Finding[]): boolean {
  return findings.some(({ severity }) => severity === 'error');
}

function finding(
  found: Survey,
  kind: ConflictKind,
  severity: Severity,
  wire: number,
  rest: Partial<Finding> = {},
): Finding {
  const at = found.built.at[wire];
  return {
    kind,
    severity,
    wire,
    wires: [wire],
    at,
    row: -1,
    joins: [],
    turned: [],
    victims: [],
    most: 0,
    count: 0,
    ...rest,
  };
}

function wrongWires(found: Survey): Finding[] {
  const { built, wishes, drawn, wished, rowBits } = found;
  const findings: Finding[] = [];
  built.kinds.forEach((kind, wire) => {
    const wish = wishes.byWire[wire];
    if (wish === null || kind === 'input' || kind === 'constant') return;
    if (wish.part) {
      const row = firstBeside(found, wire, wish);
      if (row < 0) return;
      const turned = firstBeside(found, wire, { ...wish, rail: wish.rail === 'high' ? 'low' : 'high' }) < 0;
      findings.push(finding(found, turned ? 'wrong-rail' : 'wrong-signal', 'error', wire, { row }));
      return;
    }
    const row = firstDifference(found, drawn[wire], wished[wire]);
    if (row < 0 || firstDifference(found, madeOf(built, wire, wished, rowBits), wished[wire]) < 0) return;
    findings.push(
      finding(found, ...namedFault(found, wire), wire, { row, turned: turnedLegs(found, wire) ?? [] }),
    );
  });
  return findings;
}

/** Which kind of mistake it is. */
function namedFault(found: Survey, wire: number): [ConflictKind, Severity] {
  const { built, wishes, drawn, wished, rowBits } = found;
  if (built.kinds[wire] === 'join' && isNamed(found, wire)) {
    const legs = [...builtLegs(built, wire)];
    const known = legs.map((leg) => wishes.byWire[leg]);
    const rails = new Set(known.map((wish) => wish?.rail));
    const pieces = known.filter((wish) => wish?.part === true);
    if (rails.has('high') && rails.has('low') && pieces.length > 1) return ['join-pieces', 'error'];
    const turned = turnedLegs(found, wire);
    if (turned !== null && turned.length > 0) {
      return [turned.length === legs.length ? 'join-low-as-or' : 'join-mixed', 'error'];
    }
    if (rails.has('high') && rails.has('low')) return ['join-mixed', 'error'];
  }
  const isTurned = firstDifference(found, not(drawn[wire], rowBits), wished[wire]) < 0;
  return [isTurned ? 'wrong-rail' : 'wrong-signal', 'error'];
}

/** Legs that must be turned over for the join to be the wish on either rail, the fewest; null when none do. */
export function turnedLegs(found: Survey, wire: number): number[] | null {
  const { built, drawn, wished, rowBits } = found;
  const legs = [...builtLegs(built, wire)];
  if (built.kinds[wire] !== 'join' || legs.length > MOST_LEGS) return null;
  const wish = wished[wire];
  const other = not(wish, rowBits);
  const choices = Array.from({ length: 2 ** legs.length }, (_, set) => set);
  choices.sort((a, b) => bits(a) - bits(b) || a - b);
  for (const set of choices) {
    const levels = [...drawn];
    legs.forEach((leg, n) => {
      if (((set >> n) & 1) === 1) levels[leg] = not(drawn[leg], rowBits);
    });
    const joined = madeOf(built, wire, levels, rowBits);
    const is = (level: Table): boolean => firstDifference(found, joined, level) < 0;
    if (is(wish) || is(other)) return legs.filter((_, n) => ((set >> n) & 1) === 1);
  }
  return null;
}

/** Wider joins are not tried leg by leg. */
const MOST_LEGS = 8;

function bits(set: number): number {
  let count = 0;
  for (let rest = set; rest > 0; rest >>= 1) count += rest & 1;
  return count;
}

/** Whether the reader made it, and not the laying of a gate. */
export function isNamed(found: Survey, wire: number): boolean {
  const element = found.built.element[wire];
  if (element < 0) return true;
  return found.block.elements[element].name === found.built.names[wire];
}

/** Wires that an inverter, a run that takes time, or the outside reads. */
export function readWires(found: Survey): Set<number> {
  const { built } = found;
  const read = new Set(built.outputs.map(({ wire }) => wire));
  built.kinds.forEach((kind, wire) => {
    if (kind !== 'inverter' && !(kind === 'run' && built.delay[wire] > 0)) return;
    for (const leg of builtLegs(built, wire)) if (leg >= FIRST_INPUT) read.add(leg);
  });
  return read;
}

/** By wire: what it is a leg of by being tied to it. */
export function tiedInto(found: Survey): number[][] {
  const { built } = found;
  const into: number[][] = built.names.map(() => []);
  built.kinds.forEach((kind, wire) => {
    if (kind !== 'join' && !(kind === 'run' && built.delay[wire] === 0)) return;
    for (const leg of builtLegs(built, wire)) if (leg >= FIRST_INPUT) into[leg].push(wire);
  });
  return into;
}

function sharedWires(found: Survey): Finding[] {
  const { built, nets, drawn, care } = found;
  const read = readWires(found);
  const into = tiedInto(found);
  const circles = found.unsettled === null ? new Set<number>() : netsInCircles(found);
  const findings: Finding[] = [];
  built.names.forEach((_, wire) => {
    const isShared = into[wire].length > 1 || (into[wire].length === 1 && read.has(wire));
    if (!isShared || isTrivial(found, wire, into, read)) return;
    const net = nets.netOf[wire];
    const above = ancestors(wire, into);
    let row = -1;
    const victims = [wire, ...above].filter((other) => {
      if (!read.has(other)) return false;
      const differing = and(care, xor(netLevel(found, net), drawn[other]));
      const first = firstRow(differing);
      if (first >= 0 && (row < 0 || first < row)) row = first;
      return first >= 0;
    });
    const joins = into[wire];
    if (found.unsettled !== null && circles.has(net)) {
      const unsettled = firstRow(found.unsettled);
      findings.push(finding(found, 'unsettled', 'error', wire, { row: unsettled, joins, victims }));
    } else if (victims.length > 0) {
      findings.push(finding(found, 'shared-leg', 'error', wire, { row, joins, victims }));
    } else findings.push(finding(found, 'shared-leg-harmless', 'notice', wire, { joins }));
  });
  return merged(findings);
}

/** Shared wires that are legs of the same joins are one finding. */
function merged(findings: readonly Finding[]): Finding[] {
  const groups = new Map<string, Finding[]>();
  for (const one of findings) {
    const key = `${one.kind} ${one.joins.join(' ')}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [one]);
    else group.push(one);
  }
  return [...groups.values()].map((group) => {
    const rows = group.map(({ row }) => row).filter((row) => row >= 0);
    return {
      ...group[0],
      wires: group.map(({ wire }) => wire),
      victims: [...new Set(group.flatMap(({ victims }) => victims))],
      row: rows.length > 0 ? Math.min(...rows) : -1,
    };
  });
}

/** Tied to one wire only and driven alike: another name for it, as `wire(a)` is. */
function isTrivial(
  found: Survey,
  wire: number,
  into: readonly (readonly number[])[],
  read: ReadonlySet<number>,
): boolean {
  const own = driversOf(found.built, wire).join(' ');
  const ends = [wire, ...ancestors(wire, into)].filter(
    (other) => read.has(other) || into[other].length === 0,
  );
  return ends.every((other) => driversOf(found.built, other).join(' ') === own);
}

/** All that a wire is tied into, step by step. */
function ancestors(wire: number, into: readonly (readonly number[])[]): number[] {
  const seen = new Set<number>();
  const walk = (at: number): void => {
    for (const join of into[at]) {
      if (seen.has(join)) continue;
      seen.add(join);
      walk(join);
    }
  };
  walk(wire);
  return [...seen];
}

/** The level of a net whose drivers are what was drawn. */
function netLevel(found: Survey, net: number): Table {
  const drivers = found.nets.drivers[net];
  const isOr = found.built.logic === 'or';
  const level = new Uint32Array(found.care.length).fill(isOr ? 0 : 0xffffffff);
  for (const driver of drivers) {
    const own = found.drawn[driver];
    for (let w = 0; w < level.length; w++) level[w] = isOr ? level[w] | own[w] : level[w] & own[w];
  }
  return level;
}

/** Nets that lie on a way that leads back to them. */
function netsInCircles(found: Survey): Set<number> {
  const { built, nets } = found;
  const feeds = new Map<number, Set<number>>();
  built.kinds.forEach((kind, wire) => {
    if (kind !== 'inverter' && !(kind === 'run' && built.delay[wire] > 0)) return;
    const driven = nets.drivers.flatMap((drivers, net) => (drivers.includes(wire) ? [net] : []));
    for (const leg of builtLegs(built, wire)) {
      const from = feeds.get(nets.netOf[leg]) ?? new Set();
      for (const net of driven) from.add(net);
      feeds.set(nets.netOf[leg], from);
    }
  });
  const inCircle = new Set<number>();
  for (const start of feeds.keys()) {
    const seen = new Set<number>();
    const walk = [...(feeds.get(start) ?? [])];
    for (let net = walk.pop(); net !== undefined; net = walk.pop()) {
      if (seen.has(net)) continue;
      seen.add(net);
      walk.push(...(feeds.get(net) ?? []));
    }
    if (seen.has(start)) inCircle.add(start);
  }
  return inCircle;
}

/** Joins of active-low wires alone of which nothing is said: worth a word, since they are not the OR. */
function andJoins(found: Survey): Finding[] {
  const { built, wishes } = found;
  return built.kinds.flatMap((kind, wire) => {
    if (kind !== 'join' || wishes.byWire[wire] !== null || !isNamed(found, wire)) return [];
    const legs = [...builtLegs(built, wire)].map((leg) => wishes.byWire[leg]);
    const isLow = legs.length > 1 && legs.every((wish) => wish?.rail === 'low');
    return isLow ? [finding(found, 'join-is-and', 'notice', wire)] : [];
  });
}

function structureFaults(found: Survey): Finding[] {
  const { built, target } = found;
  const findings: Finding[] = [];
  const read = readWires(found);
  const separate = separateWiresOf(built);
  built.kinds.forEach((kind, wire) => {
    const count = expandedLegs(found, wire);
    if (kind === 'inverter') {
      const most = target.inverter.maxLegs;
      if (most !== null && count > most) {
        findings.push(finding(found, 'too-many-legs', 'warning', wire, { most, count }));
      }
    } else if (kind === 'join' && count > 1) {
      const isOutput = built.outputs.some((output) => output.wire === wire);
      const most = target.join.maxLegs;
      if (target.join.where === 'inverter-inputs') {
        if (builtLegs(built, wire).length < 2) return;
        findings.push(finding(found, 'join-place', 'warning', wire, { count }));
      } else if (most !== null && count > most && (isOutput || read.has(wire))) {
        findings.push(finding(found, 'too-many-legs', 'warning', wire, { most, count }));
      }
    }
    const outputs = target.input.outputs;
    if (kind === 'input' && outputs !== null && separate[wire] > outputs) {
      findings.push(finding(found, 'input-wires', 'warning', wire, { most: outputs, count: separate[wire] }));
    }
  });
  return findings;
}

function expandedLegs(found: Survey, wire: number): number {
  const drivers = new Set<number>();
  for (const leg of builtLegs(found.built, wire)) for (const d of driversOf(found.built, leg)) drivers.add(d);
  return drivers.size;
}

/** Whether two tables agree on the rows that can happen. */
export function agree(found: Survey, a: Table, b: Table): boolean {
  return equal(a, b) || firstDifference(found, a, b) < 0;
}
