// What the search is asked for: a function for every output, the wires it may start from, and the rules of the target,
// with everything that only people care about (names, AND instead of OR, `both`) already resolved.
//
// Joins that compute AND are the mirror image of joins that compute OR: exchange the two levels on every wire and one
// becomes the other. So the search knows OR only; for a target with AND the tables of the wires and of the outputs
// stand here complemented, and the network that is found is right as it is.

import type { System } from '../equations/system.ts';
import type { WireRail } from '../network/network.ts';
import type { Target } from '../target/target.ts';
import type { SystemTables } from '../truth/system-tables.ts';
import { and, not, type Table, without } from '../truth/table.ts';

/** Up to this many row bits tables are short; above it the ladder works on a sample of the rows. */
export const SAMPLE_BITS = 10;

export interface TaskWire {
  readonly signal: number;
  readonly rail: WireRail;
  readonly tick: number;
  /** Number of the input it carries, and whether its level is that input (else its complement). */
  readonly input: number;
  readonly straight: boolean;
  /** Level of the wire, by row. */
  readonly table: Table;
  /** The other candidate when the reader left the rail to the search (only one of the two may be used), else -1. */
  readonly rival: number;
}

export interface TaskOutput {
  readonly signal: number;
  /** Rail of the wire; `either` when the search may choose, then `on` and `off` may be exchanged. */
  readonly rail: WireRail | 'either';
  /** Rows where the level must be 1 (on the high rail when the rail is left to the search). */
  readonly on: Table;
  /** Rows where the level must be 0. */
  readonly off: Table;
  /** Latest tick that the reader allows, or null: as fast as possible. */
  readonly by: number | null;
}

/** The rules of a target that the search needs. Infinity stands for "any number". */
export interface Rules {
  readonly joinTicks: number;
  readonly inverterTicks: number;
  readonly inverterLegs: number;
  readonly outputLegs: number;
  /** Separate wires that an inverter can feed; more cost copies. */
  readonly inverterOutputs: number;
}

export interface Task {
  /** Tables have 2^rowBits rows. */
  readonly rowBits: number;
  /** True: a row for every pattern, numbered by the inputs, the first input is bit 0. False: a sample of patterns. */
  readonly exhaustive: boolean;
  readonly wires: readonly TaskWire[];
  readonly outputs: readonly TaskOutput[];
  /** Rows that can happen. */
  readonly care: Table;
  readonly rules: Rules;
  /** The joins of the target compute AND: tables are complemented. */
  readonly mirrored: boolean;
}

/** The rules of a target as the search needs them. */
export function rulesOf(target: Target): Rules {
  return {
    joinTicks: target.join.ticks,
    inverterTicks: target.inverter.ticks,
    inverterLegs: target.inverter.maxLegs ?? Number.POSITIVE_INFINITY,
    outputLegs:
      target.join.where === 'inverter-inputs' ? 1 : (target.join.maxLegs ?? Number.POSITIVE_INFINITY),
    inverterOutputs: target.inverter.outputs ?? Number.POSITIVE_INFINITY,
  };
}

/** Resolves rails and mirrors tables; `tables` must have been made from the same system, `exhaustive` if they are whole. */
export function makeTask(system: System, tables: SystemTables, target: Target, exhaustive = true): Task {
  const rowBits = tables.inputs;
  const mirrored = target.join.logic === 'and';
  const wires: TaskWire[] = [];
  system.inputs.forEach((input, index) => {
    const level = tables.signals[input.signal];
    const rails: WireRail[] = input.rail === 'high' || input.rail === 'low' ? [input.rail] : ['high', 'low'];
    const first = wires.length;
    for (const rail of rails) {
      wires.push({
        signal: input.signal,
        rail,
        tick: input.tick,
        input: index,
        straight: (rail === 'high') !== mirrored,
        table: (rail === 'high') !== mirrored ? level : not(level, rowBits),
        rival: input.rail === 'either' ? (rail === 'high' ? first + 1 : first) : -1,
      });
    }
  });
  const outputs: TaskOutput[] = [];
  for (const output of system.outputs) {
    const value = tables.signals[output.signal];
    const free = tables.free.get(output.signal);
    const fixed = free === undefined ? tables.care : without(tables.care, free);
    const on = mirrored ? without(fixed, value) : and(fixed, value);
    const off = mirrored ? and(fixed, value) : without(fixed, value);
    const { signal, by } = output;
    if (output.rail === 'high' || output.rail === 'both') outputs.push({ signal, rail: 'high', on, off, by });
    if (output.rail === 'low' || output.rail === 'both')
      outputs.push({ signal, rail: 'low', on: off, off: on, by });
    if (output.rail === 'either') outputs.push({ signal, rail: 'either', on, off, by });
  }
  return {
    rowBits,
    exhaustive,
    wires,
    outputs,
    care: tables.care,
    rules: rulesOf(target),
    mirrored,
  };
}
