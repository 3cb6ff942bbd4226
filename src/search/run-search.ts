// The search from end to end: a task in, the fastest figure and the chosen network out.
//
// Order of work. The fewest possible ticks come first, exactly (fastest.ts). Then networks are collected in a pool: the
// system as written, pruned; two-level covers where tables allow; every network the exact search finds. A point of the
// frontier is asked for by tick bounds: sizes from 0 upwards are refuted one by one until a network exists or the size
// reaches the best of the pool, which is then proved smallest; if the limit ends first, the best of the pool is the
// answer and is said to be best found.
//
// Which point. Without a wish for ticks the answer is the fastest point that has at most twice the parts of the
// smallest network found. The smallest network is asked for without tick bounds, but only up to half the parts of the
// fastest point, since beyond that it cannot change the answer; where it is smaller, ticks are added one at a time.
//
// Where the ladder is needed, chance counts for much: a single answer goes down a fresh ladder several times while its
// work lasts, then the best is improved. Each way begins from the equations made anew from their functions and from the
// text as well. A frontier is walked several times instead (walks.ts).

import type { System } from '../equations/system.ts';
import { countLegs, legsOf, outputLegsOf } from '../network/build-network.ts';
import { countCopies } from '../network/copies.ts';
import { networkTicks, outputTicks } from '../network/levels.ts';
import type { Network } from '../network/network.ts';
import type { Target } from '../target/target.ts';
import { systemTables } from '../truth/system-tables.ts';
import { MAX_INPUTS } from '../truth/table.ts';
import type { Apart } from './apart.ts';
import { asWrittenDraft, asWrittenNetwork } from './as-written.ts';
import { type Budget, chosenWithin, DEFAULT_BUDGET, mostWithin } from './budget.ts';
import type { Catalogue } from './catalogue/catalogue.ts';
import { type CoverLimits, covers } from './cover.ts';
import { decomposed } from './decompose.ts';
import { type Draft, draftNetwork, firstWrongRow, networkDraft, type Shape } from './draft.ts';
import { exactNetwork, startingRows } from './exact.ts';
import { type Fastest, fastest } from './fastest.ts';
import { fastestWide } from './fastest-wide.ts';
import { flattenDraft, flattenOverBothRails } from './flatten.ts';
import { type FrontierNetwork, type FrontierSearch, FrontierWalk } from './frontier.ts';
import { joinedDraft, onOtherRails, singleDraft, withJoinedOutputs } from './joined-outputs.ts';
import { type Freer, Ladder, type LadderParts, type Rung } from './ladder.ts';
import { Allowance, type Effort, LIMITS, type Limits } from './limits.ts';
import { lookAheadDrafts } from './look-ahead.ts';
import { isInOutline, OUTLINE_LIMITS, outlineDrafts, outlined, wideSize } from './outline.ts';
import { settleChoices } from './polish.ts';
import { pruneDraft } from './prune.ts';
import { Random } from './random.ts';
import { type Pattern, Sample } from './sample.ts';
import { graphOfSystem } from './subject-graph.ts';
import { makeTask, rulesOf, SAMPLE_BITS, type Task } from './task.ts';
import type { Watch } from './watch.ts';

export interface Point {
  readonly network: Network;
  /** Inverters to build, copies included. */
  readonly inverters: number;
  readonly ticks: number;
  /** Latest of the outputs without a deadline: what the frontier counts. */
  readonly openTicks: number;
  /** No network of this target has fewer ticks. */
  readonly ticksProved: boolean;
  /** None has fewer inverters at this number of ticks. */
  readonly sizeProved: boolean;
  /** The system was searched in so many parts, and none of them has fewer inverters at this number of ticks. */
  readonly provedApart?: number;
}

/** `complete`: all questions were answered; `limit`: a counted limit ended one of them; `cut short`: the caller did. */
export type StopReason = 'complete' | 'limit' | 'cut short';

export interface Outcome {
  readonly asWritten: Network;
  readonly fastest: Fastest;
  /** Fewest inverters known at the fastest tick, with proof or not; null when no such network was built. */
  readonly fastestSize: number | null;
  /** Null when a deadline cannot be met, or nothing was found with so few parts as were asked for. */
  readonly answer: Point | null;
  /** The whole frontier, fewest ticks first, when it was asked for; the answer is one of these points. */
  readonly frontier: readonly Point[] | null;
  /** Proved: no network has fewer inverters, however many ticks it takes. */
  readonly leastSize: number;
  readonly stop: StopReason;
  /** The system, or a part of it, is so large that it was answered in outline (outline.ts). */
  readonly outline?: boolean;
  /** How many walks over its frontier the system is worth (walks.ts); as many as there are seeds where it is not said. */
  readonly walks?: number;
  /** Every network that was found and is not beaten, fewest ticks first, when that was asked for. */
  readonly curve?: readonly Point[];
  /** What the system was cut into, where its parts were searched apart. */
  readonly apart?: Apart;
}

export interface SearchOptions {
  /** Latest tick allowed for every output, or null to choose by the budget rule. */
  readonly ticks: number | null;
  readonly effort: Effort;
  readonly seed: number;
  /** The most inverters; the answer is then the fastest network that keeps to it. */
  readonly inverters?: number | null;
  /** How much the answer may spend for speed. */
  readonly budget?: Budget;
  /** Find the whole frontier, not the answer alone. */
  readonly frontier?: boolean;
  /** A frontier has been walked before with another seed (walks.ts): what would come to the same is left out. */
  readonly isFurther?: boolean;
  readonly watch?: Watch<Outcome>;
  /** Counted limits, where they are not those of the effort. */
  readonly limits?: Limits;
  /** The fewest ticks, where they are known already. */
  readonly bound?: Fastest;
  /** Tell all that was found as the curve of the outcome. */
  readonly curve?: boolean;
  /** The catalogue, for covering; without it there are fewer networks to begin with. */
  readonly catalogue?: () => Catalogue;
  /** Right networks to begin with. Then only the exact questions are asked, which may end with fewer inverters or a proof. */
  readonly known?: readonly Network[];
}

