// The loops in WebAssembly do on tables of every size what the same loops in TypeScript do, word by word.

import { describe, expect, test } from 'vitest';
import { constantTable, countRows, type Table, wordsFor } from '../../src/truth/table.ts';
import { WordLoops } from '../../src/truth/word-loops.ts';
import { seededRandom } from '../support/seeded-random.ts';

describe.each([0, 3, 5, 6, 7, 8, 10, 12])('tables of %i inputs', (inputs) => {
  const loops = new WordLoops();
  const random = seededRandom(inputs + 1);
  const words = wordsFor(inputs);
  const bytes = loops.bytesOf(words);
  const ones = constantTable(inputs, 1);
  const mask = loops.maskOf(inputs);

  /** A table in the memory of the loops, sometimes without rows, and what it is. */
  function some(density = random()): { at: number; table: Table } {
    const table = constantTable(inputs, 0);
    for (let row = 0; row < 2 ** inputs; row++)
      if (random() < density) table[row >> 5] = (table[row >> 5] | (1 << (row & 31))) >>> 0;
    const at = loops.take(bytes);
    loops.words.set(table, at >> 2);
    return { at, table };
  }

  /** What stands at an address, with what is behind a short table. */
  function at(address: number): number[] {
    return [...loops.words.slice(address >> 2, (address + bytes) >> 2)];
  }

  function padded(table: Table): number[] {
    return [...table, ...new Array(bytes / 4 - words).fill(0)];
  }

  function map(count: (k: number) => number): Table {
    return Uint32Array.from({ length: words }, (_, k) => count(k));
  }

  function listOf(addresses: readonly number[]): number {
    const list = loops.take(4 * addresses.length);
    loops.words.set(addresses, list >> 2);
    return list;
  }

  /** Some tables, none to six, their list and their join. */
  function several() {
    const tables = Array.from({ length: Math.floor(7 * random()) }, () => some(0.3 * random()));
    const list = listOf(tables.map((each) => each.at));
    const join = map((k) => tables.reduce((level, { table }) => level | table[k], 0));
    return { tables, list, count: tables.length, join };
  }

  function repeat(check: () => void): void {
    for (let n = 0; n < 40; n++) {
      const before = loops.mark();
      check();
      loops.release(before);
    }
  }

  test('nor3 and norOf', () => {
    repeat(() => {
      const [a, b, c, old] = [some(), some(0.2), some(0), some()];
      const level = map((k) => ones[k] & ~(a.table[k] | b.table[k] | c.table[k]));
      const to = loops.take(bytes);
      const differs = level.some((word, k) => word !== old.table[k]) ? 1 : 0;
      expect(loops.run.nor3(a.at, b.at, c.at, old.at, to, bytes, mask)).toBe(differs);
      expect(at(to)).toEqual(padded(level));
      expect(loops.run.nor3(a.at, b.at, c.at, to, to, bytes, mask)).toBe(0);
      const { list, count, join } = several();
      const other = map((k) => ones[k] & ~join[k]);
      const changes = other.some((word, k) => word !== level[k]) ? 1 : 0;
      expect(loops.run.norOf(list, count, to, to, bytes, mask)).toBe(changes);
      expect(at(to)).toEqual(padded(other));
    });
  });

  test('addWrong', () => {
    repeat(() => {
      const { list, count, join } = several();
      const [on, off, into] = [some(0.1), some(0.1), some(random() < 0.5 ? 0 : 0.1)];
      const wrong = map((k) => into.table[k] | (on.table[k] & ~join[k]) | (off.table[k] & join[k]));
      expect(loops.run.addWrong(list, count, on.at, off.at, into.at, bytes)).toBe(
        countRows(wrong) > 0 ? 1 : 0,
      );
      expect(at(into.at)).toEqual(padded(wrong));
    });
  });

  test('split and meets', () => {
    repeat(() => {
      const [rows, level] = [some(0.1), some(0.1)];
      const [high, low] = [loops.take(bytes), loops.take(bytes)];
      loops.run.split(rows.at, level.at, high, low, bytes);
      const common = map((k) => rows.table[k] & level.table[k]);
      expect(at(high)).toEqual(padded(common));
      expect(at(low)).toEqual(padded(map((k) => rows.table[k] & ~level.table[k])));
      expect(loops.run.meets(rows.at, level.at, bytes)).toBe(countRows(common) > 0 ? 1 : 0);
    });
  });

  test('keep and countCommon', () => {
    repeat(() => {
      const table = some(0.2);
      const { tables, list, count } = several();
      const common = tables.map((each) => countRows(map((k) => each.table[k] & table.table[k])));
      const to = loops.take(4 * count);
      loops.run.countCommon(list, count, table.at, to, bytes);
      expect([...loops.words.slice(to >> 2, (to >> 2) + count)]).toEqual(common);
      const meeting = random() < 0.5 ? 1 : 0;
      const kept = tables.filter((_, n) => common[n] > 0 === (meeting === 1)).map((each) => each.at);
      expect(loops.run.keep(list, count, table.at, meeting, bytes)).toBe(kept.length);
      expect([...loops.words.slice(list >> 2, (list >> 2) + kept.length)]).toEqual(kept);
    });
  });

  test('leave and isCovered', () => {
    repeat(() => {
      const from = some(0.1);
      const { list, count, join } = several();
      const left = map((k) => from.table[k] & ~join[k]);
      const isLeft = countRows(left) > 0;
      expect(loops.run.isCovered(list, count, from.at, bytes)).toBe(isLeft ? 0 : 1);
      const to = loops.take(bytes);
      expect(loops.run.leave(list, count, from.at, to, bytes)).toBe(isLeft ? 1 : 0);
      expect(at(to)).toEqual(padded(left));
    });
  });
});

test('a table that is cleared is 0, and its neighbours stay', () => {
  const loops = new WordLoops();
  const at = loops.take(96);
  loops.words.fill(7, at >> 2, (at + 96) >> 2);
  loops.clear(at + 32, 32);
  expect([...loops.words.slice(at >> 2, (at + 96) >> 2)]).toEqual([
    ...new Array(8).fill(7),
    ...new Array(8).fill(0),
    ...new Array(8).fill(7),
  ]);
});

test('memory that is taken is 0, also where something stood before, and grows as needed', () => {
  const loops = new WordLoops();
  const mark = loops.mark();
  const first = loops.take(1e6);
  loops.words.fill(7, first >> 2, (first >> 2) + 250_000);
  loops.release(mark);
  const again = loops.take(5e6);
  expect(again).toBe(first);
  expect(loops.words.subarray(again >> 2, (again >> 2) + 1_250_000).every((word) => word === 0)).toBe(true);
  const next = loops.take(1);
  expect(next).toBe(again + 5e6);
  expect(loops.take(1)).toBe(next + 16);
});
