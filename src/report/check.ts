// Does what stands do what the equations say? Every output of the equations is looked up among the wires of the block,
// by what the wire is declared to carry, by its name, or, where words do not help, by what it does. Then the block, as
// its wires are really tied, is proved against the equations; if it is wrong the smallest pattern shows it, and the
// first wire that is wrong on it.

import type { BuiltBlock } from '../equations/built.ts';
import { overrideRails } from '../equations/override-rails.ts';
import type { Expression, System } from '../equations/system.ts';
import { builtCosts } from '../network/built-costs.ts';
import { type Delivery, tiedNetwork } from '../network/built-nets.ts';
import { type BuiltNetwork, builtWire } from '../network/built-network.ts';
import { layBuilt } from '../network/lay-built.ts';
import { FIRST_INPUT } from '../network/network.ts';
import { findConflicts, isNamed, readWires } from '../polarity/find-conflicts.ts';
import { madeOf, type Survey, survey } from '../polarity/survey.ts';
import { readWishes, type Wishes } from '../polarity/wishes.ts';
import { prove } from '../proof/prove.ts';
import type { Diagnostic } from '../source/diagnostic.ts';
import type { Target } from '../target/target.ts';
import { and, firstRow, hasRow, not, type Table, xor } from '../truth/table.ts';

export interface CheckedOutput {
  readonly output: string;
  /** The wire that carries it, null when none does. */
  readonly wire: string | null;
  readonly rail: 'high' | 'low';
  readonly tick: number | null;
}

export interface WrongWire {
  readonly wire: string;
  /** Null when it does not settle. */
  readonly is: 0 | 1 | null;
  readonly meant: 0 | 1;
}

export interface CheckedBlock {
  readonly name: string;
  readonly verdict: 'equal' | 'different' | 'undecided';
  readonly method: 'patterns' | 'solver';
  readonly patterns: number | null;
  readonly outputs: readonly CheckedOutput[];
  /** Values of the inputs on the smallest pattern that differs. */
  readonly pattern: readonly (readonly [string, 0 | 1])[] | null;
  /** The first wire that is not what is said of it. */
  readonly firstWrong: WrongWire | null;
  /** The first wire that, turned over, would make all outputs right there; null when it is the same, or none would. */
  readonly suspect: WrongWire | null;
  /** Faults of level that `conflicts` explains. */
  readonly conflicts: number;
  readonly ticks: number;
  readonly parts: number;
  readonly copies: number;
  readonly legs: number;
}

export interface Checked {
  readonly block: CheckedBlock | null;
  /** The equations on the rails and at the ticks of the block: what a network for it would be searched for. */
  readonly wanted: System | null;
  readonly diagnostics: readonly Diagnostic[];
}

/** Checks one block against equations. Faults of either text come back as diagnostics. */
export function checkBuilt(block: BuiltBlock, equations: System, target: Target): Checked {
  const built = layBuilt(block, target);
  const read = readWishes(block, built, equations);
  if (read.value === null) return { block: null, wanted: null, diagnostics: read.diagnostics };
  const found = survey(block, built, target, read.value);
  const outputs = outputsOf(found, equations);
  const wanted = wantedSystem(equations, built, outputs);
  const costs = builtCosts(built, target);
  const { ticks, parts, copies, legs } = costs;
  const conflicts = findConflicts(found).filter(({ severity }) => severity === 'error').length;
  const base = {
    name: block.name,
    outputs: outputs.map((output) => ({
      ...output,
      tick: output.wire === null ? null : costs.wireTicks[builtWire(built, output.wire)],
    })),
    conflicts,
    ticks,
    parts,
    copies,
    legs,
  };
  const compared = compare(found, read.value, outputs);
  return { block: { ...base, ...compared }, wanted, diagnostics: read.diagnostics };
}

type Found = Omit<CheckedOutput, 'tick'>;

