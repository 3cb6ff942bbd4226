// Loops over truth tables in WebAssembly, which takes four words at a time: the search spends most of its time in such
// loops, and they are four to six times as fast there as in JavaScript. What they work on lies in their memory: callers
// take pieces of it, keep addresses, and give everything back that was taken since a mark.
//
// word-loops.wat is the source; `npm run loops` makes word-loops-module.ts from it.

import { lastMask, type Table } from './table.ts';
import { WORD_LOOPS } from './word-loops-module.ts';

/** What the module exports. Addresses and sizes are in bytes; `list` is the address of addresses, `count` of them. */
interface Exports {
  readonly memory: { readonly buffer: ArrayBuffer; grow(pages: number): number };
  /** Writes the complement of the join of three tables to `to`; does it differ from what is at `at`? */
  nor3(a: number, b: number, c: number, at: number, to: number, bytes: number, mask: number): number;
  /** The same for a list. */
  norOf(list: number, count: number, at: number, to: number, bytes: number, mask: number): number;
  /** Adds the rows of `on` where the join is 0 and those of `off` where it is 1 to `into`; has that any rows now? */
  addWrong(list: number, count: number, on: number, off: number, into: number, bytes: number): number;
  /** Writes the rows on which `level` is 1 to `ones`, and those on which it is 0 to `zeros`. */
  split(rows: number, level: number, ones: number, zeros: number, bytes: number): void;
  /** Have two tables a row in common? */
  meets(a: number, b: number, bytes: number): number;
  /** Of a list keeps the tables that meet `table` (1) or that do not (0); returns how many. */
  keep(list: number, count: number, table: number, meeting: 0 | 1, bytes: number): number;
  /** Writes for each of a list how many rows it has in common with `table`, a word each. */
  countCommon(list: number, count: number, table: number, to: number, bytes: number): void;
  /** Writes the rows of `from` that are in none of a list to `to`; are there any? */
  leave(list: number, count: number, from: number, to: number, bytes: number): number;
  /** Is every row of `table` in one of a list? */
  isCovered(list: number, count: number, table: number, bytes: number): number;
}

interface Host {
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Instance: new (module: object) => { readonly exports: unknown };
}

const PAGE = 65536;
/** Tables begin and end at a multiple of so many bytes. */
const VECTOR = 16;

export class WordLoops {
  readonly run: Exports;
  /** The memory as words; another array when the memory has grown, so nobody keeps it while pieces are taken. */
  words: Table;
  private top = VECTOR;

  constructor() {
    const { WebAssembly } = globalThis as unknown as { readonly WebAssembly: Host };
    this.run = new WebAssembly.Instance(new WebAssembly.Module(WORD_LOOPS)).exports as Exports;
    this.words = new Uint32Array(this.run.memory.buffer);
  }

  /** A piece of memory, all 0; its address. */
  take(bytes: number): number {
    const at = this.top;
    this.top = at + Math.ceil(bytes / VECTOR) * VECTOR;
    const missing = this.top - this.run.memory.buffer.byteLength;
    if (missing > 0) {
      this.run.memory.grow(Math.max(Math.ceil(missing / PAGE), this.run.memory.buffer.byteLength / PAGE));
      this.words = new Uint32Array(this.run.memory.buffer);
    }
    this.clear(at, this.top - at);
    return at;
  }

  /** Makes a table 0 on all rows. */
  clear(at: number, bytes: number): void {
    this.words.fill(0, at >> 2, (at + bytes) >> 2);
  }

  /** Where memory is taken next. */
  mark(): number {
    return this.top;
  }

  /** Gives back what was taken since a mark. */
  release(mark: number): void {
    this.top = mark;
  }

  /** Bytes that a table of so many words takes here. */
  bytesOf(words: number): number {
    return Math.ceil((4 * words) / VECTOR) * VECTOR;
  }

  /** The rows that a vector of a table over so many row bits has; its address. */
  maskOf(rowBits: number): number {
    const at = this.take(VECTOR);
    const words = Math.min(4, 2 ** Math.max(0, rowBits - 5));
    this.words.fill(lastMask(rowBits), at >> 2, (at >> 2) + words);
    return at;
  }
}

let loops: WordLoops | null = null;

/** The loops; there is one memory for all. */
export function wordLoops(): WordLoops {
  loops ??= new WordLoops();
  return loops;
}
