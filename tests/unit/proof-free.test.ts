// Free patterns in the proof: each is one choice, and other equations see the signal that was built. By definition a
// network is right on a pattern when there are values for the free signals under which every output wire is right; the
// naive judge here tries them all, and both methods of the prover must say the same.

import { describe, expect, test } from 'vitest';
import { readEquations } from '../../src/equations/read-equations.ts';
import type { Expression, Freedom, System } from '../../src/equations/system.ts';
import type { Network } from '../../src/network/network.ts';
import { prove } from '../../src/proof/prove.ts';
import { PROOF_LIMITS, type Verdict } from '../../src/proof/verdict.ts';
import { optimize } from '../../src/tickwright.ts';
import { targetOf } from '../support/system-of.ts';
import {
  damaged,
  naiveLevels,
  naiveValues,
  plainNetwork,
  randomSystem,
  seeded,
  systemOf,
} from './proof-samples.ts';

const BY_SOLVER = { ...PROOF_LIMITS, patternInputs: -1 };

/** The system with every free signal fixed: where it is free it is what `choose` says. */
function fixed(system: System, choose: (signal: number) => Expression): System {
  const { free = [], ...rest } = system;
  return {
    ...rest,
    definitions: system.definitions.map((definition) => {
      const patterns = free.filter(({ signal }) => signal === definition.signal);
      if (patterns.length === 0) return definition;
      const select: Expression = { kind: 'or', args: patterns.map(({ expression }) => expression) };
      const when1 = choose(definition.signal);
      return { ...definition, expression: { kind: 'mux', select, when0: definition.expression, when1 } };
    }),
  };
}

function constant(value: number): Expression {
  return { kind: 'constant', value: value === 1 ? 1 : 0 };
}

/** Can the free signals have values on this row under which all output wires are right? True where it cannot happen. */
function isRight(system: System, network: Network, row: number): boolean {
  if (naiveValues(system, row) === null) return true;
  const { outputs } = naiveLevels(system, network, 'or', row);
  const free = [...new Set((system.free ?? []).map(({ signal }) => signal))];
  return Array.from({ length: 2 ** free.length }, (_, n) => n).some((n) => {
    const choice = fixed({ ...system, never: [] }, (signal) => constant((n >> free.indexOf(signal)) & 1));
    const values = naiveValues(choice, row) as number[];
    return network.outputs.every(
      ({ signal, rail }, y) => outputs[y] === (rail === 'high' ? values[signal] : 1 - values[signal]),
    );
  });
}

/** A random system some of whose definitions are free on random patterns. */
function randomFreeSystem(seed: number): {
  system: System;
  network: Network;
  next: (below: number) => number;
} {
  const next = seeded(9000 + seed);
  const inputs = 1 + next(5);
  const system = randomSystem(next, inputs, 2 + next(3), { never: seed % 3 === 0, rails: true });
  const expressions = (): Expression[] =>
    randomSystem(next, inputs, 1, {}).definitions.map(({ expression }) => expression);
  const free = system.definitions.flatMap(({ signal }): Freedom[] =>
    next(2) === 0
      ? []
      : Array.from({ length: 1 + next(2) }, () => ({ signal, expression: expressions()[0], at: null })),
  );
  const withFree = { ...system, free };
  // One way to use the freedom, by the same rule on all patterns or by another expression of the inputs.
  const choices = new Map(system.definitions.map(({ signal }) => [signal, expressions()[0]]));
  const network = plainNetwork(fixed(withFree, (signal) => choices.get(signal) as Expression));
  return { system: withFree, network, next };
}

function rowOf(system: System, { counterexample }: Verdict): number {
  return system.inputs.reduce(
    (row, { signal }, i) => row + 2 ** i * (counterexample?.[system.signals[signal]] ?? Number.NaN),
    0,
  );
}

