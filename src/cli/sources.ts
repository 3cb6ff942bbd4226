// From the words of the command line to texts: equation arguments together are one source, each file is one.

import { visible } from '../../grammar/quote.ts';
import { nearestName } from '../equations/nearest-name.ts';
import type { Diagnostic } from '../source/diagnostic.ts';
import { SHIPPED_TARGETS } from '../target/shipped-targets.ts';
import { COMMANDS } from './commands.ts';
import { type Host, LARGEST_INPUT, type ReadFault, type ReadOutcome } from './host.ts';

/** A source that could be read, or why it could not. */
export type Source =
  | { readonly name: string; readonly text: string }
  | { readonly name: string; readonly fault: Diagnostic };

export const ARGUMENTS = 'arguments';
export const STANDARD_INPUT = 'standard input';

const BYTE_ORDER_MARKS_OF_UTF16 = ['fffe', 'feff'];

/** Words that begin a statement without an equals sign: somebody who types one did not mean a file. */
const STATEMENT = /^\s*(?:input|output|never|for|free|letters)\b/i;

function fault(code: string, message: string, hint: string | null): Diagnostic {
  return { severity: 'error', code, message, at: null, hint };
}

function missingHint(name: string): string {
  const command = /^[a-z]+$/i.test(name)
    ? nearestName(
        name,
        COMMANDS.map((row) => row.name),
      )
    : null;
  if (command !== null) return `if you meant the command, it is ${command}`;
  if (name === 'help') return 'tickwright --help says what there is';
  if (name.endsWith('.json'))
    return `targets without a file are ${SHIPPED_TARGETS.map((target) => target.name).join(', ')}`;
  if (STATEMENT.test(name)) return 'put it into one argument with an equation, parted by ;';
  return 'an argument that holds = is equations, any other is a file';
}

function readFault({ kind, ...rest }: ReadFault, name: string): Diagnostic {
  if (kind === 'missing') {
    return fault('file-missing', 'there is no such file', missingHint(name));
  }
  if (kind === 'folder') return fault('file-is-folder', 'this is a folder, not a file', 'name a file in it');
  if (kind === 'too-large') {
    const most = `${LARGEST_INPUT / (1024 * 1024)} MB`;
    return fault(
      'file-too-large',
      `this is more than ${most}`,
      'equations are much smaller; is it the right file?',
    );
  }
  const reason = 'reason' in rest ? rest.reason : '';
  return fault('file-unreadable', `this cannot be read: ${visible(reason)}`, null);
}

/** Bytes before the first character that is not UTF-8. */
function validLength(bytes: Uint8Array): number {
  // In a stream an unfinished character at the end is no fault, and is not given out yet.
  const partly = (length: number): string | null => {
    try {
      const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
      return decoder.decode(bytes.subarray(0, length), { stream: true });
    } catch {
      return null;
    }
  };
  let [low, high] = [0, bytes.length];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (partly(middle) === null) high = middle - 1;
    else low = middle;
  }
  return new TextEncoder().encode(partly(low) ?? '').length;
}

function notUtf8(bytes: Uint8Array): Diagnostic {
  const start = Buffer.from(bytes.subarray(0, 2)).toString('hex');
  const hint = BYTE_ORDER_MARKS_OF_UTF16.includes(start)
    ? 'it is UTF-16; save it as UTF-8'
    : 'save it as UTF-8, or is it the right file?';
  return fault(
    'not-utf-8',
    `this is not UTF-8 text: byte ${validLength(bytes) + 1} cannot stand there`,
    hint,
  );
}

function decoded(name: string, outcome: ReadOutcome): Source {
  if ('fault' in outcome) return { name, fault: readFault(outcome.fault, name) };
  try {
    // A byte order mark stays in the text: the reader of equations knows it, and offsets stay those of the file.
    return { name, text: new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(outcome.bytes) };
  } catch {
    return { name, fault: notUtf8(outcome.bytes) };
  }
}

/** The text of one file. */
export function readSource(name: string, host: Host): Source {
  return decoded(name, host.readFile(name));
}

/**
 * All sources that the inputs name, in their order; the equation arguments stand where the first of them does, one to a
 * line.
 */
export async function readSources(inputs: readonly string[], host: Host): Promise<Source[]> {
  const equations = inputs.filter((input) => input.includes('='));
  const sources: Source[] = [];
  for (const input of inputs) {
    if (input.includes('=')) {
      if (input === equations[0]) sources.push({ name: ARGUMENTS, text: equations.join('\n') });
    } else if (input === '-') sources.push(decoded(STANDARD_INPUT, await host.readInput()));
    else sources.push(readSource(input, host));
  }
  return sources;
}
