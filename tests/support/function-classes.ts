// Functions of a few inputs as numbers (bit `m` is the value on row `m`), and their classes under renaming of inputs,
// counted the plain way: move every row of every function.

export interface FunctionClass {
  /** The smallest function of the class. */
  readonly first: number;
  /** Number of functions in it. */
  readonly size: number;
}

/** All classes of functions of `inputs` inputs (at most 4) under renaming of inputs, by their smallest function. */
export function functionClasses(inputs: number): FunctionClass[] {
  const rows = 2 ** inputs;
  const seen = new Uint8Array(2 ** rows);
  const moves = movesOf(inputs);
  const classes: FunctionClass[] = [];
  for (let f = 0; f < seen.length; f++) {
    if (seen[f] === 1) continue;
    const members = new Set(moves.map((to) => moveFunction(f, to)));
    for (const member of members) seen[member] = 1;
    classes.push({ first: f, size: members.size });
  }
  return classes;
}

/** The smallest function that becomes `f` when inputs are renamed. */
export function firstOfClass(f: number, inputs: number): number {
  return Math.min(...movesOf(inputs).map((to) => moveFunction(f, to)));
}

/** Does the function change with every one of its inputs? */
export function dependsOnAll(f: number, inputs: number): boolean {
  for (let i = 0; i < inputs; i++) {
    let depends = false;
    for (let row = 0; row < 2 ** inputs; row++) {
      if (((f >>> row) & 1) !== ((f >>> (row ^ (1 << i))) & 1)) depends = true;
    }
    if (!depends) return false;
  }
  return true;
}

/** Most falls from 1 to 0 along any chain of rows that starts at all 0 and raises one input after the other. */
export function mostFalls(f: number, inputs: number): number {
  const most: number[] = [];
  for (let row = 0; row < 2 ** inputs; row++) {
    most[row] = 0;
    for (let i = 0; i < inputs; i++) {
      const below = row & ~(1 << i);
      if (below === row) continue;
      const falls = ((f >>> below) & 1) === 1 && ((f >>> row) & 1) === 0 ? 1 : 0;
      most[row] = Math.max(most[row], most[below] + falls);
    }
  }
  return most[2 ** inputs - 1];
}

/** For every order of the inputs, where each row goes. */
function movesOf(inputs: number): number[][] {
  return orders(inputs).map((order) => Array.from({ length: 2 ** inputs }, (_, row) => moveRow(row, order)));
}

function orders(count: number): number[][] {
  if (count === 0) return [[]];
  return orders(count - 1).flatMap((order) =>
    Array.from({ length: count }, (_, at) => [...order.slice(0, at), count - 1, ...order.slice(at)]),
  );
}

function moveRow(row: number, order: readonly number[]): number {
  return order.reduce((moved, to, i) => moved | (((row >> i) & 1) << to), 0);
}

function moveFunction(f: number, to: readonly number[]): number {
  let moved = 0;
  for (let row = 0; row < to.length; row++) if (((f >>> row) & 1) === 1) moved |= 1 << to[row];
  return moved >>> 0;
}