/** All exact questions of one search may cost as much as so many single ones. */
const QUESTIONS = 3;
/** For a frontier they may cost as much as so many. */
const FRONTIER_QUESTIONS = 3;
/** Larger networks are not asked for exactly: that would only end at the limit. */
const MOST_EXACT = 14;
/** Up to this many row bits the exact search is the best there is. */
const SMALL_BITS = 5;
/** Systems whose whole tables are not at hand have a control sample of so many row bits. */
const CONTROL_BITS = 15;
/** There the exact search gets so much less: each of its conflicts costs more, and it hardly ever ends. */
const WIDE_SHARE = 20;
/** A two-level cover is given up when it grows beyond so many times the network as written. */
const MOST_FLAT = 4;
/** Parts of the allowed words for one step of the ladder, and for the rung that is chosen. */
const STEP_WORK = 1 / 20;
const FINAL_WORK = 1 / 2;
/** The same for a network that has a tick more than it was made for; more effort brings little there. */
const RISE_WORK = 2 / 5;
/** A single answer is searched again from the start while all searches together take no more than so much. */
const ANSWER_WORK = 2.5;
const MOST_ATTEMPTS = 4;
/** The largest wide system (inverters as written times inputs) that has all the words for a single answer. */
const FULL_WORK = 10_000;
/** The part of its words that an answer to nothing in particular gets over long tables, whose checks are not counted. */
const LONG_SHARE = 0.7;
/** What covering may cost, in a search with whole tables, in one of a sample, and in outline. */
const COVER_LIMITS: CoverLimits = { work: 3e6, bounds: 6 };
const WIDE_COVER_LIMITS: CoverLimits = { work: 1e6, bounds: 3 };
const OUTLINE_COVER_LIMITS: CoverLimits = { work: 1.5e6, bounds: 2 };
/** Covers are made anew over networks that take so many ticks more, so many of each number of ticks. */
const SLOWER = 4;
const SLOWER_EACH = 3;
/** New starts may have so many times the inverters of the best network known before; where there is none, of a slower one. */
const MOST_ANEW = 1.6;
const MOST_FIRST = 2.2;
/** Ladders that a frontier is begun with; while tables are short one is cheap. */
const SHORT_LADDERS = 4;
const LONG_LADDERS = 2;
/** So many networks of a tick more are hurried at a time. */
const HURRIED = 24;
/** None is larger than the smallest times this. */
const HURRIED_SIZE = 1.15;
/** How often covers of a tick more are hurried, where that can pay; while tables are short it is cheap. */
const SHORT_COVERS = 8;
const LONG_COVERS = 4;
/** What comes of them is near the best known when it is no larger than that times this. */
const NEAR = 1.15;
/** Rounds of the last improvements; small networks come to an end before their work does. */
const MOST_ROUNDS = 6;

/**
 * A pattern on which a network is wrong, or null when none is known. `isLast`: the network is likely to be the answer, so
 * that it is worth while to prove it once and for all.
 */
export type Judge = (network: Network, isLast?: boolean) => Pattern | null;

/**
 * Searches. For a task that is a sample of its system, `judge` is asked about every network that is to be kept: it
 * answers with a pattern on which the network is wrong, or with null.
 */
export function runSearch(
  system: System,
  task: Task,
  target: Target,
  options: SearchOptions,
  judge: Judge = () => null,
): Outcome {
  return new Search(system, task, target, options, judge).run();
}

/** What a ladder for a freer model takes over. */
type FreeParts = Pick<LadderParts, 'boundsAt' | 'check' | 'random' | 'work'>;

/** Latest tick of each output. */
type Bounds = readonly number[];

interface Known {
  readonly network: Network;
  /** Inverters, copies included: what is to be as few as possible. */
  readonly size: number;
  readonly outputs: readonly number[];
}

class Search {
  private readonly task: Task;
  private readonly options: SearchOptions;
  private readonly limits: Limits;
  private readonly rows: number[];
  private readonly pool: Known[] = [];
  private readonly written: Draft;
  private readonly system: System;
  private readonly target: Target;
  private readonly random: Random;
  private readonly judge: Judge;
  /** Conflicts that all exact questions together may still cost. */
  private readonly conflicts: Allowance;
  private ladder: Ladder | null = null;
  private makeLadder: (() => Ladder) | null = null;
  private starts: readonly Draft[] = [];
  /** Covers under the freer rules, the same for every ladder. */
  private freeCovers: readonly Shape[] | null = null;
  private anew: System | null | undefined = undefined;
  private top: Rung | null = null;
  private cutShort = false;
  private bound: Fastest = { ticks: 0, withDeadlines: 0, each: [], exact: false };
  private asWritten: Network | null = null;
  private leastSize = 0;
  private readonly budget: Budget;
  /** Networks of which the judge knows nothing bad. */
  private readonly judged = new Set<string>();
  /** Networks that were hurried. */
  private readonly hurried = new Set<string>();

  constructor(system: System, task: Task, target: Target, options: SearchOptions, judge: Judge) {
    this.judge = judge;
    this.system = system;
    this.target = target;
    this.random = new Random(options.seed);
    this.task = task;
    this.written = asWrittenDraft(system, task);
    const questions = options.frontier ? FRONTIER_QUESTIONS : QUESTIONS;
    const given = options.limits ?? LIMITS[options.effort];
    this.limits = { ...given, words: given.words * wordsShare(task, this.written, options) };
    this.conflicts = new Allowance(questions * this.limits.conflicts);
    const { inverters } = options;
    this.budget = inverters == null ? (options.budget ?? DEFAULT_BUDGET) : { inverters };
    this.options = options;
    this.rows = startingRows(task);
  }

