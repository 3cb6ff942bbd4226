// Where named signals live in a network: small cases by hand, then every claim of the report checked on random ones.

import { describe, expect, test } from 'vitest';
import { packNetwork } from '../../src/network/build-network.ts';
import { FIRST_INPUT, type Network, type WireRail } from '../../src/network/network.ts';
import { wireNames } from '../../src/network/wire-names.ts';
import { railsReport } from '../../src/polarity/rails.ts';
import { wireTables } from '../../src/polarity/wire-tables.ts';
import { prove } from '../../src/proof/prove.ts';
import { JOINED_OR } from '../../src/target/shipped-targets.ts';
import type { Target } from '../../src/target/target.ts';
import { systemTables } from '../../src/truth/system-tables.ts';
import { naiveLevels, naiveValues, plainNetwork, randomSystem, seeded, systemOf } from './proof-samples.ts';

const JOINED_AND: Target = { ...JOINED_OR, name: 'mine', join: { ...JOINED_OR.join, logic: 'and' } };

/** The report as lines: `p high a n1 @0`. */
function places(text: string, network: Network, target = JOINED_OR): string[] {
  const system = systemOf(text);
  const names = wireNames(network, system.signals);
  return railsReport(system, systemTables(system), network, target).map(({ signal, rail, wires, tick }) =>
    [system.signals[signal], rail, ...wires.map((wire) => names[wire]), tick === null ? '' : `@${tick}`]
      .join(' ')
      .trim(),
  );
}

function inputs(...rails: WireRail[]): Network['inputs'] {
  return rails.map((rail, signal) => ({ signal, rail, tick: signal }));
}

describe('by hand', () => {
  test('an internal signal on one rail, on the other, on both, and nowhere', () => {
    const text = 'input a, b @ 1, c @ 2\noutput y\nk = a + b\nm = a b\nj = k c\nt = b c\ny = j + m';
    // n1 = a', n2 = b', n3 = k', n4 = m, n5 = k, n6 = NOT (NOT k + NOT c) = j with n7 = c'
    const network = packNetwork(
      inputs('high', 'high', 'high'),
      [{ signal: 7, rail: 'high' }],
      [[2], [3], [2, 3], [5, 6], [7], [4], [7, 10]],
      [[8, 11]],
    );
    expect(places(text, network)).toEqual([
      'a high a @0',
      'b high b @1',
      'c high c @2',
      'k both n3 n5 @3',
      'm high n4 @3',
      'j high n7 @4',
      't absorbed',
      'y high n4 n7 @4',
    ]);
  });

  test('a signal that lives as some legs of a wider join', () => {
    const text = 'input a, b, c\noutput y low\nk = a + b\ny = k + c';
    const network = packNetwork(
      inputs('high', 'high', 'high'),
      [{ signal: 4, rail: 'low' }],
      [[2, 3, 4]],
      [[5]],
    );
    expect(places(text, network)).toEqual([
      'a high a @0',
      'b high b @1',
      'c high c @2',
      'k high a b @1',
      'y low n1 @3',
    ]);
  });

  test('under joins that compute AND, and with inputs and outputs on both rails', () => {
    const text = 'input a both, b @ 1, c @ 2\noutput y both\nk = a b\ny = k c';
    const network = packNetwork(
      [
        { signal: 0, rail: 'high', tick: 0 },
        { signal: 0, rail: 'low', tick: 0 },
        { signal: 1, rail: 'high', tick: 1 },
        { signal: 2, rail: 'high', tick: 2 },
      ],
      [
        { signal: 4, rail: 'high' },
        { signal: 4, rail: 'low' },
      ],
      [[2, 4, 5]],
      [[2, 4, 5], [6]],
    );
    expect(places(text, network, JOINED_AND)).toEqual([
      'a both a a_low @0',
      'b high b @1',
      'c high c @2',
      'k high a b @1',
      'y both a b c n1 @3',
    ]);
  });

  test('a signal in two pieces, one on each rail, that nothing joins', () => {
    const text = `input full, moving, late @ 1, half
      output sum
      carry = full moving + late
      sum = half' carry`;
    // n1 = full', n2 = moving': together the active-low piece; late is the active-high piece.
    const network = packNetwork(
      [
        { signal: 0, rail: 'high', tick: 0 },
        { signal: 1, rail: 'high', tick: 0 },
        { signal: 2, rail: 'high', tick: 1 },
        { signal: 3, rail: 'high', tick: 0 },
      ],
      [{ signal: 5, rail: 'high' }],
      [[2], [3], [4], [5, 6, 7], [5, 8]],
      [[9, 10]],
    );
    expect(places(text, network)).toEqual([
      'full high full @0',
      'moving high moving @0',
      'late high late @1',
      'half high half @0',
      'carry split late n1 n2 @1',
      'sum high n4 n5 @3',
    ]);
    const system = systemOf(text);
    expect(prove(system, network, 'or').verdict).toBe('equal');
    const carry = railsReport(system, systemTables(system), network, JOINED_OR)[4];
    expect(carry.lowWires).toEqual([6, 7]);
    expect(carry.high?.wires).toEqual([4]);
  });

  test('only rows that can happen count', () => {
    const text = 'input a, b\noutput y\nk = a ^ b\ny = k\nnever a b';
    const network = packNetwork(inputs('high', 'high'), [{ signal: 3, rail: 'high' }], [[2, 3]], [[2, 3]]);
    expect(places(text, network)).toEqual(['a high a @0', 'b high b @1', 'k low n1 @2', 'y high a b @1']);
  });
});

