// Everything the command line needs from the machine, so that tests can run it in their own process.

import type { Optimized, Outcome } from '../tickwright.ts';
import type { Job } from './job.ts';

/** Why a file could not be read. */
export type ReadFault =
  | { readonly kind: 'missing' | 'folder' | 'too-large' }
  | { readonly kind: 'unreadable'; readonly reason: string };

export type ReadOutcome = { readonly bytes: Uint8Array } | { readonly fault: ReadFault };

/** Why a file could not be written. */
export type WriteFault =
  | {
      readonly kind:
        | 'exists'
        | 'no-folder'
        | 'is-folder'
        | 'no-permission'
        | 'disk-full'
        | 'read-only'
        | 'name-too-long';
    }
  | { readonly kind: 'other'; readonly reason: string };

/**
 * Runs a job in at most so many threads while this one stays free; tells what is found on the way. Null when the signal
 * ended it.
 */
export type RunApart = (
  job: Job,
  found: (outcome: Outcome) => void,
  signal: AbortSignal,
  threads: number,
) => Promise<Optimized | null>;

/** One line on standard error that is written over. */
export interface ProgressLine {
  show(text: string): void;
  clear(): void;
}

/** A bar on standard error for work in many pieces. */
export interface ProgressBar {
  show(there: number, all: number): void;
  end(): void;
}

export interface Host {
  readFile(path: string): ReadOutcome;
  /** The data file of the catalogue; left out where there is none. */
  readCatalogue?(): ReadOutcome;
  /** All of standard input. */
  readInput(): Promise<ReadOutcome>;
  /** Rejects with an error that has a `code` when the text cannot be written. */
  writeOut(text: string): Promise<void>;
  writeErr(text: string): Promise<void>;
  /** Writes a file whole or not at all; null when that went well. Left out where there are no files. */
  readonly writeFile?: (path: string, text: string, overwrite: boolean) => WriteFault | null;
  readonly whatStandsAt?: (path: string) => 'nothing' | 'file' | 'folder' | 'other';
  /** Whether what goes to standard output, and to standard error, may be coloured. */
  readonly colour: { readonly out: boolean; readonly err: boolean };
  /** Left out where there is one thread only. */
  readonly runApart?: RunApart;
  /** Calls back when the person at the keyboard wants an end; returns what stops listening. */
  readonly onInterrupt?: (wanted: () => void) => () => void;
  /** Left out where nobody would see it. */
  readonly progress?: () => Promise<ProgressLine>;
  /** Left out where nobody would see it. */
  readonly bar?: () => Promise<ProgressBar>;
  /** What threads run; left out where there is one thread only. */
  readonly searchProgram?: URL;
}

/** Largest input in bytes; a text beyond that is not equations. */
export const LARGEST_INPUT = 64 * 1024 * 1024;
