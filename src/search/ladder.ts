// The ladder: networks for every number of ticks, each made from the one above it.
//
// Idea. Without tick bounds the search for few inverters is easiest, so that is where we start: the system as written,
// shrunk. Then the bounds are tightened step by step. At each step the speed-up rule repairs the few paths that have
// become late, in three orders, and growing and shrinking finds the best network around each. A network found under
// tight bounds thus inherits what was learnt under loose ones; starting afresh for every bound gives far worse results.
//
// Blocks of look-ahead, where there are chains, and covers by networks of the catalogue, where there are none, are
// taken as further starts when they meet the bounds; of blocks that are a few ticks late the one that is smallest when
// hurried. Where whole tables are at hand, the outputs are also made anew over what slower networks have in time
// (cover-anew.ts), and many networks of a tick more are hurried: the smallest that come of it are tried for a little,
// the best is improved. To hurry costs next to nothing, and its size tells well what is worth trying.
//
// Lost. Covers beside blocks, covers over slower networks, and late wires made anew of wires that are in time, as further
// starts of every step: for adders none was better on the average, since every start takes its share of the work.
//
// Correctness. Systems with long tables are worked on by a sample of patterns; every rung is checked on all patterns
// before it counts, and a pattern on which it is wrong joins the sample and the step is repeated.
//
// Limits on legs. A draft from the ladder without limits has joins that are too long. They are not cut at once: first they
// may be a few legs longer than allowed, then one leg less long at a time, each time with growing and shrinking. A 4-bit
// adder with four legs in four ticks comes to 32 to 35 inverters so, and to 34 to none at all when the limit holds at once.
//
// Cost. Work is counted in words, per step. Steps are one tick near the bottom, a fifth of the ticks higher up; systems
// that are known by a sample only are large, and there half of the ticks goes at once.

import { outputTicks } from '../network/levels.ts';
import type { Network } from '../network/network.ts';
import type { Table } from '../truth/table.ts';
import { coverAnew, View } from './cover-anew.ts';
import { type Draft, draftNetwork, draftTables, networkDraft, type Shape } from './draft.ts';
import { growAndShrink, type Improvement } from './grow-and-shrink.ts';
import { Allowance } from './limits.ts';
import type { Random } from './random.ts';
import type { Pattern, Sample } from './sample.ts';
import { type PlaceOrder, speedUp } from './speed-up.ts';
import type { Task } from './task.ts';
import { improveByWindows } from './windows.ts';

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
const WIDE_FINE_STEPS = 10;
/** A draft may come down to its size divided by this. */
const HOPE = 1.6;
/** Steps of work for drafts that a single one does not bring within limits on legs. */
const PATIENCE = 6;
/** Part of the work on a wide system that goes to its windows. */
const WINDOWS = 0.3;
/** A shape that is no more ticks late than this is hurried as well. */
const LATE = 4;
/** Work on a sample is checked so many times, more often after a check has failed. */
const PIECES = 3;
const MOST_PIECES = 48;
/** What a check of a network costs, in words, by the square of its size. */
const CHECK_WORK = 40;
/** Covers made anew over each network; what all of them and one of them may cost, in steps. */
const COVERS = 4;
const COVERS_WORK = 3 / 2;
const COVER_WORK = 1 / 4;
/** So many that fail in a row end it. */
const MOST_FAILED = 2;
/**
 * Legs that hurrying a network anew may look at: so many, and more by the square of its size. What comes to anything small
 * takes a third of that, and what fails takes up to a hundred times as much.
 */
const LEAST_HURRY_WORK = 1e5;
const HURRY_WORK = 40;
/** So many new starts, and none much larger than the smallest, get this part of a step at first. */
const TRIED = 6;
const TRIED_SIZE = 1.2;
const TRY = 1 / 12;
const ORDERS: readonly PlaceOrder[] = ['from-inputs', 'from-outputs', 'any'];
const FIRST_ORDER: readonly PlaceOrder[] = ['from-inputs'];