  run(): Outcome {
    const { task, options } = this;
    const asWritten = asWrittenNetwork(task, this.written);
    this.asWritten = asWritten;
    this.tell();
    const isOutline = isInOutline(task, this.written, options) && this.functions() === null;
    const bound = options.bound ?? fewestTicks(this.system, task, this.limits, isOutline);
    this.bound = bound;
    const wish = options.ticks;
    const reachable = bound.withDeadlines !== null && (wish === null || wish >= bound.ticks);
    if (!reachable) return this.outcome(null, null);
    if (isOutline) return this.inOutline();
    if (task.exhaustive) this.add(pruneDraft(task, this.written, new Allowance(this.limits.words / 10)));
    else this.add(this.written);
    for (const network of options.known ?? []) this.add(networkDraft(task, network));
    if (options.frontier) {
      const points = new FrontierWalk(this.walked(bound)).run(options.isFurther);
      if (!points.every((point) => point.sizeProved)) this.cutShort = true;
      return this.outcome(this.chosen(points), points);
    }
    const answer = wish === null ? this.byBudget(bound) : this.point(bound, this.bounds(wish));
    const most = options.inverters ?? Number.POSITIVE_INFINITY;
    return this.outcome(answer !== null && answer.inverters <= most ? answer : null, null);
  }

  /** For systems that are too large for anything else. */
  private inOutline(): Outcome {
    const { task, options } = this;
    this.cutShort = true;
    const { sure, likely } = outlineDrafts(this.system, task, this.target, this.written, this.random);
    const covered = this.covered(this.system, task, OUTLINE_COVER_LIMITS).map(({ draft }) => draft);
    // What is laid unseen is right by construction, and the proof of the answer is yet to come.
    for (const draft of [...sure, ...covered]) {
      const network = draftNetwork(task, draft);
      if (this.obeys(network)) this.keep(network);
    }
    const isWanted = (draft: Draft): boolean => {
      const smallest = Math.min(...this.pool.map(({ size }) => size));
      const isDear = options.ticks === null && draft.inverters.length > mostWithin(this.budget, smallest);
      return !isDear && !this.isCancelled();
    };
    if (task.exhaustive || options.frontier) for (const draft of likely) if (isWanted(draft)) this.add(draft);
    if (task.exhaustive) this.flatten(this.bounds(this.bound.ticks), OUTLINE_LIMITS.flatShare);
    const rest = task.exhaustive || options.frontier ? [] : likely.filter(isWanted);
    const networks = rest.map((draft) => draftNetwork(task, draft)).filter((network) => this.obeys(network));
    this.makeSmaller(networks);
    const points = this.curve();
    const answer = this.wantedOf(points);
    const most = options.inverters ?? Number.POSITIVE_INFINITY;
    const isMeant = answer !== null && answer.inverters <= most;
    return { ...this.outcome(isMeant ? answer : null, options.frontier ? points : null), outline: true };
  }

  /**
   * Makes the network that would be the answer smaller: the best of the pool and of others that nobody has judged yet. A
   * proof is dear, so such a one is judged only when it is small; when it is wrong, the next best has its turn.
   */
  private makeSmaller(unjudged: readonly Network[]): void {
    const { task } = this;
    for (let rest = [...unjudged]; !this.isCancelled(); ) {
      const known = this.pool.length;
      for (const network of rest) this.pool.push(this.knownOf(network));
      const first = this.wantedOf(this.curve());
      this.pool.length = known;
      if (first === null) return;
      const bounds = this.bounds(first.openTicks);
      const smaller = draftNetwork(
        task,
        outlined(task, networkDraft(task, first.network), bounds, this.random),
      );
      const isRight = !rest.includes(first.network) || this.judge(smaller, true) === null;
      if (isRight && this.obeys(smaller)) this.keep(smaller);
      if (isRight) return;
      rest = rest.filter((network) => network !== first.network);
    }
  }

  /** The point that is asked for among those of a curve. */
  private wantedOf(points: readonly Point[]): Point | null {
    return this.options.ticks === null ? this.chosen(points) : (points.at(-1) ?? null);
  }

  private outcome(answer: Point | null, frontier: readonly Point[] | null): Outcome {
    const { bound, asWritten } = this;
    if (asWritten === null) throw new Error('there is no outcome before the search has begun');
    const atFastest = bound.withDeadlines === null ? null : this.best(this.bounds(bound.ticks));
    const stop: StopReason = this.isCancelled() ? 'cut short' : this.cutShort ? 'limit' : 'complete';
    const fastestSize = atFastest?.size ?? null;
    const outcome = {
      asWritten,
      fastest: bound,
      fastestSize,
      answer,
      frontier,
      leastSize: this.leastSize,
      stop,
    };
    return this.options.curve ? { ...outcome, curve: frontier ?? this.curve() } : outcome;
  }

  /** What has been found so far and is not beaten, fewest ticks first. */
  private curve(): Point[] {
    const points: Point[] = [];
    const bounds = this.bounds(Number.POSITIVE_INFINITY);
    for (const known of [...this.pool].sort(
      (a, b) => this.openTicks(a) - this.openTicks(b) || a.size - b.size,
    )) {
      if (!meets(known, bounds) || known.size >= (points.at(-1)?.inverters ?? Number.POSITIVE_INFINITY))
        continue;
      points.push(this.pointOf(known.network, this.bound, false));
    }
    return points;
  }

