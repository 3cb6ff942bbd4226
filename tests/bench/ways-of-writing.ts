// The way of writing: one four-bit adder as ripple, as look-ahead and as a truth table, each with its default answer in
// normal effort, and how far the largest is above the smallest.

import { shippedTarget } from '../../src/target/shipped-targets.ts';
import { optimize } from '../../src/tickwright.ts';
import { catalogueBytes } from '../support/shipped-catalogue.ts';
import { WAYS_OF_WRITING } from '../support/ways-of-writing.ts';

const target = shippedTarget('joined-or');
if (target === null) throw new Error('the default target is gone');
const options = { target, ticks: null, effort: 'normal', seed: 1, explain: false, version: 'bench' } as const;
const catalogue = catalogueBytes();

console.log('An adder of 4 in three ways of writing');
const sizes: number[] = [];
for (const [way, text] of WAYS_OF_WRITING) {
  const [{ ticks, parts, proof }] = optimize('adder', text, {}, { ...options, catalogue }).result.points;
  console.log(`  ${way.padEnd(18)} ${ticks}:${parts} ${proof.verdict}`);
  if (proof.verdict !== 'equal') process.exitCode = 1;
  sizes.push(parts);
}
const apart = (Math.max(...sizes) / Math.min(...sizes) - 1) * 100;
console.log(`  largest above smallest +${apart.toFixed(1)} %, 5 % allowed`);
