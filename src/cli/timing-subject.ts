// What the commands about timing work on: for each source the equations, and a network for them, found or as written.

import { cutBlocks } from '../../grammar/blocks.ts';
import { quote, visible } from '../../grammar/quote.ts';
import { nearestName } from '../equations/nearest-name.ts';
import { overrideRails } from '../equations/override-rails.ts';
import { readEquations } from '../equations/read-equations.ts';
import type { System } from '../equations/system.ts';
import type { Network } from '../network/network.ts';
import { readBuilt } from '../network/read-built.ts';
import { networkOfResult } from '../report/result-network.ts';
import { asWrittenDraft, asWrittenNetwork } from '../search/as-written.ts';
import { sampleTables } from '../search/sample.ts';
import { makeTask } from '../search/task.ts';
import type { Diagnostic } from '../source/diagnostic.ts';
import { renderDiagnostics } from '../source/render-diagnostics.ts';
import { SourceText } from '../source/source-text.ts';
import type { Target } from '../target/target.ts';
import type { CommonOptions } from '../tickwright.ts';
import { optimize } from '../tickwright.ts';
import type { Held } from '../timing/allowed-patterns.ts';
import type { Circuit } from '../timing/circuit.ts';
import { circuitOfBuilt } from '../timing/circuit-of-built.ts';
import { circuitOfNetwork } from '../timing/circuit-of-network.ts';
import { fitsTables, systemTables } from '../truth/system-tables.ts';
import { diagnosticPainter } from './colours.ts';
import type { Printed, UsageFault } from './command.ts';
import { commonOptions } from './common-options.ts';
import { EXIT, type ExitCode } from './exit-codes.ts';
import type { Host } from './host.ts';
import type { Request } from './request.ts';
import { readSources } from './sources.ts';
import { findTarget } from './target-option.ts';

/** A network with what there is to know about its inputs. */
export interface Subject {
  readonly name: string;
  readonly target: Target;
  readonly circuit: Circuit;
  readonly held: readonly Held[];
  /** The equations and the network that was made for them; null for a block that was built. */
  readonly made: { readonly system: System; readonly network: Network } | null;
}

/** Where a network comes from. */
export type Origin = 'found' | 'written' | 'built';

export interface SubjectOutcome {
  readonly name: string;
  readonly source: SourceText;
  readonly target: Target;
  readonly which: Origin;
  /** Null when there are faults. */
  readonly subject: Subject | null;
  readonly diagnostics: readonly Diagnostic[];
  readonly code: ExitCode;
}

export type Subjects =
  | { readonly subjects: readonly SubjectOutcome[] }
  | { readonly instead: Printed | { readonly fault: UsageFault } };

/** All sources that the request names. */
export async function subjectsOf(request: Request, version: string, host: Host): Promise<Subjects> {
  const found = findTarget(request.text('target') ?? '', host);
  if ('instead' in found) return found;
  const holds = holdsOf(request);
  if ('fault' in holds) return { instead: holds };
  const subjects: SubjectOutcome[] = [];
  const common = commonOptions(version, host);
  for (const read of await readSources(request.operands, host)) {
    const which = request.text('network') === 'written' ? 'written' : 'found';
    const base = { name: read.name, target: found.target, which } as const;
    if ('fault' in read) {
      const source = new SourceText(read.name, '');
      subjects.push({ ...base, source, subject: null, diagnostics: [read.fault], code: EXIT.faults });
      continue;
    }
    const source = new SourceText(read.name, read.text);
    const built = builtOutcomes(read.name, read.text, found.target, holds.holds);
    if (built !== null) {
      subjects.push(...built.map((outcome) => ({ ...base, ...outcome, source, which: 'built' as const })));
      continue;
    }
    const made = subjectOf(read.name, read.text, request, found.target, holds.holds, common);
    subjects.push({ ...base, source, ...made });
  }
  return { subjects };
}

/** A subject for each `built` block of a text; null when there is none. */
function builtOutcomes(
  name: string,
  text: string,
  target: Target,
  holds: readonly Hold[],
): Pick<SubjectOutcome, 'name' | 'subject' | 'diagnostics' | 'code'>[] | null {
  if (!cutBlocks(text).blocks.some(({ kind }) => kind === 'built')) return null;
  const { value, diagnostics } = readBuilt(text, target);
  if (value === null) return [{ name, subject: null, diagnostics, code: EXIT.faults }];
  return value.blocks.map(({ network }, at) => {
    const block = network.name === '' ? name : `${name}, ${network.name}`;
    const circuit = circuitOfBuilt(network, target);
    const said = at === 0 ? diagnostics : [];
    const heldOrFaults = heldInputs(
      circuit.inputs.map((input) => input.name),
      holds,
    );
    if ('faults' in heldOrFaults) {
      return { name: block, subject: null, diagnostics: heldOrFaults.faults, code: EXIT.faults };
    }
    const subject = { name: block, target, circuit, held: heldOrFaults.held, made: null };
    return { name: block, subject, diagnostics: said, code: EXIT.done };
  });
}

