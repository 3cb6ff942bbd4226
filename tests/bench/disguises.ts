// Disguises: seeded variations of an adder (operands swapped, rails, an output dropped, a fixed carry, a subtractor, an
// AND on a sum), each within a percentage of what a longer search finds for it. TICKWRIGHT_BENCH_BITS takes another size,
// TICKWRIGHT_BENCH_COUNT fewer disguises, TICKWRIGHT_BENCH_AGAINST=deep a longer comparison: by default further seeds of
// the same effort are compared with, since deep searches of twenty disguises take hours.

import type { Effort } from '../../src/search/limits.ts';
import { shippedTarget } from '../../src/target/shipped-targets.ts';
import { optimize } from '../../src/tickwright.ts';
import { disguisedAdder } from '../support/families.ts';
import { seededRandom } from '../support/seeded-random.ts';
import { catalogueBytes } from '../support/shipped-catalogue.ts';

const bits = Number(process.env.TICKWRIGHT_BENCH_BITS ?? 4);
const count = Number(process.env.TICKWRIGHT_BENCH_COUNT ?? 20);
const isDeep = process.env.TICKWRIGHT_BENCH_AGAINST === 'deep';
const random = seededRandom(20);
const draw = (below: number): number => Math.floor(random() * below);

const catalogue = catalogueBytes();

function frontier(text: string, effort: Effort, seed: number): Map<number, number> {
  const target = shippedTarget('joined-or');
  if (target === null) throw new Error('the default target is gone');
  const options = {
    target,
    ticks: null,
    effort,
    seed,
    explain: false,
    version: 'bench',
    catalogue,
    frontier: true,
  } as const;
  const { result, diagnostics } = optimize('adder', text, {}, options);
  for (const { severity, message } of diagnostics)
    if (severity === 'error') throw new Error(`${message}\n${text}`);
  for (const { proof } of result.points) if (proof.verdict !== 'equal') throw new Error('not equal');
  return new Map(result.points.map(({ ticks, parts }) => [ticks, parts]));
}

function within(points: ReadonlyMap<number, number>, ticks: number): number {
  return Math.min(...[...points].filter(([t]) => t <= ticks).map(([, parts]) => parts));
}

console.log(`Disguises of the adder of ${bits}, normal, against ${isDeep ? 'deep' : 'two further seeds'}`);
let worstOfAll = 0;
for (let n = 1; n <= count; n++) {
  const { text, what } = disguisedAdder(bits, draw);
  const mine = frontier(text, 'normal', 1);
  const others = isDeep
    ? [frontier(text, 'deep', 1)]
    : [frontier(text, 'normal', 2), frontier(text, 'normal', 3)];
  let worst = 0;
  let at = '';
  for (const other of others) {
    for (const [ticks, parts] of other) {
      const over = (within(mine, ticks) / parts - 1) * 100;
      if (over > worst) [worst, at] = [over, ` at ${ticks} ticks, ${within(mine, ticks)} against ${parts}`];
    }
  }
  worstOfAll = Math.max(worstOfAll, worst);
  const shown = [...mine].map(([ticks, parts]) => `${ticks}:${parts}`).join(' ');
  console.log(`  ${String(n).padStart(2)}  ${shown}  worst +${worst.toFixed(1)} %${at}  (${what})`);
}
console.log(`  worst of all: +${worstOfAll.toFixed(1)} %`);