/** Joins that are too long are allowed so many legs more at first, then one less at a time; that takes this part of the work. */
const MOST_EASED = 3;
const EASING = 0.5;

type Improved = Pick<Improvement, 'draft' | 'size' | 'excess'>;

/** A ladder for a freer model, whose drafts can be made ones of this model. */
export interface Freer {
  readonly ladder: Ladder;
  /** From a right draft of this model, and back. */
  readonly loosen: (draft: Draft) => Draft;
  readonly tighten: (draft: Draft) => Draft;
  /** Ticks that a draft takes more when it is back. */
  readonly later: number;
}

export interface LadderParts {
  readonly task: Task;
  /** What is worked on instead of the task, when its tables are long. */
  readonly sample: Sample | null;
  /** A larger sample that every move is checked on. */
  readonly control: Sample | null;
  /** Right drafts from elsewhere that may be taken for a rung whose bounds they meet. */
  readonly shapes: readonly Shape[];
  /** The same, without regular blocks: they are taken where there are no shapes. */
  readonly covers: readonly Shape[];
  /** A ladder for the same system under freer rules; null when there are none. */
  readonly free: Freer | null;
  readonly boundsAt: BoundsAt;
  readonly check: Check;
  readonly random: Random;
  /** Words that one step may cost. */
  readonly work: number;
}

export class Ladder {
  /** The task that is worked on: the whole one, or a sample of it. */
  private task: Task;
  private readonly whole: Task;
  private readonly sample: Sample | null;
  /** A larger sample that every move is checked on. */
  private readonly control: Sample | null;
  private controlTask: Task | null = null;
  /** The whole tables are not at hand. */
  private readonly wide: boolean;
  private readonly check: Check;
  private readonly boundsAt: BoundsAt;
  private readonly random: Random;
  /** Words that one step may cost. */
  private readonly work: number;
  /** Right drafts from elsewhere that may be taken for a rung whose bounds they meet. */
  private readonly shapes: readonly Shape[];
  private readonly covers: readonly Shape[];
  private rung: Rung | null = null;
  private words = 0;
  private view: View | null = null;

  private readonly free: Freer | null;

  constructor({ task, sample, control, shapes, covers, free, boundsAt, check, random, work }: LadderParts) {
    this.whole = task;
    this.task = sample === null ? task : sample.task();
    this.wide = !task.exhaustive;
    this.sample = sample;
    this.control = control;
    this.controlTask = control?.task() ?? null;
    this.shapes = shapes;
    this.covers = covers;
    this.free = free;
    this.boundsAt = boundsAt;
    this.check = check;
    this.random = random;
    this.work = work;
  }

  /** Words that all steps have cost so far. */
  get spent(): number {
    return this.words + (this.free?.ladder.spent ?? 0);
  }

  /** The first rung, from right drafts: as few inverters as are found without regard to ticks. */
  start(written: readonly Draft[]): Rung | null {
    const bounds = this.boundsAt(Number.POSITIVE_INFINITY);
    if (this.free !== null) this.free.ladder.start(written.map(this.free.loosen));
    const loose = this.freely(Number.POSITIVE_INFINITY);
    const drafts = loose === null ? written : [...written, loose];
    this.rung = this.best(drafts, bounds, (1 + written.length) * this.work);
    return this.rung;
  }

  /**
   * The next rung: fewer ticks than the last, but no fewer than `least`. Null at the bottom, and where nothing is found
   * that may come down to `most` inverters.
   */
  descend(least: number, most = Number.POSITIVE_INFINITY): Rung | null {
    const { rung } = this;
    if (rung === null || rung.ticks <= least) return null;
    const fine = rung.ticks <= (this.wide ? WIDE_FINE_STEPS : FINE_STEPS);
    const step = fine ? 1 : Math.ceil(rung.ticks / (this.wide ? 2 : 5));
    const ticks = Math.max(least, rung.ticks - step);
    const drafts = this.hurried(rung.draft, ticks, HOPE * most);
    const bounds = this.boundsAt(ticks);
    this.rung = this.best(drafts, bounds, this.work);
    // To come within limits on legs may take longer than to shrink.
    if (this.rung === null && this.free !== null) this.rung = this.best(drafts, bounds, PATIENCE * this.work);
    return this.rung;
  }

