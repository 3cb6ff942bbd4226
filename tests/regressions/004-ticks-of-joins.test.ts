// With joins that take a tick the exact search found networks that are later than it thought: the answer was then none
// at all, or one that was wrongly said to be the smallest, and settling the last choices never ended.

import { expect } from 'vitest';
import type { Target } from '../../src/target/target.ts';
import { brokenLaws } from '../support/network-laws.ts';
import { search, targetOf } from '../support/system-of.ts';
import { regression } from './known-failures.ts';

regression(4, 'XOR within four ticks where every join takes one', () => {
  const joinedOr = targetOf('joined-or');
  const target: Target = { ...joinedOr, name: 'a tick a join', join: { ...joinedOr.join, ticks: 1 } };
  // a' and b' at tick 1, NOR(a', b) and NOR(a, b') at tick 3, their join at tick 4.
  const { system, outcome } = search('x = a ^ b', { target, ticks: 4 });
  const network = outcome.answer?.network;
  expect(network?.size).toBe(4);
  if (network !== undefined) expect(brokenLaws(system, network, target, { ticks: 4 })).toEqual([]);
});
