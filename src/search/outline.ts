// Systems that are too large to be searched like others: they are answered in outline.
//
// Why. The steps that make networks fast (look-ahead.ts, speed-up.ts) and small (grow-and-shrink.ts) look at the whole
// network again and again. Their counted limits bound each of them, but one look at a network of tens of thousands of
// inverters costs as much as a whole search of a small one. Beyond the size below the network as written is made smaller
// window by window (windows.ts), which needs no look at the whole and no proof, and that is the answer: right, with its
// ticks, and said to be what it is. An effort of `deep` searches every size like a small one.
//
// The size is counted, never timed: inverters as written, and for systems without whole tables inverters times inputs,
// since that is what the long joins of look-ahead, and samples, grow with. A ripple adder of 128 bits (1,665 inverters
// as written, 257 inputs) is searched whole; a chain of 400 stages with 801 inputs is not.

import type { Draft } from './draft.ts';
import type { Effort } from './limits.ts';
import type { Random } from './random.ts';
import type { Task } from './task.ts';
import { improveByWindows } from './windows.ts';

/** Inverters as written, and inverters times inputs, of the largest system that is searched whole. */
export const MOST_WHOLE = { inverters: 5_000, timesInputs: 450_000 } as const;

/** Words that windows may cost in all. */
const WINDOW_WORDS = 6e7;
/** Conflicts of each question about the fewest ticks, and signals that all of them may look at. */
export const OUTLINE_LIMITS = { conflicts: 50, work: 1_500_000 } as const;

/** Whether a system is answered in outline. */
export function isInOutline(task: Task, written: Draft, effort: Effort): boolean {
  if (effort === 'deep') return false;
  const inverters = written.inverters.length;
  const inputs = new Set(task.wires.map(({ input }) => input)).size;
  return (
    inverters > MOST_WHOLE.inverters || (!task.exhaustive && inverters * inputs > MOST_WHOLE.timesInputs)
  );
}

/** A draft made smaller within the bounds, one window after the other. */
export function outlined(task: Task, draft: Draft, bounds: readonly number[], random: Random): Draft {
  return improveByWindows(task, draft, bounds, random, WINDOW_WORDS).draft;
}
