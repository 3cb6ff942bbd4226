// The commands `batch` and `merge`: many systems in, a folder of results out.

import { readdirSync, statSync } from 'node:fs';
import path from 'node:path';
import picomatch from 'picomatch';
import { quote } from '../../grammar/quote.ts';
import { type BatchSource, itemsOf } from '../batch/items.ts';
import { completePlan, readPlan } from '../batch/plan.ts';
import type { BatchPlanFile } from '../batch/plan-file.ts';
import { mergeBatches, type Refusal, runBatch } from '../batch/run.ts';
import { summaryOf } from '../batch/summary.ts';
import { summaryText } from '../batch/summary-text.ts';
import { renderDiagnostics } from '../source/render-diagnostics.ts';
import { SourceText } from '../source/source-text.ts';
import { diagnosticPainter, screenPainter } from './colours.ts';
import type { Printed, Run, UsageFault } from './command.ts';
import { commonOptions } from './common-options.ts';
import { EXIT } from './exit-codes.ts';
import type { Host } from './host.ts';
import { codeOf } from './process-host.ts';
import type { Request } from './request.ts';
import { readSource } from './sources.ts';
import { findTarget } from './target-option.ts';

const IN_FOLDERS = '**/*.{logic,jsonl}';
/** Folders that a pattern does not go into. */
const HIDDEN = /(?:^|\/)(?:\.[^/]|node_modules\/)/;

type Refused = { readonly fault: UsageFault };

const noFolder: Refused = {
  fault: { message: 'a folder for the results is missing', hint: 'name one, as in --into results' },
};

/** Names of files in an order that is the same on every machine. */
const inOrder = (names: readonly string[]): string[] =>
  [...names].sort((a, b) => (a < b ? -1 : a > b ? 1 : 0));

/** Files below a folder that fit a pattern, by their names from there. */
function fitting(pattern: string, folder: string): string[] {
  const fits = picomatch(pattern);
  const names: string[] = [];
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile()) continue;
    const name = path.relative(folder, path.join(entry.parentPath, entry.name)).replaceAll('\\', '/');
    if (!HIDDEN.test(name) && fits(name)) names.push(name);
  }
  return inOrder(names);
}

/** Files that fit a pattern of names from here or from the top. */
function matched(pattern: string): string[] {
  const { base, glob } = picomatch.scan(pattern);
  try {
    return fitting(glob, base === '' ? '.' : base).map((name) => path.posix.join(base, name));
  } catch {
    return [];
  }
}

function filesIn(operand: string): string[] | UsageFault {
  let isFolder = false;
  try {
    isFolder = statSync(operand).isDirectory();
  } catch {
    const pattern = operand.replaceAll('\\', '/');
    if (!picomatch.scan(pattern).isGlob) return [operand];
    const found = matched(pattern);
    if (found.length > 0) return found;
    return {
      message: `no file fits ${quote(operand)}`,
      hint: 'put the pattern in quotes; ** goes into folders',
    };
  }
  if (!isFolder) return [operand];
  const inside = fitting(IN_FOLDERS, operand);
  if (inside.length > 0) return inside.map((name) => path.posix.join(operand.replaceAll('\\', '/'), name));
  return {
    message: `there is no .logic or .jsonl file in ${quote(operand)}`,
    hint: 'name the files themselves',
  };
}

/** Every text that the operands name. */
async function sourcesOf(operands: readonly string[], host: Host): Promise<BatchSource[] | Refused> {
  const sources: BatchSource[] = [];
  for (const operand of operands) {
    let listed = [operand];
    if (operand === '-') {
      const read = await host.readInput();
      if ('fault' in read) return { fault: { message: 'standard input cannot be read', hint: null } };
      listed = Buffer.from(read.bytes)
        .toString('utf8')
        .split(/\r?\n/)
        .filter((line) => line.trim() !== '');
    }
    for (const name of listed) {
      const files = filesIn(name);
      if (!Array.isArray(files)) return { fault: files };
      for (const file of files) sources.push(readSource(file, host));
    }
  }
  return sources;
}

