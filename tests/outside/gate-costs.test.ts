// What the gates of the trade cost when there are only inverters and joined wires.

import { describe, expect, test } from 'vitest';
import { fastest } from '../../src/search/fastest.ts';
import { makeTask } from '../../src/search/task.ts';
import { optimize } from '../../src/tickwright.ts';
import { systemTables } from '../../src/truth/system-tables.ts';
import { rippleAdderText } from '../support/families.ts';
import { brokenLaws } from '../support/network-laws.ts';
import { figures, foundNetwork, search, systemOf, targetOf, writtenFigures } from '../support/system-of.ts';

/** `ticks:parts` of the answer, once it is known to be proved and to keep every law. */
function proved(text: string, targetName: string, legs: number | null = null, ticks: number | null = null) {
  const target = targetOf(targetName, legs);
  const searched = search(text, { target, ticks });
  expect(brokenLaws(searched.system, foundNetwork(searched), target)).toEqual([]);
  expect(searched.outcome.answer?.sizeProved).toBe(true);
  return { found: figures(searched), written: writtenFigures(searched), outcome: searched.outcome };
}

const JOINED_OR = ['joined-or', 'joined-or-single', 'joined-or-4'];

describe.each(JOINED_OR)('joined wires are OR: %s', (target) => {
  // Common practice for the ticks: OR 0, NOR 1, NAND 1, AND 2. Own, exhaustive: the parts.
  test.each([
    ['or', 'x = a + b', '0:0'],
    ['nor', 'x = a nor b', '1:1'],
    ['nand', 'x = a nand b', '1:2'],
    ['and', 'x = a b', '2:3'],
    ['a wire alone', 'x = a', '0:0'],
    ['not', 'x = not a', '1:1'],
    ['xor', 'x = a xor b', '2:3'],
    ['xnor', 'x = a xnor b', '2:4'],
  ])('%s: %s is %s, as written and found', (_, text, expected) => {
    const { found, written, outcome } = proved(text, target);
    expect([found, written]).toEqual([expected, expected]);
    // Under a limit on legs the figure by itself is a lower bound; the network that meets it makes it exact.
    expect(outcome.fastest).toMatchObject({ ticks: Number(expected[0]), exact: target !== 'joined-or-4' });
    expect(outcome.answer?.ticksProved).toBe(true);
  });
});

describe('joined wires are AND', () => {
  // Common practice: open-collector outputs may be joined and give AND at once. The rest is the mirror image of the
  // figures for OR, derived.
  test.each([
    ['and', 'x = a b', '0:0'],
    ['nand', 'x = a nand b', '1:1'],
    ['nor', 'x = a nor b', '1:2'],
    ['or', 'x = a + b', '2:3'],
    ['a wire alone', 'x = a', '0:0'],
    ['not', 'x = not a', '1:1'],
    ['xnor', 'x = a xnor b', '2:3'],
    ['xor', 'x = a xor b', '2:4'],
  ])('%s: %s is %s, as written and found', (_, text, expected) => {
    const { found, written } = proved(text, 'joined-and');
    expect([found, written]).toEqual([expected, expected]);
  });
});

const HALF_ADDER = 'sum = a ^ b\ncarry = a b';
const FULL_ADDER = 'half = a ^ b\nsum = half ^ c\ncarry = a b + half c\noutput sum, carry';

/** More than any of these networks needs: the published counts are of gates, however slow. */
const ANY_TICKS = 30;

describe('two-input NOR gates', () => {
  // From memory: common textbook results for networks of two-input NOR gates.
  test.each([
    ['not', 'x = not a', 1],
    ['or', 'x = a + b', 2],
    ['and', 'x = a b', 3],
    ['nand', 'x = a nand b', 4],
    ['xor', 'x = a xor b', 5],
    ['xnor', 'x = a xnor b', 4],
    ['half adder', HALF_ADDER, 5],
    ['full adder', FULL_ADDER, 9],
  ])('%s, %s, takes %i', (_, text, gates) => {
    const { found, outcome } = proved(text, 'nor-gates', 2, ANY_TICKS);
    expect(Number(found.split(':')[1])).toBe(gates);
    expect(outcome.answer?.network.legs.length).toBeLessThanOrEqual(2 * gates);
  });
});

describe('two-input NAND gates', () => {
  // From memory: common textbook results for networks of two-input NAND gates. A network of NAND gates is one of NOR gates
  // for the dual function: every level, inputs and outputs among them, turned round.
  test.each([
    ['not', 'x = not a', 1],
    ['and', 'x = a + b', 2],
    ['or', 'x = a b', 3],
    ['nor', 'x = a nand b', 4],
    ['xor', 'x = a xnor b', 4],
    ['xnor', 'x = a xor b', 5],
    ['half adder', 'sum = a xnor b\ncarry = a + b', 5],
    ['full adder', 'half = a xnor b\nsum = half xnor c\ncarry = (a + b) (half + c)\noutput sum, carry', 9],
  ])('%s, by its dual %s, takes %i', (_, text, gates) => {
    expect(Number(proved(text, 'nor-gates', 2, ANY_TICKS).found.split(':')[1])).toBe(gates);
  });
});

describe('levels of NOR gates', () => {
  // Published (abstract; about 1963): E. J. McCluskey, logical design theory of NOR networks without complemented inputs:
  // three levels suffice.
  test('no function of three inputs needs more than three, and some need three', () => {
    const target = targetOf('nor-gates');
    const levels = Array.from({ length: 256 }, (_, bits) => {
      const rows = Array.from({ length: 8 }, (_, row) => row).filter((row) => (bits >> row) & 1);
      const sum = rows.length === 0 ? '0' : rows.length === 8 ? '1' : null;
      const text = `input a, b, c\nf${sum === null ? `(a, b, c) = minterms(${rows.join(', ')})` : ` = ${sum}`}`;
      const system = systemOf(text);
      return fastest(makeTask(system, systemTables(system), target)).ticks;
    });
    expect(Math.max(...levels)).toBe(3);
  });

  // The same: in a'b + ab' a gate of the first level that both products share beats separate complements.
  test('the shared first gate of an exclusive OR', () => {
    const { found, written } = proved("x = a' b + a b'", 'nor-gates', null, ANY_TICKS);
    expect(Number(found.split(':')[1])).toBe(5);
    expect(Number(written.split(':')[1])).toBeGreaterThan(5);
  });
});

describe('NOR gates with any number of inputs', () => {
  // Own, exhaustive.
  test.each([
    ['xnor', 'x = a xnor b', 4],
    ['xor', 'x = a xor b', 5],
  ])('%s, %s, takes %i', (_, text, gates) => {
    expect(Number(proved(text, 'nor-gates', null, ANY_TICKS).found.split(':')[1])).toBe(gates);
  });

  // Published (abstract): H. C. Lai, S. Muroga, "Minimum Parallel Binary Adders with NOR (NAND) Gates", IEEE Trans.
  // Computers 28 (1979) 648-659. From memory: their count 7n + 1, so 8 for one bit.
  test('a full adder takes 8', () => {
    expect(proved(FULL_ADDER, 'nor-gates', null, ANY_TICKS).found).toMatch(/:8$/);
  });

  // As many as they prove; here it is the best found.
  test('an adder of two bits takes 15', () => {
    const wishes = { ticks: null, frontier: true, seed: 1, effort: 'quick', explain: false } as const;
    const options = { ...wishes, target: targetOf('nor-gates'), version: 'test' };
    const { points } = optimize('adder', rippleAdderText(2), {}, options).result;
    expect(points[points.length - 1]).toMatchObject({ parts: 15, proof: { verdict: 'equal' } });
  });
});
