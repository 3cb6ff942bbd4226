// Networks without static hazards when a single input flips, for functions of few inputs.
//
// Idea. A join is steady at 1 through a transition when one of its legs is. So static hazards at 1 are cured by products
// that cover both ends of the transition, which a smallest cover would leave out: the classical remedy. Three ways are
// tried and the fewest parts win: the network that is there with such products joined to its outputs; a sum of products
// that covers every 1-point and every two neighbouring 1-points; and the same for the complement behind one more
// inverter. A sum of products in which no product holds x and x' has no static hazard at 0, and its complement none at
// 1, so the last two always do; the first fails when the network has hazards at 0. After that every leg that can go
// goes: the functions must stay, and no static hazard may appear.
//
// Cover. Prime implicants, chosen greedily by how much of what is left they cover, then thinned. An extra product is
// often one inverter, and inverters for single literals are shared by all products.
//
// Correctness. Whatever comes out is judged by hazards.ts on every transition of one input, and by comparison of all
// tables with those of the network that was given; the caller has it proved once more.
//
// Cost. 3^n cubes for n inputs, so MOST_INPUTS is small.

import { legsOf, outputLegsOf, tidyNetwork } from '../network/build-network.ts';
import { legFaults } from '../network/check-network.ts';
import { countCopies } from '../network/copies.ts';
import { networkTicks } from '../network/levels.ts';
import { FIRST_INPUT, firstInverter, type Network, ONE, ZERO } from '../network/network.ts';
import type { Target } from '../target/target.ts';
import {
  and,
  constantTable,
  equal,
  flipInput,
  hasRow,
  isEmpty,
  not,
  or,
  type Table,
} from '../truth/table.ts';
import { circuitOfNetwork, type InputSignal } from './circuit-of-network.ts';
import { hazardsOf } from './hazards.ts';
import { TransitionTables } from './transition-tables.ts';

/** Functions of more inputs are not taken on. */
export const MOST_HAZARD_FREE_INPUTS = 8;

export interface HazardFreeTask {
  /** The network whose functions are to be kept. */
  readonly network: Network;
  readonly signals: readonly string[];
  readonly inputs: readonly InputSignal[];
  readonly target: Target;
  /** Patterns that can happen, null for all. */
  readonly allowed: Table | null;
}

/** Drafts judged while a network is made smaller; after that it stays as it is. */
const MOST_DRAFTS = 3000;

/** How the network was made: as it was given, with products joined to it, or anew. */
export type HazardFreeWay = 'given' | 'joined' | 'products' | 'sums';

export interface HazardFree {
  readonly network: Network;
  readonly way: HazardFreeWay;
  /** Inverters to build, copies included. */
  readonly inverters: number;
  readonly ticks: number;
}

/** A product of literals: free inputs, and the values of the others. */
interface Cube {
  readonly free: number;
  readonly value: number;
}

/**
 * The smallest network found that computes the same and has no static hazard when one input flips; null when there are
 * too many inputs or the target leaves no way that is known here.
 */
export function hazardFreeNetwork(task: HazardFreeTask): HazardFree | null {
  if (task.inputs.length > MOST_HAZARD_FREE_INPUTS) return null;
  return new Remedy(task).best();
}

/** Has the network a static hazard in some transition that flips one input? */
export function hasStaticHazard(task: HazardFreeTask, network = task.network): boolean {
  const circuit = circuitOfNetwork(network, task.signals, task.inputs, task.target);
  const scope = { allowed: task.allowed, moving: task.inputs.map((_, i) => i) };
  return hazardsOf(circuit, { scope, mostFlips: 1 }).some(({ kind }) => kind !== 'dynamic');
}

class Remedy {
  private readonly task: HazardFreeTask;
  private readonly count: number;
  private readonly mirrored: boolean;
  private readonly allowed: Table;
  /** Level of every output wire of the given network, complemented where joins are AND. */
  private readonly wanted: readonly Table[];
  private drafts = 0;

  constructor(task: HazardFreeTask) {
    this.task = task;
    this.count = task.inputs.length;
    this.mirrored = task.target.join.logic === 'and';
    this.allowed = task.allowed ?? constantTable(this.count, 1);
    this.wanted = this.outputTables(task.network).map((table) =>
      this.mirrored ? not(table, this.count) : table,
    );
  }

