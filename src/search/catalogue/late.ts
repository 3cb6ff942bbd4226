// Networks for inputs that arrive late.
//
// The curve of a class supposes that all inputs are there at tick 0. Where one comes later, as a carry does, a network
// with more inverters may settle sooner, because that input passes through fewer of them. What counts is then, for each
// input, the most inverters on a way from it to the output (its delay). Of all networks of a class those are kept that
// no other beats in parts and in all four delays at once.
//
// They are found by the same sweep of wire sets, once for each pattern of arrivals: a network with delays d settles by
// tick max(d) when input i arrives at tick max(d) - d[i]. Patterns that differ by a renaming of inputs are one, since all
// functions are swept. So for delays that differ by at most LATEST, what a sweep of k inverters does not find takes more
// than k.

import { classMaps, inverseRenaming, RENAMINGS } from '../../truth/permutation-classes.ts';
import type { FiledNetwork } from './catalogue-file.ts';
import { delays, layNetwork, renameInputs, type SmallNetwork, withoutIdleInputs } from './lay.ts';
import { firstLevels, MOST_TICKS, WireSets } from './wire-sets.ts';

/** Arrivals are 0 to this. */
export const LATEST = 3;

/** Patterns of arrivals: ascending, the first input at tick 0 and the last later. */
export const LATE_ARRIVALS: readonly (readonly number[])[] = Array.from(
  { length: (LATEST + 1) ** 3 },
  (_, n) => [0, n >> 4, (n >> 2) & 3, n & 3],
).filter(([, b, c, d]) => b <= c && c <= d && d > 0);

interface Way {
  readonly delays: readonly number[];
  readonly network: SmallNetwork;
}

function wayOf(network: SmallNetwork): Way {
  return { delays: delays(network), network };
}

/** Is `a` as good as `b` in parts and every delay? */
export function isAsGood(a: Way, b: Way): boolean {
  return a.network.legs.length <= b.network.legs.length && a.delays.every((delay, i) => delay <= b.delays[i]);
}

/** The networks of every class that no other beats. */
export class LateWork {
  private readonly maps = classMaps();
  private readonly ways: Way[][] = Array.from(this.maps.tables, () => []);
  /** By pattern of arrivals, the largest sweep that is complete. */
  private readonly swept = new Map<string, number>();

  /** Takes in a network of the representative of a class; returns whether it was kept. */
  add(c: number, network: SmallNetwork): boolean {
    const way = wayOf(withoutIdleInputs(network, this.maps.tables[c]));
    if (this.ways[c].some((other) => isAsGood(other, way))) return false;
    this.ways[c] = [...this.ways[c].filter((other) => !isAsGood(way, other)), way];
    return true;
  }

  hasSwept(most: number, arrivals: readonly number[]): boolean {
    return (this.swept.get(arrivals.join('')) ?? 0) >= most;
  }

  /** Takes in one line, see `sweep`. */
  learn(line: string): void {
    const [word, ...rest] = line.split(' ');
    if (word === 'swept-late')
      this.swept.set(rest[0], Math.max(this.swept.get(rest[0]) ?? 0, Number(rest[1])));
    else if (word === 'way') {
      const [c, output, ...legs] = rest.map((field) => Number.parseInt(field, 16));
      this.add(c, { legs, output });
    } else throw new Error(`not a fact: ${line}`);
  }

  /** Sweeps one pattern of arrivals; returns what was learnt, as lines. */
  sweep(most: number, arrivals: readonly number[]): string[] {
    const fewest = Array.from({ length: MOST_TICKS + 1 }, () => new Uint8Array(65536).fill(99));
    for (const parts of fewest) parts[65535] = 0;
    const found = new Map<number, readonly number[]>();
    const sets = new WireSets(
      most,
      fewest,
      (table, ticks, wires) => found.set(table * (MOST_TICKS + 1) + ticks, wires),
      arrivals,
    );
    for (const first of firstLevels(most, arrivals)) sets.run(first);
    const lines: string[] = [];
    for (const [key, wires] of found) {
      const ticks = key % (MOST_TICKS + 1);
      const table = (key - ticks) / (MOST_TICKS + 1);
      if (fewest[ticks][table] < wires.length) continue;
      const c = this.maps.classOf[table];
      const laid = layNetwork(table, ticks, wires, arrivals);
      if (laid === null) throw new Error(`these wires do not make ${table.toString(16)}`);
      const back = inverseRenaming(this.maps.renamingOf[table]);
      const renamed = renameInputs(laid, RENAMINGS[back].order);
      const hex = [c, renamed.output ?? 0, ...renamed.legs].map((field) => field.toString(16));
      if (this.add(c, renamed)) lines.push(`way ${hex.join(' ')}`);
    }
    this.swept.set(arrivals.join(''), most);
    return [...lines, `swept-late ${arrivals.join('')} ${most}`];
  }

  /** The curve with networks of less delay where there are any for the same parts and ticks. */
  betterCurve(c: number, curve: readonly FiledNetwork[]): FiledNetwork[] {
    return curve.map(({ proved, network }) => {
      const point = wayOf(network);
      const better = this.ways[c].find((way) => isAsGood(way, point));
      return { proved, network: better?.network ?? network };
    });
  }

  /** The networks of a class beside its curve, fewest parts first. */
  others(c: number, curve: readonly FiledNetwork[]): FiledNetwork[] {
    const points = curve.map(({ network }) => wayOf(network));
    return this.ways[c]
      .filter((way) => !points.some((point) => isAsGood(point, way)))
      .sort((a, b) => compareWays(a, b))
      .map(({ delays, network }) => ({ proved: this.isProved(delays, network.legs.length), network }));
  }

  /** No network with these delays or less has fewer parts, as far as complete sweeps tell. */
  private isProved(ways: readonly number[], parts: number): boolean {
    const most = Math.max(...ways);
    const arrivals = ways.map((delay) => (delay < 0 ? 0 : most - delay)).sort();
    const least = Math.min(...arrivals);
    return (this.swept.get(arrivals.map((tick) => tick - least).join('')) ?? 0) >= parts - 1;
  }
}

function compareWays(a: Way, b: Way): number {
  const parts = a.network.legs.length - b.network.legs.length;
  if (parts !== 0) return parts;
  const at = a.delays.findIndex((delay, i) => delay !== b.delays[i]);
  return at < 0 ? 0 : a.delays[at] - b.delays[at];
}
