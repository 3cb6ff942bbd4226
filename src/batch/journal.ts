// The folder of a run, and how it survives any end.
//
// `run.json` says what the run is: version, plan, shard, every system with a digest. It is written whole before anything
// is searched. `journal.jsonl` gets every row as soon as it is there, whole lines in one write, brought to the disk, in
// whatever order they come. When all rows are there, `results.jsonl` is written in the order of the systems, whole, and
// only then does the journal go. A run that was ended in between is read back: the rows of the journal stay, a last line
// that was torn is cut off, and the rest is done. So nothing is lost and nothing is done twice, and since rows depend
// on nothing but their system and the plan, the results are the same bytes however often the run was ended.

import {
  closeSync,
  existsSync,
  fdatasyncSync,
  fsyncSync,
  ftruncateSync,
  mkdirSync,
  openSync,
  readFileSync,
  readSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
  writeSync,
} from 'node:fs';
import path from 'node:path';
import type { Row } from './run-item.ts';

export const RUN_FORMAT = 'tickwright.batch/1';

/** What a run is. Two runs with the same text of this lead to the same results. */
export interface RunHeader {
  readonly format: typeof RUN_FORMAT;
  readonly version: string;
  /** The plan with every default, the target among it. */
  readonly plan: unknown;
  /** Systems with `position % of === index - 1` belong to the run. */
  readonly shard: { readonly index: number; readonly of: number };
  /** Every system of the batch, also those of other shards: name and digest. */
  readonly systems: readonly (readonly [name: string, digest: string])[];
}

/** A row without what only its reader needs. */
export type Told = Omit<Row, 'result'>;

const FILES = {
  run: 'run.json',
  journal: 'journal.jsonl',
  results: 'results.jsonl',
  lock: 'in-use',
} as const;
const LINE_FEED = 0x0a;
const BLOCK = 1 << 20;

export function headerText(header: RunHeader): string {
  return `${JSON.stringify(header, null, 1)}\n`;
}

/** Which systems belong to the run of a header. */
export function belongs(position: number, { shard }: RunHeader): boolean {
  return position % shard.of === shard.index - 1;
}

/** What stands in a folder: a run, nothing of a run, or something that cannot be read. */
export function readHeader(folder: string): RunHeader | 'none' | 'unreadable' {
  const file = path.join(folder, FILES.run);
  if (!existsSync(file)) return 'none';
  try {
    const header = JSON.parse(readFileSync(file, 'utf8')) as RunHeader;
    return header.format === RUN_FORMAT && Array.isArray(header.systems) ? header : 'unreadable';
  } catch {
    return 'unreadable';
  }
}

/** Is the run in this folder complete? */
export function isComplete(folder: string): boolean {
  return existsSync(path.join(folder, FILES.results));
}

