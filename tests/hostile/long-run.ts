// Many hostile texts for every reader: `npm run fuzz -- 100000` for so many each, `npm run fuzz -- 100000 verilog` for
// one of them. What breaks a reader is shrunk and written to tests/regressions/texts/ under the next number.

import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import fc from 'fast-check';
import { judge, READERS } from './readers.ts';
import { hostileTexts } from './texts.ts';

const FOLDER = new URL('../regressions/texts/', import.meta.url);
const [count = '100000', only, seed = '1'] = process.argv.slice(2);
/** A text that takes longer is as bad as one that breaks the reader. */
const LONGEST_SECONDS = 5;

function keep(name: string, text: string): string {
  mkdirSync(FOLDER, { recursive: true });
  const number = String(readdirSync(FOLDER).length + 1).padStart(3, '0');
  const file = new URL(`${number}-${name}.txt`, FOLDER);
  writeFileSync(file, text);
  return file.pathname;
}

for (const reader of READERS) {
  if (only !== undefined && only !== reader.name) continue;
  const start = performance.now();
  let longest = 0;
  const { failed, numRuns, counterexample, errorInstance } = fc.check(
    fc.property(hostileTexts(reader), (text) => {
      const before = performance.now();
      judge(reader, text);
      const seconds = (performance.now() - before) / 1000;
      longest = Math.max(longest, seconds);
      if (seconds > LONGEST_SECONDS) throw new Error(`it takes ${seconds.toFixed(1)} s`);
    }),
    { numRuns: Number(count), seed: Number(seed) },
  );
  const seconds = ((performance.now() - start) / 1000).toFixed(0);
  console.log(
    `${reader.name}: ${numRuns} texts, ${failed ? 'broken' : 'none breaks it'}, ${seconds} s, the longest ${(1000 * longest).toFixed(0)} ms`,
  );
  if (!failed || counterexample === null) continue;
  const [text] = counterexample as [string];
  console.log(`  ${keep(reader.name, text)}\n  ${String(errorInstance).slice(0, 300)}`);
  process.exitCode = 1;
}
