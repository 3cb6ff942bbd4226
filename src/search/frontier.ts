// The frontier: the fewest inverters at every number of ticks, from the fastest to where more ticks save nothing more.
//
// Idea. Downwards, twice over. Bounds on sizes are proved from loose to tight ticks: what no network does in more ticks
// none does in fewer, so at each tick the question begins at the size where the one above ended, and every size is
// refuted about once. Networks are made in the same direction by the ladder, each from the one above it. Where the
// exact questions end with proofs at once, as they do for small systems, no ladder is needed. Else ladders are gone
// down. Then, over and over, there are new starts for every point: the outputs are made anew over the slower ones, and
// not only the best network of a tick more is hurried but others that are hardly larger. Those differ, and what one of
// them comes to says nothing of the next: an 8-bit adder in five ticks takes 63 to 70 inverters from most of those with
// six, and 59 from a few. Where a tick less is dear, covers that nobody has shrunk are hurried as well: what was shrunk
// for more ticks has shared all it could and is hurried badly, an 8-bit adder with mixed rails in four ticks often not
// to three at all. Every point that is not beaten by a faster one is improved, hurried by one tick more and improved
// again, because a point that got better above is a better start for the one below. At last the walk goes up where a
// tick less is dear, with more work: a network in a hurry has much to give up once it has a tick more, and what it comes
// to is built otherwise than what comes down. An 8-bit adder that had come down to 63 inverters in five ticks came up to
// 55 from one with 70 in four. Then the exact questions go on where they had stopped, as far as the points are small.
//
// Correctness. A lower bound is kept with the ticks it was proved for and used for these and fewer. A point is said to
// be smallest only if such a bound reaches its size.
//
// Cost. (points) x (steps of the ladder) x (passes), all counted; one question of the exact search for each point and
// size between the bound above and the best known.

import type { Network } from '../network/network.ts';
import type { Rung } from './ladder.ts';

/** A known network: its inverters, copies included, and the latest of its outputs without a deadline. */
export interface FrontierNetwork {
  readonly network: Network;
  readonly size: number;
  readonly ticks: number;
}

/** What the walk needs of a search. Ticks are those of the outputs without a deadline. */
export interface FrontierSearch<Point> {
  /** Fewest ticks that may be possible. */
  readonly least: number;
  /** Ladders that are gone down; what one comes to under tight bounds depends on where it began. */
  readonly ladders: number;
  /** How often covers are hurried in a pass where that can pay. */
  readonly covers: number;
  isCancelled(): boolean;
  /** Two-level covers for so many ticks. */
  flatten(ticks: number): void;
  /** The smallest known network within so many ticks. */
  best(ticks: number): FrontierNetwork | null;
  /** Asks for networks of `from` inverters and more; all sizes below the one returned are refuted. */
  refute(ticks: number, from: number, isFirst: boolean): { readonly done: boolean; readonly size: number };
  /** The first rung of the ladder; null when there is none. */
  top(): Rung | null;
  /** The first rung of another ladder, where chance falls another way; null when that would be too dear. */
  topAgain(): Rung | null;
  /** From a rung to the next one of fewer ticks; what is found becomes known. */
  descend(from: Rung, least: number): Rung | null;
  /** Starts from the known networks that take more ticks: hurried, and covers over them. What is found becomes known. */
  startAnew(ticks: number): void;
  /** More of them: covers for a tick more, hurried. Whether what is found comes near the best known. */
  hurryCovers(ticks: number): boolean;
  /** Spends a step of the ladder on a network; what is found becomes known. */
  improve(known: FrontierNetwork, ticks: number): Rung;
  /** Spends several steps on a network that may now take so many ticks; what is found becomes known. */
  rise(known: FrontierNetwork, ticks: number): void;
  /** The smallest known network within so many ticks, with its last choices made. */
  settled(ticks: number, isProved: boolean): Point | null;
}

/** Steps of the ladder that all passes together may take; improving a point is one, going on to the next another. */
const STEPS = 24;
/** A way down that has failed is tried again from networks smaller than the one it failed from times this. */
const MUCH_SMALLER = 0.8;
/** A tick less that costs so many times the inverters is dear. */
const STEEP = 1.2;
/** Where it costs more than so many times the inverters, the walk goes up at last, from each network so often. */
const RISING = 1.1;
const RISES = 2;
/** Larger points are not asked for exactly once the ladder has found them. */
const MOST_EXACT = 14;

export class FrontierWalk<Point> {
  private readonly search: FrontierSearch<Point>;
  /** Proved: no network of at most `ticks` has fewer than `size` inverters. */
  private readonly lower: { readonly ticks: number; readonly size: number }[] = [];

  private steps = STEPS;
  /** No way is known from so many ticks and inverters to fewer ticks, on the ladder last gone down. */
  private bottom = { ticks: 0, size: 0 };

  constructor(search: FrontierSearch<Point>) {
    this.search = search;
  }

  /**
   * All points, fewest ticks first, each with fewer inverters than the one before.
   *
   * @param isFurther the same system has been walked before, with another seed.
   */
  run(isFurther = false): Point[] {
    const { search } = this;
    // Covers and the first questions would come to the same in a further walk.
    if (!isFurther) {
      search.flatten(search.least);
      search.flatten(search.least + 1);
    }
    if (isFurther || !this.refuteDownwards(true)) {
      this.climb();
      this.refuteDownwards(false);
    }
    return this.points();
  }

