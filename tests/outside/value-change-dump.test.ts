// Value change dumps, read by a parser from the package registry that knows nothing of ours: every signal of every example
// has the changes that our own reader, written from IEEE Std 1364, sees in the same file.

import { readdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { runCli } from '../support/run-cli.ts';
import { readVcd } from '../support/vcd-reader.ts';

interface Parsed {
  readonly scale: string;
  readonly endtime: string;
  readonly signal: readonly {
    readonly refName: string;
    readonly name: string;
    readonly size: number;
    readonly wave: readonly (readonly [time: string, value: string])[];
  }[];
}

const { parse } = createRequire(import.meta.url)('vcd-parser') as {
  readonly parse: (text: string) => Promise<Parsed>;
};
const EXAMPLES = fileURLToPath(new URL('../../examples/', import.meta.url));
const files = readdirSync(EXAMPLES)
  .filter((file) => file.endsWith('.logic') && !/adder-8/.test(file))
  .sort();

test.each(files)('%s under random changes', { timeout: 120_000 }, async (file) => {
  const { out } = await runCli([
    'trial',
    `${EXAMPLES}${file}`,
    ...['--effort', 'quick', '--inside', '--view', 'vcd'],
    ...['--stimulus', 'random every 6 times 20 seed 3'],
  ]);
  const own = readVcd(out);
  const { signal } = await parse(out);
  expect(signal.map(({ refName }) => refName)).toEqual(own.variables.map(({ code }) => code));
  let changes = 0;
  for (const { refName, size, wave } of signal) {
    expect(size).toBe(1);
    const mine = own.changes
      .filter(({ code }) => code === refName)
      .map(({ time, value }) => [String(time), value]);
    expect(wave.map(([time, value]) => [time, value])).toEqual(mine);
    changes += mine.length;
  }
  expect(changes).toBeGreaterThan(signal.length);
});
