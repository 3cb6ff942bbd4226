// The prover: against a naive evaluator on random systems, on both methods, and on adders too wide for patterns.

import { describe, expect, test } from 'vitest';
import type { System } from '../../src/equations/system.ts';
import { packNetwork } from '../../src/network/build-network.ts';
import type { Network } from '../../src/network/network.ts';
import { AuditedSolver } from '../../src/proof/audited-solver.ts';
import { compareBySolver } from '../../src/proof/compare-by-solver.ts';
import { prove } from '../../src/proof/prove.ts';
import { PROOF_LIMITS, type Verdict } from '../../src/proof/verdict.ts';
import {
  damaged,
  naiveLevels,
  naiveValues,
  plainNetwork,
  prefixAdder,
  randomSystem,
  rippleAdder,
  seeded,
  systemOf,
} from './proof-samples.ts';

const BY_SOLVER = { ...PROOF_LIMITS, patternInputs: -1 };

/** The first allowed row on which an output is wrong, and how many allowed rows there are up to it. */
function naiveVerdict(
  system: System,
  network: Network,
  logic: 'or' | 'and',
): { row: number; allowed: number } {
  let allowed = 0;
  for (let row = 0; row < 2 ** system.inputs.length; row++) {
    const values = naiveValues(system, row);
    if (values === null) continue;
    allowed++;
    const { outputs } = naiveLevels(system, network, logic, row);
    const wrong = network.outputs.some(
      ({ signal, rail }, y) => outputs[y] !== (rail === 'high' ? values[signal] : 1 - values[signal]),
    );
    if (wrong) return { row, allowed };
  }
  return { row: -1, allowed };
}

function rowOf(system: System, { counterexample }: Verdict): number {
  return system.inputs.reduce(
    (row, { signal }, i) => row + 2 ** i * (counterexample?.[system.signals[signal]] ?? NaN),
    0,
  );
}

describe('against a naive evaluator', () => {
  const samples = Array.from({ length: 60 }, (_, seed) => {
    const next = seeded(seed + 1);
    const system = randomSystem(next, next(8), 1 + next(4), { never: seed % 2 === 1, rails: true });
    return { seed, next, system, network: plainNetwork(system, next(2) === 0 ? 'high' : 'low') };
  });

  test('networks laid operator by operator are equal, by both methods', () => {
    for (const { seed, system, network } of samples) {
      const { allowed } = naiveVerdict(system, network, 'or');
      expect({ seed, ...prove(system, network, 'or') }).toEqual({
        seed,
        verdict: 'equal',
        method: 'patterns',
        patterns: allowed,
      });
      expect({ seed, ...prove(system, network, 'or', BY_SOLVER) }).toEqual({
        seed,
        verdict: 'equal',
        method: 'solver',
        patterns: null,
      });
    }
  });

  test('damaged networks: the smallest differing pattern, a true one from the solver', () => {
    let different = 0;
    for (const { seed, next, system, network } of samples) {
      for (let round = 0; round < 4; round++) {
        const wrong = damaged(network, next);
        const logic = round === 3 ? 'and' : 'or';
        const naive = naiveVerdict(system, wrong, logic);
        const verdict = prove(system, wrong, logic);
        const bySolver = prove(system, wrong, logic, BY_SOLVER);
        expect({ seed, round, patterns: verdict.patterns }).toEqual({ seed, round, patterns: naive.allowed });
        expect([verdict.verdict, bySolver.verdict]).toEqual(
          naive.row < 0 ? ['equal', 'equal'] : ['different', 'different'],
        );
        if (naive.row < 0) continue;
        different++;
        expect(rowOf(system, verdict)).toBe(naive.row);
        const row = rowOf(system, bySolver);
        const values = naiveValues(system, row);
        expect(values).not.toBeNull();
        const { outputs } = naiveLevels(system, wrong, logic, row);
        const wrongAt = wrong.outputs.some(
          ({ signal, rail }, y) =>
            system.signals[signal] === bySolver.wrongOutput &&
            outputs[y] !== (rail === 'high' ? values![signal] : 1 - values![signal]),
        );
        expect(wrongAt).toBe(true);
      }
    }
    expect(different).toBeGreaterThan(60);
  });
});

