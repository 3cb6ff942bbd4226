// What counts as better and as worse.

import { expect, test } from 'vitest';
import { compareFigures, FigureRecord } from './record.ts';

const REFERENCE = { ticks: 3, parts: 8, proved: false };

test.each([
  ['the same', REFERENCE, 0],
  ['fewer ticks count more than parts', { ...REFERENCE, ticks: 2, parts: 99 }, -1],
  ['more ticks', { ...REFERENCE, ticks: 4, parts: 1, proved: true }, 1],
  ['fewer parts', { ...REFERENCE, parts: 7 }, -1],
  ['more parts', { ...REFERENCE, parts: 9, proved: true }, 1],
  ['now proved', { ...REFERENCE, proved: true }, -1],
])('%s', (_, figures, sign) => {
  expect(Math.sign(compareFigures(figures, REFERENCE, 'ticks'))).toBe(sign);
  expect(Math.sign(compareFigures(REFERENCE, figures, 'ticks'))).toBe(sign === 0 ? 0 : -sign);
});

test('where ticks were allowed, fewer parts count more than ticks', () => {
  expect(compareFigures({ ...REFERENCE, ticks: 9, parts: 7 }, REFERENCE, 'parts')).toBeLessThan(0);
  expect(compareFigures({ ...REFERENCE, ticks: 4 }, REFERENCE, 'parts')).toBeGreaterThan(0);
});

test('worse than recorded fails and says by what', () => {
  const record = new FigureRecord(new URL('examples.json', import.meta.url));
  const worse = { ticks: 3, parts: 6, proved: true };
  expect(() => record.expectNoWorse('01-lookahead-carry.logic', worse, 'ticks')).toThrow(
    'worse than recorded: 01-lookahead-carry.logic: 3 ticks, 6 parts, proved; recorded were 2 ticks, 6 parts, proved',
  );
});
