// A system searched part by part.
//
// Idea. Outputs that have no input in common are searched apart: the tables of a part are as long as its own inputs ask
// for, and questions about it are small. Three hundred separate gates are three hundred small questions instead of one
// about six hundred inputs; equal parts, up to names, are searched once. A caller may ask for other parts, which then
// share nothing (sharing.ts).
//
// Order of work. First the fewest ticks of every part, since one deadline that cannot be met ends all. Then every part
// is searched for its own answer, small ones for their whole frontier, and the budget is applied to the sums. Parts
// whose own answer is for another tick count than the one that was chosen are searched once more for that.
//
// Cost. The counted limits of an effort are for one system of any kind; parts get all of them while there are few, and
// a share each when there are many.

import type { System } from '../equations/system.ts';
import { legFaults } from '../network/check-network.ts';
import { countCopies } from '../network/copies.ts';
import { outputTicks } from '../network/levels.ts';
import type { InputWire, Network } from '../network/network.ts';
import type { WholeWires } from '../network/put-together.ts';
import type { Target } from '../target/target.ts';
import { fitsTables, systemTables } from '../truth/system-tables.ts';
import {
  type ApartWishes,
  bestPoints,
  chosenTicks,
  fastestOfParts,
  type PartOutcome,
  type PartPoint,
  pointWithin,
  wholeOutcome,
} from './apart.ts';
import { asWrittenDraft, asWrittenNetwork } from './as-written.ts';
import { DEFAULT_BUDGET } from './budget.ts';
import type { Fastest } from './fastest.ts';
import { LIMITS, type Limits } from './limits.ts';
import { isInOutline } from './outline.ts';
import {
  fewestTicks,
  type Judge,
  type Outcome,
  type Point,
  runSearch,
  type SearchOptions,
  type StopReason,
} from './run-search.ts';
import { sampleTables } from './sample.ts';
import type { Part } from './subsystem.ts';
import { makeTask, type Task } from './task.ts';
import type { Watch } from './watch.ts';

/** Up to so many inputs the whole frontier of a part takes no longer than its answer. */
const FRONTIER_INPUTS = 4;
/** A part of so many inputs is proved by the first questions, if at all. */
const EXACT_INPUTS = 10;
/** So many kinds of parts have the limits of a whole search each; more share them. */
const WHOLE_SHARES = 4;
const SMALL_SHARES = 40;
/** Up to so many kinds, news of each are told at once; with more, when one has ended. */
const TOLD_AT_ONCE = 4;

/** The judge of networks of a system: see `runSearch`. */
export type JudgeOf = (system: System) => Judge;

/**
 * The search of a system cut into parts, which then share no inverter.
 *
 * @param parts hold every output of the system exactly once.
 */
export function searchParts(
  system: System,
  task: Task,
  target: Target,
  parts: readonly Part[],
  options: SearchOptions,
  judgeOf: JudgeOf,
): Outcome {
  return new PartsSearch(system, task, target, parts, { options, judgeOf }).run();
}

/** One kind of part: those that are equal up to the names of their signals. */
interface Kind {
  readonly system: System;
  readonly limits: Limits;
  fastest: Fastest;
  /** What is known of it, in its own signals. */
  points: readonly PartPoint[];
  leastSize: number;
  stop: StopReason;
  /** Tick counts for which the smallest network has been asked for; null when for all. */
  asked: Set<number> | null;
  outline: boolean;
}

class PartsSearch {
  private readonly target: Target;
  private readonly options: SearchOptions;
  private readonly judgeOf: JudgeOf;
  private readonly parts: readonly Part[];
  private readonly kinds: readonly Kind[];
  /** By part: its kind. */
  private readonly kindOf: readonly number[];
  private readonly outputWires: readonly (readonly number[])[];
  private readonly wires: WholeWires;
  private readonly asWritten: Network;
  private readonly wishes: ApartWishes;

