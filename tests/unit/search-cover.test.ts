// Covering by networks of the catalogue: every cover is right on all patterns, says its ticks truly, and makes use of what
// the catalogue knows: curves, inputs that come late, rails that are free.

import { describe, expect, test } from 'vitest';
import type { System } from '../../src/equations/system.ts';
import { outputTicks } from '../../src/network/levels.ts';
import { prove } from '../../src/proof/prove.ts';
import { asWrittenDraft } from '../../src/search/as-written.ts';
import { covers } from '../../src/search/cover.ts';
import { draftNetwork, type Shape } from '../../src/search/draft.ts';
import { fastest } from '../../src/search/fastest.ts';
import { graphOfSystem } from '../../src/search/subject-graph.ts';
import type { Target } from '../../src/target/target.ts';
import { INPUT_TABLES } from '../../src/truth/permutation-classes.ts';
import { rippleAdderText } from '../support/families.ts';
import { randomSystem } from '../support/random-system.ts';
import { seededRandom } from '../support/seeded-random.ts';
import { shippedCatalogue } from '../support/shipped-catalogue.ts';
import { systemOf, tableSystem, targetOf, taskOf } from '../support/system-of.ts';

const catalogue = shippedCatalogue();
const WORK = 1e6;

function coversOf(system: System, target: Target = targetOf('joined-or'), work = WORK): Shape[] {
  const task = taskOf(system, target);
  return covers(task, graphOfSystem(system, task), catalogue, { work, bounds: 6 });
}

function figures(found: readonly Shape[]): string[] {
  return found.map(({ ticks, size }) => `${Math.max(...ticks)}:${size}`);
}

describe('random systems', () => {
  test.each(['joined-or', 'joined-and', 'nor-gates', 'joined-or-4'])(
    'are covered rightly, and the ticks are those of the network: %s',
    (name) => {
      const target = targetOf(name);
      const rails = ['high', 'low', 'either', 'both'] as const;
      let all = 0;
      for (let seed = 1; seed <= 120; seed++) {
        const system = randomSystem(seed, { rails, latestTick: 3, mostInputs: 7, mostInternal: 6 });
        const task = taskOf(system, target);
        const found = coversOf(system, target);
        expect(found.length, `seed ${seed}`).toBeGreaterThan(0);
        all += found.length;
        for (const { draft, size, ticks } of found) {
          const network = draftNetwork(task, draft);
          expect(prove(system, network, target.join.logic).verdict, `seed ${seed}`).toBe('equal');
          expect(network.size, `seed ${seed}`).toBe(size);
          expect(ticks, `seed ${seed}`).toEqual(outputTicks(network, task.rules));
        }
        const latest = found.map((cover) => Math.max(0, ...cover.ticks));
        expect(latest, `seed ${seed}`).toEqual([...latest].sort((a, b) => a - b));
        const sizes = found.map(({ size }) => size);
        expect(sizes, `seed ${seed}`).toEqual([...new Set(sizes)].sort((a, b) => b - a));
      }
      expect(all).toBeGreaterThan(120);
    },
  );

  test('come to the same covers every time, and to some cover with no work to spare', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const system = randomSystem(seed, { mostInputs: 8, mostInternal: 8 });
      expect(coversOf(system)).toEqual(coversOf(system));
      expect(coversOf(system, targetOf('joined-or'), 0).length).toBeGreaterThan(0);
    }
  });
});

