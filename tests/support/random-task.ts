// Random drafts with the task they answer: the functions of a random network become the outputs, on random rows that
// count. Levels are computed row by row and wire by wire here, so that nothing of the search vouches for itself.

import type { Draft } from '../../src/search/draft.ts';
import type { Task, TaskOutput, TaskWire } from '../../src/search/task.ts';
import type { Table } from '../../src/truth/table.ts';

export interface RandomTask {
  readonly task: Task;
  readonly draft: Draft;
}

export interface TaskShape {
  readonly inputs: number;
  readonly inverters: number;
  readonly outputs: number;
  /** Share of the rows that can happen. */
  readonly care: number;
}

/** Random wires (some late, some low, some on both rails or on a rail that was chosen), inverters and outputs. */
export function randomTask(random: () => number, shape: TaskShape): RandomTask {
  const below = (count: number): number => Math.floor(random() * count);
  const rows = 2 ** shape.inputs;
  const wires: TaskWire[] = [];
  const chosen: boolean[] = [];
  for (let i = 0; i < shape.inputs; i++) {
    const tick = below(3) === 0 ? below(4) : 0;
    const add = (rail: 'high' | 'low', rival: number, exists: boolean): void => {
      const table = tableOf(rows, (row) => (((row >> i) & 1) === 1) === (rail === 'high'));
      wires.push({ signal: i, rail, tick, input: i, straight: rail === 'high', table, rival });
      chosen.push(exists);
    };
    const kind = below(6);
    if (kind === 0) add('low', -1, true);
    else if (kind === 1) {
      add('high', -1, true);
      add('low', -1, true);
    } else if (kind === 2) {
      const first = wires.length;
      const high = random() < 0.5;
      add('high', first + 1, high);
      add('low', first, !high);
    } else add('high', -1, true);
  }
  const first = 2 + wires.length;
  const usable = chosen.flatMap((exists, s) => (exists ? [2 + s] : []));
  const inverters: number[][] = [];
  const someWires = (most: number): number[] => {
    const legs = new Set<number>();
    const pool = [...usable, ...inverters.map((_, i) => first + i)];
    for (let n = 1 + below(most); n > 0; n--) {
      // Late wires are preferred, so that networks get deep.
      legs.add(pool[random() < 0.6 ? pool.length - 1 - below(Math.min(5, pool.length)) : below(pool.length)]);
    }
    return [...legs];
  };
  for (let i = 0; i < shape.inverters; i++) inverters.push(someWires(4));
  const outputs = Array.from({ length: shape.outputs }, () => someWires(3));
  const care = tableOf(rows, () => random() < shape.care);
  const draft: Draft = { chosen, low: outputs.map(() => random() < 0.3), inverters, outputs };
  const levels = outputs.map((legs) => tableOf(rows, (row) => levelOf(wires, inverters, legs, row)));
  const taskOutputs = outputs.map((_, y): TaskOutput => {
    const on = both(levels[y], care);
    const off = both(complement(levels[y], rows), care);
    const free = random() < 0.5;
    return {
      signal: shape.inputs + y,
      rail: free ? 'either' : draft.low[y] ? 'low' : 'high',
      on: free && draft.low[y] ? off : on,
      off: free && draft.low[y] ? on : off,
      by: null,
    };
  });
  const unlimited = Number.POSITIVE_INFINITY;
  const task: Task = {
    rowBits: shape.inputs,
    exhaustive: true,
    wires,
    outputs: taskOutputs,
    care,
    rules: {
      joinTicks: 0,
      inverterTicks: 1,
      inverterLegs: unlimited,
      outputLegs: unlimited,
      inverterOutputs: Number.POSITIVE_INFINITY,
    },
    mirrored: false,
  };
  return { task, draft };
}

