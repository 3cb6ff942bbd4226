// Permutation classes: two functions are in one class when a renaming of inputs turns one into the other. Only that
// keeps the cost in this model (negating an input or the output costs inverters), so results of the exact search can be
// kept per class. The representative is the smallest table of the class, read as a number.
//
// Tables of four inputs are 16-bit numbers here: row m is bit m, and bit i of m is input i. A function of fewer inputs is
// one of four that does not depend on the others. Exchanging two inputs exchanges the rows where exactly one of them is
// 1: the two groups of rows are masks, a shift apart. Every one of the 24 renamings is at most three exchanges, so moving
// a table takes a dozen operations and no loop over rows.

const FUNCTIONS = 65536;
/** Classes of functions of four inputs under renaming of inputs. */
export const CLASSES = 3984;

/** Tables of the four inputs. */
export const INPUT_TABLES: readonly number[] = [0xaaaa, 0xcccc, 0xf0f0, 0xff00];

export interface Renaming {
  /** Input `i` of the new function is input `order[i]` of the old one. */
  readonly order: readonly number[];
  readonly move: (table: number) => number;
}

/** The function with inputs `a` and `b` (a < b) exchanged. */
function exchange(a: number, b: number): (table: number) => number {
  const up = INPUT_TABLES[a] & ~INPUT_TABLES[b];
  const down = INPUT_TABLES[b] & ~INPUT_TABLES[a];
  const shift = (1 << b) - (1 << a);
  return (table) => (table & ~(up | down)) | ((table & up) << shift) | ((table & down) >>> shift);
}

/** One move after the other, of three at most. */
function inTurn([a, b, c]: readonly ((table: number) => number)[]): (table: number) => number {
  if (a === undefined) return (table) => table;
  if (b === undefined) return a;
  return c === undefined ? (table) => b(a(table)) : (table) => c(b(a(table)));
}

function makeRenamings(): Renaming[] {
  const made: Renaming[] = [];
  for (let third = 0; third < 4; third++) {
    for (let second = 0; second < 3; second++) {
      for (let first = 0; first < 2; first++) {
        const order = [0, 1, 2, 3];
        const steps: ((table: number) => number)[] = [];
        const swap = (a: number, b: number): void => {
          if (a === b) return;
          [order[a], order[b]] = [order[b], order[a]];
          steps.push(exchange(Math.min(a, b), Math.max(a, b)));
        };
        swap(third, 3);
        swap(second, 2);
        swap(first, 1);
        made.push({ order, move: inTurn(steps) });
      }
    }
  }
  const key = ({ order }: Renaming): number => order.reduce((sum, input) => 4 * sum + input, 0);
  return made.sort((a, b) => key(a) - key(b));
}

/** All renamings, in lexicographic order of `order`: the first changes nothing. */
export const RENAMINGS: readonly Renaming[] = makeRenamings();

/** Their moves alone. */
export const MOVES: readonly ((table: number) => number)[] = RENAMINGS.map(({ move }) => move);

/** Number of the renaming that undoes another. */
export function inverseRenaming(number: number): number {
  const { order } = RENAMINGS[number];
  return RENAMINGS.findIndex((other) => other.order.every((input, i) => order[input] === i));
}

/** For each function its class and the renaming that makes it the representative; the representative of each class. */
export function classMaps(): { tables: Uint16Array; classOf: Uint16Array; renamingOf: Uint8Array } {
  const tables = new Uint16Array(CLASSES);
  const classOf = new Uint16Array(FUNCTIONS).fill(FUNCTIONS - 1);
  const renamingOf = new Uint8Array(FUNCTIONS);
  const back = RENAMINGS.map((_, number) => inverseRenaming(number));
  let count = 0;
  for (let table = 0; table < FUNCTIONS; table++) {
    if (classOf[table] !== FUNCTIONS - 1) continue;
    tables[count] = table;
    for (let r = RENAMINGS.length - 1; r >= 0; r--) {
      const member = RENAMINGS[r].move(table);
      classOf[member] = count;
      renamingOf[member] = back[r];
    }
    count++;
  }
  return { tables, classOf, renamingOf };
}

/** The table of a function of fewer inputs (0 to 4) as one of four inputs. */
export function widenTable(table: number, inputs: number): number {
  let wide = table;
  for (let i = inputs; i < 4; i++) wide |= wide << (1 << i);
  return wide;
}

/** The representatives of all functions of `inputs` inputs (0 to 4), ascending. */
export function allRepresentatives(inputs: number): number[] {
  const { classOf } = classMaps();
  const seen = new Set<number>();
  const found: number[] = [];
  for (let table = 0; table < 2 ** (1 << inputs); table++) {
    const number = classOf[widenTable(table, inputs)];
    if (!seen.has(number)) found.push(table);
    seen.add(number);
  }
  return found;
}
