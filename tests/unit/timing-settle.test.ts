// Settling: the figures of adders, the classic transition, off slower than on, and what is out of the ordinary.

import { describe, expect, test } from 'vitest';
import type { Target } from '../../src/target/target.ts';
import { patternMaker, scopeOf } from '../../src/timing/allowed-patterns.ts';
import { arrivalsOf, EDGES, NEVER, requirementsOf } from '../../src/timing/arrivals.ts';
import { benchPlan } from '../../src/timing/bench-plan.ts';
import { circuitFaults, makeCircuit } from '../../src/timing/circuit.ts';
import { circuitOfNetwork } from '../../src/timing/circuit-of-network.ts';
import { EnduranceOfTransitions, isTooShort, strainOf } from '../../src/timing/endurance.ts';
import { exerciseOf } from '../../src/timing/exercise.ts';
import { falsePaths } from '../../src/timing/false-paths.ts';
import { changesOf, simulateTransition } from '../../src/timing/history.ts';
import { FLIPS, SETTLE_LIMITS, settle, usualOptions } from '../../src/timing/settle.ts';
import { candidatesOf } from '../../src/timing/settle-by-input.ts';
import { walkTransitions, wholeScope } from '../../src/timing/walk-transitions.ts';
import { NaiveTimer, naiveSettling, transitionsOf } from '../support/naive-timing.ts';
import { systemOf, targetOf } from '../support/system-of.ts';
import {
  arrayMultiplier,
  foundCircuit,
  rippleAdder,
  type Timed,
  writtenCircuit,
} from '../support/timed-circuit.ts';

const FULL_ADDER = 'half = a ^ b; sum = half ^ c; output sum, cout; cout = a b + half c';

/** `ON/OFF` for every output: ticks of the slowest settling. */
function figures({ circuit }: Timed, flips: 'single' | 'any' = 'any'): string {
  return settle(circuit)
    .outputs.map(({ slowest }) => {
      const { on, off } = slowest[flips];
      return `${on.settles.tick}/${off.settles.tick}`;
    })
    .join(' ');
}

function agreesWithNaive({ circuit, network, target, signals }: Timed): void {
  const settling = settle(circuit);
  const timer = new NaiveTimer(network, target, signals);
  const until = Math.max(...settling.outputs.flatMap(({ bound }) => [bound.on, bound.off])) + 1;
  for (const flips of FLIPS) {
    const naive = naiveSettling(timer, network.outputs.length, transitionsOf(signals.length, flips), until);
    const ours = settling.outputs.map(({ slowest }) => {
      const { on, off } = slowest[flips];
      return {
        on: on.settles.tick,
        off: off.settles.tick,
        changeOn: on.changes.tick,
        changeOff: off.changes.tick,
      };
    });
    expect(ours).toEqual(naive);
  }
}

describe('adders, all pairs of patterns', () => {
  test.each([
    ['full adder as written', () => writtenCircuit(FULL_ADDER)],
    ['full adder', () => foundCircuit(FULL_ADDER)],
    ['adder of 4 bits', () => foundCircuit(rippleAdder(4), { ticks: 4 })],
  ])('%s: agrees with the naive simulator', (_, make) => agreesWithNaive(make()), 60_000);

  test('adder of 4 bits as written: agrees with the naive simulator on all 262,144 pairs', () => {
    agreesWithNaive(writtenCircuit(rippleAdder(4)));
  }, 120_000);

  test('figures as written: every stage of the carry takes two ticks, the sums two more', () => {
    const made = writtenCircuit(rippleAdder(4));
    expect(figures(made)).toBe('4/4 6/6 8/8 10/10 10/10');
    expect(figures(made, 'single')).toBe('4/4 6/6 8/8 10/10 10/10');
    expect(settle(made.circuit).method).toEqual({ single: 'simulated', any: 'simulated' });
  });
});

