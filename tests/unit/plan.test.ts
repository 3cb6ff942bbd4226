// Rails between blocks: every choice compared with the plan by hand, blocks stay apart, faults.

import { describe, expect, test } from 'vitest';
import { readEquations } from '../../src/equations/read-equations.ts';
import { type PlanBlock, type PlannedRail, planRails } from '../../src/polarity/plan.ts';
import { JOINED_OR } from '../../src/target/shipped-targets.ts';
import { runCli } from '../support/run-cli.ts';

const OPTIONS = { target: JOINED_OR, effort: 'quick', seed: 1 } as const;

function lane(i: number): string {
  return `input a${i}, b${i}, c${i}\noutput s${i}, c${i + 1}\ns${i} = a${i} ^ b${i} ^ c${i}\nc${i + 1} = maj(a${i}, b${i}, c${i})`;
}

function block(name: string, text: string): PlanBlock {
  const { value } = readEquations(text);
  if (value === null) throw new Error(text);
  return { name, system: value };
}

describe('three lanes of an adder, each a block', () => {
  const blocks = [0, 1, 2].map((i) => block(`lane${i}`, lane(i)));
  const plan = planRails(blocks, new Map(), OPTIONS);

  test('no other choice of rails is faster, or as fast with fewer parts', () => {
    expect(plan).not.toBeNull();
    for (let set = 0; set < 4; set++) {
      const rails = (['c1', 'c2'] as const).map((name, i): [string, PlannedRail] => [
        name,
        ((set >> i) & 1) === 1 ? 'low' : 'high',
      ]);
      const other = planRails(blocks, new Map(rails), OPTIONS);
      const [mine, theirs] = [plan, other].map((one) => (one?.ticks ?? 0) * 1000 + (one?.parts ?? 0));
      expect(mine).toBeLessThanOrEqual(theirs);
      // What the other rail of one signal costs is what a plan with that rail given costs.
      const turned = rails.filter(
        ([name, rail]) => plan?.signals.find((one) => one.name === name)?.rail !== rail,
      );
      if (turned.length !== 1) continue;
      const told = plan?.signals.find(({ name }) => name === turned[0][0])?.other;
      expect(told).toEqual({ ticks: other?.ticks, parts: other?.parts });
    }
  });

  test('rails are worth a tick here', () => {
    const high = planRails(
      blocks,
      new Map([
        ['c1', 'high'],
        ['c2', 'high'],
      ]),
      OPTIONS,
    );
    expect(plan?.ticks).toBe(5);
    expect(high?.ticks).toBe(6);
  });

  test('blocks stay apart: a wire runs from the output of one to the input of the next, rail and tick alike', () => {
    for (const { name, rail, tick, from, to } of plan?.signals ?? []) {
      const maker = plan?.blocks.find((one) => one.name === from);
      expect(maker?.outputs).toContainEqual({ name, rail, tick });
      for (const taker of to) {
        const system = plan?.blocks.find((one) => one.name === taker)?.system;
        const input = system?.inputs.find(({ signal }) => system.signals[signal] === name);
        expect(input).toMatchObject({ rail, tick });
      }
    }
  });
});

test('many signals between blocks are planned by the bound first', () => {
  const names = Array.from({ length: 11 }, (_, i) => i);
  const maker = names
    .map((i) => `m${i} = ${i % 2 === 0 ? `x${i % 3} y${i % 4}` : `x${i % 3} + y${i % 4}`}`)
    .join('\n');
  const taker = [0, 1, 2]
    .map((z) => `z${z} = m${z} m${z + 4}' + m${z + 8}`)
    .join('\n')
    .concat("\nz3 = m3 m7'");
  const plan = planRails([block('maker', maker), block('taker', taker)], new Map(), OPTIONS);
  expect(plan?.signals.length).toBe(11);
  for (const { other } of plan?.signals ?? []) {
    const mine = (plan?.ticks ?? 0) * 1000 + (plan?.parts ?? 0);
    if (other !== null) expect(other.ticks * 1000 + other.parts).toBeGreaterThanOrEqual(mine);
  }
});

describe('the command', () => {
  const files = {
    'lanes.logic': `block lane0 {\n${lane(0)}\n}\nblock lane1 {\n${lane(1)}\n}\n`,
    'one.logic': lane(0),
    'two.logic': lane(1),
    'back.logic': 'c0 = c2 go',
  };

  test('one file with blocks and several files give the same plan', async () => {
    const together = await runCli(['plan', 'lanes.logic', '--json', '--effort', 'quick'], { files });
    const apart = await runCli(['plan', 'one.logic', 'two.logic', '--json', '--effort', 'quick'], { files });
    expect([together.code, apart.code]).toEqual([0, 0]);
    const [a, b] = [together, apart].map(({ out }) => JSON.parse(out));
    expect(
      a.signals.map(({ name, rail, tick }: { name: string; rail: string; tick: number }) => [
        name,
        rail,
        tick,
      ]),
    ).toEqual(
      b.signals.map(({ name, rail, tick }: { name: string; rail: string; tick: number }) => [
        name,
        rail,
        tick,
      ]),
    );
    expect(a.blocks.every(({ proof }: { proof: string }) => proof === 'equal')).toBe(true);
  });

  test('a screen', async () => {
    const { out, err, code } = await runCli(['plan', 'lanes.logic', '--effort', 'quick'], { files });
    expect([err, code]).toEqual(['', 0]);
    expect(out).toBe(`2 blocks, target joined-or

Together 4 ticks and 15 parts; all 2 choices of rails searched.

Signals between blocks
  tick  signal  rail         the other rail
     2  c1      active-low   costs 3 parts more (lane0 to lane1)

Blocks
  lane0  8 parts, proved; s0 at 2, c1 active-low at 2
  lane1  7 parts, proved; s1 at 4, c2 at 3
`);
  });

  test('blocks that feed each other in a circle, and a single block', async () => {
    const circle = await runCli(['plan', 'one.logic', 'two.logic', 'back.logic'], { files });
    expect(circle.code).toBe(1);
    expect(circle.err).toContain('these blocks feed each other in a circle');
    const single = await runCli(['plan', 'one.logic'], { files });
    expect(single.code).toBe(1);
    expect(single.err).toContain('there are no two blocks here');
  });
});
