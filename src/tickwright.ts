// The library: equations in, the answer with its proof out. This is the only place that knows the whole order of work:
// read, tables, task, search, proof, report. It touches no file and no clock, so it runs in a browser as well.

import { overrideRails, type RailNames } from './equations/override-rails.ts';
import { readEquations } from './equations/read-equations.ts';
import type { System } from './equations/system.ts';
import { MOST_UNASKED, tooLarge, tooLargeTogether } from './equations/system-size.ts';
import { countCopies } from './network/copies.ts';
import { networkTicks, tickCosts } from './network/levels.ts';
import type { Network } from './network/network.ts';
import { prove } from './proof/prove.ts';
import { PROOF_LIMITS, type Verdict } from './proof/verdict.ts';
import { emptyResult, pointOf } from './report/assemble.ts';
import { inputNotices } from './report/input-notices.ts';
import { noticeOf } from './report/notices.ts';
import type { Result } from './report/result.ts';
import { sharingReport } from './report/sharing-report.ts';
import { Catalogue, networkFor } from './search/catalogue/catalogue.ts';
import type { Effort } from './search/limits.ts';
import type { Outcome, Point, SearchOptions } from './search/run-search.ts';
import { sampleTables } from './search/sample.ts';
import { mostTogether } from './search/search-system.ts';
import { comparable, groupsOf, searchShared, type Way } from './search/sharing.ts';
import { makeTask, type Task } from './search/task.ts';
import { TrueTicks } from './search/true-ticks.ts';
import { isEnough, mergeWalks, walkSeeds, walksWorth } from './search/walks.ts';
import type { Watch } from './search/watch.ts';
import type { Diagnostic, Span } from './source/diagnostic.ts';
import { SourceText } from './source/source-text.ts';
import type { Target } from './target/target.ts';
import { expressionTable, fitsTables, type SystemTables, systemTables } from './truth/system-tables.ts';
import { and, firstRow, hasRow, isEmpty, without, xor } from './truth/table.ts';

export type { RailNames } from './equations/override-rails.ts';
export { readBuilt } from './network/read-built.ts';
export { lessonOn } from './polarity/lesson.ts';
export { catalogueReport } from './report/catalogue-report.ts';
export { checkBuilt } from './report/check.ts';
export { findAllConflicts, judgeFor } from './report/conflicts.ts';
export { planBlocks } from './report/plan.ts';
export type { Result } from './report/result.ts';
export type { Effort } from './search/limits.ts';
export type { Outcome } from './search/run-search.ts';
export { WAYS, type Way } from './search/sharing.ts';
export { isEnough } from './search/walks.ts';
export type { Watch } from './search/watch.ts';
export { readTarget } from './target/read-target.ts';
export { SHIPPED_TARGETS, shippedTarget } from './target/shipped-targets.ts';
export type { Target } from './target/target.ts';
export { Catalogue, networkFor };

export interface OptimizeOptions {
  readonly target: Target;
  /** Latest tick allowed for every output, or null: chosen by the budget rule. */
  readonly ticks: number | null;
  /** The most parts, or null; the answer is then the fastest network that keeps to it. Not together with `ticks`. */
  readonly parts?: number | null;
  /** How much the answer may spend for speed: so many times the parts of the smallest network, or so many parts. */
  readonly budget?: PartsBudget;
  /** Find the fewest parts at every number of ticks; `points` of the result then holds them all. */
  readonly frontier?: boolean;
  /**
   * Which outputs may share inverters: all, which is usual, those with most inputs in common, or none. When it is given,
   * the result says what sharing saves (`sharing`), which takes a further search or two.
   */
  readonly share?: Way;
  readonly effort: Effort;
  readonly seed: number;
  /**
   * The bytes of the data file of the catalogue. Systems that are not answered at a glance are then covered by its
   * networks as well, which gives the search more to begin with; the answer may be another without it. Not to be changed.
   */
  readonly catalogue?: Uint8Array;
  /** Say what every wire means. */
  readonly explain: boolean;
  /** Read each letter with its digits as a name, as the line `letters` does. */
  readonly letters?: boolean;
  /** Version to state in the result. */
  readonly version: string;
  /** Follows the search and may end it. */
  readonly watch?: Watch<Outcome>;
  /** What an earlier search of the same text with the same options has told its watch: it is only proved and reported. */
  readonly found?: Outcome;
}