test('what the report claims is so, row by row', () => {
  let claims = 0;
  for (let seed = 1; seed <= 80; seed++) {
    const next = seeded(seed);
    const inputCount = 1 + next(5);
    const system = randomSystem(next, inputCount, 5, { never: seed % 3 === 0, rails: true });
    const network = plainNetwork(system);
    const report = railsReport(system, systemTables(system), network, JOINED_OR);
    expect(report.map(({ signal }) => signal)).toEqual(system.signals.map((_, signal) => signal));
    const outputs = new Set(network.outputs.map(({ signal }) => signal));
    for (const { signal, rail, wires, high, low } of report) {
      if (rail === 'absorbed' || rail === 'both') continue;
      claims++;
      for (let row = 0; row < 2 ** inputCount; row++) {
        const values = naiveValues(system, row);
        if (values === null) continue;
        const levels = naiveLevels(system, network, 'or', row).wires;
        if (rail === 'split') {
          const isHigh = high?.wires.some((wire) => levels[wire] === 1) === true;
          const isLow = low?.wires.every((wire) => levels[wire] === 0) === true;
          expect(isHigh || isLow).toBe(values[signal] === 1);
          continue;
        }
        const wanted = rail === 'high' ? values[signal] : 1 - values[signal];
        const found = wires.map((wire) => levels[wire]);
        // Either every wire carries it, or they are a join.
        expect(found.every((level) => level === wanted) || Math.max(...found) === wanted).toBe(true);
      }
      if (!outputs.has(signal) && signal >= inputCount) {
        expect(wires.every((wire) => wire >= FIRST_INPUT)).toBe(true);
      }
    }
  }
  expect(claims).toBeGreaterThan(350);
});

test('tables of wires are their levels', () => {
  const system = systemOf('input a low, b, c both\nx = a b + c\ny = x ^ b');
  const network = plainNetwork(system);
  for (const logic of ['or', 'and'] as const) {
    const tables = wireTables(system, network, logic);
    for (let row = 0; row < 8; row++) {
      const { wires } = naiveLevels(system, network, logic, row);
      expect(tables.map((table) => (table[0] >>> row) & 1)).toEqual(wires);
    }
  }
});
