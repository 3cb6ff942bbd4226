// Covering by cuts: a whole system laid out of networks of the catalogue.
//
// Idea. Take the system as a graph of ANDs (subject-graph.ts). A cut of a node is a set of at most four nodes below it, its
// leaves, that every way down to the inputs meets; over them the node is a function of four inputs, and the catalogue
// knows the best networks for it: the fewest inverters at each number of ticks, and those that let one input come late.
// Every signal has two rails and a leaf may be taken from either, so a node is asked for once for each rail of its own
// and of its leaves, which makes up to 32 functions a cut. What is chosen below matters above only by rail, tick and
// cost; so, from the inputs upwards, we keep for every signal and rail the few best costs by tick: dynamic programming
// over signal, rail and tick. From the outputs downwards, each with the tick it must keep, the cheapest choice that is in
// time is then taken for everything that is needed. Joins are free in this model and the catalogue knows it: a leaf is a
// join of legs, which becomes legs of whoever takes it, so that sums and products of any width need no cuts of their own.
//
// A signal that serves several readers is paid once, but while choosing nobody knows how many will take it on which rail.
// Its cost is divided by an estimate, the readers of the node at first, then those of the last cover, and covering is
// repeated. An input whose rail is free starts active-high and is turned when the cover inverts it more often than not.
//
// Correctness. Every choice is the function of its cut over the levels of its leaves, on all patterns. So what is laid is
// right by construction, and within its ticks because the tick of a choice is that of its latest leg.
//
// Cost. For each pass (nodes) x (cuts) x 32 x (networks of the function), counted. Costs of shared signals are estimates, so
// the answer is no optimum, even of covering. It knows nothing of what is free and of different signals that are equal; it
// is where pruning, growing and shrinking begin.
//
// The plan is that of technology mapping for gate libraries since K. Keutzer (1987), with cuts for patterns and estimated
// shares of cost; rails, free joins and the catalogue in place of a library are this model's own.

import { outputTicks } from '../network/levels.ts';
import { FIRST_INPUT, ONE, ZERO } from '../network/network.ts';
import { INPUT_TABLES } from '../truth/permutation-classes.ts';
import type { Catalogue } from './catalogue/catalogue.ts';
import { type Draft, draftNetwork, networkDraft, type Shape, unbeaten } from './draft.ts';
import { type Match, Matches, type MatchList } from './matches.ts';
import type { SubjectGraph } from './subject-graph.ts';
import type { Task } from './task.ts';

const LEAVES = 4;
/** Cuts of a node, and costs by tick of a literal, that are kept. */
const CUTS = 8;
const CHOICES = 6;
/** Larger graphs are not covered: their cuts alone take hundreds of megabytes. */
const MOST_NODES = 3_000;
/** Covers for at least so many different ticks are made, each in so many passes where the limit allows it. */
const LEAST_BOUNDS = 2;
const PASSES = 3;

export interface CoverLimits {
  /** Functions of cuts that all passes together may look at; one pass for two bounds is made in any case. */
  readonly work: number;
  /** Covers for at most so many different ticks; two or more. */
  readonly bounds: number;
}

/**
 * Covers of a graph for several tick bounds, from the fastest, none with as many inverters as a faster one; none at all
 * of a graph that is too large.
 */
export function covers(
  task: Task,
  graph: SubjectGraph,
  catalogue: Catalogue,
  { work, bounds }: CoverLimits,
): Shape[] {
  if (graph.size > MOST_NODES) return [];
  const covering = new Covering(task, graph, new Matches(catalogue), work, bounds);
  const found = covering.bounds().map((ticks) => covering.cover(ticks));
  return unbeaten(found);
}

/** A set of leaves, and the function of the node over them. */
interface Cut {
  readonly leaves: readonly number[];
  readonly table: number;
}

/** The function of a literal over the levels of its leaves, each on a rail of its own. */
interface Offer {
  /** As literals. */
  readonly leaves: readonly number[];
  readonly list: MatchList;
}

/**
 * A way to get a literal by a tick: a wire that is there, an inverter over the other literal of the node, or a network of
 * the catalogue over leaves.
 */
