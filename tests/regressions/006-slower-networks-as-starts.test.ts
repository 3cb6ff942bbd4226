// The last improvements of an answer in so many ticks are meant to begin from networks that take a tick or two more. Those
// were looked for within the ticks of the answer, so there were none: an 8-bit adder in five ticks stayed at 70 parts.

import { expect } from 'vitest';
import { rippleAdderText } from '../support/families.ts';
import { search, systemOf } from '../support/system-of.ts';
import { regression } from './known-failures.ts';

regression(6, 'what takes more ticks than were asked for is a start for what does not', () => {
  const { outcome } = search(systemOf(rippleAdderText(8)), { ticks: 5, effort: 'normal' });
  expect(outcome.answer?.ticks).toBe(5);
  expect(outcome.answer?.inverters).toBeLessThanOrEqual(66);
});
