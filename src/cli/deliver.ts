// Where the output of a run goes: to standard output, or with `-o FILE`, `--svg FILE` and so on into files. What cannot
// be written is found out before a long search where it can be: a file that is there already, a folder that is not.

import { quote } from '../../grammar/quote.ts';
import { renderDiagnostic } from '../source/render-diagnostics.ts';
import { SourceText } from '../source/source-text.ts';
import { diagnosticPainter } from './colours.ts';
import type { Printed } from './command.ts';
import { EXIT } from './exit-codes.ts';
import type { Host, WriteFault } from './host.ts';
import type { Request } from './request.ts';

/** A text and the file it is for. */
export interface Delivery {
  readonly file: string;
  readonly text: string;
}

function wordsOf(fault: WriteFault, file: string): { message: string; hint: string | null } {
  const name = quote(file, 80);
  switch (fault.kind) {
    case 'exists':
      return {
        message: `${name} is there already`,
        hint: 'choose another name, or write over it with --force',
      };
    case 'no-folder':
      return { message: `${name} cannot be written: there is no such folder`, hint: 'make the folder first' };
    case 'is-folder':
      return { message: `${name} is a folder`, hint: 'name a file in it' };
    case 'no-permission':
      return { message: `${name} cannot be written: there is no permission`, hint: null };
    case 'disk-full':
      return { message: `${name} cannot be written: the disk is full`, hint: 'nothing was left behind' };
    case 'read-only':
      return { message: `${name} cannot be written: the disk is read-only`, hint: null };
    case 'name-too-long':
      return { message: `${name} cannot be written: the name is too long`, hint: null };
    default:
      return { message: `${name} cannot be written: ${fault.reason}`, hint: null };
  }
}

function notWritten(fault: WriteFault, file: string, host: Host): Printed {
  const { message, hint } = wordsOf(fault, file);
  const paint = diagnosticPainter(host.colour.err);
  const diagnostic = { severity: 'error', code: 'not-written', message, at: null, hint } as const;
  const err = `${renderDiagnostic(diagnostic, new SourceText('tickwright', ''), { paint })}\n`;
  return { out: '', err, code: EXIT.notWritten };
}

/** Names of files that an option of the request gives; `-` is standard output. */
export function filesAsked(request: Request, options: readonly string[]): string[] {
  return options.flatMap((name) => {
    const file = request.text(name);
    return file === null || file === '-' ? [] : [file];
  });
}

/** What to print instead of beginning, when a file could not be written afterwards; null when nothing speaks against it. */
export function refusal(files: readonly string[], overwrite: boolean, host: Host): Printed | null {
  for (const [at, file] of files.entries()) {
    if (files.indexOf(file) !== at)
      return notWritten({ kind: 'other', reason: 'it is asked for twice' }, file, host);
    const found = host.whatStandsAt?.(file) ?? 'nothing';
    if (found === 'folder') return notWritten({ kind: 'is-folder' }, file, host);
    if (found === 'file' && !overwrite) return notWritten({ kind: 'exists' }, file, host);
    const folder = /^(.*)[/\\][^/\\]*$/.exec(file)?.[1];
    const isMissing = folder !== undefined && folder !== '' && host.whatStandsAt?.(folder) === 'nothing';
    if (isMissing) return notWritten({ kind: 'no-folder' }, file, host);
  }
  return null;
}

function size(text: string): string {
  const bytes = new TextEncoder().encode(text).length;
  return bytes < 10_000 ? `${bytes} bytes` : `${Math.round(bytes / 1000)} kB`;
}

/** Writes the files, tells on standard error what was written, and puts that before what was printed. */
export function deliver(
  printed: Printed,
  deliveries: readonly Delivery[],
  overwrite: boolean,
  host: Host,
): Printed {
  const told: string[] = [];
  for (const { file, text } of deliveries) {
    const fault =
      host.writeFile === undefined
        ? ({ kind: 'other', reason: 'there are no files here' } as const)
        : host.writeFile(file, text, overwrite);
    if (fault !== null) {
      const { err } = notWritten(fault, file, host);
      return { out: printed.out, err: printed.err + told.join('') + err, code: EXIT.notWritten };
    }
    told.push(`wrote ${quote(file, 80).slice(1, -1)}, ${size(text)}\n`);
  }
  return { ...printed, err: printed.err + told.join('') };
}
