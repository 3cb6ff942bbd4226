// Parts of a system that were searched apart, and what they come to together.
//
// Idea. The networks of the parts are laid side by side. Ticks of the whole are those of its latest part, inverters add
// up; so the whole has a point at every tick count at which one of the parts has one, and takes there the smallest
// network of each part that is in time. The budget looks at the sums.
//
// What is proved. Give all inputs but those of one part levels that can happen: what remains of any network of the whole
// is a network of that part, with no more inverters, no more legs, no more copies and no later ticks. So no network of
// the whole settles before the slowest part can, and none has fewer inverters than the largest lower bound of a part.
// One more is certain for each other part that needs any: an inverter has a leg from its inputs, or they would be
// joined only, and a level 1 on that wire makes it a constant for all the rest. That parts which have no input in common
// could share no inverter at all is plausible for small ones and wrong in general: for some functions two evaluations on
// separate inputs together take hardly more than one (D. Uhlig, On the synthesis of self-correcting schemes, 1974;
// W. J. Paul, Realizing Boolean functions on disjoint sets of variables, 1976; both from memory). So a sum of smallest
// parts is said to be that, and not to be the smallest whole, unless the bound reaches it.

import { countCopies } from '../network/copies.ts';
import type { Network } from '../network/network.ts';
import { putTogether, type WholeWires } from '../network/put-together.ts';
import { type Budget, chosenWithin } from './budget.ts';
import type { Fastest } from './fastest.ts';
import type { Outcome, Point, StopReason } from './run-search.ts';

/** A network of a part, in the signals of the whole. */
export interface PartPoint {
  readonly network: Network;
  readonly inverters: number;
  readonly ticks: number;
  readonly openTicks: number;
  /** No network of the part within so many ticks has fewer inverters; -1 when nothing is proved. */
  readonly provedWithin: number;
}

export interface PartOutcome {
  /** What was found and is not beaten, fewest ticks first. */
  readonly curve: readonly PartPoint[];
  readonly fastest: Fastest;
  /** Proved: no network of the part has fewer inverters, however many ticks it takes. */
  readonly leastSize: number;
  readonly stop: StopReason;
  /** It is so large that it was answered in outline. */
  readonly outline: boolean;
  /** For each output wire of the part its position among those of the whole. */
  readonly outputs: readonly number[];
}

export interface Apart {
  readonly wires: WholeWires;
  /** Separate wires that an inverter can feed, null for any number: copies are counted over the whole. */
  readonly inverterOutputs: number | null;
  readonly parts: readonly PartOutcome[];
}

export interface ApartWishes {
  /** Latest tick allowed, under which all parts were searched; null to choose by the budget. */
  readonly ticks: number | null;
  readonly budget: Budget;
  /** The most inverters, or null. */
  readonly inverters: number | null;
  readonly frontier: boolean;
}

/** The points that no other beats, fewest ticks first; what is proved of one holds for all that are as small. */
export function bestPoints(all: readonly PartPoint[]): PartPoint[] {
  const sorted = [...all].sort(
    (a, b) => a.openTicks - b.openTicks || a.inverters - b.inverters || b.provedWithin - a.provedWithin,
  );
  const kept: PartPoint[] = [];
  for (const point of sorted) {
    if (point.inverters < (kept.at(-1)?.inverters ?? Number.POSITIVE_INFINITY)) kept.push(point);
  }
  return kept.map((point) => {
    const proofs = all.filter(({ inverters }) => inverters >= point.inverters);
    return { ...point, provedWithin: Math.max(...proofs.map(({ provedWithin }) => provedWithin)) };
  });
}

/** The smallest network of a part within so many ticks, or null. */
export function pointWithin(curve: readonly PartPoint[], ticks: number): PartPoint | null {
  let last: PartPoint | null = null;
  for (const point of curve) if (point.openTicks <= ticks) last = point;
  return last;
}

/** The smallest network of every part within so many ticks; null when a part has none. */
export function choiceAt(parts: readonly PartOutcome[], ticks: number): PartPoint[] | null {
  const choice: PartPoint[] = [];
  for (const { curve } of parts) {
    const point = pointWithin(curve, ticks);
    if (point === null) return null;
    choice.push(point);
  }
  return choice;
}

