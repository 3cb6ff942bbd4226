// The frontier: known curves with proof, the laws every curve keeps, the budget, and what a watch sees.

import { describe, expect, test } from 'vitest';
import type { Network } from '../../src/network/network.ts';
import { prove } from '../../src/proof/prove.ts';
import { asWrittenDraft } from '../../src/search/as-written.ts';
import { type Budget, chosenWithin, mostWithin } from '../../src/search/budget.ts';
import { type Draft, draftNetwork } from '../../src/search/draft.ts';
import { type FrontierSearch, FrontierWalk } from '../../src/search/frontier.ts';
import type { Rung } from '../../src/search/ladder.ts';
import { type Outcome, runSearch, type SearchOptions } from '../../src/search/run-search.ts';
import { brokenLaws } from '../support/network-laws.ts';
import { systemOf, targetOf, taskOf } from '../support/system-of.ts';

const ADDER = 'sum = a ^ b ^ c\ncarry = maj(a, b, c)';
const FOUR_BITS = `input a[3:0], b[3:0], c[0]
for i in 0..3 {
  sum[i] = a[i] ^ b[i] ^ c[i]
  c[i+1] = maj(a[i], b[i], c[i])
}
output sum[3:0], c[4]`;

function run(text: string, wishes: Partial<SearchOptions> = {}, name = 'joined-or'): Outcome {
  const system = systemOf(text);
  const target = targetOf(name);
  const options = { ticks: null, effort: 'quick', seed: 1, ...wishes } as const;
  return runSearch(system, taskOf(system, target), target, options);
}

/** `2:10* 3:8*`, a star behind what is proved. */
function curve({ frontier }: Outcome): string {
  return (frontier ?? [])
    .map(({ ticks, inverters, sizeProved }) => `${ticks}:${inverters}${sizeProved ? '*' : ''}`)
    .join(' ');
}

describe('the full adder, all proved', () => {
  test.each([
    ['joined-or', 'high', 'high', '2:10* 3:8* 5:7*'],
    ['joined-or', 'high', 'low', '2:8* 3:7* 4:6*'],
    ['joined-or', 'low', 'high', '2:8* 3:7*'],
    ['joined-or', 'low', 'low', '2:7* 3:6*'],
    ['joined-or-single', 'high', 'high', '2:10* 3:9* 4:8*'],
    ['joined-or-single', 'high', 'low', '2:10* 3:8*'],
    ['joined-or-single', 'low', 'high', '2:8* 3:7*'],
    ['joined-or-single', 'low', 'low', '2:7*'],
  ])('%s, sum active-%s, carry active-%s: %s', (target, sum, carry, expected) => {
    const text = `input a, b, c\noutput sum ${sum}, carry ${carry}\n${ADDER}`;
    const outcome = run(text, { frontier: true, effort: 'normal' }, target);
    expect(curve(outcome)).toBe(expected);
    expect(outcome.stop).toBe('complete');
  });
});

test.each([
  ['x = a', '0:0*'],
  ['x = a b', '2:3*'],
  ['x = a ^ b ^ c', '2:7* 4:6*'],
  ["x = (a ^ b ^ c)'", '2:7* 3:6*'],
  ['c4 = g3 + p3 g2 + p3 p2 g1 + p3 p2 p1 g0 + p3 p2 p1 p0 c0', '2:6*'],
])('%s: %s', (text, expected) => {
  expect(curve(run(text, { frontier: true, effort: 'normal' }))).toBe(expected);
});

/** A network for searches of which only sizes and ticks count. */
function anyNetwork(): { draft: Draft; network: Network } {
  const system = systemOf('x = a b');
  const task = taskOf(system, targetOf('joined-or'));
  const draft = asWrittenDraft(system, task);
  return { draft, network: draftNetwork(task, draft) };
}

