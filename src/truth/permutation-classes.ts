// Permutation classes: two functions are in one class when a renaming of inputs turns one into the other. Only that
// keeps the cost in this model (negating an input or the output costs inverters), so results of the exact search can
// be kept per class. The representative is the smallest table, read as a number; found by trying all permutations,
// which for up to four inputs is at most 24.
//
// Rows of a table of up to four inputs fit one 32-bit word, so tables are plain numbers here.

/** All permutations of `0 .. count - 1`, in lexicographic order. */
export function permutations(count: number): number[][] {
  if (count === 0) return [[]];
  const result: number[][] = [];
  for (const rest of permutations(count - 1)) {
    for (let at = 0; at < count; at++) result.push([...rest.slice(0, at), count - 1, ...rest.slice(at)]);
  }
  return result.sort(compare);
}

function compare(a: readonly number[], b: readonly number[]): number {
  const at = a.findIndex((x, i) => x !== b[i]);
  return at < 0 ? 0 : a[at] - b[at];
}

/** For each permutation, for each row of the new table, the row of the old one: new input `i` is old `permutation[i]`. */
export function rowMaps(inputs: number): { permutation: number[]; rows: Uint8Array }[] {
  return permutations(inputs).map((permutation) => {
    const rows = new Uint8Array(1 << inputs);
    for (let row = 0; row < rows.length; row++) {
      let old = 0;
      for (let i = 0; i < inputs; i++) if (((row >> i) & 1) === 1) old |= 1 << permutation[i];
      rows[row] = old;
    }
    return { permutation, rows };
  });
}

export interface Representative {
  /** Smallest table of the class. */
  readonly table: number;
  /** Input `i` of the representative is input `permutation[i]` of the function. */
  readonly permutation: readonly number[];
}

/** The representative of a function of up to four inputs; `maps` comes from `rowMaps` for the same number of inputs. */
export function representative(table: number, maps: ReturnType<typeof rowMaps>): Representative {
  let best = Number.POSITIVE_INFINITY;
  let bestPermutation: readonly number[] = [];
  for (const { permutation, rows } of maps) {
    let moved = 0;
    for (let row = 0; row < rows.length; row++) if (((table >>> rows[row]) & 1) === 1) moved |= 1 << row;
    moved >>>= 0;
    if (moved < best) {
      best = moved;
      bestPermutation = permutation;
    }
  }
  return { table: best, permutation: bestPermutation };
}

/** The representatives of all functions of `inputs` inputs (0 to 4), ascending. */
export function allRepresentatives(inputs: number): number[] {
  const maps = rowMaps(inputs);
  const found: number[] = [];
  const count = 2 ** (1 << inputs);
  const seen = new Uint8Array(count);
  for (let table = 0; table < count; table++) {
    if (seen[table] === 1) continue;
    found.push(table);
    for (const { rows } of maps) {
      let moved = 0;
      for (let row = 0; row < rows.length; row++) if (((table >>> rows[row]) & 1) === 1) moved |= 1 << row;
      seen[moved >>> 0] = 1;
    }
  }
  return found;
}
