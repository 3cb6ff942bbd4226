// The fewest ticks against brute force: all functions of three inputs, with late arrivals, rails and free rows.

import { describe, expect, test } from 'vitest';
import type { Rail, System } from '../../src/equations/system.ts';
import { fastest } from '../../src/search/fastest.ts';
import type { Target } from '../../src/target/target.ts';
import { type ArrivingWire, firstTick, reachableOutputs } from '../support/reachable-functions.ts';
import { seededRandom } from '../support/seeded-random.ts';
import { systemOf, tableSystem, targetOf, taskOf } from '../support/system-of.ts';

const INPUTS = [0xaa, 0xcc, 0xf0];
const LAST = 16;

interface Setting {
  readonly rails: readonly Rail[];
  readonly ticks: readonly number[];
}

/** The wires of every way to choose the rails that are left to the search. */
function choices({ rails, ticks }: Setting): ArrivingWire[][] {
  let found: ArrivingWire[][] = [[]];
  rails.forEach((rail, i) => {
    const high = { level: INPUTS[i], tick: ticks[i] };
    const low = { level: 255 & ~INPUTS[i], tick: ticks[i] };
    const ways = { high: [[high]], low: [[low]], both: [[high, low]], either: [[high], [low]] }[rail];
    found = found.flatMap((wires) => ways.map((way) => [...wires, ...way]));
  });
  return found;
}

/** The first tick by brute force for an output on one rail. */
type Judge = (on: number, off: number, outputRail: Rail) => number;

function judgeOf(setting: Setting, target: Target): Judge {
  const reached = choices(setting).map((wires) => reachableOutputs(wires, 8, target, LAST));
  return (on, off, outputRail) => {
    const sides = {
      high: [[on, off]],
      low: [[off, on]],
      either: [
        [on, off],
        [off, on],
      ],
      both: [],
    }[outputRail];
    return Math.min(
      ...reached.flatMap((outputs) => sides.map(([one, zero]) => firstTick(outputs, one, zero))),
    );
  };
}

function fewestTicks(on: number, free: number, setting: Setting, target: Target, outputRail: Rail) {
  return fastest(taskOf(tableSystem(3, on, { ...setting, free, outputRail }), target));
}

const SLOW: Target = {
  ...targetOf('joined-or'),
  name: 'slow inverters',
  inverter: { ...targetOf('joined-or').inverter, ticks: 3, ticksOn: 3, ticksOff: 3 },
};

const SETTINGS: readonly Setting[] = [
  { rails: ['high', 'high', 'high'], ticks: [0, 0, 0] },
  { rails: ['high', 'high', 'high'], ticks: [0, 1, 2] },
  { rails: ['high', 'high', 'high'], ticks: [4, 0, 1] },
  { rails: ['high', 'low', 'high'], ticks: [0, 0, 2] },
  { rails: ['low', 'low', 'low'], ticks: [1, 0, 3] },
  { rails: ['both', 'high', 'low'], ticks: [2, 0, 0] },
  { rails: ['both', 'both', 'both'], ticks: [0, 1, 3] },
  { rails: ['either', 'high', 'low'], ticks: [1, 0, 0] },
  { rails: ['either', 'either', 'either'], ticks: [0, 0, 2] },
  { rails: ['either', 'both', 'either'], ticks: [3, 2, 0] },
];

const TARGETS = [targetOf('joined-or'), targetOf('nor-gates'), targetOf('joined-and'), SLOW];

function named(setting: Setting): string {
  return setting.rails.map((rail, i) => `${rail} @ ${setting.ticks[i]}`).join(', ');
}

describe.each(TARGETS)('$name: the fewest ticks of all 256 functions of three inputs', (target) => {
  test.each(SETTINGS.map((setting) => [named(setting), setting] as const))('%s', (_, setting) => {
    const judge = judgeOf(setting, target);
    const wrong: string[] = [];
    for (let on = 0; on < 256; on++) {
      for (const rail of ['high', 'low', 'either'] as const) {
        const found = fewestTicks(on, 0, setting, target, rail);
        const expected = judge(on, 255 & ~on, rail);
        if (found.ticks !== expected || !found.exact || found.each[0] !== expected) {
          wrong.push(`${on.toString(16)} ${rail}: ${found.ticks}, by brute force ${expected}`);
        }
      }
    }
    expect(wrong).toEqual([]);
  });
});

