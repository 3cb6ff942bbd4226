// The command `optimize`: reads the target and the sources, calls the library for each, prints all results.

import { emptyResult } from '../report/assemble.ts';
import { jsonReport } from '../report/json.ts';
import { noticeOf } from '../report/notices.ts';
import type { Result } from '../report/result.ts';
import { withTellingNames } from '../report/telling-names.ts';
import { textReport } from '../report/text.ts';
import type { Diagnostic } from '../source/diagnostic.ts';
import { renderDiagnostics } from '../source/render-diagnostics.ts';
import { SourceText } from '../source/source-text.ts';
import type { Target } from '../target/target.ts';
import type { CommonOptions } from '../tickwright.ts';
import { type Optimized, type OptimizeOptions, type PartsBudget, WAYS } from '../tickwright.ts';
import { diagnosticPainter, screenPainter } from './colours.ts';
import type { Run, UsageFault } from './command.ts';
import { commonOptions } from './common-options.ts';
import { filesAsked, refusal } from './deliver.ts';
import { EXIT, type ExitCode, gravest } from './exit-codes.ts';
import { type Followed, follow } from './follow.ts';
import type { Host } from './host.ts';
import type { Request } from './request.ts';
import { readSources, type Source } from './sources.ts';
import { findTarget } from './target-option.ts';

/** What one source came to. */
export interface Outcome {
  readonly result: Result;
  readonly source: SourceText;
  readonly diagnostics: readonly Diagnostic[];
  readonly code: ExitCode;
}

/** The result of a source that was not searched. */
function unsearched(name: string, why: Diagnostic, stop: string, options: OptimizeOptions): Outcome {
  const source = new SourceText(name, '');
  const notices = [noticeOf(why, source)];
  const result: Result = { ...emptyResult(name, options), stop, notices };
  const code = stop === 'faults' ? EXIT.faults : EXIT.cutShort;
  return { result, source, diagnostics: [why], code };
}

const NOT_SEARCHED: Diagnostic = {
  severity: 'notice',
  code: 'cut-short',
  message: 'the search was cut short before anything was found',
  at: null,
  hint: null,
};

function exitCodeOf({ result, diagnostics, deadlineMissed }: Optimized): ExitCode {
  if (deadlineMissed) return EXIT.deadline;
  if (diagnostics.some((diagnostic) => diagnostic.severity === 'error')) return EXIT.faults;
  return result.points.every((point) => point.proof.verdict === 'equal') ? EXIT.done : EXIT.notProved;
}

/** All sources, one after the other; once one is cut short the rest are not begun. */
export async function outcomesOf(
  sources: readonly Source[],
  request: Request,
  options: OptimizeOptions,
  host: Host,
): Promise<Outcome[]> {
  const outcomes: Outcome[] = [];
  let isCutShort = false;
  for (const read of sources) {
    if ('fault' in read) {
      outcomes.push(unsearched(read.name, read.fault, 'faults', options));
      continue;
    }
    const job = { name: read.name, text: read.text, rails: request.rails, options };
    const followed: Followed = isCutShort
      ? { optimized: null, isCutShort }
      : await follow(job, request.count('workers') ?? 1, host);
    isCutShort ||= followed.isCutShort;
    const { optimized } = followed;
    if (optimized === null) {
      outcomes.push(unsearched(read.name, NOT_SEARCHED, 'cut short', options));
      continue;
    }
    const { diagnostics } = optimized;
    const isTelling = request.text('wire-names') === 'telling';
    const result = isTelling ? withTellingNames(optimized.result) : optimized.result;
    const code = followed.isCutShort ? EXIT.cutShort : exitCodeOf(optimized);
    outcomes.push({ result, source: new SourceText(read.name, read.text), diagnostics, code });
  }
  return outcomes;
}

