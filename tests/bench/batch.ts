// Batches at full size. (1) 2,000 systems, killed ten times and gone on with: the same bytes as without. (2) 5 % broken
// files: the right rows failed. (3) One worker and two: the same bytes, and how much faster. (4) All functions of four
// inputs in one batch: every row proved, totals as the catalogue has them.

import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { begin, ended, runKilled, writeSystems } from '../support/batch-runs.ts';
import { rippleAdderText } from '../support/families.ts';
import { shippedCatalogue } from '../support/shipped-catalogue.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'tickwright-batch-bench-'));
const at = (...names: string[]): string => path.join(folder, ...names);
const lines = (name: string): string[] =>
  readFileSync(at(name, 'results.jsonl'), 'utf8').trimEnd().split('\n');

let faults = 0;
function check(what: string, isTrue: boolean): void {
  if (!isTrue) faults++;
  console.log(`  ${isTrue ? 'yes' : 'NO '}  ${what}`);
}

async function timed(argv: readonly string[]): Promise<number> {
  const start = process.hrtime.bigint();
  await ended(begin(argv, folder));
  return Number(process.hrtime.bigint() - start) / 1e9;
}

const COUNT = 2000;
const KILLS = 10;
const FUNCTIONS = 65_536;

try {
  console.log(`Batches\n\n  ${COUNT} systems, 5 % of them broken`);
  const broken = writeSystems(at('halls'), COUNT, 1, 20);
  const argv = ['batch', 'halls', '--effort', 'quick', '--into'];
  const two = await timed([...argv, 'two', '--workers', '2']);
  const one = await timed([...argv, 'one', '--workers', '1']);
  check('one worker and two: the same bytes', lines('one').join() === lines('two').join());
  console.log(
    `       one worker takes ${(one / two).toFixed(2)} times as long as two: start and files count`,
  );
  const adders = Array.from({ length: 12 }, (_, n) => `--- ${n}\n${rippleAdderText(3)}`);
  writeFileSync(at('adders.logic'), adders.join('\n'));
  const hard = ['batch', 'adders.logic', '--effort', 'quick', '--into'];
  const hardTwo = await timed([...hard, 'hard-two', '--workers', '2']);
  const hardOne = await timed([...hard, 'hard-one', '--workers', '1']);
  check(
    '12 adders, one worker and two: the same bytes',
    lines('hard-one').join() === lines('hard-two').join(),
  );
  console.log(`       one worker takes ${(hardOne / hardTwo).toFixed(2)} times as long as two`);
  const failed = lines('two')
    .map((line) => JSON.parse(line))
    .filter(({ status }) => status === 'failed');
  const isRight = failed.every(({ position, notices: [notice] }) => {
    const [line, column] = broken.get(position) ?? [0, 0];
    return notice.line === line && notice.column === column;
  });
  check(
    `${failed.length} rows failed, ${broken.size} files are broken, with line and column`,
    isRight && failed.length === broken.size,
  );

  const journal = at('killed', 'journal.jsonl');
  const rowsNow = (): number =>
    existsSync(journal) ? readFileSync(journal, 'utf8').split('\n').length - 1 : 0;
  const { kills } = await runKilled([...argv, 'killed'], folder, KILLS, COUNT, rowsNow, 3);
  const positions = new Set(lines('killed').map((line) => JSON.parse(line).position));
  check(
    `killed ${kills} times: ${lines('killed').length} rows, ${positions.size} different`,
    positions.size === COUNT && lines('killed').length === COUNT && kills === KILLS,
  );
  check(
    'and the same bytes as without',
    readFileSync(at('killed', 'results.jsonl')).equals(readFileSync(at('two', 'results.jsonl'))),
  );

  console.log(`\n  all ${FUNCTIONS} functions of four inputs`);
  const table = (bits: number): string => Array.from({ length: 16 }, (_, row) => (bits >> row) & 1).join('');
  const rows = Array.from({ length: FUNCTIONS }, (_, bits) =>
    JSON.stringify({ inputs: ['a', 'b', 'c', 'd'], tables: { f: table(bits) } }),
  );
  writeFileSync(at('four.jsonl'), `${rows.join('\n')}\n`);
  const plan = JSON.stringify({ effort: 'quick', keep: 'figures' });
  writeFileSync(at('plan.json'), plan);
  const seconds = await timed(['batch', 'four.jsonl', '--plan', 'plan.json', '--into', 'four']);
  const catalogue = shippedCatalogue();
  let proved = 0;
  let same = 0;
  const found = { ticks: 0, parts: 0 };
  const known = { ticks: 0, parts: 0 };
  lines('four').forEach((line, bits) => {
    const { status, answer } = JSON.parse(line);
    if (status === 'done' && answer.partsProved && answer.ticksProved && answer.proof === 'equal') proved++;
    // The same rule on the curve of the catalogue: the fastest with at most twice the parts of the smallest.
    const { curve } = catalogue.lookUp(bits).entry;
    const smallest = Math.min(...curve.map(({ parts }) => parts));
    const chosen = curve.find(({ parts }) => parts <= 2 * smallest) ?? { ticks: 0, parts: 0 };
    found.ticks += answer.ticks;
    found.parts += answer.parts;
    known.ticks += chosen.ticks;
    known.parts += chosen.parts;
    if (answer.ticks === chosen.ticks && answer.parts === chosen.parts) same++;
  });
  console.log(`       ${seconds.toFixed(0)} s`);
  check(`${proved} rows proved: equal, in the fewest ticks, with the fewest parts`, proved === FUNCTIONS);
  check(`${same} answers as in the catalogue`, same === FUNCTIONS);
  check(`${found.ticks} ticks together, catalogue ${known.ticks}`, found.ticks === known.ticks);
  check(`${found.parts} parts together, catalogue ${known.parts}`, found.parts === known.parts);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
if (faults > 0) process.exitCode = 1;
