// What joined wires do: the simulation that takes tied wires as one node, against a network that feeds back and the same
// network with separate wires; and the scene of the carry in two pieces.

import { describe, expect, test } from 'vitest';
import { separateShared } from '../../src/polarity/remake.ts';
import { findAllConflicts } from '../../src/report/conflicts.ts';
import { JOINED_OR } from '../../src/target/shipped-targets.ts';
import { drawnByHand } from '../support/built-judge.ts';
import { electricalModel, patternOf } from '../support/electrical-simulation.ts';
import { blockOf, wayFaults } from '../support/way-faults.ts';

/** A full adder, active-low outputs, as drawn right; `k1` stands in the join of the carry and is used alone as well. */
const SHARED = `built adder {
  input a, b, c
  output s, k
  k1 = nor(a, b)
  k2 = nor(a, c)
  k3 = nor(b, c)
  k  = join(k1, k2, k3)
  k_n = not(k)
  none = nor(a, b, c)
  two = nor(k_n, none)
  x  = nor(k1, k_n)
  all = nand(a, b, c)
  three = not(all)
  s  = nor(two, three)
  x_out = wire(x) + 1
  k is maj(a, b, c) low
}`.replace('  x_out = wire(x) + 1\n', '');

describe('a back-feeding join', () => {
  const block = blockOf(
    SHARED.replace('output s, k', 'output s, k, x').replace('maj(a, b, c)', 'a b + a c + b c'),
  );
  const signals = ['a', 'b', 'c'];

  test('gives wrong levels as one node, and right ones from separate wires', () => {
    const parted = separateShared(block);
    expect(parted.elements.filter(({ gate }) => gate === 'separate').length).toBe(1);
    let wrong = 0;
    for (let row = 0; row < 8; row++) {
      const values = patternOf(signals, row);
      const drawn = drawnByHand(block, values);
      const { levels } = electricalModel(block).settle(values);
      const { levels: apart } = electricalModel(parted).settle(values);
      // As drawn x is 1 where a or b is true and there is a carry; as one node it reads the whole carry instead.
      if (levels?.get('x') !== drawn.get('x')) wrong++;
      for (const wire of ['s', 'k', 'x']) expect(apart?.get(wire)).toBe(drawn.get(wire));
    }
    expect(wrong).toBe(0 + [0, 1, 2, 3, 4, 5, 6, 7].filter((row) => differsByHand(row)).length);
  });

  /** x = NOT (k1 OR k_n) as drawn; with k1 being the whole of k it is NOT (k OR NOT k) = 0. */
  function differsByHand(row: number): boolean {
    const [a, b, c] = [0, 1, 2].map((i) => ((row >> i) & 1) === 1);
    const k = Number(a) + Number(b) + Number(c) < 2;
    return !((!a && !b) || !k);
  }
});

test('levels that do not settle, and levels that depend on what was before', () => {
  const ring = electricalModel(blockOf('built { input a, b\n n = not(a)\n m = nor(n, b)\n y = join(a, m) }'));
  // With b = 0 the loop is a memory once a is 0: from rest it stays 0, driven it stays 1.
  expect(ring.settle({ a: 0, b: 0 }).levels).toBeNull();
  expect(ring.settle({ a: 1, b: 0 }).levels?.get('y')).toBe(1);
  expect(ring.settle({ a: 0, b: 1 }).levels?.get('y')).toBe(0);
  const blinker = electricalModel(blockOf('built { input a\n n = not(a)\n y = join(a, n) }'));
  expect(blinker.settle({ a: 0 }).levels).toBeNull();
});

describe('a carry in two pieces, each at tick t, into a sum bit', () => {
  test.each([1, 2, 3])('t = %i', (t) => {
    const text = `carry = full moving + late
sum = half ^ carry
built lane {
  input full @ ${t - 1}, moving @ ${t - 1}, late @ ${t}, half both @ ${t}
  output s
  u = nand(full, moving)
  c = join(u, late)
  c_n = not(c)
  p = nor(half_low, c)
  q = nor(half, c_n)
  s = join(p, q)
  c is carry
  s is sum
}`;
    const { report } = findAllConflicts('hall', text, JOINED_OR);
    const [conflict, ...more] = report?.blocks[0].conflicts ?? [];
    expect(more).toEqual([]);
    expect(conflict).toMatchObject({
      kind: 'join-mixed',
      severity: 'error',
      wire: 'c',
      carries: { high: "full' + moving' + late", low: "full moving late'" },
      meant: { signal: 'carry', rail: 'high' },
    });
    const ways = Object.fromEntries(conflict.waysOut.map((way) => [way.kind, way]));
    // Joining after inverting gives the sum at t + 3, the absorbed form at t + 2, found by the tool itself.
    expect(ways['invert-leg'].stands?.outputs).toEqual([{ wire: 's', tick: t + 3 }]);
    expect(ways.absorb.remade?.outputs).toEqual([{ wire: 's', tick: t + 2 }]);
    expect(ways.absorb.consumer).toBe('sum = half ^ carry');
    expect(conflict.waysOut[0].kind).toBe('absorb');
    for (const way of conflict.waysOut) expect(wayFaults(way, JOINED_OR)).toEqual([]);
  });
});

describe('what a target allows', () => {
  test('an input that leads to more separate wires than it has', () => {
    const target = { ...JOINED_OR, name: 'mine', input: { outputs: 2 } };
    const text = `built { input a, b, c, d
      output x, y, z
      a_2 = separate(a); a_3 = separate(a); a_4 = separate(a)
      x = join(a_2, b); y = join(a_3, c); z = join(a_4, d)
    }`;
    const { report } = findAllConflicts('hall', text, target);
    const [conflict] = report?.blocks[0].conflicts ?? [];
    expect(conflict).toMatchObject({ kind: 'input-wires', severity: 'warning', wire: 'a' });
    expect(conflict.message).toBe('a leads to 4 separate wires, and an input of the target has 2');
    const [way] = conflict.waysOut;
    expect(way.what).toBe('drive a_3 and a_4 by two inverters from a');
    expect(way.stands).toMatchObject({ ticks: 2, parts: 3 });
    for (const one of conflict.waysOut) expect(wayFaults(one, target)).toEqual([]);
    const again = findAllConflicts('hall', way.stands?.block ?? '', target);
    expect(again.report?.blocks[0].conflicts).toEqual([]);
  });
});