/** Tick at which every output of the draft settles. */
export function draftTicks(task: Task, draft: Draft): number[] {
  const { inverterTicks, joinTicks } = task.rules;
  const first = 2 + task.wires.length;
  const known = new Map<number, number>();
  const tick = (wire: number): number => {
    if (wire < 2) return 0;
    if (wire < first) return task.wires[wire - 2].tick;
    const found = known.get(wire) ?? joined(draft.inverters[wire - first]) + inverterTicks;
    known.set(wire, found);
    return found;
  };
  const joined = (legs: readonly number[]): number =>
    Math.max(0, ...legs.map(tick)) + (legs.length > 1 ? joinTicks : 0);
  return draft.outputs.map(joined);
}

/** Inverters that some output depends on. */
export function draftSize(task: Task, draft: Draft): number {
  const first = 2 + task.wires.length;
  const used = new Set<number>();
  const visit = (legs: readonly number[]): void => {
    for (const leg of legs) {
      if (leg < first || used.has(leg)) continue;
      used.add(leg);
      visit(draft.inverters[leg - first]);
    }
  };
  draft.outputs.forEach(visit);
  return used.size;
}

/** What is wrong with a draft for its task: order, empty legs, wires that do not exist, levels, ticks above bounds. */
export function draftFaults(task: Task, draft: Draft, bounds: readonly number[]): string[] {
  const faults: string[] = [];
  const first = 2 + task.wires.length;
  const check = (what: string, legs: readonly number[], limit: number): void => {
    if (legs.length === 0) faults.push(`${what} has no legs`);
    for (const leg of legs) {
      if (!(leg >= 0 && leg < limit)) faults.push(`${what} has the leg ${leg}`);
      else if (leg >= 2 && leg < first && !draft.chosen[leg - 2])
        faults.push(`${what} has a wire not chosen`);
      else if (leg >= first && draft.inverters[leg - first].length === 0)
        faults.push(`${what} has a leg that is gone`);
    }
    if (new Set(legs).size < legs.length) faults.push(`${what} has a leg twice`);
  };
  draft.inverters.forEach((legs, i) => {
    if (legs.length > 0) check(`inverter ${i}`, legs, first + i);
  });
  draft.outputs.forEach((legs, y) => {
    check(`output ${y}`, legs, first + draft.inverters.length);
  });
  if (faults.length > 0) return faults;
  task.outputs.forEach(({ on, off, rail }, y) => {
    const swap = rail === 'either' && draft.low[y];
    for (let row = 0; row < 2 ** task.rowBits; row++) {
      const level = levelOf(task.wires, draft.inverters, draft.outputs[y], row);
      if (bit(swap ? off : on, row) && !level) faults.push(`output ${y} is 0 on row ${row}`);
      if (bit(swap ? on : off, row) && level) faults.push(`output ${y} is 1 on row ${row}`);
    }
  });
  draftTicks(task, draft).forEach((tick, y) => {
    if (tick > bounds[y]) faults.push(`output ${y} is there at tick ${tick}, not by ${bounds[y]}`);
  });
  return faults;
}

/** Level of a join on one row, by recursion; `flipped` is a wire whose level is exchanged (-1 for none). */
export function levelOf(
  wires: readonly TaskWire[],
  inverters: readonly (readonly number[])[],
  legs: readonly number[],
  row: number,
  flipped = -1,
): boolean {
  const known = new Map<number, boolean>();
  const level = (wire: number): boolean => {
    if (wire < 2) return wire === 1;
    if (wire < 2 + wires.length) return bit(wires[wire - 2].table, row);
    let found = known.get(wire);
    if (found === undefined) {
      found = !inverters[wire - 2 - wires.length].some(level) !== (wire === flipped);
      known.set(wire, found);
    }
    return found;
  };
  return legs.some(level);
}

export function bit(table: Uint32Array, row: number): boolean {
  return ((table[row >> 5] >>> (row & 31)) & 1) === 1;
}

function tableOf(rows: number, value: (row: number) => boolean): Table {
  const table = new Uint32Array(Math.max(1, rows / 32));
  for (let row = 0; row < rows; row++) if (value(row)) table[row >> 5] |= 1 << (row & 31);
  return table;
}

function both(a: Table, b: Table): Table {
  return a.map((word, w) => word & b[w]);
}

function complement(a: Table, rows: number): Table {
  return tableOf(rows, (row) => !bit(a, row));
}
