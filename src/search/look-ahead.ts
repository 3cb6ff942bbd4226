// Look-ahead: a chain of stages z_j = f0_j + f1_j z_(j-1) built in blocks, so that it takes two ticks for each layer of
// blocks instead of two for each stage.
//
// Idea. Over stages i..j let G(i..j) be z_j as it would be with z_(i-1) = 0, and K(i..j) the join of the complements of
// f1_i .. f1_j, which costs nothing. For spans that follow each other, a below b,
//     G(a b) = G(b) joined with NOR(K(b), NOT G(a)).
// A layer of radix r makes spans of up to r spans of the layer below, each lower one joined by its own NOR: with one
// layer over everything that is look-ahead in full, with log2 layers of radix 2 a prefix tree. Instead of a top layer
// the finished z below a block may be joined to all stages of the block by one NOR each: fewer parts, two ticks more.
// Radices are tried from a small set, and the Pareto-best drafts by ticks and inverters are handed to the search, which
// mends what they do not share.
//
// Parities beside a chain, such as sums, take the rails that are there and come on the rail that is wanted, and a product
// with one, such as a gated sum, has the other factor as legs of the inverters of the parity: neither takes ticks more.
//
// What a stage needs, NOT f0 and NOT f1, comes from a two-level cover of the function over its inputs when they are
// few, so it does not depend on how the reader wrote it, else from its operators as written.
//
// Correctness. f0 and f1 come with f0 <= f1 from the finder of chains; drafts are checked by the caller.
//
// Cost. A draft of n stages and radices r takes about n (sum of (r - 1) / 2) inverters; building one is linear in that.
//
// After J. Sklansky (1960) and the prefix literature; the form with K as a free join is this model's own.

import type { Expression, System } from '../equations/system.ts';
import { outputTicks } from '../network/levels.ts';
import { FIRST_INPUT, ONE, ZERO } from '../network/network.ts';
import type { Target } from '../target/target.ts';
import { type SystemTables, systemTables } from '../truth/system-tables.ts';
import { type Value, Writer } from './as-written.ts';
import { type Chain, findChains } from './chains.ts';
import { type Draft, draftNetwork, networkDraft, type Shape, unbeaten } from './draft.ts';
import { fastest } from './fastest.ts';
import { flattenDraft } from './flatten.ts';
import { Allowance } from './limits.ts';
import { mentioned } from './substitute.ts';
import { makeTask, type Task } from './task.ts';

/**
 * Radices from the bottom; `late` is the layer whose blocks take the finished z below them, or -1. With `fused` the
 * spans of the lowest layer are covers of their own.
 */
interface Plan {
  readonly radices: readonly number[];
  readonly late: number;
  readonly fused: boolean;
}

/** A stage is looked at as a function when it depends on no more inputs than this. */
const MOST_SUPPORT = 6;
const COVER_WORDS = 1e6;
/** Stages that are made one. */
const FUSED = [2, 3];

/**
 * Drafts with chains built in blocks, not dominated in latest tick and inverters; none when there are no chains.
 *
 * @param few true: five plans only, for systems so large that each draft is dear.
 */
export function lookAheadDrafts(
  system: System,
  tables: SystemTables,
  task: Task,
  target: Target,
  few = false,
): Shape[] {
  const { inverterLegs, outputLegs } = task.rules;
  if (inverterLegs !== Number.POSITIVE_INFINITY || outputLegs !== Number.POSITIVE_INFINITY) return [];
  const chains = findChains(system, tables);
  if (chains.length === 0) return [];
  const forms = new StageForms(system, target);
  const longest = Math.max(...chains.map((chain) => chain.stages.length + 1));
  const found: Shape[] = [];
  for (const plan of few ? fewPlans(longest) : plansFor(longest)) {
    const draft = new Builder(system, task, chains, forms, plan).draft();
    const network = draftNetwork(task, draft);
    const ticks = outputTicks(network, task.rules);
    found.push({ draft: networkDraft(task, network), size: network.size, ticks });
  }
  return unbeaten(found);
}

/** Two and three layers of equal blocks, a prefix tree, and short blocks that hand on what is finished. */
function fewPlans(length: number): Plan[] {
  const equal = (layers: number): number[] => new Array(layers - 1).fill(Math.ceil(length ** (1 / layers)));
  const tree: number[] = new Array(Math.max(0, Math.ceil(Math.log2(length)) - 1)).fill(2);
  const plan = (below: readonly number[], late: number): Plan => ({
    radices: [...below, length],
    late,
    fused: false,
  });
  return [plan(equal(2), -1), plan(equal(3), -1), plan(tree, -1), plan([3], 1), plan([6], 1)];
}

