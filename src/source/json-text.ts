// A strict reader of JSON (RFC 8259) that remembers where every value stands. The reader built into JavaScript tells a
// position only sometimes, in words that differ from engine to engine, keeps silent about a name given twice, and
// forgets all places as soon as the text is valid; a fault in a value could then not be shown in its line.
//
// It stops at the first fault: the texts are short, and what follows a broken bracket is guesswork. Nesting is limited,
// so recursion is safe.

import { quote } from '../../grammar/quote.ts';
import type { Diagnostic, Reading, Span } from './diagnostic.ts';

export type JsonValue = null | boolean | number | string | JsonValue[] | { [name: string]: JsonValue };

export interface PlacedJson {
  readonly value: JsonValue;
  /** Place of the value behind each JSON pointer (RFC 6901); the empty pointer is the whole. */
  readonly places: ReadonlyMap<string, Span>;
  /** Place of the name before each value that is a member of an object, by the same pointers. */
  readonly namePlaces: ReadonlyMap<string, Span>;
}

const DEEPEST = 32;
const NUMBER = /-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?/y;
const WORD = /[A-Za-z_][A-Za-z0-9_]*/y;
const SPACE = /[ \t\r\n]*/y;
const WORDS: ReadonlyMap<string, JsonValue> = new Map<string, JsonValue>([
  ['true', true],
  ['false', false],
  ['null', null],
]);
const ESCAPES: Readonly<Record<string, string>> = {
  '"': '"',
  '\\': '\\',
  '/': '/',
  b: '\b',
  f: '\f',
  n: '\n',
  r: '\r',
  t: '\t',
};

/** One step of a JSON pointer. */
export function pointerStep(name: string | number): string {
  return `/${String(name).replaceAll('~', '~0').replaceAll('/', '~1')}`;
}

/** Leaves the reader at the first fault; never leaves this file. */
class JsonFault extends Error {
  readonly diagnostic: Diagnostic;

  constructor(at: Span, message: string, hint: string | null) {
    super(message);
    this.diagnostic = { severity: 'error', code: 'json-syntax', message, at, hint };
  }
}

/** What stands in the way, in words. */
function foundWords(found: string): string {
  if (found === '') return 'the text ends';
  if (/[\r\n]/.test(found)) return 'the line ends';
  return found === '"' ? 'a double quote stands' : `${quote(found)} stands`;
}

class JsonReader {
  readonly places = new Map<string, Span>();
  readonly namePlaces = new Map<string, Span>();
  private readonly text: string;
  private at = 0;

  constructor(text: string) {
    this.text = text;
    if (text.startsWith('\uFEFF')) this.at = 1;
  }

  whole(): JsonValue {
    const value = this.value('', 0);
    if (this.at < this.text.length) {
      const at = { start: this.at, end: this.at + 1 };
      throw new JsonFault(at, 'this is not JSON: the value has ended, but more text follows', null);
    }
    return value;
  }

  private value(pointer: string, depth: number): JsonValue {
    this.skipSpace();
    if (depth > DEEPEST) this.fail('a value that is nested less deeply');
    const start = this.at;
    const value = this.bareValue(pointer, depth);
    this.places.set(pointer, { start, end: this.at });
    this.skipSpace();
    return value;
  }

  private bareValue(pointer: string, depth: number): JsonValue {
    const first = this.text[this.at];
    if (first === '{') return this.object(pointer, depth);
    if (first === '[') return this.list(pointer, depth);
    if (first === '"') return this.string();
    const word = this.match(WORD);
    if (word !== null) {
      const value = WORDS.get(word);
      if (value !== undefined) return value;
      this.at -= word.length;
      this.fail('a value', word.length, 'put a text in double quotes');
    }
    const digits = this.match(NUMBER);
    if (digits === null) this.fail('a value');
    return Number(digits);
  }

  private object(pointer: string, depth: number): JsonValue {
    const members = new Map<string, JsonValue>();
    this.at++;
    this.skipSpace();
    while (this.text[this.at] !== '}') {
      if (members.size > 0) this.expect(',', 'a comma or }');
      const start = this.at;
      if (this.text[this.at] !== '"') this.fail('a name in double quotes');
      const name = this.string();
      const at = { start, end: this.at };
      if (members.has(name)) throw new JsonFault(at, `the name ${quote(name)} stands here twice`, null);
      const inner = pointer + pointerStep(name);
      this.namePlaces.set(inner, at);
      this.skipSpace();
      this.expect(':', 'a colon');
      members.set(name, this.value(inner, depth + 1));
    }
    this.at++;
    // Not an object literal: a member may be called __proto__.
    return Object.fromEntries(members);
  }

  private list(pointer: string, depth: number): JsonValue {
    const items: JsonValue[] = [];
    this.at++;
    this.skipSpace();
    while (this.text[this.at] !== ']') {
      if (items.length > 0) this.expect(',', 'a comma or ]');
      items.push(this.value(pointer + pointerStep(items.length), depth + 1));
    }
    this.at++;
    return items;
  }

  private string(): string {
    let value = '';
    this.at++;
    for (;;) {
      const char = this.text[this.at];
      if (char === undefined || char < ' ') this.fail('the closing double quote of this text');
      this.at++;
      if (char === '"') return value;
      value += char === '\\' ? this.escape() : char;
    }
  }

  private escape(): string {
    const char = this.text[this.at];
    const hex = this.text.slice(this.at + 1, this.at + 5);
    if (char === 'u' && /^[0-9A-Fa-f]{4}$/.test(hex)) {
      this.at += 5;
      return String.fromCharCode(Number.parseInt(hex, 16));
    }
    const plain = char === undefined ? undefined : ESCAPES[char];
    if (plain === undefined) this.fail('one of " \\ / b f n r t or u0000');
    this.at++;
    return plain;
  }

  private match(pattern: RegExp): string | null {
    pattern.lastIndex = this.at;
    const found = pattern.exec(this.text);
    if (found === null) return null;
    this.at += found[0].length;
    return found[0];
  }

  private skipSpace(): void {
    this.match(SPACE);
  }

  private expect(char: string, what: string): void {
    if (this.text[this.at] !== char) this.fail(what);
    this.at++;
    this.skipSpace();
  }

  private fail(expected: string, length = 1, hint: string | null = null): never {
    const found = this.text.slice(this.at, this.at + length);
    const what = foundWords(found);
    const at = { start: this.at, end: this.at + found.length };
    throw new JsonFault(at, `this is not JSON: ${what} where ${expected} should be`, hint);
  }
}

/**
 * Reads a JSON text.
 *
 * @returns the value with the places of its parts, or one diagnostic `json-syntax`.
 */
export function readJson(text: string): Reading<PlacedJson> {
  const reader = new JsonReader(text);
  try {
    const value = reader.whole();
    return { value: { value, places: reader.places, namePlaces: reader.namePlaces }, diagnostics: [] };
  } catch (fault) {
    if (!(fault instanceof JsonFault)) throw fault;
    return { value: null, diagnostics: [fault.diagnostic] };
  }
}
