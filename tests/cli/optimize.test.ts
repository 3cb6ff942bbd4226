// The command from words to screens, with the engine. Whole screens are golden texts; the figures that must hold are
// asserted beside them, so that refreshing cannot lower the bar.

import { describe, expect, test } from 'vitest';
import type { Point, Result } from '../../src/report/result.ts';
import { resultFaults } from '../../src/report/result-check.ts';
import { expectGolden } from '../support/golden.ts';
import { runCli, screenOf } from '../support/run-cli.ts';

const CARRY = 'c4 = g3 + p3 g2 + p3 p2 g1 + p3 p2 p1 g0 + p3 p2 p1 p0 c0';
const P = 'p0,p1,p2,p3';
const ALL = 'g0,g1,g2,g3,p0,p1,p2,p3,c0';
const ADDER = ['sum = a ^ b ^ carry_in', 'carry = maj(a, b, carry_in)'];

const HALL = {
  files: {
    'crates.logic': 'input full, jam low @ 1, scale\noutput belt\nbelt = full jam\n',
    'hall.logic': 'lamp = not (door_a + door_b)\n',
    'broken.logic': 'lamp = (door_a\n',
  },
  input: 'x = a nor b\n',
} as const;

async function resultsOf(argv: readonly string[]): Promise<{ results: Result[]; code: number }> {
  const { code, out, err } = await runCli([...argv, '--json'], HALL);
  expect(err).toBe('');
  const results = JSON.parse(out);
  expect(resultFaults(results)).toEqual([]);
  return { results, code };
}

async function answerOf(argv: readonly string[]): Promise<{ result: Result; point: Point }> {
  const { results, code } = await resultsOf(argv);
  expect(code).toBe(0);
  const [result] = results;
  const [point] = result!.points;
  expect(results.length).toBe(1);
  expect(point!.proof.verdict).toBe('equal');
  return { result: result!, point: point! };
}

function lowOnes(point: Point): string[] {
  return point.network.inputs.filter((input) => input.rail === 'low').map((input) => input.name);
}

describe('ways of sharing', () => {
  const LANES = ["y0 = op (a0 ^ b0) + op' a0 b0", 'c1 = a0 b0', 'y1 = op (a1 ^ b1)'];

  test('alone, with what sharing would save', async () => {
    const { result, point } = await answerOf([...LANES, '--share', 'alone']);
    expect(result.sharing).toMatchObject({ way: 'alone', alone: point.parts });
    expect(result.sharing?.together).toBeLessThan(point.parts);
    const argv = [...LANES, '--share', 'alone'];
    expectGolden('tests/cli/screens/share-alone.txt', screenOf(argv, await runCli(argv, HALL)));
  });

  test('grouped, with a rail that ties', async () => {
    const argv = [...LANES, '--share', 'grouped', '--either', 'op', '--parts', '14'];
    expectGolden('tests/cli/screens/share-grouped.txt', screenOf(argv, await runCli(argv, HALL)));
  });
});

describe('look-ahead carry into bit 4', () => {
  test('all rails active-high: 2 ticks, 6 parts, 512 patterns', async () => {
    const { result, point } = await answerOf([CARRY]);
    expect(result.asWritten).toEqual({ ticks: 2, parts: 18 });
    expect(result.fastest).toEqual({ ticks: 2, proved: true, parts: 6 });
    expect(point).toMatchObject({ ticks: 2, parts: 6, copies: 0, ticksProved: true });
    expect(point.proof).toEqual({ verdict: 'equal', method: 'patterns', patterns: 512 });
  });

  test('propagate wires active-low: 2 ticks, 8 parts', async () => {
    const { point } = await answerOf([CARRY, '--low', P]);
    expect([point.ticks, point.parts]).toEqual([2, 8]);
  });

  test('propagate wires free: 2 ticks, 5 parts, p3 alone active-low', async () => {
    const { point } = await answerOf([CARRY, '--either', P]);
    expect([point.ticks, point.parts, lowOnes(point)]).toEqual([2, 5, ['p3']]);
  });

  test('all wires free: 1 tick, 4 parts, g3 active-high, the rest active-low', async () => {
    const { point } = await answerOf([CARRY, '--either', ALL]);
    const rest = ['c0', 'g0', 'g1', 'g2', 'p0', 'p1', 'p2', 'p3'];
    expect([point.ticks, point.parts, lowOnes(point).sort()]).toEqual([1, 4, rest]);
  });
});

test.each([
  ['x = a xor b', 2, 3],
  ['x = a xnor b', 2, 4],
  ['x = a b', 2, 3],
  ['x = a nand b', 1, 2],
  ['x = a nor b', 1, 1],
  ['x = a + b', 0, 0],
  ['x = a', 0, 0],
  ['x = 1', 0, 0],
  ['x = 0', 0, 0],
  ['x = not a', 1, 1],
])('%s takes %i ticks and %i parts', async (equation, ticks, parts) => {
  const { point } = await answerOf([equation]);
  expect([point.ticks, point.parts]).toEqual([ticks, parts]);
  expect([point.ticksProved, point.partsProved]).toEqual([true, true]);
});

test.each([
  [[], 2, 10],
  [['--ticks', '3'], 3, 8],
  [['--ticks', '5'], 5, 7],
])('full adder %j: %i ticks, %i parts', async (options, ticks, parts) => {
  const { point } = await answerOf([...ADDER, ...options]);
  expect([point.ticks, point.parts]).toEqual([ticks, parts]);
});

