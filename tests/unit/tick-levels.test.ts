// Ticks where an inverter rises and falls in different times: figures by hand, a simulation of single changes that may
// never be later than the figures, and the bounds by which limits are carried between two figures and one.

import { describe, expect, test } from 'vitest';
import { packNetwork } from '../../src/network/build-network.ts';
import { edgeTicks, networkTicks, outputTicks, type TickCosts, wireTicks } from '../../src/network/levels.ts';
import { FIRST_INPUT, type InputWire, type Network } from '../../src/network/network.ts';
import { TickBounds } from '../../src/network/tick-bounds.ts';
import { inverterLegs, joinLegs, settlingTicks } from '../support/naive-evaluator.ts';
import { seeded } from './proof-samples.ts';

type Next = (below: number) => number;

function costsOf(ticksOn: number, ticksOff: number, joinTicks = 0): Required<TickCosts> {
  return { joinTicks, inverterTicks: Math.max(ticksOn, ticksOff), ticksOn, ticksOff };
}

function inputs(...ticks: readonly number[]): InputWire[] {
  return ticks.map((tick, signal) => ({ signal, rail: 'high', tick }));
}

/** A network of up to `most` inverters over inputs that arrive at the given ticks. */
function randomNetwork(next: Next, ticks: readonly number[], most: number): Network {
  const first = FIRST_INPUT + ticks.length;
  const legs = (below: number): number[] => {
    const drawn = Array.from({ length: 1 + next(3) }, () => FIRST_INPUT + next(below - FIRST_INPUT));
    return [...new Set(drawn)].sort((a, b) => a - b);
  };
  const inverters = Array.from({ length: 1 + next(most) }, (_, i) => legs(first + i));
  const outputs = [{ signal: ticks.length, rail: 'high' as const }];
  return packNetwork(inputs(...ticks), outputs, inverters, [legs(first + inverters.length)]);
}

describe('by hand', () => {
  // Wires: a is 2, b is 3, then the inverters from 4 on. Listed as rise/fall of every inverter.
  const edges = (network: Network, costs: TickCosts): string[] => {
    const { rise, fall } = edgeTicks(network, costs);
    return [...rise].map((tick, wire) => `${tick}/${fall[wire]}`).slice(FIRST_INPUT + network.inputs.length);
  };
  const output = [{ signal: 2, rail: 'high' as const }];

  test('a chain of four: every pair costs one rise and one fall', () => {
    const chain = packNetwork(inputs(0), output, [[2], [3], [4], [5]], [[6]]);
    expect(edges(chain, costsOf(1, 3))).toEqual(['1/3', '4/4', '5/7', '8/8']);
    expect(edges(chain, costsOf(3, 1))).toEqual(['3/1', '4/4', '7/5', '8/8']);
    expect([...wireTicks(chain, costsOf(1, 3))]).toEqual([0, 0, 0, 3, 4, 7, 8]);
    expect(outputTicks(chain, costsOf(1, 3))).toEqual([8]);
    // One figure would say 3, 6, 9, 12.
    expect([...wireTicks(chain, { joinTicks: 0, inverterTicks: 3 })]).toEqual([0, 0, 0, 3, 6, 9, 12]);
  });

  test('AND and XOR: joins rise with the latest rise and fall with the latest fall', () => {
    const and = packNetwork(inputs(0, 0), output, [[2], [3], [4, 5]], [[6]]);
    expect(edges(and, costsOf(2, 5))).toEqual(['2/5', '2/5', '7/7']);
    // x = NOR(a, b) joined with NOR(a', b'), inverted.
    const xor = packNetwork(inputs(0, 0), output, [[2], [3], [2, 3], [4, 5], [6, 7]], [[8]]);
    expect(edges(xor, costsOf(2, 5))).toEqual(['2/5', '2/5', '2/5', '7/7', '9/12']);
    expect(networkTicks(xor, costsOf(2, 5))).toBe(12);
  });

  test('late inputs: the later of rise and fall is told', () => {
    const late = packNetwork(inputs(0, 4), output, [[2], [4], [3, 5]], [[6]]);
    // a: 1/3, then 4/4; NOR(b @ 4, that): rises after a fall at 4, falls after a rise at 4.
    expect(edges(late, costsOf(1, 3))).toEqual(['1/3', '4/4', '5/7']);
    expect(outputTicks(late, costsOf(1, 3))).toEqual([7]);
  });

  test('joins that take a tick', () => {
    const joined = packNetwork(inputs(0, 0), output, [[2], [2, 3], [4, 5]], [[5, 6]]);
    // NOR(a, b) one tick later than NOT a; the last one waits for both and joins them.
    expect(edges(joined, costsOf(1, 3, 1))).toEqual(['1/3', '2/4', '6/6']);
    expect(outputTicks(joined, costsOf(1, 3, 1))).toEqual([7]);
  });

  test('constants are there at tick 0', () => {
    expect(outputTicks(packNetwork([], output, [], [[1]]), costsOf(1, 3))).toEqual([0]);
  });
});

