// The command `optimize`: reads the target and the sources, calls the library for each, prints all results.

import { jsonReport } from '../report/json.ts';
import type { Notice, Result } from '../report/result.ts';
import { textReport } from '../report/text.ts';
import type { Diagnostic } from '../source/diagnostic.ts';
import { renderDiagnostics } from '../source/render-diagnostics.ts';
import { SourceText } from '../source/source-text.ts';
import { type OptimizeOptions, optimize, type PartsBudget } from '../tickwright.ts';
import { diagnosticPainter, screenPainter } from './colours.ts';
import type { Run, UsageFault } from './command.ts';
import { EXIT, type ExitCode, gravest } from './exit-codes.ts';
import type { Host } from './host.ts';
import type { Request } from './request.ts';
import { readSources, type Source } from './sources.ts';
import { findTarget } from './target-option.ts';

/** What one source came to. */
interface Outcome {
  readonly result: Result;
  readonly source: SourceText;
  readonly diagnostics: readonly Diagnostic[];
  readonly code: ExitCode;
}

/** The result of a source that could not be read. */
function unreadable(name: string, fault: Diagnostic, options: OptimizeOptions): Result {
  const { severity, code, message, hint } = fault;
  const notice: Notice = {
    severity,
    code,
    message,
    ...(hint === null ? {} : { hint }),
    line: null,
    column: null,
  };
  return {
    format: 'tickwright.result/1',
    version: options.version,
    source: name,
    target: options.target.name,
    effort: options.effort,
    seed: options.seed,
    stop: 'faults',
    asWritten: null,
    fastest: null,
    points: [],
    notices: [notice],
  };
}

function outcomeOf(read: Source, request: Request, options: OptimizeOptions): Outcome {
  if ('fault' in read) {
    const result = unreadable(read.name, read.fault, options);
    const source = new SourceText(read.name, '');
    return { result, source, diagnostics: [read.fault], code: EXIT.faults };
  }
  const { result, diagnostics, deadlineMissed } = optimize(read.name, read.text, request.rails, options);
  const hasFaults = diagnostics.some((diagnostic) => diagnostic.severity === 'error');
  const isProved = result.points.every((point) => point.proof.verdict === 'equal');
  const code = deadlineMissed
    ? EXIT.deadline
    : hasFaults
      ? EXIT.faults
      : isProved
        ? EXIT.done
        : EXIT.notProved;
  return { result, source: new SourceText(read.name, read.text), diagnostics, code };
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

function contradiction(request: Request): UsageFault | null {
  const pair = APART.find((names) => names.every((name) => request.wasGiven(name)));
  if (pair === undefined) return null;
  const message = `--${pair[0]} and --${pair[1]} cannot stand together`;
  return { message, hint: 'leave one out; --frontier shows the fewest parts at every number of ticks' };
}

/** Runs the command. */
export const runOptimize: Run = async (request, version, host) => {
  const wrong = contradiction(request);
  if (wrong !== null) return { fault: wrong };
  const found = findTarget(request.text('target') ?? '', host);
  if ('instead' in found) return found.instead;
  const options: OptimizeOptions = {
    target: found.target,
    ticks: request.count('ticks'),
    parts: request.count('parts'),
    budget: budgetOf(request.text('budget') ?? ''),
    frontier: request.flag('frontier'),
    effort: request.effort,
    seed: request.seed,
    explain: request.flag('explain'),
    letters: request.flag('letters'),
    version,
  };
  const sources = await readSources(request.operands, host);
  const outcomes = sources.map((source) => outcomeOf(source, request, options));
  const code = gravest(outcomes.map((outcome) => outcome.code));
  if (request.flag('json'))
    return { out: jsonReport(outcomes.map((outcome) => outcome.result)), err: '', code };
  return { ...forPeople(outcomes, host), code };
};
