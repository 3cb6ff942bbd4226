// The catalogue: bytes, milliseconds to load, and look-ups per second in one thread, each the median of seven rounds. A
// look-up is what the search does with a function of four inputs: find its class, and take the network of fewest parts
// for arrivals and a tick. At least 200,000 per second are asked for.
import { readFileSync } from 'node:fs';
import { Catalogue, networkFor } from '../../src/search/catalogue/catalogue.ts';

const ROUNDS = 7;
const LOOK_UPS = 400_000;
const LEAST = 200_000;
const bytes = new Uint8Array(
  readFileSync(new URL('../../src/search/catalogue/four-inputs.catalogue', import.meta.url)),
);

/** Milliseconds that something takes. */
function timeOf(run: () => void): number {
  const start = process.hrtime.bigint();
  run();
  return Number(process.hrtime.bigint() - start) / 1e6;
}

function median(times: readonly number[]): number {
  return [...times].sort((a, b) => a - b)[times.length >> 1];
}

/** Looks up functions scattered over all 65536. */
function lookUps(catalogue: Catalogue): number {
  let parts = 0;
  const arrivals = [0, 0, 0, 0];
  for (let n = 0, table = 1; n < LOOK_UPS; n++, table = (Math.imul(table, 40503) + 12345) & 0xffff) {
    const { entry, order } = catalogue.lookUp(table);
    for (let i = 0; i < 4; i++) arrivals[i] = order[i] === (n & 3) ? 1 : 0;
    parts += networkFor(entry, arrivals, 4)?.parts ?? 0;
  }
  return parts;
}

const loads: number[] = [];
const rates: number[] = [];
const firsts: number[] = [];
for (let round = 0; round < ROUNDS; round++) {
  let catalogue: Catalogue | null = null;
  loads.push(timeOf(() => (catalogue = new Catalogue(bytes))));
  const loaded = catalogue as unknown as Catalogue;
  firsts.push(timeOf(() => lookUps(loaded)));
  rates.push(LOOK_UPS / (timeOf(() => lookUps(loaded)) / 1000));
}
const thousands = (count: number): string => Math.round(count).toLocaleString('en');
console.log(`Catalogue, median of ${ROUNDS} rounds`);
console.log(`  file                           ${thousands(bytes.length).padStart(12)} bytes`);
console.log(`  load                           ${median(loads).toFixed(1).padStart(12)} ms`);
console.log(
  `  look-ups, each class unpacked  ${thousands(LOOK_UPS / (median(firsts) / 1000)).padStart(12)} per second`,
);
console.log(`  look-ups after that            ${thousands(median(rates)).padStart(12)} per second`);
if (median(rates) < LEAST) {
  console.error(`Fewer than ${thousands(LEAST)} per second.`);
  process.exitCode = 1;
}
