// How text that a stranger wrote is shown inside a message: control characters, characters without a picture and
// characters that turn the direction of writing are spelled out, so that no file can forge a message or move the
// cursor of a terminal.

/** Characters that must not reach a terminal as they are (line feed and tab included). */
const UNSAFE =
  // biome-ignore lint/suspicious/noMisleadingCharacterClass: no character here is meant together with another
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters to be found
  /[\u0000-\u001f\u007f-\u009f\u00ad\u034f\u061c\u115f\u1160\u17b4\u17b5\u180e\u200b-\u200f\u2028-\u202e\u2060-\u206f\u3164\ufeff\uffa0\ufff0-\ufffd]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/** `text` with every unsafe character, and an accent that has no letter before it, as `\u` and hexadecimal digits. */
export function visible(text: string): string {
  return text.replace(UNSAFE, spelled).replace(/^\p{M}/u, spelled);
}

function spelled(character: string): string {
  const digits = character.codePointAt(0)!.toString(16);
  return digits.length > 4 ? `\\u{${digits}}` : `\\u${digits.padStart(4, '0')}`;
}

/** `text` in double quotes, made visible, and shortened in the middle when it is longer than `limit` characters. */
export function quote(text: string, limit = 40): string {
  if (text.length <= limit) return `"${visible(text)}"`;
  const head = text.slice(0, limit - 10).replace(/[\ud800-\udbff]$/, '');
  const tail = text.slice(-7).replace(/^[\udc00-\udfff]/, '');
  return `"${visible(head)}...${visible(tail)}"`;
}
