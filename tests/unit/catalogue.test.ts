// The catalogue's parts, each against its plain meaning.

import { describe, expect, test } from 'vitest';
import { Catalogue, networkFor, pointWithin, settlingTick } from '../../src/search/catalogue/catalogue.ts';
import { CatalogueFile, type FiledClass, packCatalogue } from '../../src/search/catalogue/catalogue-file.ts';
import { functionCurve } from '../../src/search/catalogue/function-curve.ts';
import { LATE_ARRIVALS, LateWork } from '../../src/search/catalogue/late.ts';
import {
  delays,
  layNetwork,
  outputTable,
  renameInputs,
  type SmallNetwork,
  ticksOf,
  wireTables,
} from '../../src/search/catalogue/lay.ts';
import { askClass } from '../../src/search/catalogue/questions.ts';
import { firstLevels, MOST_TICKS, WireSets } from '../../src/search/catalogue/wire-sets.ts';
import { ANY, CatalogueWork, UNKNOWN } from '../../src/search/catalogue/work.ts';
import { classMaps, INPUT_TABLES } from '../../src/truth/permutation-classes.ts';
import { systemTables } from '../../src/truth/system-tables.ts';
import { brokenLaws } from '../support/network-laws.ts';
import { seededRandom } from '../support/seeded-random.ts';
import { catalogueBytes, shippedCatalogue } from '../support/shipped-catalogue.ts';
import { systemOf, tableSystem, targetOf } from '../support/system-of.ts';

const catalogue = shippedCatalogue();

function randomNetwork(random: () => number): SmallNetwork {
  const legs = Array.from(
    { length: Math.floor(random() * 9) },
    (_, i) => 1 + Math.floor(random() * (2 ** (4 + i) - 1)),
  );
  return { legs, output: Math.floor(random() * 2 ** (4 + legs.length)) };
}

describe('the data file', () => {
  const random = seededRandom(7);
  const networks = (count: number) =>
    Array.from({ length: count }, () => ({ proved: random() < 0.5, network: randomNetwork(random) }));
  const classes: FiledClass[] = Array.from({ length: 50 }, (_, c) => ({
    curve: networks(1 + (c % 4)),
    others: networks(c % 5),
  }));
  classes.push({ curve: [{ proved: true, network: { legs: [], output: null } }], others: [] });
  const bytes = packCatalogue(classes);

  test('is read as it was packed, in any order', () => {
    const file = new CatalogueFile(bytes, classes.length);
    for (const c of [50, 0, 17, 3, 49]) expect(file.read(c)).toEqual(classes[c]);
  });

  test('is refused when it is another file, cut off, too long, or of another version', () => {
    const refused = (broken: Uint8Array) =>
      expect(() => new CatalogueFile(broken, classes.length)).toThrow(RangeError);
    refused(new Uint8Array());
    refused(new TextEncoder().encode('something else entirely'));
    refused(bytes.subarray(0, bytes.length - 1));
    refused(Uint8Array.of(...bytes, 0));
    refused(bytes.map((byte, at) => (at === 7 ? 99 : byte)));
  });

  test('has a network checked before it is handed out', () => {
    const wrong = packCatalogue(Array.from({ length: 3984 }, () => classes[0]));
    expect(() => new Catalogue(wrong).lookUp(0x1234)).toThrow(RangeError);
  });

  test('is small', () => {
    expect(catalogueBytes().length).toBeLessThan(300_000);
  });
});

describe('small networks', () => {
  test('tables and delays are those of the legs', () => {
    // n0 = NOR(a, b), n1 = NOR(n0, c), output a + n1.
    const network = { legs: [0b0011, 0b10100], output: 0b100001 };
    expect(wireTables(network).slice(4)).toEqual([0x1111, 0x0e0e]);
    expect(outputTable(network)).toBe(0xaaaa | 0x0e0e);
    expect(delays(network)).toEqual([2, 2, 1, -1]);
    expect(ticksOf(network)).toBe(2);
  });

  test('are laid from their tables, by the tick that was asked for or not at all', () => {
    const wires = [0x1111, 0x0e0e];
    const network = layNetwork(0xaaaa | 0x0e0e, 2, wires) as SmallNetwork;
    expect(outputTable(network)).toBe(0xaaaa | 0x0e0e);
    expect(layNetwork(0xaaaa | 0x0e0e, 1, wires)).toBeNull();
    expect(layNetwork(0x1234, 9, wires)).toBeNull();
    expect(layNetwork(0xaaaa | 0x0e0e, 2, wires, [0, 1, 1, 0])).toBeNull();
    expect(layNetwork(0xaaaa | 0x0e0e, 3, wires, [0, 1, 2, 0])).toEqual(network);
  });
});

