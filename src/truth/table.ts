// Truth tables, bit-parallel: row `m` is bit `m & 31` of word `m >> 5`, and bit `i` of the row number is the value of
// input `i`. A table of n inputs has 2^n rows; below five inputs the unused high bits of the single word stay 0, which
// is an invariant of every function here. Exact up to MAX_INPUTS inputs (2^20 rows, 128 KiB a table).

export type Table = Uint32Array<ArrayBuffer>;

/** Most inputs for which whole tables are kept. */
export const MAX_INPUTS = 20;

/** Input `i` in the rows of one word. */
export const PATTERNS: readonly number[] = [0xaaaaaaaa, 0xcccccccc, 0xf0f0f0f0, 0xff00ff00, 0xffff0000];

/** Words of a table of `inputs` inputs. */
export function wordsFor(inputs: number): number {
  return inputs <= 5 ? 1 : 1 << (inputs - 5);
}

/** The bits of the last word that are rows. */
export function lastMask(inputs: number): number {
  return inputs >= 5 ? 0xffffffff : ((1 << (1 << inputs)) - 1) >>> 0;
}

export function constantTable(inputs: number, value: 0 | 1): Table {
  const table = new Uint32Array(wordsFor(inputs));
  if (value === 1) table.fill(0xffffffff);
  if (value === 1 && inputs < 5) table[0] = lastMask(inputs);
  return table;
}

/** The table of input `index` among `inputs`. */
export function inputTable(inputs: number, index: number): Table {
  const table = new Uint32Array(wordsFor(inputs));
  if (index < 5) table.fill((PATTERNS[index] & lastMask(inputs)) >>> 0);
  else for (let w = 0; w < table.length; w++) if (((w >> (index - 5)) & 1) === 1) table[w] = 0xffffffff;
  return table;
}

export function not(a: Table, inputs: number): Table {
  const table = new Uint32Array(a.length);
  for (let w = 0; w < a.length; w++) table[w] = ~a[w];
  if (inputs < 5) table[0] &= lastMask(inputs);
  return table;
}

export function and(a: Table, b: Table): Table {
  const table = new Uint32Array(a.length);
  for (let w = 0; w < a.length; w++) table[w] = a[w] & b[w];
  return table;
}

export function or(a: Table, b: Table): Table {
  const table = new Uint32Array(a.length);
  for (let w = 0; w < a.length; w++) table[w] = a[w] | b[w];
  return table;
}

export function xor(a: Table, b: Table): Table {
  const table = new Uint32Array(a.length);
  for (let w = 0; w < a.length; w++) table[w] = a[w] ^ b[w];
  return table;
}

/** a AND NOT b. */
export function without(a: Table, b: Table): Table {
  const table = new Uint32Array(a.length);
  for (let w = 0; w < a.length; w++) table[w] = a[w] & ~b[w];
  return table;
}

/** The rows that are in none of the tables. */
export function nor(tables: readonly Table[], inputs: number): Table {
  const table = constantTable(inputs, 1);
  // Three at a time: most joins have no more legs, and every pass writes the whole table.
  for (let n = 0; n < tables.length; n += 3) {
    const a = tables[n];
    const b = tables[n + 1] ?? a;
    const c = tables[n + 2] ?? a;
    for (let w = 0; w < table.length; w++) table[w] &= ~(a[w] | b[w] | c[w]);
  }
  return table;
}

export function orInto(target: Table, b: Table): void {
  for (let w = 0; w < target.length; w++) target[w] |= b[w];
}

export function andInto(target: Table, b: Table): void {
  for (let w = 0; w < target.length; w++) target[w] &= b[w];
}

export function withoutInto(target: Table, b: Table): void {
  for (let w = 0; w < target.length; w++) target[w] &= ~b[w];
}

export function isEmpty(a: Table): boolean {
  for (let w = 0; w < a.length; w++) if (a[w] !== 0) return false;
  return true;
}

export function equal(a: Table, b: Table): boolean {
  for (let w = 0; w < a.length; w++) if (a[w] !== b[w]) return false;
  return true;
}

export function intersects(a: Table, b: Table): boolean {
  for (let w = 0; w < a.length; w++) if ((a[w] & b[w]) !== 0) return true;
  return false;
}

/** Is every row of `a` a row of `b`? */
export function isInside(a: Table, b: Table): boolean {
  for (let w = 0; w < a.length; w++) if ((a[w] & ~b[w]) !== 0) return false;
  return true;
}

export function hasRow(a: Table, row: number): boolean {
  return ((a[row >> 5] >>> (row & 31)) & 1) === 1;
}

export function setRow(a: Table, row: number): void {
  a[row >> 5] |= 1 << (row & 31);
}

/** The first row of the table at or after `from`, or -1. */
export function firstRow(a: Table, from = 0): number {
  let w = from >> 5;
  if (w >= a.length) return -1;
  let bits = a[w] & (-1 << (from & 31));
  while (bits === 0) {
    if (++w >= a.length) return -1;
    bits = a[w];
  }
  return (w << 5) + 31 - Math.clz32(bits & -bits);
}

/** The row of the table before which there are `n` others; -1 when there are no more than `n`. */
export function nthRow(a: Table, n: number): number {
  let left = n;
  for (let w = 0; w < a.length; w++) {
    let bits = a[w];
    const here = countBits(bits);
    if (left >= here) {
      left -= here;
      continue;
    }
    for (; left > 0; left--) bits &= bits - 1;
    return (w << 5) + 31 - Math.clz32(bits & -bits);
  }
  return -1;
}

/** The last row of the table, or -1. */
export function lastRow(a: Table): number {
  for (let w = a.length - 1; w >= 0; w--) if (a[w] !== 0) return (w << 5) + 31 - Math.clz32(a[w]);
  return -1;
}

/** Number of rows in the table. */
export function countRows(a: Table): number {
  let count = 0;
  for (let w = 0; w < a.length; w++) count += countBits(a[w]);
  return count;
}

/** Number of ones in a word. */
export function countBits(word: number): number {
  let bits = word - ((word >>> 1) & 0x55555555);
  bits = (bits & 0x33333333) + ((bits >>> 2) & 0x33333333);
  return Math.imul((bits + (bits >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
}

/** The table in which input `index` is exchanged: row m of the result is row m with that bit flipped. */
export function flipInput(a: Table, index: number): Table {
  const table = new Uint32Array(a.length);
  if (index < 5) {
    const shift = 1 << index;
    const high = PATTERNS[index];
    for (let w = 0; w < a.length; w++) table[w] = ((a[w] & high) >>> shift) | ((a[w] & ~high) << shift);
  } else {
    const stride = 1 << (index - 5);
    for (let w = 0; w < a.length; w++) table[w] = a[w ^ stride];
  }
  return table;
}

/** Does the function depend on input `index`? */
export function dependsOn(a: Table, index: number): boolean {
  return !equal(a, flipInput(a, index));
}

/** The inputs the function depends on, ascending. */
export function support(a: Table, inputs: number): number[] {
  const found: number[] = [];
  for (let i = 0; i < inputs; i++) if (dependsOn(a, i)) found.push(i);
  return found;
}
