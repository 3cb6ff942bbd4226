// The ladder: networks for every number of ticks, each made from the one above it.
//
// Idea. Without tick bounds the search for few inverters is easiest, so that is where we start: the system as written,
// shrunk. Then the bounds are tightened step by step. At each step the speed-up rule repairs the few paths that have
// become late, in three orders, and growing and shrinking finds the best network around each. A network found under
// tight bounds thus inherits what was learnt under loose ones; starting afresh for every bound gives far worse results.
//
// Correctness. Systems with long tables are worked on by a sample of patterns; every rung is checked on all patterns
// before it counts, and a pattern on which it is wrong joins the sample and the step is repeated.
//
// Cost. Work is counted in words, per step. Steps are one tick near the bottom, a fifth of the ticks higher up; systems
// that are known by a sample only are large, and there half of the ticks goes at once.

import { outputTicks } from '../network/levels.ts';
import type { Network } from '../network/network.ts';
import { type Draft, draftNetwork, networkDraft } from './draft.ts';
import { growAndShrink } from './grow-and-shrink.ts';
import type { Random } from './random.ts';
import type { Pattern, Sample } from './sample.ts';
import { type PlaceOrder, speedUp } from './speed-up.ts';
import type { Task } from './task.ts';

export interface Rung {
  readonly draft: Draft;
  readonly size: number;
  /** Latest of the outputs without a deadline; 0 when all have one. */
  readonly ticks: number;
}

/** Latest tick of each output when the network may take `ticks`. */
export type BoundsAt = (ticks: number) => readonly number[];

/** A pattern on which the draft is wrong, or null when it is right on all. */
export type Check = (draft: Draft) => Pattern | null;

/** Below this many ticks every single one is a step. */
const FINE_STEPS = 20;
/** Work on a sample is checked so many times: often where what is wrong is hard to undo, else seldom. */
const PIECES = 3;
const WIDE_PIECES = 8;
/** Most repetitions after counterexamples in one go. */
const MOST_REPAIRS = 60;
const ORDERS: readonly PlaceOrder[] = ['from-inputs', 'from-outputs', 'any'];

export class Ladder {
  /** The task that is worked on: the whole one, or a sample of it. */
  private task: Task;
  private readonly sample: Sample | null;
  /** The whole tables are not at hand. */
  private readonly wide: boolean;
  private readonly check: Check;
  private readonly boundsAt: BoundsAt;
  private readonly random: Random;
  /** Words that one step may cost. */
  private readonly work: number;
  private rung: Rung | null = null;

  constructor(
    task: Task,
    sample: Sample | null,
    boundsAt: BoundsAt,
    check: Check,
    random: Random,
    work: number,
  ) {
    this.task = sample === null ? task : sample.task();
    this.wide = !task.exhaustive;
    this.sample = sample;
    this.boundsAt = boundsAt;
    this.check = check;
    this.random = random;
    this.work = work;
  }

  /** The first rung, from a right draft: as few inverters as are found without regard to ticks. */
  start(written: Draft): Rung | null {
    const bounds = this.boundsAt(Number.POSITIVE_INFINITY);
    this.rung = this.best(this.hurried(written, bounds), bounds, 2 * this.work);
    return this.rung;
  }

  /** The next rung: fewer ticks than the last, but no fewer than `least`. Null at the bottom. */
  descend(least: number): Rung | null {
    const { rung } = this;
    if (rung === null || rung.ticks <= least) return null;
    const step = rung.ticks > FINE_STEPS ? Math.ceil(rung.ticks / (this.wide ? 2 : 5)) : 1;
    const bounds = this.boundsAt(Math.max(least, rung.ticks - step));
    this.rung = this.best(this.hurried(rung.draft, bounds), bounds, this.work);
    return this.rung;
  }

  /** The next rung below one from elsewhere: fewer ticks, but no fewer than `least`. */
  descendFrom(rung: Rung, least: number): Rung | null {
    this.rung = rung;
    return this.descend(least);
  }

  /** Spends more work on a rung under the same bounds. */
  improve(rung: Rung, ticks: number, work: number): Rung {
    const bounds = this.boundsAt(ticks);
    const better = this.best([rung.draft], bounds, work);
    return better !== null && better.size <= rung.size ? better : rung;
  }

  /** Drafts that meet the bounds, by the speed-up rule in several orders. */
  private hurried(draft: Draft, bounds: readonly number[]): Draft[] {
    const { task } = this;
    const network = draftNetwork(task, draft);
    if (outputTicks(network, task.rules).every((tick, y) => tick <= bounds[y])) return [draft];
    const most = 3 * network.size + 60;
    const found: Draft[] = [];
    const seen = new Set<string>();
    for (const order of ORDERS) {
      const faster = speedUp(task, draft, bounds, order, this.random, most);
      if (faster === null) continue;
      const key = JSON.stringify([faster.inverters, faster.outputs]);
      if (!seen.has(key)) found.push(faster);
      seen.add(key);
    }
    return found;
  }

  /** The best network around some drafts; half the work goes to all of them, half to the best. */
  private best(drafts: readonly Draft[], bounds: readonly number[], work: number): Rung | null {
    let best: Draft | null = null;
    let size = Number.POSITIVE_INFINITY;
    for (const draft of drafts) {
      const improved = this.right(draft, bounds, work / 2 / drafts.length);
      if (improved.size >= size) continue;
      best = improved.draft;
      size = improved.size;
    }
    if (best === null) return null;
    const { draft } = this.right(best, bounds, work / 2);
    const network = draftNetwork(this.task, draft);
    return { draft: networkDraft(this.task, network), size: network.size, ticks: this.openTicks(network) };
  }

  /** Outputs with a deadline stay where they are on all rungs: only the others are made faster. */
  private openTicks(network: Network): number {
    const ticks = outputTicks(network, this.task.rules);
    return Math.max(0, ...ticks.filter((_, y) => this.task.outputs[y].by === null));
  }

  /**
   * Improves a draft, in pieces: what comes out of a piece is right on all patterns, or a pattern is learnt from it and
   * the piece is repeated.
   */
  private right(draft: Draft, bounds: readonly number[], work: number): { draft: Draft; size: number } {
    if (this.sample === null) return growAndShrink(this.task, draft, bounds, this.random, work);
    let best = { draft, size: draft.inverters.length };
    let repairs = 0;
    const pieces = this.wide ? WIDE_PIECES : PIECES;
    for (let piece = 0; piece < pieces; ) {
      const improved = growAndShrink(this.task, best.draft, bounds, this.random, work / pieces);
      const wrong = this.check(improved.draft);
      if (wrong === null) {
        best = improved;
        piece++;
        continue;
      }
      this.sample.addCounterexample(wrong);
      this.task = this.sample.task();
      if (++repairs > MOST_REPAIRS) break;
    }
    return best;
  }
}
