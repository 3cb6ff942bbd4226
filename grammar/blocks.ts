// Blocks of a text: `built name { ... }` states wires as they stand, `block name { ... }` holds equations that are laid
// apart from the others. Blocks are cut out before anything else is read, by their braces alone: what is left, and the
// inside of each block, are texts of the same length in which everything else is blank, so places stay what they are
// and the equation language need not know of blocks.

import type { Place, SyntaxFault } from './syntax.ts';
import { fault } from './wording.ts';

export type BlockKind = 'built' | 'block';

export interface TextBlock {
  readonly kind: BlockKind;
  /** Empty when none is given. */
  readonly name: string;
  /** The name, or the word in front when there is none. */
  readonly nameAt: Place;
  /** From the word to the closing brace. */
  readonly extent: Place;
  /** The whole text with all but the inside of this block blank. */
  readonly inside: string;
}

export interface CutText {
  /** The text with all blocks blank. */
  readonly rest: string;
  readonly blocks: readonly TextBlock[];
  readonly faults: readonly SyntaxFault[];
}

const HEAD = /(?<=^|[\n\r;}])[^\S\n\r]*\b(built|block)\b(?:\s+([A-Za-z_][A-Za-z0-9_]*))?\s*\{/gi;
const COMMENT = /(?:#|\/\/)[^\n\r\u0085\u2028\u2029]*/g;

/** Cuts `text`; a block whose brace is never closed goes to the end of the text. */
export function cutBlocks(text: string): CutText {
  if (!/\b(?:built|block)\b/i.test(text)) return { rest: text, blocks: [], faults: [] };
  const bare = text.replace(COMMENT, blank);
  const blocks: TextBlock[] = [];
  const faults: SyntaxFault[] = [];
  let rest = '';
  let done = 0;
  HEAD.lastIndex = 0;
  for (let head = HEAD.exec(bare); head !== null; head = HEAD.exec(bare)) {
    const [whole, word, name = ''] = head;
    const start = head.index + whole.length - whole.trimStart().length;
    const open = head.index + whole.length;
    const nameStart = name === '' ? start : bare.indexOf(name, start + word.length);
    const nameAt = { start: nameStart, end: nameStart + (name === '' ? word.length : name.length) };
    const close = closingBrace(bare, open);
    if (close === null) {
      faults.push(
        fault('missing-bracket', nameAt, 'this block is never closed', 'write "}" behind its last line'),
      );
    }
    const end = close ?? text.length;
    blocks.push({
      kind: word.toLowerCase() === 'built' ? 'built' : 'block',
      name,
      nameAt,
      extent: { start, end: close === null ? end : end + 1 },
      inside: blank(text.slice(0, open)) + text.slice(open, end) + blank(text.slice(end)),
    });
    rest += text.slice(done, start) + blank(text.slice(start, close === null ? end : end + 1));
    done = close === null ? end : end + 1;
    HEAD.lastIndex = done;
  }
  return { rest: rest + text.slice(done), blocks, faults };
}

/** Whether nothing but blanks and comments is left. */
export function isBlank(text: string): boolean {
  return text.replace(COMMENT, '').trim() === '';
}

function blank(text: string): string {
  return text.replace(/[^\n\r\u0085\u2028\u2029]/g, ' ');
}

/** Where the brace is closed that was opened before `from`. */
function closingBrace(bare: string, from: number): number | null {
  let depth = 1;
  for (let at = from; at < bare.length; at++) {
    if (bare[at] === '{') depth++;
    else if (bare[at] === '}' && --depth === 0) return at;
  }
  return null;
}