  best(): HazardFree | null {
    const { network, target } = this.task;
    const drafts: [HazardFreeWay, Network][] = [
      ['given', network],
      ['joined', this.joined()],
      ['products', this.covered(false)],
      ['sums', this.covered(true)],
    ];
    const found = drafts.flatMap(([way, draft]): HazardFree[] => {
      if (!this.isRight(draft)) return [];
      this.drafts = 0;
      const thin = way === 'given' ? draft : this.thinned(draft);
      const costs = { joinTicks: target.join.ticks, inverterTicks: target.inverter.ticks };
      const inverters = thin.size + countCopies(thin, target.inverter.outputs);
      return [{ network: thin, way, inverters, ticks: networkTicks(thin, costs) }];
    });
    const asFast = found.filter(
      ({ ticks }) =>
        ticks <=
        networkTicks(network, { joinTicks: target.join.ticks, inverterTicks: target.inverter.ticks }),
    );
    const list = asFast.length > 0 ? asFast : found;
    list.sort((a, b) => a.inverters - b.inverters || a.ticks - b.ticks);
    return list[0] ?? null;
  }

  private outputTables(network: Network): Table[] {
    const { signals, inputs, target } = this.task;
    const circuit = circuitOfNetwork(network, signals, inputs, target);
    const { old } = new TransitionTables(circuit);
    return circuit.outputs.map(({ wire }) => old[wire]);
  }

  /** Same functions, no static hazard, and the target allows it. */
  private isRight(network: Network): boolean {
    if (legFaults(network, this.task.target).length > 0) return false;
    const tables = this.outputTables(network);
    const same = tables.every((table, y) => {
      const wanted = this.mirrored ? not(this.wanted[y], this.count) : this.wanted[y];
      return equal(and(table, this.allowed), and(wanted, this.allowed));
    });
    return same && !hasStaticHazard(this.task, network);
  }

  /** The same while drafts may still be judged. */
  private isStillRight(network: Network): boolean {
    return ++this.drafts <= MOST_DRAFTS && this.isRight(network);
  }

  /** The given network with products joined to its outputs. */
  private joined(): Network {
    const { network } = this.task;
    const { inverters, outputs: given } = this.listsOf(network);
    const products = new Products(this.task, inverters);
    const outputs = network.outputs.map((_, y) => {
      const circuit = circuitOfNetwork(network, this.task.signals, this.task.inputs, this.task.target);
      const scope = { allowed: this.task.allowed, moving: this.task.inputs.map((__, i) => i) };
      const kind = this.mirrored ? 'static-0' : 'static-1';
      const hazards = hazardsOf(circuit, { scope, mostFlips: 1 }).filter(
        (hazard) => hazard.output === y && hazard.kind === kind,
      );
      const legs = new Set(given[y]);
      if (hazards.length === 0) return [...legs];
      const flips = new Set(hazards.flatMap(({ flipped }) => flipped));
      const pairs = this.pairsOf(this.wanted[y]).filter(({ flip }) => flips.has(flip));
      for (const cube of this.chosen(this.wanted[y], pairs))
        for (const leg of products.legs(cube)) legs.add(leg);
      return [...legs];
    });
    return this.tidy(inverters, outputs);
  }

  /** Two levels, or the complement of two levels behind one inverter for each output. */
  private covered(complement: boolean): Network {
    const { target } = this.task;
    const inverters: number[][] = [];
    const products = new Products(this.task, inverters);
    const outputs = this.wanted.map((table) => {
      const on = complement ? not(table, this.count) : table;
      const points = Array.from({ length: 2 ** this.count }, (_, row) => row)
        .filter((row) => hasRow(on, row) && hasRow(this.allowed, row))
        .map((row) => ({ row, flip: -1 }));
      const legs = new Set<number>();
      for (const cube of this.chosen(on, [...points, ...this.pairsOf(on)])) {
        for (const leg of products.legs(cube)) legs.add(leg);
      }
      if (legs.size === 0) legs.add(ZERO);
      if (!complement && (target.join.where === 'anywhere' || legs.size === 1)) return [...legs];
      const inverter = products.inverter([...legs]);
      return [complement ? inverter : products.inverter([inverter])];
    });
    return this.tidy(inverters, outputs);
  }