/** What all searches of a program have in common. */
export type CommonOptions = Pick<OptimizeOptions, 'version' | 'catalogue'>;

export type PartsBudget = { readonly factor: number } | { readonly parts: number };

export interface Optimized {
  readonly result: Result;
  /** Everything there is to say about the text, with places in it. */
  readonly diagnostics: readonly Diagnostic[];
  /** An output, or `ticks`, asks for less time than any network needs; the result then has no points. */
  readonly deadlineMissed: boolean;
}

/** What a text comes to before it is searched; without a task there are only faults. */
interface Prepared {
  readonly diagnostics: readonly Diagnostic[];
  readonly ready: {
    readonly system: System;
    readonly tables: SystemTables;
    /** The tables hold a sample of the rows only. */
    readonly wide: boolean;
    readonly task: Task;
    /** What the prover has said of networks for the system, with its trace replayed. */
    readonly verdicts: WeakMap<Network, Verdict>;
    /** Unpacked when it is first asked for. */
    readonly catalogue?: () => Catalogue;
  } | null;
}

function prepare(
  text: string,
  rails: RailNames,
  { target, seed, effort, letters, catalogue: bytes }: OptimizeOptions,
): Prepared {
  const read = readEquations(text, { letters: letters ?? false });
  const diagnostics: Diagnostic[] = [...read.diagnostics];
  if (read.value === null) return { diagnostics, ready: null };
  const overridden = overrideRails(read.value, rails);
  diagnostics.push(...overridden.diagnostics);
  if (overridden.value === null) return { diagnostics, ready: null };
  const system = overridden.value;
  const isDeep = effort === 'deep';
  const large = tooLarge(system, isDeep);
  if (large !== null) return { diagnostics: [...diagnostics, large], ready: null };
  const wide = !fitsTables(system);
  if (wide && !isDeep) {
    const operators = mostTogether(system);
    if (operators > MOST_UNASKED.together) {
      return { diagnostics: [...diagnostics, tooLargeTogether(system, operators)], ready: null };
    }
  }
  const tables = wide ? sampleTables(system, seed) : systemTables(system);
  if (!wide && isEmpty(tables.care)) {
    diagnostics.push(nothingLeft(system));
    return { diagnostics, ready: null };
  }
  const wrong = wrongClaims(system, tables);
  diagnostics.push(...wrong);
  if (wrong.length > 0) return { diagnostics, ready: null };
  const task = makeTask(system, tables, target, !wide);
  const ready = { system, tables, wide, task, verdicts: new WeakMap() };
  if (bytes === undefined) return { diagnostics, ready };
  let unpacked: Catalogue | null = null;
  const catalogue = (): Catalogue => {
    unpacked ??= new Catalogue(bytes);
    return unpacked;
  };
  return { diagnostics, ready: { ...ready, catalogue } };
}

/** One walk of the search with a seed of its own. */
function walk(
  { system, tables, wide, task, verdicts, catalogue }: NonNullable<Prepared['ready']>,
  options: OptimizeOptions,
  seed: number,
  watch: Watch<Outcome> | undefined,
): Outcome {
  const { target } = options;
  const judgeOf = (judged: System) => (network: Network, isLast?: boolean) => {
    const limits = { ...PROOF_LIMITS, replay: isLast === true };
    const verdict = prove(judged, network, target.join.logic, limits);
    if (isLast && judged === system) verdicts.set(network, verdict);
    const { counterexample } = verdict;
    if (counterexample === undefined) return null;
    return Uint8Array.from(judged.inputs, ({ signal }) => counterexample[judged.signals[signal]]);
  };
  const searched = {
    ...searchOptions(options),
    seed,
    isFurther: seed !== options.seed,
    ...(catalogue === undefined ? {} : { catalogue }),
  };
  const watched = watch === undefined ? searched : { ...searched, watch };
  const outcome = new TrueTicks(system, target).search(options.ticks, (carried, ticks) => {
    const carriedTask = carried === system ? task : makeTask(carried, tables, target, !wide);
    const way = options.share ?? 'together';
    return searchShared(carried, carriedTask, target, way, { ...watched, ticks }, judgeOf);
  });
  return options.frontier ? { ...outcome, walks: walksWorth(options.effort, task.rowBits) } : outcome;
}

