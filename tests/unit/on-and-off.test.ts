// Answers for targets whose inverters rise and fall in different times: what is said to be the fastest is compared with
// brute force, what is said to be proved must be so, and deadlines are kept in true ticks.

import { describe, expect, test } from 'vitest';
import { tickCosts } from '../../src/network/levels.ts';
import { TickBounds } from '../../src/network/tick-bounds.ts';
import { fastest } from '../../src/search/fastest.ts';
import type { Target } from '../../src/target/target.ts';
import { optimize } from '../../src/tickwright.ts';
import { seededRandom } from '../support/seeded-random.ts';
import { tableSystem, targetOf, taskOf } from '../support/system-of.ts';

function targetWith(ticksOn: number, ticksOff: number, name = 'joined-or'): Target {
  const target = targetOf(name);
  const ticks = Math.max(ticksOn, ticksOff);
  return { ...target, name: 'uneven', inverter: { ...target.inverter, ticks, ticksOn, ticksOff } };
}

function resultOf(text: string, target: Target, ticks: number | null = null) {
  const options = { target, ticks, effort: 'quick', seed: 1, explain: false, version: '' } as const;
  return optimize('text', text, {}, options).result;
}

const INPUTS = [0xaa, 0xcc, 0xf0];
const ALL = 255;

