// The ladder: every rung is a right network, faster than the one above, within the deadlines; on a sample as well, since
// what the sample does not show is asked for and learnt.

import { describe, expect, test } from 'vitest';
import type { System } from '../../src/equations/system.ts';
import { outputTicks } from '../../src/network/levels.ts';
import { asWrittenDraft, asWrittenNetwork } from '../../src/search/as-written.ts';
import { draftNetwork, firstWrongRow, networkDraft } from '../../src/search/draft.ts';
import { fastest } from '../../src/search/fastest.ts';
import { Ladder, type Rung } from '../../src/search/ladder.ts';
import { Random } from '../../src/search/random.ts';
import { type Pattern, Sample } from '../../src/search/sample.ts';
import type { Task } from '../../src/search/task.ts';
import type { Target } from '../../src/target/target.ts';
import { canHappen, signalValue } from '../support/naive-evaluator.ts';
import { brokenLaws } from '../support/network-laws.ts';
import { randomSystem } from '../support/random-system.ts';
import { systemOf, targetOf, taskOf } from '../support/system-of.ts';

const WORK = 200_000;
const LITTLE_WORK = 20_000;
/** A ladder of these systems has far fewer rungs; one that goes on has lost its way. */
const MOST_RUNGS = 30;

interface Climb {
  readonly task: Task;
  readonly rungs: readonly Rung[];
  readonly ladder: Ladder;
  readonly wrong: number;
}

/** From the system as written to the fastest tick, or to tick `to`; `rowBits` is the size of the sample, null for all patterns. */
function climb(system: System, target: Target, rowBits: number | null, seed = 1, work = WORK, to = 0): Climb {
  const task = taskOf(system, target);
  const random = new Random(seed);
  const sample = rowBits === null ? null : new Sample(system, target, rowBits, random);
  let wrong = 0;
  const check = (draft: Rung['draft']): Pattern | null => {
    const row = firstWrongRow(task, draft);
    if (row < 0) return null;
    wrong++;
    return Uint8Array.from({ length: task.rowBits }, (_, i) => (row >> i) & 1);
  };
  const boundsAt = (ticks: number): number[] => task.outputs.map(({ by }) => by ?? ticks);
  const ladder = new Ladder({
    ...{ control: null, shapes: [], covers: [], free: null },
    task,
    sample,
    boundsAt,
    check,
    random,
    work,
  });
  const written = draftNetwork(task, asWrittenDraft(system, task));
  const rungs: Rung[] = [];
  const least = Math.max(to, fastest(task).withDeadlines ?? 0);
  for (
    let rung = ladder.start([networkDraft(task, written)]);
    rung !== null && rungs.length <= MOST_RUNGS;
    rung = ladder.descend(least)
  ) {
    rungs.push(rung);
  }
  return { task, rungs, ladder, wrong };
}

/** A sum of two numbers and a carry that comes in: written so that the carry passes every bit. */
function adder(bits: number): System {
  const each = (line: (bit: number) => string): string =>
    Array.from({ length: bits }, (_, i) => line(i)).join('\n');
  return systemOf(
    `input ${Array.from({ length: bits }, (_, i) => `a${i}, b${i}`).join(', ')}, c0
     output ${Array.from({ length: bits }, (_, i) => `s${i}`).join(', ')}, c${bits}
     ${each((i) => `s${i} = a${i} ^ b${i} ^ c${i}\nc${i + 1} = maj(a${i}, b${i}, c${i})`)}`,
  );
}

function checkRungs(system: System, target: Target, { task, rungs }: Climb, name: string): void {
  rungs.forEach(({ draft, size, ticks }, i) => {
    const network = draftNetwork(task, draft);
    expect(brokenLaws(system, network, target, { ticks }), name).toEqual([]);
    expect(network.size, name).toBe(size);
    expect(Math.max(...outputTicks(network, task.rules)), name).toBe(ticks);
    if (i > 0) expect(ticks, name).toBeLessThan(rungs[i - 1].ticks);
  });
}

