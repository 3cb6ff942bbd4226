// Lines of at most 80 columns.

export const WIDTH = 80;

/**
 * Sets words one after the other, with a single space between, breaking where the next one would pass the last column.
 * A word that is longer than a line gets one of its own and is not broken.
 *
 * @param words never hold a line feed; a word may hold spaces, which then do not break.
 * @param first what stands before the first word; its length is the indent of all further lines.
 */
export function paragraph(words: readonly string[], first: string): string[] {
  const lines: string[] = [];
  let line = first;
  let isEmpty = true;
  for (const word of words) {
    if (!isEmpty && line.length + 1 + word.length > WIDTH) {
      lines.push(line);
      line = ' '.repeat(first.length);
      isEmpty = true;
    }
    line += isEmpty ? word : ` ${word}`;
    isEmpty = false;
  }
  lines.push(line.trimEnd());
  return lines;
}

/** The same for a text whose words stand apart by spaces. */
export function prose(text: string, first: string): string[] {
  return paragraph(text.split(' '), first);
}

/** `1 part`, `2 parts`. */
export function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}
