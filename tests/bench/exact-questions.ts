// One exact question, two solvers: "is there a network of one inverter less?", put to the exact search and, as plainly
// as can be, to a general solver from the registry (tests/support/network-question.ts). Each refutes the same sizes of the
// same functions, in turn; the ratio is that of the times.

import { readFileSync } from 'node:fs';
import { Catalogue, pointWithin } from '../../src/search/catalogue/catalogue.ts';
import { tableTask } from '../../src/search/catalogue/questions.ts';
import { exactNetwork } from '../../src/search/exact.ts';
import { existsNetwork } from '../support/network-question.ts';

/** Functions of four inputs and bounds on ticks; the size is one less than the catalogue has. */
const QUESTIONS: readonly (readonly [string, number, number])[] = [
  ['parity of three', 0x9696, 9],
  ['parity of three', 0x9696, 3],
  ['one of four', 0x0116, 2],
  ['two of four', 0x1668, 2],
  ['a b or c XOR d', 0x8ff8, 9],
  ['parity of four', 0x6996, 3],
  ['parity of four', 0x6996, 9],
];
const catalogue = new Catalogue(
  new Uint8Array(readFileSync(new URL('../../src/search/catalogue/four-inputs.catalogue', import.meta.url))),
);

function timeOf(run: () => boolean): number {
  const start = process.hrtime.bigint();
  if (run()) throw new Error('the size was found to be enough');
  return Number(process.hrtime.bigint() - start) / 1e6;
}

console.log('Exact questions, milliseconds');
console.log('                             inverters  ticks    ours  general solver  ratio');
let [ours, theirs] = [0, 0];
for (const [name, table, ticks] of QUESTIONS) {
  const size = (pointWithin(catalogue.lookUp(table).entry, ticks)?.parts ?? 0) - 1;
  const rows = Array.from({ length: 16 }, (_, row) => row);
  const own = timeOf(
    () =>
      exactNetwork({ task: tableTask(table), size, by: [ticks], maxConflicts: 1e9, rows }).kind !== 'none',
  );
  const general = timeOf(() => existsNetwork({ table, size, delays: [ticks, ticks, ticks, ticks] }));
  ours += own;
  theirs += general;
  const cells = [size, ticks, own.toFixed(0), general.toFixed(0), (general / own).toFixed(1)];
  const widths = [9, 7, 8, 16, 7];
  console.log(`  no ${name.padEnd(24)}${cells.map((cell, i) => String(cell).padStart(widths[i])).join('')}`);
}
console.log(
  `  all of them              ${' '.repeat(18)}${ours.toFixed(0).padStart(8)}${theirs.toFixed(0).padStart(16)}${(theirs / ours).toFixed(1).padStart(7)}`,
);
