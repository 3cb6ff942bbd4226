// Results that pictures are made of: the examples that everybody knows, and adders of some size.

import { readFileSync } from 'node:fs';
import ElkLibrary from 'elkjs/lib/elk.bundled.js';
import type { ELK } from 'elkjs/lib/elk-api.js';
import type { Result } from '../../src/report/result.ts';
import { optimize } from '../../src/tickwright.ts';
import { targetOf } from './system-of.ts';

export const library = new (ElkLibrary as unknown as new () => ELK)();

/** An adder of so many bits, as ripple. */
export function rippleAdder(bits: number): string {
  const each = (line: (bit: number) => string): string[] => Array.from({ length: bits }, (_, i) => line(i));
  return [
    `input ${each((i) => `a${i}, b${i}`).join(', ')}, c0`,
    ...each((i) => `p${i} = a${i} ^ b${i}\ng${i} = a${i} b${i}`),
    ...each((i) => `s${i} = p${i} ^ c${i}\nc${i + 1} = g${i} + p${i} c${i}`),
    `output ${each((i) => `s${i}`).join(', ')}, c${bits}`,
  ].join('\n');
}

const example = (name: string): string =>
  readFileSync(new URL(`../../examples/${name}.logic`, import.meta.url), 'utf8');

export const PICTURED: Readonly<Record<string, () => string>> = {
  'look-ahead carry': () => example('01-lookahead-carry'),
  'full adder': () => example('04-full-adder'),
  'adder of 4 bits': () => rippleAdder(4),
  'adder of 8 bits': () => rippleAdder(8),
};

const made = new Map<string, Result>();

/** The result of one of these, found once. */
export function picturedResult(name: string): Result {
  const known = made.get(name);
  if (known !== undefined) return known;
  const { result } = optimize(
    name,
    PICTURED[name](),
    {},
    {
      target: targetOf('joined-or'),
      ticks: name.includes('bits') ? 4 : null,
      effort: 'quick',
      seed: 1,
      explain: true,
      version: 'test',
    },
  );
  made.set(name, result);
  return result;
}