/** The plan file, or what to print instead. */
function planOf(request: Request, host: Host): BatchPlanFile | Printed {
  const file = request.text('plan');
  if (file === null) return {};
  const source = readSource(file, host);
  const { value, diagnostics } =
    'fault' in source ? { value: null, diagnostics: [source.fault] } : readPlan(source.text);
  if (value !== null) return value;
  const text = new SourceText(file, 'fault' in source ? '' : source.text);
  const paint = diagnosticPainter(host.colour.err);
  return { out: '', err: `${renderDiagnostics(diagnostics, text, { paint })}\n`, code: EXIT.faults };
}

function shardOf(request: Request): { index: number; of: number } | UsageFault {
  const [index = 1, of = 1] = (request.text('shard') ?? '1/1').split('/').map(Number);
  return index <= of
    ? { index, of }
    : { message: `there is no part ${index} of ${of}`, hint: `the parts are 1/${of} to ${of}/${of}` };
}

/** Faults of the file system, in words. */
async function guarded<Outcome>(
  work: () => Outcome | Promise<Outcome>,
): Promise<Outcome | { refusal: Refusal }> {
  try {
    return await work();
  } catch (error) {
    const code = codeOf(error);
    if (code === null) throw error;
    return {
      refusal: { message: `the results cannot be written: ${code}`, hint: 'is there room, and permission?' },
    };
  }
}

/** Runs the command `batch`. */
export const runBatchCommand: Run = async (request, version, host) => {
  const folder = request.text('into');
  if (folder === null) return noFolder;
  const file = planOf(request, host);
  if ('code' in file) return file;
  const shard = shardOf(request);
  if ('message' in shard) return { fault: shard };
  const named = request.wasGiven('target') ? null : (file.target ?? null);
  const found = findTarget(named ?? request.text('target') ?? '', host);
  if ('instead' in found) return found.instead;
  const sources = await sourcesOf(request.operands, host);
  if (!Array.isArray(sources)) return sources;
  const given: BatchPlanFile = {
    ...file,
    ...(request.wasGiven('effort') ? { effort: request.effort } : {}),
    ...(request.wasGiven('seed') ? { seeds: [request.seed] } : {}),
  };
  const ender = new AbortController();
  const deaf = host.onInterrupt?.(() => ender.abort());
  const bar = await host.bar?.();
  const outcome = await guarded(() =>
    runBatch(itemsOf(sources), {
      ...{ folder, shard, signal: ender.signal },
      ...commonOptions(version, host),
      plan: completePlan(given, found.target),
      isResumed: request.flag('resume'),
      workers: request.count('workers') ?? 2,
      program: host.searchProgram ?? null,
      progress: (there, all) => bar?.show(there, all),
    }),
  );
  bar?.end();
  deaf?.();
  if ('refusal' in outcome) return { fault: outcome.refusal };
  const { rows, all, isComplete } = outcome;
  if (!isComplete) {
    const out = `Ended after ${rows.length} of ${all} systems. The same command with --resume goes on.\n`;
    return { out, err: '', code: EXIT.cutShort };
  }
  return finished(rows, folder, host);
};

/** Runs the command `merge`. */
export const runMergeCommand: Run = async (request, _version, host) => {
  const folder = request.text('into');
  if (folder === null) return noFolder;
  const outcome = await guarded(() => mergeBatches(request.operands, folder));
  return 'refusal' in outcome ? { fault: outcome.refusal } : finished(outcome.rows, folder, host);
};

function finished(rows: Parameters<typeof summaryOf>[0], folder: string, host: Host): Printed {
  const summary = summaryOf(rows);
  const out = summaryText(summary, folder, screenPainter(host.colour.out));
  return { out, err: '', code: summary.failed > 0 ? EXIT.faults : EXIT.done };
}