  private isCancelled(): boolean {
    return this.options.watch?.isCancelled?.() ?? false;
  }

  /** Tells the watch what the answer would be if the search ended here. */
  private tell(): void {
    const { watch, frontier, inverters } = this.options;
    if (watch?.found === undefined) return;
    const points = this.curve();
    const most = inverters ?? Number.POSITIVE_INFINITY;
    const answer = this.wantedOf(points);
    const isMeant = answer !== null && answer.inverters <= most;
    watch.found({ ...this.outcome(isMeant ? answer : null, frontier ? points : null), stop: 'cut short' });
  }

  private chosen(points: readonly Point[]): Point | null {
    return (
      points[
        chosenWithin(
          this.budget,
          points.map((point) => point.inverters),
        )
      ] ?? null
    );
  }

  /** Latest of the outputs without a deadline. */
  private openTicks({ outputs }: Pick<Known, 'outputs'>): number {
    return Math.max(0, ...outputs.filter((_, y) => this.task.outputs[y].by === null));
  }

  /** This search as the walk over the frontier sees it. */
  private walked(bound: Fastest): FrontierSearch<Point> {
    const { task, limits } = this;
    const best: FrontierSearch<Point>['best'] = (ticks) => {
      const known = this.best(this.bounds(ticks));
      return known === null ? null : { ...known, ticks: this.openTicks(known) };
    };
    return {
      least: bound.withDeadlines as number,
      ladders: task.rowBits <= SAMPLE_BITS ? SHORT_LADDERS : LONG_LADDERS,
      covers: task.rowBits <= SAMPLE_BITS ? SHORT_COVERS : LONG_COVERS,
      isCancelled: () => this.isCancelled(),
      flatten: (ticks) => {
        if (!task.exhaustive) return;
        this.flatten(this.bounds(ticks));
        if (ticks > bound.ticks) this.flatten(this.bounds(ticks), 1, flattenOverBothRails);
      },
      best,
      refute: (ticks, from, isFirst) => {
        const limit = isFirst ? this.firstConflicts() : limits.conflicts;
        const answer = this.refute(this.bounds(ticks), from, limit);
        if (ticks === Number.POSITIVE_INFINITY) this.leastSize = answer.size;
        return answer;
      },
      top: () => {
        this.climbDown(this.bounds(Number.POSITIVE_INFINITY));
        return this.top;
      },
      topAgain: () => {
        if (!task.exhaustive || this.isCancelled()) return null;
        this.startLadder();
        return this.top;
      },
      descend: (from, least) => {
        const next = this.ladder?.descendFrom(from, least) ?? null;
        if (next !== null) this.add(next.draft);
        return next;
      },
      startAnew: (ticks) => {
        this.hurryAnew(ticks);
        this.coverAnew(ticks);
      },
      hurryCovers: (ticks) => this.hurryCovers(ticks),
      improve: (known, ticks) => this.improve(known, ticks, STEP_WORK * limits.words),
      rise: (known, ticks) => {
        if (!task.exhaustive) return;
        const least = RISE_WORK * Math.min(LIMITS.normal.words, limits.words);
        this.improve(known, ticks, Math.max(least, STEP_WORK * limits.words));
      },
      settled: (ticks, isProved) => this.settled(bound, this.bounds(ticks), isProved),
    };
  }

  /** Works on a known network that may take so many ticks; what is found becomes known. */
  private improve({ network, ticks: now }: FrontierNetwork, ticks: number, work: number): Rung {
    const rung = { draft: networkDraft(this.task, network), size: network.size, ticks: now };
    const better = this.ladder?.improve(rung, ticks, work) ?? rung;
    if (better !== rung) this.add(better.draft);
    return better;
  }

  private bounds(ticks: number): Bounds {
    return this.startBounds(Math.min(ticks, this.options.ticks ?? Number.POSITIVE_INFINITY));
  }

  /** The same for networks to start from, which may take more ticks than were asked for. */
  private startBounds(ticks: number): Bounds {
    const wish = this.options.ticks ?? Number.POSITIVE_INFINITY;
    return this.task.outputs.map(({ by }) => (by === null ? ticks : Math.min(by, wish)));
  }

  private byBudget(bound: Fastest): Point | null {
    let ticks = bound.withDeadlines as number;
    let point = this.point(bound, this.bounds(ticks));
    if (this.ladder !== null) return this.byLadder(bound, point);
    const latest = this.latestTick();
    while (point === null && ticks < latest) point = this.point(bound, this.bounds(++ticks));
    if (point === null) return null;
    const { budget } = this;
    if ('inverters' in budget && point.inverters <= budget.inverters) return point;
    const worth = 'factor' in budget ? Math.ceil(point.inverters / budget.factor) : point.inverters;
    const smallest = this.smallestBelow(worth);
    while (point.inverters > mostWithin(budget, smallest) && !this.isCancelled()) {
      const next: Point | null = this.point(bound, this.bounds(++ticks));
      if (next !== null) point = next;
    }
    return point;
  }

  /** Down the ladder while the budget lasts; the last rung within it gets the rest of the work. */
  private byLadder(bound: Fastest, atFastest: Point | null): Point | null {
    const { budget } = this;
    const least = bound.withDeadlines as number;
    if (this.top === null) return atFastest;
    if (atFastest !== null && atFastest.inverters <= mostWithin(budget, this.top.size)) return atFastest;
    this.repeated((ladder, top) => {
      for (let smallest = top.size; !this.isCancelled(); ) {
        const next = ladder.descend(least, mostWithin(budget, smallest));
        if (next === null) break;
        smallest = Math.min(smallest, next.size);
        this.add(next.draft);
        if (next.size > mostWithin(budget, smallest)) break;
      }
    });
    this.finish(this.ticksWithin(least));
    // Something smaller than before may have been found, or something faster within the budget.
    return this.settled(bound, this.bounds(this.ticksWithin(least)), false);
  }

