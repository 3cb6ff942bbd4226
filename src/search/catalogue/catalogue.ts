// Looking functions up. A function of up to four inputs is a 16-bit number (row m is bit m; inputs it does not have it
// does not depend on). Two arrays say for each of the 65536 functions which class it is in and which renaming of inputs
// makes it the representative, so a look-up is two reads; a class is unpacked when it is first asked for.

import { CLASSES, classMaps, RENAMINGS } from '../../truth/permutation-classes.ts';
import { CatalogueFile, type FiledNetwork } from './catalogue-file.ts';
import { delays, outputTable, type SmallNetwork } from './lay.ts';

export interface CatalogueNetwork {
  readonly parts: number;
  /** Ticks when all inputs are there at tick 0. */
  readonly ticks: number;
  /** By input of the representative: most inverters on a way from it to the output, -1 where there is no way. */
  readonly delays: readonly number[];
  /** On a curve: no network of this many ticks, or of more but fewer than the next point has, has fewer parts. */
  readonly proved: boolean;
  readonly network: SmallNetwork;
}

export interface CatalogueClass {
  /** 0 to 3983, in the order of the representatives. */
  readonly number: number;
  /** The representative: the smallest table of the class. */
  readonly table: number;
  /** Fewest parts at each number of ticks, from the fastest on; only points where the parts fall are listed. */
  readonly curve: readonly CatalogueNetwork[];
  /** Networks that pass some input through fewer inverters than any of the curve with as few parts. */
  readonly others: readonly CatalogueNetwork[];
}

export interface Found {
  readonly entry: CatalogueClass;
  /** Input `i` of the representative is input `order[i]` of the function. */
  readonly order: readonly number[];
}

export class Catalogue {
  private readonly file: CatalogueFile;
  private readonly tables: Uint16Array;
  private readonly classOf: Uint16Array;
  private readonly renamingOf: Uint8Array;
  private readonly classes: (CatalogueClass | null)[] = new Array(CLASSES).fill(null);

  /** Throws a RangeError when the bytes are no whole catalogue. Takes a few milliseconds. */
  constructor(bytes: Uint8Array) {
    const { tables, classOf, renamingOf } = classMaps();
    this.tables = tables;
    this.classOf = classOf;
    this.renamingOf = renamingOf;
    this.file = new CatalogueFile(bytes, CLASSES);
  }

  /** Class, curve and networks of a function of four inputs. */
  lookUp(table: number): Found {
    const number = this.classOf[table];
    return {
      entry: this.classes[number] ?? this.unpack(number),
      order: RENAMINGS[this.renamingOf[table]].order,
    };
  }

  /** The class of that number, 0 to 3983. */
  at(number: number): CatalogueClass {
    return this.classes[number] ?? this.unpack(number);
  }

  private unpack(number: number): CatalogueClass {
    const table = this.tables[number];
    const { curve, others } = this.file.read(number);
    const seen = ({ network, proved }: FiledNetwork): CatalogueNetwork => {
      if (outputTable(network) !== table) throw new RangeError('the catalogue is damaged: rebuild it');
      const ways = delays(network);
      return { parts: network.legs.length, ticks: Math.max(0, ...ways), delays: ways, proved, network };
    };
    const unpacked = { number, table, curve: curve.map(seen), others: others.map(seen) };
    this.classes[number] = unpacked;
    return unpacked;
  }
}

/** The point of a curve that serves a bound on ticks, or null when the bound is below the fastest. */
export function pointWithin(entry: CatalogueClass, ticks: number): CatalogueNetwork | null {
  let best: CatalogueNetwork | null = null;
  for (const point of entry.curve) if (point.ticks <= ticks) best = point;
  return best;
}

/**
 * The network of fewest parts that settles by a tick, or null when the catalogue has none; of equals the first to settle.
 *
 * @param arrivals tick of each input of the representative.
 */
export function networkFor(
  entry: CatalogueClass,
  arrivals: readonly number[],
  tick: number,
): CatalogueNetwork | null {
  let best: CatalogueNetwork | null = null;
  let bestSettles = 0;
  for (const list of [entry.curve, entry.others]) {
    for (const candidate of list) {
      const settles = settlingTick(candidate, arrivals);
      if (settles > tick || (best !== null && best.parts < candidate.parts)) continue;
      if (best !== null && best.parts === candidate.parts && bestSettles <= settles) continue;
      best = candidate;
      bestSettles = settles;
    }
  }
  return best;
}

/** When the output settles, given the arrival of each input of the representative. */
export function settlingTick({ delays }: CatalogueNetwork, arrivals: readonly number[]): number {
  let latest = 0;
  for (let i = 0; i < delays.length; i++) {
    if (delays[i] >= 0 && delays[i] + arrivals[i] > latest) latest = delays[i] + arrivals[i];
  }
  return latest;
}
