// How good the answers are for the examples: ticks and parts of the network that is shown by default, for the default
// target, against the recorded ones.

import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { SHIPPED_TARGETS } from '../../src/target/shipped-targets.ts';
import { optimize } from '../../src/tickwright.ts';
import { catalogueBytes } from '../support/shipped-catalogue.ts';
import { FigureRecord, type Figures } from './record.ts';

const EXAMPLES = new URL('../../examples/', import.meta.url);
const record = new FigureRecord(new URL('examples.json', import.meta.url));

function figuresOf(file: string): Figures {
  const text = readFileSync(new URL(file, EXAMPLES), 'utf8');
  const options = {
    target: SHIPPED_TARGETS[0],
    ticks: null,
    effort: 'normal' as const,
    seed: 1,
    explain: false,
    version: 'test',
    catalogue: catalogueBytes(),
  };
  const { result } = optimize(file, text, {}, options);
  expect(result.notices.filter(({ severity }) => severity === 'error')).toEqual([]);
  const [point] = result.points;
  expect(point.proof.verdict).toBe('equal');
  return { ticks: point.ticks, parts: point.parts, proved: point.ticksProved && point.partsProved };
}

const files = readdirSync(EXAMPLES)
  .filter((file) => file.endsWith('.logic'))
  .sort();

test.each(files)('%s is no worse than recorded', { timeout: 120_000 }, (file) => {
  record.expectNoWorse(file, figuresOf(file), 'ticks');
});

test('every recorded example is there', () => {
  record.close();
});