describe('looking up', () => {
  test('any function has networks of its own', () => {
    const random = seededRandom(3);
    for (let n = 0; n < 2000; n++) {
      const table = Math.floor(random() * 65536);
      const { entry, order } = catalogue.lookUp(table);
      for (const { network, parts } of [...entry.curve, ...entry.others]) {
        const renamed = renameInputs(network, order);
        expect(outputTable(renamed)).toBe(table);
        expect(renamed.legs).toHaveLength(parts);
      }
    }
  });

  test('no network has a leg on an input that its function does not depend on, none has an inverter that feeds nothing', () => {
    for (let number = 0; number < 3984; number++) {
      const { table, curve, others } = catalogue.at(number);
      const idle = INPUT_TABLES.reduce(
        (mask, high, i) => ((table & high) >>> (1 << i) === (table & ~high) ? mask | (1 << i) : mask),
        0,
      );
      for (const { network } of [...curve, ...others]) {
        const used = network.legs.reduce((mask, legs) => mask | legs, network.output ?? 0);
        expect(used & idle).toBe(0);
        expect(used >> 4).toBe(2 ** network.legs.length - 1);
      }
    }
  });

  test('a bound on ticks is served by the last point within it', () => {
    const { entry } = catalogue.lookUp(0x9696);
    expect([0, 1, 2, 3, 4, 5, 9].map((ticks) => pointWithin(entry, ticks)?.parts ?? null)).toEqual([
      null,
      null,
      7,
      7,
      6,
      6,
      6,
    ]);
  });

  test('no network of a class beats another of it in parts and all delays', () => {
    for (let number = 0; number < 3984; number += 5) {
      const { curve, others } = catalogue.at(number);
      const all = [...curve, ...others];
      for (const other of others) {
        const better = all.filter(
          (one) =>
            one !== other && one.parts <= other.parts && one.delays.every((d, i) => d <= other.delays[i]),
        );
        expect(better).toEqual([]);
      }
    }
  });

  test('a late input gets a network that it passes quickly', () => {
    // The sum of a full adder: the carry, input c, comes at tick 2.
    const { entry, order } = catalogue.lookUp(0x9696);
    const arrivals = order.map((input) => (input === 2 ? 2 : 0));
    const late = networkFor(entry, arrivals, 4);
    expect(late?.parts).toBe(6);
    expect(late === null ? null : settlingTick(late, arrivals)).toBe(4);
    expect(networkFor(entry, arrivals, 3)).toBeNull();
  });
});

describe('a function of a system', () => {
  test('has its networks over its own inputs, whichever they are', () => {
    const system = systemOf('input q, w, e, r, t, y; out = (y ^ w) + e r; all = q + w + e + r + t');
    const tables = systemTables(system);
    const wires = system.inputs.map(({ signal }) => ({ signal, rail: 'high' as const, tick: 0 }));
    const [out, all] = system.outputs;
    const alone = { ...system, outputs: [out] };
    const found = functionCurve(catalogue, tables.signals[out.signal], wires, {
      signal: out.signal,
      rail: 'high',
    });
    expect(found?.inputs).toEqual([1, 2, 3, 5]);
    for (const { network, ticks, parts } of [...(found?.curve ?? []), ...(found?.others ?? [])]) {
      expect(network.size).toBe(parts);
      expect(brokenLaws(alone, network, targetOf('joined-or'), { ticks })).toEqual([]);
    }
    expect(
      functionCurve(catalogue, tables.signals[all.signal], wires, { signal: all.signal, rail: 'high' }),
    ).toBeNull();
  });

  test.each([0, 1, 2, 3, 4])('of %i inputs', (inputs) => {
    const random = seededRandom(inputs);
    for (let n = 0; n < 40; n++) {
      const system = tableSystem(inputs, Math.floor(random() * 2 ** (2 ** inputs)));
      const signal = inputs;
      const wires = system.inputs.map((input) => ({ signal: input.signal, rail: 'high' as const, tick: 0 }));
      const found = functionCurve(catalogue, systemTables(system).signals[signal], wires, {
        signal,
        rail: 'high',
      });
      expect(found?.curve.length).toBeGreaterThan(0);
      for (const { network, ticks } of found?.curve ?? []) {
        expect(brokenLaws(system, network, targetOf('joined-or'), { ticks })).toEqual([]);
      }
    }
  });
});

