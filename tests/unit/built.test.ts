// Reading what somebody built: lines, laying of gates, ticks, parts, separate wires, nets.

import { describe, expect, test } from 'vitest';
import { legsOf, outputLegsOf } from '../../src/network/build-network.ts';
import { builtCosts, separateWiresOf } from '../../src/network/built-costs.ts';
import { drawnNetwork, netsOf, tiedNetwork } from '../../src/network/built-nets.ts';
import { type BuiltNetwork, builtLegs, builtWire } from '../../src/network/built-network.ts';
import { networkFaults } from '../../src/network/check-network.ts';
import { readBuilt } from '../../src/network/read-built.ts';
import { JOINED_OR, shippedTarget } from '../../src/target/shipped-targets.ts';
import type { Target } from '../../src/target/target.ts';

function built(text: string, target: Target = JOINED_OR): BuiltNetwork {
  const { value, diagnostics } = readBuilt(text, target);
  if (value === null) throw new Error(diagnostics.map(({ message }) => message).join('\n'));
  return value.blocks[0].network;
}

/** `n1 inverter a b @1`, in order, constants and inputs left out. */
function listed(network: BuiltNetwork, target: Target = JOINED_OR): string[] {
  const { wireTicks } = builtCosts(network, target);
  return network.names
    .map((name, wire) => {
      const legs = [...builtLegs(network, wire)].map((leg) => network.names[leg]);
      return [name, network.kinds[wire], ...legs, `@${wireTicks[wire]}`].join(' ');
    })
    .slice(2 + network.inputs.length);
}

const GATES = `built gates {
  input a, b low @ 2
  n1 = nor(a, b)
  n2 = nand(a, b)
  n3 = and(a, b)
  n4 = not(n1)
  c  = join(n1, n2)
  w  = wire(c) + 3
  s  = separate(c)
}`;

describe('laying', () => {
  test('joined wires are OR: nor and not are one inverter, nand inverts and joins, and goes over that', () => {
    expect(listed(built(GATES))).toEqual([
      'n1 inverter a b @3',
      'n2.1 inverter a @1',
      'n2.2 inverter b @3',
      'n2 join n2.1 n2.2 @3',
      'n3.1 inverter a @1',
      'n3.2 inverter b @3',
      'n3 inverter n3.1 n3.2 @4',
      'n4 inverter n1 @4',
      'c join n1 n2 @3',
      'w run c @6',
      's tap n1 n2.1 n2.2 @3',
    ]);
  });

  test('joined wires are AND: nand is one inverter, nor inverts and joins, and is an inverter over a nand', () => {
    const target = shippedTarget('joined-and') as Target;
    expect(listed(built(GATES, target), target)).toEqual([
      'n1.1 inverter a @1',
      'n1.2 inverter b @3',
      'n1 join n1.1 n1.2 @3',
      'n2 inverter a b @3',
      'n3.1 inverter a b @3',
      'n3 inverter n3.1 @4',
      'n4 inverter n1 @4',
      'c join n1 n2 @3',
      'w run c @6',
      's tap n1.1 n1.2 n2 @3',
    ]);
  });

  test('ticks, parts and legs; a second separate wire of an inverter is a copy where it has one output', () => {
    const network = built(GATES);
    const costs = builtCosts(network, JOINED_OR);
    expect(costs).toMatchObject({ ticks: 6, parts: 7, inverters: 7, copies: 0 });
    expect(costs.outputTicks).toEqual([4, 4, 6, 3]);
    const single = shippedTarget('joined-or-single') as Target;
    expect(builtCosts(network, single)).toMatchObject({ parts: 10, copies: 3 });
    expect(separateWiresOf(network)[builtWire(network, 'n1')]).toBe(2);
  });
});

test('only join ties: a leg of a nor is an input of its own, a run with ticks goes one way', () => {
  const network = built(GATES);
  const { netOf, drivers } = netsOf(network);
  const net = (name: string): number => netOf[builtWire(network, name)];
  expect(new Set(['n1', 'n2', 'n2.1', 'n2.2', 'c'].map(net)).size).toBe(1);
  expect(new Set(['a', 'b', 'n3', 'n4', 'c', 'w', 's'].map(net)).size).toBe(7);
  expect(drivers[net('c')].map((wire) => network.names[wire])).toEqual(['n1', 'n2.1', 'n2.2']);
  expect(drivers[net('s')]).toEqual(drivers[net('c')]);
});

describe('as plain networks', () => {
  const signal = (name: string): number => 'abc'.indexOf(name);

  test('as drawn and as tied', () => {
    const network = built('built { input a, b, c\n n = nor(a, b)\n j = join(n, c)\n y = nor(n, a) }');
    const deliver = ['j', 'y'].map((name, n) => ({
      wire: builtWire(network, name),
      output: { signal: 3 + n, rail: 'high' as const },
    }));
    const drawn = drawnNetwork(network, signal, deliver);
    expect(networkFaults(drawn)).toEqual([]);
    expect([...legsOf(drawn, 1)]).toEqual([2, 5]);
    const tied = tiedNetwork(network, signal, deliver);
    expect(tied && networkFaults(tied)).toEqual([]);
    // y sees c as well, by way of the join.
    expect(tied && [...legsOf(tied, 1)]).toEqual([2, 4, 5]);
    expect(tied && [...outputLegsOf(tied, 0)]).toEqual([4, 5]);
  });

  test('there is none where a join feeds back', () => {
    const network = built('built { input a, b\n n = not(a)\n m = nor(n, b)\n j = join(a, m) }');
    const deliver = [{ wire: builtWire(network, 'j'), output: { signal: 3, rail: 'high' as const } }];
    expect(tiedNetwork(network, signal, deliver)).toBeNull();
    expect(drawnNetwork(network, signal, deliver).size).toBe(2);
  });
});

test('equations stand beside blocks, and places are those of the text', () => {
  const text =
    'c = a + b # no block { here\nbuilt one { x = nor(a, b); x is c low }\nd = c a\nbuilt two {\n y = not(a)\n}';
  const { value, diagnostics } = readBuilt(text, JOINED_OR);
  expect(diagnostics).toEqual([]);
  expect(value?.equations?.signals).toEqual(['a', 'b', 'c', 'd']);
  expect(value?.blocks.map(({ block }) => block.name)).toEqual(['one', 'two']);
  const [element] = value?.blocks[1].block.elements ?? [];
  expect(text.slice(element.at.start, element.at.end)).toBe('y = not(a)');
  expect(value?.blocks[0].block.meanings).toMatchObject([{ wire: 'x', rail: 'low', part: false }]);
});