/** Where each output of the equations is. */
function outputsOf(found: Survey, equations: System): Found[] {
  const { wishes, built, block } = found;
  return equations.outputs.map(({ signal, rail }): Found => {
    const output = equations.signals[signal];
    const number = wishes.system.signals.indexOf(output);
    const names = [...block.outputs.map(({ wire }) => wire), ...block.elements.map(({ name }) => name)];
    for (const name of names) {
      const wish = wishes.byWire[builtWire(built, name)];
      if (wish === null || wish.part || !isSignal(wish.expression, number)) continue;
      return { output, wire: name, rail: wish.rail };
    }
    for (const { wire } of block.outputs) {
      const level = found.tied[builtWire(built, wire)];
      const value = found.signals[number];
      const differs = (a: Table): boolean => firstRow(and(found.care, xor(level, a))) >= 0;
      if (!differs(value)) return { output, wire, rail: 'high' };
      if (!differs(not(value, found.rowBits))) return { output, wire, rail: 'low' };
    }
    return { output, wire: null, rail: rail === 'low' ? 'low' : 'high' };
  });
}

function isSignal(expression: Expression, signal: number): boolean {
  return expression.kind === 'signal' && expression.signal === signal;
}

function wantedSystem(equations: System, built: BuiltNetwork, outputs: readonly Found[]): System | null {
  const ticks = new Map(built.inputs.map(({ signal, tick }) => [signal, tick]));
  const rails = new Map<string, 'high' | 'low' | 'both'>();
  for (const { signal, rail } of built.inputs) rails.set(signal, rails.has(signal) ? 'both' : rail);
  const named = (rail: string): string[] => [
    ...[...rails].filter(([name, own]) => own === rail && hasInput(equations, name)).map(([name]) => name),
    ...outputs.filter((output) => output.rail === rail).map(({ output }) => output),
  ];
  const overridden = overrideRails(equations, {
    high: named('high'),
    low: named('low'),
    both: named('both'),
  });
  if (overridden.value === null) return null;
  return {
    ...overridden.value,
    inputs: overridden.value.inputs.map((input) => ({
      ...input,
      tick: ticks.get(equations.signals[input.signal]) ?? input.tick,
    })),
  };
}

function hasInput(equations: System, name: string): boolean {
  return equations.inputs.some(({ signal }) => equations.signals[signal] === name);
}

type Compared = Pick<CheckedBlock, 'verdict' | 'method' | 'patterns' | 'pattern' | 'firstWrong' | 'suspect'>;

function compare(found: Survey, wishes: Wishes, outputs: readonly Found[]): Compared {
  const { built } = found;
  const { system } = wishes;
  const delivered = outputs.filter(({ wire }) => wire !== null);
  const numberOf = (name: string): number => system.signals.indexOf(name);
  const judged: System = {
    ...system,
    outputs: outputs.map(({ output, rail }) => ({ signal: numberOf(output), rail, by: null })),
  };
  const deliveries = delivered.map(
    ({ output, wire, rail }): Delivery => ({
      wire: builtWire(built, wire ?? ''),
      output: { signal: numberOf(output), rail },
    }),
  );
  const network = tiedNetwork(built, numberOf, deliveries);
  const method = system.inputs.length <= 20 ? 'patterns' : 'solver';
  if (network === null) {
    const row = found.unsettled === null ? wrongRow(found, outputs) : firstRow(found.unsettled);
    if (row < 0)
      return { verdict: 'undecided', method, patterns: null, pattern: null, firstWrong: null, suspect: null };
    return { verdict: 'different', method, patterns: null, ...shownOn(found, row, outputs) };
  }
  const verdict = prove(judged, network, built.logic);
  const { counterexample, patterns } = verdict;
  if (counterexample === undefined) {
    return {
      verdict: verdict.verdict,
      method: verdict.method,
      patterns,
      pattern: null,
      firstWrong: null,
      suspect: null,
    };
  }
  const bits = Uint8Array.from(system.inputs, ({ signal }) => counterexample[system.signals[signal]]);
  const again = found.exhaustive ? found : survey(found.block, built, found.target, wishes, [bits]);
  const row = rowOf(again, bits);
  return { verdict: 'different', method: verdict.method, patterns, ...shownOn(again, row, outputs) };
}