describe('adder of 8 bits', () => {
  const made = foundCircuit(rippleAdder(8), { ticks: 5 });

  test.each([
    ['found', () => made],
    ['as written', () => writtenCircuit(rippleAdder(8))],
  ])(
    '%s: every figure is proved',
    (_, make) => {
      const settling = settle(make().circuit);
      expect(settling.method).toEqual({ single: 'simulated', any: 'solver' });
      expect(settling.outputs).toHaveLength(9);
      for (const { slowest, bound } of settling.outputs) {
        for (const edge of EDGES) {
          const { tick, claim } = slowest.any[edge].settles;
          expect(claim === 'bound' || claim === 'refuted').toBe(true);
          expect(tick).toBeLessThanOrEqual(bound[edge]);
          expect(slowest.single[edge].settles.tick).toBeLessThanOrEqual(tick);
        }
      }
    },
    60_000,
  );

  test.each([
    ['found', () => made],
    ['as written', () => writtenCircuit(rippleAdder(8))],
  ])('%s: all ones and a flipped carry is among the candidates, and reproduced', (_, make) => {
    const { circuit } = make();
    const candidates = candidatesOf(circuit, usualOptions(circuit)) ?? [];
    const carry = circuit.inputs.findIndex(({ name }) => name === 'c0');
    const output = circuit.outputs.findIndex(({ name }) => name === 'c8');
    const { wire } = circuit.outputs[output];
    for (const edge of EDGES) {
      const from = Uint8Array.from(circuit.inputs, ({ name }) => (name.startsWith('a') ? 1 : 0));
      if (edge === 'off') from[carry] = 1;
      const to = Uint8Array.from(from, (value, i) => (i === carry ? 1 - value : value));
      const last = changesOf(simulateTransition(circuit, from, to), wire).at(-1);
      const candidate = candidates.find(
        (other) => other.output === output && other.input === carry && other.edge === edge,
      );
      expect(last).toEqual({ tick: candidate?.tick, level: edge === 'on' ? 1 : 0 });
    }
  });

  test('when the solver may not search, what it says is said to be merely found', () => {
    const { circuit } = writtenCircuit(arrayMultiplier(4));
    const whole = settle(circuit, { ...usualOptions(circuit), mostWork: 0 });
    const short = settle(circuit, { ...usualOptions(circuit), mostWork: 0, conflicts: 1 });
    const claims = short.outputs.flatMap(({ slowest }) =>
      EDGES.map((edge) => slowest.any[edge].settles.claim),
    );
    expect(claims).toContain('found');
    short.outputs.forEach(({ slowest }, y) => {
      for (const edge of EDGES) {
        const [ours, theirs] = [slowest.any[edge].settles, whole.outputs[y].slowest.any[edge].settles];
        expect(theirs.claim).not.toBe('found');
        if (ours.claim !== 'found') expect(ours.tick).toBe(theirs.tick);
        expect(ours.tick).toBeLessThanOrEqual(theirs.tick);
      }
    });
  }, 60_000);

  test('a multiplier of 4 by 4 bits: tables and solver agree, and every gap is a named false path', () => {
    const { circuit } = writtenCircuit(arrayMultiplier(4));
    const arrivals = arrivalsOf(circuit);
    const options = usualOptions(circuit);
    const exact = settle(circuit, options);
    const solved = settle(circuit, { ...options, mostWork: 0 });
    const ticks = (settling: typeof exact): number[] =>
      settling.outputs.flatMap(({ slowest }) =>
        FLIPS.flatMap((flips) => EDGES.map((edge) => slowest[flips][edge].settles.tick)),
      );
    expect(ticks(solved)).toEqual(ticks(exact));
    const named = falsePaths(circuit, arrivals, exact, () => exerciseOf(circuit, options));
    const gaps = exact.outputs.flatMap(({ bound, slowest }) =>
      EDGES.filter((edge) => slowest.any[edge].settles.tick < bound[edge]),
    );
    expect(gaps).toHaveLength(4);
    expect(new Set(named.map(({ output, edge }) => `${output} ${edge}`)).size).toBe(gaps.length);
    expect(named.every(({ stuck }) => stuck !== null)).toBe(true);
  }, 60_000);
});

/** Inverters that take longer to go off. */
function slowOff(ticksOff: number): Target {
  const target = targetOf('joined-or');
  return { ...target, inverter: { ...target.inverter, ticks: ticksOff, ticksOn: 1, ticksOff } };
}

