// The lesson: what it says is so, it stays short, and its screen.

import { describe, expect, test } from 'vitest';
import { type LessonRail, lessonOn } from '../../src/polarity/lesson.ts';
import { judgeFor } from '../../src/report/conflicts.ts';
import { lessonText, MOST_LINES } from '../../src/report/lesson-text.ts';
import { PLAIN } from '../../src/report/painter.ts';
import { shippedTarget } from '../../src/target/shipped-targets.ts';
import type { Target } from '../../src/target/target.ts';
import { expectGolden } from '../support/golden.ts';
import { wayFaults } from '../support/way-faults.ts';

function lesson(names: readonly string[], rails: readonly LessonRail[], targetName = 'joined-or') {
  const target = shippedTarget(targetName) as Target;
  const signals = names.map((name, i) => ({ name, rail: rails[i] }));
  return lessonOn(signals, target, judgeFor(target));
}

describe('screens', () => {
  test.each([
    ['one-low', ['carry1', 'carry2'], ['low', 'high'], 'joined-or'],
    ['both-low', ['carry1', 'carry2'], ['low', 'low'], 'joined-or'],
    ['three', ['crate', 'jam', 'door'], ['high', 'low', 'high'], 'joined-or'],
    ['all-high', ['door1', 'door2'], ['high', 'high'], 'joined-or'],
    ['joined-and', ['door1', 'door2'], ['low', 'low'], 'joined-and'],
  ] as const)('%s', (name, names, rails, target) => {
    expectGolden(`tests/unit/lessons/${name}.txt`, lessonText(lesson(names, rails, target), PLAIN));
  });
});

test('at most forty lines of eighty columns, whatever the names, rails and targets', () => {
  const names = ['propagate_of_lane_two_in', 'generate_of_lane_three_b', 'carry_of_the_second_lane', 'd'];
  for (const target of ['joined-or', 'joined-or-single', 'joined-or-4', 'nor-gates', 'joined-and']) {
    for (let count = 2; count <= 4; count++) {
      for (let set = 0; set < 2 ** count; set++) {
        const rails = names
          .slice(0, count)
          .map((_, i): LessonRail => (((set >> i) & 1) === 1 ? 'low' : 'high'));
        for (const list of [names.slice(0, count), ['a', 'b', 'c', 'd'].slice(0, count)]) {
          const lines = lessonText(lesson(list, rails, target), PLAIN).split('\n');
          expect(lines.length - 1, `${target} ${rails}`).toBeLessThanOrEqual(MOST_LINES);
          if (list[0] === 'a') for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
        }
      }
    }
  }
});

test('levels, joins and verdicts are what they are by hand', () => {
  const { rows, choices, waysOut } = lesson(['a', 'b'], ['low', 'high']);
  expect(
    rows.map(({ values, levels, joined, meant }) => [...values, ...levels, joined, meant].join('')),
  ).toEqual(['001010', '011111', '100001', '110111']);
  expect(choices.map(({ rails, comesTo }) => `${rails} ${comesTo}`)).toEqual([
    'high,high meant',
    'low,high neither',
    'high,low neither',
    'low,low other',
  ]);
  expect(choices.filter(({ isAsked }) => isAsked).map(({ rails }) => rails)).toEqual([['low', 'high']]);
  for (const { rails, joined } of choices) {
    rows.forEach(({ values }, n) => {
      const levels = values.map((value, i) => (rails[i] === 'high' ? value : 1 - value));
      expect(joined[n]).toBe(Math.max(...levels));
    });
  }
  expect(waysOut.length).toBeGreaterThan(0);
  const target = shippedTarget('joined-or') as Target;
  for (const way of waysOut) expect(wayFaults(way, target)).toEqual([]);
});
