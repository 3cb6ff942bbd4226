// What a command is. All commands stand in the table in commands.ts; everything about them is said in these words.

import type { ExitCode } from './exit-codes.ts';
import type { Host } from './host.ts';
import type { OptionRow } from './options.ts';
import type { Request } from './request.ts';

/** What a run prints where, and its exit code. */
export interface Printed {
  readonly out: string;
  readonly err: string;
  readonly code: ExitCode;
}

/** Wrong use: what is wrong and what to do instead. */
export interface UsageFault {
  readonly message: string;
  readonly hint: string | null;
}

/**
 * Runs a command. Bad input is told in what is printed; a fault is wrong use that only the command itself can see.
 *
 * @param version the version to state in results.
 */
export type Run = (
  request: Request,
  version: string,
  host: Host,
) => Promise<Printed | { readonly fault: UsageFault }>;

export interface Command {
  /** One lower-case word. */
  readonly name: string;
  /** One line for the list of commands: a verb and what it does, without a full stop. */
  readonly summary: string;
  /** What stands behind the name: `EQUATIONS|FILE|- ...`. */
  readonly operands: string;
  /** Paragraphs for the help of the command: what the operands are, what is printed. */
  readonly about: readonly string[];
  /** Its options in the order of the help; `--help` and `--version` are added to those of every command. */
  readonly options: readonly OptionRow[];
  /** Command lines with what each of them is for. */
  readonly examples: readonly (readonly [string, string])[];
  /** What to say when there are no operands; null when the command can do without. */
  readonly nothing: UsageFault | null;
  /** Loads what runs the command: only then is the code of the command read. */
  readonly load: () => Promise<Run>;
}
