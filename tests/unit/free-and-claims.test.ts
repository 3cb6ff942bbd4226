// Free rows are used, each as one choice; a chain of equals is proved link by link.

import { describe, expect, test } from 'vitest';
import { optimize } from '../../src/tickwright.ts';
import { brokenLaws } from '../support/network-laws.ts';
import { foundNetwork, search, targetOf } from '../support/system-of.ts';

function read(text: string, letters = false) {
  const target = targetOf('joined-or');
  const options = {
    target,
    ticks: null,
    effort: 'quick',
    seed: 1,
    explain: false,
    letters,
    version: '',
  } as const;
  return optimize('text', text, {}, options);
}

describe('free rows', () => {
  test('are chosen so that the network gets small', () => {
    const searched = search("x = a b; free x: a' b");
    expect(foundNetwork(searched).size).toBe(0);
    expect(brokenLaws(searched.system, foundNetwork(searched), searched.target, {})).toEqual([]);
  });

  test('of a table: a decimal digit is even, ten to fifteen cannot come', () => {
    const digits = search('even(d3, d2, d1, d0) = minterms(0, 2, 4, 6, 8) + free(10..15)');
    expect(foundNetwork(digits).size).toBe(1);
    const fixed = search('even(d3, d2, d1, d0) = minterms(0, 2, 4, 6, 8)');
    expect(foundNetwork(fixed).size).toBeGreaterThan(1);
  });

  test('of a signal that another equation mentions stay as they are defined, so that both see the same', () => {
    const searched = search("x = a b; free x: a' b; y = x c");
    expect(foundNetwork(searched).size).toBeGreaterThan(0);
    expect(brokenLaws(searched.system, foundNetwork(searched), searched.target, {})).toEqual([]);
  });

  test('are not held against the network by the proof, other rows are', () => {
    const { result } = read("x = a b; free x: a' b");
    expect(result.points[0].proof.verdict).toBe('equal');
    expect(result.points[0].parts).toBe(0);
  });
});

describe('a chain of equals', () => {
  test('passes when every right side is the same', () => {
    const { result } = read("c2 = g1 + p1 g0 + p1 p0 c0 = g1 + p1 (g0 + p0 c0) = (g1' (p1 (g0 + p0 c0))')'");
    expect(result.notices).toEqual([]);
    expect(result.points).toHaveLength(1);
  });

  test('fails at the right side that is wrong, with the smallest pattern', () => {
    const { result, diagnostics } = read('c = a b = b a = a + b');
    expect(result.points).toEqual([]);
    expect(diagnostics.map(({ code, message }) => [code, message])).toEqual([
      ['derivation-wrong', 'this right side is not c: with a = 1, b = 0 it is 1, and c is 0'],
    ]);
    expect(result.notices[0]).toMatchObject({ line: 1, column: 17 });
  });

  test('is judged on what can happen only', () => {
    expect(read('never g p; h = g ^ p = g + p').result.notices).toEqual([]);
  });
});

test('letters can be asked for from outside', () => {
  const { result } = read("F = AB' + A'B", true);
  expect(result.points[0].network.inputs.map(({ name }) => name)).toEqual(['A', 'B']);
  expect(result.points[0].parts).toBe(3);
});
