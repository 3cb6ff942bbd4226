// Systems that are too large are refused at once, in words; those at the limits are not.

import { describe, expect, test } from 'vitest';
import { MOST_IN_A_SYSTEM, MOST_UNASKED, operatorCount, tooLarge } from '../../src/equations/system-size.ts';
import { asWrittenDraft } from '../../src/search/as-written.ts';
import { isInOutline } from '../../src/search/outline.ts';
import { sampleTables } from '../../src/search/sample.ts';
import { makeTask } from '../../src/search/task.ts';
import { optimize } from '../../src/tickwright.ts';
import { fitsTables } from '../../src/truth/system-tables.ts';
import { rippleAdderText } from '../support/families.ts';
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
    expect(tooLarge(systemOf(text(most)), true)).toBe(null);
    expect(tooLarge(systemOf(text(most + 1)), true)?.message).toBe(
      `these equations have ${most + 1} ${what}, and at most ${most} can be searched together`,
    );
  });
});

const options = {
  target: targetOf('joined-or'),
  ticks: null,
  effort: 'normal',
  seed: 1,
  explain: false,
  version: 'test',
} as const;

test('a sum of a hundred thousand inputs is refused before anything is tabulated', () => {
  const { result, diagnostics } = optimize('hall', sum(100_000), {}, options);
  expect(result.points).toEqual([]);
  expect(diagnostics.map(({ code }) => code)).toEqual(['too-large']);
});

/** Stages with inputs of their own, each one step further. */
const stages = (count: number, lane = ''): string =>
  names(count)
    .map((_, i) => `x${lane}${i + 1} = x${lane}${i} a${lane}${i} + b${lane}${i}`)
    .join('\n');

test('more than so many operators are searched when they are asked for', () => {
  const wide = (count: number): string => `input ${names(9).map((n) => `in_${n}`)}, a, b\n${chain(count)}`;
  const system = systemOf(wide(MOST_UNASKED.operators + 1));
  expect(tooLarge(systemOf(wide(MOST_UNASKED.operators)), false)).toBe(null);
  // With few inputs every operator is quick: such systems are truth tables mostly.
  expect(tooLarge(systemOf(chain(MOST_UNASKED.operators + 1)), false)).toBe(null);
  expect(tooLarge(system, true)).toBe(null);
  expect(tooLarge(system, false)).toMatchObject({
    message: 'these equations have 8001 operators, and at most 8000 are searched without being asked for',
    hint: 'cut them into parts, or ask with --effort deep, which takes up to 20000 and may take hours',
  });
});

describe('what hangs together', () => {
  test('operators of never lines and of free patterns count too', () => {
    expect(operatorCount(systemOf('x = a b c; never a d; free x: a + b'))).toBe(4);
  });

  test('may have so many operators where tables are not whole, and more with an effort of deep', () => {
    // Twenty operators for each input, so that the limit on inputs is not met first.
    const tall = (count: number): string =>
      `output n${count - 1}\n${names(count)
        .map(
          (name, i) =>
            `${name} = i${Math.floor(i / 20)} ${i % 2 === 0 ? 'and' : 'or'} ${i === 0 ? 'b' : `n${i - 1}`}`,
        )
        .join('\n')}`;
    const { result, diagnostics } = optimize('hall', tall(MOST_UNASKED.together + 1), {}, options);
    expect(result.stop).toBe('faults');
    expect(diagnostics.map(({ message }) => message)).toEqual([
      'these equations have 4001 operators that hang together over 202 inputs, and at most 4000 are searched without being asked for',
    ]);
    expect(diagnostics[0]?.hint).toContain('--effort deep');
  });

  test('counts by independent parts: many small ones are searched', () => {
    const text = Array.from({ length: 30 }, (_, lane) => `output x${lane}_9\n${stages(9, `${lane}_`)}`).join(
      '\n',
    );
    const { result } = optimize('hall', text, {}, { ...options, effort: 'quick' });
    expect(result.points.map(({ proof }) => proof.verdict)).toEqual(['equal']);
  });
});

describe('in outline', () => {
  const isOutlined = (text: string, asked: Partial<Parameters<typeof isInOutline>[2]> = {}): boolean => {
    const system = systemOf(text);
    const wide = !fitsTables(system);
    const tables = sampleTables(system, 1);
    const task = makeTask(system, tables, options.target, !wide);
    return isInOutline(task, asWrittenDraft(system, task), { ticks: null, effort: 'normal', ...asked });
  };

  test('adders of up to 64 bits are searched whole, up to 128 when more is asked, and all with an effort of deep', () => {
    expect([64, 80, 300].map((bits) => isOutlined(rippleAdderText(bits)))).toEqual([false, true, true]);
    expect(isOutlined(rippleAdderText(128), { ticks: 6 })).toBe(false);
    expect(isOutlined(rippleAdderText(128), { frontier: true })).toBe(false);
    expect(isOutlined(rippleAdderText(300), { ticks: 6 })).toBe(true);
    expect(isOutlined(rippleAdderText(300), { effort: 'deep' })).toBe(false);
  });

  test('a chain of 400 stages has its few networks, proved, and says so', () => {
    const text = `output x400\n${stages(400)}`;
    const { result, diagnostics } = optimize('hall', text, {}, options);
    const [point] = result.points;
    expect(diagnostics.map(({ code }) => code)).toEqual(['in-outline']);
    expect(result.stop).toBe('limit');
    expect(point?.proof.verdict).toBe('equal');
    expect(point?.ticks).toBeLessThanOrEqual(4);
    expect(point?.parts).toBeLessThanOrEqual(1200);
    expect(result.asWritten).toEqual({ ticks: 800, parts: 1200 });
  });

  test('a long parity is laid as a tree', () => {
    const text = `y = ${names(700).join(' ^ ')}`;
    const { points } = optimize('hall', text, {}, options).result;
    expect(points.map(({ ticks, parts, proof }) => [ticks, parts, proof.verdict])).toEqual([
      [20, 2097, 'equal'],
    ]);
  });
});
