// All conflicts of a text, put together: the built blocks in it, and the ORs of its equations that cannot be tied as
// written. This is where the judge comes in: nothing is called proved that the prover has not seen.

import { cutBlocks, isBlank } from '../../grammar/blocks.ts';
import { overrideRails, type RailNames } from '../equations/override-rails.ts';
import { readBuiltText } from '../equations/read-built.ts';
import type { System } from '../equations/system.ts';
import { type BlockConflicts, type Conflict, type CounterJudge, conflictsOf } from '../polarity/conflicts.ts';
import { untiedOrs } from '../polarity/equation-ors.ts';
import { prove } from '../proof/prove.ts';
import type { Pattern } from '../search/sample.ts';
import type { Diagnostic } from '../source/diagnostic.ts';
import { type Position, SourceText } from '../source/source-text.ts';
import type { Target } from '../target/target.ts';

export interface PlacedConflict extends Conflict {
  readonly line: number | null;
  readonly column: number | null;
}

export interface BlockReport {
  /** Name of the block; null for an OR of the equations. */
  readonly name: string | null;
  /** As it stands; for an OR of equations: its operands joined. */
  readonly ticks: number;
  readonly parts: number;
  readonly copies: number;
  readonly legs: number;
  /** That there are no conflicts but these is proved on all patterns. */
  readonly proved: boolean;
  readonly conflicts: readonly PlacedConflict[];
}

export interface ConflictsReport {
  readonly format: 'tickwright.conflicts/1';
  readonly source: string;
  readonly target: string;
  readonly blocks: readonly BlockReport[];
}

export interface FoundConflicts {
  /** Null when the text has faults. */
  readonly report: ConflictsReport | null;
  readonly diagnostics: readonly Diagnostic[];
}

/** The prover as the judge of `src/polarity`. */
export function judgeFor(target: Target): CounterJudge {
  return {
    judge: (system, network) => prove(system, network, target.join.logic).verdict,
    counterexample: (system, network): Pattern | null => {
      const { counterexample } = prove(system, network, target.join.logic);
      if (counterexample === undefined) return null;
      return Uint8Array.from(system.inputs, ({ signal }) => counterexample[system.signals[signal]]);
    },
  };
}

/**
 * Finds all conflicts in `text`. `against` are equations that say what signals are where the text itself does not.
 * Never throws for bad text.
 */
export function findAllConflicts(
  sourceName: string,
  text: string,
  target: Target,
  rails: RailNames = {},
  against: System | null = null,
): FoundConflicts {
  const source = new SourceText(sourceName, text);
  const read = readBuiltText(text);
  const diagnostics: Diagnostic[] = [...read.diagnostics];
  if (read.value === null) return { report: null, diagnostics };
  const hasEquations = read.value.equations !== null;
  const overridden = read.value.equations === null ? null : overrideRails(read.value.equations, rails);
  if (overridden !== null) diagnostics.push(...overridden.diagnostics);
  if (overridden !== null && overridden.value === null) return { report: null, diagnostics };
  if (!hasEquations && read.value.blocks.length === 0) {
    diagnostics.push(nothingHere(text));
    return { report: null, diagnostics };
  }
  const equations = overridden?.value ?? null;
  const judge = judgeFor(target);
  const blocks: BlockReport[] = [];
  for (const block of read.value.blocks) {
    const found = conflictsOf(block, equations ?? against, target, judge);
    diagnostics.push(...found.diagnostics);
    if (found.value !== null) blocks.push(reportOf(block.name, found.value, (at) => source.positionOf(at)));
  }
  if (diagnostics.some(({ severity }) => severity === 'error')) return { report: null, diagnostics };
  for (const { block, at } of equations === null ? [] : untiedOrs(equations)) {
    const found = conflictsOf(block, null, target, judge);
    if (found.value === null) continue;
    const placed = reportOf(null, found.value, () =>
      at === null ? { line: 0, column: 0 } : source.positionOf(at.start),
    );
    const conflicts = placed.conflicts
      .filter(({ severity }) => severity === 'error')
      .map((conflict): PlacedConflict => ({ ...conflict, severity: 'notice', at }));
    if (conflicts.length > 0) blocks.push({ ...placed, conflicts });
  }
  const report = {
    format: 'tickwright.conflicts/1',
    source: sourceName,
    target: target.name,
    blocks,
  } as const;
  return { report, diagnostics };
}

function reportOf(
  name: string | null,
  { costs, conflicts, proved }: BlockConflicts,
  position: (offset: number) => Position,
): BlockReport {
  const { ticks, parts, copies, legs } = costs;
  return {
    name,
    ticks,
    parts,
    copies,
    legs,
    proved,
    conflicts: conflicts.map((conflict) => {
      const { line, column } =
        conflict.at === null ? { line: null, column: null } : position(conflict.at.start);
      return { ...conflict, line, column };
    }),
  };
}

function nothingHere(text: string): Diagnostic {
  const onlyBlocks = !isBlank(text) && cutBlocks(text).blocks.length > 0;
  return {
    severity: 'error',
    code: 'nothing-built',
    message: onlyBlocks
      ? 'there is no built block here'
      : 'there are neither equations nor built blocks here',
    at: null,
    hint: 'write built name { n1 = nor(a, b) }, one wire a line',
  };
}