describe('random networks', () => {
  test('equal durations: the levels of one figure', () => {
    for (let seed = 1; seed <= 200; seed++) {
      const next = seeded(seed);
      const network = randomNetwork(next, [next(4), next(4), next(4)], 12);
      const [ticks, joinTicks] = [1 + next(4), next(3)];
      const { rise, fall } = edgeTicks(network, costsOf(ticks, ticks, joinTicks));
      expect(rise).toEqual(fall);
      const one = { joinTicks, inverterTicks: ticks };
      expect(rise).toEqual(wireTicks(network, one));
      expect(wireTicks(network, costsOf(ticks, ticks, joinTicks))).toEqual(wireTicks(network, one));
      expect(outputTicks(network, costsOf(ticks, ticks, joinTicks))).toEqual(
        settlingTicks(network, ticks, joinTicks),
      );
    }
  });

  test('different durations: between one figure of the smaller and one of the larger', () => {
    for (let seed = 1; seed <= 200; seed++) {
      const next = seeded(500 + seed);
      const network = randomNetwork(next, [next(4), next(4)], 12);
      const [on, off, joinTicks] = [1 + next(5), 1 + next(5), next(2)];
      const exact = wireTicks(network, costsOf(on, off, joinTicks));
      const least = wireTicks(network, { joinTicks, inverterTicks: Math.min(on, off) });
      const most = wireTicks(network, { joinTicks, inverterTicks: Math.max(on, off) });
      exact.forEach((tick, wire) => {
        expect(tick).toBeGreaterThanOrEqual(least[wire]);
        expect(tick).toBeLessThanOrEqual(most[wire]);
      });
    }
  });

  /** Runs the network tick by tick: last rise and fall of every wire. Inputs change at will up to their arrival. */
  function lastChanges(network: Network, costs: Required<TickCosts>, next: Next): number[][] {
    const first = FIRST_INPUT + network.inputs.length;
    const legs = Array.from({ length: network.size }, (_, i) => inverterLegs(network, i));
    const level = [0, 1, ...network.inputs.map(() => next(2))];
    const wanted = (i: number): number => (legs[i].some((leg) => level[leg] === 1) ? 0 : 1);
    for (let i = 0; i < network.size; i++) level.push(wanted(i));
    const due = legs.map(() => -1);
    const last = level.map(() => [0, 0]);
    const set = (wire: number, value: number, tick: number): void => {
      if (level[wire] !== value) last[wire][value] = tick;
      level[wire] = value;
    };
    for (let tick = 0; tick < 200; tick++) {
      network.inputs.forEach((input, i) => {
        if (tick <= input.tick) set(FIRST_INPUT + i, next(2), tick);
      });
      // What is due changes; then every inverter whose legs ask for another level sets out, or stops a change.
      for (let i = 0; i < network.size; i++) if (due[i] === tick) set(first + i, 1 - level[first + i], tick);
      for (let i = 0; i < network.size; i++) {
        if (wanted(i) === level[first + i]) due[i] = -1;
        else if (due[i] <= tick) due[i] = tick + (wanted(i) === 1 ? costs.ticksOn : costs.ticksOff);
      }
    }
    return last;
  }

  test('no wire changes later than the figures say, and some as late', () => {
    let tight = 0;
    const later: string[] = [];
    for (let seed = 1; seed <= 300; seed++) {
      const next = seeded(2000 + seed);
      const network = randomNetwork(next, [next(4), next(4), next(4)], 10);
      const costs = costsOf(1 + next(5), 1 + next(5));
      const { rise, fall } = edgeTicks(network, costs);
      for (let run = 0; run < 20; run++) {
        lastChanges(network, costs, next).forEach(([lastFall, lastRise], wire) => {
          if (lastRise > rise[wire] || lastFall > fall[wire]) later.push(`${seed}: wire ${wire}`);
          if (wire >= 5 && (lastRise === rise[wire] || lastFall === fall[wire])) tight++;
        });
      }
    }
    expect(later).toEqual([]);
    expect(tight).toBeGreaterThan(1000);
  });
});