  /** Fewest ticks of a known network that keeps to the budget. */
  private ticksWithin(least: number): number {
    const latest = this.latestTick();
    const smallest = this.best(this.bounds(latest))?.size ?? Number.POSITIVE_INFINITY;
    for (let ticks = least; ticks < latest; ticks++) {
      const known = this.best(this.bounds(ticks));
      if (known !== null && known.size <= mostWithin(this.budget, smallest)) return ticks;
    }
    return latest;
  }

  /** A way down the ladder, and others from the start while there is work left: chance counts for much. */
  private repeated(way: (ladder: Ladder, top: Rung) => void): void {
    const isOnce = !this.task.exhaustive || this.options.frontier;
    const most = (ANSWER_WORK - FINAL_WORK) * this.limits.words;
    let spent = 0;
    for (let attempts = 0; attempts < (isOnce ? 1 : MOST_ATTEMPTS) && !this.isCancelled(); attempts++) {
      if (attempts > 0) {
        if (spent * (1 + 1 / attempts) > most) return;
        this.startLadder();
      }
      const { ladder, top } = this;
      if (ladder === null || top === null) return;
      way(ladder, top);
      spent += ladder.spent;
    }
  }

  /** Makes the outputs anew over what slower networks have in time; what is found becomes known. */
  private coverAnew(ticks: number): void {
    if (!this.task.exhaustive || this.ladder === null) return;
    const slower = this.slower(ticks);
    for (const { draft } of this.ladder.coverAnew(slower, ticks, this.mostAnew(ticks))) this.add(draft);
  }

  /** Hurries known networks of a tick more that were not hurried before; what is found becomes known. */
  private hurryAnew(ticks: number): void {
    if (!this.task.exhaustive || this.ladder === null) return;
    const bounds = this.startBounds(ticks + 1);
    const smallest = this.best(bounds)?.size ?? 0;
    const found: Draft[] = [];
    for (const known of [...this.pool].sort(compare)) {
      if (found.length === HURRIED || known.size > HURRIED_SIZE * smallest) break;
      if (this.openTicks(known) !== ticks + 1 || !meets(known, bounds)) continue;
      const key = keyOf(known.network);
      if (!this.hurried.has(key)) found.push(networkDraft(this.task, known.network));
      this.hurried.add(key);
    }
    this.hurry(found, ticks);
  }

  /** Hurries covers for a tick more; whether anything comes near the best that was known. */
  private hurryCovers(ticks: number): boolean {
    if (!this.task.exhaustive || this.ladder === null) return false;
    const now = this.best(this.startBounds(ticks))?.size ?? Number.POSITIVE_INFINITY;
    const covers = this.ladder.coversOver(this.slower(ticks + 1), ticks + 1, this.mostAnew(ticks + 1));
    const size = this.hurry(covers, ticks);
    return Number.isFinite(size) && size <= NEAR * now;
  }

  /** Hurries drafts by a tick; what is found becomes known. The smallest size, infinite where nothing is found. */
  private hurry(drafts: readonly Draft[], ticks: number): number {
    const rungs = this.ladder?.hurryAnew(drafts, ticks, this.mostAnew(ticks)) ?? [];
    for (const { draft } of rungs) this.add(draft);
    return Math.min(...rungs.map(({ size }) => size));
  }

  /** Inverters that a new start may have before it is improved. */
  private mostAnew(ticks: number): number {
    const known = this.best(this.startBounds(ticks));
    if (known !== null) return Math.ceil(MOST_ANEW * known.size);
    const slower = this.best(this.startBounds(ticks + 1))?.size ?? this.written.inverters.length;
    return Math.ceil(MOST_FIRST * slower);
  }

  /** The smallest known networks that take a few ticks more, some of each number of ticks. */
  private slower(ticks: number): Draft[] {
    const { task } = this;
    const found: Draft[] = [];
    for (let at = ticks + 1; at <= ticks + SLOWER; at++) {
      const bounds = this.startBounds(at);
      const known = this.pool.filter((other) => this.openTicks(other) === at && meets(other, bounds));
      const keys = new Set<string>();
      for (const { network } of known.sort(compare)) {
        if (keys.size === SLOWER_EACH) break;
        const key = keyOf(network);
        if (!keys.has(key)) found.push(networkDraft(task, network));
        keys.add(key);
      }
    }
    return found;
  }

  /** Later than this no found network settles. */
  private latestTick(): number {
    return Math.max(...this.pool.map((known) => Math.max(0, ...known.outputs)), 0);
  }

  /** Size of the smallest network without tick bounds if it is below `size`; else the best known or `size`. */
  private smallestBelow(size: number): number {
    const bounds = this.bounds(Number.POSITIVE_INFINITY);
    const known = this.best(bounds)?.size ?? Number.POSITIVE_INFINITY;
    const conflicts = new Allowance(this.limits.conflicts);
    for (let n = 0; n < Math.min(size, known); n++) {
      const answer = this.ask(n, bounds, conflicts);
      if (answer === 'undecided') break;
      if (answer !== null) return n;
      this.leastSize = n + 1;
    }
    return Math.min(known, Math.max(size, 0));
  }

