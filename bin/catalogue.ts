// Makes the catalogue: for every class of functions of four inputs the fewest inverters at every number of ticks.
//
//   npm run catalogue -- [--work FOLDER] [--share 1/2] [--only sweep|questions|late] [--late 6] [--pattern 0001]
//   npm run catalogue -- --ship [--work FOLDER]
//
// Every fact is appended to a file of the work folder (by default in the folder for temporary files) as soon as it is
// known, so a run can be ended at any time and goes on where it was. Shares may run side by side; each writes its own
// file and reads all. `--late` and `--pattern` say with how many inverters the patterns of late arrivals are swept, and
// which of them. A run without `--share` ends with writing the data file; `--ship` does that alone, from what is known.

import { appendFileSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { packCatalogue } from '../src/search/catalogue/catalogue-file.ts';
import { LATE_ARRIVALS, LateWork } from '../src/search/catalogue/late.ts';
import { askClass } from '../src/search/catalogue/questions.ts';
import { firstLevels, WireSets } from '../src/search/catalogue/wire-sets.ts';
import { ANY, CatalogueWork } from '../src/search/catalogue/work.ts';

/** Sweeps, by the number of inverters: a small one first, which makes the large one cheaper. */
const SWEEPS = [6, 7];

const { values } = parseArgs({
  options: {
    work: { type: 'string', default: join(tmpdir(), 'tickwright-catalogue') },
    share: { type: 'string', default: '1/1' },
    only: { type: 'string' },
    late: { type: 'string', default: '6' },
    pattern: { type: 'string', default: '' },
    ship: { type: 'boolean', default: false },
  },
});
const [share, shares] = values.share.split('/').map(Number);
if (!(share >= 1 && share <= shares)) throw new Error(`--share ${values.share} is not like 1/2`);
mkdirSync(values.work, { recursive: true });
const ownFile = join(values.work, `facts-${share}-of-${shares}.txt`);

const work = new CatalogueWork();
const late = new LateWork();
for (const name of readdirSync(values.work).sort()) {
  // A line that was cut off by the end of a run is dropped.
  const text = readFileSync(join(values.work, name), 'utf8');
  for (const line of text.slice(0, text.lastIndexOf('\n') + 1).split('\n'))
    if (line !== '') {
      if (line.startsWith('way ') || line.startsWith('swept-late ')) late.learn(line);
      else work.learn(line);
    }
}
if (existsSync(ownFile)) {
  const text = readFileSync(ownFile, 'utf8');
  writeFileSync(ownFile, text.slice(0, text.lastIndexOf('\n') + 1));
}

function note(line: string): void {
  if (work.learn(line)) appendFileSync(ownFile, `${line}\n`);
}

function sweep(most: number): void {
  const fewest = work.upper.map((upper) => Uint8Array.from(work.classOf, (c) => upper[c]));
  const hex = (table: number): string => table.toString(16).padStart(4, '0');
  const sets = new WireSets(most, fewest, (table, ticks, wires) =>
    note(['network', hex(table), ticks, ...wires.map(hex)].join(' ')),
  );
  const levels = firstLevels(most);
  levels.forEach((first, number) => {
    if (number % shares !== share - 1 || work.hasSwept(most, number)) return;
    sets.run(first);
    note(`swept ${most} ${number}`);
  });
}

function tally(): void {
  for (let t = 0; t <= ANY; t++) {
    const counts = new Map<string, number>();
    for (let c = 0; c < work.tables.length; c++) {
      const known = work.upper[t][c];
      const key = work.isProved(c, t)
        ? work.least(c, t) >= 99
          ? 'impossible'
          : `${known}`
        : `${known === 99 ? '?' : known}~`;
      counts.set(key, (counts.get(key) ?? 0) + 1);
    }
    const sorted = [...counts].sort(([a], [b]) => (a < b ? -1 : 1)).map(([key, count]) => `${key}: ${count}`);
    console.log(`${t === ANY ? 'any' : t} ticks  ${sorted.join('  ')}`);
  }
}

if (!values.ship && (values.only ?? 'sweep') === 'sweep') {
  for (const most of SWEEPS) {
    sweep(most);
    console.log(`swept sets of ${most} inverters`);
  }
}
if (!values.ship && (values.only ?? 'questions') === 'questions') {
  if (work.sweptTo < Math.max(...SWEEPS)) {
    console.log('Not all shares have swept yet: nothing is asked. Run again when they have.');
  } else {
    for (let c = 0; c < work.tables.length; c++) if (c % shares === share - 1) askClass(work, c, note);
  }
}
if (!values.ship && (values.only ?? 'late') === 'late') {
  const most = Number(values.late);
  LATE_ARRIVALS.forEach((arrivals, number) => {
    if (number % shares !== share - 1 || late.hasSwept(most, arrivals)) return;
    if (values.pattern !== '' && values.pattern !== arrivals.join('')) return;
    for (const line of late.sweep(most, arrivals)) appendFileSync(ownFile, `${line}\n`);
    console.log(`swept arrivals ${arrivals.join(' ')} with ${most} inverters`);
  });
}
tally();

if (values.ship || shares === 1) {
  late.learn(`swept-late 0000 ${work.sweptTo}`);
  const classes = work.tables.map((_, c) => {
    const curve = late.betterCurve(c, work.curve(c));
    return { curve, others: late.others(c, curve) };
  });
  const bytes = packCatalogue(classes);
  const file = fileURLToPath(new URL('../src/search/catalogue/four-inputs.catalogue', import.meta.url));
  writeFileSync(file, bytes);
  console.log(`${file}: ${bytes.length} bytes`);
}
