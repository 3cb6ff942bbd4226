// The network: its invariants, its tidying, its levels, and the names of its wires.

import { describe, expect, test } from 'vitest';
import { legsOf, outputLegsOf, packNetwork, tidyNetwork } from '../../src/network/build-network.ts';
import { legFaults, networkFaults } from '../../src/network/check-network.ts';
import { networkTicks, outputTicks, wireTicks } from '../../src/network/levels.ts';
import {
  FIRST_INPUT,
  type InputWire,
  type Network,
  ONE,
  type OutputWire,
  ZERO,
} from '../../src/network/network.ts';
import { outputLevels, simulateWires } from '../../src/network/simulate.ts';
import { wireNames } from '../../src/network/wire-names.ts';
import { JOINED_OR } from '../../src/target/shipped-targets.ts';
import type { Target } from '../../src/target/target.ts';
import { inputTable, lastMask, not, wordsFor } from '../../src/truth/table.ts';
import { naiveLevels, seeded, systemOf } from './proof-samples.ts';

const INPUTS: InputWire[] = [
  { signal: 0, rail: 'high', tick: 0 },
  { signal: 1, rail: 'low', tick: 2 },
  { signal: 2, rail: 'high', tick: 0 },
];
const OUTPUT: OutputWire = { signal: 3, rail: 'high' };
const good = packNetwork(INPUTS, [OUTPUT], [[2], [3, 5]], [[4, 6]]);

function randomLists(next: (below: number) => number): { inverters: number[][]; joins: number[][] } {
  const first = FIRST_INPUT + INPUTS.length;
  const legs = (below: number): number[] => Array.from({ length: 1 + next(4) }, () => next(below));
  const inverters = Array.from({ length: next(12) }, (_, i) => legs(first + i));
  return { inverters, joins: Array.from({ length: 1 + next(3) }, () => legs(first + inverters.length)) };
}

describe('networkFaults', () => {
  test('a sound network has none', () => {
    expect(networkFaults(good)).toEqual([]);
    expect(networkFaults(packNetwork([], [OUTPUT], [], [[ONE]]))).toEqual([]);
  });

  test.each<[Partial<Network>, string[]]>([
    [{ inputs: [INPUTS[0], INPUTS[0], INPUTS[2]] }, ['input 2 is there twice: signal 0 on the high rail']],
    [{ inputs: [{ ...INPUTS[0], tick: -1 }, INPUTS[1], INPUTS[2]] }, ['input 1 has the tick -1']],
    [{ outputs: [{ signal: -2, rail: 'high' }] }, ['output 1 has the signal -2']],
    [{ legs: Int32Array.of(5, 3, 5) }, ['inverter 1 has the leg 5, which does not stand before it']],
    [{ legs: Int32Array.of(-1, 3, 5) }, ['inverter 1 has the leg -1']],
    [{ legs: Int32Array.of(2, 5, 3) }, ['the legs of inverter 2 are not ascending: 5, 3']],
    [{ legs: Int32Array.of(2, 5, 5) }, ['the legs of inverter 2 are not ascending: 5, 5']],
    [{ legs: Int32Array.of(2, 1, 5) }, ['inverter 2 has the constant 1 beside other legs']],
    [{ legStart: Int32Array.of(0, 0, 3) }, ['inverter 1 has no legs']],
    [{ legStart: Int32Array.of(0, 3) }, ['there are 2 offsets for the legs of 2 inverters']],
    [{ legStart: Int32Array.of(1, 2, 3) }, ['the legs of the inverters start at 1']],
    [{ legs: Int32Array.of(2, 3, 5, 5) }, ['the legs of the inverters end at 3, but 4 are there']],
    [{ outputStart: Int32Array.of(0, 0), outputLegs: new Int32Array(0) }, ['output 1 has no legs']],
    [{ outputLegs: Int32Array.of(4, 7) }, ['output 1 has the leg 7, which does not stand before it']],
    [{ size: 1.5 }, ['the number of inverters is 1.5']],
  ])('fault %#', (change, faults) => {
    expect(networkFaults({ ...good, ...change })).toEqual(faults);
  });
});

describe('legFaults', () => {
  const target = (join: Partial<Target['join']>, maxLegs: number | null): Target => ({
    ...JOINED_OR,
    name: 'mine',
    join: { ...JOINED_OR.join, ...join },
    inverter: { ...JOINED_OR.inverter, maxLegs },
  });

  test('limits of inverters and joins, and where joins may be', () => {
    expect(legFaults(good, JOINED_OR)).toEqual([]);
    expect(legFaults(good, target({ maxLegs: 1 }, 1))).toEqual([
      'inverter 2 has 2 legs, the target mine allows 1',
      'output 1 has 2 legs, the target mine allows 1',
    ]);
    expect(legFaults(good, target({ where: 'inverter-inputs' }, 2))).toEqual([
      'output 1 joins 2 legs, the target mine joins wires at inverters only',
    ]);
  });
});

