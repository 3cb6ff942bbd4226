// Bounds: every text of tests/support/hostile-sizes.ts through the real command line, with seconds and megabytes. More
// than ten seconds, more than a gigabyte, a stack trace or a crash is a fault.

import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { HOSTILE_SIZES } from '../support/hostile-sizes.ts';

const program = fileURLToPath(new URL('../../bin/tickwright.js', import.meta.url));
const folder = mkdtempSync(path.join(tmpdir(), 'tickwright-sizes-'));
const told = path.join(folder, 'memory');
const teller = path.join(folder, 'teller.cjs');
writeFileSync(
  teller,
  `process.on('exit', () => require('node:fs').writeFileSync(${JSON.stringify(told)}, String(process.resourceUsage().maxRSS)));`,
);
const MOST_SECONDS = 10;
const MOST_MEGABYTES = 1000;

let faults = 0;
console.log('Hostile texts of a megabyte      seconds       MB  code  what is said first');
try {
  for (const { name, file, text, argv = [] } of HOSTILE_SIZES) {
    writeFileSync(path.join(folder, 'hostile.logic'), 'y = a b\n');
    writeFileSync(path.join(folder, file), text());
    rmSync(told, { force: true });
    rmSync(path.join(folder, 'out'), { force: true, recursive: true });
    const start = process.hrtime.bigint();
    const { status, stderr, stdout } = spawnSync(
      process.execPath,
      ['--require', teller, program, ...argv, file],
      {
        cwd: folder,
        encoding: 'utf8',
        timeout: 120_000,
        maxBuffer: 1 << 28,
      },
    );
    const seconds = Number(process.hrtime.bigint() - start) / 1e9;
    const megabytes = existsSync(told) ? Number(readFileSync(told, 'utf8')) / 1000 : Number.NaN;
    const first = `${stderr}${stdout}`.split('\n').find((line) => line !== '') ?? '';
    const isBad =
      !(seconds <= MOST_SECONDS && megabytes <= MOST_MEGABYTES) || /\n\s+at .*:\d+:\d+/.test(stderr);
    if (isBad) faults++;
    console.log(
      `${isBad ? 'NO ' : 'yes'} ${name.padEnd(28)} ${seconds.toFixed(1).padStart(7)} ${megabytes.toFixed(0).padStart(8)}  ${String(status).padStart(4)}  ${first.slice(0, 70)}`,
    );
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
console.log(`\n  beyond ${MOST_SECONDS} s or ${MOST_MEGABYTES} MB, or broken: ${faults}`);
if (faults > 0) process.exitCode = 1;
