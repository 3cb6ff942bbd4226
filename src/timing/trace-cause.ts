// Why did this wire change at this tick? The way back from a change to the input that caused it, one wire a step: of
// the legs that changed the right way at the right tick the first is taken.

import { causeOf, delayOf, type Edge, type Path, type PathStep } from './arrivals.ts';
import { legsOfWire } from './circuit.ts';
import type { History } from './history.ts';

/** The steps from an input wire to `wire`, which must change at `tick` in this run. */
export function traceCause(history: History, wire: number, tick: number): Path {
  const { circuit } = history;
  const steps: PathStep[] = [];
  for (let [at, when] = [wire, tick]; ; ) {
    const edge: Edge = history.levels[at][when] === 1 ? 'on' : 'off';
    steps.unshift({ wire: at, tick: when, edge });
    const cause = causeOf(circuit, at, edge);
    const before = when - delayOf(circuit, at, edge);
    const leg = legsOfWire(circuit, at).find((candidate) => changedTo(history, candidate, before, cause));
    if (leg === undefined) return { steps };
    [at, when] = [leg, before];
  }
}

function changedTo(history: History, wire: number, tick: number, edge: Edge): boolean {
  if (tick < 0) return false;
  const levels = history.levels[wire];
  const before = tick === 0 ? history.before[wire] : levels[tick - 1];
  return levels[tick] !== before && levels[tick] === (edge === 'on' ? 1 : 0);
}