  /** The smallest network within the bounds, or null when none was found. */
  private point(bound: Fastest, bounds: Bounds): Point | null {
    if (this.task.exhaustive) {
      this.flatten(bounds);
      if (Math.max(...bounds) === bound.ticks + 1) this.flatten(bounds, 1, flattenOverBothRails);
    }
    const first = this.refute(bounds, 0, this.firstConflicts());
    if (first.done) return this.settled(bound, bounds, true);
    this.climbDown(bounds);
    const best = this.best(bounds);
    if (best !== null && best.size <= MOST_EXACT) {
      const rest = this.refute(bounds, first.size, this.limits.conflicts);
      if (rest.done) return this.settled(bound, bounds, true);
    }
    this.cutShort = true;
    return this.settled(bound, bounds, false);
  }

  /** What the exact search may spend before the ladder is tried: all it has on small tables, little on long ones. */
  private firstConflicts(): number {
    const { rowBits } = this.task;
    const { conflicts, firstConflicts } = this.limits;
    return rowBits <= SMALL_BITS
      ? conflicts
      : rowBits <= SAMPLE_BITS
        ? firstConflicts
        : firstConflicts / WIDE_SHARE;
  }

  /** Asks for networks of `from` inverters and more until there is one or the pool has one; tells where it stopped. */
  private refute(bounds: Bounds, from: number, limit: number): { done: boolean; size: number } {
    const conflicts = new Allowance(this.task.exhaustive ? Math.min(limit, this.conflicts.remaining) : 0);
    // Under bounds that nothing in the pool meets there may be no network at all: then every size is refuted quickly.
    const smallest = this.best(this.bounds(Number.POSITIVE_INFINITY))?.size ?? MOST_EXACT;
    for (let size = from; ; size++) {
      const known = this.best(bounds);
      if (known !== null && size >= known.size) return { done: true, size };
      if (known === null && size > Math.max(2 * smallest, MOST_EXACT)) return { done: false, size };
      const answer = this.ask(size, bounds, conflicts);
      if (answer === 'undecided') return { done: false, size };
      if (answer !== null) return { done: true, size };
    }
  }

  /** The system made anew from its functions; null where it does not come apart. */
  private functions(): System | null {
    if (this.anew === undefined) {
      this.anew = this.task.exhaustive ? decomposed(this.system, systemTables(this.system)) : null;
    }
    return this.anew;
  }

  /** Covers of a system that is the same as the one searched, by networks of the catalogue; none without a catalogue. */
  private covered(system: System, task: Task, limits: CoverLimits): Shape[] {
    const { catalogue } = this.options;
    if (catalogue === undefined) return [];
    const found = covers(task, graphOfSystem(system, task), catalogue(), limits);
    return found.filter(({ draft }) => obeysLegs(draftNetwork(task, draft), task));
  }

  /** Makes the ladder and, when ticks are asked for, goes down it to the bounds. */
  private climbDown(bounds: Bounds): void {
    if (this.options.known !== undefined) return;
    if (this.ladder === null) {
      const { task, random } = this;
      const sampled = !task.exhaustive || task.rowBits > SAMPLE_BITS;
      const sample = sampled ? new Sample(this.system, this.target, sampleBits(this.system), random) : null;
      const check = (draft: Draft): Pattern | null => this.wrongPattern(draft);
      // The first way down a frontier is quick at every effort: who ends the search early has something of each point.
      const words = this.options.frontier
        ? Math.min(LIMITS.normal.words, this.limits.words)
        : this.limits.words;
      const work = STEP_WORK * words;
      const wish = this.options.ticks ?? Number.POSITIVE_INFINITY;
      const boundsAt = (ticks: number): Bounds => this.startBounds(ticks);
      const control = task.exhaustive ? null : new Sample(this.system, this.target, CONTROL_BITS, random);
      const tables = sample === null ? systemTables(this.system) : sample.tables();
      const parts = { sample, control, boundsAt, check, random, work };
      const anew = this.functions();
      const shapes =
        anew === null
          ? lookAheadDrafts(this.system, tables, task, this.target)
          : lookAheadDrafts(anew, systemTables(anew), task, this.target);
      const limits = task.exhaustive ? COVER_LIMITS : WIDE_COVER_LIMITS;
      const covers = this.covered(anew ?? this.system, task, limits);
      this.makeLadder = () =>
        new Ladder({ ...parts, task, shapes, covers, free: this.freeLadder(anew ?? this.system, parts) });
      this.ladder = this.makeLadder();
      // With many inputs every rung is dear: a wish for ticks is met at once if there is a way.
      if (!task.exhaustive && this.options.ticks !== null && !this.options.frontier) {
        this.top = this.ladder.jump(wish);
      }
      // What comes apart starts from its functions, so that the answer does not hang on the way of writing; the text
      // itself is a start as well, because a reader may know a better way than to come apart input by input. Of a wide
      // system it is the smallest cover, since to come down to that takes long.
      const isLong = isInOutline(task, this.written, { ticks: null, effort: 'normal' });
      const made = anew === null ? [] : [asWrittenDraft(anew, task)];
      const smallest = covers.at(-1);
      const isSmaller = smallest !== undefined && smallest.size < this.written.inverters.length;
      const plain = isSmaller && !task.exhaustive ? smallest.draft : this.written;
      const starts = anew !== null && isLong ? made : [...made, plain];
      this.starts = starts.map((start) => networkDraft(task, draftNetwork(task, start)));
      if (this.top === null) this.startLadder();
      else this.add(this.top.draft);
    }
    const { ticks } = this.options;
    if (ticks === null) return;
    this.repeated((ladder, top) => {
      let rung = top;
      for (
        let next: Rung | null = rung;
        next !== null && !this.isCancelled();
        next = ladder.descend(Math.max(...bounds))
      ) {
        this.add(next.draft);
        rung = next;
      }
    });
    if (!this.options.frontier) this.finish(ticks);
  }

