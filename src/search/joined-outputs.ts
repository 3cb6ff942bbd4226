// Targets whose joins stand at inverter inputs only, by way of those whose joins stand anywhere.
//
// Idea. There every output is one wire: an inverter, and the legs of that inverter are a join of the complement. So a
// network for f is a network for NOT f whose outputs may be joins, with one inverter more for each output, a tick later. In
// the other model moves are freer: a join may be taken apart and put together again while it is an output, where otherwise
// the last inverter of each output stands in the way. So a ladder for the complements with joins goes down beside the
// ladder for the target, and its rungs are starts for it.
//
// Correctness. NOR of the legs of an output is its complement, whatever the legs are.

import type { System } from '../equations/system.ts';
import { FIRST_INPUT } from '../network/network.ts';
import type { Target } from '../target/target.ts';
import type { Draft } from './draft.ts';
import type { Task } from './task.ts';

/** The same target with joins anywhere. */
export function withJoinedOutputs(target: Target): Target {
  return { ...target, join: { ...target.join, where: 'anywhere' } };
}

/** The same system with every output on its other rail; null when one is asked for on both rails. */
export function onOtherRails(system: System): System | null {
  if (system.outputs.some(({ rail }) => rail === 'both')) return null;
  const other = { high: 'low', low: 'high', either: 'either', both: 'both' } as const;
  return { ...system, outputs: system.outputs.map((output) => ({ ...output, rail: other[output.rail] })) };
}

/** From a draft with an inverter at every output to one of joins for the complements. */
export function joinedDraft(task: Task, { chosen, low, inverters, outputs }: Draft): Draft {
  const first = FIRST_INPUT + task.wires.length;
  const more = [...inverters];
  const joined = outputs.map((legs) => {
    const [wire] = legs;
    if (legs.length === 1 && wire >= first) return inverters[wire - first];
    more.push(legs);
    return [first + more.length - 1];
  });
  return { chosen, low: low.map((isLow) => !isLow), inverters: more, outputs: joined };
}

/** From a draft of joins for the complements to one with an inverter at every output. */
export function singleDraft(task: Task, { chosen, low, inverters, outputs }: Draft): Draft {
  const first = FIRST_INPUT + task.wires.length;
  const more = [...inverters];
  const known = new Map(inverters.map((legs, i) => [keyOf(legs), first + i]));
  const single = outputs.map((legs) => {
    const key = keyOf(legs);
    let wire = known.get(key);
    if (wire === undefined) {
      more.push(legs);
      wire = first + more.length - 1;
      known.set(key, wire);
    }
    return [wire];
  });
  return { chosen, low: low.map((isLow) => !isLow), inverters: more, outputs: single };
}

function keyOf(legs: readonly number[]): string {
  return [...new Set(legs)].sort((a, b) => a - b).join(' ');
}