describe('switching off and on', () => {
  test('an inverter more on the falling side', () => {
    // c goes off through one inverter that goes off slowly, and on through one that goes on quickly.
    const made = writtenCircuit("f = a'", slowOff(3));
    expect(figures(made)).toBe('1/3');
    const [on, off] = benchPlan(made.circuit, settle(made.circuit));
    expect([on.path.steps, off.path.steps].map((steps) => steps.map(({ edge }) => edge).join())).toEqual([
      'off,on',
      'on,off',
    ]);
  });

  test('with equal inverters, too: f stays on until the slower of its ways is off', () => {
    // f is a joined with a two inverters later: on at once, off only when both inverters have followed.
    const circuit = makeCircuit(
      'or',
      [{ name: 'a', tick: 0 }],
      [
        { name: 'a', kind: 'input', source: 0 },
        { name: 'n1', kind: 'inverter', legs: [0], ticksOn: 1, ticksOff: 1 },
        { name: 'n2', kind: 'inverter', legs: [1], ticksOn: 1, ticksOff: 1 },
        { name: 'f', kind: 'join', legs: [0, 2] },
      ],
      [{ name: 'f', rail: 'high', wire: 3, by: null }],
    );
    expect(circuitFaults(circuit)).toEqual([]);
    const settling = settle(circuit);
    const { on, off } = settling.outputs[0].slowest.single;
    expect([on.settles.tick, off.settles.tick]).toEqual([0, 2]);
    const [, slow] = benchPlan(circuit, settling);
    expect(slow.path.steps.map(({ wire, edge }) => `${circuit.names[wire]} ${edge}`)).toEqual([
      'a off',
      'n1 on',
      'n2 off',
      'f off',
    ]);
  });
});

describe('what is out of the ordinary', () => {
  test('joins that take a tick', () => {
    const base = targetOf('joined-or');
    const target = { ...base, join: { ...base.join, ticks: 1 } };
    expect(figures(writtenCircuit('f = a + b', target))).toBe('1/1');
    expect(figures(writtenCircuit("f = a' + b", target))).toBe('2/2');
    expect(figures(writtenCircuit('f = a b', target))).toBe('3/3');
  });

  test('joins without ticks and a wire straight through', () => {
    expect(figures(writtenCircuit('f = a + b'))).toBe('0/0');
    expect(figures(writtenCircuit('f = a'))).toBe('0/0');
  });

  test('inputs that arrive late', () => {
    const made = writtenCircuit('input a @ 5, b; f = a b');
    expect(figures(made)).toBe('7/7');
    const [test1] = benchPlan(made.circuit, settle(made.circuit));
    expect(test1.tick).toBe(7);
    const { earliest, latest } = arrivalsOf(made.circuit);
    const { wire } = made.circuit.outputs[0];
    expect([earliest.on[wire], latest.on[wire]]).toEqual([2, 7]);
  });

  test('unequal ticks: a gap shorter than the difference does not show', () => {
    // The inverter goes on in 1 tick and off in 4: two ticks of 1 at its leg leave it on.
    const { circuit } = writtenCircuit("f = (a b')'", slowOff(4));
    const made = writtenCircuit("f = a'", slowOff(4));
    const history = simulateTransition(made.circuit, Uint8Array.of(0), Uint8Array.of(1));
    expect(changesOf(history, made.circuit.outputs[0].wire)).toEqual([{ tick: 4, level: 0 }]);
    expect(circuit.ticksOff.includes(4)).toBe(true);
  });

  test('constant outputs never change', () => {
    const made = writtenCircuit("input a; f = a + a'; g = 0");
    const { outputs } = settle(made.circuit);
    expect(outputs[1].bound).toEqual({ on: NEVER, off: NEVER });
    expect(outputs[1].slowest.any.on.settles).toMatchObject({ tick: NEVER, transition: null });
    // f is 1 in the end, but may drop for a tick on the way.
    expect(outputs[0].slowest.any.on.settles.tick).toBe(1);
    expect(outputs[0].slowest.any.on.changes.tick).toBe(NEVER);
    expect(outputs[0].slowest.any.off.settles.tick).toBe(NEVER);
  });

  test('an input that never changes', () => {
    const { circuit, system } = writtenCircuit('f = a b');
    const held = [{ input: 0, value: 0 as const }];
    for (const mostWork of [SETTLE_LIMITS.mostWork, 0]) {
      const options = {
        ...SETTLE_LIMITS,
        mostWork,
        scope: scopeOf(circuit, system, held),
        pattern: patternMaker(circuit, system, held),
      };
      const [{ slowest, bound }] = settle(circuit, options).outputs;
      expect([slowest.any.on.settles.tick, slowest.any.off.settles.tick]).toEqual([NEVER, NEVER]);
      expect(bound).toEqual({ on: 2, off: 2 });
    }
  });

  test('patterns that cannot happen are neither a beginning nor an end', () => {
    const text = 'input a, b; f = a b; never a b; output f';
    const { circuit, system } = writtenCircuit(text);
    for (const mostWork of [SETTLE_LIMITS.mostWork, 0]) {
      const options = {
        ...SETTLE_LIMITS,
        mostWork,
        scope: scopeOf(circuit, system),
        pattern: patternMaker(circuit, system),
      };
      const [{ slowest }] = settle(circuit, options).outputs;
      expect(slowest.any.on.settles.tick).toBe(NEVER);
      // When a goes off and b comes on at once, f pulses: its inverters see both for a moment.
      expect(slowest.single.off.settles.tick).toBe(NEVER);
    }
  });

  test('an active-low input and an active-low output: on is what the wire does', () => {
    const made = foundCircuit('input a low, b low; output f low; f = a b');
    expect(figures(made)).toBe('0/0');
    const system = systemOf('input a low; output f; f = a');
    const wired = writtenCircuit(system);
    const [test1] = benchPlan(wired.circuit, settle(wired.circuit));
    expect([test1.before, test1.changes]).toEqual([0, [{ tick: 1, level: 1 }]]);
    expect(test1.transition.to[0]).toBe(1);
  });
});

