// Several walks over one frontier, and the best of each.
//
// Idea. What the ladder comes to depends on chance early on: one seed is good where another is bad, and twice the work
// on one walk gains less than a second walk. So a frontier that is not proved by the first walk is walked several
// times, each time with a seed of its own, and every tick count takes the best. Walks know nothing of each other, so a
// caller with several processors may run them at the same time; the answer depends on their number, not on who runs
// them. The effort fixes it, and normal effort walks more often where tables are short: a small network has one of the
// few sizes that there are around the smallest, one inverter is a twentieth of it, and it is luck which walk saves it.
//
// Systems that were searched in parts (apart.ts) take the best of every part, which is more than the best of their sums.
//
// Correctness. Every point comes from a walk. A size proved smallest for so many ticks by one walk is so for the same
// size in fewer ticks, whichever walk found it.

import { type Apart, bestPoints as bestPartPoints, type PartOutcome, wholeOutcome } from './apart.ts';
import { type Budget, chosenWithin, DEFAULT_BUDGET } from './budget.ts';
import type { Effort } from './limits.ts';
import type { Outcome, Point } from './run-search.ts';
import { SAMPLE_BITS } from './task.ts';

/** How many walks an effort is worth while tables are short, and how many beyond. */
const SHORT_WALKS: Readonly<Record<Effort, number>> = { quick: 2, normal: 6, deep: 12 };
const LONG_WALKS: Readonly<Record<Effort, number>> = { ...SHORT_WALKS, normal: 4 };
/** Odd, and its multiples are far apart in 32 bits. */
const SEED_STEP = 0x9e3779b1;

/** How many walks over the frontier of a system are worth their time with an effort. */
export function walksWorth(effort: Effort, rowBits: number): number {
  return (rowBits <= SAMPLE_BITS ? SHORT_WALKS : LONG_WALKS)[effort];
}

/** The seeds of all walks that any system may be worth; a search for an answer alone has one. */
export function walkSeeds({
  effort,
  seed,
  frontier,
}: {
  readonly effort: Effort;
  readonly seed: number;
  readonly frontier?: boolean;
}): number[] {
  return Array.from({ length: frontier ? SHORT_WALKS[effort] : 1 }, (_, n) => (seed + n * SEED_STEP) >>> 0);
}

/**
 * Whether further walks can be spared: everything is proved, or there is nothing to be found, or nobody wants it, or the
 * system is worth no more of them.
 *
 * @param outcome of one walk.
 * @param count how many walks there are with this one and those of the seeds before.
 */
export function isEnough({ frontier, stop, walks }: Outcome, count: number): boolean {
  return stop !== 'limit' || frontier === null || count >= (walks ?? Number.POSITIVE_INFINITY);
}

/**
 * What several walks, in the order of their seeds, come to together.
 *
 * @param outcomes at least one. Of those behind the first that is enough nothing is taken.
 */
export function mergeWalks(outcomes: readonly Outcome[], budget: Budget = DEFAULT_BUDGET): Outcome {
  const enough = outcomes.find((outcome) => outcome.stop === 'complete' || outcome.frontier === null);
  const [first] = outcomes;
  if (enough !== undefined) return enough;
  if (first === undefined) throw new Error('there is no walk to merge');
  const apart = mergedApart(outcomes);
  if (apart !== null) {
    return wholeOutcome(apart, first.asWritten, { ticks: null, budget, inverters: null, frontier: true });
  }
  const all = outcomes.flatMap(({ frontier }) => frontier ?? []);
  const frontier = bestPoints(all);
  const sizes = frontier.map((point) => point.inverters);
  const fastestSizes = outcomes.flatMap(({ fastestSize }) => fastestSize ?? []);
  return {
    ...first,
    frontier,
    answer: frontier[chosenWithin(budget, sizes)] ?? null,
    leastSize: Math.max(...outcomes.map(({ leastSize }) => leastSize)),
    fastestSize: fastestSizes.length === 0 ? null : Math.min(...fastestSizes),
    // The bounds are the same in all walks, but one that has only begun knows none.
    fastest: outcomes.reduce(
      (best, { fastest }) => (fastest.ticks > best.ticks ? fastest : best),
      first.fastest,
    ),
    stop: outcomes.some(({ stop }) => stop === 'cut short') ? 'cut short' : 'limit',
  };
}

/** What walks over a system that was searched in parts come to, part by part; null where they were not. */
function mergedApart(outcomes: readonly Outcome[]): Apart | null {
  const walked = outcomes.flatMap(({ apart }) => apart ?? []);
  const [first] = walked;
  if (walked.length < outcomes.length || first === undefined) return null;
  const parts = first.parts.map((part, n): PartOutcome => {
    const walks = walked.map((apart) => apart.parts[n]);
    // As for a whole system: behind a walk that is proved throughout there are no further ones.
    const enough = walks.find(({ stop }) => stop === 'complete');
    if (enough !== undefined) return enough;
    return {
      ...part,
      curve: bestPartPoints(walks.flatMap(({ curve }) => curve)),
      leastSize: Math.max(...walks.map(({ leastSize }) => leastSize)),
      stop: walks.some(({ stop }) => stop === 'cut short') ? 'cut short' : 'limit',
    };
  });
  return { ...first, parts };
}

/** The points that no other beats, fewest ticks first. */
function bestPoints(all: readonly Point[]): Point[] {
  const sorted = [...all].sort(
    (a, b) =>
      a.openTicks - b.openTicks || a.inverters - b.inverters || Number(b.sizeProved) - Number(a.sizeProved),
  );
  const kept: Point[] = [];
  for (const point of sorted) {
    const last = kept.at(-1);
    if (last === undefined || point.inverters < last.inverters) kept.push(point);
  }
  const isProved = (point: Point): boolean =>
    all.some(
      (other) => other.sizeProved && other.openTicks >= point.openTicks && other.inverters >= point.inverters,
    );
  return kept.map((point) => (isProved(point) ? { ...point, sizeProved: true } : point));
}