function plansFor(length: number): Plan[] {
  const plans: Plan[] = [];
  for (let layers = 1; layers === 1 || 2 ** (layers - 1) < length; layers++) {
    const even = length ** (1 / layers);
    const radices = new Set<number>();
    for (const factor of [0.5, 0.6, 0.75, 0.9, 1, 1.25, 1.5, 2]) {
      const radix = Math.round(even * factor);
      if (radix >= 2 && (layers === 1 ? radix >= length : radix ** (layers - 1) < length)) radices.add(radix);
    }
    for (const radix of radices) {
      const all = new Array<number>(layers - 1).fill(radix);
      plans.push({ radices: [...all, length], late: -1, fused: false });
      for (let late = 1; late < layers; late++) plans.push({ radices: [...all, length], late, fused: false });
      for (const span of FUSED) {
        if (span * radix ** (layers - 1) >= length && layers > 1) continue;
        plans.push({ radices: [span, ...all, length], late: -1, fused: true });
        for (let late = 2; late <= layers; late++) {
          plans.push({ radices: [span, ...all, length], late, fused: true });
        }
      }
    }
  }
  return plans;
}

/** Legs of NOT f0 and of NOT f1 of stages. */
class StageForms {
  private readonly system: System;
  private readonly target: Target;
  private readonly definition = new Map<number, Expression>();
  private readonly known = new Map<string, Draft | null>();

  constructor(system: System, target: Target) {
    this.system = system;
    this.target = target;
    for (const { signal, expression } of system.definitions) this.definition.set(signal, expression);
  }

  /** Two-level draft of the complements of both expressions over few inputs, and these inputs; null for many. */
  of(zero: Expression, one: Expression): { draft: Draft; inputs: readonly number[] } | null {
    const { system } = this;
    const support = new Set<number>();
    const needed = new Set<number>();
    const visit = (e: Expression): void => {
      for (const signal of mentioned(e)) {
        if (needed.has(signal) || support.has(signal)) continue;
        const expression = this.definition.get(signal);
        if (expression === undefined) support.add(signal);
        else if (support.size <= MOST_SUPPORT) {
          visit(expression);
          needed.add(signal);
        }
      }
    };
    visit(zero);
    visit(one);
    if (support.size > MOST_SUPPORT || support.size === 0) return null;
    const inputs = system.inputs.filter(({ signal }) => support.has(signal));
    const count = system.signals.length;
    const rail = this.target.join.logic === 'and' ? 'high' : 'low';
    const sub: System = {
      ...system,
      signals: [...system.signals, 'zero', 'one'],
      inputs: inputs.map((input) => (input.rail === 'either' ? { ...input, rail: 'high' } : input)),
      outputs: [count, count + 1].map((signal) => ({ signal, rail, by: null })),
      definitions: [
        ...system.definitions.filter(({ signal }) => needed.has(signal)),
        { signal: count, expression: zero, at: null },
        { signal: count + 1, expression: one, at: null },
      ],
      never: [],
      free: [],
      claims: [],
    };
    const tables = systemTables(sub);
    const key = [
      ...[count, count + 1].map((signal) => tables.signals[signal].join(' ')),
      ...sub.inputs.map(({ rail, tick }) => `${rail} ${tick}`),
    ].join('|');
    let draft = this.known.get(key);
    if (draft === undefined) {
      const task = makeTask(sub, tables, this.target, true);
      const wires = task.wires.map(() => true);
      const bounds = fastest(task).each.map((tick) => Math.max(tick, 1));
      draft = flattenDraft(task, wires, [false, false], bounds, new Allowance(COVER_WORDS));
      this.known.set(key, draft);
    }
    return draft === null ? null : { draft, inputs: inputs.map(({ signal }) => signal) };
  }
}

interface Form {
  readonly notZero: readonly number[];
  readonly notOne: readonly number[];
}

type Parity = Extract<Expression, { kind: 'xor' | 'xnor' }>;

function isParity(expression: Expression): expression is Parity {
  return (expression.kind === 'xor' || expression.kind === 'xnor') && expression.args.length === 2;
}

function onRail(legs: readonly number[], isLow: boolean): Value {
  return isLow ? { high: null, low: legs } : { high: legs, low: null };
}

class Builder {
  private readonly task: Task;
  private readonly writer: Writer;
  private readonly forms: StageForms;
  private readonly built = new Map<string, number>();
  /** Legs by wire, of what is built here. */
  private readonly legsOf = new Map<number, readonly number[]>();

  constructor(system: System, task: Task, chains: readonly Chain[], forms: StageForms, plan: Plan) {
    this.task = task;
    this.forms = forms;
    const presets = new Map<number, () => Value>();
    for (const chain of chains) {
      const blocks = new Blocks(chain, plan, this);
      chain.stages.forEach(({ signal }, j) => {
        presets.set(signal, () => blocks.value(j + 1));
      });
    }
    if (!task.mirrored) this.presetParities(system, presets);
    this.writer = new Writer(system, task, presets);
  }