  /** Legs of all inverters and outputs; under AND joins with the constants exchanged, so that OR may be read. */
  private listsOf(network: Network): { inverters: number[][]; outputs: number[][] } {
    const read = (legs: Int32Array): number[] => Array.from(legs, (leg) => this.mirror(leg));
    return {
      inverters: Array.from({ length: network.size }, (_, i) => read(legsOf(network, i))),
      outputs: network.outputs.map((_, y) => read(outputLegsOf(network, y))),
    };
  }

  private tidy(inverters: readonly number[][], outputs: readonly number[][]): Network {
    const { network } = this.task;
    const tidy = tidyNetwork(network.inputs, network.outputs, inverters, outputs);
    const mirror = (leg: number): number => this.mirror(leg);
    return { ...tidy, legs: tidy.legs.map(mirror), outputLegs: tidy.outputLegs.map(mirror) };
  }

  private mirror(leg: number): number {
    if (!this.mirrored) return leg;
    return leg === ZERO ? ONE : leg === ONE ? ZERO : leg;
  }

  /** Neighbouring 1-points that can both happen; `row` has the flipped input at 0. */
  private pairsOf(on: Table): { row: number; flip: number }[] {
    const pairs: { row: number; flip: number }[] = [];
    for (let flip = 0; flip < this.count; flip++) {
      const inside = and(on, this.allowed);
      const both = and(inside, flipInput(inside, flip));
      for (let row = 0; row < 2 ** this.count; row++) {
        if (hasRow(both, row) && ((row >> flip) & 1) === 0) pairs.push({ row, flip });
      }
    }
    return pairs;
  }

  /** Prime implicants such that each point, and each pair as a whole, lies in one. */
  private chosen(on: Table, needs: readonly { readonly row: number; readonly flip: number }[]): Cube[] {
    const primes = primeCubes(or(on, not(this.allowed, this.count)), this.count);
    const covers = (cube: Cube, need: { readonly row: number; readonly flip: number }): boolean =>
      (need.row & ~cube.free) === cube.value && (need.flip < 0 || ((cube.free >> need.flip) & 1) === 1);
    const sets = primes.map((cube) => needs.flatMap((need, n) => (covers(cube, need) ? [n] : [])));
    const open = new Set(needs.keys());
    const taken: number[] = [];
    while (open.size > 0) {
      let [best, most] = [-1, 0];
      sets.forEach((set, p) => {
        const gain = set.filter((n) => open.has(n)).length;
        if (gain > most) [best, most] = [p, gain];
      });
      if (best < 0) break;
      taken.push(best);
      for (const n of sets[best]) open.delete(n);
    }
    // What the others cover together need not stay.
    const counts = new Int32Array(needs.length);
    for (const p of taken) for (const n of sets[p]) counts[n]++;
    return taken
      .filter((p) => {
        if (sets[p].some((n) => counts[n] === 1)) return true;
        for (const n of sets[p]) counts[n]--;
        return false;
      })
      .map((p) => primes[p]);
  }

  /**
   * Merges terms of an output: NOR(C, u) and NOR(C, v) with u = NOR(S) and v = NOR(T) together are NOR(C, NOR(S, T)).
   * That may make the inverters u and v superfluous.
   */
  private merged(network: Network): Network {
    const first = firstInverter(network);
    const { inverters, outputs } = this.listsOf(network);
    const legs = (wire: number): number[] | null => (wire < first ? null : inverters[wire - first]);
    for (const list of outputs) {
      for (let i = 0; i < list.length; i++) {
        for (let j = i + 1; j < list.length; j++) {
          const [a, b] = [legs(list[i]), legs(list[j])];
          if (a === null || b === null) continue;
          const [onlyA, onlyB] = [a.filter((leg) => !b.includes(leg)), b.filter((leg) => !a.includes(leg))];
          if (onlyA.length !== 1 || onlyB.length !== 1) continue;
          const [s, t] = [legs(onlyA[0]), legs(onlyB[0])];
          if (s === null || t === null) continue;
          const both = inverters.length + first;
          const common = a.filter((leg) => leg !== onlyA[0]);
          const more = [...inverters, [...new Set([...s, ...t])], [...common, both]];
          const joins = outputs.map((other) =>
            other === list ? [...list.filter((_, at) => at !== i && at !== j), both + 1] : other,
          );
          const draft = this.tidy(more, joins);
          if (draft.size <= network.size && this.isStillRight(draft)) return this.merged(draft);
        }
      }
    }
    return network;
  }

