// Disguises: seeded variations of an adder (operands swapped, rails, an output dropped, a fixed carry, a subtractor, an
// AND on a sum), each in normal effort against what a deep search finds for it. Deep searches take many minutes each, so
// their results are kept in disguises-deep.json, at every tick the best of several such searches by different versions; a
// disguise that is not there yet is passed over and counted.
// Both sizes are measured at once, each in a process of its own.
// TICKWRIGHT_REFRESH=1 searches for what is missing there, and keeps it one by one, so that it can be ended at any time;
// then the sizes have their turns. TICKWRIGHT_BENCH_BITS takes one size instead of both, TICKWRIGHT_BENCH_COUNT fewer
// disguises.

import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Effort } from '../../src/search/limits.ts';
import { shippedTarget } from '../../src/target/shipped-targets.ts';
import { optimize } from '../../src/tickwright.ts';
import { disguisedAdder } from '../support/families.ts';
import { seededRandom } from '../support/seeded-random.ts';
import { catalogueBytes } from '../support/shipped-catalogue.ts';

/** Percent above its own deep result that a disguise may be, by bits: those of the plain adder. */
const ALLOWED: Readonly<Record<number, number>> = { 4: 5, 8: 10 };
/** The same for 8 bits at three ticks. */
const ALLOWED_AT_THREE = 20;
const COUNT = 20;
const RECORD = new URL('disguises-deep.json', import.meta.url);

const sizes =
  process.env.TICKWRIGHT_BENCH_BITS === undefined ? [4, 8] : [Number(process.env.TICKWRIGHT_BENCH_BITS)];
const count = Number(process.env.TICKWRIGHT_BENCH_COUNT ?? COUNT);
const isRefresh = process.env.TICKWRIGHT_REFRESH === '1';
const catalogue = catalogueBytes();

type Points = ReadonlyMap<number, number>;

function frontier(text: string, effort: Effort): Points {
  const target = shippedTarget('joined-or');
  if (target === null) throw new Error('the default target is gone');
  const wishes = { ticks: null, frontier: true, seed: 1, explain: false, version: 'bench' };
  const { result, diagnostics } = optimize('adder', text, {}, { ...wishes, target, effort, catalogue });
  for (const { severity, message } of diagnostics)
    if (severity === 'error') throw new Error(`${message}\n${text}`);
  for (const { proof } of result.points) if (proof.verdict !== 'equal') throw new Error('not equal');
  return new Map(result.points.map(({ ticks, parts }) => [ticks, parts]));
}

/** By size and number of the disguise, `ticks:parts` of its deep frontier. */
function readRecord(): Record<string, string> {
  return existsSync(RECORD) ? JSON.parse(readFileSync(RECORD, 'utf8')) : {};
}

function shown(points: Points): string {
  return [...points].map(([ticks, parts]) => `${ticks}:${parts}`).join(' ');
}

function read(text: string): Points {
  return new Map(text.split(' ').map((point) => point.split(':').map(Number) as [number, number]));
}

function within(points: Points, ticks: number): number {
  return Math.min(...[...points].filter(([t]) => t <= ticks).map(([, parts]) => parts));
}

function allowed(bits: number, ticks: number): number {
  return bits === 8 && ticks <= 3 ? ALLOWED_AT_THREE : ALLOWED[bits];
}

interface Over {
  /** Percent, and what of that is allowed. */
  readonly over: number;
  readonly most: number;
  readonly at: string;
}

/** Where the points are furthest above the others, measured by what is allowed there. */
function worstOf(bits: number, mine: Points, deep: Points): Over {
  let worst: Over = { over: 0, most: ALLOWED[bits], at: '' };
  for (const [ticks, parts] of deep) {
    const over = (within(mine, ticks) / parts - 1) * 100;
    const most = allowed(bits, ticks);
    const at = ` at ${ticks} ticks, ${within(mine, ticks)} against ${parts}, ${most} % allowed`;
    if (over / most > worst.over / worst.most) worst = { over, most, at };
  }
  return worst;
}

function measure(bits: number): void {
  console.log(`Disguises of the adder of ${bits}, normal against their own deep results`);
  const random = seededRandom(20);
  const draw = (below: number): number => Math.floor(random() * below);
  let compared = 0;
  let beyond = 0;
  let worst = 0;
  for (let n = 1; n <= count; n++) {
    const { text, what } = disguisedAdder(bits, draw);
    const key = `${bits} bits, ${n}: ${what}`;
    let deep = readRecord()[key];
    if (deep === undefined && isRefresh) {
      deep = shown(frontier(text, 'deep'));
      writeFileSync(RECORD, `${JSON.stringify({ ...readRecord(), [key]: deep }, null, 2)}\n`);
    }
    if (deep === undefined) continue;
    const mine = frontier(text, 'normal');
    const { over, most, at } = worstOf(bits, mine, read(deep));
    compared++;
    if (over > most) beyond++;
    worst = Math.max(worst, over);
    console.log(
      `  ${key}\n      normal  ${shown(mine)}\n      deep    ${deep}  worst +${over.toFixed(1)} %${at}`,
    );
  }
  const all = `worst of all +${worst.toFixed(1)} %`;
  console.log(`  ${bits} bits: ${compared} of ${count} compared, ${beyond} beyond what is allowed; ${all}`);
}

/** Measures one size in a process of its own. */
async function measureApart(bits: number): Promise<void> {
  const child = spawn(process.execPath, [...process.execArgv, fileURLToPath(import.meta.url)], {
    env: { ...process.env, TICKWRIGHT_BENCH_BITS: String(bits) },
    stdio: 'inherit',
  });
  const [status] = await once(child, 'close');
  if (status !== 0) process.exitCode = 1;
}

if (sizes.length > 1 && !isRefresh) await Promise.all(sizes.map(measureApart));
else sizes.forEach(measure);