/** By brute force: the first tick by which a join of wires can be the function `on`; inputs are active-high. */
function firstTick(on: number, arrivals: readonly number[], target: Target): number {
  const { ticksOn, ticksOff } = target.inverter;
  const known = new Map<string, ReadonlySet<number>>();
  /** Joins of wires that do not rise after `rise` and do not fall after `fall`. */
  const joins = (rise: number, fall: number): ReadonlySet<number> => {
    const key = `${rise} ${fall}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const wires = new Set<number>([0, ALL]);
    INPUTS.forEach((level, i) => {
      if (arrivals[i] <= Math.min(rise, fall)) wires.add(level);
    });
    // An inverter rises after a fall of its legs and falls after a rise of them.
    const [legsRise, legsFall] = [fall - ticksOff, rise - ticksOn];
    if (Math.min(legsRise, legsFall) >= 0)
      for (const level of joins(legsRise, legsFall)) wires.add(ALL & ~level);
    const found = new Set(wires);
    for (const level of found) for (const wire of wires) found.add(level | wire);
    known.set(key, found);
    return found;
  };
  for (let tick = 0; ; tick++) if (joins(tick, tick).has(on)) return tick;
}

describe('the fastest figure against brute force', () => {
  const random = seededRandom(5);
  const functions = Array.from({ length: 40 }, () => Math.floor(random() * 256));

  test.each([
    [1, 3],
    [3, 1],
    [2, 5],
  ])('on %i, off %i, inputs at the same tick: exact', (on, off) => {
    const target = targetWith(on, off);
    const arrivals = [2, 2, 2];
    const bounds = new TickBounds(tickCosts(target), arrivals);
    for (const table of functions) {
      const found = fastest(taskOf(tableSystem(3, table, { ticks: arrivals }), target));
      const expected = firstTick(table, arrivals, target);
      expect([table, bounds.least(found.ticks), bounds.most(found.ticks)]).toEqual([
        table,
        expected,
        expected,
      ]);
    }
  });

  test('inputs at different ticks: between the two bounds, which often meet', () => {
    let meet = 0;
    for (const [on, off, ...arrivals] of [
      [1, 3, 0, 1, 2],
      [2, 5, 0, 4, 7],
      [4, 1, 3, 0, 0],
    ]) {
      const target = targetWith(on, off);
      const bounds = new TickBounds(tickCosts(target), arrivals);
      for (const table of functions) {
        const { ticks } = fastest(taskOf(tableSystem(3, table, { ticks: arrivals }), target));
        const expected = firstTick(table, arrivals, target);
        const [least, most] = [bounds.least(ticks), bounds.most(ticks)];
        expect([table, least <= expected, expected <= most]).toEqual([table, true, true]);
        if (least === most) meet++;
      }
    }
    expect(meet).toBeGreaterThan(60);
  });
});

describe('whole answers', () => {
  const target = targetWith(1, 3);

  test('AND: a fall and a rise, four ticks and not six', () => {
    const result = resultOf('x = a b', target);
    expect(result.fastest).toEqual({ ticks: 4, proved: true, parts: 3 });
    const [point] = result.points;
    expect(point).toMatchObject({ ticks: 4, parts: 3, ticksProved: true, partsProved: true });
    expect(point.network.inverters.map(({ tick }) => tick)).toEqual([3, 3, 4]);
    expect(point.network.outputs[0].tick).toBe(4);
    expect(result.asWritten?.ticks).toBe(4);
  });

  test('NOR: one inverter, the slower way', () => {
    const result = resultOf('x = a nor b', target);
    expect(result.fastest).toEqual({ ticks: 3, proved: true, parts: 1 });
    expect(result.points[0]).toMatchObject({ ticks: 3, ticksProved: true, partsProved: true });
  });

  test('the full adder: the frontier point of three inverters deep is there by tick 7', () => {
    const text = 's = a ^ b ^ c; d = maj(a, b, c)';
    // joined-or has 2 ticks with 10 parts and 3 with 8; two inverters deep are 4 ticks here, three are 7.
    expect(resultOf(text, target, 4).points[0]).toMatchObject({ ticks: 4, parts: 10, partsProved: true });
    expect(resultOf(text, target, 6).points[0]).toMatchObject({ ticks: 4, parts: 10 });
    expect(resultOf(text, target, 7).points[0]).toMatchObject({ ticks: 7, parts: 8, partsProved: true });
  });

  test('rails say the same tick as the network', () => {
    const [point] = resultOf('n = a b; x = n + c', target, 4).points;
    for (const { wires, tick } of point.rails.filter(({ signal }) => signal === 'x')) {
      expect(wires.length).toBeGreaterThan(0);
      expect(tick).toBe(point.network.outputs[0].tick);
    }
  });

  test('limits are in true ticks: met, or refused with the first tick that is possible', () => {
    expect(resultOf('output x by 4; x = a b', target).points[0]).toMatchObject({
      ticks: 4,
      partsProved: true,
    });
    const refused = resultOf('output x by 3; x = a b', target);
    expect(refused.points).toEqual([]);
    expect(refused.notices.map(({ code, message }) => [code, message])).toEqual([
      ['deadline-missed', 'x cannot settle by tick 3: no network of this target has it before tick 4'],
    ]);
    expect(resultOf('x = a b', target, 3).notices[0]).toMatchObject({ code: 'deadline-missed' });
  });

  test('different arrivals: asked for by tick, and by deadline, as found without being asked', () => {
    // The early inputs may stand behind two inverters by tick 4, the one at 3 behind none; for the search both are 6.
    const text = 'input a, b, c @ 3\noutput x DEADLINE\nx = a b + c';
    const plain = text.replace(' DEADLINE', '');
    const expected = { ticks: 4, parts: 3, ticksProved: true, partsProved: true };
    expect(resultOf(plain, target).points[0]).toMatchObject(expected);
    expect(resultOf(plain, target, 4).points[0]).toMatchObject(expected);
    expect(resultOf(text.replace('DEADLINE', 'by 4'), target).points[0]).toMatchObject(expected);
    expect(resultOf(plain, target, 3).notices[0]).toMatchObject({ code: 'deadline-missed' });
  });

  test('random equations with random arrivals: proved figures agree with brute force', () => {
    const random = seededRandom(11);
    let proved = 0;
    let inTime = 0;
    for (let round = 0; round < 40; round++) {
      const arrivals = INPUTS.map(() => Math.floor(random() * 4));
      const table = Math.floor(random() * 256);
      const uneven = targetWith(1 + Math.floor(random() * 4), 1 + Math.floor(random() * 4));
      const rows = INPUTS.map((_, i) => i);
      const terms = Array.from({ length: 8 }, (_, row) => row)
        .filter((row) => ((table >> row) & 1) === 1)
        .map((row) => rows.map((i) => `x${i}${((row >> i) & 1) === 1 ? '' : "'"}`).join(' '));
      const declared = rows.map((i) => `x${i} @ ${arrivals[i]}`).join(', ');
      const text = `input ${declared}\noutput y\ny = ${terms.join(' + ') || '0'}`;
      const { fastest: told, points } = resultOf(text, uneven);
      const expected = firstTick(table, arrivals, uneven);
      const [point] = points;
      expect([round, point.proof.verdict, point.ticks >= expected]).toEqual([round, 'equal', true]);
      expect(told !== null && told.ticks <= expected).toBe(true);
      if (told?.proved) {
        proved++;
        expect([round, told.ticks]).toEqual([round, expected]);
      }
      if (point.ticksProved) expect([round, point.ticks]).toEqual([round, expected]);
      // Asked for by the first possible tick: in time, or honestly not found; never refused.
      const asked = resultOf(text, uneven, expected);
      if (asked.points.length === 0) expect(asked.notices[0]?.code).toBe('not-found');
      else expect(asked.points[0].ticks).toBe(expected);
      if (asked.points.length > 0) inTime++;
      const refused = resultOf(text, uneven, expected - 1);
      if (expected > 0) expect(refused.points).toEqual([]);
    }
    expect(proved).toBeGreaterThan(20);
    expect(inTime).toBeGreaterThan(30);
  });
});
