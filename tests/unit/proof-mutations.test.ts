// Every single mistake in a right network is caught: each leg taken away, put elsewhere or added, each inverter left out
// and each pair of outputs swapped, if that changes the function on a pattern that can happen; and none is reported if it
// does not. The judge is the naive evaluator. For wide networks it is a solver from the package registry, which is
// given the clauses of the prover's own translation: that judges the solver and its answers. The naive evaluator judges
// the translation there: it finds the mistake on the pattern that the prover names, and none on drawn patterns where the
// prover says that there is none. The prover is asked on both methods. The numbers are printed at the end.

import { readdirSync, readFileSync } from 'node:fs';
import { afterAll, describe, expect, test } from 'vitest';
import type { System } from '../../src/equations/system.ts';
import { legFaults } from '../../src/network/check-network.ts';
import type { Network } from '../../src/network/network.ts';
import { deliveryFault } from '../../src/proof/check-delivery.ts';
import { prove } from '../../src/proof/prove.ts';
import { PROOF_LIMITS } from '../../src/proof/verdict.ts';
import { asWrittenDraft, asWrittenNetwork } from '../../src/search/as-written.ts';
import { sampleTables } from '../../src/search/sample.ts';
import { makeTask } from '../../src/search/task.ts';
import { JOINED_OR } from '../../src/target/shipped-targets.ts';
import type { Target } from '../../src/target/target.ts';
import { rippleAdderText } from '../support/families.ts';
import { unequal } from '../support/formulas.ts';
import { mutations } from '../support/mutations.ts';
import {
  allPatterns,
  canHappen,
  inverterLegs,
  joinLegs,
  outputLevels,
  signalValue,
} from '../support/naive-evaluator.ts';
import { randomSystem } from '../support/random-system.ts';
import { RegistrySolver } from '../support/registry-solver.ts';
import { seededRandom } from '../support/seeded-random.ts';
import { foundNetwork, search, systemOf, targetOf } from '../support/system-of.ts';

type Logic = 'or' | 'and';

const BY_SOLVER = { ...PROOF_LIMITS, patternInputs: -1 };

function isRight(system: System, network: Network, logic: Logic): boolean {
  for (const pattern of allPatterns(system.inputs.length)) {
    if (!isRightOn(system, network, logic, pattern)) return false;
  }
  return true;
}

function isRightOn(system: System, network: Network, logic: Logic, pattern: readonly boolean[]): boolean {
  if (!canHappen(system, pattern)) return true;
  const levels = network.inputs.map(
    ({ signal, rail }) => signalValue(system, signal, pattern) === (rail === 'high'),
  );
  const outputs = outputLevels(network, levels, logic);
  return network.outputs.every(
    ({ signal, rail }, y) => outputs[y] === (signalValue(system, signal, pattern) === (rail === 'high')),
  );
}

/** All mistakes of this file together. */
const total = { made: 0, changing: 0, caught: 0 };

function count(isChanging: boolean, isCaught: boolean): void {
  total.made++;
  if (isChanging) total.changing++;
  if (isChanging && isCaught) total.caught++;
}

afterAll(() => {
  const { made, changing, caught } = total;
  // biome-ignore lint/suspicious/noConsole: the numbers are what this file is asked for
  console.info(
    `Mistakes in networks: ${made} made, ${changing} change the function, ${caught} of these caught.`,
  );
});

/** Numbers of mutations that change the function and of those that do not; the prover must know each. */
function checkAll(name: string, system: System, network: Network, logic: Logic): [number, number] {
  const counts: [number, number] = [0, 0];
  expect(prove(system, network, logic).verdict, name).toBe('equal');
  expect(prove(system, network, logic, BY_SOLVER).verdict, name).toBe('equal');
  for (const { what, network: mutant } of mutations(network)) {
    const expected = isRight(system, mutant, logic) ? 'equal' : 'different';
    const verdicts = [prove(system, mutant, logic).verdict, prove(system, mutant, logic, BY_SOLVER).verdict];
    count(expected === 'different', !verdicts.includes('equal'));
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

  const EXAMPLES = new URL('../../examples/', import.meta.url);
  const MOST_INPUTS = 9;
  const MOST_INVERTERS = 14;
  const small = readdirSync(EXAMPLES).filter(
    (file) => file.endsWith('.logic') && !/adder-[48]|layered/.test(file),
  );
  test.each(small)('networks of the example %s', (file) => {
    const system = systemOf(readFileSync(new URL(file, EXAMPLES), 'utf8'));
    if (system.inputs.length > MOST_INPUTS || (system.free?.length ?? 0) > 0) return;
    const { answer } = search(system, { effort: 'quick' }).outcome;
    if (answer === null || answer.network.size > MOST_INVERTERS) return;
    const [different] = checkAll(file, system, answer.network, 'or');
    expect(different).toBeGreaterThan(10);
  });
});

