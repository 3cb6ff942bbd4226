// Truth tables: every operation against its meaning row by row, tables of systems against a naive evaluator.

import { describe, expect, test } from 'vitest';
import { countInCube, meetsCube, wordsOfCube } from '../../src/truth/cube.ts';
import {
  allRepresentatives,
  CLASSES,
  classMaps,
  inverseRenaming,
  RENAMINGS,
  widenTable,
} from '../../src/truth/permutation-classes.ts';
import { systemTables } from '../../src/truth/system-tables.ts';
import {
  and,
  andInto,
  constantTable,
  countRows,
  dependsOn,
  equal,
  firstRow,
  flipInput,
  hasRow,
  inputTable,
  intersects,
  isEmpty,
  isInside,
  lastMask,
  not,
  nthRow,
  or,
  orInto,
  setRow,
  support,
  type Table,
  without,
  withoutInto,
  wordsFor,
  xor,
} from '../../src/truth/table.ts';
import { naiveValues, randomSystem, seeded } from './proof-samples.ts';

const SIZES = [0, 1, 2, 3, 4, 5, 6, 7, 9];

/** A random table and its rows as a list; sparse, even or dense. */
function randomTable(next: (below: number) => number, inputs: number): { table: Table; rows: boolean[] } {
  const table = constantTable(inputs, 0);
  const density = 1 + next(7);
  const rows = Array.from({ length: 2 ** inputs }, () => next(8) < density);
  rows.forEach((isIn, row) => {
    if (isIn) setRow(table, row);
  });
  return { table, rows };
}

function rowsOf(table: Table, inputs: number): boolean[] {
  return Array.from({ length: 2 ** inputs }, (_, row) => hasRow(table, row));
}

describe.each(SIZES)('tables of %i inputs', (inputs) => {
  const next = seeded(100 + inputs);
  const samples = Array.from({ length: 20 }, () => [randomTable(next, inputs), randomTable(next, inputs)]);
  const clean = (table: Table): boolean =>
    table.length === wordsFor(inputs) && (table[table.length - 1] & ~lastMask(inputs)) === 0;

  test('constants and inputs', () => {
    expect(rowsOf(constantTable(inputs, 1), inputs)).toEqual(new Array(2 ** inputs).fill(true));
    expect(isEmpty(constantTable(inputs, 0))).toBe(true);
    for (let i = 0; i < inputs; i++) {
      const table = inputTable(inputs, i);
      expect(rowsOf(table, inputs)).toEqual(
        Array.from({ length: 2 ** inputs }, (_, row) => ((row >> i) & 1) === 1),
      );
      expect(support(table, inputs)).toEqual([i]);
      expect(clean(table)).toBe(true);
    }
  });

  test('operations row by row, unused bits stay 0', () => {
    const operations: [(a: Table, b: Table) => Table, (a: boolean, b: boolean) => boolean][] = [
      [and, (a, b) => a && b],
      [or, (a, b) => a || b],
      [xor, (a, b) => a !== b],
      [without, (a, b) => a && !b],
      [(a) => not(a, inputs), (a) => !a],
    ];
    const inPlace: [(a: Table, b: Table) => void, (a: Table, b: Table) => Table][] = [
      [andInto, and],
      [orInto, or],
      [withoutInto, without],
    ];
    for (const [a, b] of samples) {
      for (const [onTables, onRows] of operations) {
        const result = onTables(a.table, b.table);
        expect(rowsOf(result, inputs)).toEqual(a.rows.map((row, i) => onRows(row, b.rows[i])));
        expect(clean(result)).toBe(true);
      }
      for (const [into, fresh] of inPlace) {
        const copy = a.table.slice();
        into(copy, b.table);
        expect(copy).toEqual(fresh(a.table, b.table));
      }
    }
  });

  test('questions about rows', () => {
    for (const [a, b] of samples) {
      expect(countRows(a.table)).toBe(a.rows.filter(Boolean).length);
      expect(isEmpty(a.table)).toBe(!a.rows.includes(true));
      expect(equal(a.table, b.table)).toBe(a.rows.every((row, i) => row === b.rows[i]));
      expect(equal(a.table, a.table.slice())).toBe(true);
      expect(intersects(a.table, b.table)).toBe(a.rows.some((row, i) => row && b.rows[i]));
      expect(isInside(a.table, b.table)).toBe(a.rows.every((row, i) => !row || b.rows[i]));
      expect(isInside(and(a.table, b.table), a.table)).toBe(true);
      for (const from of [0, 1, 31, 32, 33, 2 ** inputs - 1]) {
        if (from < 2 ** inputs) expect(firstRow(a.table, from)).toBe(a.rows.indexOf(true, from));
      }
    }
  });

  test('rows by their number', () => {
    for (const [{ table, rows }] of samples) {
      const listed = rows.flatMap((isIn, row) => (isIn ? [row] : []));
      expect(listed.map((_, n) => nthRow(table, n))).toEqual(listed);
      expect(nthRow(table, listed.length)).toBe(-1);
    }
  });

  test('cubes, row by row', () => {
    for (const [{ table, rows }] of samples) {
      const cube = { row: next(2 ** inputs), fixed: next(2 ** inputs) };
      const inside = rows.filter((isIn, row) => isIn && ((row ^ cube.row) & cube.fixed) === 0).length;
      expect(countInCube(table, cube)).toBe(inside);
      expect(meetsCube(table, cube)).toBe(inside > 0);
      const free = [...Array(inputs).keys()].filter((i) => i >= 5 && ((cube.fixed >> i) & 1) === 0).length;
      expect(wordsOfCube(table, cube)).toBe(2 ** free);
    }
  });

  test('flipping and depending on inputs', () => {
    for (const [{ table, rows }] of samples) {
      const needed = Array.from({ length: inputs }, (_, i) => i).filter((i) => {
        const flipped = rows.map((_, row) => rows[row ^ (1 << i)]);
        expect(rowsOf(flipInput(table, i), inputs)).toEqual(flipped);
        expect(dependsOn(table, i)).toBe(flipped.some((value, row) => value !== rows[row]));
        return flipped.some((value, row) => value !== rows[row]);
      });
      expect(support(table, inputs)).toEqual(needed);
    }
  });
});

