// A system searched in its independent parts where it has such, and whole where it has none or is small.
//
// Only questions to the whole can prove that a whole is smallest (apart.ts says why), and they end where it is small. So
// a system that came out small is asked for exactly once more, beginning with what its parts came to; what that proves
// is said of it, and where it finds fewer inverters, that is the answer.

import type { System } from '../equations/system.ts';
import { MOST_UNASKED, operatorCount } from '../equations/system-size.ts';
import type { Target } from '../target/target.ts';
import { LIMITS } from './limits.ts';
import { type Outcome, type Point, runSearch, type SearchOptions } from './run-search.ts';
import { type JudgeOf, searchParts } from './search-apart.ts';
import { SystemParts } from './subsystem.ts';
import type { Task } from './task.ts';

/** A system of so few inputs is searched whole from the beginning. */
const WHOLE_INPUTS = 5;
/** One of so many inputs and inverters is asked for exactly once its parts are known. */
const EXACT_INPUTS = 10;
const MOST_EXACT = 14;

/** The search of a system, in parts where it has independent ones. Arguments as for `runSearch`. */
export function searchSystem(
  system: System,
  task: Task,
  target: Target,
  options: SearchOptions,
  judgeOf: JudgeOf,
): Outcome {
  const inputs = system.inputs.length;
  const whole = (more: Partial<SearchOptions>): Outcome =>
    runSearch(system, task, target, { ...options, ...more }, judgeOf(system));
  if (inputs <= WHOLE_INPUTS) return whole({});
  const cutter = new SystemParts(system);
  const parts = cutter.independent().map((outputs) => cutter.part(outputs));
  if (parts.length === 1 && parts[0].system.inputs.length === inputs) return whole({});
  const outcome = searchParts(system, task, target, parts, options, judgeOf);
  // Only questions to the whole can prove that it is smallest, and they end where it is small.
  const points = outcome.frontier ?? (outcome.answer === null ? [] : [outcome.answer]);
  const isSmall = inputs <= EXACT_INPUTS && points.every(({ inverters }) => inverters <= MOST_EXACT);
  const isOpen = points.some(({ sizeProved }) => !sizeProved) && outcome.stop !== 'cut short';
  if (!isSmall || !isOpen || options.isFurther === true) return outcome;
  const known = points.map(({ network }) => network);
  const limits = options.limits ?? LIMITS[options.effort];
  const quick = { ...limits, conflicts: limits.firstConflicts };
  return withProofs(outcome, whole({ known, bound: outcome.fastest, limits: quick }));
}

/** What was found apart with what questions to the whole have proved of it; the whole where it has fewer inverters. */
function withProofs(apart: Outcome, whole: Outcome): Outcome {
  const pointsOf = ({ frontier, answer }: Outcome): readonly Point[] =>
    frontier ?? (answer === null ? [] : [answer]);
  const found = pointsOf(whole);
  const isBeaten = pointsOf(apart).some((point) =>
    found.some(({ openTicks, inverters }) => openTicks <= point.openTicks && inverters < point.inverters),
  );
  if (isBeaten || whole.stop === 'cut short') return whole;
  const proved = (point: Point): Point => {
    const isProved = found.some(
      ({ openTicks, inverters, sizeProved }) =>
        sizeProved && openTicks >= point.openTicks && inverters >= point.inverters,
    );
    const { provedApart: _, ...rest } = point;
    return isProved ? { ...rest, sizeProved: true } : point;
  };
  const frontier = apart.frontier?.map(proved) ?? null;
  const answer = apart.answer === null ? null : proved(apart.answer);
  const chosen = frontier?.find(({ openTicks }) => openTicks === answer?.openTicks) ?? answer;
  return { ...apart, frontier, answer: chosen, leastSize: Math.max(apart.leastSize, whole.leastSize) };
}

/** The operators of the independent part of a system that has most. */
export function mostTogether(system: System): number {
  const all = operatorCount(system);
  if (all <= MOST_UNASKED.together) return all;
  const cutter = new SystemParts(system);
  const sizes = cutter.independent().map((outputs) => operatorCount(cutter.part(outputs).system));
  return Math.max(0, ...sizes);
}