describe('arrivals, slack and false paths', () => {
  test('slack against a deadline', () => {
    const system = systemOf('output f by 5; f = a b');
    const made = writtenCircuit(system);
    const circuit = circuitOfNetwork(made.network, system.signals, system.inputs, made.target, [5]);
    const { slack } = requirementsOf(circuit, arrivalsOf(circuit));
    expect(slack[circuit.outputs[0].wire]).toBe(3);
    const tight = requirementsOf(circuit, arrivalsOf(circuit), [1]);
    expect(tight.slack[circuit.outputs[0].wire]).toBe(-1);
  });

  test('a way through a multiplexer and back that no transition takes', () => {
    // The long way x needs s = 1 at the first place and s = 0 at the second.
    const made = writtenCircuit("output f; x = a ^ p ^ q; z = x s + b s'; f = z s' + c s");
    const { circuit } = made;
    const settling = settle(circuit);
    const options = usualOptions(circuit);
    const [{ bound, slowest }] = settling.outputs;
    expect(bound.on).toBeGreaterThan(slowest.single.on.settles.tick);
    const named = falsePaths(circuit, arrivalsOf(circuit), settling, () => exerciseOf(circuit, options));
    expect(named.length).toBeGreaterThan(0);
    for (const { stuck, path } of named) {
      expect(stuck).not.toBeNull();
      expect(circuit.kinds[path.steps[0].wire]).toBe('input');
    }
    const solver = exerciseOf(circuit, { ...options, mostWork: 0 });
    expect(falsePaths(circuit, arrivalsOf(circuit), settling, () => solver)).toEqual(named);
  });
});

describe('wear and pulses', () => {
  const target: Target = {
    ...targetOf('joined-or'),
    inverter: { ...targetOf('joined-or').inverter, minPulse: 3, wear: { changes: 2, window: 3 } },
  };

  test('over all transitions: what the naive simulator counts', () => {
    const { circuit, network, signals } = writtenCircuit('f = a ^ b ^ c', target);
    const endurance = new EnduranceOfTransitions(circuit);
    walkTransitions(circuit, wholeScope(circuit), 3, endurance);
    const timer = new NaiveTimer(network, target, signals);
    const most = Array.from({ length: network.size }, () => 0);
    const shortest = Array.from({ length: network.size }, () => Number.POSITIVE_INFINITY);
    for (const [before, after] of transitionsOf(3, 'any')) {
      const levels = timer.inverterLevels(before, after, 12);
      for (let i = 0; i < network.size; i++) {
        const ticks = levels.flatMap((row, at) => (at > 0 && row[i] !== levels[at - 1][i] ? [at] : []));
        for (const from of ticks) {
          most[i] = Math.max(most[i], ticks.filter((tick) => tick >= from && tick < from + 3).length);
        }
        for (let n = 1; n < ticks.length; n++) shortest[i] = Math.min(shortest[i], ticks[n] - ticks[n - 1]);
      }
    }
    expect(endurance.wear.map(({ changes }) => changes)).toEqual(most);
    const first = 2 + network.inputs.length;
    const ours = Array.from(
      { length: network.size },
      (_, i) => endurance.pulses.find(({ wire }) => wire === first + i)?.ticks ?? Number.POSITIVE_INFINITY,
    );
    expect(ours).toEqual(shortest);
    expect(endurance.wear.some((wear) => strainOf(circuit, wear) === 'near')).toBe(true);
    expect(endurance.pulses.some((pulse) => isTooShort(circuit, pulse))).toBe(true);
    for (const { wire, changes, transition } of endurance.wear) {
      if (transition === null) continue;
      const history = simulateTransition(circuit, transition.from, transition.to);
      expect(changesOf(history, wire).length).toBeGreaterThanOrEqual(changes);
    }
  });
});
