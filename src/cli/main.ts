// The edge of the program: words in, text and an exit code out. Everything it needs from the machine is the host.

import packageJson from '../../package.json' with { type: 'json' };
import { renderDiagnostic } from '../source/render-diagnostics.ts';
import { SourceText } from '../source/source-text.ts';
import { diagnosticPainter } from './colours.ts';
import type { Printed, UsageFault } from './command.ts';
import { understand } from './command-line.ts';
import { EXIT, type ExitCode } from './exit-codes.ts';
import type { Host } from './host.ts';
import { codeOf, processHost } from './process-host.ts';

/** A fault of the run itself, in the shape of all faults. */
function faultText(code: string, { message, hint }: UsageFault, host: Host): string {
  const fault = { severity: 'error', code, message, at: null, hint } as const;
  const paint = diagnosticPainter(host.colour.err);
  return `${renderDiagnostic(fault, new SourceText('tickwright', ''), { paint })}\n`;
}

function wrongUse(fault: UsageFault, host: Host): Printed {
  return { out: '', err: faultText('wrong-use', fault, host), code: EXIT.wrongUse };
}

/** What the words ask for, ready to be written. What costs time to load is loaded only when it is needed. */
async function answer(argv: readonly string[], host: Host): Promise<Printed> {
  const understood = understand(argv);
  if ('fault' in understood) return wrongUse(understood.fault, host);
  const { request } = understood;
  const { version } = packageJson;
  if (request.flag('help')) {
    const { commandHelp, generalHelp } = await import('./help.ts');
    const isGeneral = !request.named && request.operands.length === 0;
    const out = isGeneral ? generalHelp(version) : commandHelp(request.command, version);
    return { out, err: '', code: EXIT.done };
  }
  if (request.flag('version')) return { out: `${version}\n`, err: '', code: EXIT.done };
  const run = await request.command.load();
  const printed = await run(request, version, host);
  return 'fault' in printed ? wrongUse(printed.fault, host) : printed;
}

/** Writes; a reader that has gone away has seen what it wanted and is no fault. */
async function written(write: () => Promise<void>): Promise<string | null> {
  try {
    await write();
    return null;
  } catch (error) {
    const code = codeOf(error);
    return code === 'EPIPE' ? null : (code ?? String(error));
  }
}

/**
 * Runs the program once.
 *
 * @param argv the words after the name of the program.
 * @returns the exit code. Bad input of any kind comes back as a message and a code, never as an exception.
 */
export async function main(argv: readonly string[], host: Host): Promise<ExitCode> {
  const { out, err, code } = await answer(argv, host);
  if (err !== '') await written(() => host.writeErr(err));
  if (out === '') return code;
  const trouble = await written(() => host.writeOut(out));
  if (trouble === null) return code;
  const fault = { message: `the output could not be written: ${trouble}`, hint: null };
  await written(() => host.writeErr(faultText('not-written', fault, host)));
  return EXIT.notWritten;
}

/**
 * Runs the program in this process.
 *
 * @param searchProgram a file that calls `serve`; threads of the search run it.
 */
export async function start(searchProgram: URL): Promise<void> {
  process.exitCode = await main(process.argv.slice(2), processHost(searchProgram));
}

/** Runs in a thread of the search. */
export async function serve(): Promise<void> {
  const { serveSearch } = await import('./search-thread.ts');
  serveSearch();
}