/** What other ways of sharing come to at the ticks of an answer; `better` is a smaller one that the way allows. */
function compareWays(
  ready: NonNullable<Prepared['ready']>,
  options: OptimizeOptions,
  answer: Point,
): { readonly sizes: Map<Way, number | null>; readonly better: Point | null } {
  const { system, tables, wide } = ready;
  const { target, share: way = 'together', watch } = options;
  const { system: compared, ticks } = comparable(system, answer, target);
  const task = makeTask(compared, tables, target, !wide);
  const sizes = new Map<Way, number | null>([[way, answer.inverters]]);
  let better: Point | null = null;
  for (const other of ['together', 'alone'] as const) {
    if (other === way) continue;
    const isCancelled = watch?.isCancelled;
    const { answer: found } = walk(
      { ...ready, system: compared, task },
      { ...options, share: other, ticks, parts: null, frontier: false },
      options.seed,
      isCancelled === undefined ? undefined : { isCancelled },
    );
    sizes.set(other, found?.inverters ?? null);
    // A network in which nothing is shared may stand for all together.
    if (way === 'together' && found !== null && found.inverters < answer.inverters) better = found;
  }
  if (better !== null) sizes.set(way, better.inverters);
  return { sizes, better };
}

/** The seeds of the walks that `optimize` makes with these options, one after the other until one is enough. */
export function seedsOf(options: OptimizeOptions): readonly number[] {
  return walkSeeds(options);
}

/**
 * One of the walks that `optimize` makes, for a caller that runs them at the same time. What `mergeFound` makes of their
 * outcomes, given to `optimize` as `found`, leads to the same result as `optimize` alone.
 *
 * @param seed one of `seedsOf(options)`.
 * @returns null when the text has faults.
 */
export function searchOnce(
  text: string,
  rails: RailNames,
  options: OptimizeOptions,
  seed: number,
): Outcome | null {
  const { ready } = prepare(text, rails, options);
  return ready === null ? null : walk(ready, options, seed, options.watch);
}

/** The outcomes of walks together; in the order of their seeds, and none behind one that is enough. */
export function mergeFound(outcomes: readonly Outcome[], options: OptimizeOptions): Outcome {
  return mergeWalks(outcomes, searchOptions(options).budget);
}

/** All walks, one after the other. */
function search(ready: NonNullable<Prepared['ready']>, options: OptimizeOptions): Outcome {
  const { watch } = options;
  const outcomes: Outcome[] = [];
  for (const seed of seedsOf(options)) {
    const before = [...outcomes];
    const found = (outcome: Outcome): void => watch?.found?.(mergeFound([...before, outcome], options));
    const outcome = walk(ready, options, seed, watch === undefined ? undefined : { ...watch, found });
    outcomes.push(outcome);
    if (isEnough(outcome, outcomes.length)) break;
  }
  return mergeFound(outcomes, options);
}

/**
 * Finds the network for the equations in `text`. Never throws for bad input: faults come back as diagnostics, and as
 * notices of a result without points. Same arguments, same result.
 */
