// A draft is a network in the making: legs as plain lists over all candidate wires of a task, and the rails chosen.
// The search makes drafts, checks them against the tables of the task and turns the good ones into networks.

import { legsOf, outputLegsOf, tidyNetwork } from '../network/build-network.ts';
import { FIRST_INPUT, type InputWire, type Network, ONE, type OutputWire, ZERO } from '../network/network.ts';
import { constantTable, firstRow, nor, orInto, type Table } from '../truth/table.ts';
import { type WordLoops, wordLoops } from '../truth/word-loops.ts';
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
const CHECK_WORDS = 128;

/** The first row on which some output of the draft is wrong, or -1. */
export function firstWrongRow(task: Task, draft: Draft): number {
  const loops = wordLoops();
  const mark = loops.mark();
  try {
    return wrongRow(task, draft, loops);
  } finally {
    loops.release(mark);
  }
}

function wrongRow(task: Task, draft: Draft, loops: WordLoops): number {
  const { inverters, outputs, low } = draft;
  const { run } = loops;
  const words = task.care.length;
  const bytes = loops.bytesOf(Math.min(words, CHECK_WORDS));
  const first = FIRST_INPUT + task.wires.length;
  const levels = loops.take((first + inverters.length) * bytes);
  const on = loops.take(outputs.length * bytes);
  const off = loops.take(outputs.length * bytes);
  const wrong = loops.take(bytes);
  const mask = loops.maskOf(task.rowBits);
  // The legs of all inverters, then those of all outputs, as addresses.
  const joins = [...inverters, ...outputs];
  const lists = loops.take(4 * joins.reduce((sum, legs) => sum + legs.length, 0));
  const memory = loops.words;
  let to = lists >> 2;
  for (const legs of joins) for (const leg of legs) memory[to++] = levels + leg * bytes;
  const one = levels + ONE * bytes;
  run.nor3(levels, levels, levels, one, one, bytes, mask);
  const required = outputs.map(
    (_, y) => [requiredOn(task, y, low[y]), requiredOff(task, y, low[y])] as const,
  );
  for (let start = 0; start < words; start += CHECK_WORDS) {
    const end = Math.min(start + CHECK_WORDS, words);
    for (let s = 0; s < task.wires.length; s++)
      memory.set(task.wires[s].table.subarray(start, end), (levels + (FIRST_INPUT + s) * bytes) >> 2);
    let list = lists;
    let at = levels + first * bytes;
    for (let i = 0; i < inverters.length; i++) {
      run.norOf(list, inverters[i].length, at, at, bytes, mask);
      list += 4 * inverters[i].length;
      at += bytes;
    }
    let isWrong = 0;
    loops.clear(wrong, bytes);
    for (let y = 0; y < outputs.length; y++) {
      memory.set(required[y][0].subarray(start, end), (on + y * bytes) >> 2);
      memory.set(required[y][1].subarray(start, end), (off + y * bytes) >> 2);
      isWrong = run.addWrong(list, outputs[y].length, on + y * bytes, off + y * bytes, wrong, bytes);
      list += 4 * outputs[y].length;
    }
    if (isWrong !== 0)
      return 32 * start + firstRow(memory.subarray(wrong >> 2, (wrong >> 2) + (end - start)));
  }
  return -1;
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
