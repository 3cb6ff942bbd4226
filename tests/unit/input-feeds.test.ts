// An input that feeds more separate wires than the target lets it: found by counting apart from src, told as a warning in
// text and JSON, and never where the limit is kept.

import { describe, expect, test } from 'vitest';
import { packNetwork } from '../../src/network/build-network.ts';
import { overfedInputs } from '../../src/network/input-feeds.ts';
import { FIRST_INPUT, type Network } from '../../src/network/network.ts';
import { inputNotices } from '../../src/report/input-notices.ts';
import type { Target } from '../../src/target/target.ts';
import { optimize } from '../../src/tickwright.ts';
import { inverterLegs, joinLegs } from '../support/naive-evaluator.ts';
import { runCli } from '../support/run-cli.ts';
import { systemOf, targetOf } from '../support/system-of.ts';
import { plainNetwork, randomSystem, seeded } from './proof-samples.ts';

function targetWith(outputs: number | null, name = 'joined-or'): Target {
  return { ...targetOf(name), name: 'few-wires', input: { outputs } };
}

/** Separate wires of an input, counted from the places where it is used. */
function wiresOf(network: Network, wire: number): number {
  const places = new Set<string>();
  const joins = network.outputs
    .map((_, y) => joinLegs(network, y))
    .filter((legs) => legs.length > 1)
    .map((legs) => legs.join(' '));
  network.outputs.forEach((_, y) => {
    const legs = joinLegs(network, y);
    if (legs.includes(wire)) places.add(legs.length > 1 ? legs.join(' ') : 'alone');
  });
  for (let i = 0; i < network.size; i++) {
    const legs = inverterLegs(network, i);
    if (!legs.includes(wire)) continue;
    // An inverter may take a whole join that stands for an output as one leg; the wire is in it then, and not used alone.
    const taken = joins.some((join) => {
      const own = join.split(' ').map(Number);
      return own.includes(wire) && own.every((leg) => legs.includes(leg));
    });
    if (!taken) places.add('alone');
  }
  return places.size;
}

describe('counting', () => {
  test('by hand: a stands alone, in two joins, and in an inverter that takes one of them whole', () => {
    const inputs = [0, 1, 2].map((signal) => ({ signal, rail: 'high' as const, tick: 0 }));
    const outputs = [3, 4, 5, 6].map((signal) => ({ signal, rail: 'high' as const }));
    const network = packNetwork(inputs, outputs, [[2, 3, 4]], [[2, 3], [2, 4], [2], [5]]);
    expect(overfedInputs(network, 2)).toEqual([{ input: 0, wires: 3 }]);
    expect(overfedInputs(network, 1)).toEqual([{ input: 0, wires: 3 }]);
    expect(overfedInputs(network, 3)).toEqual([]);
    expect(overfedInputs(network, null)).toEqual([]);
  });

  test('random networks: as counted place by place', () => {
    for (let seed = 1; seed <= 100; seed++) {
      const next = seeded(seed);
      const plain = plainNetwork(randomSystem(next, 1 + next(5), 1 + next(4), { rails: true }));
      // Joins at the outputs, so that inputs stand in some.
      const joins = plain.outputs.map((_, y) => {
        const also = Array.from({ length: next(3) }, () => FIRST_INPUT + next(plain.inputs.length));
        return [...new Set([...joinLegs(plain, y), ...also])].filter((leg) => leg > 1).sort((a, b) => a - b);
      });
      if (joins.some((legs) => legs.length === 0)) continue;
      const inverters = Array.from({ length: plain.size }, (_, i) => inverterLegs(plain, i));
      const network = packNetwork(plain.inputs, plain.outputs, inverters, joins);
      for (const limit of [1, 2, 3]) {
        const expected = network.inputs.flatMap((_, input) => {
          const wires = wiresOf(network, FIRST_INPUT + input);
          return wires > limit ? [{ input, wires }] : [];
        });
        expect([seed, overfedInputs(network, limit)]).toEqual([seed, expected]);
      }
    }
  });
});

describe('the warning', () => {
  const text = "input a, b, c\noutput x, y, z\nx = a + b\ny = a + c\nz = a'";
  const message = 'the input "a" feeds 3 separate wires, and by the target few-wires an input can feed 2';

  test('names the input, the separate wires and the limit', () => {
    const options = { ticks: null, effort: 'quick', seed: 1, explain: false, version: '' } as const;
    const { result, diagnostics } = optimize('text', text, {}, { ...options, target: targetWith(2) });
    expect(result.points[0].proof.verdict).toBe('equal');
    const hint = 'bring it in on more wires, or lead it over two inverters, which take their ticks and parts';
    expect(result.notices).toEqual([
      { severity: 'warning', code: 'input-feeds-too-many', message, hint, line: null, column: null },
    ]);
    expect(diagnostics.map(({ severity }) => severity)).toEqual(['warning']);
    for (const target of [targetWith(3), targetWith(null), targetOf('joined-or-single')])
      expect(optimize('text', text, {}, { ...options, target }).result.notices).toEqual([]);
  });

  test('tells the two wires of an input apart, and every network counts', () => {
    const system = systemOf("input a both, b\noutput x, y\nx = a + b; y = a'");
    const inputs = [
      { signal: 0, rail: 'high' as const, tick: 0 },
      { signal: 0, rail: 'low' as const, tick: 0 },
      { signal: 1, rail: 'high' as const, tick: 0 },
    ];
    const outputs = [2, 3].map((signal) => ({ signal, rail: 'high' as const }));
    const one = packNetwork(inputs, outputs, [], [[2, 4], [3]]);
    const two = packNetwork(inputs, outputs, [[2]], [[2, 4], [5]]);
    const target = targetWith(1);
    expect(inputNotices(system, [one], target)).toEqual([]);
    expect(inputNotices(system, [one, two], target).map((notice) => notice.message)).toEqual([
      'the input "a" (active-high) feeds 2 separate wires, and by the target few-wires an input can feed 1',
    ]);
  });

  test('stands on the screen and in the JSON; the exit code stays 0', async () => {
    const host = { files: { 'few.json': '{ "name": "few-wires", "input": { "outputs": 2 } }' } };
    const argv = [text.replaceAll('\n', ';'), '--target', 'few.json'];
    const screen = await runCli(argv, host);
    expect([screen.code, screen.err]).toEqual([0, '']);
    expect(screen.out.replace(/\s+/g, ' ')).toContain(message);
    const json = await runCli([...argv, '--json'], host);
    expect(json.code).toBe(0);
    expect(JSON.parse(json.out)[0].notices).toMatchObject([{ code: 'input-feeds-too-many', message }]);
  });
});