  /** The first rung of a ladder that nobody has used, so that chance falls another way. */
  private startLadder(): void {
    if (this.ladder === null || this.ladder.spent > 0) this.ladder = this.makeLadder?.() ?? null;
    this.top = this.ladder?.start(this.starts) ?? null;
    if (this.top !== null) this.add(this.top.draft);
  }

  /**
   * The rest of the work for a rung that is the answer. Where networks with a tick or two more are at hand, they are
   * improved and hurried again: what comes down from there is often better than what is found on the spot.
   */
  private finish(ticks: number): void {
    const { ladder, task, limits } = this;
    if (ladder === null) return;
    const improve = (at: number, work = STEP_WORK * limits.words): Rung | null => {
      const known = this.best(this.startBounds(at));
      if (known === null || this.isCancelled()) return null;
      const open = this.openTicks(known);
      const better = ladder.improve(
        { draft: networkDraft(task, known.network), size: known.size, ticks: open },
        at,
        work,
      );
      this.add(better.draft);
      return better;
    };
    if (!task.exhaustive) {
      improve(ticks, FINAL_WORK * limits.words);
      return;
    }
    const end = ladder.spent + FINAL_WORK * limits.words;
    for (let rounds = 0; rounds < MOST_ROUNDS && ladder.spent < end; rounds++) {
      this.coverAnew(ticks);
      improve(ticks);
      for (let at = ticks + 2; at > ticks && ladder.spent < end; at--) {
        const looser = improve(at);
        const next = looser === null || looser.ticks <= ticks ? null : ladder.descendFrom(looser, ticks);
        if (next !== null) this.add(next.draft);
      }
    }
    improve(ticks);
  }

  /** A ladder under freer rules: without limits on legs, or with joins at the outputs, for a target that has none. */
  private freeLadder(like: System, parts: FreeParts): Freer | null {
    const { task, system } = this;
    const { inverter, join } = this.target;
    const { inverterTicks, joinTicks } = task.rules;
    const same = (draft: Draft): Draft => draft;
    if (inverter.maxLegs !== null || join.maxLegs !== null) {
      const target: Target = {
        ...this.target,
        inverter: { ...inverter, maxLegs: null },
        join: { ...join, maxLegs: null },
      };
      const ladder = this.ladderFor(system, like, { ...task, rules: rulesOf(target) }, target, parts);
      return { ladder, loosen: same, tighten: same, later: 0 };
    }
    const [other, otherLike] = [onOtherRails(system), onOtherRails(like)];
    if (join.where === 'anywhere' || !task.exhaustive || other === null || otherLike === null) return null;
    const target = withJoinedOutputs(this.target);
    const free = makeTask(other, systemTables(other), target);
    const later = inverterTicks + joinTicks;
    const boundsAt = (ticks: number): Bounds => parts.boundsAt(ticks + later).map((bound) => bound - later);
    const check = (draft: Draft): Pattern | null => parts.check(singleDraft(task, draft));
    return {
      ladder: this.ladderFor(other, otherLike, free, target, { ...parts, boundsAt, check }),
      loosen: (draft) => joinedDraft(task, draft),
      tighten: (draft) => singleDraft(task, draft),
      later,
    };
  }

  /** A ladder for a system that is not quite the one that is searched; `like` has the same functions. */
  private ladderFor(system: System, like: System, free: Task, target: Target, parts: FreeParts): Ladder {
    const { task } = this;
    const sampled = !task.exhaustive || task.rowBits > SAMPLE_BITS;
    const sample = sampled ? new Sample(system, target, sampleBits(system), parts.random) : null;
    const control = task.exhaustive ? null : new Sample(system, target, CONTROL_BITS, parts.random);
    const tables = task.exhaustive ? systemTables(like) : (sample as Sample).tables();
    const shapes = lookAheadDrafts(like, tables, free, target);
    this.freeCovers ??= this.covered(like, free, task.exhaustive ? COVER_LIMITS : WIDE_COVER_LIMITS);
    const covers = this.freeCovers;
    return new Ladder({ ...parts, task: free, sample, control, shapes, covers, free: null });
  }

  /** The best of the pool within the bounds, with its last choices made. */
  private settled(bound: Fastest, bounds: Bounds, proved: boolean): Point | null {
    const { task, limits } = this;
    const best = this.best(bounds);
    if (best === null) return null;
    const polished = proved
      ? settleChoices(task, best.network, bounds, this.rows, new Allowance(limits.firstConflicts))
      : best.network;
    if (!task.exhaustive) return this.pointOf(best.network, bound, false);
    const words = this.options.frontier && task.rowBits > SAMPLE_BITS ? limits.words / 50 : limits.words / 10;
    const pruned = pruneDraft(task, networkDraft(task, polished), new Allowance(words));
    const thinned = this.add(pruned);
    const network = thinned !== null && thinned.size <= this.inverters(polished) ? thinned.network : polished;
    return this.pointOf(network, bound, proved);
  }

  private pointOf(network: Network, bound: Fastest, proved: boolean): Point {
    const ticks = networkTicks(network, this.task.rules);
    return {
      network,
      inverters: this.inverters(network),
      ticks,
      openTicks: this.openTicks({ outputs: outputTicks(network, this.task.rules) }),
      ticksProved: ticks === bound.ticks,
      sizeProved: proved,
    };
  }

  /** Inverters to build, copies included. */
  private inverters(network: Network): number {
    const { inverterOutputs } = this.task.rules;
    return network.size + countCopies(network, Number.isFinite(inverterOutputs) ? inverterOutputs : null);
  }

