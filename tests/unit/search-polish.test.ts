// Last choices: the size stays, nothing gets later, and what could still be earlier or active-high is so. The judge of
// "could" is the exact search, asked for each single wish.

import { describe, expect, test } from 'vitest';
import type { System } from '../../src/equations/system.ts';
import { networkTicks, outputTicks } from '../../src/network/levels.ts';
import type { Network } from '../../src/network/network.ts';
import { exactNetwork, startingRows } from '../../src/search/exact.ts';
import { Allowance } from '../../src/search/limits.ts';
import { settleChoices } from '../../src/search/polish.ts';
import type { Task } from '../../src/search/task.ts';
import { brokenLaws } from '../support/network-laws.ts';
import { randomSystem } from '../support/random-system.ts';
import { search, systemOf, targetOf, taskOf } from '../support/system-of.ts';

const ENOUGH = 50_000;
const MOST_SIZE = 7;
const target = targetOf('joined-or');

function exact(task: Task, size: number, by: readonly number[]): Network | null {
  const question = { task, size, copies: 0, by, maxConflicts: ENOUGH, rows: startingRows(task) };
  const answer = exactNetwork(question, () => {});
  if (answer.kind === 'undecided') throw new Error('the limit is too small for this test');
  return answer.kind === 'found' ? answer.network : null;
}

function smallest(task: Task, bounds: readonly number[]): Network | null {
  for (let size = 0; size <= MOST_SIZE; size++) {
    const network = exact(task, size, bounds);
    if (network !== null) return network;
  }
  return null;
}

/** The system with the rails of its inputs as the network has them, but `signal` active-high. */
function highInstead(system: System, network: Network, signal: number): System {
  const isLow = (input: number): boolean =>
    network.inputs.some((wire) => wire.signal === input && wire.rail === 'low');
  const inputs = system.inputs.map((input) =>
    input.rail === 'either' && (input.signal === signal || !isLow(input.signal))
      ? { ...input, rail: 'high' as const }
      : input,
  );
  return { ...system, inputs };
}

interface Settled {
  readonly name: string;
  readonly system: System;
  readonly task: Task;
  readonly before: Network;
  readonly after: Network;
}

function settledNetworks(): Settled[] {
  const found: Settled[] = [];
  for (let seed = 1; seed <= 250; seed++) {
    const system = randomSystem(seed, {
      mostInputs: 4,
      mostOutputs: 3,
      mostInternal: 1,
      depth: 3,
      rails: ['high', 'low', 'either'],
      latestTick: 2,
    });
    const task = taskOf({ ...system, outputs: system.outputs.map((one) => ({ ...one, by: null })) }, target);
    const bounds = task.outputs.map(() => 12);
    const before = smallest(task, bounds);
    if (before === null || before.size === 0) continue;
    const after = settleChoices(task, before, bounds, startingRows(task), new Allowance(ENOUGH));
    found.push({ name: `seed ${seed}`, system, task, before, after });
  }
  return found;
}

describe('networks of random systems', () => {
  const settled = settledNetworks();

  test('there are enough of them, and some are changed', () => {
    expect(settled.length).toBeGreaterThan(40);
    const ticks = ({ task }: Settled, network: Network) => outputTicks(network, task.rules);
    const earlier = settled.filter((one) => `${ticks(one, one.after)}` !== `${ticks(one, one.before)}`);
    expect(earlier.length).toBeGreaterThan(5);
  });

  test('stay right and as small as they were, and are there no later', () => {
    for (const { name, system, task, before, after } of settled) {
      expect(brokenLaws(system, after, target, { limits: false }), name).toEqual([]);
      expect(after.size, name).toBe(before.size);
      expect(networkTicks(after, task.rules), name).toBeLessThanOrEqual(networkTicks(before, task.rules));
      const ticks = outputTicks(before, task.rules);
      outputTicks(after, task.rules).forEach((tick, y) => {
        expect(tick, `${name}, output ${y}`).toBeLessThanOrEqual(ticks[y]);
      });
    }
  });

  test('no output can be earlier while the others stay as they are', () => {
    for (const { name, task, after } of settled) {
      const ticks = outputTicks(after, task.rules);
      ticks.forEach((tick, y) => {
        if (tick === 0) return;
        const wish = ticks.map((other, z) => (z === y ? tick - 1 : other));
        expect(exact(task, after.size, wish), `${name}, output ${y}`).toBeNull();
      });
    }
  });

  test('an input that came out active-low must be so', () => {
    let low = 0;
    for (const { name, system, task, after } of settled) {
      const ticks = outputTicks(after, task.rules);
      for (const { signal, rail } of system.inputs) {
        const wire = after.inputs.find((input) => input.signal === signal);
        if (rail !== 'either' || wire?.rail !== 'low') continue;
        low++;
        const other = taskOf(highInstead(system, after, signal), target);
        expect(exact(other, after.size, ticks), `${name}, ${system.signals[signal]}`).toBeNull();
      }
    }
    expect(low).toBeGreaterThan(5);
  });
});

test('without any allowance the network stays as it is', () => {
  const task = taskOf(systemOf('x = a b + c'), target);
  const before = smallest(task, [9]) as Network;
  expect(settleChoices(task, before, [9], startingRows(task), new Allowance(0))).toBe(before);
});

test('an input that nobody needs is active-high', () => {
  const { outcome } = search('input a either, b either\noutput x\nx = a + a b');
  expect(outcome.answer?.network.inputs.map(({ rail }) => rail)).toEqual(['high', 'high']);
});
