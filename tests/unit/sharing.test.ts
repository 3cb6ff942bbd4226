// Ways of sharing: who is grouped with whom, that every network is right, and what sharing saves.

import { describe, expect, test } from 'vitest';
import { groupsOf, type Way } from '../../src/search/sharing.ts';
import { type OptimizeOptions, optimize, WAYS } from '../../src/tickwright.ts';
import { systemOf, targetOf } from '../support/system-of.ts';

/** Two lanes that add or multiply; `op` runs to both. */
const HALL = `input op, a0, b0, a1, b1, c0
output y0, y1, c1, c2
y0 = op (a0 ^ b0 ^ c0) + op' a0 b0
c1 = maj(a0, b0, c0)
y1 = op (a1 ^ b1) + op' a1 b1
c2 = a1 b1
`;

function groups(text: string, way: Way): string[] {
  const system = systemOf(text);
  const name = (y: number): string => system.signals[system.outputs[y]!.signal]!;
  return groupsOf(system, way).groups.map((outputs) => outputs.map(name).join(' '));
}

function run(text: string, more: Partial<OptimizeOptions> = {}) {
  const options = { ticks: null, effort: 'normal', seed: 1, explain: false, version: '' } as const;
  return optimize('hall', text, {}, { target: targetOf('joined-or'), ...options, ...more });
}

describe('groups', () => {
  test('together: one; alone: as many as outputs; grouped: more than half of the inputs in common', () => {
    expect(groups(HALL, 'together')).toEqual(['y0 y1 c1 c2']);
    expect(groups(HALL, 'alone')).toEqual(['y0', 'y1', 'c1', 'c2']);
    expect(groups(HALL, 'grouped')).toEqual(['y0 c1', 'y1 c2']);
    expect(groups('x = a b; y = a c', 'grouped')).toEqual(['x', 'y']);
    expect(groups('x = a b; y = a b c; z = c d; u = 1', 'grouped')).toEqual(['x y', 'z', 'u']);
  });

  test('one rail for all: outputs that use an input whose rail is left to the search stay together', () => {
    const text = 'input a either, b, c, d either\noutput x, y, z\nx = a b\ny = a c\nz = d';
    expect(groups(text, 'alone')).toEqual(['x y', 'z']);
    const { diagnostics } = run(text, { share: 'alone' });
    expect(diagnostics.map(({ code, message }) => `${code}: ${message}`)).toEqual([
      'tied-by-rails: outputs that use a are searched together: the rail is left to the search, and it is one for all',
    ]);
  });
});

describe('what sharing saves', () => {
  test('is told for the way that was asked for, and nothing is said when none was', () => {
    expect(run(HALL).result.sharing).toBe(undefined);
    const effort = 'quick';
    const sharing = Object.fromEntries(
      WAYS.map((share) => [share, run(HALL, { share, effort }).result.sharing]),
    );
    expect(sharing.alone).toMatchObject({ way: 'alone', alone: 22, together: 18 });
    expect(sharing.grouped).toMatchObject({ way: 'grouped', alone: 22, grouped: 19, together: 18 });
    expect(sharing.together).toMatchObject({ way: 'together', alone: 22, together: 18 });
    expect(sharing.grouped?.groups).toEqual([
      { outputs: ['y0', 'c1'], ticks: 2, parts: 12 },
      { outputs: ['y1', 'c2'], ticks: 2, parts: 7 },
    ]);
    expect(sharing.alone?.groups.map(({ parts }) => parts)).toEqual([9, 6, 4, 3]);
  });

  test.each(WAYS)('%s: the answer has the parts that are told, at the ticks that are told', (share) => {
    for (const wish of [{ parts: 21 }, { frontier: share === 'alone', budget: { factor: 1 } }]) {
      const { result } = run(HALL, { share, effort: 'quick', ...wish });
      const { sharing, chosen = 0 } = result;
      const point = result.points[chosen]!;
      expect(point.proof.verdict).toBe('equal');
      expect(sharing?.[share]).toBe(point.parts);
      expect(sharing?.together).toBeLessThanOrEqual(sharing?.alone ?? 0);
      expect(sharing?.groups.every(({ ticks }) => ticks <= point.ticks)).toBe(true);
      if (share !== 'together') expect(parts(sharing?.groups)).toBe(point.parts);
    }
  });

  test('deadlines bound each way alike', () => {
    const text = HALL.replace('output y0,', 'output y0 by 3,');
    const { sharing, points } = run(text, { share: 'grouped', effort: 'quick' }).result;
    expect(points[0]?.ticks).toBeLessThanOrEqual(3);
    expect(sharing?.together).toBeLessThanOrEqual(sharing?.grouped ?? 0);
    expect(sharing?.grouped).toBeLessThanOrEqual(sharing?.alone ?? 0);
  });

  test('copies are counted over the whole where an inverter feeds one wire only', () => {
    const target = targetOf('joined-or-single');
    for (const share of WAYS) {
      const { points, sharing } = run(HALL, { share, target, effort: 'quick' }).result;
      const [{ parts: built, network }] = points as [(typeof points)[number]];
      expect(built).toBe(network.inverters.length);
      expect(sharing?.[share]).toBe(built);
    }
  });

  test('says in words when so few parts need sharing', () => {
    const { diagnostics } = run(HALL, { share: 'alone', parts: 19, effort: 'quick' });
    expect(diagnostics.map(({ hint }) => hint)).toEqual([
      'allow more parts, or let all outputs share inverters with --share together',
    ]);
  });
});

function parts(all: readonly { readonly parts: number }[] | undefined): number {
  return (all ?? []).reduce((sum, group) => sum + group.parts, 0);
}