interface Choice {
  readonly tick: number;
  /** Inverters, those of everything below included, divided among estimated readers. */
  readonly cost: number;
  readonly kind: 'wire' | 'inverted' | 'match';
  /** Legs of the match: literal of each leaf. */
  readonly leaves: readonly number[];
  readonly match: Match | null;
}

class Covering {
  private readonly task: Task;
  private readonly graph: SubjectGraph;
  /** By literal: ways to lay it over leaves. */
  private readonly offers: readonly (readonly Offer[])[];
  /** Ticks from the legs of an inverter to its level in the joins it stands in. */
  private readonly step: number;
  private readonly readers: Float64Array;
  /** By literal: the readers it is expected to have. */
  private shares = new Float64Array(0);
  /** By candidate wire. */
  private chosen: boolean[] = [];
  /** By literal, earliest and dearest first. `direct`: not by an inverter over the other literal. */
  private direct: Choice[][] = [];
  private choices: Choice[][] = [];
  /** Those of the first pass, which is the same for all bounds. */
  private first: { readonly direct: Choice[][]; readonly choices: Choice[][] } | null = null;
  private readonly mostBounds: number;
  private readonly passes: number;

  constructor(task: Task, graph: SubjectGraph, matches: Matches, work: number, bounds: number) {
    this.task = task;
    this.graph = graph;
    this.step = task.rules.inverterTicks + task.rules.joinTicks;
    this.readers = readersOf(graph);
    this.offers = offersOf(cutsOf(graph, this.readers, CUTS), matches);
    const inPass = this.offers.reduce((total, list) => total + list.length, 1);
    const more = Math.max(0, Math.floor(work / inPass) - 1);
    this.mostBounds = Math.min(bounds, Math.max(LEAST_BOUNDS, Math.floor(more / (PASSES - 1))));
    this.passes = Math.min(PASSES, 1 + Math.floor(more / this.mostBounds));
  }

  /** Ticks worth a cover: from the fastest to the cheapest, closer together near the fastest. */
  bounds(): number[] {
    this.begin();
    this.chooseFirst();
    const open = this.task.outputs.map((_, y) => y).filter((y) => this.task.outputs[y].by === null);
    const each = open.map((y) => this.choicesOf(y));
    const first = Math.max(0, ...each.map((list) => list[0].tick));
    const last = Math.max(first, ...each.map((list) => (list.at(-1) as Choice).tick));
    const count = this.mostBounds;
    const ticks = new Set<number>();
    for (let n = 0; n < count; n++) ticks.add(first + Math.round((last - first) * (n / (count - 1)) ** 2));
    return [...ticks];
  }

  /** The smallest of the covers of several passes, with every output that has no deadline by a tick. */
  cover(ticks: number): Shape {
    const bounds = this.task.outputs.map(({ by }) => by ?? ticks);
    this.begin();
    let best: Shape | null = null;
    for (let pass = 0; pass < this.passes; pass++) {
      if (pass === 0) this.chooseFirst();
      else this.choose();
      const taken = this.take(bounds);
      const cover = this.lay(taken);
      if (best === null || cover.size < best.size) best = cover;
      this.learn(taken);
    }
    return best as Shape;
  }

  private begin(): void {
    const { graph, task } = this;
    this.shares = Float64Array.from({ length: 2 * graph.size }, (_, literal) =>
      Math.max(1, this.readers[literal >> 1]),
    );
    this.chosen = task.wires.map(({ rival, rail }) => rival < 0 || rail === 'high');
  }

  private wireLiteral(s: number): number {
    const { input, straight } = this.task.wires[s];
    return 2 * (1 + input) + (straight ? 0 : 1);
  }

  private chooseFirst(): void {
    if (this.first === null) {
      this.choose();
      this.first = { direct: this.direct, choices: this.choices };
    }
    this.direct = this.first.direct;
    this.choices = this.first.choices;
  }

