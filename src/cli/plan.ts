// The command `plan`: blocks of equations laid apart, and the rails of the signals that run between them.

import type { PlannedRail } from '../polarity/plan.ts';
import { type PlanSource, planBlocks, planText } from '../report/plan.ts';
import type { Diagnostic } from '../source/diagnostic.ts';
import { renderDiagnostics } from '../source/render-diagnostics.ts';
import { SourceText } from '../source/source-text.ts';
import { diagnosticPainter, screenPainter } from './colours.ts';
import type { Run } from './command.ts';
import { EXIT } from './exit-codes.ts';
import { readSources } from './sources.ts';
import { findTarget } from './target-option.ts';

/** Runs the command. */
export const runPlan: Run = async (request, _version, host) => {
  const found = findTarget(request.text('target') ?? '', host);
  if ('instead' in found) return found.instead;
  const paint = diagnosticPainter(host.colour.err);
  const render = (diagnostics: readonly Diagnostic[], name: string, text: string): string =>
    diagnostics.length === 0
      ? ''
      : `${renderDiagnostics(diagnostics, new SourceText(name, text), { paint })}\n`;
  const sources: PlanSource[] = [];
  let err = '';
  for (const read of await readSources(request.operands, host)) {
    if ('fault' in read) err += render([read.fault], read.name, '');
    else sources.push(read);
  }
  if (err !== '') return { out: '', err, code: EXIT.faults };
  const given = new Map<string, PlannedRail>();
  for (const name of request.names('high') ?? []) given.set(name, 'high');
  for (const name of request.names('low') ?? []) given.set(name, 'low');
  const { effort, seed } = request;
  const { report, diagnostics } = planBlocks(sources, given, { target: found.target, effort, seed });
  for (const source of sources) {
    const own = diagnostics.filter((one) => one.source === source).map(({ diagnostic }) => diagnostic);
    err += render(own, source.name, source.text);
  }
  err += render(
    diagnostics.filter(({ source }) => source === null).map(({ diagnostic }) => diagnostic),
    'tickwright',
    '',
  );
  if (report === null) return { out: '', err, code: EXIT.faults };
  const isProved = report.blocks.every(({ proof }) => proof === 'equal');
  const out = request.flag('json')
    ? `${JSON.stringify(report, null, 2)}\n`
    : planText(report, screenPainter(host.colour.out));
  return { out, err, code: isProved ? EXIT.done : EXIT.notProved };
};