/** Writes a file whole, through another one beside it. */
export function writeSafely(file: string, write: (handle: number) => void): void {
  const draft = `${file}.part`;
  const handle = openSync(draft, 'w');
  try {
    write(handle);
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
  renameSync(draft, file);
}

/** Where every whole line of a file of rows stands, by the position of its system, and where the last of them ends. */
interface Lines {
  readonly at: ReadonlyMap<number, { readonly start: number; readonly length: number }>;
  readonly end: number;
}

/** @param told hears of every row, in the order of the file; of two rows for one system the first counts. */
function readLines(file: string, told: (row: Told) => void): Lines {
  const at = new Map<number, { start: number; length: number }>();
  const handle = openSync(file, 'r');
  let end = 0;
  try {
    let rest = Buffer.alloc(0);
    for (;;) {
      const block = Buffer.alloc(BLOCK);
      const count = readSync(handle, block);
      if (count === 0) break;
      rest = Buffer.concat([rest, block.subarray(0, count)]);
      for (let next = rest.indexOf(LINE_FEED); next >= 0; next = rest.indexOf(LINE_FEED)) {
        const row = rowIn(rest.subarray(0, next));
        // What is torn in the middle of the file was not written by a run: nothing behind it counts.
        if (row === null) return { at, end };
        if (!at.has(row.position)) {
          at.set(row.position, { start: end, length: next + 1 });
          told(row);
        }
        end += next + 1;
        rest = rest.subarray(next + 1);
      }
    }
  } finally {
    closeSync(handle);
  }
  return { at, end };
}

function rowIn(line: Buffer): Told | null {
  try {
    const { result: _, ...row } = JSON.parse(line.toString('utf8')) as Row;
    return Number.isInteger(row.position) ? row : null;
  } catch {
    return null;
  }
}

/** Rows of a complete run, in order. */
export function readResults(folder: string, told: (row: Told) => void): void {
  readLines(path.join(folder, FILES.results), told);
}

/** Joins the results of complete runs into one file, in the order of the systems. Returns the rows. */
export function joinResults(folders: readonly string[], folder: string): Told[] {
  const rows: Told[] = [];
  const places: { readonly file: string; readonly position: number; start: number; length: number }[] = [];
  for (const from of folders) {
    const file = path.join(from, FILES.results);
    const { at } = readLines(file, (row) => rows.push(row));
    for (const [position, place] of at) places.push({ file, position, ...place });
  }
  copyInOrder(places, path.join(folder, FILES.results));
  return rows.sort((a, b) => a.position - b.position);
}

function copyInOrder(
  places: { readonly file: string; readonly position: number; start: number; length: number }[],
  to: string,
): void {
  const handles = new Map<string, number>();
  try {
    writeSafely(to, (out) => {
      for (const { file, start, length } of places.sort((a, b) => a.position - b.position)) {
        const handle = handles.get(file) ?? openSync(file, 'r');
        handles.set(file, handle);
        const line = Buffer.alloc(length);
        readSync(handle, line, 0, length, start);
        writeAll(out, line);
      }
    });
  } finally {
    for (const handle of handles.values()) closeSync(handle);
  }
}

function writeAll(handle: number, bytes: Buffer): void {
  for (let written = 0; written < bytes.length; ) written += writeSync(handle, bytes, written);
}

/** A run that is going on. */
export class Journal {
  private readonly folder: string;
  private readonly handle: number;
  /** Rows that are there, by the position of their system. */
  readonly rows = new Map<number, Told>();
  /** Bytes of a torn last line that were cut off. */
  readonly torn: number;

  private constructor(folder: string) {
    this.folder = folder;
    const file = path.join(folder, FILES.journal);
    this.handle = openSync(file, 'a+');
    const { end } = readLines(file, (row) => this.rows.set(row.position, row));
    const { size } = statSync(file);
    this.torn = size - end;
    if (this.torn > 0) ftruncateSync(this.handle, end);
  }

  /** Begins a run in a folder, which is made when it is not there, or takes up the one that stands there. */
  static open(folder: string, header: RunHeader): Journal {
    mkdirSync(folder, { recursive: true });
    const file = path.join(folder, FILES.run);
    if (!existsSync(file)) writeSafely(file, (handle) => writeFileSync(handle, headerText(header)));
    return new Journal(folder);
  }

  /** Appends rows, whole lines in one write, and brings them to the disk. */
  add(lines: readonly string[]): void {
    writeAll(this.handle, Buffer.from(lines.map((line) => `${line}\n`).join(''), 'utf8'));
    fdatasyncSync(this.handle);
    for (const line of lines) {
      const row = rowIn(Buffer.from(line, 'utf8'));
      if (row !== null) this.rows.set(row.position, row);
    }
  }

  close(): void {
    closeSync(this.handle);
  }

  /** All rows are there: writes them in order, and lets go of the journal. */
  complete(): void {
    this.close();
    const file = path.join(this.folder, FILES.journal);
    const { at } = readLines(file, () => undefined);
    const places = [...at].map(([position, place]) => ({ file, position, ...place }));
    copyInOrder(places, path.join(this.folder, FILES.results));
    rmSync(file, { force: true });
  }
}

/**
 * Takes a folder for this process; null when another one that still runs has it.
 *
 * @returns what lets go of it.
 */
export function takeFolder(folder: string): (() => void) | null {
  mkdirSync(folder, { recursive: true });
  const file = path.join(folder, FILES.lock);
  for (let attempts = 0; attempts < 2; attempts++) {
    try {
      writeFileSync(file, String(process.pid), { flag: 'wx' });
      return () => rmSync(file, { force: true });
    } catch {
      const owner = existsSync(file) ? Number(readFileSync(file, 'utf8')) : 0;
      if (owner > 0 && owner !== process.pid && isRunning(owner)) return null;
      rmSync(file, { force: true });
    }
  }
  return null;
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return typeof error === 'object' && error !== null && 'code' in error && error.code === 'EPERM';
  }
}