describe('limits carried between two figures and one', () => {
  const settings = Array.from({ length: 40 }, (_, seed) => {
    const next = seeded(7000 + seed);
    const arrivals = Array.from({ length: 1 + next(3) }, () => next(seed % 2 === 0 ? 1 : 7));
    return { seed, next, arrivals, costs: costsOf(1 + next(5), 1 + next(5), seed % 4 < 2 ? 0 : next(3)) };
  });

  test('what is safe keeps the true limit, what is needed lets pass everything within it', () => {
    const wrong: string[] = [];
    const check = (holds: boolean, what: string): void => {
      if (!holds) wrong.push(what);
    };
    for (const { seed, next, arrivals, costs } of settings) {
      const bounds = new TickBounds(costs, arrivals);
      const one = { joinTicks: costs.joinTicks, inverterTicks: costs.inverterTicks };
      const limits = Array.from({ length: 40 }, (_, limit) => limit);
      const safe = limits.map((limit) => bounds.safe(limit));
      const needed = limits.map((limit) => bounds.needed(limit));
      for (let round = 0; round < 60; round++) {
        const network = randomNetwork(next, arrivals, 8);
        const exact = networkTicks(network, costs);
        const searched = networkTicks(network, one);
        for (const limit of limits) {
          check(searched > safe[limit] || exact <= limit, `${seed}: safe for ${limit}`);
          check(exact > limit || needed[limit] >= searched, `${seed}: needed for ${limit}`);
        }
        check(bounds.least(searched) <= exact, `${seed}: least`);
        check(bounds.most(searched) >= exact, `${seed}: most`);
      }
    }
    expect(wrong).toEqual([]);
  });

  test('equal arrivals and free joins: nothing is lost', () => {
    for (const [on, off, arrival] of [
      [1, 3, 0],
      [5, 2, 4],
      [2, 2, 1],
    ]) {
      const bounds = new TickBounds(costsOf(on, off), [arrival, arrival]);
      for (let limit = 0; limit < 60; limit++) expect(bounds.lossless(limit)).toBe(true);
    }
    // On 1, off 3: after so many inverters 0, 3, 4, 7, 8 ticks, where the search counts 0, 3, 6, 9, 12.
    const bounds = new TickBounds(costsOf(1, 3), [0]);
    expect([0, 3, 6, 9, 12].map((searched) => bounds.least(searched))).toEqual([0, 3, 4, 7, 8]);
    expect([0, 3, 6, 9, 12].map((searched) => bounds.most(searched))).toEqual([0, 3, 4, 7, 8]);
    expect([2, 3, 4, 7].map((limit) => bounds.safe(limit))).toEqual([2, 5, 8, 11]);
    expect([2, 3, 4, 7].map((limit) => bounds.needed(limit))).toEqual([0, 3, 6, 9]);
  });

  test('different arrivals may lose, and say so', () => {
    // Within 4 ticks: two inverters behind the early input (6 for the search), none behind the one at 3 (6 as well: 3 + 3).
    const bounds = new TickBounds(costsOf(1, 3), [0, 3]);
    expect([bounds.safe(4), bounds.needed(4), bounds.lossless(4)]).toEqual([5, 6, false]);
    expect([bounds.least(6), bounds.most(6)]).toEqual([4, 6]);
  });

  test('outputs that a join makes', () => {
    const network = packNetwork(inputs(0, 0), [{ signal: 2, rail: 'high' }], [[2], [3]], [[4, 5]]);
    expect(joinLegs(network, 0)).toEqual([4, 5]);
    expect(outputTicks(network, costsOf(1, 3, 2))).toEqual([5]);
  });
});