  constructor(
    system: System,
    task: Task,
    target: Target,
    parts: readonly Part[],
    how: { readonly options: SearchOptions; readonly judgeOf: JudgeOf },
  ) {
    const { options, judgeOf } = how;
    this.target = target;
    this.options = options;
    this.judgeOf = judgeOf;
    this.parts = parts;
    this.asWritten = asWrittenNetwork(task, asWrittenDraft(system, task));
    this.wires = wholeWires(task);
    const { ticks, inverters = null, budget = DEFAULT_BUDGET, frontier = false } = options;
    this.wishes = { ticks, inverters, budget, frontier };
    this.outputWires = parts.map(({ outputs }) => {
      const signals = new Set(outputs.map((y) => system.outputs[y].signal));
      return task.outputs.flatMap(({ signal }, wire) => (signals.has(signal) ? [wire] : []));
    });
    const known = new Map<string, number>();
    this.kindOf = parts.map((part) => {
      const shape = shapeOf(part.system);
      const kind = known.get(shape) ?? known.size;
      known.set(shape, kind);
      return kind;
    });
    const systems = [...known.values()].map((kind) => parts[this.kindOf.indexOf(kind)].system);
    const limits = options.limits ?? LIMITS[options.effort];
    const small = systems.filter((kind) => isSmall(kind)).length;
    this.kinds = systems.map((kind) => ({
      system: kind,
      limits: isSmall(kind)
        ? shared(limits, SMALL_SHARES / small)
        : shared(limits, WHOLE_SHARES / (systems.length - small)),
      fastest: { ticks: 0, withDeadlines: 0, each: [], exact: false },
      points: [],
      leastSize: 0,
      stop: 'complete',
      asked: new Set(),
      outline: false,
    }));
  }

  run(): Outcome {
    const { kinds, options } = this;
    for (const kind of kinds) this.begin(kind);
    const { ticks, withDeadlines } = fastestOfParts(this.outcomes());
    if (withDeadlines === null || (options.ticks !== null && options.ticks < ticks)) {
      for (const kind of kinds) kind.points = [];
      return this.outcome();
    }
    this.tell();
    for (const kind of kinds) this.search(kind, options.ticks);
    if (options.ticks === null && !options.frontier) this.searchAgain();
    return this.outcome();
  }

  /** The fewest ticks of a kind, and what it is as written. */
  private begin(kind: Kind): void {
    const task = this.taskOf(kind.system);
    const draft = asWrittenDraft(kind.system, task);
    const isOutline = isInOutline(task, draft, this.options);
    kind.fastest = fewestTicks(kind.system, task, kind.limits, isOutline);
    const network = asWrittenNetwork(task, draft);
    if (legFaults(network, this.target).length > 0) return;
    const point = this.pointOf(network, task);
    if (point !== null) kind.points = [point];
  }

  private pointOf(network: Network, task: Task): PartPoint | null {
    const ticks = outputTicks(network, task.rules);
    const latest = this.options.ticks ?? Number.POSITIVE_INFINITY;
    if (ticks.some((tick, y) => tick > Math.min(task.outputs[y].by ?? latest, latest))) return null;
    const open = ticks.filter((_, y) => task.outputs[y].by === null);
    return {
      network,
      inverters: network.size + countCopies(network, this.target.inverter.outputs),
      ticks: Math.max(0, ...ticks),
      openTicks: Math.max(0, ...open),
      provedWithin: -1,
    };
  }

  private taskOf(system: System): Task {
    const isWide = !fitsTables(system);
    const tables = isWide ? sampleTables(system, this.options.seed) : systemTables(system);
    return makeTask(system, tables, this.target, !isWide);
  }

  /** Asks for the answer of a kind, or for its smallest network within so many ticks. */
  private search(kind: Kind, ticks: number | null): void {
    const { options, target, judgeOf } = this;
    const { system, limits, fastest: bound } = kind;
    const task = this.taskOf(system);
    const isWhole = options.frontier === true || (ticks === null && isSmall(system));
    // The budget is one of the whole; a number says nothing about a part.
    const { budget = DEFAULT_BUDGET } = options;
    const before = { ...kind };
    const found = (outcome: Outcome): void => {
      Object.assign(kind, before);
      this.learn(kind, outcome, ticks);
      this.tell();
    };
    const { isCancelled } = options.watch ?? {};
    const watch: Watch<Outcome> = {
      ...(isCancelled === undefined ? {} : { isCancelled }),
      ...(options.watch?.found === undefined || this.kinds.length > TOLD_AT_ONCE ? {} : { found }),
    };
    const outcome = runSearch(
      system,
      task,
      target,
      {
        ticks,
        effort: options.effort,
        seed: options.seed,
        budget: 'factor' in budget ? budget : DEFAULT_BUDGET,
        frontier: isWhole,
        // Small parts are proved by the first questions, whoever walks.
        isFurther: options.isFurther === true && !(task.exhaustive && task.rowBits <= EXACT_INPUTS),
        watch,
        limits,
        bound,
        curve: true,
      },
      judgeOf(system),
    );
    Object.assign(kind, before);
    this.learn(kind, outcome, ticks);
    if (isWhole) kind.asked = null;
    const answered = ticks ?? outcome.answer?.openTicks;
    if (answered !== undefined) kind.asked?.add(answered);
    this.tell();
  }

