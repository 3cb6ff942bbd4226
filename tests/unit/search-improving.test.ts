// What changes a draft must keep its functions and its tick bounds, and must never make it larger: pruning, growing and
// shrinking, the speed-up rule, flattening and covering anew, on random tasks, judged by a plain evaluator.

import { describe, expect, test } from 'vitest';
import { asWrittenDraft } from '../../src/search/as-written.ts';
import { coverAnew, View } from '../../src/search/cover-anew.ts';
import { type Draft, draftTables, firstWrongRow } from '../../src/search/draft.ts';
import { flattenDraft, flattenOverBothRails } from '../../src/search/flatten.ts';
import { growAndShrink } from '../../src/search/grow-and-shrink.ts';
import { joinedDraft, singleDraft } from '../../src/search/joined-outputs.ts';
import { Allowance } from '../../src/search/limits.ts';
import { pruneDraft } from '../../src/search/prune.ts';
import { Random } from '../../src/search/random.ts';
import { Recovery } from '../../src/search/recover.ts';
import { speedUp } from '../../src/search/speed-up.ts';
import type { Task } from '../../src/search/task.ts';
import { Workbench } from '../../src/search/workbench.ts';
import { FAMILIES, rippleAdderText } from '../support/families.ts';
import {
  draftFaults,
  draftSize,
  draftTicks,
  type RandomTask,
  randomTask,
  type TaskShape,
} from '../support/random-task.ts';
import { seededRandom } from '../support/seeded-random.ts';
import { systemOf, targetOf, taskOf } from '../support/system-of.ts';

const SHAPES: readonly TaskShape[] = [
  { inputs: 2, inverters: 5, outputs: 1, care: 1 },
  { inputs: 3, inverters: 10, outputs: 2, care: 0.7 },
  { inputs: 4, inverters: 14, outputs: 3, care: 1 },
  { inputs: 6, inverters: 20, outputs: 3, care: 0.8 },
];

/** Random tasks of every shape; the seed is in the name of the case. */
function* cases(rounds: number): Generator<RandomTask & { readonly name: string; readonly seed: number }> {
  for (let seed = 1; seed <= rounds; seed++) {
    const shape = SHAPES[seed % SHAPES.length];
    yield { ...randomTask(seededRandom(seed), shape), name: `seed ${seed}`, seed };
  }
}

function legCount(draft: Draft): number {
  return [...draft.inverters, ...draft.outputs].reduce((total, legs) => total + legs.length, 0);
}

function withLegLimit(task: Task, limit: number): Task {
  return { ...task, rules: { ...task.rules, inverterLegs: limit, outputLegs: limit } };
}

function mostLegs(draft: Draft): number {
  return Math.max(...[...draft.inverters, ...draft.outputs].map((legs) => legs.length));
}

describe('the random tasks themselves', () => {
  test('are sound', () => {
    for (const { name, task, draft } of cases(40)) {
      expect(draftFaults(task, draft, draftTicks(task, draft)), name).toEqual([]);
    }
  });
});

describe('pruning', () => {
  test('keeps functions and ticks, adds nothing, and has nothing to do the second time', () => {
    let saved = 0;
    for (const { name, task, draft } of cases(160)) {
      const pruned = pruneDraft(task, draft, new Allowance(1e8));
      expect(draftFaults(task, pruned, draftTicks(task, draft)), name).toEqual([]);
      expect(draftSize(task, pruned), name).toBeLessThanOrEqual(draftSize(task, draft));
      expect(legCount(pruned), name).toBeLessThanOrEqual(legCount(draft));
      saved += draftSize(task, draft) - draftSize(task, pruned);
      const again = pruneDraft(task, pruned, new Allowance(1e8));
      expect(draftSize(task, again), name).toBe(draftSize(task, pruned));
    }
    expect(saved).toBeGreaterThan(0);
  });

  test('with little allowance it stops early and is still right', () => {
    for (const { name, task, draft } of cases(60)) {
      for (const words of [0, 20, 200]) {
        const pruned = pruneDraft(task, draft, new Allowance(words));
        expect(draftFaults(task, pruned, draftTicks(task, draft)), `${name}, ${words} words`).toEqual([]);
      }
    }
  });
});