interface Hold {
  readonly name: string;
  readonly value: 0 | 1;
}

function holdsOf(request: Request): { readonly holds: readonly Hold[] } | { readonly fault: UsageFault } {
  const holds: Hold[] = [];
  for (const text of request.names('hold') ?? []) {
    const match = /^\s*([^=]+?)\s*=\s*([01])\s*$/.exec(text);
    if (match === null) {
      return { fault: { message: `--hold does not take ${quote(text)}`, hint: 'write --hold a=0,b=1' } };
    }
    holds.push({ name: match[1], value: match[2] === '1' ? 1 : 0 });
  }
  return { holds };
}

function subjectOf(
  name: string,
  text: string,
  request: Request,
  target: Target,
  holds: readonly Hold[],
  common: CommonOptions,
): Pick<SubjectOutcome, 'subject' | 'diagnostics' | 'code'> {
  const letters = request.flag('letters');
  const read = readEquations(text, { letters });
  const overridden = read.value === null ? null : overrideRails(read.value, request.rails);
  const system = overridden?.value ?? null;
  const options = {
    target,
    ticks: request.count('ticks'),
    effort: request.effort,
    seed: request.seed,
    explain: false,
    letters,
    ...common,
  } as const;
  if (system === null) {
    const diagnostics = [...read.diagnostics, ...(overridden?.diagnostics ?? [])];
    return { subject: null, diagnostics, code: EXIT.faults };
  }
  const heldOrFaults = heldInputs(
    system.inputs.map(({ signal }) => system.signals[signal]),
    holds,
  );
  if ('faults' in heldOrFaults) {
    return { subject: null, diagnostics: heldOrFaults.faults, code: EXIT.faults };
  }
  let network: Network;
  let diagnostics: readonly Diagnostic[] = [...read.diagnostics, ...(overridden?.diagnostics ?? [])];
  if (request.text('network') === 'written') {
    const wide = !fitsTables(system);
    const tables = wide ? sampleTables(system, request.seed) : systemTables(system);
    const task = makeTask(system, tables, target, !wide);
    network = asWrittenNetwork(task, asWrittenDraft(system, task));
  } else {
    const optimized = optimize(name, text, request.rails, options);
    diagnostics = optimized.diagnostics;
    const [point] = optimized.result.points;
    if (point === undefined) {
      return { subject: null, diagnostics, code: optimized.deadlineMissed ? EXIT.deadline : EXIT.faults };
    }
    network = networkOfResult(point.network, system);
  }
  const deadlines = network.outputs.map(
    ({ signal }) => system.outputs.find((output) => output.signal === signal)?.by ?? null,
  );
  const circuit = circuitOfNetwork(network, system.signals, system.inputs, target, deadlines);
  const subject = { name, target, circuit, held: heldOrFaults.held, made: { system, network } };
  return { subject, diagnostics, code: EXIT.done };
}

function heldInputs(
  names: readonly string[],
  holds: readonly Hold[],
): { readonly held: readonly Held[] } | { readonly faults: readonly Diagnostic[] } {
  const held: Held[] = [];
  const faults: Diagnostic[] = [];
  for (const { name, value } of holds) {
    const input = names.indexOf(name);
    if (input >= 0) {
      held.push({ input, value });
      continue;
    }
    const near = nearestName(name, names);
    faults.push({
      severity: 'error',
      code: 'unknown-input',
      message: `--hold: there is no input ${quote(name)}`,
      at: null,
      hint: near === null ? null : `did you mean ${quote(near)}?`,
    });
  }
  return faults.length > 0 ? { faults } : { held };
}

const ORIGINS: Readonly<Record<Origin, string>> = {
  found: 'network found',
  written: 'as written',
  built: 'as built',
};

/** First line of the screen of a source. */
export function subjectLine({ name, circuit, target }: Subject, which: Origin): string {
  const count = circuit.kinds.filter((kind) => kind === 'inverter').length;
  const inverters = `${count} inverter${count === 1 ? '' : 's'}`;
  return `${visible(name)}, target ${target.name}, ${ORIGINS[which]}: ${inverters}`;
}

/** Screens of sources that have one, and the faults of the others. */
export function printScreens(
  outcomes: readonly SubjectOutcome[],
  screens: ReadonlyMap<SubjectOutcome, readonly string[]>,
  code: ExitCode,
  host: Host,
): Printed {
  const out: string[] = [];
  const err: string[] = [];
  for (const outcome of outcomes) {
    const lines = screens.get(outcome);
    const paint = diagnosticPainter(lines === undefined ? host.colour.err : host.colour.out);
    const notices = renderDiagnostics(outcome.diagnostics, outcome.source, { paint });
    if (lines === undefined) err.push(`${notices}\n`);
    else out.push(`${[...lines, ...(notices === '' ? [] : ['', notices])].join('\n')}\n`);
  }
  return { out: out.join(`\n${'-'.repeat(80)}\n\n`), err: err.join('\n'), code };
}