test('tables of systems equal the naive evaluation of every row', () => {
  for (let seed = 1; seed <= 60; seed++) {
    const next = seeded(seed);
    const inputs = next(8);
    const system = randomSystem(next, inputs, 4, { never: seed % 2 === 0 });
    const tables = systemTables(system);
    expect(tables.inputs).toBe(inputs);
    for (let row = 0; row < 2 ** inputs; row++) {
      const values = naiveValues(system, row);
      expect(hasRow(tables.care, row)).toBe(values !== null);
      const all = values ?? naiveValues({ ...system, never: [] }, row)!;
      expect(tables.signals.map((table) => Number(hasRow(table, row)))).toEqual(all);
    }
  }
});

describe('permutation classes', () => {
  test('renamings are all there, once, in order, and move every row where they say', () => {
    const orders = RENAMINGS.map(({ order }) => order.join(''));
    expect(orders).toEqual([...new Set(orders)].sort());
    expect(orders).toHaveLength(24);
    for (const { order, move } of RENAMINGS) {
      for (let row = 0; row < 16; row++) {
        let old = 0;
        for (let i = 0; i < 4; i++) old |= ((row >> i) & 1) << order[i];
        expect(move(1 << old)).toBe(1 << row);
      }
    }
  });

  test('a renaming and its inverse change nothing', () => {
    RENAMINGS.forEach(({ move }, number) => {
      const back = RENAMINGS[inverseRenaming(number)].move;
      for (const table of [0x0001, 0x1234, 0x8bad, 0xfff7]) expect(back(move(table))).toBe(table);
    });
  });

  test('the representative is the function with its inputs renamed, and the smallest of the whole class', () => {
    const { tables, classOf, renamingOf } = classMaps();
    expect(tables).toHaveLength(CLASSES);
    for (let table = 0; table < 65536; table += 7) {
      const smallest = tables[classOf[table]];
      expect(RENAMINGS[renamingOf[table]].move(table)).toBe(smallest);
      expect(Math.min(...RENAMINGS.map(({ move }) => move(table)))).toBe(smallest);
    }
  });

  test('functions of fewer inputs are functions of four that do not depend on the others', () => {
    expect(widenTable(0b10, 1)).toBe(0xaaaa);
    expect(widenTable(0x96, 3)).toBe(0x9696);
    expect(widenTable(1, 0)).toBe(0xffff);
    expect(allRepresentatives(2)).toEqual([0, 1, 2, 3, 6, 7, 8, 9, 10, 11, 14, 15]);
  });
});
