// A draft is a network in the making: legs as plain lists over all candidate wires of a task, and the rails chosen.
// The search makes drafts, checks them against the tables of the task and turns the good ones into networks.

import { legsOf, outputLegsOf, tidyNetwork } from '../network/build-network.ts';
import { FIRST_INPUT, type InputWire, type Network, ONE, type OutputWire, ZERO } from '../network/network.ts';
import { and, constantTable, firstRow, not, or, orInto, type Table } from '../truth/table.ts';
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
  for (const legs of inverters) tables.push(not(joinTable(task, tables, legs), task.rowBits));
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

/** The first row on which some output of the draft is wrong, or -1. */
export function firstWrongRow(task: Task, draft: Draft): number {
  const tables = draftTables(task, draft.inverters);
  let first = -1;
  draft.outputs.forEach((legs, y) => {
    const level = joinTable(task, tables, legs);
    const low = draft.low[y];
    const wrong = or(
      and(level, requiredOff(task, y, low)),
      and(not(level, task.rowBits), requiredOn(task, y, low)),
    );
    const row = firstRow(wrong);
    if (row >= 0 && (first < 0 || row < first)) first = row;
  });
  return first;
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