export function optimize(
  sourceName: string,
  text: string,
  rails: RailNames,
  options: OptimizeOptions,
): Optimized {
  const source = new SourceText(sourceName, text);
  const prepared = prepare(text, rails, options);
  const diagnostics = [...prepared.diagnostics];
  const finish = (result: Result, deadlineMissed = false): Optimized => ({
    result: { ...result, notices: diagnostics.map((diagnostic) => noticeOf(diagnostic, source)) },
    diagnostics,
    deadlineMissed,
  });
  const empty = emptyResult(sourceName, options);
  const { ready } = prepared;
  if (ready === null) return finish(empty);
  const { system, tables, wide } = ready;
  const { target } = options;
  const outcome = options.found ?? search(ready, options);
  const { fastest, answer } = outcome;
  const result: Result = {
    ...empty,
    stop: outcome.stop,
    asWritten: {
      ticks: networkTicks(outcome.asWritten, tickCosts(target)),
      parts:
        (outcome.asWritten.size + countCopies(outcome.asWritten, target.inverter.outputs)) *
        target.inverter.parts,
    },
    fastest: {
      ticks: fastest.ticks,
      proved: fastest.exact || outcome.fastestSize !== null,
      parts: outcome.fastestSize === null ? null : outcome.fastestSize * target.inverter.parts,
    },
  };
  if (outcome.stop === 'cut short') diagnostics.push(CUT_SHORT);
  else if (outcome.outline === true) diagnostics.push(IN_OUTLINE);
  if (answer === null) {
    const { parts } = options;
    if (outcome.stop === 'cut short') return finish(result);
    if (parts == null || outcome.fastest.withDeadlines === null) {
      diagnostics.push(...missedDeadlines(system, outcome, options.ticks));
    } else diagnostics.push(missedParts(parts, outcome, options));
    return finish(result, true);
  }
  const compared =
    options.share === undefined || outcome.stop === 'cut short' ? null : compareWays(ready, options, answer);
  const found = outcome.frontier ?? [compared?.better ?? answer];
  const networks = found.map(({ network }) => network);
  diagnostics.push(...inputNotices(system, networks, target));
  const points = found.map((point) =>
    pointOf({
      system,
      tables: wide ? null : tables,
      target,
      answer: point,
      verdict: ready.verdicts.get(point.network) ?? prove(system, point.network, target.join.logic),
      explain: options.explain,
    }),
  );
  const chosen = outcome.frontier === null ? {} : { chosen: found.indexOf(answer) };
  const { share } = options;
  if (share === undefined) return finish({ ...result, ...chosen, points });
  const { groups, tying } = groupsOf(system, share);
  if (tying.length > 0) diagnostics.push(tiedByRails(system, tying));
  const { network } = found[chosen.chosen ?? 0];
  const sharing =
    compared === null
      ? {}
      : { sharing: sharingReport(system, network, groups, share, compared.sizes, target) };
  return finish({ ...result, ...chosen, ...sharing, points });
}

/** The search counts inverters, its callers parts. */
function searchOptions(options: OptimizeOptions): SearchOptions {
  const { ticks, effort, seed, parts, budget, frontier, target } = options;
  const inverters = (count: number): number => Math.floor(count / target.inverter.parts);
  return {
    ticks,
    effort,
    seed,
    inverters: parts == null ? null : inverters(parts),
    ...(budget === undefined
      ? {}
      : { budget: 'factor' in budget ? budget : { inverters: inverters(budget.parts) } }),
    frontier: frontier ?? false,
  };
}

const CUT_SHORT: Diagnostic = {
  severity: 'notice',
  code: 'cut-short',
  message: 'the search was cut short: this is the best that had been found',
  at: null,
  hint: null,
};

const IN_OUTLINE: Diagnostic = {
  severity: 'notice',
  code: 'in-outline',
  message:
    'these equations are so large that they were searched in outline only; a better network is likely to exist',
  at: null,
  hint: 'cut them into parts, or ask with --effort deep, which searches every size in full and may take hours',
};

/** Outputs that are not searched apart because they must agree on a rail. */
function tiedByRails(system: System, tying: readonly number[]): Diagnostic {
  const names = tying.map((signal) => system.signals[signal]);
  const list =
    names.length > 4 ? `${names.slice(0, 4).join(', ')} and ${names.length - 4} more` : names.join(', ');
  return {
    severity: 'notice',
    code: 'tied-by-rails',
    message: `outputs that use ${list} are searched together: the rail is left to the search, and it is one for all`,
    at: null,
    hint: 'give the rail with --high, --low or --both to have them apart',
  };
}

