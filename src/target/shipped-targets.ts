// The targets that come with the tool. Each stands here exactly once; help, messages and tests derive from this list.
// What a gate costs is never written down: it follows from the join and the inverter.

import type { Target } from './target.ts';

/** The default, and what a profile means where it says nothing. */
export const JOINED_OR: Target = {
  name: 'joined-or',
  summary: 'joined wires are OR, at once; inverters with any number of legs and of separate outputs',
  join: { logic: 'or', ticks: 0, where: 'anywhere', maxLegs: null },
  inverter: {
    ticks: 1,
    ticksOn: 1,
    ticksOff: 1,
    parts: 1,
    maxLegs: null,
    outputs: null,
    minPulse: 0,
    wear: null,
  },
  input: { outputs: null },
  secondsPerTick: null,
};

/** In the order in which help shows them. */
export const SHIPPED_TARGETS: readonly Target[] = [
  JOINED_OR,
  {
    ...JOINED_OR,
    name: 'joined-or-single',
    summary: 'the same, but an inverter feeds one wire only: copies cost parts',
    inverter: { ...JOINED_OR.inverter, outputs: 1 },
  },
  {
    ...JOINED_OR,
    name: 'joined-or-4',
    summary: 'the same as joined-or, but at most four legs meet anywhere',
    join: { ...JOINED_OR.join, maxLegs: 4 },
    inverter: { ...JOINED_OR.inverter, maxLegs: 4 },
  },
  {
    ...JOINED_OR,
    name: 'nor-gates',
    summary: 'legs meet at the inputs of inverters only: plain NOR gates',
    join: { ...JOINED_OR.join, where: 'inverter-inputs' },
  },
  {
    ...JOINED_OR,
    name: 'joined-and',
    summary: 'joined wires are AND, at once, as with open collectors: the dual of joined-or',
    join: { ...JOINED_OR.join, logic: 'and' },
  },
];

/** The shipped target of that name, or null. */
export function shippedTarget(name: string): Target | null {
  return SHIPPED_TARGETS.find((target) => target.name === name) ?? null;
}