/** Tick counts at which the whole has a point, ascending, with its inverters; what is beaten is left out. */
export function wholeCurve(
  parts: readonly PartOutcome[],
): { readonly ticks: number; readonly size: number }[] {
  const all = new Set(parts.flatMap(({ curve }) => curve.map(({ openTicks }) => openTicks)));
  const curve: { ticks: number; size: number }[] = [];
  for (const ticks of [...all].sort((a, b) => a - b)) {
    const choice = choiceAt(parts, ticks);
    if (choice === null) continue;
    const size = choice.reduce((sum, { inverters }) => sum + inverters, 0);
    if (size < (curve.at(-1)?.size ?? Number.POSITIVE_INFINITY)) curve.push({ ticks, size });
  }
  return curve;
}

/** The tick count of the answer; null when there is none. */
export function chosenTicks(
  parts: readonly PartOutcome[],
  { ticks, budget, inverters }: ApartWishes,
): number | null {
  if (ticks !== null) return ticks;
  const curve = wholeCurve(parts);
  const sizes = curve.map(({ size }) => size);
  return curve[chosenWithin(inverters === null ? budget : { inverters }, sizes)]?.ticks ?? null;
}

/** Figures of the parts for the whole. */
export function fastestOfParts(parts: readonly Pick<PartOutcome, 'fastest' | 'outputs'>[]): Fastest {
  const each: number[] = [];
  for (const { fastest, outputs } of parts) {
    outputs.forEach((y, n) => {
      each[y] = fastest.each[n];
    });
  }
  const inTime = parts.map(({ fastest }) => fastest.withDeadlines);
  return {
    ticks: Math.max(0, ...parts.map(({ fastest }) => fastest.ticks)),
    withDeadlines: inTime.reduce(
      (most, ticks) => (most === null || ticks === null ? null : Math.max(most, ticks)),
      0,
    ),
    each,
    exact: parts.every(({ fastest }) => fastest.exact),
  };
}

/** A bound on the inverters of the whole from those of its parts; the head of this file says why. */
export function leastOfParts(least: readonly number[]): number {
  const needing = least.filter((size) => size > 0).length;
  return needing === 0 ? 0 : Math.max(...least) + needing - 1;
}

/** What the parts come to. `asWritten` is the whole as written. */
export function wholeOutcome(apart: Apart, asWritten: Network, wishes: ApartWishes): Outcome {
  const { parts } = apart;
  const fastest = fastestOfParts(parts);
  const stops = parts.map(({ stop }) => stop);
  const stop = stops.includes('cut short') ? 'cut short' : stops.includes('limit') ? 'limit' : 'complete';
  const atFastest = choiceAt(parts, fastest.ticks);
  const ticks = chosenTicks(parts, wishes);
  const frontier = wishes.frontier
    ? wholeCurve(parts).flatMap((point) => wholePoint(apart, fastest, point.ticks) ?? [])
    : null;
  const answer =
    ticks === null
      ? null
      : frontier === null
        ? wholePoint(apart, fastest, ticks)
        : (frontier.find(({ openTicks }) => openTicks === ticks) ?? null);
  const isMeant = answer !== null && answer.inverters <= (wishes.inverters ?? Number.POSITIVE_INFINITY);
  return {
    asWritten,
    fastest,
    fastestSize: atFastest === null ? null : atFastest.reduce((sum, { inverters }) => sum + inverters, 0),
    answer: isMeant ? answer : null,
    frontier,
    leastSize: leastOfParts(parts.map(({ leastSize }) => leastSize)),
    stop,
    ...(parts.some(({ outline }) => outline) ? { outline: true } : {}),
    apart,
  };
}

function wholePoint(
  { wires, parts, inverterOutputs }: Apart,
  fastest: Fastest,
  within: number,
): Point | null {
  const choice = choiceAt(parts, within);
  if (choice === null) return null;
  const network = putTogether(
    wires,
    choice.map((point) => point.network),
  );
  const ticks = Math.max(0, ...choice.map((point) => point.ticks));
  const openTicks = Math.max(0, ...choice.map((point) => point.openTicks));
  const isProved = choice.map(({ provedWithin }) => provedWithin >= Math.min(within, openTicks));
  const least = leastOfParts(
    choice.map(({ inverters }, n) => (isProved[n] ? inverters : parts[n].leastSize)),
  );
  const inverters = network.size + countCopies(network, inverterOutputs);
  return {
    network,
    inverters,
    ticks,
    openTicks,
    ticksProved: ticks === fastest.ticks,
    sizeProved: least >= inverters,
    ...(least < inverters && isProved.every(Boolean) ? { provedApart: parts.length } : {}),
  };
}
