// Runs the command line in the process of the tests, with files and standard input made up for the occasion.

import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import packageJson from '../../package.json' with { type: 'json' };
import type { Host, ReadFault, ReadOutcome, WriteFault } from '../../src/cli/host.ts';
import { runJob } from '../../src/cli/job.ts';
import { main } from '../../src/cli/main.ts';
import { whatStandsAt, writeWhole } from '../../src/cli/write-file.ts';
import type { Outcome } from '../../src/tickwright.ts';

export interface Machine {
  /** Content by name: text, bytes, or why it cannot be read. A name that is not here is looked up in the repository. */
  readonly files?: Readonly<Record<string, string | Uint8Array | ReadFault>>;
  readonly input?: string | Uint8Array;
  readonly colour?: boolean;
  /** Why no file can be written; files are written for real without it. */
  readonly writeFault?: WriteFault;
  /** Code of the error that writing to standard output ends with. */
  readonly writeError?: string;
  /** Searches can be followed and cut short: after so many pieces of news, if not null. */
  readonly following?: { readonly progress: Host['progress']; readonly endAfter: number | null };
}

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

const root = new URL('../../', import.meta.url);

function outcomeOf(content: string | Uint8Array | ReadFault): ReadOutcome {
  if (typeof content === 'string') return { bytes: new TextEncoder().encode(content) };
  return content instanceof Uint8Array ? { bytes: content } : { fault: content };
}

/** As if the search ran in another thread: its news come before its answer, and the keyboard may end it between. */
function followed({ progress, endAfter }: NonNullable<Machine['following']>): Partial<Host> {
  let end = (): void => {};
  return {
    ...(progress === undefined ? {} : { progress }),
    onInterrupt(wanted) {
      end = wanted;
      return () => {};
    },
    async runApart(job, found, signal) {
      const news: Outcome[] = [];
      const optimized = runJob(job, (outcome) => news.push(outcome));
      for (const [at, outcome] of news.entries()) {
        if (at === endAfter) end();
        if (signal.aborted) return null;
        found(structuredClone(outcome));
      }
      return structuredClone(optimized);
    },
  };
}

/** Runs `tickwright` with these words. */
export async function runCli(argv: readonly string[], machine: Machine = {}): Promise<Ran> {
  let [out, err] = ['', ''];
  const host: Host = {
    readFile(name) {
      const made = machine.files?.[name];
      if (made !== undefined) return outcomeOf(made);
      try {
        return { bytes: readFileSync(fileURLToPath(new URL(name, root))) };
      } catch {
        return { fault: { kind: 'missing' } };
      }
    },
    readCatalogue: () => ({
      bytes: readFileSync(fileURLToPath(new URL('src/search/catalogue/four-inputs.catalogue', root))),
    }),
    readInput: async () => outcomeOf(machine.input ?? ''),
    writeOut: async (text) => {
      if (machine.writeError !== undefined) {
        throw Object.assign(new Error('made up'), { code: machine.writeError });
      }
      out += text;
    },
    writeFile: (path, text, overwrite) => machine.writeFault ?? writeWhole(path, text, overwrite),
    whatStandsAt,
    writeErr: async (text) => {
      err += text;
    },
    colour: { out: machine.colour ?? false, err: machine.colour ?? false },
    ...(machine.following === undefined ? {} : followed(machine.following)),
  };
  const code = await main(argv, host);
  return { code, out, err };
}

/** A run as one text for a golden file: the command, the exit code, both outputs; without the version. */
export function screenOf(argv: readonly string[], { code, out, err }: Ran): string {
  const words = argv.map((word) => (/^[\w./,:=@-]+$/.test(word) ? word : `'${word}'`));
  const streams = [
    out === '' ? '' : `--- standard output\n${out}`,
    err === '' ? '' : `--- standard error\n${err}`,
  ];
  const screen = `$ tickwright ${words.join(' ')}\nexit code ${code}\n${streams.join('')}`;
  return screen.replaceAll(packageJson.version, 'VERSION');
}
