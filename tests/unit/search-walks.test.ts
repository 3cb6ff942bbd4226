// Several walks over one frontier: their seeds, what they come to together, and that it does not matter who runs them.

import { describe, expect, test } from 'vitest';
import { type Job, runJob, Walks, walkJob } from '../../src/cli/job.ts';
import type { Outcome, Point } from '../../src/search/run-search.ts';
import { isEnough, mergeWalks, walkSeeds, walksWorth } from '../../src/search/walks.ts';
import { optimize, seedsOf } from '../../src/tickwright.ts';
import { search, targetOf } from '../support/system-of.ts';

const { outcome: some } = search('x = a b', { effort: 'quick' });

/** A point of which only the figures are real. */
function point(openTicks: number, inverters: number, sizeProved = false): Point {
  return { ...some.answer!, ticks: openTicks, openTicks, inverters, sizeProved };
}

function outcome(points: readonly Point[], wishes: Partial<Outcome> = {}): Outcome {
  return { ...some, frontier: points, answer: points[0] ?? null, stop: 'limit', ...wishes };
}

function curve({ frontier }: Outcome): string[] {
  return (frontier ?? []).map((at) => `${at.ticks}:${at.inverters}${at.sizeProved ? '*' : ''}`);
}

describe('seeds', () => {
  test('one for an answer alone, several for a frontier, all different, the first as given', () => {
    expect(walkSeeds({ effort: 'deep', seed: 7 })).toEqual([7]);
    const seeds = walkSeeds({ effort: 'deep', seed: 7, frontier: true });
    expect(seeds[0]).toBe(7);
    expect(seeds.length).toBeGreaterThan(2);
    expect(new Set(seeds).size).toBe(seeds.length);
    for (const seed of seeds) expect(seed).toBe(seed >>> 0);
  });
});

describe('how many', () => {
  test('more effort walks more often, and normal effort more often over short tables', () => {
    expect([9, 10, 11, 17].map((rowBits) => walksWorth('normal', rowBits))).toEqual([6, 6, 4, 4]);
    for (const rowBits of [9, 17]) {
      expect(walksWorth('quick', rowBits)).toBeLessThan(walksWorth('normal', rowBits));
      expect(walksWorth('normal', rowBits)).toBeLessThan(walksWorth('deep', rowBits));
    }
  });

  test('no effort has fewer seeds than a system may be worth walks', () => {
    for (const effort of ['quick', 'normal', 'deep'] as const) {
      const { length } = walkSeeds({ effort, seed: 1, frontier: true });
      expect(length).toBe(Math.max(walksWorth(effort, 1), walksWorth(effort, 30)));
    }
  });

  test('what is worth so many walks has enough of them and no sooner', () => {
    const open = outcome([point(2, 4)], { walks: 4 });
    expect([1, 3, 4, 5].map((count) => isEnough(open, count))).toEqual([false, false, true, true]);
    expect(isEnough(outcome([point(2, 4)]), 99)).toBe(false);
  });
});

describe('walks together', () => {
  test('every tick count takes the best, and what is beaten goes', () => {
    const merged = mergeWalks([
      outcome([point(2, 10), point(3, 9), point(5, 5)]),
      outcome([point(2, 11), point(3, 7), point(4, 6)]),
    ]);
    expect(curve(merged)).toEqual(['2:10', '3:7', '4:6', '5:5']);
    expect(merged.answer).toMatchObject({ ticks: 2, inverters: 10 });
    expect(mergeWalks([outcome([point(2, 10), point(3, 4)])], { factor: 1 }).answer?.ticks).toBe(3);
  });

  test('a proof of one walk holds for the same size of another, in as many ticks or fewer', () => {
    const merged = mergeWalks([
      outcome([point(2, 10), point(3, 7)]),
      outcome([point(3, 8), point(4, 7, true)]),
    ]);
    expect(curve(merged)).toEqual(['2:10', '3:7*']);
  });

  test('the first that is proved throughout is taken as it is', () => {
    const complete = outcome([point(2, 3, true)], { stop: 'complete' });
    expect(isEnough(complete, 1)).toBe(true);
    expect(mergeWalks([outcome([point(2, 4)]), complete])).toBe(complete);
    expect(mergeWalks([some])).toBe(some);
  });

  test('cut short as soon as one is; bounds from the one that knows more', () => {
    const begun = outcome([], { stop: 'cut short', fastest: { ...some.fastest, ticks: 0, exact: false } });
    const merged = mergeWalks([begun, outcome([point(2, 3)], { leastSize: 3, fastestSize: 3 })]);
    expect(merged).toMatchObject({ stop: 'cut short', leastSize: 3, fastestSize: 3, fastest: { ticks: 2 } });
    expect(mergeWalks([begun]).answer).toBeNull();
  });
});

describe('who runs them', () => {
  const job: Job = {
    name: 'adder',
    text: `input a[2:0], b[2:0], c[0]
for i in 0..2 { sum[i] = a[i] ^ b[i] ^ c[i]; c[i+1] = maj(a[i], b[i], c[i]) }
output sum[2:0], c[3]`,
    rails: {},
    options: {
      target: targetOf('joined-or'),
      ticks: null,
      frontier: true,
      effort: 'quick',
      seed: 3,
      explain: false,
      version: '',
    },
  };

  test('in any order, the result is that of one after the other', () => {
    const seeds = seedsOf(job.options);
    expect(seeds.length).toBe(2);
    const walks = new Walks(job, seeds.length);
    expect(walks.outcome).toBeUndefined();
    const told: Outcome[] = [];
    for (const at of [1, 0]) {
      walks.ended(
        at,
        walkJob(job, seeds[at]!, (news) => told.push(walks.found(at, news))),
      );
      if (at === 1) expect(walks.outcome).toBeUndefined();
    }
    expect(told.every(({ stop }) => stop === 'cut short')).toBe(true);
    const { name, text, rails, options } = job;
    const apart = optimize(name, text, rails, { ...options, found: walks.outcome! });
    expect(apart).toEqual(runJob(job));
    expect(apart.result.points.length).toBeGreaterThan(1);
  });

  test('no walk is begun that the ends of others spare', () => {
    const walks = new Walks(job, 6);
    const needed = (): number[] => [0, 1, 2, 3, 4, 5, 6].filter((at) => walks.isNeeded(at));
    expect(needed()).toEqual([0, 1, 2, 3, 4, 5]);
    walks.ended(1, outcome([point(2, 4)], { walks: 4 }));
    expect(needed()).toEqual([0, 1, 2, 3]);
    walks.ended(2, outcome([point(2, 4, true)], { walks: 4, stop: 'complete' }));
    expect(needed()).toEqual([0, 1, 2]);
    for (const at of [0, 1]) walks.ended(at, outcome([point(2, 4)], { walks: 2 }));
    expect(walks.outcome).toMatchObject({ stop: 'limit', walks: 2 });
  });

  test('a text with faults has no walk', () => {
    const broken = { ...job, text: 'x = (' };
    const walks = new Walks(broken, 2);
    walks.ended(
      0,
      walkJob(broken, 1, () => {}),
    );
    expect(walks.outcome).toBeNull();
  });
});
