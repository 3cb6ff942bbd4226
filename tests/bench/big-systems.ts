// Systems at the limits, each by the real command in a process of its own: seconds, megabytes, and what came out. Families
// are written here; none is larger than 1 MB. All should be answered or refused within ten seconds and a gigabyte. Times
// are of this machine at this moment.

import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { rippleAdderText } from '../support/families.ts';
import { seededRandom } from '../support/seeded-random.ts';

const program = fileURLToPath(new URL('../../bin/tickwright.js', import.meta.url));
const folder = mkdtempSync(path.join(tmpdir(), 'big-systems-'));

const lines = (count: number, line: (i: number) => string): string =>
  Array.from({ length: count }, (_, i) => line(i)).join('\n');
const names = (count: number): string[] => Array.from({ length: count }, (_, i) => `a${i}`);

/** Operators over inputs and what stands before, mostly the last forty of it; the last signals are the outputs. */
function tangle(operators: number, inputs: number, outputs: number): string {
  const random = seededRandom(operators + inputs);
  const known = names(inputs);
  const drawn = (): string => {
    const from = random() < 0.7 ? Math.max(0, known.length - 40) : 0;
    return known[from + Math.floor(random() * (known.length - from))] as string;
  };
  const text = lines(operators, (i) => {
    const line = `w${i} = ${drawn()} ${['', '+', '^'][Math.floor(random() * 3)]} ${drawn()}`;
    known.push(`w${i}`);
    return line;
  });
  return `output ${known.slice(-outputs).join(', ')}\n${text}`;
}

/** Sums of products of eight of the inputs. */
function sums(inputs: number, outputs: number, products: number): string {
  const random = seededRandom(inputs);
  const literal = (): string => `a${Math.floor(random() * inputs)}${random() < 0.5 ? "'" : ''}`;
  return lines(outputs, (y) => {
    const all = Array.from({ length: products }, () => Array.from({ length: 8 }, literal).join(' '));
    return `y${y} = ${all.join(' + ')}`;
  });
}

/** Products of four inputs of its own for each of many outputs, all different. */
function separate(count: number): string {
  const random = seededRandom(count);
  return lines(count, (y) => {
    const literal = (): string => `${'abc'[Math.floor(random() * 3)]}${y}${random() < 0.5 ? "'" : ''}`;
    const product = (): string => `${literal()} ${literal()}`;
    return `y${y} = ${product()} + ${product()} + ${product()}`;
  });
}

const FAMILIES: readonly (readonly [name: string, text: string])[] = [
  ['300 separate gates', lines(300, (i) => `y${i} = a${i} b${i}`)],
  ['300 separate functions', separate(300)],
  ['1000 complements', lines(1000, (i) => `y${i} = a${i}'`)],
  ['a chain of 400 stages', `output x400\n${lines(400, (i) => `x${i + 1} = x${i} a${i} + b${i}`)}`],
  ['all of 400 stages', lines(400, (i) => `x${i + 1} = x${i} a${i} + b${i}`)],
  ['a product of 1000', `y = ${names(1000).join(' ')}`],
  ['a parity of 1000', `y = ${names(1000).join(' ^ ')}`],
  ['5000 operators, 8 inputs', tangle(5000, 8, 10)],
  ['5000 operators, 12 inputs', tangle(5000, 12, 10)],
  ['5000 operators, 20 inputs', tangle(5000, 20, 10)],
  ['10000 operators, 8 inputs', tangle(10_000, 8, 1000)],
  ['20000 operators, 8 inputs', tangle(20_000, 8, 1000)],
  ['8000 operators, 16 inputs', tangle(8000, 16, 1000)],
  ['8001 operators, 16 inputs', tangle(8001, 16, 1000)],
  ['4000 operators, 900 inputs', tangle(4000, 900, 900)],
  ['9000 operators, 900 inputs', tangle(9000, 900, 900)],
  ['40000 operators, 8 inputs', tangle(40_000, 8, 10)],
  ['a sum of 100000', `y = ${names(100_000).join(' + ')}`],
  ['sums of products, 12', sums(12, 10, 40)],
  ['adder of 64 bits', rippleAdderText(64)],
  ['adder of 128 bits', rippleAdderText(128)],
  ['adder of 300 bits', rippleAdderText(300)],
];

/** Runs the command with a look at its memory at the end. */
function run(name: string, text: string): void {
  const file = path.join(folder, 'hall.logic');
  writeFileSync(file, text);
  const probe = path.join(folder, 'probe.cjs');
  const memoryFile = path.join(folder, 'memory');
  writeFileSync(
    probe,
    `process.on('exit', () => require('node:fs').writeFileSync(${JSON.stringify(memoryFile)}, String(process.resourceUsage().maxRSS)));`,
  );
  const start = process.hrtime.bigint();
  const { stdout, status } = spawnSync(process.execPath, ['--require', probe, program, file, '--json'], {
    encoding: 'utf8',
    maxBuffer: 2 ** 30,
  });
  const seconds = Number(process.hrtime.bigint() - start) / 1e9;
  const [result] = JSON.parse(stdout === '' ? '[]' : stdout);
  const point = result?.points?.[0];
  const shown =
    point === undefined
      ? `refused: ${result?.notices?.find(({ severity }: { severity: string }) => severity === 'error')?.code}`
      : `${point.ticks}:${point.parts} ${point.proof.verdict}, ${result.stop}`;
  const memory = Math.round(Number(readFileSync(memoryFile, 'utf8')) / 1024);
  console.log(
    `  ${name.padEnd(30)}${String(Math.round(text.length / 1024)).padStart(6)}${seconds.toFixed(1).padStart(9)}${String(memory).padStart(7)}  ${shown}${status === 0 || point === undefined ? '' : ` (exit code ${status})`}`,
  );
}

// A word on the command line chooses the families whose names hold it.
const wanted = process.argv[2] ?? '';
console.log('Systems at the limits');
console.log(
  `  ${'family'.padEnd(30)}${'kB'.padStart(6)}${'seconds'.padStart(9)}${'MB'.padStart(7)}  ticks:parts`,
);
try {
  for (const [name, text] of FAMILIES) if (name.includes(wanted)) run(name, text);
} finally {
  rmSync(folder, { recursive: true });
}
