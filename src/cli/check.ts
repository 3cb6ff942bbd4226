// The command `check`: built blocks against equations, with the best that is known beside what stands.

import { printSystem } from '../equations/print-system.ts';
import { readBuiltText } from '../equations/read-built.ts';
import type { System } from '../equations/system.ts';
import { type CheckedBlock, checkBuilt } from '../report/check.ts';
import { type BestKnown, checkText } from '../report/check-text.ts';
import type { Diagnostic } from '../source/diagnostic.ts';
import { renderDiagnostics } from '../source/render-diagnostics.ts';
import { SourceText } from '../source/source-text.ts';
import type { Target } from '../target/target.ts';
import type { CommonOptions } from '../tickwright.ts';
import { optimize } from '../tickwright.ts';
import { diagnosticPainter, screenPainter } from './colours.ts';
import type { Printed, Run } from './command.ts';
import { commonOptions } from './common-options.ts';
import { EXIT, type ExitCode, gravest } from './exit-codes.ts';
import type { Host } from './host.ts';
import type { Request } from './request.ts';
import { readSources, type Source } from './sources.ts';
import { findTarget } from './target-option.ts';

interface CheckReport {
  readonly format: 'tickwright.check/1';
  readonly source: string;
  readonly against: string;
  readonly target: string;
  readonly blocks: readonly (CheckedBlock & { readonly best: BestKnown | null })[];
}

/** Runs the command. */
export const runCheck: Run = async (request, version, host) => {
  const found = findTarget(request.text('target') ?? '', host);
  if ('instead' in found) return found.instead;
  const { target } = found;
  const wanted = request.text('against');
  const against = wanted === null ? null : await equationsOf(wanted, host);
  if (against !== null && 'instead' in against) return against.instead;
  const common = commonOptions(version, host);
  const codes: ExitCode[] = [];
  const screens: string[] = [];
  const faults: string[] = [];
  const reports: CheckReport[] = [];
  for (const read of await readSources(request.operands, host)) {
    const checked = checkSource(read, against, target, request, common);
    if (checked.diagnostics.length > 0) faults.push(rendered(checked.diagnostics, read, host));
    codes.push(checked.code);
    if (checked.report === null) continue;
    reports.push(checked.report);
    const painter = screenPainter(host.colour.out);
    const texts = checked.report.blocks.map((block) => checkText(block, block.best, painter));
    screens.push(
      `${[`${read.name} against ${checked.report.against}, target ${target.name}`, ...texts].join('\n\n')}\n`,
    );
  }
  const out = request.flag('json')
    ? `${JSON.stringify(reports, null, 2)}\n`
    : screens.join(`\n${'-'.repeat(80)}\n\n`);
  return { out, err: faults.join('\n'), code: gravest(codes) };
};

type Against = { readonly name: string; readonly system: System };

/** The equations that `--against` names: a file, or equations themselves. */
async function equationsOf(wanted: string, host: Host): Promise<Against | { readonly instead: Printed }> {
  const [source] = await readSources([wanted], host);
  const fail = (diagnostics: readonly Diagnostic[]): { readonly instead: Printed } => ({
    instead: { out: '', err: rendered(diagnostics, source, host), code: EXIT.faults },
  });
  if ('fault' in source) return fail([source.fault]);
  const { value, diagnostics } = readBuiltText(source.text);
  if (value === null) return fail(diagnostics);
  const name = wanted.includes('=') ? '--against' : source.name;
  return value.equations === null ? fail([nothingToCompare()]) : { name, system: value.equations };
}

function checkSource(
  read: Source,
  against: Against | null,
  target: Target,
  request: Request,
  common: CommonOptions,
): {
  readonly report: CheckReport | null;
  readonly diagnostics: readonly Diagnostic[];
  readonly code: ExitCode;
} {
  const fail = (diagnostics: readonly Diagnostic[]) => ({ report: null, diagnostics, code: EXIT.faults });
  if ('fault' in read) return fail([read.fault]);
  const { value, diagnostics } = readBuiltText(read.text);
  if (value === null) return fail(diagnostics);
  const compared =
    against ?? (value.equations === null ? null : { name: 'its own equations', system: value.equations });
  if (compared === null) return fail([...diagnostics, nothingToCompare()]);
  if (value.blocks.length === 0) return fail([...diagnostics, nothingBuilt()]);
  const all: Diagnostic[] = [...diagnostics];
  const blocks: (CheckedBlock & { best: BestKnown | null })[] = [];
  for (const block of value.blocks) {
    const checked = checkBuilt(block, compared.system, target);
    all.push(...checked.diagnostics);
    if (checked.block === null) continue;
    blocks.push({ ...checked.block, best: bestOf(checked.wanted, target, request, common) });
  }
  if (all.some(({ severity }) => severity === 'error')) return fail(all);
  const isEqual = blocks.every(({ verdict }) => verdict === 'equal');
  return {
    report: {
      format: 'tickwright.check/1',
      source: read.name,
      against: compared.name,
      target: target.name,
      blocks,
    },
    diagnostics: all,
    code: isEqual ? EXIT.done : EXIT.notProved,
  };
}

/** What the search finds for the same equations on the same rails. */
function bestOf(
  wanted: System | null,
  target: Target,
  request: Request,
  common: CommonOptions,
): BestKnown | null {
  if (wanted === null) return null;
  const { effort, seed } = request;
  const options = { target, ticks: null, effort, seed, explain: false, ...common } as const;
  const { result } = optimize('', printSystem(wanted), {}, options);
  const point = result.points[result.chosen ?? 0];
  if (point === undefined) return null;
  const { ticks, parts, legs, ticksProved, partsProved } = point;
  return { ticks, parts, legs, ticksProved, partsProved };
}

function rendered(diagnostics: readonly Diagnostic[], source: Source, host: Host): string {
  const text = new SourceText(source.name, 'fault' in source ? '' : source.text);
  return `${renderDiagnostics(diagnostics, text, { paint: diagnosticPainter(host.colour.err) })}\n`;
}

function nothingToCompare(): Diagnostic {
  return {
    severity: 'error',
    code: 'nothing-to-compare',
    message: 'there are no equations to hold the built block against',
    at: null,
    hint: 'write them into the file beside the block, or name them with --against',
  };
}

function nothingBuilt(): Diagnostic {
  return {
    severity: 'error',
    code: 'nothing-built',
    message: 'there is no built block here',
    at: null,
    hint: 'write built name { n1 = nor(a, b) }, one wire a line',
  };
}