  /** Parities, and products with one, of whichever rails there are, on the rail that is wanted. */
  private presetParities({ definitions, outputs }: System, presets: Map<number, () => Value>): void {
    const used = new Set(definitions.flatMap(({ expression }) => [...mentioned(expression)]));
    const named = new Map(definitions.map(({ signal, expression }) => [signal, expression]));
    const lowOutputs = new Set(outputs.flatMap(({ signal, rail }) => (rail === 'low' ? [signal] : [])));
    for (const { signal, expression } of definitions) {
      if (presets.has(signal)) continue;
      const isLow = lowOutputs.has(signal) && !used.has(signal);
      if (isParity(expression)) presets.set(signal, () => onRail(this.parity(expression, isLow), isLow));
      if (expression.kind !== 'and' || expression.args.length !== 2) continue;
      const meant = expression.args.map((arg) =>
        arg.kind === 'signal' ? (named.get(arg.signal) ?? arg) : arg,
      );
      const at = meant.findIndex(isParity);
      if (at < 0) continue;
      const [parity, other] = [meant[at] as Parity, expression.args[1 - at]];
      presets.set(signal, () => onRail(this.product(parity, other, isLow), isLow));
    }
  }

  /** Legs of the parity of two expressions, or of its complement. */
  private parity({ kind, args: [first, second] }: Parity, isComplement: boolean): readonly number[] {
    const [a, b] = [this.operand(first), this.operand(second)];
    const isEqual = ((kind === 'xnor') !== isComplement) !== (a.isLow !== b.isLow);
    const neither = this.nor([...a.legs, ...b.legs]);
    if (isEqual) return [neither, this.nor([this.nor(a.legs), this.nor(b.legs)])];
    return [this.nor([...a.legs, neither]), this.nor([...b.legs, neither])];
  }

  /** An expression on a rail that there is already. */
  private operand(expression: Expression): { legs: readonly number[]; isLow: boolean } {
    if (isParity(expression)) return { legs: this.parity(expression, false), isLow: false };
    const { high, low } = this.writer.value(expression);
    return high === null ? { legs: low as readonly number[], isLow: true } : { legs: high, isLow: false };
  }

  /** Legs of the product of a parity with another expression, or of its complement: no tick more than the parity. */
  private product(parity: Parity, other: Expression, isComplement: boolean): readonly number[] {
    const complement = this.complementOf(other);
    if (isComplement) return [...this.parity(parity, true), ...complement];
    return this.parity(parity, false).map((leg) => {
      const legs = this.legsOf.get(leg) ?? [this.nor([leg])];
      return this.nor([...legs, ...complement]);
    });
  }

  draft(): Draft {
    return this.writer.draft();
  }

  get up(): 'high' | 'low' {
    return this.task.mirrored ? 'low' : 'high';
  }

  /** Both rails of the start of a chain. */
  start(signal: number): { high: readonly number[]; low: readonly number[] } {
    const value = this.writer.valueOf(signal);
    const down = this.up === 'high' ? 'low' : 'high';
    const high = value[this.up] ?? [this.nor(value[down] as readonly number[])];
    return { high, low: value[down] ?? [this.nor(high)] };
  }

  form(zero: Expression, one: Expression): Form {
    const known = this.forms.of(zero, one);
    if (known === null) return { notZero: this.complementOf(zero), notOne: this.complementOf(one) };
    const { draft, inputs } = known;
    const wires = [ZERO, ONE];
    for (const signal of inputs) {
      this.task.wires.forEach((wire, s) => {
        if (wire.signal === signal && (wire.rival < 0 || wire.rail === 'high')) wires.push(FIRST_INPUT + s);
      });
    }
    for (const legs of draft.inverters) wires.push(this.nor(legs.map((leg) => wires[leg])));
    const [notZero, notOne] = draft.outputs.map((legs) => legs.map((leg) => wires[leg]));
    return { notZero, notOne };
  }

  /** An inverter with these legs, or the constant that it is; the same for the same legs. */
  nor(legs: readonly number[]): number {
    const clean = [...new Set(legs)].filter((leg) => leg !== ZERO).sort((a, b) => a - b);
    if (clean.includes(ONE)) return ZERO;
    if (clean.length === 0) return ONE;
    const key = clean.join(' ');
    const known = this.built.get(key);
    if (known !== undefined) return known;
    const wire = this.writer.inverter(clean);
    this.built.set(key, wire);
    this.legsOf.set(wire, clean);
    return wire;
  }

  /** Legs of the complement of an expression over few inputs, in as few ticks as it can be; null for many inputs. */
  cover(expression: Expression, beside: Expression): readonly number[] | null {
    return this.forms.of(expression, beside) === null ? null : this.form(expression, beside).notZero;
  }

