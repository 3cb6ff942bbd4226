// No text, however hostile, breaks a reader. Here with few texts and a seed; long-run.ts does the same with many and
// writes what it finds to tests/regressions/texts/, where it is read again by every run of the tests.

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { judge, READERS } from './readers.ts';
import { hostileTexts } from './texts.ts';

const CASES = 2000;
const SEED = 20_411;
const FOUND = new URL('../regressions/texts/', import.meta.url);

test.each(READERS)(`${CASES} hostile texts for the reader of $name`, (reader) => {
  let read = 0;
  fc.assert(
    fc.property(hostileTexts(reader), (text) => {
      read++;
      judge(reader, text);
    }),
    { numRuns: CASES, seed: SEED },
  );
  expect(read).toBeGreaterThanOrEqual(CASES);
});

const found = existsSync(FOUND) ? readdirSync(FOUND).filter((name) => /^\d{3}-.*\.txt$/.test(name)) : [];

describe.runIf(found.length > 0)('what was found once', () => {
  test.each(found)('%s', (name) => {
    const reader = READERS.find((other) => name.slice(4, -4) === other.name);
    if (reader === undefined) throw new Error(`${name} names no reader`);
    judge(reader, readFileSync(new URL(name, FOUND), 'utf8'));
  });
});