test('a wide network: a sample of all mistakes, known by another solver and on patterns', () => {
  const system = systemOf(rippleAdderText(11));
  expect(system.inputs.length).toBeGreaterThan(20);
  const task = makeTask(system, sampleTables(system, 1), JOINED_OR, false);
  const written = asWrittenNetwork(task, asWrittenDraft(system, task));
  expect(prove(system, written, 'or').verdict).toBe('equal');
  const judge = new RegistrySolver();
  const random = seededRandom(11);
  const drawn = Array.from({ length: 200 }, () => system.inputs.map(() => random() < 0.5));
  expect(drawn.every((pattern) => isRightOn(system, written, 'or', pattern))).toBe(true);
  let n = 0;
  const counts = { equal: 0, different: 0 };
  for (const { what, network } of mutations(written)) {
    if (n++ % 211 !== 0) continue;
    const expected = judge.model(unequal(system, network)) === null ? 'equal' : 'different';
    const { verdict, counterexample = {} } = prove(system, network, 'or');
    const named = system.inputs.map(({ signal }) => counterexample[system.signals[signal]] === 1);
    const patterns = expected === 'different' ? [named] : drawn;
    const seemsRight = patterns.every((pattern) => isRightOn(system, network, 'or', pattern));
    count(expected === 'different', verdict === 'different' && !seemsRight);
    expect(verdict, what).toBe(expected);
    expect(seemsRight, what).toBe(expected === 'equal');
    counts[expected]++;
  }
  expect(counts.different).toBeGreaterThan(50);
  expect(counts.equal).toBeGreaterThan(0);
});

describe('checks of delivery and of legs', () => {
  const system = systemOf('input a, b low, c\noutput x, y low\nx = a ^ b\ny = a b + c');
  const { network } = search(system, { effort: 'quick' }).outcome.answer ?? {};
  if (network === undefined) throw new Error('there is an answer');
  const flipped = <T extends { readonly rail: string }>(list: readonly T[], at: number): T[] =>
    list.map((one, n) => (n === at ? { ...one, rail: one.rail === 'high' ? 'low' : 'high' } : one));

  test('every rail that is flipped, every wire and output that is missing or doubled is reported', () => {
    expect(deliveryFault(system, network)).toBeNull();
    const { inputs, outputs } = network;
    const wrong: Network[] = [];
    inputs.forEach((_, n) => {
      wrong.push({ ...network, inputs: flipped(inputs, n) });
      wrong.push({ ...network, inputs: inputs.map((one, m) => (m === n ? { ...one, signal: 99 } : one)) });
    });
    outputs.forEach((_, n) => {
      wrong.push({ ...network, outputs: flipped(outputs, n) });
      wrong.push({ ...network, outputs: outputs.map((one) => ({ ...one, ...outputs[n] })) });
    });
    for (const broken of wrong) {
      const isReported = deliveryFault(system, broken) !== null;
      count(true, isReported && prove(system, broken, 'or').verdict !== 'equal');
      expect(isReported).toBe(true);
    }
  });

  test('every leg beyond the limit is reported', () => {
    const most = Math.max(
      ...Array.from({ length: network.size }, (_, i) => inverterLegs(network, i).length),
      ...network.outputs.map((_, y) => joinLegs(network, y).length),
    );
    const limited = (maxLegs: number): Target => ({
      ...JOINED_OR,
      join: { ...JOINED_OR.join, maxLegs },
      inverter: { ...JOINED_OR.inverter, maxLegs },
    });
    expect(legFaults(network, limited(most))).toEqual([]);
    for (const { what, network: mutant } of mutations(network)) {
      const over =
        Array.from({ length: mutant.size }, (_, i) => inverterLegs(mutant, i)).filter(
          (legs) => legs.length > most,
        ).length + mutant.outputs.filter((_, y) => joinLegs(mutant, y).length > most).length;
      expect(legFaults(mutant, limited(most)), what).toHaveLength(over);
    }
  });
});