/** Answers go to standard output; of a source that has no answer only its faults are shown, on standard error. */
function forPeople(outcomes: readonly Outcome[], host: Host): { out: string; err: string } {
  const painter = screenPainter(host.colour.out);
  const screens: string[] = [];
  const faults: string[] = [];
  for (const { result, source, diagnostics } of outcomes) {
    const isAnswered = result.asWritten !== null || result.fastest !== null;
    const paint = diagnosticPainter(isAnswered ? host.colour.out : host.colour.err);
    const notices = renderDiagnostics(diagnostics, source, { paint });
    if (isAnswered) screens.push(textReport(result, { painter, notices: notices === '' ? [] : [notices] }));
    else faults.push(`${notices}\n`);
  }
  return { out: screens.join(`\n${'-'.repeat(80)}\n\n`), err: faults.join('\n') };
}

/** The same without what the wires mean, which pictures want to know and the screen was not asked for. */
function withoutMeanings(outcome: Outcome): Outcome {
  const bare = <T extends { readonly meaning?: string }>({ meaning: _, ...rest }: T): Omit<T, 'meaning'> =>
    rest;
  const points = outcome.result.points.map((point) => ({
    ...point,
    network: {
      ...point.network,
      inverters: point.network.inverters.map(bare),
      outputs: point.network.outputs.map(bare),
    },
  }));
  return { ...outcome, result: { ...outcome.result, points } };
}

/** `2x` or a number of parts. */
function budgetOf(text: string): PartsBudget {
  return text.endsWith('x') ? { factor: Number(text.slice(0, -1)) } : { parts: Number(text) };
}

/** Each of these says by itself which point of the frontier is wanted. */
const APART = [
  ['ticks', 'parts'],
  ['ticks', 'budget'],
  ['parts', 'budget'],
  ['ticks', 'frontier'],
  ['parts', 'frontier'],
] as const;

/** Options that cannot stand together. */
export function contradiction(request: Request): UsageFault | null {
  const pair = APART.find((names) => names.every((name) => request.wasGiven(name)));
  if (pair === undefined) return null;
  const message = `--${pair[0]} and --${pair[1]} cannot stand together`;
  return { message, hint: 'leave one out; --frontier shows the fewest parts at every number of ticks' };
}

/** What the request asks of the library. */
export function optionsFrom(request: Request, target: Target, common: CommonOptions): OptimizeOptions {
  const share = WAYS.find((way) => request.wasGiven('share') && way === request.text('share'));
  return {
    target,
    ticks: request.count('ticks'),
    parts: request.count('parts'),
    budget: budgetOf(request.text('budget') ?? ''),
    frontier: request.flag('frontier'),
    ...(share === undefined ? {} : { share }),
    effort: request.effort,
    seed: request.seed,
    explain: request.flag('explain'),
    letters: request.flag('letters'),
    ...common,
  };
}

/** Runs the command. */
export const runOptimize: Run = async (request, version, host) => {
  const wrong = contradiction(request);
  if (wrong !== null) return { fault: wrong };
  const found = findTarget(request.text('target') ?? '', host);
  if ('instead' in found) return found.instead;
  const files = filesAsked(request, ['out', 'svg', 'html']);
  const overwrite = request.flag('force');
  const refused = refusal(files, overwrite, host);
  if (refused !== null) return refused;
  const options = {
    ...optionsFrom(request, found.target, commonOptions(version, host)),
    // Pictures and reports say what every wire means, whoever asks for them.
    explain:
      request.flag('explain') || request.flag('sheet') || request.wasGiven('svg') || request.wasGiven('html'),
  };
  const sources = await readSources(request.operands, host);
  const outcomes = await outcomesOf(sources, request, options, host);
  const code = gravest(outcomes.map((outcome) => outcome.code));
  const shown = request.flag('explain') ? outcomes : outcomes.map(withoutMeanings);
  const printed = request.flag('json')
    ? { out: jsonReport(shown.map(({ result }) => result)), err: '', code }
    : { ...forPeople(shown, host), code };
  const isPlain =
    files.length === 0 &&
    !request.flag('sheet') &&
    !['out', 'svg', 'html'].some((name) => request.wasGiven(name));
  if (isPlain) return printed;
  const { withFiles } = await import('./optimize-files.ts');
  return withFiles({ request, sources, outcomes, target: found.target, printed, host });
};
