// The workbench keeps levels, ticks and users up to date, and knows exactly where an inverter matters: compared with
// plain recomputation after random changes.

import { describe, expect, test } from 'vitest';
import { Workbench } from '../../src/search/workbench.ts';
import { bit, levelOf, randomTask, type TaskShape } from '../support/random-task.ts';
import { seededRandom } from '../support/seeded-random.ts';

const SHAPES: readonly TaskShape[] = [
  { inputs: 2, inverters: 5, outputs: 1, care: 1 },
  { inputs: 3, inverters: 9, outputs: 2, care: 0.8 },
  { inputs: 5, inverters: 16, outputs: 3, care: 1 },
  { inputs: 6, inverters: 20, outputs: 3, care: 0.7 },
  { inputs: 7, inverters: 30, outputs: 4, care: 0.9 },
];

/** A table of the bench, wherever it stands. */
function tableAt(bench: Workbench, address: number): Uint32Array {
  return bench.loops.words.slice(address >> 2, (address >> 2) + bench.words);
}

/** Everything that the bench keeps, checked against its legs; a list of what differs. */
function stale(bench: Workbench): string[] {
  const { task, first } = bench;
  const found: string[] = [];
  const ticks = new Map<number, number>();
  const tick = (wire: number): number => {
    if (wire < 2) return 0;
    if (wire < first) return task.wires[wire - 2].tick;
    const known = ticks.get(wire) ?? 1 + Math.max(...bench.legs[wire - first].map(tick));
    ticks.set(wire, known);
    return known;
  };
  let size = 0;
  bench.legs.forEach((legs, i) => {
    if (legs.length === 0) return;
    size++;
    const wire = first + i;
    if (bench.tick[wire] !== tick(wire))
      found.push(`tick of ${wire}: ${bench.tick[wire]}, not ${tick(wire)}`);
    for (let row = 0; row < 2 ** task.rowBits; row++) {
      const level = bit(tableAt(bench, bench.addressOf(wire)), row);
      if (level !== levelOf(task.wires, bench.legs, [wire], row))
        found.push(`level of ${wire} on row ${row}`);
    }
  });
  if (size !== bench.size) found.push(`size ${bench.size}, not ${size}`);
  const users: number[][] = bench.uses.map(() => []);
  bench.legs.forEach((legs, i) => {
    for (const leg of legs) users[leg].push(i);
  });
  bench.outputs.forEach((legs, y) => {
    for (const leg of legs) users[leg].push(-1 - y);
  });
  users.forEach((list, wire) => {
    const kept = [...bench.uses[wire]].sort((a, b) => a - b);
    if (kept.join() !== list.sort((a, b) => a - b).join())
      found.push(`users of ${wire}: ${kept}, not ${list}`);
  });
  return found;
}

/** Rows on which flipping the inverter makes an output wrong, one row after the other. */
function matters(bench: Workbench, i: number): number[] {
  const { task, first } = bench;
  const rows: number[] = [];
  for (let row = 0; row < 2 ** task.rowBits; row++) {
    const wrong = bench.outputs.some((legs, y) => {
      const level = levelOf(task.wires, bench.legs, legs, row, first + i);
      return bit(tableAt(bench, level ? bench.offOf(y) : bench.onOf(y)), row);
    });
    if (wrong) rows.push(row);
  }
  return rows;
}

/** Makes what the outputs are now what is asked for, on all rows that can happen. */
function adopt(bench: Workbench): void {
  const { task } = bench;
  bench.outputs.forEach((legs, y) => {
    const [on, off] = [new Uint32Array(bench.words), new Uint32Array(bench.words)];
    for (let row = 0; row < 2 ** task.rowBits; row++) {
      if (!bit(task.care, row)) continue;
      const side = levelOf(task.wires, bench.legs, legs, row) ? on : off;
      side[row >> 5] |= 1 << (row & 31);
    }
    bench.setRequired(y, on, off);
  });
}

function rowsOf(table: Uint32Array, rows: number): number[] {
  return Array.from({ length: rows }, (_, row) => row).filter((row) => bit(table, row));
}

/** Makes the levels that the outputs have now the required ones, on the rows of `care`. */
function requireWhatIs(bench: Workbench, care: Uint32Array): void {
  bench.outputs.forEach((legs, y) => {
    const [on, off] = [new Uint32Array(bench.words), new Uint32Array(bench.words)];
    const levels = legs.map((leg) => tableAt(bench, bench.addressOf(leg)));
    for (let k = 0; k < bench.words; k++) {
      const level = levels.reduce((join, table) => join | table[k], 0);
      on[k] = level & care[k];
      off[k] = ~level & care[k];
    }
    bench.setRequired(y, on, off);
  });
}

/** Inverters that depend on inverter `i`, itself included. */
function dependents(bench: Workbench, i: number): Set<number> {
  const found = new Set([i]);
  for (let grown = true; grown; ) {
    grown = false;
    bench.legs.forEach((legs, k) => {
      if (found.has(k) || !legs.some((leg) => found.has(leg - bench.first))) return;
      found.add(k);
      grown = true;
    });
  }
  return found;
}