  /** Asks for a network of exactly `size` inverters, copies included; what is found joins the pool. */
  private ask(size: number, bounds: Bounds, conflicts: Allowance): Network | 'undecided' | null {
    if (conflicts.spent || this.isCancelled()) return 'undecided';
    const { task, rows } = this;
    const mostCopies = Number.isFinite(task.rules.inverterOutputs) ? size : 0;
    for (let copies = 0; copies <= mostCopies; copies++) {
      if (conflicts.spent) return 'undecided';
      // A question costs something even when it is answered without a conflict.
      conflicts.take(1 + size);
      const question = {
        task,
        size: size - copies,
        copies,
        by: bounds,
        maxConflicts: conflicts.remaining,
        rows,
      };
      const answer = exactNetwork(question, (count) => {
        conflicts.take(count);
        this.conflicts.take(count);
      });
      if (answer.kind === 'undecided') return 'undecided';
      if (answer.kind === 'none') continue;
      this.keep(answer.network);
      return answer.network;
    }
    return null;
  }

  /** Adds a cover of few levels, by either way of flattening. */
  private flatten(bounds: Bounds, share = 1, cover: typeof flattenDraft = flattenDraft): void {
    const { task, limits } = this;
    const chosen = task.wires.map((wire) => wire.rival < 0 || wire.rail === 'high');
    const low = task.outputs.map(() => false);
    const draft = cover(
      task,
      chosen,
      low,
      bounds,
      new Allowance(limits.words / 4),
      MOST_FLAT * this.written.inverters.length,
      share,
    );
    if (draft === null) return;
    this.add(pruneDraft(task, draft, new Allowance((share * limits.words) / 10)));
  }

  /** Adds a draft to the pool if it is right and within the limits on legs; returns what was added. */
  private add(draft: Draft): Known | null {
    if (this.wrongPattern(draft) !== null) return null;
    const network = draftNetwork(this.task, draft);
    return this.obeys(network) ? this.keep(network) : null;
  }

  /** A pattern on which a draft is wrong: by whole tables, or by the judge. */
  private wrongPattern(draft: Draft): Pattern | null {
    const { task } = this;
    const network = draftNetwork(task, draft);
    const key = `${keyOf(network)}|${draft.chosen}|${draft.low}`;
    if (this.judged.has(key)) return null;
    const row = firstWrongRow(task, draft);
    if (task.exhaustive && row >= 0)
      return Uint8Array.from({ length: task.rowBits }, (_, i) => (row >> i) & 1);
    const wrong = task.exhaustive ? null : this.judge(network);
    if (wrong === null) this.judged.add(key);
    return wrong;
  }

  private obeys(network: Network): boolean {
    return obeysLegs(network, this.task);
  }

  private knownOf(network: Network): Known {
    return { network, size: this.inverters(network), outputs: outputTicks(network, this.task.rules) };
  }

  private keep(network: Network): Known {
    const known = this.knownOf(network);
    const ticks = this.openTicks(known);
    const isBeaten = this.pool.some((other) => other.size <= known.size && this.openTicks(other) <= ticks);
    this.pool.push(known);
    if (!isBeaten) this.tell();
    return known;
  }

  /** The best of the pool within the bounds: fewest inverters, then earliest outputs, then fewest legs. */
  private best(bounds: Bounds): Known | null {
    let best: Known | null = null;
    for (const known of this.pool) {
      if (!meets(known, bounds)) continue;
      if (best === null || compare(known, best) < 0) best = known;
    }
    return best;
  }
}

function meets({ outputs }: Known, bounds: Bounds): boolean {
  return outputs.every((tick, y) => tick <= bounds[y]);
}

function compare(a: Known, b: Known): number {
  return (
    a.size - b.size ||
    Math.max(0, ...a.outputs) - Math.max(0, ...b.outputs) ||
    sum(a.outputs) - sum(b.outputs) ||
    countLegs(a.network) - countLegs(b.network)
  );
}

/**
 * The part of the words that a search gets. Whoever asks for nothing in particular about a wide system, or one of long
 * tables, gets an answer in seconds; a wish for ticks, a frontier or an effort of `deep` has all the words there are.
 */
function wordsShare(task: Task, written: Draft, { ticks, frontier, effort }: SearchOptions): number {
  if (ticks !== null || frontier === true || effort === 'deep') return 1;
  if (task.exhaustive) return task.rowBits > SAMPLE_BITS && effort === 'normal' ? LONG_SHARE : 1;
  return Math.min(1, FULL_WORK / wideSize(task, written));
}

/** Row bits of the sample: the more inputs, the more ways for an output to depend on them. */
function sampleBits({ inputs }: System): number {
  return inputs.length <= MAX_INPUTS ? SAMPLE_BITS : Math.min(14, 6 + Math.ceil(Math.log2(inputs.length)));
}

/** The fewest ticks of a system: from its tables where they are whole, else from its equations. */
export function fewestTicks(system: System, task: Task, limits: Limits, isOutline: boolean): Fastest {
  if (task.exhaustive) return fastest(task);
  return isOutline
    ? fastestWide(system, task, OUTLINE_LIMITS.conflicts, OUTLINE_LIMITS.work / (1 + system.signals.length))
    : fastestWide(system, task, limits.firstConflicts);
}

/** Whether all joins of a network are within the limits on legs. */
function obeysLegs(network: Network, { rules: { inverterLegs, outputLegs } }: Task): boolean {
  for (let i = 0; i < network.size; i++) if (legsOf(network, i).length > inverterLegs) return false;
  return network.outputs.every((_, y) => outputLegsOf(network, y).length <= outputLegs);
}

/** Equal for equal networks. */
function keyOf({ legs, legStart, outputLegs, outputStart }: Network): string {
  return [legs, legStart, outputLegs, outputStart].map((list) => list.join(' ')).join('|');
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
