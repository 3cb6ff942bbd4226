// Cubes of rows: all rows that agree with one row in some inputs, which is where a product of literals is 1. A whole table
// need not be read to look at one; its words are walked by counting through the inputs that are free.

import { countBits, PATTERNS, type Table } from './table.ts';

/** The rows that agree with `row` in the inputs whose bits are set in `fixed`. */
export interface Cube {
  readonly row: number;
  readonly fixed: number;
}

/** Has the table a row of the cube? */
export function meetsCube(table: Table, cube: Cube): boolean {
  const { first, free, mask } = wordsOf(table, cube);
  for (let word = 0; ; word = (word - free) & free) {
    if ((table[first | word] & mask) !== 0) return true;
    if (word === free) return false;
  }
}

/** Number of rows of the cube in the table. */
export function countInCube(table: Table, cube: Cube): number {
  const { first, free, mask } = wordsOf(table, cube);
  let count = 0;
  for (let word = 0; ; word = (word - free) & free) {
    count += countBits(table[first | word] & mask);
    if (word === free) return count;
  }
}

/** Words of a table that a cube is spread over. */
export function wordsOfCube(table: Table, cube: Cube): number {
  return 2 ** countBits(wordsOf(table, cube).free);
}

/** Numbers of the words: `first` with any bits of `free`; in each the rows under `mask`. */
function wordsOf(table: Table, { row, fixed }: Cube): { first: number; free: number; mask: number } {
  const last = table.length - 1;
  let mask = 0xffffffff;
  for (const [i, pattern] of PATTERNS.entries()) {
    if (((fixed >> i) & 1) === 1) mask &= ((row >> i) & 1) === 1 ? pattern : ~pattern;
  }
  return { first: (row >> 5) & (fixed >> 5) & last, free: ~(fixed >> 5) & last, mask };
}