  /** Takes away legs as long as everything stays right. */
  private thinned(network: Network): Network {
    let best = this.merged(network);
    for (let again = true; again; ) {
      again = false;
      const { inverters, outputs } = this.listsOf(best);
      for (const list of [...outputs, ...inverters]) {
        for (let at = list.length - 1; at >= 0 && list.length > 1; at--) {
          const [leg] = list.splice(at, 1);
          const draft = this.tidy(inverters, outputs);
          if (this.isStillRight(draft)) again = true;
          else list.splice(at, 0, leg);
        }
      }
      if (again) best = this.tidy(inverters, outputs);
    }
    return best;
  }
}

/** Makes inverters for products, each once. Under AND joins everything is the mirror image. */
class Products {
  private readonly inverters: number[][];
  private readonly first: number;
  private readonly made = new Map<string, number>();
  /** Wire by input and by the level that it has when the input is 1. */
  private readonly wires = new Map<string, number>();

  constructor(task: HazardFreeTask, inverters: number[][]) {
    this.inverters = inverters;
    this.first = firstInverter(task.network);
    const mirrored = task.target.join.logic === 'and';
    task.network.inputs.forEach(({ signal, rail }, i) => {
      const input = task.inputs.findIndex((declared) => declared.signal === signal);
      this.wires.set(`${input} ${(rail === 'high') !== mirrored}`, FIRST_INPUT + i);
    });
    inverters.forEach((legs, i) => {
      const key = legs.join(' ');
      if (!this.made.has(key)) this.made.set(key, this.first + i);
    });
  }

  /** The inverter with these legs. */
  inverter(legs: readonly number[]): number {
    const sorted = [...new Set(legs)].sort((a, b) => a - b);
    const key = sorted.join(' ');
    let wire = this.made.get(key);
    if (wire === undefined) {
      wire = this.first + this.inverters.push(sorted) - 1;
      this.made.set(key, wire);
    }
    return wire;
  }

  /** The wire that is 1 when the input has the value. */
  private literal(input: number, value: boolean): number {
    const wire = this.wires.get(`${input} ${value}`);
    if (wire !== undefined) return wire;
    return this.inverter([this.wires.get(`${input} ${!value}`) as number]);
  }

  /** A leg that is 1 on the product. */
  legs({ free, value }: Cube): number[] {
    const literals: { input: number; value: boolean }[] = [];
    for (let i = 0; i < 32; i++) {
      if (((free >>> i) & 1) === 1) continue;
      if (![...this.wires.keys()].some((key) => key.startsWith(`${i} `))) continue;
      literals.push({ input: i, value: ((value >> i) & 1) === 1 });
    }
    if (literals.length === 0) return [ONE];
    if (literals.length === 1) return [this.literal(literals[0].input, literals[0].value)];
    return [this.inverter(literals.map((literal) => this.literal(literal.input, !literal.value)))];
  }
}

/** All prime implicants. */
export function primeCubes(on: Table, inputs: number): Cube[] {
  const inside = new Map<number, Table>([[0, on]]);
  const all = 2 ** inputs;
  for (let free = 1; free < all; free++) {
    const i = 31 - Math.clz32(free);
    const half = inside.get(free & ~(1 << i)) as Table;
    inside.set(free, and(half, flipInput(half, i)));
  }
  const primes: Cube[] = [];
  for (let free = all - 1; free >= 0; free--) {
    const here = inside.get(free) as Table;
    if (isEmpty(here)) continue;
    for (let value = 0; value < all; value++) {
      if ((value & free) !== 0 || !hasRow(here, value)) continue;
      let larger = false;
      for (let i = 0; i < inputs && !larger; i++) {
        larger = ((free >> i) & 1) === 0 && hasRow(inside.get(free | (1 << i)) as Table, value);
      }
      if (!larger) primes.push({ free, value });
    }
  }
  return primes;
}
