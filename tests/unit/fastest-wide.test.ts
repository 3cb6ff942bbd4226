// The fewest ticks by questions to the solver, as wide systems get them, against the same by tables, on systems that are
// narrow enough for both: random ones with late inputs, rails, patterns that cannot happen and patterns that are free.

import { describe, expect, test } from 'vitest';
import type { Freedom, System } from '../../src/equations/system.ts';
import { fastest } from '../../src/search/fastest.ts';
import { fastestWide } from '../../src/search/fastest-wide.ts';
import { optimize } from '../../src/tickwright.ts';
import { systemTables } from '../../src/truth/system-tables.ts';
import { isEmpty } from '../../src/truth/table.ts';
import { targetOf, taskOf } from '../support/system-of.ts';
import { randomSystem, seeded } from './proof-samples.ts';

function randomWithFree(seed: number): System {
  const next = seeded(31_000 + seed);
  const count = 1 + next(5);
  const system = randomSystem(next, count, 1 + next(3), { never: seed % 3 === 0, rails: true });
  const free = system.definitions.flatMap(({ signal }): Freedom[] => {
    const [{ expression }] = randomSystem(next, count, 1).definitions;
    return next(2) === 0 ? [{ signal, expression, at: null }] : [];
  });
  // A rail that is left to the search makes one of the two a bound only.
  const rail = (declared: string): 'high' | 'low' | 'both' =>
    declared === 'low' || declared === 'both' ? declared : 'high';
  return {
    ...system,
    inputs: system.inputs.map((input) => ({ ...input, rail: rail(input.rail), tick: next(4) })),
    free,
  };
}

describe.each(['joined-or', 'joined-and', 'nor-gates'])('%s', (name) => {
  test('the same by tables and by questions', () => {
    const target = targetOf(name);
    let freed = 0;
    for (let seed = 1; seed <= 120; seed++) {
      const system = randomWithFree(seed);
      if (isEmpty(systemTables(system).care)) continue;
      const task = taskOf(system, target);
      const byTables = fastest(task);
      const byQuestions = fastestWide(system, task, 100_000);
      expect([seed, byQuestions]).toEqual([seed, byTables]);
      const { free: _, ...fixed } = system;
      if (fastest(taskOf(fixed, target)).ticks > byTables.ticks) freed++;
    }
    expect(freed).toBeGreaterThan(5);
  });
});

test('a wide system whose free output is there at once is not said to need two ticks', () => {
  const inputs = Array.from({ length: 24 }, (_, i) => `x${i}`);
  const text = `input ${inputs.join(', ')}\noutput f, y\nf = x0 x1\nfree f: x0' x1\ny = ${inputs.join(' + ')}`;
  const options = { ticks: null, effort: 'quick', seed: 1, explain: false, version: '' } as const;
  const { result } = optimize('text', text, {}, { ...options, target: targetOf('joined-or') });
  expect(result.fastest).toEqual({ ticks: 0, proved: true, parts: 0 });
  expect(result.points[0]).toMatchObject({
    ticks: 0,
    parts: 0,
    proof: { verdict: 'equal', method: 'solver' },
  });
});
