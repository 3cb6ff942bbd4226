// Rails between blocks. Blocks of equations are laid apart; a signal that one makes and others take runs between them on
// one wire, and it is free on which rail. The plan is the choice of all these rails with the fewest ticks overall, then
// the fewest parts.
//
// Idea. A block is a search of its own: its inputs arrive when the block that makes them delivers them, on the rail that
// was chosen. So a choice of rails is priced by searching the blocks one after the other, makers first. What a block
// comes to depends only on the rails and ticks at its border, and is kept. With few signals all choices are priced. With
// more, the exact lower bound on ticks (src/search/fastest.ts) sorts them first: all of them up to `MOST_BOUNDED`
// signals, above that by turning one rail after the other as long as it helps; the best `MOST_PRICED` are searched.
//
// What is told of every signal is what the other rail would cost with all others as they are.

import type { InputDeclaration, OutputDeclaration, Rail, System } from '../equations/system.ts';
import { countCopies } from '../network/copies.ts';
import { outputTicks } from '../network/levels.ts';
import type { Network } from '../network/network.ts';
import { fastest } from '../search/fastest.ts';
import type { Effort } from '../search/limits.ts';
import { runSearch } from '../search/run-search.ts';
import { makeTask, rulesOf } from '../search/task.ts';
import type { Target } from '../target/target.ts';
import { systemTables } from '../truth/system-tables.ts';

export type PlannedRail = 'high' | 'low';

export interface PlanBlock {
  readonly name: string;
  /** Its outputs are what others take and what leaves the whole. */
  readonly system: System;
}

export interface PlanSignal {
  readonly name: string;
  /** The block that makes it, and those that take it. */
  readonly from: string;
  readonly to: readonly string[];
  readonly rail: PlannedRail;
  /** The rail was given and not chosen. */
  readonly isGiven: boolean;
  /** When it is there. */
  readonly tick: number;
  /** The whole with this signal on the other rail; null when the rail was given, or nothing was found. */
  readonly other: { readonly ticks: number; readonly parts: number } | null;
}

export interface LaidBlock {
  readonly name: string;
  /** The system on the rails and at the ticks of the plan. */
  readonly system: System;
  readonly network: Network;
  /** Tick of each output. */
  readonly outputs: readonly { readonly name: string; readonly rail: PlannedRail; readonly tick: number }[];
  readonly parts: number;
}

export interface Plan {
  readonly signals: readonly PlanSignal[];
  /** Makers before takers. */
  readonly blocks: readonly LaidBlock[];
  readonly ticks: number;
  readonly parts: number;
  /** How many choices of rails were searched, of how many. */
  readonly priced: number;
  readonly choices: number;
}

const MOST_BOUNDED = 10;
const ALL_PRICED = 4;
const MOST_PRICED = 16;

export interface PlanOptions {
  readonly target: Target;
  readonly effort: Effort;
  readonly seed: number;
}

/**
 * Plans the rails of all signals between blocks. The blocks stand makers first; no signal has two makers. `given` fixes
 * rails by name. Null when a block finds no network (a deadline).
 */
export function planRails(
  blocks: readonly PlanBlock[],
  given: ReadonlyMap<string, PlannedRail>,
  options: PlanOptions,
): Plan | null {
  return new Planner(blocks, given, options).plan();
}

interface Between {
  readonly name: string;
  readonly from: PlanBlock;
  readonly to: readonly PlanBlock[];
}

type Choice = ReadonlyMap<string, PlannedRail>;

interface Priced {
  readonly choice: Choice;
  readonly blocks: readonly LaidBlock[];
  readonly ticks: number;
  readonly parts: number;
}

class Planner {
  private readonly blocks: readonly PlanBlock[];
  private readonly given: ReadonlyMap<string, PlannedRail>;
  private readonly options: PlanOptions;
  private readonly between: readonly Between[];
  private readonly known = new Map<string, LaidBlock | null>();
  private readonly bounds = new Map<string, readonly number[]>();

  constructor(blocks: readonly PlanBlock[], given: ReadonlyMap<string, PlannedRail>, options: PlanOptions) {
    this.blocks = blocks;
    this.given = given;
    this.options = options;
    this.between = blocks.flatMap((from) =>
      outputNames(from.system).flatMap((name): Between[] => {
        const to = blocks.filter((block) => block !== from && inputNames(block.system).includes(name));
        return to.length > 0 ? [{ name, from, to }] : [];
      }),
    );
  }

  plan(): Plan | null {
    const free = this.between.filter(({ name }) => !this.given.has(name)).map(({ name }) => name);
    const candidates = this.candidates(free);
    const priced = candidates.map((choice) => this.price(choice)).filter((one) => one !== null);
    if (priced.length === 0) return null;
    let best = priced.reduce((a, b) => (isBetter(b, a) ? b : a));
    // Whatever way the candidates were found, no single turn may be better than the plan.
    const others = new Map<string, Priced | null>();
    for (let turn = 0; turn < free.length; turn++) {
      const other = this.price(turned(best.choice, free[turn]));
      others.set(free[turn], other);
      if (other === null || !isBetter(other, best)) continue;
      best = other;
      turn = -1;
    }
    const ticks = tickMap(best.blocks);
    return {
      signals: this.between.map(({ name, from, to }): PlanSignal => {
        const other = others.get(name) ?? null;
        return {
          name,
          from: from.name,
          to: to.map((block) => block.name),
          rail: best.choice.get(name) ?? 'high',
          isGiven: this.given.has(name),
          tick: ticks.get(name) ?? 0,
          other: other === null ? null : { ticks: other.ticks, parts: other.parts },
        };
      }),
      blocks: best.blocks,
      ticks: best.ticks,
      parts: best.parts,
      priced: candidates.length,
      choices: 2 ** free.length,
    };
  }