describe('growing and shrinking', () => {
  test('keeps functions and bounds, and never enlarges', () => {
    let saved = 0;
    for (const { name, task, draft, seed } of cases(120)) {
      const bounds = draftTicks(task, draft).map((tick, y) => tick + ((seed + y) % 3));
      const { draft: improved, size } = growAndShrink(task, draft, bounds, new Random(seed), 60_000);
      expect(draftFaults(task, improved, bounds), name).toEqual([]);
      expect(size, name).toBe(improved.inverters.length);
      expect(size, name).toBeLessThanOrEqual(draftSize(task, draft));
      saved += draftSize(task, draft) - size;
    }
    expect(saved).toBeGreaterThan(0);
  });

  test('respects a limit on legs', () => {
    for (const { name, task, draft, seed } of cases(60)) {
      const limited = withLegLimit(task, mostLegs(draft));
      const bounds = draftTicks(task, draft);
      const { draft: improved } = growAndShrink(limited, draft, bounds, new Random(seed), 30_000);
      expect(draftFaults(limited, improved, bounds), name).toEqual([]);
      expect(mostLegs(improved), name).toBeLessThanOrEqual(mostLegs(draft));
    }
  });

  test('gives the same network for the same seed', () => {
    for (const { name, task, draft } of cases(20)) {
      const run = () => growAndShrink(task, draft, draftTicks(task, draft), new Random(5), 30_000);
      expect(run(), name).toEqual(run());
    }
  });
});

describe('re-covering', () => {
  test('other legs for a user leave every output right and in time', () => {
    let changed = 0;
    for (const { name, task, draft, seed } of cases(120)) {
      const bounds = draftTicks(task, draft);
      const bench = new Workbench(task, draft, bounds);
      const random = new Random(seed);
      const recovery = new Recovery(bench, random);
      for (let round = 0; round < 12; round++) {
        const users = [
          ...bench.outputs.map((_, y) => -1 - y),
          ...bench.legs.map((_, i) => i).filter((i) => bench.legs[i].length > 0),
        ];
        const user = users[random.below(users.length)];
        const old = recovery.legsOf(user);
        recovery.aim(user);
        const legs = recovery.cover(user, random.oneIn(2) ? old[random.below(old.length)] : -1);
        if (legs === null || legs.length === 0) continue;
        if (user >= 0) bench.setLegs(user, legs);
        else bench.setOutput(-1 - user, legs);
        bench.relax();
        changed++;
        expect(draftFaults(task, bench.toDraft(), bounds), `${name}, round ${round}`).toEqual([]);
      }
    }
    expect(changed).toBeGreaterThan(100);
  });
});

describe('the speed-up rule', () => {
  test('reaches the bounds with the same functions, or says that it did not', () => {
    let reached = 0;
    for (const { name, task, draft, seed } of cases(160)) {
      const ticks = draftTicks(task, draft);
      const bounds = ticks.map((tick) => Math.max(0, tick - 2));
      for (const order of ['from-inputs', 'from-outputs', 'any'] as const) {
        const faster = speedUp(task, draft, bounds, order, new Random(seed), 200);
        if (faster === null) continue;
        if (ticks.some((tick, y) => tick > bounds[y])) reached++;
        expect(draftFaults(task, faster, bounds), `${name}, ${order}`).toEqual([]);
      }
    }
    expect(reached).toBeGreaterThan(50);
  });

  test('changes nothing that is in time', () => {
    for (const { name, task, draft } of cases(40)) {
      const same = speedUp(task, draft, draftTicks(task, draft), 'from-inputs', new Random(1), 200);
      expect(same, name).not.toBeNull();
      expect(same?.inverters.length, name).toBe(draftSize(task, draft));
    }
  });
});