/** The row of a pattern of the inputs. */
function rowOf(found: Survey, bits: Uint8Array): number {
  const { inputs } = found.wishes.system;
  for (let row = 0; row < 2 ** found.rowBits; row++) {
    if (inputs.every(({ signal }, i) => hasRow(found.signals[signal], row) === (bits[i] === 1))) return row;
  }
  return 0;
}

/** For nets in a circle that settle all the same. */
function wrongRow(found: Survey, outputs: readonly Found[]): number {
  const rows = outputs.flatMap(({ output, wire, rail }) => {
    if (wire === null) return [];
    const signal = found.signals[found.wishes.system.signals.indexOf(output)];
    const wanted = rail === 'high' ? signal : not(signal, found.rowBits);
    const row = firstRow(and(found.care, xor(wanted, found.tied[builtWire(found.built, wire)])));
    return row < 0 ? [] : [row];
  });
  return rows.length > 0 ? Math.min(...rows) : -1;
}

function shownOn(
  found: Survey,
  row: number,
  outputs: readonly Found[],
): Pick<CheckedBlock, 'pattern' | 'firstWrong' | 'suspect'> {
  const { system } = found.wishes;
  const pattern = system.inputs.map(({ signal }): readonly [string, 0 | 1] => [
    system.signals[signal],
    bit(found.signals[signal], row),
  ]);
  const wrong = firstWrong(found, row);
  const suspect = wrong?.is === null ? null : suspectOf(found, row, outputs);
  return { pattern, firstWrong: wrong, suspect: suspect?.wire === wrong?.wire ? null : suspect };
}

function bit(table: Table, row: number): 0 | 1 {
  return hasRow(table, row) ? 1 : 0;
}

/** The first wire that is wrong on a row: not what is said of it, or not what its legs make of it. */
function firstWrong(found: Survey, row: number): WrongWire | null {
  const { built, wishes, drawn, tied, wished, unsettled } = found;
  const read = readWires(found);
  const moves = unsettled !== null && hasRow(unsettled, row);
  for (let wire = FIRST_INPUT; wire < built.names.length; wire++) {
    const wish = wishes.byWire[wire];
    const isSaid =
      (wish !== null && !wish.part && wish.stated !== 'legs') || (wish === null && read.has(wire));
    if (!isSaid || !isNamed(found, wire)) continue;
    const is = bit(read.has(wire) ? tied[wire] : drawn[wire], row);
    const meant = wish === null ? bit(madeOf(built, wire, tied, found.rowBits), row) : bit(wished[wire], row);
    if (is === meant && !(moves && read.has(wire))) continue;
    return { wire: built.names[wire], is: moves ? null : is, meant };
  }
  return null;
}

/** The first wire that, turned over, would make all outputs right on the row. */
function suspectOf(found: Survey, row: number, outputs: readonly Found[]): WrongWire | null {
  const { built, drawn, wishes } = found;
  const at = (table: Table): Table => Uint32Array.of(bit(table, row));
  const levels = drawn.map(at);
  for (let turned = FIRST_INPUT + built.inputs.length; turned < built.names.length; turned++) {
    if (!isNamed(found, turned)) continue;
    const now: Table[] = [];
    built.names.forEach((_, wire) => {
      const level =
        wire < turned || built.kinds[wire] === 'input' ? levels[wire] : madeOf(built, wire, now, 0);
      now.push(wire === turned ? Uint32Array.of(1 - levels[wire][0]) : level);
    });
    const isRight = outputs.every(({ output, wire, rail }) => {
      if (wire === null) return false;
      const value = bit(found.signals[wishes.system.signals.indexOf(output)], row);
      return now[builtWire(built, wire)][0] === (rail === 'high' ? value : 1 - value);
    });
    if (isRight) {
      const is = levels[turned][0] === 1 ? 1 : 0;
      return { wire: built.names[turned], is, meant: is === 1 ? 0 : 1 };
    }
  }
  return null;
}
