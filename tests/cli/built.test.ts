// The commands about what was built, from words to screens and codes.

import { describe, expect, test } from 'vitest';
import type { BuiltBlock } from '../../src/equations/built.ts';
import { readBuiltText } from '../../src/equations/read-built.ts';
import type { System } from '../../src/equations/system.ts';
import { checkBuilt } from '../../src/report/check.ts';
import { JOINED_OR } from '../../src/target/shipped-targets.ts';
import { expectGolden } from '../support/golden.ts';
import { runCli, screenOf } from '../support/run-cli.ts';

const LANE = `carry = full moving + late
sum = half ^ carry
built lane {
  input full, moving, late @ 1, half both
  output s
  u = nand(full, moving)
  c = join(u, late)
  c_n = not(c)
  p = nor(half_low, c)
  q = nor(half, c_n)
  s = join(p, q)
  c is carry
  s is sum
}
`;

const MENDED = LANE.replace('c = join(u, late)', 'g = not(u)\n  c = join(g, late)');

const HALL = {
  files: {
    'lane.built': LANE,
    'mended.built': MENDED,
    'bare.built': MENDED.slice(MENDED.indexOf('built')).replaceAll(/ {2}. is .*\n/g, ''),
    'sum.logic': 'sum = half ^ (full moving + late)\n',
    'wide.built': wideAdder(11, false),
    'wide-wrong.built': wideAdder(11, true),
    'broken.built': 'built hall {\n  n = nor(a, b\n}\n',
    'open.built': 'built hall {\n  n = nor(a, b)\n',
  },
};

/** A ripple adder of many bits, as equations and as built; its carry is active-low from lane to lane in turn. */
function wideAdder(bits: number, isWrong: boolean): string {
  const lanes = Array.from({ length: bits }, (_, i) => i);
  const equations = lanes.map((i) => `s${i} = a${i} ^ b${i} ^ c${i}; c${i + 1} = maj(a${i}, b${i}, c${i})`);
  const wires = lanes.map(
    (
      i,
    ) => `  k${i} = nor(a${i}, b${i}); t${i} = nand(a${i}, b${i}); x${i} = nor(k${i}, v${i}); v${i} = not(t${i})
  h${i} = not(c${i}); j${i} = nor(k${i}, h${i}); y${i} = join(v${i}_2, j${i}); v${i}_2 = separate(v${i})
  c${i + 1} = ${isWrong && i === bits - 2 ? 'separate' : 'wire'}(${isWrong && i === bits - 2 ? `v${i}` : `y${i}`})
  e${i} = nor(x${i}, c${i}); d${i} = not(x${i}); f${i} = nor(d${i}, h${i}); s${i} = nor(e${i}, f${i})`,
  );
  return `${equations.join('\n')}
built adder {
  input ${lanes.map((i) => `a${i}, b${i}`).join(', ')}, c0
  output ${lanes.map((i) => `s${i}`).join(', ')}, c${bits}
${wires.join('\n')}
}
`;
}

describe('conflicts', () => {
  test.each([
    ['conflicts-lane', ['conflicts', 'lane.built'], 5],
    ['conflicts-mended', ['conflicts', 'mended.built'], 0],
    ['conflicts-equations', ['conflicts', 'any = door1 + door2', '--low', 'door1,door2'], 0],
    ['conflicts-none', ['conflicts', 'any = door1 + door2'], 0],
    ['conflicts-broken', ['conflicts', 'broken.built', 'open.built', 'missing.built'], 1],
  ] as const)('%s', async (name, argv, code) => {
    const ran = await runCli(argv, HALL);
    expectGolden(`tests/cli/screens/${name}.txt`, screenOf(argv, ran));
    expect(ran.code).toBe(code);
  });

  test('as data: places, costs, and blocks that read back', async () => {
    const { out, code } = await runCli(['conflicts', 'lane.built', '--json'], HALL);
    expect(code).toBe(5);
    const [report] = JSON.parse(out);
    expect(report).toMatchObject({
      format: 'tickwright.conflicts/1',
      source: 'lane.built',
      target: 'joined-or',
    });
    const [conflict] = report.blocks[0].conflicts;
    expect(conflict).toMatchObject({
      kind: 'join-mixed',
      line: 7,
      column: 3,
      wire: 'c',
      readers: ['c_n', 'p'],
    });
    for (const way of conflict.waysOut) {
      const { block, ticks, parts } = way.remade ?? way.stands;
      const again = await runCli(['check', 'again.built', '--against', 'sum.logic', '--json'], {
        files: { ...HALL.files, 'again.built': `carry = full moving + late; sum = half ^ carry\n${block}` },
      });
      expect(again.err).toBe('');
      expect(again.code).toBe(0);
      expect(JSON.parse(again.out)[0].blocks[0]).toMatchObject({ verdict: 'equal', ticks, parts });
    }
  });
});

