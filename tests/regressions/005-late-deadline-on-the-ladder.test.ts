// An output that may be as late as it likes kept the ladder from ever reaching the bottom: each rung was as late as that
// output, so "one tick less" was the same rung again.

import { expect } from 'vitest';
import { asWrittenDraft } from '../../src/search/as-written.ts';
import { Ladder } from '../../src/search/ladder.ts';
import { Random } from '../../src/search/random.ts';
import { systemOf, targetOf, taskOf } from '../support/system-of.ts';
import { regression } from './known-failures.ts';

regression(5, 'going down the ladder ends, however late a deadline is', () => {
  const system = systemOf('half = a ^ b\nsum = half ^ c\ncarry = a b + half c\noutput sum by 30, carry');
  const task = taskOf(system, targetOf('joined-or'));
  const boundsAt = (ticks: number) => task.outputs.map(({ by }) => by ?? ticks);
  const ladder = new Ladder({
    ...{ sample: null, control: null, shapes: [], covers: [], free: null },
    ...{ task, boundsAt, check: () => null, random: new Random(1), work: 2000 },
  });
  expect(ladder.start([asWrittenDraft(system, task)])).not.toBeNull();
  let steps = 0;
  while (steps < 40 && ladder.descend(2) !== null) steps++;
  expect(steps).toBeLessThan(40);
});
