// Assembles src/truth/word-loops.wat, and writes the module as a TypeScript file that the loops are made from. The file is
// kept in the repository; `--check` writes nothing and fails when it is stale.
import { readFileSync, writeFileSync } from 'node:fs';
import wabt from 'wabt';

const SOURCE = 'src/truth/word-loops.wat';
const MODULE = 'src/truth/word-loops-module.ts';
const COLUMNS = 24;

const root = new URL('../', import.meta.url);
const { parseWat } = await wabt();
const assembled = parseWat(SOURCE, readFileSync(new URL(SOURCE, root), 'utf8'), { simd: true });
const { buffer } = assembled.toBinary({});
assembled.destroy();
const lines = [];
for (let n = 0; n < buffer.length; n += COLUMNS)
  lines.push(`  ${[...buffer.slice(n, n + COLUMNS)].join(', ')},`);
const text = [
  `// Generated from ${SOURCE.split('/').pop()} by \`npm run loops\`; do not edit.`,
  '',
  '// biome-ignore format: as it is written',
  'export const WORD_LOOPS = new Uint8Array([',
  ...lines,
  ']);',
  '',
].join('\n');

let present = null;
try {
  present = readFileSync(new URL(MODULE, root), 'utf8');
} catch {
  // Not there yet.
}
const isFresh = present === text;
if (process.argv.includes('--check')) {
  if (!isFresh) console.error(`${MODULE} is stale against ${SOURCE}. Run \`npm run loops\`.`);
  process.exitCode = isFresh ? 0 : 1;
} else {
  if (!isFresh) writeFileSync(new URL(MODULE, root), text);
  console.log(isFresh ? 'The loops are fresh.' : `Written: ${MODULE}`);
}