  /** Upwards: for every literal the best costs by tick. */
  private choose(): void {
    const { graph, task, step } = this;
    this.direct = Array.from({ length: 2 * graph.size }, () => []);
    this.choices = Array.from({ length: 2 * graph.size }, () => []);
    const free: Choice = { tick: 0, cost: 0, kind: 'wire', leaves: [], match: null };
    this.direct[0].push(free);
    this.direct[1].push(free);
    task.wires.forEach(({ tick }, s) => {
      if (this.chosen[s]) this.direct[this.wireLiteral(s)].push({ ...free, tick });
    });
    for (let node = 0; node < graph.size; node++) {
      if (node >= graph.firstAnd) for (const literal of [2 * node, 2 * node + 1]) this.match(literal);
      for (const literal of [2 * node, 2 * node + 1]) {
        const list = [...this.direct[literal]];
        for (const { tick, cost } of this.direct[literal ^ 1]) {
          // Of this rail the inverter is paid, of the other one reader more.
          const inverted = { tick: tick + step, cost: (1 + cost) / this.shares[literal] };
          list.push({ ...inverted, kind: 'inverted', leaves: [], match: null });
        }
        this.choices[literal] = fewest(list);
      }
    }
  }

  /** Collects the direct choices of a literal from all cuts of its node. */
  private match(literal: number): void {
    const found = new Found(this.shares[literal], this.step);
    const lists: Choice[][] = [];
    for (const offer of this.offers[literal]) {
      lists.length = offer.leaves.length;
      for (let i = 0; i < lists.length; i++) lists[i] = this.choices[offer.leaves[i]];
      found.add(offer, lists);
    }
    this.direct[literal] = found.kept();
  }

  /** Choices for an output, of both rails where it may be on either. */
  private choicesOf(y: number): Choice[] {
    const literal = this.graph.outputs[y];
    const { rail } = this.task.outputs[y];
    return rail === 'either'
      ? fewest([...this.choices[literal], ...this.choices[literal ^ 1]])
      : this.choices[literal];
  }

  /** Downwards: what is needed, each time the cheapest choice that is in time. */
  private take(bounds: readonly number[]): Taken {
    const { graph, task, step } = this;
    const by = new Float64Array(2 * graph.size).fill(Number.NaN);
    const readers = new Float64Array(2 * graph.size);
    const need = (literal: number, tick: number): void => {
      readers[literal]++;
      by[literal] = Number.isNaN(by[literal]) ? tick : Math.min(by[literal], tick);
    };
    const outputs = task.outputs.map(({ rail }, y) => {
      const literal = graph.outputs[y];
      if (rail !== 'either') return literal;
      const [here, there] = [literal, literal ^ 1].map((each) => within(this.choices[each], bounds[y]));
      const isLow =
        here.tick > bounds[y] ? there.tick < here.tick : there.tick <= bounds[y] && there.cost < here.cost;
      return isLow ? literal ^ 1 : literal;
    });
    outputs.forEach((literal, y) => {
      need(literal, bounds[y]);
    });
    const taken: (Choice | null)[] = new Array(2 * graph.size).fill(null);
    for (let node = graph.size - 1; node >= 0; node--) {
      const [even, odd] = [2 * node, 2 * node + 1];
      const wish = (literal: number): Choice | null =>
        Number.isNaN(by[literal]) ? null : within(this.choices[literal], by[literal]);
      // At most one of the two rests on the other, which then has to be there first.
      const rests = wish(even)?.kind === 'inverted' ? even : wish(odd)?.kind === 'inverted' ? odd : -1;
      if (rests >= 0) need(rests ^ 1, by[rests] - step);
      for (const literal of [even, odd]) {
        if (Number.isNaN(by[literal])) continue;
        const choice = within((literal === (rests ^ 1) ? this.direct : this.choices)[literal], by[literal]);
        taken[literal] = choice;
        choice.leaves.forEach((leaf, i) => {
          const delay = (choice.match as Match).delays[i];
          if (delay >= 0) need(leaf, Math.max(by[literal], choice.tick) - step * delay);
        });
      }
    }
    return { taken, readers, outputs };
  }

