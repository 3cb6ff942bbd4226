// With `never` an output became constant on all that can happen while its only wire came late. The exact search knew no
// constants, refuted every size without a conflict, and so never reached its limit.

import { expect, test } from 'vitest';
import { search, targetOf } from '../support/system-of.ts';

test('an output that never changes needs no wire, under a limit on legs too', () => {
  const text = 'input gate either @ 2\noutput full either\nfull = gate\nnever gate';
  for (const name of ['joined-or', 'joined-or-4', 'nor-gates']) {
    const { answer } = search(text, { target: targetOf(name) }).outcome;
    expect([answer?.ticks, answer?.network.size]).toEqual([0, 0]);
  }
});
