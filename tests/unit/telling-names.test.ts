// Names of inverters from what they are for: stable, telling, and never one of the reader's.

import { expect, test } from 'vitest';
import { printSystem } from '../../src/equations/print-system.ts';
import type { Result } from '../../src/report/result.ts';
import { withTellingNames } from '../../src/report/telling-names.ts';
import { optimize } from '../../src/tickwright.ts';
import { randomSystem } from '../support/random-system.ts';
import { CARRY } from '../support/sample-results.ts';
import { targetOf } from '../support/system-of.ts';

test('from the signal and the tick', () => {
  const { inverters, outputs } = withTellingNames(CARRY).points[0].network;
  expect(inverters.map(({ wire }) => wire)).toEqual(['c4_1a', 'c4_1b', 'c4_1c', 'c4_1d', 'c4_1e', 'c4_2']);
  expect(inverters.at(-1)?.legs).toEqual(['c4_1a', 'c4_1b', 'c4_1c', 'c4_1d', 'c4_1e']);
  expect(outputs[0].legs).toEqual(['g3', 'c4_2']);
});

test('names of the reader stay his', () => {
  const [point] = CARRY.points;
  const inputs = point.network.inputs.map((input, at) =>
    at === 1 ? { ...input, name: 'c4_2', wire: 'c4_2' } : input,
  );
  const taken: Result = { ...CARRY, points: [{ ...point, network: { ...point.network, inputs } }] };
  expect(withTellingNames(taken).points[0].network.inverters.at(-1)?.wire).toBe('c4_2_');
});

test.each(['joined-or', 'joined-or-single'])(
  'random networks, %s: all different, all found, the same again',
  (name) => {
    for (let seed = 1; seed <= 15; seed++) {
      const drawn = randomSystem(seed, {
        rails: ['high', 'low', 'both'],
        buses: true,
        mostInputs: 5,
        depth: 3,
      });
      const options = {
        target: targetOf(name),
        ticks: null,
        effort: 'quick',
        seed: 1,
        explain: true,
        version: '',
      } as const;
      const { result } = optimize('text', printSystem(drawn), {}, options);
      const told = withTellingNames(result);
      expect(withTellingNames(result)).toEqual(told);
      for (const [at, { network }] of told.points.entries()) {
        const readers = new Set([...network.inputs, ...network.outputs].map((port) => port.name));
        const wires = network.inverters.map(({ wire }) => wire);
        expect(new Set(wires).size).toBe(wires.length);
        for (const wire of wires) expect(readers.has(wire)).toBe(false);
        const known = new Set(['0', '1', ...wires, ...network.inputs.map(({ wire }) => wire)]);
        for (const { legs } of [...network.inverters, ...network.outputs])
          for (const leg of legs) expect(known.has(leg)).toBe(true);
        expect(network.inverters.length).toBe(result.points[at].network.inverters.length);
      }
    }
  },
);
