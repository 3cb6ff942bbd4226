// The command `catalogue` from words to screens.

import { describe, expect, test } from 'vitest';
import { expectGolden } from '../support/golden.ts';
import { runCli, screenOf } from '../support/run-cli.ts';

const FILES = {
  'sum.logic': 's = a ^ b ^ carry\nc = maj(a, b, carry)\n',
  'wide.logic': 'x = a b c d e\ny = a nor e\n',
  'low.logic': 'input a low, b\nx = a b\n',
  'free.logic': 'x = a b\nnever a b\n',
  'broken.logic': 'x = (a\n',
};

describe('screens', () => {
  test.each([
    ['catalogue-multiplexer', ['catalogue', 'x = s a + not s b']],
    ['catalogue-table', ['catalogue', '6996']],
    ['catalogue-constants', ['catalogue', '0', '0xf', 'x = a + 1']],
    ['catalogue-file', ['catalogue', 'sum.logic']],
    [
      'catalogue-not-there',
      ['catalogue', 'wide.logic', 'low.logic', 'free.logic', 'broken.logic', 'missing.logic'],
    ],
    ['catalogue-json', ['catalogue', '6', '--json']],
    ['catalogue-nothing', ['catalogue']],
  ])('%s', async (name, argv) => {
    const ran = await runCli(argv, { files: FILES });
    for (const line of `${ran.out}${ran.err}`.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
    expectGolden(`tests/cli/screens/${name}.txt`, screenOf(argv, ran));
  });
});

describe('figures', () => {
  const pointsOf = async (...argv: string[]): Promise<number[][]> => {
    const { out } = await runCli(['catalogue', ...argv, '--json'], { files: FILES });
    const [{ functions }] = JSON.parse(out);
    return functions.map(({ curve }: { curve: { ticks: number; parts: number; partsProved: boolean }[] }) =>
      curve.flatMap(({ ticks, parts, partsProved }) => (partsProved ? [ticks, parts] : [])),
    );
  };

  test('a full adder, each output by itself', async () => {
    expect(await pointsOf('sum.logic')).toEqual([
      [2, 7, 4, 6],
      [2, 4],
    ]);
  });

  test('a table counts rows from the lowest bit, inputs from the lowest bit of the row', async () => {
    // Row 1 is a = 1, b = 0.
    expect(await pointsOf('2')).toEqual(await pointsOf("f = a b'"));
    const { out } = await runCli(['catalogue', '2', '--json']);
    expect(JSON.parse(out)[0].functions[0].curve[0].network.inverters).toEqual([
      { wire: 'n1', legs: ['a'], tick: 1 },
      { wire: 'n2', legs: ['b', 'n1'], tick: 2 },
    ]);
  });

  test('every network is judged equal', async () => {
    const { out, code } = await runCli(['catalogue', '1ee8', '8bad', '69', '--json']);
    expect(code).toBe(0);
    for (const { functions } of JSON.parse(out)) {
      for (const { curve, others } of functions) {
        for (const { proof } of [...curve, ...others]) expect(proof.verdict).toBe('equal');
      }
    }
  });
});
