// Batches for tests and benches: seeded systems in files, and the program run on them as a process that can be killed.

import { type ChildProcess, spawn } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { seededRandom } from './seeded-random.ts';

const PROGRAM = fileURLToPath(new URL('../../bin/tickwright.js', import.meta.url));
const NAMES = ['crate', 'gate', 'belt', 'scale', 'lamp'];
/** What a broken file holds, and the line and column where its fault is told. */
export const BROKEN: readonly (readonly [text: string, line: number, column: number])[] = [
  ['full = crate + + gate\n', 1, 16],
  ['# two lanes\nfull = (crate gate\n', 2, 8],
  ['full = crate gate\nfull = belt\n', 2, 1],
];

/** A sum of random products, so small that its search takes milliseconds. */
function randomText(random: () => number): string {
  const draw = (below: number): number => Math.floor(random() * below);
  const inputs = NAMES.slice(0, 2 + draw(3));
  const product = (): string =>
    inputs.flatMap((name) => [[name], [`${name}'`], []][draw(3)] ?? []).join(' ') || `${inputs[0]}`;
  const outputs = Array.from({ length: 1 + draw(2) }, (_, n) => {
    const terms = Array.from({ length: 1 + draw(3) }, product);
    return `out${n} = ${terms.join(draw(3) === 0 ? ' ^ ' : ' + ')}`;
  });
  return `${outputs.join('\n')}\n`;
}

/**
 * Writes files of one system each.
 *
 * @param brokenEvery every so many a broken one; 0 for none.
 * @returns for each broken file, by its position, the line and column of its fault.
 */
export function writeSystems(
  folder: string,
  count: number,
  seed: number,
  brokenEvery = 0,
): Map<number, readonly [line: number, column: number]> {
  mkdirSync(folder, { recursive: true });
  const random = seededRandom(seed);
  const broken = new Map<number, readonly [number, number]>();
  for (let n = 0; n < count; n++) {
    const isBroken = brokenEvery > 0 && n % brokenEvery === brokenEvery - 1;
    const [text, line, column] = BROKEN[n % BROKEN.length] ?? ['', 0, 0];
    if (isBroken) broken.set(n, [line, column]);
    const file = path.join(folder, `${String(n).padStart(6, '0')}.logic`);
    writeFileSync(file, isBroken ? text : randomText(random));
  }
  return broken;
}

/** Begins the program on its own. */
export function begin(argv: readonly string[], folder: string): ChildProcess {
  return spawn(process.execPath, [PROGRAM, ...argv], { cwd: folder, stdio: 'ignore' });
}

/** Waits for the end of a process; its exit code, or null when it was killed. */
export function ended(child: ChildProcess): Promise<number | null> {
  return new Promise((resolve) => child.on('exit', (code) => resolve(code)));
}

/**
 * Runs a batch to its end, killing it at random moments with a signal that no program can catch.
 *
 * @param rowsNow how many rows are there, asked for again and again.
 * @returns how often it was killed while it ran, and its exit code at last.
 */
export async function runKilled(
  argv: readonly string[],
  folder: string,
  kills: number,
  rows: number,
  rowsNow: () => number,
  seed: number,
): Promise<{ readonly kills: number; readonly code: number | null }> {
  const random = seededRandom(seed);
  const moments = Array.from({ length: kills }, () => Math.floor(random() * rows)).sort((a, b) => a - b);
  let killed = 0;
  for (const moment of moments) {
    const child = begin(killed === 0 ? argv : [...argv, '--resume'], folder);
    const end = ended(child);
    const watch = setInterval(() => {
      if (rowsNow() > moment) child.kill('SIGKILL');
    }, 2);
    const code = await end;
    clearInterval(watch);
    if (code !== null) return { kills: killed, code };
    killed++;
  }
  return { kills: killed, code: await ended(begin(killed === 0 ? argv : [...argv, '--resume'], folder)) };
}