describe('on all patterns', () => {
  test('rungs of random systems are right, each faster than the last', () => {
    let rungs = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const target = targetOf(seed % 3 === 0 ? 'joined-and' : 'joined-or');
      const system = randomSystem(seed, { mostInputs: 5, mostOutputs: 3, depth: 3, latestTick: 2 });
      const plain = { ...system, outputs: system.outputs.map((output) => ({ ...output, by: null })) };
      const found = climb(plain, target, null, seed, LITTLE_WORK);
      checkRungs(plain, target, found, `seed ${seed}`);
      rungs += found.rungs.length;
    }
    expect(rungs).toBeGreaterThan(60);
  });

  test('the first rung is no larger than what was written, and improving never enlarges', () => {
    const system = adder(3);
    const target = targetOf('joined-or');
    const { task, rungs, ladder } = climb(system, target, null);
    const written = asWrittenNetwork(task, asWrittenDraft(system, task));
    expect(rungs[0].size).toBeLessThanOrEqual(written.size);
    for (const rung of rungs) {
      const better = ladder.improve(rung, rung.ticks, WORK);
      expect(better.size).toBeLessThanOrEqual(rung.size);
      expect(brokenLaws(system, draftNetwork(task, better.draft), target, { ticks: rung.ticks })).toEqual([]);
    }
  });

  test('new starts from several networks are right and in time, the best of them last', () => {
    const system = adder(3);
    const target = targetOf('joined-or');
    const { task, rungs, ladder } = climb(system, target, null);
    for (let ticks = rungs[0].ticks - 1; ticks >= rungs[rungs.length - 1].ticks; ticks--) {
      const slower = rungs.filter((rung) => rung.ticks > ticks).map(({ draft }) => draft);
      const hurried = ladder.hurryAnew(slower, ticks, 100);
      const covered = ladder.coverAnew(slower, ticks, 100);
      expect(hurried.length).toBeGreaterThan(1);
      for (const found of [hurried, covered]) {
        for (const { draft, size } of found) {
          const network = draftNetwork(task, draft);
          expect(brokenLaws(system, network, target, { ticks })).toEqual([]);
          expect(network.size).toBe(size);
          expect(found[found.length - 1].size).toBeLessThanOrEqual(size);
        }
      }
    }
    expect(ladder.hurryAnew([rungs[0].draft], rungs[0].ticks - 1, 3)).toEqual([]);
    expect(ladder.hurryAnew([], 3, 100)).toEqual([]);
  });

  // Known to fail: while the output with the deadline is the latest, no rung asks more of the others than the one above.
  test('an output with a late deadline does not keep the others from getting faster', () => {
    const system = adder(3);
    const target = targetOf('joined-or');
    const outputs = system.outputs.map((output, y) => ({ ...output, by: y === 3 ? 4 : null }));
    const early = { ...system, outputs };
    const { task, rungs } = climb(early, target, null, 1, LITTLE_WORK);
    expect(rungs.length).toBeLessThanOrEqual(MOST_RUNGS);
    const latest = rungs.map(({ draft }) => {
      const network = draftNetwork(task, draft);
      expect(brokenLaws(early, network, target)).toEqual([]);
      return Math.max(...outputTicks(network, task.rules).slice(0, 3));
    });
    expect(latest).toEqual([...new Set(latest)].sort((a, b) => b - a));
    expect(latest[latest.length - 1]).toBeLessThanOrEqual(3);
  });

  // Known to fail: the speed-up rule knows no limit on legs.
  test.each([
    ['joined-or-4', null],
    ['nor-gates', null],
    ['nor-gates', 2],
  ])('rungs obey the limits on legs: %s, at most %s', (name, legs) => {
    const system = adder(3);
    const target = targetOf(name, legs);
    checkRungs(system, target, climb(system, target, null, 1, LITTLE_WORK, 4), name);
  });

  test('an adder goes down to few ticks by itself, at more parts', () => {
    const { rungs } = climb(adder(4), targetOf('joined-or'), null);
    expect(rungs[0].ticks).toBeGreaterThan(6);
    expect(rungs[rungs.length - 1].ticks).toBeLessThanOrEqual(4);
    expect(rungs[rungs.length - 1].size).toBeGreaterThan(rungs[0].size);
  });

  test('the same seed gives the same rungs', () => {
    const once = climb(adder(3), targetOf('joined-or'), null, 7);
    expect(climb(adder(3), targetOf('joined-or'), null, 7).rungs).toEqual(once.rungs);
  });
});

describe('on a sample', () => {
  test('too few patterns: wrong networks are noticed, learnt from, and none is kept', () => {
    const system = adder(4);
    const target = targetOf('joined-or');
    const found = climb(system, target, 5);
    expect(found.wrong).toBeGreaterThan(0);
    expect(found.rungs.length).toBeGreaterThan(3);
    checkRungs(system, target, found, 'sample of 32');
  });

  test('the rows of a sample are patterns of the system with their values', () => {
    const system = systemOf(
      'input a, b, c low, d, e, f, g\noutput x, y low\nx = a b + c d e\ny = f ^ g ^ x\nnever a f g',
    );
    const task = new Sample(system, targetOf('joined-or'), 6, new Random(3)).task();
    expect(task.exhaustive).toBe(false);
    const bit = (table: Uint32Array, row: number): boolean => ((table[row >> 5] >>> (row & 31)) & 1) === 1;
    const seen = new Set<string>();
    for (let row = 0; row < 2 ** task.rowBits; row++) {
      const pattern = system.inputs.map(({ rail }, i) => {
        const wire = task.wires.find(({ input }) => input === i);
        if (wire === undefined) throw new Error(`input ${i} has no wire`);
        return bit(wire.table, row) === (rail === 'high');
      });
      seen.add(pattern.map(Number).join(''));
      const care = canHappen(system, pattern);
      expect(bit(task.care, row)).toBe(care);
      task.outputs.forEach(({ signal, rail, on, off }) => {
        const level = signalValue(system, signal, pattern) === (rail === 'high');
        expect([bit(on, row), bit(off, row)]).toEqual([care && level, care && !level]);
      });
    }
    expect(seen.size).toBeGreaterThan(32);
  });

  test('a counterexample and some of its neighbours join it', () => {
    const system = adder(4);
    const sample = new Sample(system, targetOf('joined-or'), 5, new Random(3));
    const rows = ({ rowBits, wires }: Task): Set<string> => {
      const found = new Set<string>();
      for (let row = 0; row < 2 ** rowBits; row++) {
        found.add(wires.map(({ table }) => (table[row >> 5] >>> (row & 31)) & 1).join(''));
      }
      return found;
    };
    const before = rows(sample.task());
    const pattern = Uint8Array.from([1, 0, 1, 1, 0, 1, 1, 0, 1]);
    sample.addCounterexample(pattern);
    const after = rows(sample.task());
    expect([...before].every((row) => after.has(row))).toBe(true);
    expect(after.has(pattern.join(''))).toBe(true);
    expect(after.size).toBeGreaterThan(before.size + 1);
  });
});