describe('what the catalogue knows is used', () => {
  test('single functions of three inputs come near their proved curves', () => {
    const random = seededRandom(7);
    let proved = 0;
    let covered = 0;
    for (let n = 0; n < 100; n++) {
      const table = Math.floor(random() * 256);
      const { curve } = catalogue.lookUp(table | (table << 8)).entry;
      const found = coversOf(tableSystem(3, table));
      for (const point of [curve[0], curve[curve.length - 1]]) {
        const within = found.filter(({ ticks }) => Math.max(0, ...ticks) <= point.ticks);
        const size = Math.min(...within.map((cover) => cover.size));
        expect(size, `table ${table}, ${point.ticks} ticks`).toBeGreaterThanOrEqual(point.parts);
        proved += point.parts;
        covered += size;
      }
    }
    expect(covered / proved).toBeLessThan(1.1);
  });

  test('an input that comes late passes as few inverters as it can', () => {
    const system = systemOf('input a, b, k @ 4\nc = a b + (a + b) k');
    const [first] = coversOf(system);
    expect(Math.max(...first.ticks)).toBe(fastest(taskOf(system, targetOf('joined-or'))).ticks);
  });

  test('an input whose rail is free is taken on the rail that needs no inverter', () => {
    const [cover] = coversOf(systemOf('input x either, a, b\nf = nor(a, not x)\ng = nor(b, not x)'));
    expect(cover.size).toBe(2);
    expect(cover.draft.chosen.slice(0, 2)).toEqual([false, true]);
  });

  test('a sum and its complement of twenty inputs cost one inverter', () => {
    const names = Array.from({ length: 20 }, (_, i) => `x${i}`).join(' + ');
    expect(figures(coversOf(systemOf(`y = ${names}\nz = (${names})'`)))).toEqual(['1:1']);
  });

  // As written it takes 48 inverters and 10 ticks. The search after it comes to 26.
  test('the ripple of an adder finds rails in turn', () => {
    const system = systemOf(rippleAdderText(4));
    const found = coversOf(system);
    const smallest = found[found.length - 1];
    expect(asWrittenDraft(system, taskOf(system, targetOf('joined-or'))).inverters.length).toBe(48);
    expect(smallest.size).toBeLessThanOrEqual(33);
    expect(Math.max(...found[0].ticks)).toBeLessThanOrEqual(4);
  });
});

describe('the graph of a system', () => {
  /** Level of a literal on a pattern. */
  function levelOf(system: System, pattern: number): (literal: number) => boolean {
    const task = taskOf(system, targetOf('joined-or'));
    const { firstAnd, size, operands } = graphOfSystem(system, task);
    const levels: boolean[] = [false];
    for (let node = 1; node < firstAnd; node++) levels.push(((pattern >> (node - 1)) & 1) === 1);
    const level = (literal: number): boolean => levels[literal >> 1] !== ((literal & 1) === 1);
    for (let node = firstAnd; node < size; node++) {
      levels.push(level(operands[2 * node]) && level(operands[2 * node + 1]));
    }
    return level;
  }

  test('has every operator as it is defined', () => {
    const text = `
      input a, b, c
      y0 = not (a ^ b ^ c)
      y1 = nand(a, b, c)
      y2 = a -> b
      y3 = mux(a, b, c)
      y4 = maj(a, b, c)
      y5 = a <-> b
      y6 = nor(a, b) + 0
      y7 = a ^ b ^ c ^ 1`;
    const system = systemOf(text);
    const { outputs } = graphOfSystem(system, taskOf(system, targetOf('joined-or')));
    for (let pattern = 0; pattern < 8; pattern++) {
      const level = levelOf(system, pattern);
      const [a, b, c] = [0, 1, 2].map((i) => ((pattern >> i) & 1) === 1);
      const odd = [a, b, c].filter(Boolean).length % 2 === 1;
      const wanted = [
        !odd,
        !(a && b && c),
        !a || b,
        a ? c : b,
        [a, b, c].filter(Boolean).length >= 2,
        a === b,
        !(a || b),
        !odd,
      ];
      expect(outputs.map(level), `pattern ${pattern}`).toEqual(wanted);
    }
  });

  test('has an AND of the same operands once', () => {
    const system = systemOf('y = a b c\nz = c b a\nw = (a b) c');
    const graph = graphOfSystem(system, taskOf(system, targetOf('joined-or')));
    expect(graph.size - graph.firstAnd).toBe(2);
    expect(new Set(graph.outputs).size).toBe(1);
  });

  test('inputs of the catalogue are numbered as its tables are', () => {
    expect(INPUT_TABLES[0]).toBe(0xaaaa);
  });
});