  /** Exact questions from loose to tight ticks; whether every point is proved. */
  private refuteDownwards(isFirst: boolean): boolean {
    const { search } = this;
    let all = true;
    for (let ticks = Number.POSITIVE_INFINITY; ticks >= search.least; ) {
      if (search.isCancelled()) return false;
      const known = search.best(ticks);
      if (isFirst || (known !== null && known.size <= MOST_EXACT)) {
        const { done, size } = search.refute(ticks, this.lowerAt(ticks), isFirst);
        this.lower.push({ ticks, size });
        if (!done) all = false;
      } else all = false;
      const best = search.best(ticks);
      // What is not found here is not found with less time.
      if (best === null) return false;
      ticks = best.ticks - 1;
    }
    return all;
  }

  private lowerAt(ticks: number): number {
    return Math.max(0, ...this.lower.filter((bound) => bound.ticks >= ticks).map(({ size }) => size));
  }

  /** One rung down; where that has failed it is hardly ever tried again, because failing takes longest. */
  private descend(rung: Rung, least = this.search.least): Rung | null {
    const { bottom, search } = this;
    if (rung.ticks <= search.least) return null;
    if (rung.ticks <= bottom.ticks && rung.size > MUCH_SMALLER * bottom.size) return null;
    const next = search.descend(rung, least);
    if (next === null && rung.ticks >= bottom.ticks) this.bottom = rung;
    return next;
  }

  /** Down ladders, then over all points again. */
  private climb(): void {
    const { search } = this;
    let rung = search.top();
    for (let n = 1; n <= search.ladders && rung !== null; n++) {
      this.bottom = { ticks: 0, size: 0 };
      while (rung !== null && !search.isCancelled()) rung = this.descend(rung);
      if (n < search.ladders) rung = search.topAgain();
    }
    while (this.steps > 0 && !search.isCancelled()) {
      const before = this.steps;
      this.startAnew();
      this.improveDownwards();
      this.improveUpwards();
      // Nothing is left to improve: every point is proved.
      if (this.steps === before) return;
    }
    this.rise();
  }

  /** Every point from the looser ones, all at once. */
  private startAnew(): void {
    const { search } = this;
    const end = search.best(Number.POSITIVE_INFINITY);
    for (let ticks = (end?.ticks ?? 0) - 1; ticks >= search.least && !search.isCancelled(); ticks--) {
      const known = search.best(ticks);
      if (known !== null && this.lowerAt(ticks) >= known.size) continue;
      search.startAnew(ticks);
      for (let n = 0; n < search.covers && this.isDear(ticks, STEEP) && !search.isCancelled(); n++) {
        if (!search.hurryCovers(ticks)) break;
      }
    }
  }

  /** Where a tick less costs much, what a network comes to hangs on where it began more than on the work on it. */
  private isDear(ticks: number, times: number): boolean {
    const { search } = this;
    const known = search.best(ticks)?.size ?? Number.POSITIVE_INFINITY;
    return known > times * (search.best(ticks + 1)?.size ?? Number.POSITIVE_INFINITY);
  }

  private improveDownwards(): void {
    const { search } = this;
    for (let known = search.best(Number.POSITIVE_INFINITY); known !== null; ) {
      if (search.isCancelled() || this.steps <= 0) return;
      const { ticks } = known;
      if (this.lowerAt(ticks) < known.size) {
        const improved = search.improve(known, ticks);
        this.descend(improved, ticks - 1);
        this.steps -= 2;
      }
      known = search.best(ticks - 1);
    }
  }

  /** Every point again with one tick more: what was learnt in a hurry may serve those with more time. */
  private improveUpwards(): void {
    const { search } = this;
    const end = search.best(Number.POSITIVE_INFINITY);
    for (let ticks = search.least; end !== null && ticks < end.ticks; ticks++) {
      if (search.isCancelled() || this.steps <= 0) return;
      const known = search.best(ticks);
      if (known === null || known.ticks < ticks || this.lowerAt(ticks) >= known.size) continue;
      search.improve(known, ticks + 1);
      this.steps--;
    }
  }

  /** Upwards from where a tick less is dear, so that every point that got better is the next one to begin with. */
  private rise(): void {
    const { search } = this;
    const end = search.best(Number.POSITIVE_INFINITY);
    for (let ticks = search.least; end !== null && ticks < end.ticks; ticks++) {
      const known = search.best(ticks);
      if (known === null || known.ticks < ticks) continue;
      for (let n = 0; n < RISES && this.isDear(ticks, RISING) && !search.isCancelled(); n++) {
        const slower = search.best(ticks + 1);
        if (slower !== null && this.lowerAt(ticks + 1) < slower.size) search.rise(known, ticks + 1);
      }
    }
  }

  private points(): Point[] {
    const { search } = this;
    const points: Point[] = [];
    let last = Number.POSITIVE_INFINITY;
    const end = search.best(Number.POSITIVE_INFINITY);
    for (let ticks = search.least; end !== null && ticks <= end.ticks; ticks++) {
      const best = search.best(ticks);
      if (best === null || best.size >= last) continue;
      const point = search.settled(ticks, this.lowerAt(ticks) >= best.size);
      if (point === null) continue;
      points.push(point);
      last = search.best(ticks)?.size ?? best.size;
    }
    return points;
  }
}