  /** Straight to a rung of at most so many ticks where a shape from elsewhere allows it; else null. */
  jump(ticks: number): Rung | null {
    const bounds = this.boundsAt(ticks);
    const shape = smallestShape([...this.shapes, ...this.covers], bounds);
    if (shape === null) return null;
    this.rung = this.best(this.hurried(shape.draft, ticks), bounds, this.work);
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

  /**
   * Rungs of at most so many ticks by covers over networks that take more; a cover has at most `most` inverters before
   * it is improved. The smallest are tried, the best of those is improved and comes last.
   */
  coverAnew(known: readonly Draft[], ticks: number, most: number): Rung[] {
    return this.tried(this.coversOver(known, ticks, most), this.boundsAt(ticks));
  }

  /** The same by the speed-up rule, from networks that take a little more. Only for whole tables. */
  hurryAnew(known: readonly Draft[], ticks: number, most: number): Rung[] {
    if (this.wide) return [];
    const bounds = this.boundsAt(ticks);
    const found = known.flatMap((draft) => {
      const work = LEAST_HURRY_WORK + HURRY_WORK * draft.inverters.length ** 2;
      return this.spedUp(draft, bounds, most, new Set(), { work });
    });
    return this.tried(found, bounds);
  }

  /** Improves the smallest of some drafts a little and the best of them more. */
  private tried(drafts: readonly Draft[], bounds: readonly number[]): Rung[] {
    const sorted = [...drafts].sort((a, b) => a.inverters.length - b.inverters.length);
    const largest = TRIED_SIZE * (sorted[0]?.inverters.length ?? 0);
    const found: Rung[] = [];
    for (const draft of sorted.slice(0, TRIED)) {
      if (draft.inverters.length > largest) break;
      const tried = this.right(draft, bounds, TRY * this.work);
      if (tried.excess === 0) found.push(this.rungOf(tried.draft));
    }
    if (found.length === 0) return [];
    const best = found.reduce((a, b) => (b.size < a.size ? b : a));
    const improved = this.best([best.draft], bounds, this.work / 2);
    return improved === null ? found : [...found, improved];
  }

  /**
   * Covers of at most `most` inverters over networks, the first ones first, every other time with what settles last. Only
   * for whole tables, and where wires may be joined at outputs.
   */
  coversOver(known: readonly Draft[], ticks: number, most: number): Draft[] {
    if (this.wide || this.task.rules.outputLegs === 1) return [];
    const by = this.boundsAt(ticks);
    const { whole, random } = this;
    const view = this.viewOfTables();
    const found: Draft[] = [];
    const levels: Table[][] = [];
    let left = COVERS_WORK * this.work;
    let failed = 0;
    for (let n = 0; n < COVERS * known.length && left > 0 && failed < MOST_FAILED; n++) {
      const at = Math.floor(n / 2) % known.length;
      const from = known[at];
      const words = new Allowance(Math.min(left, COVER_WORK * this.work));
      const before = words.remaining;
      if (levels[at] === undefined) {
        levels[at] = draftTables(whole, from.inverters);
        for (const legs of from.inverters) words.take(whole.care.length * (1 + legs.length));
      }
      const cover = coverAnew({
        task: whole,
        view,
        known: from,
        levels: levels[at],
        by,
        keepsLast: n % 2 === 1,
        most,
        random,
        words,
      });
      left -= before - words.remaining;
      this.words += before - words.remaining;
      failed = cover === null ? failed + 1 : 0;
      if (cover !== null) found.push(networkDraft(whole, draftNetwork(whole, cover)));
    }
    return found;
  }

  /** What covers look at of long tables; null for short ones. */
  private viewOfTables(): View | null {
    const { sample, whole } = this;
    if (sample === null || this.view !== null) return this.view;
    const rows = Array.from({ length: sample.size }, (_, n) =>
      sample.pattern(n).reduce((row, bit, i) => row | (bit << i), 0),
    );
    this.view = new View(rows, whole.rowBits);
    return this.view;
  }

  /** Drafts that meet the bounds, by the speed-up rule in several orders. */
  private hurried(draft: Draft, ticks: number, limit = Number.POSITIVE_INFINITY): Draft[] {
    const { task } = this;
    const bounds = this.boundsAt(ticks);
    const network = draftNetwork(task, draft);
    const loose = this.freely(ticks);
    const found: Draft[] = loose === null || loose.inverters.length > limit ? [] : [loose];
    if (outputTicks(network, task.rules).every((tick, y) => tick <= bounds[y])) return [draft, ...found];
    const shape = smallestShape(this.shapes, bounds);
    if (shape !== null && shape.size <= limit) found.push(shape.draft);
    // Blocks are the better start where there are any: every draft takes its share of the work.
    const cover = shape === null ? smallestShape(this.covers, bounds) : null;
    if (cover !== null && cover.size <= limit) found.push(cover.draft);
    const most = Math.min(limit, shape === null ? 3 * network.size + 60 : Math.ceil(1.1 * shape.size));
    const seen = new Set<string>();
    found.push(...this.spedUp(draft, bounds, most, seen));
    // Hurried regardless of legs, what keeps to the limits has few too many; those are mended while it shrinks.
    if (this.free?.later === 0)
      found.push(...this.spedUp(draft, bounds, most, seen, { under: this.free.ladder.task }));
    // A shape that is a little late has regular blocks, which the rule shares better than those of a shrunk rung.
    const late = shape === null ? this.shapes.filter((each) => isNearly(each, bounds)) : [];
    const fast = late.flatMap((each) => this.spedUp(each.draft, bounds, most, seen, { orders: FIRST_ORDER }));
    return [...found, ...fast.sort((a, b) => a.inverters.length - b.inverters.length).slice(0, 1)];
  }

  /** What the speed-up rule makes of a draft, by each order another; `seen` gets them and those in it are left out. */
  private spedUp(
    draft: Draft,
    bounds: readonly number[],
    most: number,
    seen: Set<string>,
    { orders = this.wide ? FIRST_ORDER : ORDERS, under = this.task, work = this.work / ORDERS.length } = {},
  ): Draft[] {
    const found: Draft[] = [];
    for (const order of orders) {
      const faster = speedUp(under, draft, bounds, order, this.random, most, work);
      if (faster === null) continue;
      const key = JSON.stringify([faster.inverters, faster.outputs]);
      if (!seen.has(key)) found.push(faster);
      seen.add(key);
    }
    return found;
  }

  /** What the freer ladder has for so many ticks, as a draft of this model. */
  private freely(ticks: number): Draft | null {
    if (this.free === null) return null;
    const rung = this.free.ladder.reach(ticks - this.free.later);
    return rung === null ? null : this.free.tighten(rung.draft);
  }

  /** Down to a rung of at most so many ticks; null when it is not found. */
  private reach(ticks: number): Rung | null {
    while (this.rung !== null && this.rung.ticks > ticks) this.descend(ticks);
    return this.rung;
  }

  /** How many legs more than allowed a draft may have in turn, on its way from its longest join to what is allowed. */
  private easings({ inverters, outputs }: Draft): number[] {
    const { inverterLegs, outputLegs } = this.task.rules;
    const most = Math.max(
      ...inverters.map(({ length }) => length - inverterLegs),
      ...outputs.map(({ length }) => length - outputLegs),
    );
    const count = Math.max(0, Math.min(most, MOST_EASED));
    return Array.from({ length: count }, (_, n) => count - n);
  }

  /** The task with so many legs more at every join than are allowed. */
  private eased(more: number): Task {
    const { rules } = this.task;
    return {
      ...this.task,
      rules: { ...rules, inverterLegs: rules.inverterLegs + more, outputLegs: rules.outputLegs + more },
    };
  }

  private excess(draft: Draft): number {
    const { inverterLegs, outputLegs } = this.task.rules;
    let excess = 0;
    for (const legs of draft.inverters) excess += Math.max(0, legs.length - inverterLegs);
    for (const legs of draft.outputs) excess += Math.max(0, legs.length - outputLegs);
    return excess;
  }

  /** The best network around some drafts; half the work goes to all of them, half to the best. */
  private best(drafts: readonly Draft[], bounds: readonly number[], work: number): Rung | null {
    let best: Draft | null = null;
    let size = Number.POSITIVE_INFINITY;
    for (const draft of drafts) {
      const improved = this.right(draft, bounds, work / 2 / drafts.length);
      if (improved.excess > 0 || improved.size >= size) continue;
      best = improved.draft;
      size = improved.size;
    }
    if (best === null) return null;
    return this.rungOf(this.right(best, bounds, work / 2).draft);
  }

  private rungOf(draft: Draft): Rung {
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
  private right(draft: Draft, bounds: readonly number[], work: number): Improved {
    const { sample, control } = this;
    if (sample === null) {
      const easings = this.easings(draft);
      const share = easings.length > 0 ? EASING : 0;
      let from = draft;
      for (const more of easings) {
        const part = (share * work) / easings.length;
        const eased = growAndShrink(this.eased(more), from, bounds, this.random, part);
        this.words += eased.work;
        // A network that does not come within one limit is a bad start for the next.
        if (eased.excess === 0 || from === draft) from = eased.draft;
      }
      const improved = growAndShrink(this.task, from, bounds, this.random, (1 - share) * work);
      this.words += improved.work;
      return improved;
    }
    let best: Improved = { draft, size: draft.inverters.length, excess: this.excess(draft) };
    let left = work;
    if (this.wide) {
      const looked = improveByWindows(this.task, draft, bounds, this.random, work * WINDOWS);
      const size = looked.draft.inverters.length;
      best = { draft: looked.draft, size, excess: this.excess(looked.draft) };
      left -= looked.work;
    }
    let piece = left / PIECES;
    while (left > 0) {
      const allowed = Math.min(piece, left);
      const improved = growAndShrink(this.task, best.draft, bounds, this.random, allowed, this.controlTask);
      left -= Math.max(improved.work, work / MOST_PIECES);
      if (this.wide) left -= CHECK_WORK * improved.size * improved.size;
      const wrong = this.check(improved.draft);
      if (wrong === null) {
        best = improved;
        piece *= 2;
        if (control === null || improved.learned.length === 0) continue;
        for (const row of improved.learned) sample.addCounterexample(control.pattern(row));
        this.task = sample.task();
        continue;
      }
      piece = Math.max(piece / 2, work / MOST_PIECES);
      sample.addCounterexample(wrong);
      this.task = sample.task();
      control?.addCounterexample(wrong);
      this.controlTask = control?.task() ?? null;
    }
    this.words += work - left;
    return best;
  }
}

/** Is the shape nowhere late by more than `LATE` ticks? */
function isNearly({ ticks }: Shape, bounds: readonly number[]): boolean {
  return ticks.every((tick, y) => tick <= bounds[y] + LATE);
}

function smallestShape(shapes: readonly Shape[], bounds: readonly number[]): Shape | null {
  let best: Shape | null = null;
  for (const shape of shapes) {
    if (shape.ticks.some((tick, y) => tick > bounds[y])) continue;
    if (best === null || shape.size < best.size) best = shape;
  }
  return best;
}