describe('flattening', () => {
  test('covers every output in two levels of inverters, within the bounds', () => {
    for (const { name, task, draft } of cases(160)) {
      const last = Math.max(...task.wires.map((wire) => wire.tick)) + 2;
      const bounds = draft.outputs.map(() => last);
      const flat = flattenDraft(task, draft.chosen, draft.low, bounds, new Allowance(1e8), 1000);
      expect(flat, name).not.toBeNull();
      if (flat === null) continue;
      expect(draftFaults(task, flat, bounds), name).toEqual([]);
    }
  });

  test('says so where the bounds are too tight, and is right where they are not', () => {
    let refused = 0;
    for (const { name, task, draft } of cases(160)) {
      for (const bound of [0, 1, 2, 3]) {
        const bounds = draft.outputs.map(() => bound);
        const flat = flattenDraft(task, draft.chosen, draft.low, bounds, new Allowance(1e8), 1000);
        if (flat === null) refused++;
        else expect(draftFaults(task, flat, bounds), `${name}, by ${bound}`).toEqual([]);
      }
    }
    expect(refused).toBeGreaterThan(0);
  });
});

describe('flattening over both rails', () => {
  test('covers every output within the bounds, a tick later than over one', () => {
    for (const { name, task, draft } of cases(160)) {
      const last = Math.max(...task.wires.map((wire) => wire.tick)) + 3;
      const bounds = draft.outputs.map(() => last);
      const flat = flattenOverBothRails(task, draft.chosen, draft.low, bounds, new Allowance(1e8), 1000);
      expect(flat, name).not.toBeNull();
      if (flat === null) continue;
      expect(draftFaults(task, flat, bounds), name).toEqual([]);
    }
  });

  // Every verdict has 63 prime implicants, of which six sums and products of both rails are left.
  test('finds the products of a comparator of six bits', () => {
    const [, text] = FAMILIES.find(([name]) => name === 'comparator of 6') ?? [];
    const task = taskOf(systemOf(text ?? ''), targetOf('joined-or'));
    const chosen = task.wires.map(() => true);
    const low = task.outputs.map(() => false);
    const size = (make: typeof flattenDraft): number => {
      const draft = make(
        task,
        chosen,
        low,
        task.outputs.map(() => 3),
        new Allowance(1e9),
      );
      if (draft === null) throw new Error('no cover');
      return draftSize(task, draft);
    };
    expect(size(flattenDraft)).toBeGreaterThan(100);
    expect(size(flattenOverBothRails)).toBeLessThanOrEqual(40);
  });
});

