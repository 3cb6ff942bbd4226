// Last choices among networks of one size: earlier outputs, and rails that a reader expects.
//
// Idea. The size is settled; the exact search is asked again with one bound tightened at a time: first the latest
// output, then each output in its order, each until it can go no lower. Then every input that was left to the search
// and came out active-low is asked for active-high, so that a low rail in the answer means that it is needed. Each
// question has exactly the size of the network at hand, so nothing can get larger; a question that runs into the limit
// leaves things as they are.
//
// Cost. One exact question per tick gained or rail tried.

import { countCopies } from '../network/copies.ts';
import { outputTicks } from '../network/levels.ts';
import type { Network } from '../network/network.ts';
import { exactNetwork } from './exact.ts';
import { fastest } from './fastest.ts';
import type { Allowance } from './limits.ts';
import type { Task } from './task.ts';

/** A network of the same size within the same bounds, no output later than before the call. */
export function settleChoices(
  task: Task,
  network: Network,
  bounds: readonly number[],
  rows: number[],
  conflicts: Allowance,
): Network {
  const { inverterOutputs } = task.rules;
  const copies = countCopies(network, Number.isFinite(inverterOutputs) ? inverterOutputs : null);
  const ask = (asked: Task, by: readonly number[]): Network | null => {
    if (conflicts.spent || network.size === 0) return null;
    const question = { task: asked, size: network.size, copies, by, maxConflicts: conflicts.remaining, rows };
    const answer = exactNetwork(question, (count) => conflicts.take(count));
    return answer.kind === 'found' ? answer.network : null;
  };
  let best = network;
  let ticks = outputTicks(best, task.rules);
  const { each } = fastest(task);
  const accept = (found: Network): void => {
    best = found;
    ticks = outputTicks(best, task.rules);
  };

  for (let latest = Math.max(0, ...ticks); latest > Math.max(0, ...each); ) {
    const found = ask(
      task,
      bounds.map((bound) => Math.min(bound, latest - 1)),
    );
    if (found === null) break;
    accept(found);
    if (Math.max(0, ...ticks) >= latest) break;
    latest = Math.max(0, ...ticks);
  }
  task.outputs.forEach((_, y) => {
    while (ticks[y] > each[y]) {
      const found = ask(
        task,
        ticks.map((tick, other) => (other === y ? tick - 1 : tick)),
      );
      if (found === null) break;
      const before = ticks[y];
      accept(found);
      if (ticks[y] >= before) break;
    }
  });
  return preferHigh(task, best, ticks, ask);
}

/** Asks for every undecided input rail that came out low to be high. */
function preferHigh(
  task: Task,
  network: Network,
  ticks: readonly number[],
  ask: (task: Task, by: readonly number[]) => Network | null,
): Network {
  let best = network;
  let narrowed = task;
  for (const wire of task.wires) {
    if (wire.rival < 0 || wire.rail === 'high') continue;
    const isLow = best.inputs.some((input) => input.signal === wire.signal && input.rail === 'low');
    if (!isLow) continue;
    const trial = withoutLow(narrowed, wire.signal);
    const found = ask(trial, ticks);
    if (found === null) continue;
    best = found;
    narrowed = trial;
  }
  return best;
}

/** The same task with the low-rail candidate of one signal taken away. */
function withoutLow(task: Task, signal: number): Task {
  const gone = task.wires.findIndex((wire) => wire.signal === signal && wire.rail === 'low');
  const wires = task.wires
    .filter((_, s) => s !== gone)
    .map((wire) => ({
      ...wire,
      rival: wire.signal === signal || wire.rival < 0 ? -1 : wire.rival > gone ? wire.rival - 1 : wire.rival,
    }));
  return { ...task, wires };
}
