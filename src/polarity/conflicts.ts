// The conflicts of a built block, told: what is wrong and where, what the wire really carries, a smallest pattern that
// shows it with what each leg does in it, who reads it, and the ways out.

import type { BuiltBlock } from '../equations/built.ts';
import type { System } from '../equations/system.ts';
import { type BuiltCosts, builtCosts } from '../network/built-costs.ts';
import { type BuiltNetwork, builtLegs } from '../network/built-network.ts';
import { layBuilt } from '../network/lay-built.ts';
import { FIRST_INPUT } from '../network/network.ts';
import type { Pattern } from '../search/sample.ts';
import type { Diagnostic, Severity, Span } from '../source/diagnostic.ts';
import type { Target } from '../target/target.ts';
import { hasRow } from '../truth/table.ts';
import { type Carried, carriedBy, carriedTogether } from './carried.ts';
import {
  type ConflictKind,
  type Finding,
  findConflicts,
  hasLevelFault,
  readWires,
} from './find-conflicts.ts';
import { type Judge, networkFor, referenceSystem } from './reference.ts';
import { patternOn, type Survey, survey } from './survey.ts';
import { namedWire, type WayOut, waysOut } from './ways-out.ts';
import { readWishes } from './wishes.ts';

export interface LegOnPattern {
  readonly wire: string;
  readonly level: 0 | 1;
  /** What the level says of its signal, `carry1 is false`; null when the wire is not known to carry one. */
  readonly says: string | null;
}

export interface ShowingPattern {
  /** Values of the inputs, in their order. */
  readonly inputs: readonly (readonly [string, 0 | 1])[];
  readonly legs: readonly LegOnPattern[];
  /** The wire that is read. */
  readonly wire: string;
  /** Null when it does not settle to one level. */
  readonly is: 0 | 1 | null;
  readonly meant: 0 | 1;
}

export interface Conflict {
  readonly kind: ConflictKind;
  readonly severity: Severity;
  readonly wire: string;
  readonly at: Span | null;
  readonly message: string;
  /** What the wire really carries; null where that is not the question. */
  readonly carries: Carried | null;
  readonly meant: { readonly signal: string; readonly rail: 'high' | 'low' } | null;
  readonly pattern: ShowingPattern | null;
  /** Wires whose makers read something wrong, or outputs that are wrong by it. */
  readonly readers: readonly string[];
  readonly waysOut: readonly WayOut[];
}

export interface BlockConflicts {
  readonly block: BuiltBlock;
  readonly built: BuiltNetwork;
  readonly costs: BuiltCosts;
  readonly conflicts: readonly Conflict[];
  /** That there are no others is proved on all patterns. */
  readonly proved: boolean;
}

export interface CounterJudge {
  readonly judge: Judge;
  /** A pattern, by input of the system, on which a network is wrong; null when none is known. */
  readonly counterexample: (system: System, network: Parameters<Judge>[1]) => Pattern | null;
}

/** Finds and explains all conflicts of a block. `equations` say what signals are; null when nothing does. */
export function conflictsOf(
  block: BuiltBlock,
  equations: System | null,
  target: Target,
  { judge, counterexample }: CounterJudge,
): { readonly value: BlockConflicts | null; readonly diagnostics: readonly Diagnostic[] } {
  const built = layBuilt(block, target);
  const read = readWishes(block, built, equations);
  if (read.value === null) return { value: null, diagnostics: read.diagnostics };
  const { value: wishes } = read;
  const extra: Pattern[] = [];
  let found = survey(block, built, target, wishes, extra);
  let findings = findConflicts(found);
  let proved = found.exhaustive;
  // A sample may miss what a proof finds; what it finds joins the sample.
  for (let round = 0; !found.exhaustive && !hasLevelFault(findings) && round < 20; round++) {
    const meant = built.names.flatMap((_, wire) => (wishes.byWire[wire] === null ? [] : [wire]));
    const system = referenceSystem(built, wishes, new Set(meant));
    const network = networkFor(block, target, system);
    const verdict = network === null ? 'undecided' : judge(system, network);
    proved = verdict === 'equal';
    if (verdict !== 'different' || network === null) break;
    const pattern = counterexample(system, network);
    if (pattern === null) break;
    extra.push(pattern);
    found = survey(block, built, target, wishes, extra);
    findings = findConflicts(found);
  }
  const conflicts = findings.map((finding) =>
    told(found, finding, waysOut(found, finding, equations, judge)),
  );
  return {
    value: { block, built, costs: builtCosts(built, target), conflicts, proved },
    diagnostics: read.diagnostics,
  };
}