/** A search in which nothing changes, of networks of 2 to 4 ticks and these sizes. */
function stillSearch(
  sizes: readonly number[],
  other: Partial<FrontierSearch<number>>,
): FrontierSearch<number> {
  const { draft, network } = anyNetwork();
  const size = (ticks: number): number => sizes[Math.min(ticks, 4) - 2]!;
  const rung = (ticks: number): Rung => ({ draft, size: size(ticks), ticks: Math.min(ticks, 4) });
  return {
    ...{ least: 2, ladders: 1, covers: 0, isCancelled: () => false, flatten: () => {}, startAnew: () => {} },
    ...{ hurryCovers: () => false, top: () => rung(4), topAgain: () => rung(4), rise: () => {} },
    best: (ticks) => (ticks < 2 ? null : { network, size: size(ticks), ticks: Math.min(ticks, 4) }),
    refute: (_, from) => ({ done: false, size: from }),
    descend: ({ ticks }) => rung(ticks - 1),
    improve: (_, ticks) => rung(ticks),
    settled: (ticks) => ticks,
    ...other,
  };
}

test.each([1, 2, 5])('%s ladders are gone down, each to the fewest ticks', (ladders) => {
  const reached: number[] = [];
  let begun = 0;
  const still = stillSearch([20, 20, 20], {});
  const begin = (): Rung | null => {
    begun++;
    return still.top();
  };
  const search: FrontierSearch<number> = {
    ...{ ...still, ladders, top: begin, topAgain: begin },
    isCancelled: () => begun === ladders && reached.length === 2 * ladders,
    descend: (from, least) => {
      reached.push(from.ticks - 1);
      return still.descend(from, least);
    },
  };
  expect(new FrontierWalk(search).run()).toEqual([2]);
  expect(begun).toBe(ladders);
  expect(reached).toEqual(Array.from({ length: ladders }, () => [3, 2]).flat());
});

test.each([
  { covers: 3, near: true, times: 3 },
  { covers: 3, near: false, times: 1 },
  { covers: 0, near: true, times: 0 },
])('covers are hurried where a tick less is dear: $covers at most, $near', ({ covers, near, times }) => {
  const hurried: number[] = [];
  let isImproved = false;
  const still = stillSearch([30, 22, 20], {});
  const search: FrontierSearch<number> = {
    ...{ ...still, covers, isCancelled: () => isImproved },
    hurryCovers: (ticks) => hurried.push(ticks) > 0 && near,
    improve: (known, ticks) => {
      isImproved = true;
      return still.improve(known, ticks);
    },
  };
  new FrontierWalk(search).run();
  // Two ticks cost 30 against 22, three hardly more than four.
  expect(hurried).toEqual(Array.from({ length: times }, () => 2));
});

test.each([
  { sizes: [30, 22, 20], risen: ['2:30 to 3', '2:30 to 3'] },
  { sizes: [30, 25, 20], risen: ['2:30 to 3', '2:30 to 3', '3:25 to 4', '3:25 to 4'] },
  { sizes: [21, 20, 19], risen: [] },
])('at last the walk goes up where a tick less is dear: $sizes', ({ sizes, risen }) => {
  const calls: string[] = [];
  const rise: FrontierSearch<number>['rise'] = ({ ticks, size }, to) => {
    calls.push(`${ticks}:${size} to ${to}`);
  };
  new FrontierWalk(stillSearch(sizes, { rise })).run();
  expect(calls).toEqual(risen);
});

test('the walk does not go up to what is proved', () => {
  let calls = 0;
  const sizes = [30, 22, 20];
  const rise = (): void => {
    calls++;
  };
  // Nothing is known of two ticks; with three and more nothing is smaller than what was found.
  const refute: FrontierSearch<number>['refute'] = (ticks, from) => ({
    done: ticks > 2,
    size: ticks > 2 ? sizes[Math.min(ticks, 4) - 2]! : from,
  });
  new FrontierWalk(stillSearch(sizes, { rise, refute })).run();
  expect(calls).toBe(0);
});

