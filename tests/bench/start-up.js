// Start-up: the whole-process time of one small optimization as a ratio to that of `node -e 0`, each the median of 15
// runs that take turns, so that a busy machine slows both alike. At most 3 is allowed.
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const RUNS = 15;
const MOST = 3;
const LAUNCHER = fileURLToPath(new URL('../../bin/tickwright.js', import.meta.url));
const CARRY = 'c4 = g3 + p3 g2 + p3 p2 g1 + p3 p2 p1 g0 + p3 p2 p1 p0 c0';

/** Milliseconds that a Node process with these arguments takes. */
function timeOf(args) {
  const start = process.hrtime.bigint();
  const { status, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8' });
  if (status !== 0) throw new Error(`node ${args.join(' ')} ended with ${status}: ${stderr}`);
  return Number(process.hrtime.bigint() - start) / 1e6;
}

function median(times) {
  return [...times].sort((a, b) => a - b)[times.length >> 1];
}

const CASES = [
  { name: 'node -e 0', args: ['-e', '0'] },
  { name: 'tickwright --version', args: [LAUNCHER, '--version'] },
  { name: 'tickwright, one product', args: [LAUNCHER, 'c1 = g0 + p0 c0'] },
  { name: 'tickwright, carry into bit 4', args: [LAUNCHER, CARRY] },
];
const times = CASES.map(() => []);
for (let run = 0; run < RUNS; run++) {
  for (const [at, { args }] of CASES.entries()) times[at].push(timeOf(args));
}

const floor = median(times[0]);
console.log(`Start-up, median of ${RUNS} runs`);
for (const [at, { name }] of CASES.entries()) {
  const time = median(times[at]);
  const ratio = (time / floor).toFixed(2);
  console.log(`  ${name.padEnd(30)} ${time.toFixed(0).padStart(5)} ms   ratio ${ratio}`);
}
if (median(times.at(-1)) / floor > MOST) {
  console.error(`The last ratio is over ${MOST}.`);
  process.exitCode = 1;
}
