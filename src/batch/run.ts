// A batch from its systems to its results, in a folder.

import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { digestOf, type Item } from './items.ts';
import {
  belongs,
  headerText,
  isComplete,
  Journal,
  joinResults,
  RUN_FORMAT,
  type RunHeader,
  readHeader,
  readResults,
  type Told,
  takeFolder,
  writeSafely,
} from './journal.ts';
import type { Plan } from './plan.ts';
import { runAll } from './pool.ts';
import { summaryOf } from './summary.ts';
import { summaryPage } from './summary-page.ts';
import { summaryCsv } from './summary-text.ts';

/** Why a run is not begun: what is wrong, and what to do instead. */
export interface Refusal {
  readonly message: string;
  readonly hint: string | null;
}

export interface BatchOptions {
  readonly folder: string;
  readonly plan: Plan;
  readonly version: string;
  /** The bytes of the catalogue, where there is one. */
  readonly catalogue?: Uint8Array;
  readonly shard: RunHeader['shard'];
  readonly isResumed: boolean;
  readonly workers: number;
  readonly program: URL | null;
  readonly signal: AbortSignal;
  /** Hears how many rows are there of how many. */
  readonly progress: (there: number, all: number) => void;
}

export interface BatchOutcome {
  /** In the order of the systems; not all of them when the run was ended. */
  readonly rows: readonly Told[];
  /** Systems that belong to the run. */
  readonly all: number;
  readonly isComplete: boolean;
  /** Rows that an earlier run had left. */
  readonly earlier: number;
}

/** Names that a message gives of systems that have changed. */
const MOST_NAMES = 3;

/** Runs a batch, or goes on with it. */
export async function runBatch(
  items: readonly Item[],
  options: BatchOptions,
): Promise<BatchOutcome | { readonly refusal: Refusal }> {
  const { folder, plan, version, shard } = options;
  const header: RunHeader = {
    ...{ format: RUN_FORMAT, version, plan, shard },
    systems: items.map((item) => [item.name, digestOf(item)]),
  };
  const refusal = refusalOf(folder, header, options.isResumed);
  if (refusal !== null) return { refusal };
  const letGo = takeFolder(folder);
  if (letGo === null) {
    const message = `another run is at work in ${folder}`;
    return { refusal: { message, hint: 'wait for its end, or take another folder' } };
  }
  try {
    const mine = items.filter(({ position }) => belongs(position, header));
    if (isComplete(folder)) {
      const rows: Told[] = [];
      readResults(folder, (row) => rows.push(row));
      writeSummaries(folder, rows, header);
      return { rows, all: mine.length, isComplete: true, earlier: rows.length };
    }
    const journal = Journal.open(folder, header);
    const earlier = journal.rows.size;
    options.progress(earlier, mine.length);
    await runAll(
      mine.filter(({ position }) => !journal.rows.has(position)),
      {
        ...options,
        ready: (lines) => {
          journal.add(lines);
          options.progress(journal.rows.size, mine.length);
        },
      },
    );
    const rows = [...journal.rows.values()].sort((a, b) => a.position - b.position);
    if (rows.length < mine.length) {
      journal.close();
      return { rows, all: mine.length, isComplete: false, earlier };
    }
    writeSummaries(folder, rows, header);
    journal.complete();
    return { rows, all: mine.length, isComplete: true, earlier };
  } finally {
    letGo();
  }
}