describe('a curve that is not proved', () => {
  const system = systemOf(FOUR_BITS);
  const target = targetOf('joined-or');
  const outcomes: Outcome[] = [];
  const watched = run(FOUR_BITS, { frontier: true, watch: { found: (outcome) => outcomes.push(outcome) } });

  test('each point is right, keeps to its ticks, and saves something', () => {
    const points = watched.frontier ?? [];
    expect(points.length).toBeGreaterThan(3);
    points.forEach((point, at) => {
      expect(prove(system, point.network, 'or').verdict).toBe('equal');
      expect(brokenLaws(system, point.network, target)).toEqual([]);
      if (at === 0) return;
      expect(point.ticks).toBeGreaterThan(points[at - 1]!.ticks);
      expect(point.inverters).toBeLessThan(points[at - 1]!.inverters);
    });
    expect(watched.stop).toBe('limit');
  });

  test('the answer is the fastest point within the budget', () => {
    const points = watched.frontier ?? [];
    const smallest = points.at(-1)!.inverters;
    expect(watched.answer).toBe(points.find((point) => point.inverters <= 2 * smallest));
  });

  test('whoever watches sees right networks that only get better, and changes nothing', () => {
    expect(outcomes.length).toBeGreaterThan(5);
    expect(outcomes[0]).toMatchObject({ answer: null, stop: 'cut short' });
    let smallest = Number.POSITIVE_INFINITY;
    for (const { frontier } of outcomes.slice(1)) {
      const last = frontier?.at(-1)?.inverters ?? Number.POSITIVE_INFINITY;
      expect(last).toBeLessThanOrEqual(smallest);
      smallest = last;
    }
    for (const point of outcomes.at(-1)?.frontier ?? []) {
      expect(prove(system, point.network, 'or').verdict).toBe('equal');
    }
    const unwatched = run(FOUR_BITS, { frontier: true });
    expect(unwatched.frontier).toEqual(watched.frontier);
  });

  test('a search that is cancelled ends with what it has', () => {
    let questions = 0;
    const isCancelled = (): boolean => ++questions > 5;
    const outcome = run(FOUR_BITS, { frontier: true, watch: { isCancelled } });
    expect(outcome.stop).toBe('cut short');
    expect(prove(system, outcome.answer!.network, 'or').verdict).toBe('equal');
  });
});

describe('budget and parts', () => {
  test.each<[Budget, number]>([
    [{ factor: 2 }, 0],
    [{ factor: 1.2 }, 1],
    [{ factor: 1 }, 2],
    [{ inverters: 100 }, 0],
    [{ inverters: 9 }, 1],
    [{ inverters: 7 }, 2],
    [{ inverters: 3 }, 2],
  ])('%j chooses point %i of 10, 8 and 7 inverters', (budget, at) => {
    expect(chosenWithin(budget, [10, 8, 7])).toBe(at);
    expect(mostWithin(budget, 7)).toBeGreaterThanOrEqual(7);
    const { answer } = run(ADDER, { budget, effort: 'normal' });
    expect(`${answer?.ticks}:${answer?.inverters}`).toBe(['2:10', '3:8', '5:7'][at]);
  });

  test('no points, no choice', () => {
    expect(chosenWithin({ factor: 2 }, [])).toBe(-1);
  });

  test.each([
    [10, '2:10'],
    [9, '3:8'],
    [8, '3:8'],
    [7, '5:7'],
  ])('at most %i inverters: %s', (inverters, expected) => {
    const { answer } = run(ADDER, { inverters, effort: 'normal' });
    expect(`${answer?.ticks}:${answer?.inverters}`).toBe(expected);
  });

  test('fewer than there can be: proved', () => {
    const outcome = run(ADDER, { inverters: 6, effort: 'normal' });
    expect([outcome.answer, outcome.leastSize]).toEqual([null, 7]);
  });

  test('a large system with few inverters gets more ticks', () => {
    const { answer } = run(FOUR_BITS, { inverters: 30 });
    expect(answer?.inverters).toBeLessThanOrEqual(30);
    const roomy = run(FOUR_BITS, { inverters: 45 }).answer;
    expect(roomy!.ticks).toBeLessThan(answer!.ticks);
  });
});
