// "Is there a network of so many inverters?", put to a general solver from the registry, as plainly as can be: nothing
// here is shared with the search. Functions are of four inputs, all on the high rail.

import Logic from 'logic-solver';

type Formula = Parameters<typeof Logic.not>[0];

export interface NetworkQuestion {
  /** Truth table, row m is bit m. */
  readonly table: number;
  readonly size: number;
  /** Most inverters on a way from each input to the output. */
  readonly delays: readonly number[];
}

/** Whether there is such a network. */
export function existsNetwork({ table, size, delays }: NetworkQuestion): boolean {
  const solver = new Logic.Solver();
  const rows = Array.from({ length: 16 }, (_, row) => row);
  const wires = 4 + size;
  const leg = (i: number, w: number): Formula => `leg ${i} ${w}`;
  const out = (w: number): Formula => `out ${w}`;
  const level = (w: number, row: number): Formula =>
    w < 4 ? (((row >> w) & 1) === 1 ? Logic.TRUE : Logic.FALSE) : `level ${w} ${row}`;
  const join = (choice: (w: number) => Formula, before: number, row: number): Formula =>
    Logic.or(...Array.from({ length: before }, (_, w) => Logic.and(choice(w), level(w, row))));
  for (let i = 0; i < size; i++) {
    for (const row of rows) {
      solver.require(Logic.equiv(level(4 + i, row), Logic.not(join((w) => leg(i, w), 4 + i, row))));
    }
    const uses = [out(4 + i)];
    for (let k = i + 1; k < size; k++) uses.push(leg(k, 4 + i));
    solver.require(Logic.or(...uses));
  }
  for (const row of rows) {
    const value = join(out, wires, row);
    solver.require(((table >> row) & 1) === 1 ? value : Logic.not(value));
  }
  // far(x, w, d): some way from input x to wire w passes d inverters or more.
  delays.forEach((most, x) => {
    const far = (w: number, d: number): Formula =>
      w < 4 ? (w === x && d === 0 ? Logic.TRUE : Logic.FALSE) : `far ${x} ${w} ${d}`;
    for (let i = 0; i < size; i++) {
      for (let w = 0; w < 4 + i; w++) {
        for (let d = 0; d <= most; d++) {
          solver.require(Logic.implies(Logic.and(leg(i, w), far(w, d)), far(4 + i, d + 1)));
        }
      }
    }
    for (let w = 4; w < wires; w++) solver.require(Logic.implies(out(w), Logic.not(far(w, most + 1))));
  });
  // Of two neighbours that do not feed each other the one with the smaller table comes first: an exchange changes nothing.
  for (let i = 0; i + 1 < size; i++) {
    let less: Formula = Logic.FALSE;
    for (const row of rows) {
      const a = level(4 + i, row);
      const b = level(5 + i, row);
      less = Logic.or(Logic.and(Logic.not(a), b), Logic.and(Logic.equiv(a, b), less));
    }
    solver.require(Logic.or(less, leg(i + 1, 4 + i)));
  }
  return solver.solve() !== null;
}