describe('tidyNetwork', () => {
  test('keeps the function, adds no part and no tick, and is sound and settled', () => {
    const system = systemOf('input a, b, c\ny = a + b + c');
    const costs = { joinTicks: 1, inverterTicks: 2 };
    for (let seed = 1; seed <= 200; seed++) {
      const { inverters, joins } = randomLists(seeded(seed));
      const outputs = joins.map((_, signal): OutputWire => ({ signal, rail: 'high' }));
      const raw = packNetwork(INPUTS, outputs, inverters, joins);
      const tidy = tidyNetwork(INPUTS, outputs, inverters, joins);
      expect(networkFaults(tidy)).toEqual([]);
      expect(tidy.size).toBeLessThanOrEqual(raw.size);
      expect(networkTicks(tidy, costs)).toBeLessThanOrEqual(networkTicks(raw, costs));
      for (let row = 0; row < 8; row++) {
        expect(naiveLevels(system, tidy, 'or', row).outputs).toEqual(
          naiveLevels(system, raw, 'or', row).outputs,
        );
      }
      const again = tidyNetwork(
        INPUTS,
        outputs,
        Array.from({ length: tidy.size }, (_, i) => [...legsOf(tidy, i)]),
        outputs.map((_, y) => [...outputLegsOf(tidy, y)]),
      );
      expect(again).toEqual(tidy);
    }
  });

  test('folds constants and merges equal inverters', () => {
    const tidy = tidyNetwork(INPUTS, [OUTPUT], [[ZERO, 2], [2], [5, 6], [ONE, 3], [4, 8]], [[7, 9]]);
    // Inverters 0 and 1 are NOT a, 2 is NOT NOT a, 3 is 0, 4 is NOT c.
    expect([...legsOf(tidy, 0)]).toEqual([2]);
    expect([...legsOf(tidy, 1)]).toEqual([4]);
    expect([...legsOf(tidy, 2)]).toEqual([5]);
    expect([...outputLegsOf(tidy, 0)]).toEqual([6, 7]);
    expect(tidy.size).toBe(3);
  });
});

describe('levels and simulation', () => {
  test('ticks of wires and joins', () => {
    expect([...wireTicks(good, { joinTicks: 0, inverterTicks: 1 })]).toEqual([0, 0, 0, 2, 0, 1, 3]);
    expect(outputTicks(good, { joinTicks: 0, inverterTicks: 1 })).toEqual([3]);
    expect(outputTicks(good, { joinTicks: 5, inverterTicks: 10 })).toEqual([30]);
    expect(networkTicks(packNetwork([], [], [], []), { joinTicks: 0, inverterTicks: 1 })).toBe(0);
  });

  test('levels of all wires equal those computed one by one, for both kinds of join', () => {
    const system = systemOf('input a, b, c\ny = a + b + c');
    const levels = INPUTS.map(({ rail }, i) =>
      rail === 'high' ? inputTable(3, i) : not(inputTable(3, i), 3),
    );
    for (let seed = 1; seed <= 50; seed++) {
      const { inverters, joins } = randomLists(seeded(seed));
      const outputs = joins.map((_, signal): OutputWire => ({ signal, rail: 'high' }));
      const network = packNetwork(INPUTS, outputs, inverters, joins);
      for (const logic of ['or', 'and'] as const) {
        const wires = simulateWires(network, levels, wordsFor(3), lastMask(3), logic);
        const outs = outputLevels(network, wires, logic);
        for (let row = 0; row < 8; row++) {
          const naive = naiveLevels(system, network, logic, row);
          expect(wires.map((table) => (table[0] >>> row) & 1)).toEqual(naive.wires);
          expect(outs.map((table) => (table[0] >>> row) & 1)).toEqual(naive.outputs);
        }
        expect(wires.every((table) => table[0] >>> 8 === 0)).toBe(true);
      }
    }
  });
});

describe('wireNames', () => {
  const both: InputWire[] = [
    { signal: 0, rail: 'high', tick: 0 },
    { signal: 0, rail: 'low', tick: 0 },
    { signal: 1, rail: 'low', tick: 0 },
  ];

  test('signals, low rails of inputs with two wires, numbered inverters', () => {
    expect(wireNames({ inputs: both, size: 2 }, ['g3', 'p3', 'c4'])).toEqual([
      '0',
      '1',
      'g3',
      'g3_low',
      'p3',
      'n1',
      'n2',
    ]);
  });

  test.each([
    [
      ['a', 'a_low', 'n1'],
      ['a', 'a_low_', 'a_low', 'w1'],
    ],
    [
      ['n7', 'w1', 'y'],
      ['n7', 'n7_low', 'w1', 'inv1'],
    ],
    [
      ['n', 'nn1', 'n1x'],
      ['n', 'n_low', 'nn1', 'n1'],
    ],
    [
      ['n1', 'w2', 'inv3', 'wire4', 'n_5', 'n__6'],
      ['n1', 'n1_low', 'w2', 'n___1'],
    ],
    [
      ['a', 'b', 'n01'],
      ['a', 'a_low', 'b', 'w1'],
    ],
  ])('never a name of the reader: %j', (signals, names) => {
    const all = wireNames({ inputs: both, size: 1 }, signals);
    expect(all.slice(2)).toEqual(names);
    expect(new Set([...all, ...signals.slice(2)]).size).toBe(new Set(all).size + signals.slice(2).length);
  });
});
