// Deadlines, late arrivals and patterns that cannot happen: each changes the answer in the direction it should.

import { describe, expect, test } from 'vitest';
import { outputTicks } from '../../src/network/levels.ts';
import { brokenLaws } from '../support/network-laws.ts';
import { figures, foundNetwork, type Searched, search, targetOf } from '../support/system-of.ts';

const ADDER = 'half = a ^ b\nsum = half ^ c\ncarry = a b + half c\n';

function checked(text: string, ticks: number | null = null): Searched {
  const searched = search(text, { ticks });
  expect(brokenLaws(searched.system, foundNetwork(searched), searched.target)).toEqual([]);
  expect(searched.outcome.answer?.sizeProved).toBe(true);
  return searched;
}

/** Ticks of the outputs, in order, then parts. */
function detail(searched: Searched): string {
  const network = foundNetwork(searched);
  return `${outputTicks(network, searched.task.rules).join(' ')}: ${network.size}`;
}

describe('deadlines', () => {
  test('more time for the sum: fewer parts, and the carry stays as fast as it can be', () => {
    expect(detail(checked(`${ADDER}output sum, carry`))).toBe('2 2: 10');
    expect(detail(checked(`${ADDER}output sum by 3, carry`))).toBe('3 2: 9');
    expect(detail(checked(`${ADDER}output sum by 9, carry`))).toBe('3 2: 9');
  });

  test('more time for all: the smallest network', () => {
    expect(checked(`${ADDER}output sum by 5, carry by 5`).outcome.answer?.network.size).toBe(7);
    expect(checked(`${ADDER}output sum by 3, carry by 3`).outcome.answer?.network.size).toBe(8);
  });

  test('a deadline goes before the budget', () => {
    // Alone the carry would settle for anything; by 1 on the low rail it must be three NORs.
    expect(detail(checked(`${ADDER}output carry low by 1`))).toBe('1: 3');
    expect(detail(checked(`${ADDER}output sum by 30, carry low by 1`))).toBe('3 1: 8');
  });

  test('a deadline that nothing can meet gives no network, and says what could be met', () => {
    const { outcome } = search(`${ADDER}output sum by 1, carry`);
    expect(outcome.answer).toBeNull();
    expect(outcome.fastest).toMatchObject({ ticks: 2, withDeadlines: null, each: [2, 2] });
    expect(outcome.stop).toBe('complete');
  });

  test('a wish for ticks and a deadline hold together', () => {
    expect(detail(checked(`${ADDER}output sum, carry by 2`, 3))).toBe('3 2: 9');
  });
});

describe('late arrivals', () => {
  test('all inputs later by the same: everything is later by as much, nothing else changes', () => {
    const one = checked(`input a, b, c\n${ADDER}output sum, carry`);
    const other = checked(`input a @ 4, b @ 4, c @ 4\n${ADDER}output sum, carry`);
    expect(figures(one)).toBe('2:10');
    expect(figures(other)).toBe('6:10');
  });

  test('one late input never helps, and passes two inverters where it counts positively', () => {
    let before = 0;
    for (const late of [0, 1, 2, 3, 4]) {
      const { ticks } = checked(`input a, b, c @ ${late}\n${ADDER}output sum, carry`).outcome.fastest;
      expect(ticks).toBe(Math.max(before, late + 2));
      before = ticks;
    }
  });

  test('a late input that counts negatively only costs one tick', () => {
    expect(checked("input a, b, c @ 5\nx = a b c'").outcome.fastest.ticks).toBe(6);
    expect(checked('input a, b, c @ 5\nx = a b + c').outcome.fastest.ticks).toBe(5);
    expect(checked('input a, b, c @ 5 low\nx = a b c').outcome.fastest.ticks).toBe(6);
  });

  test('time until a late input arrives is used to save parts', () => {
    const early = checked('input a, b, c, d\nx = a ^ b ^ c ^ d');
    const late = checked('input a, b, c, d @ 4\nx = a ^ b ^ c ^ d');
    expect(late.outcome.fastest.ticks).toBe(6);
    expect(foundNetwork(late).size).toBeLessThan(foundNetwork(early).size);
  });
});

describe('patterns that cannot happen', () => {
  test('generate and propagate of a half adder are never both 1: XOR becomes OR', () => {
    expect(figures(checked('x = g ^ p'))).toBe('2:3');
    expect(figures(checked('x = g ^ p\nnever g p'))).toBe('0:0');
  });

  test('a `never` is free for the optimizer: never more ticks, never more parts', () => {
    const text = 'carry = g + p c\nsum = p ^ c\n';
    const plain = checked(text);
    const free = checked(`${text}never g p`);
    expect(foundNetwork(free).size).toBeLessThanOrEqual(foundNetwork(plain).size);
    expect(free.outcome.fastest.ticks).toBeLessThanOrEqual(plain.outcome.fastest.ticks);
  });

  test('one-hot lines: the decoder of a decimal digit needs joins only', () => {
    const lines = ['crate0', 'crate1', 'crate2', 'crate3'];
    const pairs = lines.flatMap((one, i) => lines.slice(i + 1).map((two) => `never ${one} ${two}`));
    const text = `odd = crate1 ^ crate3\nupper = crate2 ^ crate3 ^ (crate0 crate1)\n${pairs.join('\n')}`;
    expect(figures(checked(text))).toBe('0:0');
  });

  test('joins that are AND use it as well', () => {
    const target = targetOf('joined-and');
    const searched = search("x = g xnor p\nnever g' p'", { target });
    expect(figures(searched)).toBe('0:0');
    expect(brokenLaws(searched.system, foundNetwork(searched), target)).toEqual([]);
  });
});
