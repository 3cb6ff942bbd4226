// A draft is a network in the making: legs as plain lists over all candidate wires of a task, and the rails chosen.
// The search makes drafts, checks them against the tables of the task and turns the good ones into networks.

import { legsOf, outputLegsOf, tidyNetwork } from '../network/build-network.ts';
import { FIRST_INPUT, type InputWire, type Network, ONE, type OutputWire, ZERO } from '../network/network.ts';
import { constantTable, firstRow, nor, orInto, type Table } from '../truth/table.ts';
import type { Task } from './task.ts';

/** Wire numbers: constants 0 and 1, then all candidate wires of the task from 2 on, then the inverters. */
export interface Draft {
  /** By candidate wire: does it exist? Of two rivals at most one does. */
  readonly chosen: readonly boolean[];
  /** By output: is it on the low rail? Counts only where the task leaves the rail to the search. */
  readonly low: readonly boolean[];
  readonly inverters: readonly (readonly number[])[];
  readonly outputs: readonly (readonly number[])[];
}

/** A draft with its inverters and the ticks of its outputs. */
export interface Shape {
  readonly draft: Draft;
  readonly size: number;
  /** By output. */
  readonly ticks: readonly number[];
}

/** Those that none beats in latest tick and inverters, the fastest first. */
export function unbeaten(shapes: readonly Shape[]): Shape[] {
  const latest = ({ ticks }: Shape): number => Math.max(0, ...ticks);
  const sorted = [...shapes].sort((a, b) => latest(a) - latest(b) || a.size - b.size);
  const best: Shape[] = [];
  for (const each of sorted) if (best.every(({ size }) => size > each.size)) best.push(each);
  return best;
}

/** Level of every wire of a draft, by wire number. */
export function draftTables(task: Task, inverters: readonly (readonly number[])[]): Table[] {
  const tables: Table[] = [constantTable(task.rowBits, 0), constantTable(task.rowBits, 1)];
  for (const wire of task.wires) tables.push(wire.table);
  for (const legs of inverters) {
    const joined = legs.map((leg) => tables[leg]);
    tables.push(nor(joined, task.rowBits));
  }
  return tables;
}

/** Level of a join of wires. */
export function joinTable(task: Task, tables: readonly Table[], legs: readonly number[]): Table {
  const level = constantTable(task.rowBits, 0);
  for (const leg of legs) orInto(level, tables[leg]);
  return level;
}

/** Rows where an output is required to be 1, given its chosen rail. */
export function requiredOn(task: Task, output: number, low: boolean): Table {
  const { rail, on, off } = task.outputs[output];
  return rail === 'either' && low ? off : on;
}

/** Rows where an output is required to be 0, given its chosen rail. */
export function requiredOff(task: Task, output: number, low: boolean): Table {
  const { rail, on, off } = task.outputs[output];
  return rail === 'either' && low ? on : off;
}

/** Words that are checked at a time: the levels of all wires on so many stay near the processor. */
const CHECK_WORDS = 64;

/** The first row on which some output of the draft is wrong, or -1. */
export function firstWrongRow(task: Task, draft: Draft): number {
  const words = task.care.length;
  const on = task.outputs.map((_, y) => requiredOn(task, y, draft.low[y]));
  const off = task.outputs.map((_, y) => requiredOff(task, y, draft.low[y]));
  const wires = FIRST_INPUT + task.wires.length + draft.inverters.length;
  const levels = new Uint32Array((wires + 1) * CHECK_WORDS);
  const join = wires * CHECK_WORDS;
  const wrong = new Uint32Array(CHECK_WORDS);
  levels.fill(0xffffffff, ONE * CHECK_WORDS, (ONE + 1) * CHECK_WORDS);
  for (let start = 0; start < words; start += CHECK_WORDS) {
    const count = Math.min(CHECK_WORDS, words - start);
    let to = FIRST_INPUT * CHECK_WORDS;
    for (const { table } of task.wires) {
      for (let k = 0; k < count; k++) levels[to + k] = table[start + k];
      to += CHECK_WORDS;
    }
    for (const legs of draft.inverters) {
      writeNor(levels, legs, to, count);
      to += CHECK_WORDS;
    }
    // Rows beyond a short table are in neither set.
    wrong.fill(0);
    for (let y = 0; y < draft.outputs.length; y++) {
      writeNor(levels, draft.outputs[y], join, count);
      for (let k = 0; k < count; k++) {
        wrong[k] |= (~levels[join + k] & off[y][start + k]) | (levels[join + k] & on[y][start + k]);
      }
    }
    const row = firstRow(wrong);
    if (row >= 0) return 32 * start + row;
  }
  return -1;
}

/** Writes the complement of a join to `to`, three legs at first: most inverters have no more. */
function writeNor(levels: Uint32Array, legs: readonly number[], to: number, count: number): void {
  if (legs.length === 0) {
    levels.fill(0xffffffff, to, to + count);
    return;
  }
  const a = legs[0] * CHECK_WORDS;
  const b = legs.length > 1 ? legs[1] * CHECK_WORDS : a;
  const c = legs.length > 2 ? legs[2] * CHECK_WORDS : b;
  for (let k = 0; k < count; k++) levels[to + k] = ~(levels[a + k] | levels[b + k] | levels[c + k]);
  for (let n = 3; n < legs.length; n += 2) {
    const d = legs[n] * CHECK_WORDS;
    const e = n + 1 < legs.length ? legs[n + 1] * CHECK_WORDS : d;
    for (let k = 0; k < count; k++) levels[to + k] &= ~(levels[d + k] | levels[e + k]);
  }
}

/** The tidy network of a draft: candidate wires that do not exist are left out, constants stand as they should. */
export function draftNetwork(task: Task, draft: Draft): Network {
  const inputs: InputWire[] = [];
  const number: number[] = task.mirrored ? [ONE, ZERO] : [ZERO, ONE];
  task.wires.forEach(({ signal, rail, tick }, s) => {
    number.push(FIRST_INPUT + inputs.length);
    if (draft.chosen[s]) inputs.push({ signal, rail, tick });
  });
  const first = FIRST_INPUT + inputs.length;
  draft.inverters.forEach((_, i) => {
    number.push(first + i);
  });
  const outputs: OutputWire[] = task.outputs.map(({ signal, rail }, y) => ({
    signal,
    rail: rail === 'either' ? (draft.low[y] ? 'low' : 'high') : rail,
  }));
  const rename = (legs: readonly number[]): number[] => legs.map((leg) => number[leg]);
  return tidyNetwork(inputs, outputs, draft.inverters.map(rename), draft.outputs.map(rename));
}

/** The draft that a network of this task is: the inverse of `draftNetwork`. */
export function networkDraft(task: Task, network: Network): Draft {
  const wireOf: number[] = task.mirrored ? [ONE, ZERO] : [ZERO, ONE];
  const chosen = task.wires.map(() => false);
  for (const input of network.inputs) {
    const s = task.wires.findIndex((wire) => wire.signal === input.signal && wire.rail === input.rail);
    chosen[s] = true;
    wireOf.push(FIRST_INPUT + s);
  }
  const first = FIRST_INPUT + task.wires.length;
  for (let i = 0; i < network.size; i++) wireOf.push(first + i);
  const rename = (legs: Int32Array): number[] => Array.from(legs, (leg) => wireOf[leg]);
  return {
    chosen,
    low: network.outputs.map((output) => output.rail === 'low'),
    inverters: Array.from({ length: network.size }, (_, i) => rename(legsOf(network, i))),
    outputs: network.outputs.map((_, y) => rename(outputLegsOf(network, y))),
  };
}