  /** Estimates for the next pass, and rails of inputs that turned out to be on the wrong one. */
  private learn({ readers }: Taken): void {
    for (let literal = 0; literal < readers.length; literal++) {
      this.shares[literal] = (this.shares[literal] + Math.max(1, readers[literal])) / 2;
    }
    this.task.wires.forEach(({ rival }, s) => {
      if (rival <= s) return;
      const [mine, other] = [this.wireLiteral(s), this.wireLiteral(rival)];
      const isMine = readers[mine] >= readers[other];
      this.chosen[s] = isMine;
      this.chosen[rival] = !isMine;
    });
  }

  /** The draft of what was taken; inverters with the same legs are laid once. */
  private lay({ taken, outputs }: Taken): Shape {
    const { graph, task } = this;
    const laid = new Layer(FIRST_INPUT + task.wires.length);
    const legs: (readonly number[])[] = [];
    const wireAt = new Map<number, number>();
    task.wires.forEach((_, s) => {
      if (this.chosen[s]) wireAt.set(this.wireLiteral(s), FIRST_INPUT + s);
    });
    const lay = (literal: number): void => {
      const choice = taken[literal];
      if (choice === null || legs[literal] !== undefined) return;
      if (choice.kind === 'wire') {
        legs[literal] = literal < 2 ? [literal === 0 ? ZERO : ONE] : [wireAt.get(literal) as number];
      } else if (choice.kind === 'inverted') {
        lay(literal ^ 1);
        legs[literal] = [laid.inverter(legs[literal ^ 1])];
      } else {
        const { network } = choice.match as Match;
        const wires = choice.leaves.map((leaf) => legs[leaf] ?? []);
        while (wires.length < LEAVES) wires.push([]);
        const join = (mask: number): number[] => wires.filter((_, w) => (mask >> w) & 1).flat();
        for (const mask of network.legs) wires.push([laid.inverter(join(mask))]);
        legs[literal] = network.output === null ? [ONE] : laid.join(join(network.output));
      }
    };
    for (let literal = 0; literal < 2 * graph.size; literal++) lay(literal);
    const draft: Draft = {
      chosen: this.chosen,
      low: task.outputs.map(({ rail }, y) =>
        rail === 'either' ? outputs[y] !== graph.outputs[y] : rail === 'low',
      ),
      inverters: laid.inverters,
      outputs: outputs.map((literal) => this.oneWire(laid, legs[literal])),
    };
    const network = draftNetwork(task, draft);
    return {
      draft: networkDraft(task, network),
      size: network.size,
      ticks: outputTicks(network, task.rules),
    };
  }

  /** Legs of an output; where joins stand at inverter inputs only, one wire. */
  private oneWire(laid: Layer, legs: readonly number[]): readonly number[] {
    if (legs.length <= this.task.rules.outputLegs || this.task.rules.outputLegs > 1) return legs;
    return [laid.inverter([laid.inverter(legs)])];
  }
}

/** The choices for a literal, while they are collected. */
class Found {
  private readonly share: number;
  private readonly step: number;
  /** Not beaten, earliest and dearest first. */
  private readonly list: Choice[] = [];

  /** @param share readers that a cost is divided among. */
  constructor(share: number, step: number) {
    this.share = share;
    this.step = step;
  }

  kept(): Choice[] {
    return fewest(this.list);
  }

