// How good the answers are where nothing can be proved smallest: adders with carry-in from plain ripple equations.
// Quick effort, so that the figures say something about the moves of the search rather than about patience.

import { expect, test } from 'vitest';
import { legFaults } from '../../src/network/check-network.ts';
import { networkTicks } from '../../src/network/levels.ts';
import { prove } from '../../src/proof/prove.ts';
import { foundNetwork, search, systemOf, targetOf } from '../support/system-of.ts';
import { FigureRecord } from './record.ts';

const record = new FigureRecord(new URL('adders.json', import.meta.url));

function rippleAdder(bits: number): string {
  const each = (line: (bit: number) => string): string[] => Array.from({ length: bits }, (_, i) => line(i));
  return [
    `input ${each((i) => `a${i}, b${i}`).join(', ')}, c0`,
    ...each((i) => `p${i} = a${i} ^ b${i}\ng${i} = a${i} b${i}`),
    ...each((i) => `s${i} = p${i} ^ c${i}\nc${i + 1} = g${i} + p${i} c${i}`),
    `output ${each((i) => `s${i}`).join(', ')}, c${bits}`,
  ].join('\n');
}

test.each([
  [4, 4, 'joined-or'],
  [8, 4, 'joined-or'],
  [8, 5, 'joined-or'],
])('%i bits, at most %i ticks, %s: no worse than recorded, and proved equal', (bits, ticks, name) => {
  const target = targetOf(name);
  const searched = search(systemOf(rippleAdder(bits)), { target, ticks, effort: 'quick' });
  const network = foundNetwork(searched);
  expect(prove(searched.system, network, 'or').verdict).toBe('equal');
  expect(legFaults(network, target)).toEqual([]);
  expect(networkTicks(network, searched.task.rules)).toBeLessThanOrEqual(ticks);
  const answer = searched.outcome.answer;
  const figures = {
    ticks: answer?.ticks ?? Number.NaN,
    parts: answer?.inverters ?? Number.NaN,
    proved: answer?.sizeProved === true && answer.ticksProved,
  };
  record.expectNoWorse(`${bits} bits, ${ticks} ticks, ${name}`, figures, 'parts');
});

// Without help: written as ripple the 8-bit adder takes 18 ticks and 96 parts.
test('8 bits: the default answer is there in at most four ticks', () => {
  const searched = search(systemOf(rippleAdder(8)), { effort: 'quick' });
  expect(prove(searched.system, foundNetwork(searched), 'or').verdict).toBe('equal');
  expect(searched.outcome.answer?.ticks).toBeLessThanOrEqual(4);
  expect(searched.outcome.answer?.inverters).toBeLessThan(96);
});

test('every recorded adder is there', () => {
  record.close();
});
