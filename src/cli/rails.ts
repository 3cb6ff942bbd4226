// The command `rails`: which rails the search takes where it may choose, and what every other choice would cost.

import { overrideRails } from '../equations/override-rails.ts';
import { readEquations } from '../equations/read-equations.ts';
import { type RailPrices, railPrices, railPricesText } from '../report/rail-prices.ts';
import type { Diagnostic } from '../source/diagnostic.ts';
import { renderDiagnostics } from '../source/render-diagnostics.ts';
import { SourceText } from '../source/source-text.ts';
import type { Target } from '../target/target.ts';
import type { CommonOptions } from '../tickwright.ts';
import { optimize, type RailNames } from '../tickwright.ts';
import { diagnosticPainter, screenPainter } from './colours.ts';
import type { Run } from './command.ts';
import { commonOptions } from './common-options.ts';
import { EXIT, type ExitCode, gravest } from './exit-codes.ts';
import type { Request } from './request.ts';
import { readSources, type Source } from './sources.ts';
import { findTarget } from './target-option.ts';

interface Answer {
  readonly prices: RailPrices | null;
  readonly diagnostics: readonly Diagnostic[];
  readonly code: ExitCode;
}

/** Runs the command. */
export const runRails: Run = async (request, version, host) => {
  const found = findTarget(request.text('target') ?? '', host);
  if ('instead' in found) return found.instead;
  const codes: ExitCode[] = [];
  const screens: string[] = [];
  const common = commonOptions(version, host);
  const faults: string[] = [];
  const all: RailPrices[] = [];
  for (const read of await readSources(request.operands, host)) {
    const { prices, diagnostics, code } = pricesOf(read, found.target, request, common);
    codes.push(code);
    if (diagnostics.length > 0) {
      const source = new SourceText(read.name, 'fault' in read ? '' : read.text);
      const paint = diagnosticPainter(host.colour.err);
      faults.push(`${renderDiagnostics(diagnostics, source, { paint })}\n`);
    }
    if (prices === null) continue;
    all.push(prices);
    screens.push(railPricesText(prices, screenPainter(host.colour.out)));
  }
  const out = request.flag('json')
    ? `${JSON.stringify(all, null, 2)}\n`
    : screens.join(`\n${'-'.repeat(80)}\n\n`);
  return { out, err: faults.join('\n'), code: gravest(codes) };
};

function pricesOf(read: Source, target: Target, request: Request, common: CommonOptions): Answer {
  if ('fault' in read) return { prices: null, diagnostics: [read.fault], code: EXIT.faults };
  const fail = (diagnostics: readonly Diagnostic[], code: ExitCode = EXIT.faults): Answer => ({
    prices: null,
    diagnostics,
    code,
  });
  const equations = readEquations(read.text, { letters: request.flag('letters') });
  if (equations.value === null) return fail(equations.diagnostics);
  const { value, diagnostics } = overrideRails(equations.value, request.rails);
  const notices = [...equations.diagnostics, ...diagnostics];
  if (value === null) return fail(notices);
  const free = [...value.inputs, ...value.outputs].filter(({ rail }) => rail === 'either');
  const names = free.map(({ signal }) => value.signals[signal]);
  if (names.length === 0) return fail([...notices, NOTHING_FREE]);
  const { effort, seed } = request;
  const letters = request.flag('letters');
  const options = { target, ticks: null, frontier: true, effort, seed, explain: false, letters, ...common };
  const rails = request.rails;
  const prices = railPrices(read.name, target.name, names, (choice) => {
    const given = choice === null ? rails : withRails(rails, names, choice);
    const frontier = choice !== null;
    return optimize(read.name, read.text, given, { ...options, frontier }).result;
  });
  if (prices === null) return fail([...notices, NOTHING_FOUND], EXIT.deadline);
  return { prices, diagnostics: notices, code: EXIT.done };
}

/** The rails as given, with those that were free fixed. */
function withRails(
  rails: RailNames,
  names: readonly string[],
  choice: readonly ('high' | 'low')[],
): RailNames {
  const free = new Set(names);
  const kept = (given: readonly string[] | undefined): string[] =>
    (given ?? []).filter((name) => !free.has(name));
  const fixed = (rail: 'high' | 'low'): string[] => names.filter((_, i) => choice[i] === rail);
  return {
    ...rails,
    either: kept(rails.either),
    high: [...kept(rails.high), ...fixed('high')],
    low: [...kept(rails.low), ...fixed('low')],
  };
}

const NOTHING_FREE: Diagnostic = {
  severity: 'error',
  code: 'no-free-rail',
  message: 'every input and every output is on a given rail: there is nothing to choose',
  at: null,
  hint: 'write "output sum either", or name them with --either',
};

const NOTHING_FOUND: Diagnostic = {
  severity: 'error',
  code: 'deadline-missed',
  message: 'no network keeps all deadlines',
  at: null,
  hint: 'leave the deadlines out',
};
