// Where the exact search did not finish, the answer came from the ladder, and the speed-up rule there joined more wires
// than the target allows: 8 legs at the output of a parity of four under joined-or-4, joins at outputs under nor-gates.

import { expect, test } from 'vitest';
import { legFaults } from '../../src/network/check-network.ts';
import { search, targetOf } from '../support/system-of.ts';

const ADDER = [
  'input a0, b0, a1, b1, a2, b2, a3, b3, c0',
  'output s0, s1, s2, s3, c4',
  ...[0, 1, 2, 3].map((i) => `s${i} = a${i} ^ b${i} ^ c${i}\nc${i + 1} = maj(a${i}, b${i}, c${i})`),
].join('\n');

// Known to fail.
test.each([
  ['joined-or-4', null],
  ['nor-gates', null],
])('a 4-bit adder obeys the limits of %s, at most %s legs', (name, legs) => {
  const target = targetOf(name, legs);
  const { answer } = search(ADDER, { target, effort: 'quick', ticks: 4 }).outcome;
  // No network at all would be an honest answer.
  expect(answer === null ? [] : legFaults(answer.network, target)).toEqual([]);
});
