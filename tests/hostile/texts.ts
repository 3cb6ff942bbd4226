// Texts that nobody would write: valid ones with something broken in them, pieces of the language in any order, any
// characters at all, and a few things repeated far too often. All of them shrink.

import fc from 'fast-check';
import type { Reader } from './readers.ts';

/** One change of a text; places are parts of its length, so that they mean something after another change. */
interface Change {
  readonly kind: 'drop' | 'double' | 'put' | 'move' | 'repeat';
  readonly from: number;
  readonly length: number;
  readonly piece: string;
  readonly times: number;
}

function changed(text: string, { kind, from, length, piece, times }: Change): string {
  const start = Math.floor(from * text.length);
  const end = Math.min(text.length, start + length);
  const part = text.slice(start, end);
  switch (kind) {
    case 'drop':
      return text.slice(0, start) + text.slice(end);
    case 'double':
      return text.slice(0, end) + text.slice(start);
    case 'put':
      return text.slice(0, start) + piece + text.slice(end);
    case 'move':
      return part + text.slice(0, start) + text.slice(end);
    default:
      return text.slice(0, start) + (part || piece).repeat(times) + text.slice(end);
  }
}

/** Bytes that may not be UTF-8, read as a program that minds nothing would. */
const bytes = fc
  .uint8Array({ maxLength: 200 })
  .map((given) => new TextDecoder('utf-8', { fatal: false, ignoreBOM: true }).decode(given));

/** Characters beside those of a keyboard, halves of characters among them. */
const odd = fc.constantFrom(
  '\u0000',
  '\ufeff',
  '\u202e',
  '\ud800',
  '\udc00',
  '\u0301',
  '\u00a0',
  '\r',
  '\t',
  '\u2028',
  '😀',
);

export function hostileTexts({ valid, pieces }: Reader): fc.Arbitrary<string> {
  const piece = fc.oneof({ weight: 6, arbitrary: fc.constantFrom(...pieces) }, { weight: 1, arbitrary: odd });
  const change: fc.Arbitrary<Change> = fc.record({
    kind: fc.constantFrom('drop', 'double', 'put', 'move', 'repeat'),
    from: fc.double({ min: 0, max: 1, noNaN: true }),
    length: fc.nat(12),
    piece,
    times: fc.oneof({ weight: 8, arbitrary: fc.nat(4) }, { weight: 1, arbitrary: fc.constantFrom(50, 400) }),
  });
  const mutated = fc
    .tuple(fc.constantFrom(...valid), fc.array(change, { minLength: 1, maxLength: 6 }))
    .map(([text, changes]) => changes.reduce(changed, text));
  const soup = fc.array(piece, { maxLength: 40 }).map((all) => all.join(''));
  const spaced = fc.array(piece, { maxLength: 40 }).map((all) => all.join(' '));
  const deep = fc
    .tuple(piece, piece, fc.nat(600), fc.nat(600))
    .map(([open, close, n, m]) => `y = ${open.repeat(n)}a${close.repeat(m)}`);
  return fc.oneof(
    { weight: 5, arbitrary: mutated },
    { weight: 2, arbitrary: soup },
    { weight: 2, arbitrary: spaced },
    { weight: 1, arbitrary: deep },
    { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 200 }) },
    { weight: 1, arbitrary: bytes },
  );
}
