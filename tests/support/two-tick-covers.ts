// Fewest inverters within two ticks, by a method of its own: for every set of first-tick inverters, cover what they and
// the inputs leave open with as few second-tick inverters as possible.
//
// An inverter of the second tick that is 1 on some rows M and nowhere outside the function needs legs that are all 0 on
// M and together 1 wherever the function is 0. The most legs it may have are all wires that are 0 on M; so M is possible
// exactly when those cover the zeros. Parts of a possible M are possible, so the open rows are dealt out to groups.

const INPUTS = [0xaaaa, 0xcccc, 0xf0f0, 0xff00];

interface FirstTick {
  readonly wires: readonly number[];
  readonly size: number;
  /** By row, the OR of all wires that are 0 there: what the widest inverter that is 1 there is not. */
  readonly around: readonly number[];
}

/** All sets of inverters over joins of inputs, by size. */
function firstTicks(): FirstTick[] {
  const inverters: number[] = [];
  for (let legs = 1; legs < 16; legs++) {
    let level = 0xffff;
    INPUTS.forEach((input, i) => {
      if (((legs >> i) & 1) === 1) level &= ~input;
    });
    inverters.push(level);
  }
  const sets: FirstTick[] = [];
  for (let set = 0; set < 2 ** inverters.length; set++) {
    const chosen = inverters.filter((_, i) => ((set >> i) & 1) === 1);
    const wires = [...INPUTS, ...chosen];
    const around = Array.from({ length: 16 }, (_, row) =>
      wires.reduce((join, wire) => (((wire >> row) & 1) === 0 ? join | wire : join), 0),
    );
    sets.push({ wires, size: chosen.length, around });
  }
  return sets.sort((a, b) => a.size - b.size);
}

/** Is there a row of the function that no wire inside the function covers and no inverter inside it can? */
function isHopeless(f: number, { wires, around }: FirstTick): boolean {
  const zeros = ~f & 0xffff;
  for (let rest = f; rest !== 0; rest &= rest - 1) {
    const row = rest & -rest;
    if ((zeros & ~around[31 - Math.clz32(row)]) === 0) continue;
    let isCovered = false;
    for (let w = 0; w < wires.length && !isCovered; w++) {
      isCovered = (wires[w] & row) !== 0 && (wires[w] & zeros) === 0;
    }
    if (!isCovered) return true;
  }
  return false;
}

/** Fewest groups that the rows can be dealt out to, or `limit` when it takes as many or more. */
function fewestGroups(f: number, open: number, wires: readonly number[], limit: number): number {
  const zeros = ~f & 0xffff;
  const isPossible = (rows: number): boolean => {
    let cover = 0;
    for (const wire of wires) if ((wire & rows) === 0) cover |= wire;
    return (zeros & ~cover) === 0;
  };
  let best = limit;
  const groups: number[] = [];
  const deal = (rest: number): void => {
    if (groups.length >= best) return;
    if (rest === 0) {
      best = groups.length;
      return;
    }
    const row = rest & -rest;
    for (let g = 0; g < groups.length; g++) {
      const before = groups[g];
      if (!isPossible(before | row)) continue;
      groups[g] = before | row;
      deal(rest & ~row);
      groups[g] = before;
    }
    groups.push(row);
    deal(rest & ~row);
    groups.pop();
  };
  deal(open);
  return best;
}

/** For each of the functions of four inputs, the fewest inverters within two ticks. */
export function fewestWithinTwoTicks(functions: readonly number[]): number[] {
  const sets = firstTicks();
  return functions.map((f) => {
    let best = f === 0xffff ? 0 : 99;
    for (const set of sets) {
      const { wires, size } = set;
      if (size >= best) break;
      if (isHopeless(f, set)) continue;
      let open = f;
      for (const wire of wires) if ((wire & ~f) === 0) open &= ~wire;
      if (open !== 0 && size + 1 >= best) continue;
      best = Math.min(best, size + fewestGroups(f, open, wires, best - size));
    }
    return best;
  });
}
