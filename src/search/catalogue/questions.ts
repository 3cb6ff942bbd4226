// What sweeping wire sets leaves open, class by class: classes that need more inverters than the largest sweep had.
//
// Most of the curve of a class is one question. Fewest inverters never grow with ticks, so a refutation without a bound
// on ticks refutes the size at every tick, and a network of few ticks serves all larger bounds. Without a bound is asked
// first, then two ticks, then three and so on until a bound is as good as none.

import { INPUT_TABLES } from '../../truth/permutation-classes.ts';
import { networkDraft } from '../draft.ts';
import { exactNetwork } from '../exact.ts';
import type { Task } from '../task.ts';
import { ticksOf, wireTables } from './lay.ts';
import { ANY, type CatalogueWork } from './work.ts';

const ROWS = 16;
/** Conflicts for one question; the hardest known takes a tenth of it. */
const MOST_CONFLICTS = 20_000_000;

/** The exact search's question about one function of four inputs, all on the high rail at tick 0. */
export function tableTask(table: number): Task {
  return {
    rowBits: 4,
    exhaustive: true,
    wires: INPUT_TABLES.map((rows, input) => ({
      signal: input,
      rail: 'high',
      tick: 0,
      input,
      straight: true,
      table: Uint32Array.of(rows),
      rival: -1,
    })),
    outputs: [
      { signal: 4, rail: 'high', on: Uint32Array.of(table), off: Uint32Array.of(~table & 0xffff), by: null },
    ],
    care: Uint32Array.of(0xffff),
    rules: {
      joinTicks: 0,
      inverterTicks: 1,
      inverterLegs: Number.POSITIVE_INFINITY,
      outputLegs: Number.POSITIVE_INFINITY,
      inverterOutputs: Number.POSITIVE_INFINITY,
    },
    mirrored: false,
  };
}

/** Settles all bounds of a class; every fact goes through `note`. */
export function askClass(work: CatalogueWork, c: number, note: (line: string) => void): void {
  settle(work, c, ANY, note);
  for (let t = 2; t < ANY; t++) {
    settle(work, c, t, note);
    if (work.upper[t][c] === work.upper[ANY][c]) break;
  }
}

function settle(work: CatalogueWork, c: number, t: number, note: (line: string) => void): void {
  const table = work.tables[c];
  const name = table.toString(16).padStart(4, '0');
  while (!work.isProved(c, t)) {
    const size = work.least(c, t);
    const answer = exactNetwork({
      task: tableTask(table),
      size,
      by: [t === ANY ? Number.POSITIVE_INFINITY : t],
      maxConflicts: MOST_CONFLICTS,
      rows: Array.from({ length: ROWS }, (_, row) => row),
    });
    if (answer.kind === 'undecided') return;
    if (answer.kind === 'none') {
      note(`none ${name} ${t === ANY ? 'any' : t} ${size}`);
      continue;
    }
    const { inverters } = networkDraft(tableTask(table), answer.network);
    // Drafts number the constants 0 and 1 before the wires.
    const legs = inverters.map((wires) => wires.reduce((mask, wire) => mask | (1 << (wire - 2)), 0));
    const output = networkDraft(tableTask(table), answer.network).outputs[0].reduce(
      (mask, wire) => mask | (1 << (wire - 2)),
      0,
    );
    const found = { legs, output };
    const hex = wireTables(found)
      .slice(INPUT_TABLES.length)
      .map((wire) => wire.toString(16).padStart(4, '0'));
    note(['network', name, ticksOf(found), ...hex].join(' '));
    if (work.upper[t][c] > size) return;
  }
}