/** Fewest inverters by tick and function, by adding one inverter after the other to every set of wires there is. */
function reachedByHand(most: number, arrivals: readonly number[]): Map<string, number> {
  const fewest = new Map<string, number>();
  const seen = new Set<string>();
  const grow = (wires: ReadonlyMap<number, number>, parts: number): void => {
    const key = [...wires]
      .map(([table, tick]) => `${table}@${tick}`)
      .sort()
      .join(' ');
    if (seen.has(key)) return;
    seen.add(key);
    let joins = new Map<number, number>([[0, 0]]);
    for (const [table, tick] of wires) {
      const more = new Map(joins);
      for (const [join, settled] of joins) {
        const settles = Math.max(settled, tick);
        if ((more.get(join | table) ?? 99) > settles) more.set(join | table, settles);
      }
      joins = more;
    }
    for (const [join, tick] of joins) {
      for (let t = tick; t <= MOST_TICKS; t++) {
        if ((fewest.get(`${join} ${t}`) ?? 99) > parts) fewest.set(`${join} ${t}`, parts);
      }
    }
    if (parts === most) return;
    for (const [join, tick] of joins) {
      const table = ~join & 0xffff;
      if (table === 0 || (wires.get(table) ?? 99) <= tick + 1) continue;
      grow(new Map(wires).set(table, tick + 1), parts + 1);
    }
  };
  grow(new Map(INPUT_TABLES.map((table, i) => [table, arrivals[i]])), 0);
  return fewest;
}

describe('wire sets', () => {
  test.each([[[0, 0, 0, 0]], [[0, 0, 0, 1]], [[0, 0, 1, 2]], [[0, 2, 2, 3]], [[0, 3, 3, 3]]])(
    'with inputs at ticks %j reach what growing sets by hand reaches',
    (arrivals) => {
      const most = 3;
      const fewest = Array.from({ length: MOST_TICKS + 1 }, () => new Uint8Array(65536).fill(UNKNOWN));
      const sets = new WireSets(
        most,
        fewest,
        (table, ticks, wires) => {
          const network = layNetwork(table, ticks, wires, arrivals);
          expect(network === null ? null : outputTable(network)).toBe(table);
        },
        arrivals,
      );
      for (const first of firstLevels(most, arrivals)) sets.run(first);
      const byHand = reachedByHand(most, arrivals);
      let count = 0;
      for (let t = 0; t <= MOST_TICKS; t++) {
        for (let table = 0; table < 65535; table++) {
          if (fewest[t][table] !== (byHand.get(`${table} ${t}`) ?? UNKNOWN)) count++;
        }
      }
      expect(count).toBe(0);
    },
  );
});

describe('the work', () => {
  const sweepAll = (work: CatalogueWork, most: number): string[] => {
    const lines: string[] = [];
    const hex = (table: number): string => table.toString(16);
    const fewest = work.upper.map((upper) => Uint8Array.from(work.classOf, (c) => upper[c]));
    const note = (line: string): void => {
      if (work.learn(line)) lines.push(line);
    };
    const sets = new WireSets(most, fewest, (table, ticks, wires) =>
      note(['network', hex(table), ticks, ...wires.map(hex)].join(' ')),
    );
    firstLevels(most).forEach((first, number) => {
      sets.run(first);
      note(`swept ${most} ${number}`);
    });
    return lines;
  };
  const work = new CatalogueWork();
  const lines = sweepAll(work, 3);
  const classOf = (table: number): number => work.classOf[table];

  test('goes on from the lines that a run left behind, in any order', () => {
    const again = new CatalogueWork();
    for (const line of [...lines].reverse()) again.learn(line);
    expect(again.upper).toEqual(work.upper);
    for (let c = 0; c < 3984; c += 3) {
      for (let t = 0; t <= ANY; t++) expect(again.least(c, t)).toBe(work.least(c, t));
    }
  });

  test('does not believe a line that cannot be true, nor one it cannot read', () => {
    expect(() => work.learn('network 6996 2 5555 3333')).toThrow(/do not make/);
    expect(() => work.learn('perhaps 6996')).toThrow(/not a fact/);
  });

  test('settles by questions what the sweep left open', () => {
    const c = classOf(0x9999);
    expect(work.isProved(c, ANY)).toBe(false);
    askClass(work, c, (line) => work.learn(line));
    expect(
      work.curve(c).map(({ proved, network }) => [proved, ticksOf(network), network.legs.length]),
    ).toEqual([[true, 2, 4]]);
  });

  test('keeps of late networks only those that no other beats', () => {
    const late = new LateWork();
    const told = late.sweep(3, LATE_ARRIVALS[0]);
    const again = new LateWork();
    for (const line of told) again.learn(line);
    expect(again.hasSwept(3, LATE_ARRIVALS[0])).toBe(true);
    const { tables } = classMaps();
    for (let c = 0; c < tables.length; c++) {
      const others = late.others(c, []);
      expect(again.others(c, [])).toEqual(others);
      for (const { network } of others) expect(outputTable(network)).toBe(tables[c]);
    }
  });
});
