// Quality: the fewest parts at every number of ticks, for adders, for the examples and for families of systems, beside
// references of our own and the last recorded run; a deep search takes minutes, so its record stands beside the normal
// one. Every network is proved equal and its legs are counted by a separate checker. TICKWRIGHT_REFRESH=1 records the
// run, row by row; TICKWRIGHT_BENCH=deep measures with that effort, and words behind it, as in
// TICKWRIGHT_BENCH='normal adder of 8', take only the rows that have them in their names.

import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import type { Effort } from '../../src/search/limits.ts';
import { shippedTarget } from '../../src/target/shipped-targets.ts';
import { optimize } from '../../src/tickwright.ts';
import { FAMILIES, rippleAdderText } from '../support/families.ts';
import { catalogueBytes } from '../support/shipped-catalogue.ts';

const [effort, ...words] = (process.env.TICKWRIGHT_BENCH ?? 'normal').split(' ') as [Effort, ...string[]];
const wanted = words.join(' ');
const EXAMPLES = new URL('../../examples/', import.meta.url);

const COMMON = {
  ...{ ticks: null, frontier: true, seed: 1, explain: false, version: 'bench' },
  catalogue: catalogueBytes(),
};

interface Row {
  readonly name: string;
  readonly text: string;
  readonly target: string;
  /** Ticks to parts, best known; `*` where proved. */
  readonly reference: string;
}

const FULL_ADDER = (sum: string, carry: string): string =>
  `output s ${sum}, c ${carry}\ns = a ^ b ^ k\nc = maj(a, b, k)`;

// Own figures: full adders exhaustive and proved, the others found by long searches.
const ROWS: readonly Row[] = [
  ...(
    [
      ['joined-or', 'high', 'high', '2:10* 3:8* 5:7*'],
      ['joined-or', 'high', 'low', '2:8* 3:7* 4:6*'],
      ['joined-or', 'low', 'high', '2:8* 3:7*'],
      ['joined-or', 'low', 'low', '2:7* 3:6*'],
      ['joined-or-single', 'high', 'high', '2:10* 3:9* 4:8*'],
      ['joined-or-single', 'high', 'low', '2:10* 3:8*'],
      ['joined-or-single', 'low', 'high', '2:8* 3:7*'],
      ['joined-or-single', 'low', 'low', '2:7*'],
    ] as const
  ).map(([target, sum, carry, reference]) => ({
    name: `full adder ${sum} ${carry}`,
    text: FULL_ADDER(sum, carry),
    target,
    reference,
  })),
  {
    name: 'look-ahead carry of 9',
    text: 'c4 = g3 + p3 g2 + p3 p2 g1 + p3 p2 p1 g0 + p3 p2 p1 p0 c0',
    target: 'joined-or',
    reference: '2:6*',
  },
  {
    name: 'adder of 4',
    text: rippleAdderText(4),
    target: 'joined-or',
    reference: '2:90 3:37 4:31 5:30 6:27 8:26',
  },
  {
    name: 'adder of 8',
    text: rippleAdderText(8),
    target: 'joined-or',
    reference: '3:88 4:72 5:65 6:61 7:59 8:55 10:53 12:52',
  },
  {
    name: 'adder of 4',
    text: rippleAdderText(4),
    target: 'joined-or-4',
    reference: '4:32 5:30 6:29 7:28 8:27',
  },
  { name: 'adder of 8', text: rippleAdderText(8), target: 'joined-or-4', reference: '7:62 8:61 10:54 12:52' },
  ...FAMILIES.map(([name, text]) => ({ name, text, target: 'joined-or', reference: '' })),
  ...readdirSync(EXAMPLES)
    .filter((file) => file.endsWith('.logic') && !/adder-[48]|layered/.test(file))
    .sort()
    .map((file) => ({
      name: file.replace('.logic', ''),
      text: readFileSync(new URL(file, EXAMPLES), 'utf8'),
      target: 'joined-or',
      reference: '',
    })),
];

const fileOf = (of: Effort): URL => new URL(`frontiers-${of}.json`, import.meta.url);

function readRecord(of: Effort): Record<string, string> {
  return existsSync(fileOf(of)) ? JSON.parse(readFileSync(fileOf(of), 'utf8')) : {};
}

const record = readRecord(effort);
const deep = effort === 'deep' ? {} : readRecord('deep');
let faults = 0;
console.log(`Frontiers, ticks:parts, effort ${effort}; * proved that no network has fewer parts`);
for (const { name, text, target: targetName, reference } of ROWS) {
  const key = `${name}, ${targetName}`;
  if (!key.includes(wanted)) continue;
  const target = shippedTarget(targetName);
  if (target === null) throw new Error(`there is no target ${targetName}`);
  const start = process.hrtime.bigint();
  const { result, diagnostics } = optimize(name, text, {}, { ...COMMON, target, effort });
  const seconds = Number(process.hrtime.bigint() - start) / 1e9;
  for (const { severity, message } of diagnostics) if (severity === 'error') throw new Error(message);
  const shown = result.points.map(
    ({ ticks, parts, partsProved }) => `${ticks}:${parts}${partsProved ? '*' : ''}`,
  );
  for (const { proof, network } of result.points) {
    const most = target.inverter.maxLegs ?? Number.POSITIVE_INFINITY;
    const mostOut = target.join.maxLegs ?? Number.POSITIVE_INFINITY;
    const crowded =
      network.inverters.some(({ legs }) => legs.length > most) ||
      network.outputs.some(({ legs }) => legs.length > mostOut);
    if (proof.verdict !== 'equal' || crowded) faults++;
  }
  console.log(`\n  ${key}  (${seconds.toFixed(1)} s, ${result.stop})`);
  console.log(`    found           ${shown.join(' ')}`);
  if (reference !== '') console.log(`    reference       ${reference}  ${verdict(shown, reference)}`);
  if (record[key] !== undefined) console.log(`    recorded        ${record[key]}`);
  if (reference !== '' && deep[key] !== undefined)
    console.log(`    deep, recorded  ${deep[key]}  ${verdict(deep[key].split(' '), reference)}`);
  if (process.env.TICKWRIGHT_REFRESH !== '1') continue;
  writeFileSync(
    fileOf(effort),
    `${JSON.stringify({ ...readRecord(effort), [key]: shown.join(' ') }, null, 2)}\n`,
  );
}
console.log(`\n  networks that are not proved equal, or have too many legs: ${faults}`);
if (faults > 0) process.exitCode = 1;

/** The worst of the points of the reference, as parts found within so many ticks against parts there. */
function verdict(found: readonly string[], reference: string): string {
  const points = found.map((point) => point.replace('*', '').split(':').map(Number));
  let worst = Number.NEGATIVE_INFINITY;
  let at = '';
  for (const point of reference.split(' ')) {
    const [ticks, parts] = point.replace('*', '').split(':').map(Number);
    const mine = Math.min(...points.filter(([t]) => t <= ticks).map(([, p]) => p));
    const over = (mine / parts - 1) * 100;
    if (over > worst) [worst, at] = [over, point];
  }
  return Number.isFinite(worst)
    ? `worst ${worst >= 0 ? '+' : ''}${worst.toFixed(1)} % at ${at}`
    : `none within ${at}`;
}
