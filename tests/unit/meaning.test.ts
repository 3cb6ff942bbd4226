// What wires mean: the telling forms of known networks, and on random networks the truth of everything that is
// printed, read back by the reader of the equation language itself.

import { describe, expect, test } from 'vitest';
import { readEquations } from '../../src/equations/read-equations.ts';
import type { System } from '../../src/equations/system.ts';
import { legsOf, outputLegsOf, packNetwork, tidyNetwork } from '../../src/network/build-network.ts';
import type { InputWire, Network, WireRail } from '../../src/network/network.ts';
import { wireNames } from '../../src/network/wire-names.ts';
import { explainNetwork, meaningsOf } from '../../src/report/meaning.ts';
import { systemTables } from '../../src/truth/system-tables.ts';
import {
  NetworkWriter,
  naiveLevels,
  naiveValues,
  plainNetwork,
  prefixAdder,
  randomSystem,
  rippleAdder,
  seeded,
  systemOf,
} from './proof-samples.ts';

function explained(system: System, network: Network, logic: 'or' | 'and' = 'or'): string[] {
  const names = wireNames(network, system.signals);
  const { inverters, outputs } = meaningsOf(system, systemTables(system), network, logic, names);
  return [...inverters, ...outputs.map((text, y) => `${system.signals[network.outputs[y].signal]}: ${text}`)];
}

function high(system: System): InputWire[] {
  return system.inputs.map(({ signal }) => ({ signal, rail: 'high', tick: 0 }));
}

/** Lays a network over the inputs of a system, legs by name of input or by number of inverter. */
function laid(
  text: string,
  inverters: readonly (readonly (string | number)[])[],
  joins: readonly (readonly (string | number)[])[],
  rails: readonly WireRail[] = [],
): { system: System; network: Network } {
  const system = systemOf(text);
  const first = 2 + system.inputs.length;
  const wire = (leg: string | number): number =>
    typeof leg === 'number'
      ? first + leg - 1
      : 2 + system.inputs.findIndex(({ signal }) => system.signals[signal] === leg);
  const legs = (list: readonly (string | number)[]): number[] => list.map(wire).sort((a, b) => a - b);
  const inputs = high(system).map((input, i) => ({ ...input, rail: rails[i] ?? 'high' }));
  const outputs = system.outputs.map(({ signal, rail }) => ({
    signal,
    rail: rail === 'low' ? ('low' as const) : ('high' as const),
  }));
  return { system, network: packNetwork(inputs, outputs, inverters.map(legs), joins.map(legs)) };
}

function tidied(network: Network): Network {
  return tidyNetwork(
    network.inputs,
    network.outputs,
    Array.from({ length: network.size }, (_, i) => [...legsOf(network, i)]),
    network.outputs.map((_, y) => [...outputLegsOf(network, y)]),
  );
}

describe('known networks', () => {
  test('the look-ahead carry as a product of sums', () => {
    const { system, network } = laid(
      'c4 = g3 + p3 g2 + p3 p2 g1 + p3 p2 p1 g0 + p3 p2 p1 p0 c0',
      [
        ['p3'],
        ['g2', 'p2'],
        ['g2', 'g1', 'p1'],
        ['g2', 'g1', 'g0', 'p0'],
        ['g2', 'g1', 'g0', 'c0'],
        [1, 2, 3, 4, 5],
      ],
      [['g3', 6]],
    );
    expect(explained(system, network)).toEqual([
      'p3, active-low',
      'g2 + p2, active-low',
      'g2 + g1 + p1, active-low',
      'g2 + g1 + g0 + p0, active-low',
      'g2 + g1 + g0 + c0, active-low',
      'p3 (g2 + p2) (g2 + g1 + p1) (g2 + g1 + g0 + p0) (g2 + g1 + g0 + c0), active-high',
      'c4: g3 + n6, active-high',
    ]);
  });

  test('exclusive OR in three inverters', () => {
    const { system, network } = laid('x = a ^ b', [['a', 'b'], ['a'], ['b'], [2, 3], [1, 4]], [[5]]);
    expect(explained(system, network)).toEqual([
      'a + b, active-low',
      'a, active-low',
      'b, active-low',
      'a b, active-high',
      'x, active-high',
      'x: a ^ b, active-high',
    ]);
  });

  test('inputs and outputs on the low rail', () => {
    const { system, network } = laid(
      'input a low, b low\noutput x low, y\nx = a b\ny = a nor b',
      [['a', 'b'], [1]],
      [['a', 'b'], [2]],
      ['low', 'low'],
    );
    // NOT a + NOT b is the low rail of a b; the other output is wrong on purpose: what is, is explained.
    expect(explained(system, network)).toEqual([
      'x, active-high',
      'x, active-low',
      'x: a b, active-low',
      "y: x', active-high",
    ]);
  });

  test('joins that compute AND', () => {
    const { system, network } = laid('x = a b + c', [['a', 'b'], ['c'], [1, 2]], [[3]]);
    expect(explained(system, network, 'and')).toEqual([
      'a b, active-low',
      'c, active-low',
      'x, active-high',
      'x: c + a b, active-high',
    ]);
  });

  test('named signals inside: the adder in its own words', () => {
    const system = rippleAdder(4);
    const texts = explained(system, tidied(plainNetwork(system)));
    expect(texts).toEqual(
      expect.arrayContaining(['p1 c1, active-high', 'p2 + c2, active-low', 's3, active-high']),
    );
    expect(texts.slice(-5)).toEqual([
      's0: c0 ^ p0, active-high',
      's1: c1 ^ p1, active-high',
      's2: c2 ^ p2, active-high',
      's3: c3 ^ p3, active-high',
      'c4: g3 + c3 p3, active-high',
    ]);
  });

  test('constants, and outputs that are the same signal', () => {
    const system = systemOf("x = a + a'\ny = a\nz = y");
    const outputs = system.outputs.map(({ signal }) => ({ signal, rail: 'high' as const }));
    const network = packNetwork(high(system), outputs, [[1]], [[1], [2], [2]]);
    expect(explained(system, network)).toEqual([
      '0, active-high',
      'x: 1, active-high',
      'y: a, active-high',
      'z: a, active-high',
    ]);
  });

  test('too many legs for a line', () => {
    const names = Array.from({ length: 12 }, (_, i) => `crates_on_belt_${i}`);
    const { system, network } = laid(`full = nor(${names.join(', ')})`, [names], [[1]]);
    expect(explained(system, network)).toEqual(['full, active-high', 'full: n1']);
  });
});

