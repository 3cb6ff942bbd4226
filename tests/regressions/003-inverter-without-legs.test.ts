// Shrinking found that an inverter needed no legs, since it had to be 1 wherever it mattered, and let it go although
// it still had a user: the user's leg was then no wire at all, or another inverter that had taken the place.

import { expect } from 'vitest';
import type { Draft } from '../../src/search/draft.ts';
import { growAndShrink } from '../../src/search/grow-and-shrink.ts';
import { Random } from '../../src/search/random.ts';
import { draftFaults } from '../support/random-task.ts';
import { systemOf, targetOf, taskOf } from '../support/system-of.ts';
import { regression } from './known-failures.ts';

regression(3, 'an inverter that may always be 1 keeps its users right', () => {
  const task = taskOf(systemOf("x = a''\nnever a'"), targetOf('joined-or'));
  const draft: Draft = { chosen: [true], low: [false], inverters: [[2], [3]], outputs: [[4]] };
  for (let seed = 1; seed <= 8; seed++) {
    const improved = growAndShrink(task, draft, [2], new Random(seed), 2000);
    expect(draftFaults(task, improved.draft, [2])).toEqual([]);
    expect(improved.size).toBe(0);
  }
});