describe('screens', () => {
  test.each<[string, string[]]>([
    ['carry', [CARRY]],
    ['carry-explained', [CARRY, '--explain']],
    ['carry-rails-free', [CARRY, '--either', ALL, '--explain']],
    ['full-adder', ADDER],
    ['full-adder-3-ticks', [...ADDER, '--ticks', '3', '--explain']],
    ['frontier', [...ADDER, '--frontier']],
    ['frontier-json', ['x = a ^ b ^ c', '--frontier', '--json']],
    ['frontier-one-point', ['x = a b', '--frontier']],
    ['budget', [...ADDER, '--budget', '1.2x']],
    ['parts', [...ADDER, '--parts', '7']],
    ['parts-missed', [...ADDER, '--parts', '6']],
    ['nor-gates', ['x = a ^ b', '--target', 'nor-gates', '--explain']],
    ['joined-and', ['x = a ^ b', '--target', 'joined-and', '--explain']],
    ['no-parts', ['x = a + b', 'y = a', 'z = 1']],
    ['both-rails', ['x = a b', '--both', 'a,x']],
    ['warning', ['crates.logic']],
    ['several-files', ['hall.logic', 'broken.logic', '-']],
    ['json', ['x = a b', '--json']],
    ['json-faults', ['broken.logic', 'nowhere.logic', '--json']],
    ['deadline', ['x = a b', '--ticks', '1']],
    ['deadline-json', ['x = a b', '--ticks', '1', '--json']],
  ])('%s', async (name, argv) => {
    const ran = await runCli(argv, HALL);
    expectGolden(`tests/cli/screens/${name}.txt`, screenOf(argv, ran));
    expect(await runCli(argv, HALL)).toEqual(ran);
    if (argv.includes('--json')) return;
    for (const line of `${ran.out}${ran.err}`.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  test('colour adds nothing but colour', async () => {
    const plain = await runCli([CARRY, '--explain']);
    const coloured = await runCli([CARRY, '--explain'], { colour: true });
    expect(coloured.out).not.toBe(plain.out);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: colours are control characters
    expect(coloured.out.replace(/\u001b\[\d+m/g, '')).toBe(plain.out);
  });
});

describe('a search that is followed', () => {
  const shown: string[] = [];
  const progress = async () => ({
    show: (text: string) => void shown.push(text),
    clear: () => void shown.push(''),
  });

  test('tells what it has found so far, and clears its line', async () => {
    const plain = await runCli([...ADDER, '--frontier']);
    shown.length = 0;
    const ran = await runCli([...ADDER, '--frontier'], { ...HALL, following: { progress, endAfter: null } });
    expect(ran).toEqual(plain);
    expect(shown[0]).toBe('arguments: searching; Ctrl-C ends the search');
    expect(shown.at(-2)).toBe('arguments: ticks:parts so far 2:10 3:8 5:7; Ctrl-C ends the search');
    expect(shown.at(-1)).toBe('');
    await runCli(ADDER, { following: { progress, endAfter: null } });
    expect(shown.at(-2)).toBe('arguments: so far 2 ticks, 10 parts; Ctrl-C ends the search');
  });

  test.each([
    ['before anything is known', 0],
    ['when only the equations as written are known', 1],
    ['when something is found', 2],
  ])('cut short %s', async (name, endAfter) => {
    const argv = [...ADDER, 'hall.logic', '--frontier'];
    const ran = await runCli(argv, { ...HALL, following: { progress, endAfter } });
    expect(ran.code).toBe(130);
    expectGolden(`tests/cli/screens/cut-short-${endAfter}.txt`, `${name}\n${screenOf(argv, ran)}`);
    const json = await runCli([...argv, '--json'], { ...HALL, following: { progress, endAfter } });
    const results: Result[] = JSON.parse(json.out);
    expect(resultFaults(results)).toEqual([]);
    expect([json.code, ...results.map((result) => result.stop)]).toEqual([130, 'cut short', 'cut short']);
    for (const point of results[0]?.points ?? []) expect(point.proof.verdict).toBe('equal');
  });
});

describe('sources', () => {
  test('arguments are one system, each file is one, in the order of the words', async () => {
    const { results } = await resultsOf(['hall.logic', 'x = y + b', '-', 'y = a b']);
    expect(results.map((result) => result.source)).toEqual(['hall.logic', 'arguments', 'standard input']);
    expect(results[1]?.points[0]?.network.outputs.map((output) => output.name)).toEqual(['x', 'y']);
  });

  test('a source with faults does not keep the others from their answers', async () => {
    const { results, code } = await resultsOf(['broken.logic', 'hall.logic', 'nowhere.logic']);
    expect(code).toBe(1);
    expect(results.map((result) => result.points.length)).toEqual([0, 1, 0]);
    expect(results.map((result) => result.notices.length)).toEqual([1, 0, 1]);
    expect(results[0]).toMatchObject({
      asWritten: null,
      fastest: null,
      notices: [{ line: 1, severity: 'error' }],
    });
  });

  test('the name of the command may stand first or after options', async () => {
    const plain = await runCli(['x = a b', '--json']);
    expect(await runCli(['optimize', 'x = a b', '--json'])).toEqual(plain);
    expect(await runCli(['--json', 'optimize', 'x = a b'])).toEqual(plain);
  });

  test('options are carried into the result', async () => {
    const { results } = await resultsOf([
      'x = a b',
      '--effort',
      'quick',
      '--seed',
      '7',
      '--target',
      'nor-gates',
    ]);
    expect(results[0]).toMatchObject({ effort: 'quick', seed: 7, target: 'nor-gates' });
  });

  test('a deadline that cannot be met: 3', async () => {
    expect((await runCli(['x = a b', '--ticks', '1'])).code).toBe(3);
    expect((await runCli(['output x by 1; x = a b'])).code).toBe(3);
  });
});