describe.each(SHAPES)('$inputs inputs, $inverters inverters, $outputs outputs', (shape) => {
  const random = seededRandom(shape.inverters);
  const below = (count: number): number => Math.floor(random() * count);
  const anyTime = Array.from({ length: shape.outputs }, () => Number.POSITIVE_INFINITY);

  test('levels, ticks and users are right after every random change', () => {
    for (let round = 0; round < 12; round++) {
      const { task, draft } = randomTask(random, shape);
      const bench = new Workbench(task, draft, anyTime);
      expect(stale(bench)).toEqual([]);
      expect(bench.isRight()).toBe(true);
      for (let change = 0; change < 25; change++) {
        changeSomething(bench, below);
        expect(stale(bench), `round ${round}, change ${change}`).toEqual([]);
      }
    }
  });

  test('where an inverter matters is what flipping it on every row says', () => {
    for (let round = 0; round < 8; round++) {
      const { task, draft } = randomTask(random, shape);
      const bench = new Workbench(task, draft, anyTime);
      for (let change = 0; change < 6; change++) {
        // The question has a meaning for right networks only: let the required levels follow the change.
        requireWhatIs(bench, task.care);
        expect(bench.isRight()).toBe(true);
        bench.legs.forEach((legs, i) => {
          if (legs.length === 0) return;
          expect(rowsOf(tableAt(bench, bench.observe(i)), 2 ** task.rowBits)).toEqual(matters(bench, i));
        });
        changeSomething(bench, below);
        adopt(bench);
        expect(bench.isRight()).toBe(true);
      }
    }
  });

  test('latest ticks follow from the bounds, and a saved state comes back', () => {
    for (let round = 0; round < 12; round++) {
      const { task, draft } = randomTask(random, shape);
      const bounds = draft.outputs.map(() => 5 + below(9));
      const bench = new Workbench(task, draft, bounds);
      const saved = bench.save();
      for (let change = 0; change < 5; change++) changeSomething(bench, below);
      bench.relax();
      const latest = bench.legs.map(() => Number.POSITIVE_INFINITY);
      for (let again = true; again; ) {
        again = false;
        const lower = (legs: readonly number[], bound: number): void => {
          for (const leg of legs) {
            if (leg < bench.first || latest[leg - bench.first] <= bound) continue;
            latest[leg - bench.first] = bound;
            again = true;
          }
        };
        bench.outputs.forEach((legs, y) => {
          lower(legs, bounds[y]);
        });
        bench.legs.forEach((legs, i) => {
          lower(legs, latest[i] - 1);
        });
      }
      bench.legs.forEach((legs, i) => {
        if (legs.length > 0) expect(bench.latestOf(i)).toBe(latest[i]);
      });
      bench.load(saved);
      expect(stale(bench)).toEqual([]);
      expect(bench.isRight()).toBe(
        bench.outputs.every((legs, y) => legs.every((leg) => bench.tick[leg] <= bounds[y])),
      );
      expect(bench.toDraft().outputs).toHaveLength(shape.outputs);
    }
  });

  test('the cone is what depends on an inverter', () => {
    const { task, draft } = randomTask(random, shape);
    const bench = new Workbench(task, draft, anyTime);
    bench.legs.forEach((_, i) => {
      const into = new Uint8Array(bench.first + bench.legs.length);
      bench.cone(i, into);
      const marked = bench.legs.map((_, k) => k).filter((k) => into[bench.first + k] === 1);
      expect(new Set(marked)).toEqual(dependents(bench, i));
    });
  });
});

/** Other legs for an inverter or an output, a new inverter, or an inverter without use goes. */
function changeSomething(bench: Workbench, below: (count: number) => number): void {
  const used = bench.legs.map((_, i) => i).filter((i) => bench.legs[i].length > 0);
  const inputs = bench.chosen.flatMap((exists, s) => (exists ? [2 + s] : []));
  const legsFrom = (wires: readonly number[]): number[] => {
    const legs = new Set<number>();
    for (let n = 1 + below(3); n > 0; n--) legs.add(wires[below(wires.length)]);
    return [...legs];
  };
  const all = [...inputs, ...used.map((i) => bench.first + i)];
  switch (below(4)) {
    case 0: {
      const slot = bench.freeSlot();
      bench.setLegs(slot, legsFrom(all));
      const y = below(bench.outputs.length);
      bench.setOutput(y, [...bench.outputs[y], bench.first + slot]);
      break;
    }
    case 1:
      bench.setOutput(below(bench.outputs.length), legsFrom(all));
      break;
    case 2:
      for (const i of used) bench.sweep(i);
      break;
    default: {
      if (used.length === 0) break;
      const i = used[below(used.length)];
      const behind = dependents(bench, i);
      bench.setLegs(i, legsFrom(all.filter((wire) => !behind.has(wire - bench.first))));
    }
  }
}
