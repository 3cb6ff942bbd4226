// The command `conflicts`: reads sources, finds what is wrong in built blocks and in ORs of equations, and prints it.

import { type ConflictsReport, findAllConflicts } from '../report/conflicts.ts';
import { conflictsText } from '../report/conflicts-text.ts';
import { renderDiagnostics } from '../source/render-diagnostics.ts';
import { SourceText } from '../source/source-text.ts';
import { diagnosticPainter, screenPainter } from './colours.ts';
import type { Run } from './command.ts';
import { EXIT, type ExitCode, gravest } from './exit-codes.ts';
import { readSources } from './sources.ts';
import { findTarget } from './target-option.ts';

/** Runs the command. */
export const runConflicts: Run = async (request, _version, host) => {
  const target = findTarget(request.text('target') ?? '', host);
  if ('instead' in target) return target.instead;
  const codes: ExitCode[] = [];
  const screens: string[] = [];
  const faults: string[] = [];
  const reports: ConflictsReport[] = [];
  for (const read of await readSources(request.operands, host)) {
    const source = new SourceText(read.name, 'fault' in read ? '' : read.text);
    const { report, diagnostics } =
      'fault' in read
        ? { report: null, diagnostics: [read.fault] }
        : findAllConflicts(read.name, read.text, target.target, request.rails);
    if (diagnostics.length > 0) {
      const paint = diagnosticPainter(host.colour.err);
      faults.push(`${renderDiagnostics(diagnostics, source, { paint })}\n`);
    }
    codes.push(codeOf(report));
    if (report === null) continue;
    reports.push(report);
    const paint = diagnosticPainter(host.colour.out);
    screens.push(conflictsText(report, source, screenPainter(host.colour.out), { paint }));
  }
  const out = request.flag('json')
    ? `${JSON.stringify(reports, null, 2)}\n`
    : screens.join(`\n${'-'.repeat(80)}\n\n`);
  return { out, err: faults.join('\n'), code: gravest(codes) };
};

function codeOf(report: ConflictsReport | null): ExitCode {
  if (report === null) return EXIT.faults;
  const all = report.blocks.flatMap(({ conflicts }) => conflicts);
  return all.some(({ severity }) => severity !== 'notice') ? EXIT.conflicts : EXIT.done;
}