describe('check', () => {
  test.each([
    ['check-mended', ['check', 'mended.built'], 0],
    ['check-lane', ['check', 'lane.built'], 4],
    ['check-against', ['check', 'bare.built', '--against', 'sum.logic'], 0],
    ['check-nothing', ['check', 'bare.built'], 1],
    ['check-no-block', ['check', 'sum.logic'], 1],
  ] as const)('%s', async (name, argv, code) => {
    const ran = await runCli(argv, HALL);
    expectGolden(`tests/cli/screens/${name}.txt`, screenOf(argv, ran));
    expect(ran.code).toBe(code);
  });

  test('23 inputs are proved by the solver, and a carry that is lost once is found', async () => {
    const right = await runCli(['conflicts', 'wide.built', '--json'], HALL);
    expect(right.err).toBe('');
    expect(JSON.parse(right.out)[0].blocks[0]).toMatchObject({ proved: true, conflicts: [] });
    const wrong = await runCli(['conflicts', 'wide-wrong.built', '--json'], HALL);
    expect(wrong.code).toBe(5);
    expect(JSON.parse(wrong.out)[0].blocks[0].conflicts[0]).toMatchObject({
      kind: 'wrong-signal',
      wire: 'c10',
    });
    // The same without the search for the best, which takes its time at this width.
    const { value } = readBuiltText(HALL.files['wide-wrong.built']);
    const checked = checkBuilt(value?.blocks[0] as BuiltBlock, value?.equations as System, JOINED_OR);
    expect(checked.block).toMatchObject({
      verdict: 'different',
      method: 'solver',
      firstWrong: { wire: 'c10' },
    });
  });
});

describe('lesson', () => {
  test.each([
    ['lesson', ['lesson'], 0],
    ['lesson-one-name', ['lesson', 'door1'], 2],
    ['lesson-no-name', ['lesson', 'door1', 'nor'], 2],
  ] as const)('%s', async (name, argv, code) => {
    const ran = await runCli(argv, HALL);
    expectGolden(`tests/cli/screens/${name}.txt`, screenOf(argv, ran));
    expect(ran.code).toBe(code);
  });

  test('the same content as data', async () => {
    const { out, code } = await runCli(['lesson', '--json'], HALL);
    expect(code).toBe(0);
    const lesson = JSON.parse(out);
    expect(lesson).toMatchObject({
      format: 'tickwright.lesson/1',
      meant: 'carry1 + carry2',
      other: 'carry1 carry2',
    });
    expect(lesson.rows.length).toBe(4);
    expect(lesson.choices.length).toBe(4);
    expect(lesson.reader.absorbed.ticks).toBeLessThan(lesson.reader.repaired.ticks);
  });
});

test('equations beside built blocks are optimized as if the blocks were not there', async () => {
  const { out, err, code } = await runCli(['lane.built', '--json'], HALL);
  expect([err, code]).toEqual(['', 0]);
  expect(JSON.parse(out)[0].points[0].network.outputs.length).toBe(2);
  const only = await runCli(['bare.built'], HALL);
  expect(only.code).toBe(1);
  expect(only.err).toContain('there are only blocks here');
});

describe('a built block in a picture', () => {
  test('is drawn as it stands, with its conflicts marked where they show', async () => {
    const { out, err, code } = await runCli(['draw', 'lane.built'], HALL);
    expect([err, code]).toEqual(['', 0]);
    expect(out).toContain('as it was built');
    expect(out).toContain('s: 3 ticks, 5 parts');
    expect(out.match(/conflict [0-9]+, (?:c_n|p): c joins wires of different rails/g)).toHaveLength(2);
  });

  test('without conflicts nothing is marked', async () => {
    const { out } = await runCli(['draw', 'mended.built'], HALL);
    expect(out).toContain('as it was built');
    expect(out).not.toContain('conflict 1');
  });

  test('is handed on as gates', async () => {
    const { out, code } = await runCli(['export', 'mended.built', '--as', 'verilog'], HALL);
    expect([code, out.includes('nor')]).toEqual([0, true]);
  });

  test('of several none is drawn', async () => {
    const { err, code } = await runCli(['draw', 'two.built'], {
      files: {
        'two.built': `${MENDED}${MENDED.slice(MENDED.indexOf('built')).replace('built lane', 'built other')}`,
      },
    });
    expect(code).not.toBe(0);
    expect(err).toContain('draw takes one built block at a time, and two.built holds 2');
  });
});

test('the report page tells which ORs cannot be tied as written', async () => {
  const { out, code } = await runCli([
    'optimize',
    'any = door1 + door2',
    ...['--low', 'door1,door2', '--html', '-'],
  ]);
  expect([code, out.includes('Conflicts and ways out')]).toEqual([0, true]);
});
