// The way of writing must not matter: one function, three texts, answers of the same ticks, and of the same parts within a
// few percent. They need not be the same, since what a reader wrote is one of the starts and chance falls otherwise then.

import { expect, test } from 'vitest';
import { shippedTarget } from '../../src/target/shipped-targets.ts';
import { optimize } from '../../src/tickwright.ts';
import { catalogueBytes } from '../support/shipped-catalogue.ts';
import { WAYS_OF_WRITING } from '../support/ways-of-writing.ts';

test('a four-bit adder as ripple, as look-ahead and as a table of 512 rows', { timeout: 300_000 }, () => {
  const target = shippedTarget('joined-or');
  if (target === null) throw new Error('the default target is gone');
  const options = {
    target,
    ticks: null,
    effort: 'normal',
    seed: 1,
    explain: false,
    version: 'test',
    catalogue: catalogueBytes(),
  } as const;
  const found = WAYS_OF_WRITING.map(([, text]) => {
    const [point] = optimize('adder', text, {}, options).result.points;
    expect(point.proof).toMatchObject({ verdict: 'equal', patterns: 512 });
    return { ticks: point.ticks, parts: point.parts };
  });
  process.stderr.write(`the same adder in three ways: ${JSON.stringify(found)}\n`);
  expect(found.map(({ ticks }) => ticks)).toEqual(found.map(() => found[0].ticks));
  const parts = found.map((point) => point.parts);
  expect(Math.max(...parts) / Math.min(...parts)).toBeLessThanOrEqual(1.05);
});