  /** Choices worth a search, the most promising first. */
  private candidates(free: readonly string[]): Choice[] {
    const start: Choice = new Map(this.between.map(({ name }) => [name, this.given.get(name) ?? 'high']));
    const all = (): Choice[] =>
      Array.from({ length: 2 ** free.length }, (_, set) => {
        const choice = new Map(start);
        free.forEach((name, i) => {
          choice.set(name, ((set >> i) & 1) === 1 ? 'low' : 'high');
        });
        return choice;
      });
    if (free.length <= ALL_PRICED) return all();
    if (free.length > MOST_BOUNDED) return this.climb(start, free);
    const bounded = all().map((choice, order) => ({ choice, order, bound: this.bound(choice) }));
    bounded.sort((a, b) => a.bound - b.bound || a.order - b.order);
    return bounded.slice(0, MOST_PRICED).map(({ choice }) => choice);
  }

  /** Turns one rail after the other while the bound falls. */
  private climb(start: Choice, free: readonly string[]): Choice[] {
    let best = start;
    let bound = this.bound(best);
    for (let turn = 0; turn < free.length; turn++) {
      const other = turned(best, free[turn]);
      const there = this.bound(other);
      if (there >= bound) continue;
      best = other;
      bound = there;
      turn = -1;
    }
    return best === start ? [start] : [best, start];
  }

  /** No network of this choice is faster. */
  private bound(choice: Choice): number {
    const ticks = new Map<string, number>();
    let latest = 0;
    for (const block of this.blocks) {
      const system = this.systemFor(block, choice, ticks);
      const key = keyOf(block, system);
      const each =
        this.bounds.get(key) ?? fastest(makeTask(system, systemTables(system), this.options.target)).each;
      this.bounds.set(key, each);
      outputNames(system).forEach((name, y) => {
        ticks.set(name, Math.max(ticks.get(name) ?? 0, each[y] ?? 0));
        latest = Math.max(latest, each[y] ?? 0);
      });
    }
    return latest;
  }

  /** Searches all blocks, makers first. */
  private price(choice: Choice): Priced | null {
    const ticks = new Map<string, number>();
    const laid: LaidBlock[] = [];
    for (const block of this.blocks) {
      const system = this.systemFor(block, choice, ticks);
      const key = keyOf(block, system);
      const known = this.known.get(key);
      const found = known === undefined ? this.search(block, system) : known;
      this.known.set(key, found);
      if (found === null) return null;
      laid.push(found);
      for (const { name, tick } of found.outputs) ticks.set(name, tick);
    }
    return {
      choice,
      blocks: laid,
      ticks: Math.max(0, ...laid.flatMap(({ outputs }) => outputs.map(({ tick }) => tick))),
      parts: laid.reduce((sum, { parts }) => sum + parts, 0),
    };
  }

  private search({ name }: PlanBlock, system: System): LaidBlock | null {
    const { target, effort, seed } = this.options;
    const task = makeTask(system, systemTables(system), target);
    const { answer } = runSearch(system, task, target, { ticks: null, effort, seed });
    if (answer === null) return null;
    const { network } = answer;
    const ticks = outputTicks(network, rulesOf(target));
    const copies = countCopies(network, target.inverter.outputs);
    return {
      name,
      system,
      network,
      outputs: network.outputs.map(({ signal, rail }, y) => ({
        name: system.signals[signal],
        rail,
        tick: ticks[y],
      })),
      parts: (network.size + copies) * target.inverter.parts,
    };
  }

  /** The system of a block with the rails and ticks of what runs in and out. */
  private systemFor({ system }: PlanBlock, choice: Choice, ticks: ReadonlyMap<string, number>): System {
    const railOf = (signal: number, rail: Rail): Rail => choice.get(system.signals[signal]) ?? rail;
    return {
      ...system,
      inputs: system.inputs.map(
        ({ signal, rail, tick }): InputDeclaration => ({
          signal,
          rail: railOf(signal, rail),
          tick: ticks.get(system.signals[signal]) ?? tick,
        }),
      ),
      outputs: system.outputs.map(
        ({ signal, rail, by }): OutputDeclaration => ({ signal, rail: railOf(signal, rail), by }),
      ),
    };
  }
}

function keyOf({ name }: PlanBlock, { inputs, outputs }: System): string {
  return JSON.stringify([
    name,
    inputs.map(({ rail, tick }) => [rail, tick]),
    outputs.map(({ rail }) => rail),
  ]);
}

function turned(choice: Choice, name: string): Choice {
  return new Map(choice).set(name, choice.get(name) === 'low' ? 'high' : 'low');
}

function isBetter(a: Priced, b: Priced): boolean {
  return a.ticks < b.ticks || (a.ticks === b.ticks && a.parts < b.parts);
}

function tickMap(blocks: readonly LaidBlock[]): Map<string, number> {
  return new Map(blocks.flatMap(({ outputs }) => outputs.map(({ name, tick }) => [name, tick] as const)));
}

export function outputNames(system: System): string[] {
  return system.outputs.map(({ signal }) => system.signals[signal]);
}

export function inputNames(system: System): string[] {
  return system.inputs.map(({ signal }) => system.signals[signal]);
}
