// Systems that are too large to be searched like others: they are answered in outline.
//
// Why. The steps that make networks fast (look-ahead.ts, speed-up.ts) and small (grow-and-shrink.ts) look at the whole
// network again and again. Their counted limits bound each of them, but one look at a network of tens of thousands of
// inverters costs as much as a whole search of a small one. Beyond the size below there are a few networks to choose from:
// as written, as written with long parities as trees, with chains in a few shapes of blocks, covers by networks of the
// catalogue where the system is not too large for that, and a cover of two levels where tables are whole. The one that
// the budget chooses is made smaller window by window (windows.ts), which needs no
// look at the whole. An effort of `deep` searches every size like a small one.
//
// Correctness. Trees, covers, windows and the network as written are right by construction; what comes from chains that were
// found on a sample of rows is checked by the caller. The rest is not, since a proof costs as much as all of this together.
//
// The size is counted, never timed: inverters as written, and for systems without whole tables inverters times inputs,
// since that is what the long joins of look-ahead, and samples, grow with. A ripple adder of 64 bits (832 inverters as
// written, 129 inputs) is searched whole; one of 128 bits only when ticks or a frontier are asked for, a chain of 400
// stages with 801 inputs never.

import type { Expression, System } from '../equations/system.ts';
import type { Target } from '../target/target.ts';
import { asWrittenDraft } from './as-written.ts';
import { type Draft, firstWrongRow } from './draft.ts';
import type { Effort } from './limits.ts';
import { lookAheadDrafts } from './look-ahead.ts';
import type { Random } from './random.ts';
import { Sample } from './sample.ts';
import type { Task } from './task.ts';
import { improveByWindows } from './windows.ts';

/**
 * Inverters as written, and inverters times inputs, of the largest system that is searched whole; the latter also for a
 * question about ticks or a frontier, which may take longer than an answer to nothing in particular.
 */
export const MOST_WHOLE = { inverters: 5_000, timesInputs: 115_000, timesInputsAsked: 450_000 } as const;

/** Words that windows may cost in all. */
const WINDOW_WORDS = 1.2e7;
/**
 * Conflicts of each question about the fewest ticks, signals that all of them may look at, and what part of their usual
 * limits it may cost to make a cover of two levels smaller.
 */
export const OUTLINE_LIMITS = { conflicts: 50, work: 300_000, flatShare: 1 / 8 } as const;

/** What is asked about a system. */
interface Asked {
  readonly ticks: number | null;
  readonly frontier?: boolean;
  readonly effort: Effort;
}

/** Whether a system is answered in outline. */
export function isInOutline(task: Task, written: Draft, { ticks, frontier, effort }: Asked): boolean {
  if (effort === 'deep') return false;
  if (written.inverters.length > MOST_WHOLE.inverters) return true;
  const isPlain = ticks === null && frontier !== true;
  const most = isPlain ? MOST_WHOLE.timesInputs : MOST_WHOLE.timesInputsAsked;
  return !task.exhaustive && wideSize(task, written) > most;
}

/** Inverters as written, times inputs. */
export function wideSize(task: Task, written: Draft): number {
  return written.inverters.length * new Set(task.wires.map(({ input }) => input)).size;
}

/** Row bits of the sample on which chains are found and checked. */
const SAMPLE_BITS = 9;

/** The networks that there are to choose from: those that are right by construction, and those that are on a sample. */
export function outlineDrafts(
  system: System,
  task: Task,
  target: Target,
  written: Draft,
  random: Random,
): { readonly sure: readonly Draft[]; readonly likely: readonly Draft[] } {
  const trees = withParityTrees(system);
  const sure = trees === null ? [written] : [written, asWrittenDraft(trees, task)];
  const sample = new Sample(system, target, SAMPLE_BITS, random);
  const sampled = sample.task();
  const shapes = lookAheadDrafts(system, sample.tables(), task, target, true);
  const likely = shapes.map(({ draft }) => draft).filter((draft) => firstWrongRow(sampled, draft) < 0);
  return { sure, likely };
}

/** The same system with every parity of more than two operands as a tree; null when there is none. */
function withParityTrees(system: System): System | null {
  let isChanged = false;
  const tree = (args: readonly Expression[]): Expression => {
    if (args.length === 1) return args[0];
    const half = args.length >> 1;
    return { kind: 'xor', args: [tree(args.slice(0, half)), tree(args.slice(half))] };
  };
  const changed = (e: Expression): Expression => {
    switch (e.kind) {
      case 'constant':
      case 'signal':
        return e;
      case 'not':
        return { kind: 'not', argument: changed(e.argument) };
      case 'implies':
      case 'equals':
        return { kind: e.kind, left: changed(e.left), right: changed(e.right) };
      case 'mux':
        return { kind: 'mux', select: changed(e.select), when0: changed(e.when0), when1: changed(e.when1) };
      case 'maj': {
        const [a, b, c] = e.args.map(changed);
        return { kind: 'maj', args: [a, b, c] };
      }
      case 'xor':
      case 'xnor': {
        const args = e.args.map(changed);
        if (args.length <= 2) return { kind: e.kind, args };
        isChanged = true;
        const half = args.length >> 1;
        return { kind: e.kind, args: [tree(args.slice(0, half)), tree(args.slice(half))] };
      }
      default:
        return { kind: e.kind, args: e.args.map(changed) };
    }
  };
  const definitions = system.definitions.map((definition) => ({
    ...definition,
    expression: changed(definition.expression),
  }));
  return isChanged ? { ...system, definitions } : null;
}

/** A draft made smaller within the bounds, one window after the other. */
export function outlined(task: Task, draft: Draft, bounds: readonly number[], random: Random): Draft {
  return improveByWindows(task, draft, bounds, random, WINDOW_WORDS).draft;
}
