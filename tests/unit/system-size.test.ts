// Systems that are too large are refused at once, in words; those at the limits are not.

import { describe, expect, test } from 'vitest';
import { MOST_IN_A_SYSTEM, tooLarge } from '../../src/equations/system-size.ts';
import { optimize } from '../../src/tickwright.ts';
import { systemOf, targetOf } from '../support/system-of.ts';

const names = (count: number): string[] => Array.from({ length: count }, (_, i) => `n${i}`);
const sum = (count: number): string => `x = ${names(count).join(' + ')}`;
const outputs = (count: number): string =>
  names(count)
    .map((name) => `${name} = a b`)
    .join('\n');
/** A chain of n operators over two inputs. */
const chain = (count: number): string =>
  `output n${count - 1}\n${names(count)
    .map((name, i) => `${name} = a ${i % 2 === 0 ? 'and' : 'or'} ${i === 0 ? 'b' : `n${i - 1}`}`)
    .join('\n')}`;

describe('a system may have', () => {
  test.each([
    ['inputs', sum],
    ['outputs', outputs],
    ['operators', chain],
  ] as const)('so many %s and no more', (what, text) => {
    const most = MOST_IN_A_SYSTEM[what];
    expect(tooLarge(systemOf(text(most)))).toBe(null);
    expect(tooLarge(systemOf(text(most + 1)))?.message).toBe(
      `these equations have ${most + 1} ${what}, and at most ${most} can be searched together`,
    );
  });
});

test('a sum of a hundred thousand inputs is refused before anything is tabulated', () => {
  const target = targetOf('joined-or');
  const options = {
    target,
    ticks: null,
    effort: 'normal',
    seed: 1,
    explain: false,
    version: 'test',
  } as const;
  const { result, diagnostics } = optimize('hall', sum(100_000), {}, options);
  expect(result.points).toEqual([]);
  expect(diagnostics.map(({ code }) => code)).toEqual(['too-large']);
});