describe('covering anew', () => {
  const allowed = (words = 1e9): Allowance => new Allowance(words);

  test('makes the outputs of random networks within the bounds, by as little as one tick sooner', () => {
    let sooner = 0;
    for (const { name, task, draft, seed } of cases(160)) {
      for (const less of [0, 1, 2]) {
        const by = draftTicks(task, draft).map((tick) => Math.max(0, tick - less));
        for (const keepsLast of [false, true]) {
          const random = new Random(seed);
          const anew = {
            task,
            view: null,
            known: draft,
            levels: draftTables(task, draft.inverters),
            by,
            keepsLast,
            most: 1000,
            random,
            words: allowed(),
          };
          const cover = coverAnew(anew);
          if (cover === null) continue;
          expect(draftFaults(task, cover, by), `${name}, ${less} less, ${keepsLast}`).toEqual([]);
          if (less > 0) sooner++;
        }
      }
    }
    expect(sooner).toBeGreaterThan(60);
  });

  // The chain of carries has every carry but the last in time for two levels.
  const rippleOf = (bits: number) => {
    const system = systemOf(rippleAdderText(bits));
    const task = taskOf(system, targetOf('joined-or'));
    const known = asWrittenDraft(system, task);
    const by = task.outputs.map(() => Math.max(...draftTicks(task, known)) - 1);
    return { task, known, levels: draftTables(task, known.inverters), by };
  };

  test('uses what is in time', () => {
    const { task, known, levels, by } = rippleOf(3);
    const plain = flattenDraft(task, known.chosen, known.low, by, allowed());
    const random = new Random(1);
    const over = coverAnew({
      ...{ task, view: null, known, levels, by, keepsLast: false, most: 1000 },
      ...{ random, words: allowed() },
    });
    if (plain === null || over === null) throw new Error('no cover');
    expect(draftSize(task, over)).toBeLessThan(draftSize(task, plain));
  });

  test('is right on long tables of which it looks at some rows', () => {
    const { task, known, levels, by } = rippleOf(6);
    const draw = seededRandom(6);
    const rows = Array.from({ length: 300 }, () => Math.floor(draw() * 2 ** task.rowBits));
    // Hardly any rows are kept in the second view: nearly all must be learnt.
    for (const view of [new View(rows, task.rowBits), new View(rows.slice(0, 32), task.rowBits)]) {
      for (const [seed, less] of [
        [1, 0],
        [2, 1],
        [3, 3],
      ]) {
        const bounds = by.map((tick) => tick - less);
        const cover = coverAnew({
          ...{ task, view, known, levels, by: bounds, keepsLast: seed === 2, most: 1000 },
          ...{ random: new Random(seed), words: allowed() },
        });
        if (cover === null) throw new Error(`no cover for ${less} ticks less`);
        expect(firstWrongRow(task, cover)).toBe(-1);
        expect(draftTicks(task, cover).every((tick, y) => tick <= bounds[y])).toBe(true);
      }
    }
  });

  test('gives up when words run out and when it takes too many inverters', () => {
    const { task, known, levels, by } = rippleOf(4);
    const anew = { task, view: null, known, levels, by: by.map(() => 3), keepsLast: false };
    const full = coverAnew({ ...anew, most: 1000, random: new Random(1), words: allowed() });
    if (full === null) throw new Error('no cover');
    const size = draftSize(task, full);
    expect(coverAnew({ ...anew, most: size - 1, random: new Random(1), words: allowed() })).toBeNull();
    expect(coverAnew({ ...anew, most: size, random: new Random(1), words: allowed() })).toEqual(full);
    expect(coverAnew({ ...anew, most: 1000, random: new Random(1), words: allowed(1e4) })).toBeNull();
  });

  test('does not answer where joins take time', () => {
    const { task, known, levels, by } = rippleOf(2);
    const slow: Task = { ...task, rules: { ...task.rules, joinTicks: 1 } };
    const anew = { task: slow, view: null, known, levels, by, keepsLast: false, most: 1000 };
    expect(coverAnew({ ...anew, random: new Random(1), words: allowed() })).toBeNull();
  });
});

describe('outputs of single wires by way of joins', () => {
  test('a draft and its way back compute the same, the joins the complements a tick earlier', () => {
    for (const { name, task, draft } of cases(120)) {
      const outputs = draft.outputs.map((_, y) => [2 + task.wires.length + draft.inverters.length + y]);
      const single: Draft = { ...draft, inverters: [...draft.inverters, ...draft.outputs], outputs };
      const ticks = draftTicks(task, single);
      const joined = joinedDraft(task, single);
      expect(joined.outputs, name).toEqual(draft.outputs);
      expect(joined.low, name).toEqual(draft.low.map((isLow) => !isLow));
      expect(draftTicks(task, joined), name).toEqual(ticks.map((tick) => tick - 1));
      const back = singleDraft(task, joined);
      expect(back.low, name).toEqual(draft.low);
      expect(draftTicks(task, back), name).toEqual(ticks);
      expect(draftSize(task, back), name).toBeLessThanOrEqual(draftSize(task, single));
      expect(draftTables(task, back.inverters)[back.outputs[0][0]], name).toEqual(
        draftTables(task, single.inverters)[single.outputs[0][0]],
      );
    }
  });
});