  /** @param lists the choices for each of the leaves. */
  add({ leaves, list: { matches, leastDelays } }: Offer, lists: readonly (readonly Choice[])[]): void {
    const { step, share } = this;
    let earliest = 0;
    let least = 0;
    for (let i = 0; i < lists.length; i++) {
      if (leastDelays[i] < 0) continue;
      earliest = Math.max(earliest, lists[i][0].tick + step * leastDelays[i]);
      least += lists[i][lists[i].length - 1].cost;
    }
    for (const match of matches) {
      const { delays, parts } = match;
      // All others have as many inverters or more.
      if (this.isBeaten(earliest, (parts + least) / share)) return;
      let first = 0;
      let last = 0;
      for (let i = 0; i < lists.length; i++) {
        if (delays[i] < 0) continue;
        first = Math.max(first, lists[i][0].tick + step * delays[i]);
        last = Math.max(last, lists[i][lists[i].length - 1].tick + step * delays[i]);
      }
      if (this.isBeaten(first, (parts + least) / share)) continue;
      // From tick to tick at which some leaf becomes cheaper.
      for (let tick = first; ; ) {
        let cost = parts;
        let next = Number.POSITIVE_INFINITY;
        for (let i = 0; i < lists.length; i++) {
          if (delays[i] < 0) continue;
          const list = lists[i];
          const by = tick - step * delays[i];
          let at = 0;
          while (at + 1 < list.length && list[at + 1].tick <= by) at++;
          cost += list[at].cost;
          if (at + 1 < list.length) next = Math.min(next, list[at + 1].tick + step * delays[i]);
        }
        cost /= share;
        if (!this.isBeaten(tick, cost)) this.insert({ tick, cost, kind: 'match', leaves, match });
        if (tick >= last) break;
        tick = next;
      }
    }
  }

  private isBeaten(tick: number, cost: number): boolean {
    for (const other of this.list) {
      if (other.tick > tick) return false;
      if (other.cost <= cost) return true;
    }
    return false;
  }

  private insert(choice: Choice): void {
    const { list } = this;
    let at = 0;
    while (at < list.length && list[at].tick < choice.tick) at++;
    let end = at;
    while (end < list.length && list[end].cost >= choice.cost) end++;
    list.splice(at, end - at, choice);
  }
}

/** What a pass downwards has taken. */
interface Taken {
  /** By literal; null: not needed. */
  readonly taken: readonly (Choice | null)[];
  /** By literal. */
  readonly readers: Float64Array;
  /** By output: the literal it carries. */
  readonly outputs: readonly number[];
}

/** Inverters being laid, each set of legs once. */
class Layer {
  readonly inverters: number[][] = [];
  private readonly first: number;
  private readonly known = new Map<string, number>();

  constructor(first: number) {
    this.first = first;
  }

  /** Legs without repetition and constants that do not matter. */
  join(legs: readonly number[]): readonly number[] {
    if (legs.includes(ONE)) return [ONE];
    const clean = [...new Set(legs)].filter((leg) => leg !== ZERO).sort((a, b) => a - b);
    return clean.length === 0 ? [ZERO] : clean;
  }

  /** An inverter with these legs, or the constant that it is. */
  inverter(legs: readonly number[]): number {
    const clean = this.join(legs);
    if (clean[0] === ONE) return ZERO;
    if (clean[0] === ZERO) return ONE;
    const key = clean.join(' ');
    let wire = this.known.get(key);
    if (wire === undefined) {
      wire = this.first + this.inverters.length;
      this.inverters.push([...clean]);
      this.known.set(key, wire);
    }
    return wire;
  }
}

/** The cheapest choice by a tick, of a list that falls in cost as it rises in ticks; the first when none is in time. */
function within(list: readonly Choice[], tick: number): Choice {
  let at = 0;
  while (at + 1 < list.length && list[at + 1].tick <= tick) at++;
  return list[at];
}

/** What is not beaten, earliest first; of more than `CHOICES` those between the first and the last that gain least go. */
function fewest(list: readonly Choice[]): Choice[] {
  const sorted = [...list].sort((a, b) => a.tick - b.tick || a.cost - b.cost);
  const kept: Choice[] = [];
  for (const choice of sorted) {
    const last = kept[kept.length - 1];
    if (last === undefined || choice.cost < last.cost) kept.push(choice);
  }
  while (kept.length > CHOICES) {
    let at = 1;
    let least = Number.POSITIVE_INFINITY;
    for (let i = 1; i + 1 < kept.length; i++) {
      const loss = (kept[i - 1].cost - kept[i].cost) * (kept[i + 1].tick - kept[i].tick);
      if (loss < least) [at, least] = [i, loss];
    }
    kept.splice(at, 1);
  }
  return kept;
}