/** Nothing is wrong with the level there. */
const COUNTED: readonly ConflictKind[] = [
  'too-many-legs',
  'join-place',
  'input-wires',
  'shared-leg-harmless',
];

function told(found: Survey, finding: Finding, ways: readonly WayOut[]): Conflict {
  const { wishes } = found;
  const { wire, kind, severity, at } = finding;
  const wish = wishes.byWire[wire];
  const isShared = kind === 'shared-leg' || kind === 'unsettled';
  const isCounted = COUNTED.includes(kind);
  const drivers = found.nets.drivers[found.nets.netOf[wire]] ?? [];
  return {
    kind,
    severity,
    wire: namedWire(found, wire),
    at,
    message: messageOf(found, finding),
    carries: isCounted ? null : isShared ? carriedTogether(found, drivers) : carriedBy(found, wire),
    meant: wish === null || isShared || isCounted ? null : { signal: wish.shown, rail: wish.rail },
    pattern: finding.row < 0 ? null : showing(found, finding),
    readers: isShared ? readersOf(found, finding.victims, false) : readersOf(found, [wire], true),
    waysOut: ways,
  };
}

/** Elements that read one of the wires, and outputs among them. */
function readersOf(found: Survey, wires: readonly number[], joinsToo: boolean): string[] {
  const { built } = found;
  const readers = built.kinds.flatMap((kind, wire) => {
    const reads = kind === 'inverter' || kind === 'run' || (kind === 'join' && joinsToo);
    return reads && builtLegs(built, wire).some((leg) => wires.includes(leg)) ? [namedWire(found, wire)] : [];
  });
  const outputs = built.outputs
    .filter(({ wire }) => wires.includes(wire))
    .map(({ wire }) => namedWire(found, wire));
  return [...new Set([...readers, ...outputs])];
}

function showing(found: Survey, { wire, kind, row, victims, turned }: Finding): ShowingPattern {
  const { built, nets, drawn, wished, tied, unsettled } = found;
  const isShared = kind === 'shared-leg' || kind === 'unsettled';
  const seen = isShared ? (victims.find((victim) => differsOn(found, victim, row)) ?? wire) : wire;
  const legs = isShared ? nets.drivers[nets.netOf[wire]] : [...builtLegs(built, wire)];
  const bit = (levels: typeof drawn, at: number): 0 | 1 => (hasRow(levels[at], row) ? 1 : 0);
  const moves = unsettled !== null && hasRow(unsettled, row);
  return {
    inputs: patternOn(found, row),
    legs: legs.map((leg) => {
      const level = bit(drawn, leg);
      return { wire: shownWire(found, leg), level, says: saying(found, leg, level, turned.includes(leg)) };
    }),
    wire: namedWire(found, seen),
    is: moves ? null : isShared ? bit(tied, seen) : bit(drawn, seen),
    meant: isShared ? bit(drawn, seen) : bit(wished, seen),
  };
}

function differsOn(found: Survey, wire: number, row: number): boolean {
  return hasRow(found.tied[wire], row) !== hasRow(found.drawn[wire], row);
}

/** The inverters inside a gate have no name of their own. */
function shownWire({ built }: Survey, wire: number): string {
  const name = built.names[wire];
  if (!name.includes('.')) return name;
  return `not(${[...builtLegs(built, wire)].map((leg) => built.names[leg]).join(', ')})`;
}

/** What the level of a leg says, by its wish or else by what it is made of. */
function saying(found: Survey, wire: number, level: 0 | 1, isLow: boolean): string | null {
  const wish = found.wishes.byWire[wire];
  const carried = carriedBy(found, wire);
  const rail = wish?.rail ?? (isLow ? 'low' : 'high');
  const signal = wish?.shown ?? carried[rail];
  if (signal === found.built.names[wire] && wish === null) return null;
  const isTrue = (level === 1) === (rail === 'high');
  return `${/\s/.test(signal) ? `(${signal})` : signal} is ${isTrue ? 'true' : 'false'}`;
}