  /** Takes over what a search of a kind has found. */
  private learn(kind: Kind, outcome: Outcome, ticks: number | null): void {
    const { answer, frontier, stop } = outcome;
    const isComplete = stop === 'complete';
    const ofFrontier = (frontier ?? []).map((point, n, all) => {
      const next = all[n + 1]?.openTicks ?? Number.POSITIVE_INFINITY;
      return partPoint(point, point.sizeProved ? (isComplete ? next - 1 : point.openTicks) : -1);
    });
    const ofAnswer =
      answer === null ? [] : [partPoint(answer, answer.sizeProved ? (ticks ?? answer.openTicks) : -1)];
    const others = (outcome.curve ?? []).map((point) => partPoint(point, -1));
    kind.points = bestPoints([...kind.points, ...ofFrontier, ...ofAnswer, ...others]);
    kind.outline = outcome.outline ?? false;
    if (kind.outline) kind.asked = null;
    kind.leastSize = Math.max(kind.leastSize, outcome.leastSize);
    kind.stop = kind.stop === 'complete' ? stop : kind.stop;
    if (stop === 'cut short') kind.stop = stop;
  }

  /** Kinds whose answer is for another tick count than that of the whole are asked for this one. */
  private searchAgain(): void {
    for (;;) {
      const ticks = chosenTicks(this.outcomes(), this.wishes);
      if (ticks === null) return;
      const open = this.kinds.filter((kind) => !isSettled(kind, ticks));
      if (open.length === 0) return;
      for (const kind of open) this.search(kind, ticks);
    }
  }

  private outcomes(): PartOutcome[] {
    return this.parts.map(({ signals }, n) => {
      const { fastest, points, leastSize, stop, outline } = this.kinds[this.kindOf[n]];
      const outputs = this.outputWires[n];
      return {
        curve: points.map((point) => inWhole(point, signals)),
        fastest,
        leastSize,
        stop,
        outline,
        outputs,
      };
    });
  }

  private outcome(): Outcome {
    const inverterOutputs = this.target.inverter.outputs;
    return wholeOutcome(
      { wires: this.wires, inverterOutputs, parts: this.outcomes() },
      this.asWritten,
      this.wishes,
    );
  }

  private tell(): void {
    const found = this.options.watch?.found;
    if (found !== undefined) found({ ...this.outcome(), stop: 'cut short' });
  }
}

function isSmall({ inputs }: System): boolean {
  return inputs.length <= FRONTIER_INPUTS;
}

/** Nothing is to be won by asking a kind for its smallest network within so many ticks. */
function isSettled({ points, stop, asked }: Kind, ticks: number): boolean {
  if (stop === 'cut short' || asked === null || asked.has(ticks)) return true;
  const point = pointWithin(points, ticks);
  return point === null || point.provedWithin >= ticks;
}

function partPoint({ network, inverters, ticks, openTicks }: Point, provedWithin: number): PartPoint {
  return { network, inverters, ticks, openTicks, provedWithin };
}

/** The same point in the signals of the whole. */
function inWhole(point: PartPoint, signals: readonly number[]): PartPoint {
  const { network } = point;
  const moved = <Wire extends { readonly signal: number }>(wire: Wire): Wire => ({
    ...wire,
    signal: signals[wire.signal],
  });
  return {
    ...point,
    network: { ...network, inputs: network.inputs.map(moved), outputs: network.outputs.map(moved) },
  };
}

/** A part of the limits; never more than all of them, and enough for a few questions. */
function shared(limits: Limits, share: number): Limits {
  const part = Math.min(1, share);
  return {
    firstConflicts: Math.ceil(limits.firstConflicts * part),
    conflicts: Math.ceil(limits.conflicts * part),
    words: Math.ceil(limits.words * part),
  };
}

/** The wires of the whole in the order of its task. */
function wholeWires(task: Task): WholeWires {
  const inputs: InputWire[][] = [];
  task.wires.forEach(({ signal, rail, tick, rival }, s) => {
    if (rival >= 0 && rival < s) inputs[inputs.length - 1].push({ signal, rail, tick });
    else inputs.push([{ signal, rail, tick }]);
  });
  return { inputs, outputs: task.outputs.map(({ signal }) => ({ signal })) };
}

/** Equal for systems that differ in names and places only. */
function shapeOf({ inputs, outputs, definitions, never, free }: System): string {
  const bare = <Item extends { readonly signal: number; readonly expression: unknown }>(
    items: readonly Item[],
  ) => items.map(({ signal, expression }) => [signal, expression]);
  return JSON.stringify([inputs, outputs, bare(definitions), never, bare(free ?? [])]);
}