/** How many ANDs and outputs take a node. */
function readersOf({ firstAnd, size, operands, outputs }: SubjectGraph): Float64Array {
  const readers = new Float64Array(size);
  for (let n = firstAnd; n < size; n++) {
    readers[operands[2 * n] >> 1]++;
    readers[operands[2 * n + 1] >> 1]++;
  }
  for (const literal of outputs) readers[literal >> 1]++;
  return readers;
}

/** The cuts of every node, those first whose leaves together are cheapest. */
function cutsOf({ firstAnd, size, operands }: SubjectGraph, readers: Float64Array, most: number): Cut[][] {
  /** For the cuts above a node: its own, and the node itself as a leaf. */
  const upwards: Cut[][] = [];
  const cuts: Cut[][] = [];
  const flow = new Float64Array(size);
  for (let node = 0; node < size; node++) {
    const itself = { leaves: [node], table: INPUT_TABLES[0] };
    const own = new Map<string, Cut>();
    if (node >= firstAnd) {
      const [a, b] = [operands[2 * node], operands[2 * node + 1]];
      for (const one of upwards[a >> 1]) {
        for (const other of upwards[b >> 1]) {
          const leaves = union(one.leaves, other.leaves);
          if (leaves === null) continue;
          const key = leaves.join(' ');
          if (own.has(key)) continue;
          const level = (cut: Cut, literal: number): number => {
            const table = spread(cut, leaves);
            return literal & 1 ? ~table & 0xffff : table;
          };
          own.set(key, { leaves, table: level(one, a) & level(other, b) });
        }
      }
    }
    const costOf = ({ leaves }: Cut): number => leaves.reduce((total, leaf) => total + flow[leaf], 1);
    const list = [...own.values()].map((cut) => ({ cut, cost: costOf(cut) }));
    list.sort((x, y) => x.cost - y.cost || x.cut.leaves.length - y.cut.leaves.length);
    cuts.push(list.slice(0, most).map(({ cut }) => cut));
    if (node >= firstAnd) flow[node] = list[0].cost / Math.max(1, readers[node]);
    upwards.push([...cuts[node], itself]);
  }
  return cuts;
}

/** For every literal, all cuts of its node with all rails of their leaves. */
function offersOf(cuts: readonly (readonly Cut[])[], matches: Matches): Offer[][] {
  const offers: Offer[][] = [];
  for (const list of cuts) {
    const even: Offer[] = [];
    const odd: Offer[] = [];
    for (const { leaves, table } of list) {
      for (let rails = 0; rails < 1 << leaves.length; rails++) {
        const taken = leaves.map((leaf, i) => 2 * leaf + ((rails >> i) & 1));
        const level = flipped(table, rails);
        even.push({ leaves: taken, list: matches.of(level) });
        odd.push({ leaves: taken, list: matches.of(~level & 0xffff) });
      }
    }
    offers.push(even, odd);
  }
  return offers;
}

/** Both lists, ascending; null when that is too many. */
function union(a: readonly number[], b: readonly number[]): number[] | null {
  const all = [...a];
  for (const leaf of b) if (!all.includes(leaf)) all.push(leaf);
  return all.length > LEAVES ? null : all.sort((x, y) => x - y);
}

/** The function of a cut over more leaves. */
function spread({ leaves, table }: Cut, over: readonly number[]): number {
  const at = leaves.map((leaf) => over.indexOf(leaf));
  let wide = 0;
  for (let row = 0; row < 16; row++) {
    let from = 0;
    for (let i = 0; i < at.length; i++) if ((row >> at[i]) & 1) from |= 1 << i;
    if ((table >> from) & 1) wide |= 1 << row;
  }
  return wide;
}

/** The function over the complements of some inputs. */
function flipped(table: number, inputs: number): number {
  let result = table;
  for (let i = 0; i < LEAVES; i++) {
    if (((inputs >> i) & 1) === 0) continue;
    const high = INPUT_TABLES[i];
    result = ((result & high) >>> (1 << i)) | ((result & ~high & 0xffff) << (1 << i));
  }
  return result;
}