describe('delivery', () => {
  const system = systemOf(
    'input a, b low, e either, f both\noutput x, y low, z both\nx = a b\ny = a e\nz = f',
  );
  const good = plainNetwork(system);

  test('the plain network passes', () => {
    expect(prove(system, good, 'or').verdict).toBe('equal');
    expect(prove(system, plainNetwork(system, 'low'), 'or').verdict).toBe('equal');
  });

  const [a, b, e, fHigh, fLow] = good.inputs;
  const [x, y, zHigh, zLow] = good.outputs;
  test.each<[string, Partial<Network>, string | undefined]>([
    [
      'the input b is active-low, but the network takes it active-high',
      { inputs: [a, { ...b, rail: 'high' }, e, fHigh, fLow] },
      undefined,
    ],
    [
      'the network has more wires for the input a than the outside gives',
      { inputs: [a, b, e, fHigh, a] },
      undefined,
    ],
    [
      'the network has more wires for the input e than the outside gives',
      { inputs: [a, b, e, fHigh, { ...e, rail: 'low' }] },
      undefined,
    ],
    ['the input a arrives at tick 0, not 3', { inputs: [{ ...a, tick: 3 }, b, e, fHigh, fLow] }, undefined],
    [
      'the network has an input wire for x, which is no input',
      { inputs: [a, b, e, fHigh, { ...fLow, signal: x.signal }] },
      undefined,
    ],
    [
      'the output x must be active-high, but is delivered active-low',
      { outputs: [{ ...x, rail: 'low' }, y, zHigh, zLow] },
      'x',
    ],
    [
      'the output y is not delivered',
      { outputs: [x, zHigh, zLow], outputStart: Int32Array.of(0, 1, 2, 4) },
      'y',
    ],
    [
      'the output z must be delivered on both rails',
      { outputs: [x, y, zHigh], outputStart: Int32Array.of(0, 1, 2, 4) },
      'z',
    ],
    ['the output x is delivered more often than asked for', { outputs: [x, y, zHigh, x] }, 'x'],
    ['the network delivers a, which is no output', { outputs: [x, y, zHigh, { ...a, rail: 'low' }] }, 'a'],
    [
      'inverter 1 has the leg 99, which is no wire before it',
      { legs: good.legs.map((leg, i) => (i === 0 ? 99 : leg)) },
      undefined,
    ],
    ['the legs of the inverters are not packed as they should be', { size: good.size - 1 }, undefined],
    ['output 1 has no legs', { outputStart: Int32Array.of(0, 0, 2, 3, 4) }, undefined],
  ])('%s', (reason, change, wrongOutput) => {
    expect(prove(system, { ...good, ...change }, 'or')).toEqual({
      verdict: 'different',
      method: 'patterns',
      patterns: null,
      reason,
      ...(wrongOutput !== undefined && { wrongOutput }),
    });
  });

  test('a counterexample keeps the names and order of the inputs', () => {
    const odd = systemOf('x = __proto__ b1');
    const inputs = odd.inputs.map(({ signal }) => ({ signal, rail: 'high' as const, tick: 0 }));
    const verdict = prove(odd, packNetwork(inputs, [{ signal: 2, rail: 'high' }], [], [[2, 3]]), 'or');
    expect(Object.entries(verdict.counterexample ?? {})).toEqual([
      ['__proto__', 1],
      ['b1', 0],
    ]);
    expect(verdict).toMatchObject({ verdict: 'different', patterns: 2, wrongOutput: 'x' });
  });
});

