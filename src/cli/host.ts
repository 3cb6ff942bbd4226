// Everything the command line needs from the machine, so that tests can run it in their own process.

/** Why a file could not be read. */
export type ReadFault =
  | { readonly kind: 'missing' | 'folder' | 'too-large' }
  | { readonly kind: 'unreadable'; readonly reason: string };

export type ReadOutcome = { readonly bytes: Uint8Array } | { readonly fault: ReadFault };

export interface Host {
  readFile(path: string): ReadOutcome;
  /** All of standard input. */
  readInput(): Promise<ReadOutcome>;
  /** Rejects with an error that has a `code` when the text cannot be written. */
  writeOut(text: string): Promise<void>;
  writeErr(text: string): Promise<void>;
  /** Whether what goes to standard output, and to standard error, may be coloured. */
  readonly colour: { readonly out: boolean; readonly err: boolean };
}

/** Largest input in bytes; a text beyond that is not equations. */
export const LARGEST_INPUT = 64 * 1024 * 1024;