describe('rows that cannot happen', () => {
  test.each([
    ['joined-or', SETTINGS[0]],
    ['joined-or', SETTINGS[5]],
    ['nor-gates', SETTINGS[3]],
    ['joined-and', SETTINGS[1]],
  ] as const)('%s: all pairs of a function and free rows', (name, setting) => {
    const target = targetOf(name);
    const judge = judgeOf(setting, target);
    const random = seededRandom(20);
    const wrong: string[] = [];
    for (let on = 0; on < 256; on++) {
      for (let free = 1; free < 255; free++) {
        if ((on & free) !== 0 || random() > 0.2) continue;
        const found = fewestTicks(on, free, setting, target, 'high').ticks;
        const expected = judge(on, 255 & ~on & ~free, 'high');
        if (found !== expected)
          wrong.push(`${on.toString(16)} free ${free.toString(16)}: ${found}, not ${expected}`);
      }
    }
    expect(wrong).toEqual([]);
  });
});

describe('several outputs', () => {
  test('rails left to the search must serve all of them', () => {
    const target = targetOf('joined-or');
    const random = seededRandom(21);
    const wrong: string[] = [];
    const settings: Setting[] = [
      { rails: ['either', 'either', 'either'], ticks: [0, 0, 0] },
      { rails: ['either', 'either', 'high'], ticks: [1, 0, 2] },
      { rails: ['either', 'both', 'either'], ticks: [0, 2, 1] },
      { rails: ['low', 'either', 'either'], ticks: [0, 0, 1] },
    ];
    const reached = settings.map((setting) =>
      choices(setting).map((wires) => reachableOutputs(wires, 8, target, 6)),
    );
    for (let round = 0; round < 800; round++) {
      const setting = settings[round % settings.length];
      const tables = [Math.floor(random() * 256), Math.floor(random() * 256)];
      const [one, two] = tables.map((table) => tableSystem(3, table, setting));
      const system: System = {
        ...one,
        signals: [...one.signals, 'second'],
        outputs: [...one.outputs, { signal: 4, rail: 'high', by: null }],
        definitions: [...one.definitions, { ...two.definitions[0], signal: 4 }],
      };
      const expected = Math.min(
        ...reached[round % settings.length].map((outputs) =>
          Math.max(...tables.map((table) => firstTick(outputs, table, 255 & ~table))),
        ),
      );
      const found = fastest(taskOf(system, target)).ticks;
      if (found !== expected)
        wrong.push(`${named(setting)}: ${tables} in ${found}, by brute force ${expected}`);
    }
    expect(wrong).toEqual([]);
  });

  test('deadlines: those without one are as fast as the others allow', () => {
    const adder = 'sum = a ^ b ^ c\ncarry = maj(a, b, c)\n';
    const bound = (outputs: string) => fastest(taskOf(systemOf(`${adder}${outputs}`), targetOf('joined-or')));
    expect(bound('output sum, carry low')).toMatchObject({ ticks: 2, withDeadlines: 2, each: [2, 1] });
    expect(bound('output sum by 7, carry low')).toMatchObject({ ticks: 2, withDeadlines: 1 });
    expect(bound('output sum by 2, carry low by 1')).toMatchObject({ ticks: 2, withDeadlines: 0 });
    expect(bound('output sum by 1, carry low')).toMatchObject({ ticks: 2, withDeadlines: null });
    expect(bound('output sum, carry by 1')).toMatchObject({ ticks: 2, withDeadlines: null });
  });
});

describe('where the figure is only a lower bound', () => {
  const joinTakesTime: Target = {
    ...targetOf('joined-or'),
    join: { ...targetOf('joined-or').join, ticks: 1 },
  };
  test.each([
    ['two legs', targetOf('joined-or', 2)],
    ['two legs, NOR gates', targetOf('nor-gates', 2)],
    ['a tick for every join', joinTakesTime],
  ] as const)('%s: it says so, and is never above brute force', (_, target) => {
    const setting = SETTINGS[1];
    const judge = judgeOf(setting, target);
    for (let on = 0; on < 256; on++) {
      const found = fewestTicks(on, 0, setting, target, 'high');
      expect(found.exact).toBe(false);
      const expected = judge(on, 255 & ~on, 'high');
      expect(expected).toBeGreaterThanOrEqual(0);
      expect(found.ticks).toBeLessThanOrEqual(expected);
    }
  });
});