describe('special systems', () => {
  test('without inputs there is one pattern', () => {
    const system = systemOf('x = 1\ny = 0');
    const network = packNetwork(
      [],
      system.outputs.map(({ signal }) => ({ signal, rail: 'high' })),
      [],
      [[1], [0]],
    );
    expect(prove(system, network, 'or')).toEqual({ verdict: 'equal', method: 'patterns', patterns: 1 });
    expect(prove(system, network, 'and', BY_SOLVER).verdict).toBe('equal');
  });

  test('joins that compute AND', () => {
    const system = systemOf('input a, b\noutput x, y\nx = a b\ny = a nand b');
    const inputs = system.inputs.map(({ signal }) => ({ signal, rail: 'high' as const, tick: 0 }));
    const outputs = system.outputs.map(({ signal }) => ({ signal, rail: 'high' as const }));
    const network = packNetwork(inputs, outputs, [[2, 3]], [[2, 3], [4]]);
    for (const limits of [PROOF_LIMITS, BY_SOLVER]) {
      expect(prove(system, network, 'and', limits).verdict).toBe('equal');
      expect(prove(system, network, 'or', limits).verdict).toBe('different');
    }
  });

  test('nothing that can happen: nothing can be wrong', () => {
    const system: System = { ...systemOf('x = a b'), never: [{ kind: 'constant', value: 1 }] };
    const network = { ...plainNetwork(system), outputLegs: Int32Array.of(0) };
    expect(prove(system, network, 'or')).toMatchObject({ verdict: 'equal', patterns: 0 });
    expect(prove(system, network, 'or', BY_SOLVER).verdict).toBe('equal');
  });

  test('only one pattern of 2^24 can happen', () => {
    const names = Array.from({ length: 24 }, (_, i) => `x${i}`);
    const system = systemOf(`y = ${names.join(' ')}\nnever (${names.slice(1).join(' ')} x0')'`);
    const network = (value: number): Network =>
      packNetwork([], [{ signal: system.outputs[0].signal, rail: 'high' }], [], [[value]]);
    expect(prove(system, network(0), 'or').verdict).toBe('equal');
    const verdict = prove(system, network(1), 'or');
    expect(verdict).toMatchObject({ verdict: 'different', method: 'solver', wrongOutput: 'y' });
    expect(Object.values(verdict.counterexample ?? {})).toEqual([0, ...names.slice(1).map(() => 1)]);
  });
});

describe('adders', () => {
  test('8 bits by patterns: 2^17 of them', () => {
    const system = rippleAdder(8);
    expect(prove(system, prefixAdder(system, 8), 'or')).toEqual({
      verdict: 'equal',
      method: 'patterns',
      patterns: 131072,
    });
  });

  test('64 bits of ripple equations against a prefix network, refutation replayed', () => {
    const system = rippleAdder(64);
    const network = prefixAdder(system, 64);
    const found = compareBySolver(system, network, 'or', 20_000);
    expect(found).toMatchObject({ answer: 'equal', difference: null, reason: null });
    expect(found.equalities).toBeGreaterThan(300);
    expect(found.replayed).toBeGreaterThan(2 * found.equalities);
    expect(prove(system, network, 'or')).toEqual({ verdict: 'equal', method: 'solver', patterns: null });
  });

  test('64 bits, damaged in many places: always a pattern that shows it', () => {
    const system = rippleAdder(64);
    const network = prefixAdder(system, 64);
    const next = seeded(7);
    const verdicts = Array.from({ length: 20 }, () => prove(system, damaged(network, next), 'or'));
    expect(verdicts.filter(({ verdict }) => verdict === 'undecided')).toEqual([]);
    expect(verdicts.filter(({ verdict }) => verdict === 'different').length).toBeGreaterThan(10);
  });

  test('a limit that is too small gives undecided, never equal', () => {
    const system = rippleAdder(32);
    expect(prove(system, prefixAdder(system, 32), 'or', { ...BY_SOLVER, conflicts: 100 })).toEqual({
      verdict: 'undecided',
      method: 'solver',
      patterns: null,
      reason: 'the limit of conflicts was reached',
    });
  });
});

describe('the audited solver', () => {
  test('lemmas are replayed and lead to the refutation', () => {
    const solver = new AuditedSolver(1000);
    const [a, b, c] = [solver.newVariable(), solver.newVariable(), solver.newVariable()];
    solver.add([-a, b]);
    solver.add([-b, c]);
    expect(solver.implies(a, c, 100)).toBe('unsatisfiable');
    expect(solver.implies(c, a, 100)).toBe('satisfiable');
    expect(solver.replay().trusted).toBe(false);
    solver.add([a]);
    solver.add([-c]);
    expect(solver.solve([], 100)).toBe('unsatisfiable');
    expect(solver.replay().trusted).toBe(true);
  });

  test('a given clause that was never written down is not believed', () => {
    const solver = new AuditedSolver(1000);
    const a = solver.newVariable();
    solver.add([a]);
    solver.add([-a]);
    expect(solver.replay().trusted).toBe(true);
    const written = (solver as unknown as { written: number[][] }).written;
    written[1] = [a];
    expect(solver.replay().trusted).toBe(false);
  });
});
