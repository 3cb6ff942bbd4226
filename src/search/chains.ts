// Chains: signals of which each depends on the one before it and otherwise on things that are there early, such as the
// carries of an adder, the verdicts of a comparator, the grants of a priority encoder.
//
// Idea. Follow the deepest path of definitions back from the deepest signal. A step on it, y = f(x, others), is a stage
// when f never falls, or never rises, with x: then y, or its complement, is f0 + f1 x with f0 = f at x = 0 and f1 = f at
// x = 1, and a run of stages can be built as look-ahead of any shape (look-ahead.ts). Which equations the reader chose
// for his stages does not matter, since f0 and f1 are looked at as functions. A path is cut where a definition reaches
// back further than one step, or where it is a parity in x, and the longest piece is kept. Steps that only add a
// product or only a sum (t = p c, then c = g + t) are made one with the next. When a chain has been found its signals
// count as early and the next chain is looked for.
//
// Correctness. Rising or falling is judged on the tables at hand, which may be a sample; so what is built from a chain
// is checked like every other draft.
//
// Cost. One evaluation of each stage for x = 0 and for x = 1.

import type { Expression, System } from '../equations/system.ts';
import { expressionTable, type SystemTables } from '../truth/system-tables.ts';
import { andInto, isEmpty, type Table, without } from '../truth/table.ts';
import { mentioned, substitute } from './substitute.ts';

/** z = f0 + f1 z', where z' is the chain signal before it. */
export interface Stage {
  readonly signal: number;
  /** z is the complement of the signal. */
  readonly inverted: boolean;
  readonly zero: Expression;
  readonly one: Expression;
}

export interface Chain {
  /** z before the first stage: an input or a defined signal. */
  readonly start: number;
  readonly stages: readonly Stage[];
}

/** Shorter chains are left to the other moves. */
const LEAST_STAGES = 4;
const MOST_CHAINS = 6;
/** A path begins where a signal depends on so many inputs: below, as-written is good enough. */
const LEAST_SUPPORT = 3;

/** The chains of a system, longest paths first; none when there is nothing to be looked ahead over. */
export function findChains(system: System, tables: SystemTables): Chain[] {
  return new Finder(system, tables).run();
}

class Finder {
  private readonly tables: SystemTables;
  private readonly definition = new Map<number, Expression>();
  private readonly order: number[] = [];
  private readonly users = new Map<number, number>();
  private readonly outputs: ReadonlySet<number>;
  private readonly taken = new Set<number>();

  constructor(system: System, tables: SystemTables) {
    this.tables = tables;
    this.outputs = new Set(system.outputs.map(({ signal }) => signal));
    for (const { signal, expression } of system.definitions) {
      this.definition.set(signal, expression);
      this.order.push(signal);
      for (const used of mentioned(expression)) this.users.set(used, (this.users.get(used) ?? 0) + 1);
    }
  }

  run(): Chain[] {
    const chains: Chain[] = [];
    while (chains.length < MOST_CHAINS) {
      const chain = this.longest();
      if (chain === null) break;
      chains.push(chain);
      for (const { signal } of chain.stages) this.taken.add(signal);
    }
    return chains;
  }

  private longest(): Chain | null {
    const depth = new Map<number, number>();
    const from = new Map<number, number>();
    let deepest = 0;
    for (const signal of this.order) {
      if (this.taken.has(signal)) continue;
      let mine = 0;
      for (const used of mentioned(this.definition.get(signal) as Expression)) {
        const there = depth.get(used) ?? 0;
        if (there >= mine && this.definition.has(used) && !this.taken.has(used)) {
          mine = there;
          from.set(signal, used);
        }
      }
      depth.set(signal, mine + 1);
      deepest = Math.max(deepest, mine + 1);
    }
    if (deepest < LEAST_STAGES) return null;
    let best: Chain | null = null;
    for (const signal of this.order) {
      if ((depth.get(signal) ?? 0) !== deepest) continue;
      const path: number[] = [];
      for (let at: number | undefined = signal; at !== undefined; at = from.get(at)) path.unshift(at);
      const chain = this.chainOn(path);
      if (chain !== null && (best === null || chain.stages.length > best.stages.length)) best = chain;
    }
    return best;
  }

  /** The longest run of stages on a path. */
  private chainOn(path: readonly number[]): Chain | null {
    let best: Chain | null = null;
    let start = -1;
    let stages: Stage[] = [];
    let pending: Expression | null = null;
    const close = (): void => {
      if (stages.length >= LEAST_STAGES && (best === null || stages.length > best.stages.length))
        best = { start, stages };
    };
    for (let k = 0; k < path.length; k++) {
      const signal = path[k];
      const before = stages.at(-1)?.signal ?? start;
      let expression = this.definition.get(signal) as Expression;
      if (pending !== null) expression = substitute(expression, path[k - 1], pending);
      const reachesBack = stages.slice(0, -1).some((stage) => mentioned(expression).has(stage.signal));
      const stage =
        before < 0 || reachesBack
          ? null
          : this.stage(signal, expression, before, stages.at(-1)?.inverted ?? false);
      if (stage === null) {
        close();
        stages = [];
        pending = null;
        start = this.startOf(signal);
        if (start === signal || start < 0) continue;
        const first = this.stage(signal, this.definition.get(signal) as Expression, start, false);
        if (first !== null) stages.push(first);
        continue;
      }
      const next = path[k + 1];
      const trivial = stage.zero.kind === 'constant' || stage.one.kind === 'constant';
      if (trivial && next !== undefined && this.users.get(signal) === 1 && !this.outputs.has(signal)) {
        pending = expression;
        continue;
      }
      pending = null;
      stages.push(stage);
    }
    close();
    return best;
  }

  /** What a chain that has `signal` at its bottom starts from: an input that it rises with, or itself. */
  private startOf(signal: number): number {
    const expression = this.definition.get(signal) as Expression;
    if (this.support(signal).size < LEAST_SUPPORT) return -1;
    for (const used of mentioned(expression)) {
      if (this.definition.has(used)) continue;
      if (this.stage(signal, expression, used, false) !== null) return used;
    }
    return signal;
  }

  private support(signal: number): Set<number> {
    const found = new Set<number>();
    const seen = new Set<number>();
    const visit = (at: number): void => {
      if (seen.has(at)) return;
      seen.add(at);
      const expression = this.definition.get(at);
      if (expression === undefined) found.add(at);
      else if (found.size < LEAST_SUPPORT) for (const used of mentioned(expression)) visit(used);
    };
    visit(signal);
    return found;
  }

  private stage(signal: number, expression: Expression, before: number, inverted: boolean): Stage | null {
    if (!mentioned(expression).has(before)) return null;
    const at0 = substitute(expression, before, { kind: 'constant', value: inverted ? 1 : 0 });
    const at1 = substitute(expression, before, { kind: 'constant', value: inverted ? 0 : 1 });
    const table0 = this.table(at0);
    const table1 = this.table(at1);
    if (this.inside(table0, table1)) return { signal, inverted: false, zero: at0, one: at1 };
    if (!this.inside(table1, table0)) return null;
    const not = (argument: Expression): Expression => ({ kind: 'not', argument });
    return { signal, inverted: true, zero: not(at0), one: not(at1) };
  }

  private table(expression: Expression): Table {
    return expressionTable(expression, this.tables.signals, this.tables.inputs);
  }

  private inside(a: Table, b: Table): boolean {
    const rest = without(a, b);
    andInto(rest, this.tables.care);
    return isEmpty(rest);
  }
}
