// The limit on legs, counted by a checker that shares nothing with the search, on every network of a sample: small
// functions, random systems, examples, adders of 4 and 8 bits as ripple equations. The legs are counted twice, in the
// network by `legFaults` and in the printed result by hand, since that is what somebody builds from.

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { packNetwork } from '../../src/network/build-network.ts';
import { legFaults, networkFaults } from '../../src/network/check-network.ts';
import type { Point, Result } from '../../src/report/result.ts';
import { optimize } from '../../src/tickwright.ts';
import { search, targetOf } from '../support/system-of.ts';
import { plainNetwork, randomSystem, seeded } from './proof-samples.ts';

const TARGET = targetOf('joined-or-4');
const MOST = 4;

function ripple(bits: number): string {
  return [
    `input a[${bits - 1}:0], b[${bits - 1}:0], c[0]`,
    `output s[${bits - 1}:0], c[${bits}]`,
    `for i in 0..${bits - 1} {`,
    '  p[i] = a[i] ^ b[i]',
    '  g[i] = a[i] b[i]',
    '  s[i] = p[i] ^ c[i]',
    '  c[i+1] = g[i] + p[i] c[i]',
    '}',
  ].join('\n');
}

function resultOf(text: string, ticks: number | null = null, effort: 'quick' | 'normal' = 'quick'): Result {
  const options = { target: TARGET, ticks, effort, seed: 1, explain: false, version: '' } as const;
  return optimize('text', text, {}, options).result;
}

/** Inverters and outputs of a printed network with more legs than the target allows. */
function tooManyLegs({ network }: Point): string[] {
  return [
    ...network.inverters.filter(({ legs }) => legs.length > MOST).map(({ wire }) => wire),
    ...network.outputs.filter(({ legs }) => legs.length > MOST).map(({ name }) => name),
  ];
}

/** Every point of the result: equal to the equations, and within the limit. */
function expectWithin({ points }: Result): void {
  for (const point of points) expect([point.proof.verdict, tooManyLegs(point)]).toEqual(['equal', []]);
}

test('the checker finds what it should: a leg too many, at an inverter and at an output', () => {
  const inputs = [0, 1, 2, 3, 4].map((signal) => ({ signal, rail: 'high' as const, tick: 0 }));
  const output = [{ signal: 5, rail: 'high' as const }];
  const all = [2, 3, 4, 5, 6];
  expect(legFaults(packNetwork(inputs, output, [all.slice(1)], [[7]]), TARGET)).toEqual([]);
  expect(legFaults(packNetwork(inputs, output, [all], [[7]]), TARGET)).toEqual([
    'inverter 1 has 5 legs, the target joined-or-4 allows 4',
  ]);
  expect(legFaults(packNetwork(inputs, output, [], [all]), TARGET)).toEqual([
    'output 1 has 5 legs, the target joined-or-4 allows 4',
  ]);
  // And it is needed: plain networks have such faults.
  const wide = plainNetwork(search("x = (a + b + c + d + e + f)'").system);
  expect(legFaults(wide, TARGET)).not.toEqual([]);
});

describe('joined-or-4: every network of the sample', () => {
  const texts: readonly string[] = [
    'x = a b c d e f',
    'x = a + b + c + d + e',
    "x = (a + b + c + d + e + f + g)'",
    'x = a nand b',
    'x = a ^ b ^ c ^ d',
    'c4 = g3 + p3 g2 + p3 p2 g1 + p3 p2 p1 g0 + p3 p2 p1 p0 c0',
    'f(a, b, c, d, e) = minterms(1, 2, 4, 7, 11, 13, 14, 19, 22, 26, 31)',
    's = a ^ b ^ c; d = maj(a, b, c)',
    ripple(2),
    ripple(3),
  ];
  test.each(texts.map((text) => [text.split('\n')[0], text]))('%s', (_, text) => {
    const found = resultOf(text);
    expect(found.points).toHaveLength(1);
    expectWithin(found);
    const { ticks } = found.points[0];
    if (ticks > 0) expectWithin(resultOf(text, ticks + 1));
  });

  test('random systems, the network of the search itself as well', () => {
    for (let seed = 1; seed <= 25; seed++) {
      const system = randomSystem(seeded(300 + seed), 2 + (seed % 4), 1 + (seed % 3), { rails: true });
      const { outcome } = search(system, { target: TARGET, effort: 'quick' });
      const network = outcome.answer?.network;
      if (network === undefined) continue;
      expect([seed, networkFaults(network), legFaults(network, TARGET)]).toEqual([seed, [], []]);
    }
  });

  const examples = ['01-lookahead-carry', '04-full-adder'];
  test.each(examples)('the example %s', (name) => {
    const text = readFileSync(new URL(`../../examples/${name}.logic`, import.meta.url), 'utf8');
    const found = resultOf(text);
    expect(found.points).toHaveLength(1);
    expectWithin(found);
  });
});

describe('joined-or-4: adders from ripple equations', () => {
  // As fast and as small as they came out when this was written; the search may do better.
  test.each([
    [4, null, 4, 36],
    [4, 10, 10, 28],
    [8, null, 8, 64],
  ])('%i bits, ticks %s: at most %i ticks and %i parts', { timeout: 300_000 }, (bits, wish, most, parts) => {
    const found = resultOf(ripple(bits), wish, 'normal');
    expect(found.points).toHaveLength(1);
    expectWithin(found);
    const [point] = found.points;
    expect([point.ticks <= most, point.parts <= parts]).toEqual([true, true]);
    expect(point.proof).toMatchObject({ method: 'patterns', patterns: 2 ** (2 * bits + 1) });
  });
});
