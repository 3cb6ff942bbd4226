// Every single mistake in a right network is caught: each leg taken away, put elsewhere or added, and each inverter left
// out, if that changes the function on a pattern that can happen; and none is reported if it does not. The judge is the
// naive evaluator; the prover is asked on both methods.

import { describe, expect, test } from 'vitest';
import type { System } from '../../src/equations/system.ts';
import { packNetwork } from '../../src/network/build-network.ts';
import type { Network } from '../../src/network/network.ts';
import { prove } from '../../src/proof/prove.ts';
import { PROOF_LIMITS } from '../../src/proof/verdict.ts';
import {
  allPatterns,
  canHappen,
  inverterLegs,
  joinLegs,
  outputLevels,
  signalValue,
} from '../support/naive-evaluator.ts';
import { randomSystem } from '../support/random-system.ts';
import { foundNetwork, search, systemOf, targetOf } from '../support/system-of.ts';

type Logic = 'or' | 'and';

const BY_SOLVER = { ...PROOF_LIMITS, patternInputs: -1 };

/** All networks with one leg of an inverter or output gone, elsewhere or one too many. */
function* mutations(network: Network): Generator<{ readonly what: string; readonly network: Network }> {
  const first = 2 + network.inputs.length;
  const inverters = Array.from({ length: network.size }, (_, i) => inverterLegs(network, i));
  const outputs = network.outputs.map((_, y) => joinLegs(network, y));
  const pack = (i: number, legs: readonly number[], where: readonly number[][]): Network => {
    const changed = where.map((old, n) => (n === i ? [...legs].sort((a, b) => a - b) : old));
    const [nors, joins] = where === inverters ? [changed, outputs] : [inverters, changed];
    return packNetwork(network.inputs, network.outputs, nors, joins);
  };
  for (const where of [inverters, outputs]) {
    const kind = where === inverters ? 'inverter' : 'output';
    for (const [i, legs] of where.entries()) {
      const wires = where === inverters ? first + i : first + network.size;
      for (let wire = 0; wire < wires; wire++) {
        const without = legs.filter((leg) => leg !== wire);
        if (without.length < legs.length) {
          if (without.length > 0)
            yield { what: `${kind} ${i} without ${wire}`, network: pack(i, without, where) };
          continue;
        }
        yield { what: `${kind} ${i} and ${wire}`, network: pack(i, [...legs, wire], where) };
        for (const leg of legs) {
          const swapped = legs.map((old) => (old === leg ? wire : old));
          yield { what: `${kind} ${i}, ${wire} for ${leg}`, network: pack(i, swapped, where) };
        }
      }
    }
  }
}

function isRight(system: System, network: Network, logic: Logic): boolean {
  for (const pattern of allPatterns(system.inputs.length)) {
    if (!canHappen(system, pattern)) continue;
    const levels = network.inputs.map(
      ({ signal, rail }) => signalValue(system, signal, pattern) === (rail === 'high'),
    );
    const outputs = outputLevels(network, levels, logic);
    const wrong = network.outputs.some(
      ({ signal, rail }, y) => outputs[y] !== (signalValue(system, signal, pattern) === (rail === 'high')),
    );
    if (wrong) return false;
  }
  return true;
}

/** Numbers of mutations that change the function and of those that do not; the prover must know each. */
function checkAll(name: string, system: System, network: Network, logic: Logic): [number, number] {
  const counts: [number, number] = [0, 0];
  expect(prove(system, network, logic).verdict, name).toBe('equal');
  expect(prove(system, network, logic, BY_SOLVER).verdict, name).toBe('equal');
  for (const { what, network: mutant } of mutations(network)) {
    const expected = isRight(system, mutant, logic) ? 'equal' : 'different';
    const verdicts = [prove(system, mutant, logic).verdict, prove(system, mutant, logic, BY_SOLVER).verdict];
    expect(verdicts, `${name}: ${what}`).toEqual([expected, expected]);
    counts[expected === 'different' ? 0 : 1]++;
  }
  return counts;
}

describe('all single changes of a leg', () => {
  test.each([
    ['half adder', 'sum = a ^ b\ncarry = a b', 'joined-or'],
    ['full adder', 'half = a ^ b\nsum = half ^ c\ncarry = a b + half c\noutput sum, carry', 'joined-or'],
    ['full adder', 'half = a ^ b\nsum = half ^ c\ncarry = a b + half c\noutput sum, carry low', 'joined-and'],
    ['carry with never', 'c = g1 + p1 g0 + p1 p0 c0\nnever g1 p1\nnever g0 p0', 'joined-or'],
    ['choice on both rails', 'input s both, a low, b\noutput x both\nx = mux(s, a, b)', 'nor-gates'],
  ])('%s: %s, %s', (name, text, targetName) => {
    const target = targetOf(targetName);
    const system = systemOf(text);
    const network = foundNetwork(search(system, { target }));
    const [different] = checkAll(name, system, network, target.join.logic);
    expect(different).toBeGreaterThan(20);
  });

  test('networks of random systems', () => {
    let [different, equal] = [0, 0];
    for (let seed = 1; seed <= 25; seed++) {
      const system = randomSystem(seed, {
        mostInputs: 4,
        mostOutputs: 2,
        mostInternal: 1,
        depth: 3,
        rails: ['high', 'low', 'either', 'both'],
        never: true,
      });
      const target = targetOf(seed % 2 === 0 ? 'joined-or' : 'joined-and');
      const { answer } = search(system, { target, effort: 'quick' }).outcome;
      if (answer === null || answer.network.size > 8) continue;
      const counts = checkAll(`seed ${seed}`, system, answer.network, target.join.logic);
      different += counts[0];
      equal += counts[1];
    }
    expect(different).toBeGreaterThan(200);
    expect(equal).toBeGreaterThan(5);
  });
});