describe('random systems with free patterns', () => {
  test('both methods say what trying all choices says', () => {
    const seen = { equal: 0, different: 0, usesFreedom: 0 };
    for (let seed = 1; seed <= 80; seed++) {
      const { system, network, next } = randomFreeSystem(seed);
      const { free: _, ...withoutFree } = system;
      for (const tried of [network, damaged(network, next), damaged(network, next)]) {
        const rows = Array.from({ length: 2 ** system.inputs.length }, (_, row) => row);
        const firstWrong = rows.find((row) => !isRight(system, tried, row)) ?? -1;
        const expected = firstWrong < 0 ? 'equal' : 'different';
        const byPatterns = prove(system, tried, 'or');
        const bySolver = prove(system, tried, 'or', BY_SOLVER);
        expect([seed, byPatterns.verdict, bySolver.verdict]).toEqual([seed, expected, expected]);
        seen[expected]++;
        if (expected === 'different') {
          expect(rowOf(system, byPatterns)).toBe(firstWrong);
          expect(isRight(system, tried, rowOf(system, bySolver))).toBe(false);
        } else if (prove(withoutFree, tried, 'or').verdict === 'different') seen.usesFreedom++;
      }
    }
    expect(Math.min(seen.equal, seen.different, seen.usesFreedom), JSON.stringify(seen)).toBeGreaterThan(30);
  });
});

describe('one choice', () => {
  const text = 'input a, b, c\noutput x, y\nx = a b\ny = x c';
  const system: System = {
    ...systemOf(text),
    free: [{ signal: 3, expression: { kind: 'not', argument: { kind: 'signal', signal: 0 } }, at: null }],
  };
  /** The network of equations that use freedom in some way. */
  const networkOf = (equations: string): Network =>
    plainNetwork(systemOf(`input a, b, c\noutput x, y\n${equations}`));

  test.each([
    ['as defined', 'x = a b; y = a b c', 'equal'],
    ['the other way, and all see it', 'x = b; y = b c', 'equal'],
    ['another equation does not see it', 'x = b; y = a b c', 'different'],
    ['seen where it was not built', 'x = a b; y = b c', 'different'],
    ['used where it is not free', 'x = a; y = a c', 'different'],
  ])('%s: %s is %s', (_, equations, verdict) => {
    for (const limits of [PROOF_LIMITS, BY_SOLVER])
      expect(prove(system, networkOf(equations), 'or', limits).verdict).toBe(verdict);
  });

  test('a signal on two wires has one value on both', () => {
    const both = readEquations("output x both; x = a b; free x: a'").value as System;
    const lay = (x: string, low: string): Network => {
      const two = plainNetwork(systemOf(`input a, b\noutput x, z\nx = ${x}\nz = ${low}`));
      return { ...two, outputs: [two.outputs[0], { ...two.outputs[0], rail: 'low' }] };
    };
    for (const limits of [PROOF_LIMITS, BY_SOLVER]) {
      expect(prove(both, lay('b', "b'"), 'or', limits).verdict).toBe('equal');
      expect(prove(both, lay('b', "(a b)'"), 'or', limits).verdict).toBe('different');
    }
  });

  test('and the search keeps to it', () => {
    for (const rail of ['high', 'low', 'either', 'both']) {
      const equations = `output x ${rail}, y; x = a ^ b; free x: a b; y = c + d`;
      const options = { target: targetOf('joined-or'), ticks: null, effort: 'quick', seed: 1 } as const;
      const { result } = optimize('text', equations, {}, { ...options, explain: false, version: '' });
      expect(result.points[0].proof.verdict, rail).toBe('equal');
    }
  });

  test('`never` is about what happens, not about what is built', () => {
    const forbidding: System = { ...system, never: [{ kind: 'signal', signal: 3 }] };
    // Built as b, x would forbid every pattern with b; defined as a b, it forbids a b only.
    for (const limits of [PROOF_LIMITS, BY_SOLVER]) {
      expect(prove(forbidding, networkOf('x = b; y = 0'), 'or', limits).verdict).toBe('different');
      expect(prove(forbidding, networkOf('x = b; y = b c'), 'or', limits).verdict).toBe('equal');
    }
  });

  test('more hidden signals than are tried: undecided, never different', () => {
    const names = ['p', 'q', 'r', 's', 't', 'u'];
    const lines = names.map((name) => `${name} = a b; free ${name}: 1`).join('\n');
    const many = readEquations(`output y\n${lines}\ny = ${names.join(' ^ ')}`).value as System;
    const one = plainNetwork(systemOf('input a, b\noutput y\ny = 1'));
    const network = { ...one, outputs: [{ signal: many.outputs[0].signal, rail: 'high' as const }] };
    for (const limits of [PROOF_LIMITS, BY_SOLVER])
      expect(prove(many, network, 'or', limits)).toMatchObject({ verdict: 'equal' });
    const lost = readEquations(`output y\n${lines}\ny = ${names.join(' ')} c`).value as System;
    const always = plainNetwork(systemOf('input a, b, c\noutput y\ny = c'));
    const wrong = { ...always, outputs: [{ signal: lost.outputs[0].signal, rail: 'high' as const }] };
    for (const limits of [PROOF_LIMITS, BY_SOLVER]) {
      expect(prove(lost, wrong, 'or', limits)).toMatchObject({
        verdict: 'undecided',
        reason: 'free signals that are no outputs leave too many choices to try them all',
      });
    }
  });
});