  private complementOf(expression: Expression): readonly number[] {
    const value = this.writer.value(expression);
    const down = this.up === 'high' ? 'low' : 'high';
    return value[down] ?? [this.nor(value[this.up] as readonly number[])];
  }
}

/** One chain under one plan. Position 0 is its start, position j its stage j - 1. */
class Blocks {
  private readonly chain: Chain;
  private readonly plan: Plan;
  private readonly builder: Builder;
  private readonly formsAt: Form[] = [];
  private readonly ups = new Map<string, readonly number[]>();
  private readonly downs = new Map<string, readonly number[]>();
  private readonly fused = new Map<number, readonly number[] | null>();

  constructor(chain: Chain, plan: Plan, builder: Builder) {
    this.chain = chain;
    this.plan = plan;
    this.builder = builder;
  }

  /** The chain signal at a position. */
  value(j: number): Value {
    const legs = this.finished(j);
    const inverted = this.chain.stages[j - 1].inverted;
    const { up } = this.builder;
    return onRail(legs, (up === 'high') === inverted);
  }

  private finished(j: number): readonly number[] {
    const { radices, late } = this.plan;
    const top = radices.length;
    const from = late < 0 ? 0 : this.first(late, j);
    if (from === 0 || this.isLast(late, j)) return this.up(top, j);
    const below = this.down(top, from - 1);
    return [...this.up(late, j), this.builder.nor([...this.kills(from, j), ...below])];
  }

  private isLast(layer: number, j: number): boolean {
    return j === this.chain.stages.length || this.first(layer, j + 1) === j + 1;
  }

  /** First position of the block of a layer in which `j` stands. */
  private first(layer: number, j: number): number {
    let length = 1;
    for (let l = 0; l < layer; l++) length *= this.plan.radices[l];
    return Math.floor(j / length) * length;
  }

  /** Legs of G from the first position of the block of a layer to `j`. */
  private up(layer: number, j: number): readonly number[] {
    const key = `${layer} ${j}`;
    let legs = this.ups.get(key);
    if (legs !== undefined) return legs;
    if (layer === 0)
      legs = j === 0 ? this.builder.start(this.chain.start).high : [this.builder.nor(this.form(j).notZero)];
    else if (this.fusedForm(layer, j) !== null) {
      legs = [this.builder.nor(this.fusedForm(layer, j) as readonly number[])];
    } else {
      const list = [...this.up(layer - 1, j)];
      for (let from = this.first(layer - 1, j); from > this.first(layer, j); ) {
        list.push(this.builder.nor([...this.kills(from, j), ...this.down(layer - 1, from - 1)]));
        from = this.first(layer - 1, from - 1);
      }
      const clean = [...new Set(list)].filter((leg) => leg !== ZERO);
      legs = clean.includes(ONE) ? [ONE] : clean.length === 0 ? [ZERO] : clean;
    }
    this.ups.set(key, legs);
    return legs;
  }

  /** Legs of NOT G, of the same span. */
  private down(layer: number, j: number): readonly number[] {
    if (layer === 0) return j === 0 ? this.builder.start(this.chain.start).low : this.form(j).notZero;
    const key = `${layer} ${j}`;
    let legs = this.downs.get(key);
    if (legs === undefined) {
      const up = this.up(layer, j);
      const fused = this.fusedForm(layer, j);
      if (fused !== null) {
        this.downs.set(key, fused);
        return fused;
      }
      // A span of one position is what it was a layer below.
      legs = this.first(layer, j) === j ? this.down(layer - 1, j) : [this.builder.nor(up)];
      this.downs.set(key, legs);
    }
    return legs;
  }

  /** Legs of NOT G of a span of the lowest layer as a cover of its own; null when it is not to be, or cannot be. */
  private fusedForm(layer: number, j: number): readonly number[] | null {
    const from = this.first(1, j);
    if (!this.plan.fused || layer !== 1 || from === j) return null;
    let legs = this.fused.get(j);
    if (legs === undefined) {
      const { stages, start } = this.chain;
      let zero: Expression = from === 0 ? { kind: 'signal', signal: start } : stages[from - 1].zero;
      for (let k = Math.max(1, from + 1); k <= j; k++) {
        const passed: Expression = { kind: 'and', args: [stages[k - 1].one, zero] };
        zero = { kind: 'or', args: [stages[k - 1].zero, passed] };
      }
      legs = this.builder.cover(zero, stages[j - 1].one);
      this.fused.set(j, legs);
    }
    return legs;
  }

  private kills(from: number, to: number): number[] {
    const legs: number[] = [];
    for (let j = from; j <= to; j++) legs.push(...this.form(j).notOne);
    return legs;
  }

  private form(j: number): Form {
    this.formsAt[j] ??= this.builder.form(this.chain.stages[j - 1].zero, this.chain.stages[j - 1].one);
    return this.formsAt[j];
  }
}
