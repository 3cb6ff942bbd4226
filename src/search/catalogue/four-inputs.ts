// Tables of four inputs as 16-bit numbers, and the 24 renamings of their inputs. Row m is bit m; bit i of m is input i.
//
// Exchanging two inputs exchanges the rows where exactly one of them is 1: the two groups of rows are masks, a shift
// apart. Every renaming is a few exchanges, so moving a table takes a dozen operations and no loop over rows.

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
        made.push({ order, move: (table) => steps.reduce((moved, step) => step(moved), table) });
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