/** Nothing was found with so few parts; whether that is proved. */
function missedParts(parts: number, outcome: Outcome, { target, share }: OptimizeOptions): Diagnostic {
  const least = outcome.leastSize * target.inverter.parts;
  const isProved = least > parts;
  return {
    severity: 'error',
    code: isProved ? 'parts-missed' : 'not-found',
    message: isProved
      ? `no network has ${parts} parts or fewer, however many ticks it takes`
      : `no network of at most ${parts} parts was found; that there is none is not proved`,
    at: null,
    hint: isProved
      ? `ask for --parts ${least} or more`
      : share === undefined || share === 'together'
        ? 'allow more parts, or ask with --effort deep'
        : 'allow more parts, or let all outputs share inverters with --share together',
  };
}

function nothingLeft(system: System): Diagnostic {
  const places = (system.neverAt ?? []).filter((at): at is Span => at !== null);
  return {
    severity: 'error',
    code: 'never-everything',
    message: 'the `never` lines leave no input pattern that can happen',
    at: places.at(-1) ?? null,
    hint: 'a `never` names patterns that cannot occur; at least one must be able to',
  };
}

/** Right sides of a chain of equals that differ from the first, each with the smallest pattern where it does. */
function wrongClaims(system: System, tables: SystemTables): Diagnostic[] {
  return (system.claims ?? []).flatMap(({ signal, expression, at }): Diagnostic[] => {
    const claimed = expressionTable(expression, tables.signals, tables.inputs);
    const free = tables.free.get(signal);
    const differing = and(tables.care, xor(claimed, tables.signals[signal]));
    const row = firstRow(free === undefined ? differing : without(differing, free));
    if (row < 0) return [];
    const name = system.signals[signal];
    const values = system.inputs.map((input, i) => `${system.signals[input.signal]} = ${(row >> i) & 1}`);
    const here = hasRow(claimed, row) ? 1 : 0;
    return [
      {
        severity: 'error',
        code: 'derivation-wrong',
        message: `this right side is not ${name}: with ${values.join(', ')} it is ${here}, and ${name} is ${1 - here}`,
        at,
        hint: 'every right side of a chain of equals must say the same; if this is a new definition, begin a new line',
      },
    ];
  });
}

/** Which outputs cannot be in time, and when they could be. */
function missedDeadlines(system: System, outcome: Outcome, wish: number | null): Diagnostic[] {
  const { fastest } = outcome;
  const found: Diagnostic[] = [];
  outcome.asWritten.outputs.forEach(({ signal }, y) => {
    const { by } = system.outputs.find((output) => output.signal === signal) ?? { by: null };
    const deadline = Math.min(by ?? Number.POSITIVE_INFINITY, wish ?? Number.POSITIVE_INFINITY);
    const earliest = fastest.each[y];
    const name = system.signals[signal];
    if (earliest <= deadline || found.some((other) => other.message.startsWith(`${name} `))) return;
    found.push({
      severity: 'error',
      code: 'deadline-missed',
      message: `${name} cannot settle by tick ${deadline}: no network of this target has it before tick ${earliest}`,
      at: null,
      hint:
        by !== null && by === deadline
          ? `write \`by ${earliest}\` or later, or let its inputs arrive earlier`
          : `ask for --ticks ${fastest.ticks} or more`,
    });
  });
  if (found.length > 0) return found;
  if (fastest.withDeadlines !== null && (wish === null || wish >= fastest.ticks)) {
    return [
      {
        severity: 'error',
        code: 'not-found',
        message: `no network was found ${wish === null ? 'within the limits of the target' : `for ${wish} ticks`}; that there is none is not proved`,
        at: null,
        hint: 'allow more ticks, or ask with --effort deep',
      },
    ];
  }
  return [
    {
      severity: 'error',
      code: 'deadline-missed',
      message: `each output can be in time alone, but not all together: the rails that one needs delay another`,
      at: null,
      hint: `all together need ${fastest.ticks} ticks; give the rails left to the search by hand, or allow more time`,
    },
  ];
}