describe('truth', () => {
  /** Compares every printed expression with the level of its wire on all rows that can happen. */
  function check(
    system: System,
    network: Network,
    logic: 'or' | 'and',
  ): { printed: number; withWires: number } {
    const names = wireNames(network, system.signals);
    const { inverters, outputs } = explainNetwork(system, systemTables(system), network, logic, names);
    const first = 2 + network.inputs.length;
    const count = { printed: 0, withWires: 0 };
    const untrue: string[] = [];
    const meanings = [...inverters, ...outputs];
    const wireNamesUsed = names.slice(first);
    const text = meanings.map(({ expression }, i) => `meaning_${i} = ${expression ?? '0'}`).join('\n');
    const { value: read, diagnostics } = readEquations(text);
    expect(diagnostics.filter(({ severity }) => severity === 'error')).toEqual([]);
    for (let row = 0; row < 2 ** system.inputs.length; row++) {
      const values = naiveValues(system, row);
      if (values === null) continue;
      const levels = naiveLevels(system, network, logic, row);
      const known = new Map<string, number>(system.signals.map((name, signal) => [name, values[signal]]));
      for (const [i, name] of wireNamesUsed.entries()) known.set(name, levels.wires[first + i]);
      const expressionRow = read!.inputs.reduce(
        (bits, { signal }, i) => bits + 2 ** i * (known.get(read!.signals[signal]) ?? NaN),
        0,
      );
      if (Number.isNaN(expressionRow)) untrue.push('an unknown name');
      const results = naiveValues(read!, expressionRow)!;
      meanings.forEach(({ expression, rail }, i) => {
        if (expression === null) return;
        const value = results[read!.signals.indexOf(`meaning_${i}`)];
        const level = i < inverters.length ? levels.wires[first + i] : levels.outputs[i - inverters.length];
        if ((rail === 'low' ? 1 - value : value) !== level) untrue.push(`${expression}, ${rail}, row ${row}`);
      });
    }
    expect(untrue).toEqual([]);
    for (const { expression, text: shown, rail } of meanings) {
      expect(shown.length).toBeLessThanOrEqual(85);
      if (expression === null) continue;
      if (rail !== null) expect(shown).toBe(`${expression}, active-${rail}`);
      count.printed++;
      if (wireNamesUsed.some((name) => new RegExp(`\\b${name}\\b`).test(expression))) count.withWires++;
    }
    outputs.forEach(({ expression }, y) => {
      const own = system.signals[network.outputs[y].signal];
      if (expression !== null) expect(expression).not.toMatch(new RegExp(`\\b${own}\\b`));
    });
    return count;
  }

  test('random systems laid operator by operator', () => {
    let printed = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const next = seeded(seed);
      const system = randomSystem(next, 1 + next(7), 1 + next(4), { never: seed % 2 === 0, rails: true });
      printed += check(system, plainNetwork(system), 'or').printed;
    }
    expect(printed).toBeGreaterThan(600);
  });

  test('random networks, joins of both kinds; what is too long refers to wires', () => {
    const total = { printed: 0, withWires: 0 };
    for (let seed = 1; seed <= 60; seed++) {
      const next = seeded(900 + seed);
      const inputs = 5 + next(3);
      const short = randomSystem(next, inputs, 3, { never: seed % 3 === 0 });
      const system = { ...short, signals: short.signals.map((name) => `crates_on_${name}`) };
      const lay = new NetworkWriter(inputs);
      const legs = (below: number): number[] =>
        Array.from({ length: 1 + next(5) }, () => 2 + next(below - 2));
      for (let i = 0; i < 14; i++) lay.nor(legs(2 + inputs + i));
      const outputs = system.outputs.map(({ signal }) => ({ signal, rail: 'high' as const }));
      const joins = outputs.map(() => [...new Set(legs(16 + inputs))].sort((a, b) => a - b));
      const network = packNetwork(high(system), outputs, lay.inverters, joins);
      const { printed, withWires } = check(system, network, seed % 2 === 0 ? 'or' : 'and');
      total.printed += printed;
      total.withWires += withWires;
    }
    expect(total.printed).toBeGreaterThan(900);
    expect(total.withWires).toBeGreaterThan(10);
  });

  test('an adder against its ripple equations', () => {
    const system = rippleAdder(3);
    expect(check(system, tidied(prefixAdder(system, 3)), 'or').printed).toBeGreaterThan(50);
  });
});
