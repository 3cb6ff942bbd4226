// How many different functions there are when inputs may be renamed: the classes that the exact search works by.

import { describe, expect, test } from 'vitest';
import { allRepresentatives } from '../../src/truth/permutation-classes.ts';
import { dependsOnAll, firstOfClass, functionClasses } from '../support/function-classes.ts';

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

  // Published: On-Line Encyclopedia of Integer Sequences, A000616 (its offset is -1) and A000370.
  test.each([
    [0, 2, 1],
    [1, 3, 2],
    [2, 6, 4],
    [3, 22, 14],
    [4, 402, 222],
  ])(
    'of %i inputs there are %i when inputs may be complemented as well, %i when the output may',
    (inputs, some, fewer) => {
      expect(complementClasses(inputs, false)).toBe(some);
      expect(complementClasses(inputs, true)).toBe(fewer);
    },
  );

  // Published (abstract): C. R. Baugh, T. Ibaraki, T. K. Liu, S. Muroga, "Optimum Network Design Using NOR and NOR-AND
  // Gates by Integer Programming", University of Illinois Report 293, 1969: 80 representative three-variable functions.
  test('the representatives are the smallest members of their classes', () => {
    for (const inputs of [0, 1, 2, 3]) {
      expect(allRepresentatives(inputs)).toEqual(functionClasses(inputs).map(({ first }) => first));
    }
    expect(functionClasses(3)).toHaveLength(80);
  });
});

/** How many classes there are when inputs may be renamed and complemented, and the output as well or not. */
function complementClasses(inputs: number, output: boolean): number {
  const rows = 2 ** inputs;
  const parent = new Map(functionClasses(inputs).map(({ first }) => [first, first]));
  const root = (f: number): number => {
    const above = parent.get(f) ?? f;
    return above === f ? f : root(above);
  };
  const join = (f: number, g: number): void => {
    parent.set(root(f), root(firstOfClass(g, inputs)));
  };
  for (const first of parent.keys()) {
    for (let i = 0; i < inputs; i++) {
      let flipped = 0;
      for (let row = 0; row < rows; row++) if ((first >>> (row ^ (1 << i))) & 1) flipped += 2 ** row;
      join(first, flipped);
    }
    if (output) join(first, 2 ** rows - 1 - first);
  }
  return [...parent.keys()].filter((f) => root(f) === f).length;
}
