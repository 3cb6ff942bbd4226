// Text inside pictures: escaping for XML, and how much room a text takes. Names are set in a monospaced face, so that
// their width is known without a browser.

import { visible } from '../../grammar/quote.ts';

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** `text` for the content of an element or a quoted attribute of XML and HTML; unsafe characters are spelled out. */
export function escaped(text: string): string {
  return visible(text).replace(/[&<>"']/g, (character) => ENTITIES[character] ?? '');
}

/** Columns that a character takes: two for those that East Asian type sets wide. */
function columns(character: string): number {
  const wide =
    /[\u1100-\u115f\u2e80-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6\u{1f300}-\u{1faff}\u{20000}-\u{3fffd}]/u;
  return wide.test(character) ? 2 : /\p{M}/u.test(character) ? 0 : 1;
}

/** Columns of a monospaced face that a text takes. */
export function columnsOf(text: string): number {
  let sum = 0;
  for (const character of visible(text)) sum += columns(character);
  return sum;
}

/** The text, shortened in the middle to at most so many columns. */
export function shortened(text: string, most: number): string {
  const shown = [...visible(text)];
  if (columnsOf(text) <= most) return shown.join('');
  const tail = Math.floor((most - 1) / 3);
  let head = '';
  for (const character of shown) {
    if (columnsOf(head + character) > most - 1 - tail) break;
    head += character;
  }
  let end = '';
  for (const character of shown.reverse()) {
    if (columnsOf(character + end) > tail) break;
    end = character + end;
  }
  return `${head}\u2026${end}`;
}

/** Width of a monospaced text of this size in pixels, a little more than the widest of the usual faces needs. */
export function widthOf(text: string, size: number): number {
  return Math.ceil(columnsOf(text) * size * 0.615);
}
