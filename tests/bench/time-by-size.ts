// Time against size: ripple adders from equations, the default answer, and the exponent of growth between the sizes; and
// single questions to the 8-bit and the 64-bit adder; then the command line, which searches on all processors, with start
// and proofs. Times are of this machine at this moment; the exponent is what the bench is for.

import { spawnSync } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { shippedTarget } from '../../src/target/shipped-targets.ts';
import { optimize } from '../../src/tickwright.ts';
import { rippleAdderText } from '../support/families.ts';
import { catalogueBytes } from '../support/shipped-catalogue.ts';

const TOOL = fileURLToPath(new URL('../../bin/tickwright.js', import.meta.url));
const SIZES = [4, 8, 16, 32, 64, 128];

const catalogue = catalogueBytes();

function run(bits: number, ticks: number | null): { seconds: number; shown: string } {
  const target = shippedTarget('joined-or');
  if (target === null) throw new Error('the default target is gone');
  const start = process.hrtime.bigint();
  const { result } = optimize(
    'adder',
    rippleAdderText(bits),
    {},
    { target, ticks, effort: 'normal', seed: 1, explain: false, version: 'bench', catalogue },
  );
  const seconds = Number(process.hrtime.bigint() - start) / 1e9;
  const [point] = result.points;
  const shown =
    point === undefined ? 'nothing found' : `${point.ticks}:${point.parts} ${point.proof.verdict}`;
  return { seconds, shown };
}

console.log('Ripple adders from equations, the default answer');
console.log('  bits  seconds  exponent  ticks:parts');
let last: { bits: number; seconds: number } | null = null;
let from16: number | null = null;
for (const bits of SIZES) {
  const { seconds, shown } = run(bits, null);
  const exponent =
    last === null ? '' : (Math.log(seconds / last.seconds) / Math.log(bits / last.bits)).toFixed(2);
  console.log(
    `  ${String(bits).padStart(4)}${seconds.toFixed(1).padStart(9)}${exponent.padStart(10)}  ${shown}`,
  );
  last = { bits, seconds };
  if (bits === 16) from16 = seconds;
  if (bits === 128 && from16 !== null) {
    console.log(`  from 16 to 128 bits: exponent ${(Math.log(seconds / from16) / Math.log(8)).toFixed(2)}`);
  }
}
for (const [bits, ticks] of [
  [8, 4],
  [64, 6],
  [64, 4],
]) {
  const { seconds, shown } = run(bits, ticks);
  console.log(`  ${bits} bits within ${ticks} ticks: ${seconds.toFixed(1)} s, ${shown}`);
}
const { maxRSS } = process.resourceUsage();
console.log(`  most memory: ${Math.round(maxRSS / 1024)} MB`);

console.log(`The command line on ${availableParallelism()} processors`);
for (const [bits, ...options] of [[8], [4, '--frontier'], [8, '--frontier'], [64, '--ticks', '4']] as const) {
  const start = process.hrtime.bigint();
  const { status } = spawnSync(process.execPath, [TOOL, '-', ...options], { input: rippleAdderText(bits) });
  const seconds = Number(process.hrtime.bigint() - start) / 1e9;
  if (status !== 0) throw new Error(`${bits} bits ${options.join(' ')}: exit code ${status}`);
  console.log(`  ${[bits, 'bits', ...options].join(' ')}: ${seconds.toFixed(1)} s`);
}
