// The host that is a Node process.

import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import {
  type Host,
  LARGEST_INPUT,
  type ProgressBar,
  type ProgressLine,
  type ReadOutcome,
  type RunApart,
} from './host.ts';
import { whatStandsAt, writeWhole } from './write-file.ts';

const BLOCK = 1 << 16;

/** Reads to the end instead of asking for the size first: a pipe has none. */
function readOpen(file: number): ReadOutcome {
  if (fstatSync(file).isDirectory()) return { fault: { kind: 'folder' } };
  const blocks: Uint8Array[] = [];
  let size = 0;
  for (;;) {
    const block = new Uint8Array(BLOCK);
    const read = readSync(file, block);
    if (read === 0) return { bytes: Buffer.concat(blocks, size) };
    blocks.push(block.subarray(0, read));
    size += read;
    if (size > LARGEST_INPUT) return { fault: { kind: 'too-large' } };
  }
}

function readFile(path: string): ReadOutcome {
  let file: number | null = null;
  try {
    file = openSync(path, 'r');
    return readOpen(file);
  } catch (error) {
    return faultOf(error);
  } finally {
    if (file !== null) closeSync(file);
  }
}

/** The fault behind an error of the file system. */
function faultOf(error: unknown): ReadOutcome {
  const code = codeOf(error);
  if (code === 'ENOENT' || code === 'ENOTDIR' || code === 'ENAMETOOLONG')
    return { fault: { kind: 'missing' } };
  if (code === 'EISDIR') return { fault: { kind: 'folder' } };
  const reason = code === 'EACCES' || code === 'EPERM' ? 'there is no permission' : (code ?? String(error));
  return { fault: { kind: 'unreadable', reason } };
}

async function readInput(): Promise<ReadOutcome> {
  const blocks: Uint8Array[] = [];
  let size = 0;
  try {
    for await (const block of process.stdin) {
      blocks.push(block as Uint8Array);
      size += (block as Uint8Array).length;
      if (size > LARGEST_INPUT) return { fault: { kind: 'too-large' } };
    }
  } catch (error) {
    return faultOf(error);
  }
  return { bytes: Buffer.concat(blocks, size) };
}

function writeTo(stream: NodeJS.WriteStream, text: string): Promise<void> {
  return new Promise((resolve, reject) => {
    // Both may come for one fault; the listener stays, because an error nobody listens to ends the process.
    stream.on('error', reject);
    stream.write(text, (error) => (error ? reject(error) : resolve()));
  });
}

/** The `code` of an error of the system, null when it has none. */
export function codeOf(error: unknown): string | null {
  if (typeof error !== 'object' || error === null || !('code' in error)) return null;
  return typeof error.code === 'string' ? error.code : null;
}

/** Only a terminal gets colours, and only when nobody has said no. */
function wantsColour(stream: NodeJS.WriteStream): boolean {
  const { NO_COLOR, TERM } = process.env;
  return !NO_COLOR && TERM !== 'dumb' && stream.isTTY === true;
}

/** Milliseconds in which one keystroke may arrive twice: from the terminal, and passed on by who started this program. */
const ECHO = 200;

function onInterrupt(wanted: () => void): () => void {
  let echo: NodeJS.Timeout | undefined;
  const listener = (): void => {
    // Whoever presses again after that ends the process at once.
    echo ??= setTimeout(() => {
      process.off('SIGINT', listener);
      wanted();
    }, ECHO);
  };
  process.on('SIGINT', listener);
  return () => {
    clearTimeout(echo);
    process.off('SIGINT', listener);
  };
}

/**
 * The process this runs in.
 *
 * @param searchProgram what a thread of the search runs; without it everything runs in this thread.
 */
export function processHost(searchProgram?: URL): Host {
  const progress = async (): Promise<ProgressLine> => {
    const { progressLineOn } = await import('./progress-line.ts');
    return progressLineOn(process.stderr);
  };
  const bar = async (): Promise<ProgressBar> => {
    const { progressBarOn } = await import('./progress-bar.ts');
    return progressBarOn(process.stderr);
  };
  const runApart: RunApart = async (...what) => {
    const { apartIn } = await import('./search-thread.ts');
    return apartIn(searchProgram as URL)(...what);
  };
  // The program of the threads lies in bin/.
  const readCatalogue = (): ReadOutcome =>
    readFile(fileURLToPath(new URL('../src/search/catalogue/four-inputs.catalogue', searchProgram)));
  return {
    readFile,
    readInput,
    writeOut: (text) => writeTo(process.stdout, text),
    writeErr: (text) => writeTo(process.stderr, text),
    writeFile: writeWhole,
    whatStandsAt,
    colour: { out: wantsColour(process.stdout), err: wantsColour(process.stderr) },
    ...(searchProgram === undefined ? {} : { runApart, onInterrupt, readCatalogue, searchProgram }),
    ...(process.stderr.isTTY === true && process.env.TERM !== 'dumb' ? { progress, bar } : {}),
  };
}
