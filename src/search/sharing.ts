// Which outputs share logic: all of them, none, or those that have most of their inputs in common.
//
// Ways. `together`: whatever can share may, which gives the fewest parts; outputs that have no input in common are still
// searched apart (search-apart.ts), since they have nothing to share. `alone`: every output is a system of its own, as
// when each is built on a board of its own. `grouped`: outputs are searched together where one has more than half of
// its inputs in common with another, directly or through others; a control line that runs to all of them does not make
// them one group.
//
// What must agree. An input whose rail is left to the search has one rail, wherever it is used: the outputs that use it
// stay in one group, also those that a `never` brings it to. Nothing else couples groups: where patterns cannot happen,
// or rows are free, every network may do what it likes by itself.
//
// The saving is told at equal ticks. A network in which nothing is shared is also one in which something might be, so
// what is found together is never counted as more than what is found apart.

import type { System } from '../equations/system.ts';
import { networkTicks, outputTicks, tickCosts } from '../network/levels.ts';
import type { Target } from '../target/target.ts';
import type { Outcome, Point, SearchOptions } from './run-search.ts';
import { type JudgeOf, searchParts } from './search-apart.ts';
import { searchSystem } from './search-system.ts';
import { SystemParts } from './subsystem.ts';
import type { Task } from './task.ts';

export const WAYS = ['together', 'grouped', 'alone'] as const;

export type Way = (typeof WAYS)[number];

export interface Groups {
  /** Positions of outputs, in the order of the first of each group. */
  readonly groups: readonly (readonly number[])[];
  /** Signals of inputs because of which outputs stay in one group that would else be apart. */
  readonly tying: readonly number[];
}

/** The groups of a way. */
export function groupsOf(system: System, way: Way): Groups {
  const count = system.outputs.length;
  if (way === 'together') return { groups: [system.outputs.map((_, y) => y)], tying: [] };
  const parts = new SystemParts(system);
  const inputs = parts.inputsOfOutputs();
  const leader = Array.from({ length: count }, (_, y) => y);
  const find = (y: number): number => {
    let at = y;
    while (leader[at] !== at) at = leader[at];
    return at;
  };
  const unite = (a: number, b: number): boolean => {
    const [one, other] = [find(a), find(b)];
    if (one === other) return false;
    leader[Math.max(one, other)] = Math.min(one, other);
    return true;
  };
  if (way === 'grouped') {
    for (let b = 1; b < count; b++) {
      for (let a = 0; a < b; a++) {
        const [few, many] = inputs[a].size < inputs[b].size ? [inputs[a], inputs[b]] : [inputs[b], inputs[a]];
        let common = 0;
        for (const input of few) if (many.has(input)) common++;
        if (2 * common > few.size) unite(a, b);
      }
    }
  }
  const tying: number[] = [];
  const isChosen = system.inputs.some(({ rail }) => rail === 'either');
  // A network may use an input that only a `never` couples to its output.
  const usable = isChosen ? system.outputs.map((_, y) => parts.inputsCoupledTo(y)) : [];
  system.inputs.forEach(({ signal, rail }, input) => {
    if (rail !== 'either') return;
    const users = usable.flatMap((of, y) => (of.has(input) ? [y] : []));
    const isTying = users.map((y) => unite(users[0], y)).some(Boolean);
    if (isTying) tying.push(signal);
  });
  const groups = new Map<number, number[]>();
  for (let y = 0; y < count; y++) groups.set(find(y), [...(groups.get(find(y)) ?? []), y]);
  return { groups: [...groups.values()], tying };
}

/** The search of a system in the groups of a way; arguments as for `searchSystem`. */
export function searchShared(
  system: System,
  task: Task,
  target: Target,
  way: Way,
  options: SearchOptions,
  judgeOf: JudgeOf,
): Outcome {
  const { groups } = groupsOf(system, way);
  if (groups.length === 1) return searchSystem(system, task, target, options, judgeOf);
  const cutter = new SystemParts(system);
  const parts = groups.map((outputs) => cutter.part(outputs));
  return searchParts(system, task, target, parts, options, judgeOf);
}

/**
 * A system, and a limit on ticks, under which another way of sharing can be compared with an answer: no output may be
 * later than the latest output of the same kind, with a deadline or without.
 */
export function comparable(
  system: System,
  { network }: Point,
  target: Target,
): { readonly system: System; readonly ticks: number | null } {
  const costs = tickCosts(target);
  if (system.outputs.every(({ by }) => by === null)) return { system, ticks: networkTicks(network, costs) };
  const ticks = outputTicks(network, costs);
  const fixed = new Set(system.outputs.flatMap(({ signal, by }) => (by === null ? [] : [signal])));
  const open = Math.max(0, ...ticks.filter((_, y) => !fixed.has(network.outputs[y].signal)));
  return {
    system: { ...system, outputs: system.outputs.map((output) => ({ ...output, by: output.by ?? open })) },
    ticks: null,
  };
}