describe('a wide system with a table that has free rows', () => {
  const lanes = Array.from({ length: 24 }, (_, i) => `x${i}`);
  const table = 'f(x0, x1, x2, x3) = minterms(1, 3, 5, 7, 9) + free(10..15)';
  const rest = `y = f ^ ${lanes.slice(4).join(' ^ ')}\nz = f' ${lanes.slice(8).join(' ')}`;
  const system = systemOf(`input ${lanes.join(', ')}\noutput f, y, z\n${table}\n${rest}`);
  const lay = (f: string, seen: string): Network =>
    plainNetwork(
      systemOf(
        `input ${lanes.join(', ')}\noutput f, y, z\nf = ${f}\nh = ${seen}\n${rest.replaceAll('f', 'h')}`,
      ),
    );
  /** Signal numbers differ where `h` stands between; only the outputs name them. */
  const proved = (network: Network): Verdict =>
    prove(
      system,
      {
        ...network,
        outputs: network.outputs.map((wire, y) => ({ ...wire, signal: system.outputs[y].signal })),
      },
      'or',
    );

  // x0 is the most significant bit of the row: 1, 3, 5, 7 and 9 are the odd rows; x3 alone does where 10..15 are free.
  const defined = "x3 (x0' + x1' x2')";

  test('there are more than 20 inputs, so the solver is asked', () => {
    expect(proved(lay(defined, defined))).toMatchObject({ verdict: 'equal', method: 'solver' });
  });

  test('built the other way, and the other equations see it', () => {
    expect(proved(lay('x3', 'x3')).verdict).toBe('equal');
  });

  test.each([
    ['x3', defined],
    [defined, 'x3'],
    ["x3 + x0' x1'", "x3 + x0' x1'"],
  ])('f = %s while the others see %s is found wrong', (f, seen) => {
    const verdict = proved(lay(f, seen));
    expect(verdict.verdict).toBe('different');
    const network = lay(f, seen);
    const row = rowOf(system, verdict);
    const outputs = network.outputs.map((wire, y) => ({ ...wire, signal: system.outputs[y].signal }));
    expect(isRight(system, { ...network, outputs }, row)).toBe(false);
  });

  test('chosen by something far away, which is one choice as well', () => {
    expect(proved(lay(`${defined} + x0 x1 x2 x20`, `${defined} + x0 x1 x2 x20`)).verdict).toBe('equal');
    expect(proved(lay(`${defined} + x0 x1 x2 x20`, `${defined} + x0 x1 x2 x21`)).verdict).toBe('different');
  });
});