export function railWord(rail: 'high' | 'low'): string {
  return rail === 'high' ? 'active-high' : 'active-low';
}

function list(names: readonly string[]): string {
  const once = [...new Set(names)];
  return once.length < 2 ? (once[0] ?? '') : `${once.slice(0, -1).join(', ')} and ${once.at(-1)}`;
}

/** `g, active-low` for a leg that is known to carry a signal. */
function legWords(found: Survey, finding: Finding): string {
  const { built, wishes } = found;
  return list(
    [...builtLegs(built, finding.wire)].map((leg) => {
      const wish = wishes.byWire[leg];
      if (wish !== null) {
        const shown = wish.shown === built.names[leg] ? '' : `${wish.part ? 'part of ' : ''}${wish.shown} `;
        return `${built.names[leg]} (${shown}${railWord(wish.rail)})`;
      }
      return finding.turned.includes(leg) ? `${built.names[leg]} (active-low)` : built.names[leg];
    }),
  );
}

function messageOf(found: Survey, finding: Finding): string {
  const { built, wishes } = found;
  const { wire, kind } = finding;
  const name = namedWire(found, wire);
  const wish = wishes.byWire[wire];
  const joins = list(finding.joins.map((join) => namedWire(found, join)));
  const isOr = built.logic === 'or';
  const part = wish?.part === true ? 'a part of ' : '';
  const names = finding.wires.map((other) => namedWire(found, other));
  const isRead = finding.wires.some((other) => readWires(found).has(other));
  const many = names.length > 1;
  const shared = isRead
    ? `${list(names)} ${many ? 'are legs' : 'is a leg'} of ${joins} and ${many ? 'are' : 'is'} read elsewhere too`
    : `${list(names)} ${many ? 'are legs' : 'is a leg'} of ${joins}`;
  switch (kind) {
    case 'join-mixed':
      return `${name} joins wires of different rails, ${legWords(found, finding)}: it is not ${wish?.shown ?? 'their OR'} on either rail`;
    case 'join-low-as-or': {
      const isLow = [...builtLegs(built, wire)].every((leg) => wishes.byWire[leg]?.rail !== 'high');
      return isOr && isLow
        ? `${name} joins active-low wires, ${legWords(found, finding)}: that is the active-low wire of their AND, and not ${wish?.shown ?? 'their OR'}`
        : `${name} joins ${legWords(found, finding)}: each is on the other rail of what ${wish?.shown ?? 'it'} needs`;
    }
    case 'join-pieces':
      return `${name} joins an active-high and an active-low piece of one signal, ${legWords(found, finding)}: the level of one hides what the other says`;
    case 'wrong-rail':
      return `${name} is to carry ${part}${wish?.shown} ${railWord(wish?.rail ?? 'high')}, and carries it active-${wish?.rail === 'low' ? 'high' : 'low'}`;
    case 'wrong-signal':
      return `${name} is to carry ${part}${wish?.shown} ${railWord(wish?.rail ?? 'high')}, and carries something else`;
    case 'shared-leg': {
      const readers = readersOf(found, finding.victims, false);
      return `${shared}: tied together they are one wire, and ${list(readers)} ${readers.length > 1 ? 'see' : 'sees'} all of it`;
    }
    case 'unsettled':
      return `${shared}, and what reads it drives the same wire again: it does not settle to one level`;
    case 'join-is-and':
      return `${name} joins active-low wires alone: it is the active-low wire of their AND, ${carriedBy(found, wire).low}`;
    case 'shared-leg-harmless':
      return `${shared}: they are one wire, which does no harm here`;
    case 'too-many-legs':
      return `${name} has ${finding.count} legs, and the target allows ${finding.most}`;
    case 'join-place':
      return `${name} is a join of ${finding.count} wires, and the target joins wires at the inputs of inverters only`;
    case 'input-wires':
      return `${name} leads to ${finding.count} separate wires, and an input of the target has ${finding.most}`;
  }
}

/** The input wires of a block, in words: `a, b active-low`. */
export function inputWords(built: BuiltNetwork): string {
  return built.inputs
    .map(({ rail }, i) => `${built.names[FIRST_INPUT + i]}${rail === 'low' ? ' active-low' : ''}`)
    .join(', ');
}
