// How many different functions there are when inputs may be renamed: the classes that the exact search works by.

import { describe, expect, test } from 'vitest';
import { allRepresentatives } from '../../src/truth/permutation-classes.ts';
import { dependsOnAll, functionClasses } from '../support/function-classes.ts';

describe('classes of functions under renaming of inputs', () => {
  // Published: On-Line Encyclopedia of Integer Sequences, A003180.
  test.each([
    [0, 2],
    [1, 4],
    [2, 12],
    [3, 80],
    [4, 3984],
  ])('of %i inputs there are %i', (inputs, count) => {
    expect(allRepresentatives(inputs)).toHaveLength(count);
  });

  // Published: On-Line Encyclopedia of Integer Sequences, A003181.
  test.each([
    [0, 2],
    [1, 2],
    [2, 8],
    [3, 68],
    [4, 3904],
  ])('of %i inputs there are %i that depend on all of them', (inputs, count) => {
    expect(allRepresentatives(inputs).filter((table) => dependsOnAll(table, inputs))).toHaveLength(count);
  });

  // Published (abstract): C. R. Baugh, T. Ibaraki, T. K. Liu, S. Muroga, "Optimum Network Design Using NOR and NOR-AND
  // Gates by Integer Programming", University of Illinois Report 293, 1969: 80 representative three-variable functions.
  test('the representatives are the smallest members of their classes', () => {
    for (const inputs of [0, 1, 2, 3]) {
      expect(allRepresentatives(inputs)).toEqual(functionClasses(inputs).map(({ first }) => first));
    }
    expect(functionClasses(3)).toHaveLength(80);
  });
});
