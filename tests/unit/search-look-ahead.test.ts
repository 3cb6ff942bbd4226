// Look-ahead in blocks: right whatever the rails, and low rails and gated sums cost few ticks or none.

import { describe, expect, test } from 'vitest';
import { decomposed } from '../../src/search/decompose.ts';
import { firstWrongRow } from '../../src/search/draft.ts';
import { lookAheadDrafts } from '../../src/search/look-ahead.ts';
import { systemTables } from '../../src/truth/system-tables.ts';
import { disguisedAdder } from '../support/families.ts';
import { seededRandom } from '../support/seeded-random.ts';
import { systemOf, targetOf, taskOf } from '../support/system-of.ts';

const TARGETS = ['joined-or', 'joined-and'];

/** An adder of six; `low` names what is active-low, and sum 2 is gated when `isGated`. */
function adder(low: readonly string[], isGated: boolean): string {
  const named = (name: string): string => `${name}${low.includes(name) ? ' low' : ''}`;
  const lanes = [0, 1, 2, 3, 4, 5];
  return [
    `input ${lanes.map((i) => `${named(`a${i}`)}, ${named(`b${i}`)}`).join(', ')}, ${named('c0')}, gate`,
    `output ${lanes.map((i) => named(`s${i}`)).join(', ')}, c6`,
    ...lanes.map((i) => `h${i} = a${i} ^ b${i}\nc${i + 1} = a${i} b${i} + h${i} c${i}`),
    ...lanes.map((i) => (isGated && i === 2 ? `s2 = (h2 ^ c2) gate` : `s${i} = h${i} ^ c${i}`)),
  ].join('\n');
}

/** Latest tick of the fastest shape; every shape is right. */
function fastestShape(text: string, name: string, isAnew: boolean): number {
  const system = systemOf(text);
  const target = targetOf(name);
  const task = taskOf(system, target);
  const tables = systemTables(system);
  const like = isAnew ? decomposed(system, tables) : system;
  if (like === null) throw new Error('does not come apart');
  const shapes = lookAheadDrafts(like, isAnew ? systemTables(like) : tables, task, target);
  for (const { draft } of shapes) expect(firstWrongRow(task, draft)).toBe(-1);
  return Math.min(...shapes.map(({ ticks }) => Math.max(...ticks)));
}

describe.each([
  ['as written', false],
  ['made anew', true],
])('%s', (_, isAnew) => {
  test.each([
    ['all active-high', [], false, 4],
    ['low sums', ['s2', 's5'], false, 4],
    ['a gated sum', [], true, 4],
    ['a gated low sum', ['s2'], true, 4],
    ['a low operand', ['b3'], false, 5],
    ['low operands, one carry-in and one gated sum among them', ['a1', 'b1', 'b4', 'c0', 's2'], true, 5],
  ] as const)('%s', (_, low, isGated, ticks) => {
    expect(fastestShape(adder(low, isGated), 'joined-or', isAnew)).toBeLessThanOrEqual(ticks);
  });
});

test.each(TARGETS)('%s: every shape of a disguised adder is right', (name) => {
  const random = seededRandom(3);
  const draw = (below: number): number => Math.floor(random() * below);
  for (let n = 0; n < 8; n++) {
    const { text } = disguisedAdder(7, draw);
    for (const isAnew of [false, true]) expect(fastestShape(text, name, isAnew)).toBeLessThan(20);
  }
});

test('a product with a parity comes apart as a product', () => {
  const system = systemOf('x = (a ^ b ^ c ^ d) e');
  const last = decomposed(system, systemTables(system))?.definitions.at(-1);
  expect(last?.expression.kind).toBe('and');
});
