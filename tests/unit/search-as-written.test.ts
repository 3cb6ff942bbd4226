// The baseline: what a careful builder lays when every operator becomes the gate it names. Expected figures are counted
// by hand from the costs of the gates (OR 0, NOR 1, NAND 2, AND one more than its operands, XOR 3, XNOR 4 parts).

import { describe, expect, test } from 'vitest';
import { outputTicks } from '../../src/network/levels.ts';
import { asWrittenDraft, asWrittenNetwork } from '../../src/search/as-written.ts';
import { outputLevels } from '../support/naive-evaluator.ts';
import { brokenLaws } from '../support/network-laws.ts';
import { seededRandom } from '../support/seeded-random.ts';
import { systemOf, targetOf, taskOf } from '../support/system-of.ts';

/** `ticks:parts` as written, once the network is known to be right and within the limits of the target. */
function written(text: string, targetName: string, legs: number | null = null): string {
  const target = targetOf(targetName, legs);
  const system = systemOf(text);
  const task = taskOf(system, target);
  const network = asWrittenNetwork(task, asWrittenDraft(system, task));
  expect(brokenLaws(system, network, target)).toEqual([]);
  return `${Math.max(...outputTicks(network, task.rules))}:${network.size}`;
}

describe('every operator, by target', () => {
  test.each([
    //                                joined-or  nor-gates  joined-and
    ['x = a', '0:0', '0:0', '0:0'],
    ['x = 1', '0:0', '0:0', '0:0'],
    ['x = not a', '1:1', '1:1', '1:1'],
    ['x = not not a', '0:0', '0:0', '0:0'],
    ['x = a b', '2:3', '2:3', '0:0'],
    ['x = a b c', '2:4', '2:4', '0:0'],
    ['x = and(a, b, c, d)', '2:5', '2:5', '0:0'],
    ['x = a + b', '0:0', '2:2', '2:3'],
    ['x = a + b + c', '0:0', '2:2', '2:4'],
    ['x = a nand b', '1:2', '3:4', '1:1'],
    ['x = nand(a, b, c)', '1:3', '3:5', '1:1'],
    ['x = a nor b', '1:1', '1:1', '1:2'],
    ['x = nor(a, b, c)', '1:1', '1:1', '1:3'],
    ['x = not (a b)', '1:2', '3:4', '1:1'],
    ['x = not (a + b)', '1:1', '1:1', '1:2'],
    ['x = not (a nand b)', '2:3', '4:5', '2:2'],
    ['x = a ^ b', '2:3', '3:5', '2:4'],
    ['x = a xnor b', '2:4', '3:4', '2:3'],
    ['x = not (a ^ b)', '2:4', '3:4', '2:3'],
    ['x = not (a xnor b)', '2:3', '3:5', '2:4'],
    ['x = a <-> b', '2:4', '3:4', '2:3'],
    ['x = a ^ b ^ c', '4:6', '6:10', '4:6'],
    ['x = xnor(a, b, c)', '4:7', '6:9', '4:7'],
    ['x = a -> b', '1:1', '3:3', '2:2'],
    ['x = mux(a, b, c)', '2:5', '4:7', '3:4'],
    ['x = maj(a, b, c)', '2:9', '4:11', '2:4'],
  ])('%s', (text, joinedOr, norGates, joinedAnd) => {
    expect([written(text, 'joined-or'), written(text, 'nor-gates'), written(text, 'joined-and')]).toEqual([
      joinedOr,
      norGates,
      joinedAnd,
    ]);
  });
});

describe('rules', () => {
  test('nothing is shared but named signals', () => {
    expect(written('x = a b\ny = a b', 'joined-or')).toBe('2:6');
    expect(written('x = a b\ny = x + c', 'joined-or')).toBe('2:3');
    expect(written("x = a' b\ny = a' c", 'joined-or')).toBe('2:4'); // a' b is an inverter over a and the complement of b
  });

  test('a named complement is built once', () => {
    expect(written('n = not a\nx = n + b\ny = n + c\noutput x, y', 'joined-or')).toBe('1:1');
  });

  test('what no output needs is left out', () => {
    expect(written('x = a b\ny = a + b\noutput y', 'joined-or')).toBe('0:0');
  });

  test('a rail that is there is used', () => {
    expect(written('input a low, b low\nx = a b', 'joined-or')).toBe('1:1');
    expect(written('input a low, b\nx = a b', 'joined-or')).toBe('2:2');
    expect(written('input a both, b both\nx = a b', 'joined-or')).toBe('1:1');
    expect(written('input a low\nx = a\noutput x low', 'joined-or')).toBe('0:0');
    expect(written('x = a b\noutput x low', 'joined-or')).toBe('3:4');
    expect(written('x = a nand b\noutput x both', 'joined-or')).toBe('2:3');
  });

  test('late inputs count', () => {
    expect(written('input a @ 3, b\nx = a b', 'joined-or')).toBe('5:3');
  });
});

describe('over the leg limit gates become balanced trees', () => {
  test.each([
    ['x = or(a, b, c, d, e)', 'joined-or', 4, '2:4'],
    ['x = nor(a, b, c, d, e)', 'joined-or', 4, '3:5'],
    ['x = nor(a, b, c, d)', 'joined-or', 4, '1:1'],
    ['x = a b c d e', 'joined-or', 4, '4:10'],
    ['x = nor(a, b, c)', 'nor-gates', 2, '3:3'],
    ['x = or(a, b, c, d)', 'nor-gates', 2, '4:6'],
    ['x = a b c', 'nor-gates', 2, '4:6'],
    ['x = a + b', 'joined-or', 2, '0:0'],
    ['x = a ^ b', 'nor-gates', 2, '3:5'],
  ])('%s, %s, %i legs: %s', (text, target, legs, expected) => {
    expect(written(text, target, legs)).toBe(expected);
  });
});

describe('8-bit ripple adder', () => {
  const bits = [0, 1, 2, 3, 4, 5, 6, 7];
  const text = [
    ...bits.flatMap((i) => [
      `p${i} = a${i} ^ b${i}`,
      `g${i} = a${i} b${i}`,
      `s${i} = p${i} ^ c${i}`,
      `c${i + 1} = g${i} + p${i} c${i}`,
    ]),
    `output ${bits.map((i) => `s${i}`).join(', ')}, c8`,
  ].join('\n');

  test('takes 18 ticks and 96 parts as written, and adds', () => {
    const system = systemOf(text);
    const target = targetOf('joined-or');
    const task = taskOf(system, target);
    const network = asWrittenNetwork(task, asWrittenDraft(system, task));
    expect([Math.max(...outputTicks(network, task.rules)), network.size]).toEqual([18, 96]);
    const random = seededRandom(8);
    const names = network.inputs.map(({ signal }) => system.signals[signal]);
    for (let round = 0; round < 200; round++) {
      const numbers = {
        a: Math.floor(random() * 256),
        b: Math.floor(random() * 256),
        c: random() < 0.5 ? 0 : 1,
      };
      const levels = names.map(
        (name) => ((numbers[name[0] as keyof typeof numbers] >> Number(name.slice(1))) & 1) === 1,
      );
      const sum = outputLevels(network, levels, 'or').reduce(
        (total, bit, i) => total + (bit ? 2 ** i : 0),
        0,
      );
      expect(sum).toBe(numbers.a + numbers.b + numbers.c);
    }
  });
});