/** Puts the shards of one batch together. */
export function mergeBatches(
  folders: readonly string[],
  folder: string,
): { readonly rows: readonly Told[] } | { readonly refusal: Refusal } {
  const headers: { readonly from: string; readonly header: RunHeader }[] = [];
  for (const from of folders) {
    const header = readHeader(from);
    if (header === 'none' || header === 'unreadable') {
      const message = header === 'none' ? `there is no run in ${from}` : `the run in ${from} cannot be read`;
      return { refusal: { message, hint: 'give the folders that tickwright batch --shard has written' } };
    }
    if (!isComplete(from)) {
      const message = `the run in ${from} is not complete`;
      return { refusal: { message, hint: 'go on with it first: the same command with --resume' } };
    }
    headers.push({ from, header });
  }
  const [first] = headers;
  if (first === undefined) throw new Error('there is nothing to merge');
  const like = (header: RunHeader): string => headerText({ ...header, shard: { ...header.shard, index: 0 } });
  for (const { from, header } of headers) {
    if (like(header) !== like(first.header)) {
      const message = `the runs in ${first.from} and ${from} are not of one batch: ${difference(first.header, header)}`;
      return {
        refusal: { message, hint: 'shards are of one batch when systems, plan and version are the same' },
      };
    }
    const twin = headers.find((other) => other.header.shard.index === header.shard.index);
    if (twin !== undefined && twin.from !== from) {
      const message = `shard ${header.shard.index} of ${header.shard.of} is there twice: ${twin.from} and ${from}`;
      return { refusal: { message, hint: 'give each shard once' } };
    }
  }
  const { of } = first.header.shard;
  const missing = Array.from({ length: of }, (_, n) => n + 1).filter(
    (index) => !headers.some(({ header }) => header.shard.index === index),
  );
  if (missing.length > 0) {
    const message = `of ${of} shards ${missing.length === 1 ? 'this one is' : 'these are'} missing: ${missing.join(', ')}`;
    return { refusal: { message, hint: 'give all of them' } };
  }
  if (readHeader(folder) !== 'none' || isComplete(folder)) {
    return { refusal: { message: `there is a run in ${folder} already`, hint: 'take another folder' } };
  }
  const letGo = takeFolder(folder);
  if (letGo === null) {
    return { refusal: { message: `another run is at work in ${folder}`, hint: 'take another folder' } };
  }
  try {
    const header = { ...first.header, shard: { index: 1, of: 1 } };
    writeSafely(path.join(folder, 'run.json'), (handle) => writeFileSync(handle, headerText(header)));
    const rows = joinResults(folders, folder);
    writeSummaries(folder, rows, header);
    return { rows };
  } finally {
    letGo();
  }
}

function refusalOf(folder: string, header: RunHeader, isResumed: boolean): Refusal | null {
  const present = readHeader(folder);
  if (present === 'unreadable') {
    return { message: `the run in ${folder} cannot be read`, hint: 'take another folder' };
  }
  if (present === 'none') {
    if (!isResumed) return null;
    return { message: `there is no run in ${folder} to go on with`, hint: 'leave --resume out to begin one' };
  }
  if (!isResumed) {
    const message = `there is a run in ${folder} already`;
    return { message, hint: 'go on with it by --resume, or take another folder' };
  }
  if (headerText(present) === headerText(header)) return null;
  const message = `the run in ${folder} was begun otherwise: ${difference(present, header)}`;
  return { message, hint: 'take another folder, or give what it was begun with' };
}

/** What differs between two runs, in words. */
function difference(before: RunHeader, now: RunHeader): string {
  if (before.version !== now.version) return `by version ${before.version}, and this is ${now.version}`;
  if (JSON.stringify(before.plan) !== JSON.stringify(now.plan)) return 'the plan differs';
  if (JSON.stringify(before.shard) !== JSON.stringify(now.shard)) {
    return `as shard ${before.shard.index}/${before.shard.of}, not ${now.shard.index}/${now.shard.of}`;
  }
  if (before.systems.length !== now.systems.length) {
    return `with ${before.systems.length} systems, and now there are ${now.systems.length}`;
  }
  const changed = now.systems.filter(([name, digest], at) => {
    const [oldName, oldDigest] = before.systems[at] ?? ['', ''];
    return oldName !== name || oldDigest !== digest;
  });
  const names = changed.slice(0, MOST_NAMES).map(([name]) => name);
  return `${names.join(', ')}${changed.length > MOST_NAMES ? ` and ${changed.length - MOST_NAMES} more` : ''} changed`;
}

function writeSummaries(folder: string, rows: readonly Told[], { plan, version }: RunHeader): void {
  const write = (name: string, text: string): void =>
    writeSafely(path.join(folder, name), (handle) => writeFileSync(handle, text));
  write('summary.csv', summaryCsv(rows));
  write('summary.html', summaryPage(summaryOf(rows), (plan as Plan).target.name, version));
}
