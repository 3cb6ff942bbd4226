// A built block as a result that the printers can show: its inverters under the names that the builder gave them, each
// join as the legs of who reads it, and what `conflicts` found at the boxes where it shows.

import { builtCosts } from '../network/built-costs.ts';
import { type BuiltNetwork, builtLegs } from '../network/built-network.ts';
import { driversOf } from '../network/lay-built.ts';
import { FIRST_INPUT } from '../network/network.ts';
import { emptyResult, type StatedOptions } from './assemble.ts';
import type { BlockReport } from './conflicts.ts';
import type { Point, Result } from './result.ts';

/** Why such a result ended: there was nothing to search. */
export const BUILT_BLOCK = 'built block';

/** Something wrong at a wire or an output of a picture. */
export interface MarkedWire {
  readonly wire: string;
  readonly text: string;
}

/** The result of one block, as drawn, with the wires to mark. `report` is what `conflicts` says about the block. */
export function drawnBlock(
  source: string,
  built: BuiltNetwork,
  report: BlockReport | null,
  options: StatedOptions,
): { readonly result: Result; readonly marks: readonly MarkedWire[] } {
  const { target } = options;
  const { parts, copies, ticks } = builtCosts(built, target);
  const tick = new Map<number, number>();
  /** Inverters, inputs and constants behind a wire, through runs, and the tick at which their join is there. */
  const behind = (wires: Iterable<number>): { legs: number[]; settles: number } => {
    const legs = new Set<number>();
    let settles = 0;
    let ends = 0;
    const follow = (wire: number, late: number): void => {
      for (const driver of driversOf(built, wire)) {
        if (built.kinds[driver] === 'run') {
          for (const leg of builtLegs(built, driver)) follow(leg, late + built.delay[driver]);
          continue;
        }
        legs.add(driver);
        ends++;
        settles = Math.max(settles, late + (tick.get(driver) ?? 0));
      }
    };
    for (const wire of wires) follow(wire, 0);
    return { legs: [...legs], settles: settles + (ends > 1 ? target.join.ticks : 0) };
  };
  const named = (legs: readonly number[]): string[] => legs.map((leg) => built.names[leg]);
  built.inputs.forEach((input, at) => {
    tick.set(FIRST_INPUT + at, input.tick);
  });
  const inverters: Point['network']['inverters'][number][] = [];
  built.kinds.forEach((kind, wire) => {
    if (kind !== 'inverter') return;
    const { legs, settles } = behind(builtLegs(built, wire));
    const at = settles + target.inverter.ticks;
    tick.set(wire, at);
    inverters.push({ wire: built.names[wire], legs: named(legs), tick: at });
  });
  const outputs = built.outputs.map(({ wire, rail }) => {
    const { legs, settles } = behind([wire]);
    return { name: built.names[wire], rail, legs: named(legs), tick: settles };
  });
  const point: Point = {
    ticks,
    parts,
    copies,
    legs: [...inverters, ...outputs].reduce((sum, { legs }) => sum + legs.length, 0),
    ticksProved: false,
    partsProved: false,
    network: {
      inputs: built.inputs.map(({ signal, rail, tick: at }, n) => ({
        name: signal,
        rail,
        wire: built.names[FIRST_INPUT + n],
        tick: at,
      })),
      inverters,
      outputs,
    },
    proof: { verdict: 'undecided', method: 'patterns' },
    rails: [],
  };
  const boxes = new Set([...inverters.map(({ wire }) => wire), ...outputs.map(({ name }) => name)]);
  return {
    result: { ...emptyResult(source, options), stop: BUILT_BLOCK, points: [point] },
    marks: (report?.conflicts ?? []).flatMap(({ severity, wire, readers, message }) => {
      if (severity === 'notice') return [];
      const shown = boxes.has(wire) ? [wire] : readers.filter((reader) => boxes.has(reader));
      return shown.map((name) => ({ wire: name, text: message }));
    }),
  };
}
