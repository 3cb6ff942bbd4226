// Results written by hand, so that printers can be tested without the engine.

import type { Result } from '../../src/report/result.ts';

const CARRY_INPUTS = ['g3', 'p3', 'g2', 'p2', 'g1', 'p1', 'g0', 'p0', 'c0'];

/** Look-ahead carry into bit 4, all rails active-high. */
export const CARRY: Result = {
  format: 'tickwright.result/1',
  version: '0.1.0',
  source: 'arguments',
  target: 'joined-or',
  effort: 'normal',
  seed: 1,
  stop: 'proved',
  asWritten: { ticks: 2, parts: 18 },
  fastest: { ticks: 2, proved: true, parts: 6 },
  points: [
    {
      ticks: 2,
      parts: 6,
      copies: 0,
      legs: 22,
      ticksProved: true,
      partsProved: true,
      network: {
        inputs: CARRY_INPUTS.map((name) => ({ name, rail: 'high', wire: name, tick: 0 })),
        inverters: [
          { wire: 'n0', legs: ['p3'], tick: 1 },
          { wire: 'n1', legs: ['g2', 'p2'], tick: 1 },
          { wire: 'n2', legs: ['g2', 'g1', 'p1'], tick: 1 },
          { wire: 'n3', legs: ['g2', 'g1', 'g0', 'p0'], tick: 1 },
          { wire: 'n4', legs: ['g2', 'g1', 'g0', 'c0'], tick: 1 },
          { wire: 'n5', legs: ['n0', 'n1', 'n2', 'n3', 'n4'], tick: 2 },
        ],
        outputs: [{ name: 'c4', rail: 'high', legs: ['g3', 'n5'], tick: 2 }],
      },
      proof: { verdict: 'equal', method: 'patterns', patterns: 512 },
      rails: [...CARRY_INPUTS, 'c4'].map((signal) => ({
        signal,
        rail: 'high',
        wires: [signal === 'c4' ? 'n5' : signal],
        tick: signal === 'c4' ? 2 : 0,
      })),
    },
  ],
  notices: [],
};

/** Everything a screen can hold at once: rails of all kinds, copies, meanings, constants, a late input, notices. */
export const CROWDED: Result = {
  ...CARRY,
  source: 'crates\u001b[2J.logic',
  target: 'joined-or-single',
  stop: 'the limit of 400 rounds was reached',
  asWritten: { ticks: 5, parts: 31 },
  fastest: { ticks: 2, proved: true, parts: null },
  points: [
    {
      ticks: 3,
      parts: 5,
      copies: 1,
      legs: 12,
      ticksProved: false,
      partsProved: false,
      network: {
        inputs: [
          { name: 'full', rail: 'high', wire: 'full', tick: 0 },
          { name: 'gate', rail: 'low', wire: 'gate', tick: 2 },
          { name: 'scale', rail: 'high', wire: 'scale', tick: 0 },
          { name: 'scale', rail: 'low', wire: 'scale_low', tick: 0 },
        ],
        inverters: [
          { wire: 'n0', legs: ['full', 'gate'], tick: 3, meaning: "full' gate, active-high" },
          { wire: 'n1', legs: ['full', 'gate'], tick: 3, copyOf: 'n0', meaning: "full' gate, active-high" },
          { wire: 'n2', legs: ['0', 'scale_low'], tick: 1, meaning: 'scale, active-high' },
          {
            wire: 'n3',
            legs: Array.from({ length: 30 }, (_, at) => `crate${at}`),
            tick: 1,
            meaning: `${Array.from({ length: 14 }, (_, at) => `crate${at}`).join(' ')} and so on, active-low`,
          },
          { wire: 'n4', legs: ['n2', 'n3'], tick: 2 },
        ],
        outputs: [
          {
            name: 'belt',
            rail: 'high',
            legs: ['n0', 'n4'],
            tick: 3,
            meaning: "full' gate + scale', active-high",
          },
          { name: 'lamp', rail: 'low', legs: ['1'], tick: 0 },
          { name: 'horn', rail: 'high', legs: ['n1'], tick: 3 },
          { name: 'horn', rail: 'low', legs: ['n4'], tick: 2 },
        ],
      },
      proof: { verdict: 'equal', method: 'patterns', patterns: 6 },
      rails: [
        { signal: 'ready', rail: 'low', wires: ['n4'], tick: 2 },
        { signal: 'spare', rail: 'absorbed', wires: [], tick: null },
      ],
    },
  ],
  notices: [
    {
      severity: 'warning',
      code: 'unused-input',
      message: 'the input "crate31" is not used',
      hint: 'take it out of the "input" line if this is meant',
      line: 3,
      column: 5,
    },
    { severity: 'notice', code: 'x', message: 'something without a place', line: null, column: null },
  ],
};
