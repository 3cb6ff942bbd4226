// Handbook functions by their function tables: what leaves the search is compared with the table row by row.

import { describe, expect, test } from 'vitest';
import { networkTicks } from '../../src/network/levels.ts';
import { prove } from '../../src/proof/prove.ts';
import { rulesOf } from '../../src/search/task.ts';
import { networkLevels } from '../support/pin-levels.ts';
import { foundNetwork, search, targetOf } from '../support/system-of.ts';

const LANES = [0, 1, 2, 3];

function bit(value: number, i: number): boolean {
  return ((value >> i) & 1) === 1;
}

/** Every output of the found network for the levels of its inputs. */
function built(text: string): {
  levels: (pins: Readonly<Record<string, boolean>>) => Record<string, boolean>;
  ticks: number;
} {
  const searched = search(text, { effort: 'quick' });
  const network = foundNetwork(searched);
  expect(prove(searched.system, network, 'or').verdict).toBe('equal');
  return {
    levels: (pins) => networkLevels(searched.system, network, pins),
    ticks: networkTicks(network, rulesOf(targetOf('joined-or'))),
  };
}

// Published: National 74LS48, data sheet: the bars that are lit for 0 to 15; 15 is blank. The '47 is its complement.
describe("the '48 seven-segment decoder", () => {
  const LIT: Readonly<Record<string, readonly number[]>> = {
    a: [0, 2, 3, 5, 7, 8, 9, 13],
    b: [0, 1, 2, 3, 4, 7, 8, 9, 12],
    c: [0, 1, 3, 4, 5, 6, 7, 8, 9, 11],
    d: [0, 2, 3, 5, 6, 8, 10, 11, 13, 14],
    e: [0, 2, 6, 8, 10, 14],
    f: [0, 4, 5, 6, 8, 9, 12, 13, 14],
    g: [2, 3, 4, 5, 6, 8, 9, 10, 11, 12, 13, 14],
  };
  const rows = Object.entries(LIT).map(([bar, on]) => `${bar}(D, C, B, A) = minterms(${on.join(', ')})`);

  test.each([
    ['active-high', ''],
    ["active-low, the '47", `output ${Object.keys(LIT).join(' low, ')} low\n`],
  ])('%s: every bar of every number', (_, rails) => {
    const { levels } = built(`${rails}${rows.join('\n')}`);
    for (let n = 0; n < 16; n++) {
      const shown = levels({ A: bit(n, 0), B: bit(n, 1), C: bit(n, 2), D: bit(n, 3) });
      for (const [bar, on] of Object.entries(LIT)) expect(shown[bar]).toBe(on.includes(n) === (rails === ''));
    }
  });
});

// Published: Motorola MC74F85, data sheet: the highest bit that differs decides; with all bits equal the cascade inputs
// (greater, less, equal) lead to (greater, less, equal) as listed.
describe("the '85 comparator", () => {
  const text = `input A[3:0], B[3:0], greater_in, less_in, equal_in
    output greater, less, equal
    for i in 0..3 { over[i] = A[i] B[i]'; under[i] = A[i]' B[i]; same[i] = A[i] xnor B[i] }
    all = same[3] same[2] same[1] same[0]
    greater = over[3] + same[3] (over[2] + same[2] (over[1] + same[1] over[0])) + all equal_in' less_in'
    less = under[3] + same[3] (under[2] + same[2] (under[1] + same[1] under[0])) + all equal_in' greater_in'
    equal = all equal_in`;
  const CASCADE: Readonly<Record<string, string>> = {
    HLL: 'HLL',
    LHL: 'LHL',
    LLH: 'LLH',
    HLH: 'LLH',
    LHH: 'LLH',
    HHH: 'LLH',
    HHL: 'LLL',
    LLL: 'HHL',
  };

  test('every row of its table, on all 2048 patterns', () => {
    const { levels } = built(text);
    for (let row = 0; row < 2048; row++) {
      const [a, b, cascade] = [row & 15, (row >> 4) & 15, row >> 8];
      const pins = {
        ...Object.fromEntries(
          LANES.flatMap((i) => [
            [`A[${i}]`, bit(a, i)],
            [`B[${i}]`, bit(b, i)],
          ]),
        ),
        greater_in: bit(cascade, 0),
        less_in: bit(cascade, 1),
        equal_in: bit(cascade, 2),
      };
      const { greater, less, equal } = levels(pins);
      const shown = [greater, less, equal].map((level) => (level ? 'H' : 'L')).join('');
      const key = [0, 1, 2].map((i) => (bit(cascade, i) ? 'H' : 'L')).join('');
      expect(shown, `${a} ${b} ${key}`).toBe(a > b ? 'HLL' : a < b ? 'LHL' : CASCADE[key]);
    }
  });
});

// From memory: the function table of the '181 arithmetic logic unit, as many makers' data sheets print it for both
// polarities of data. Derived: with u = A + S0 B + S1 B' and v = A (S3 B + S2 B') it is u plus v plus NOT Cn, and the
// complement of u XOR v for logic.
describe("the '181 arithmetic logic unit", () => {
  const text = `input A[3:0], B[3:0], S[3:0], M, Cn
    output F[3:0], C4
    for i in 0..3 {
      u[i] = A[i] + S[0] B[i] + S[1] B[i]'
      v[i] = A[i] (S[3] B[i] + S[2] B[i]')
      F[i] = u[i] ^ v[i] ^ (M + c[i])
      c[i+1] = v[i] + u[i] c[i]
    }
    c[0] = Cn'
    C4 = c[4]'`;
  const { levels } = built(text);
  const ALL = 15;
  const not = (n: number): number => n ^ ALL;

  type Row = readonly [logic: (a: number, b: number) => number, sum: (a: number, b: number) => number];
  /** Active-high data; arithmetic without carry, Cn high. */
  const HIGH: readonly Row[] = [
    [(a) => not(a), (a) => a],
    [(a, b) => not(a | b), (a, b) => a | b],
    [(a, b) => not(a) & b, (a, b) => a | not(b)],
    [() => 0, () => -1],
    [(a, b) => not(a & b), (a, b) => a + (a & not(b))],
    [(_, b) => not(b), (a, b) => (a | b) + (a & not(b))],
    [(a, b) => a ^ b, (a, b) => a - b - 1],
    [(a, b) => a & not(b), (a, b) => (a & not(b)) - 1],
    [(a, b) => not(a) | b, (a, b) => a + (a & b)],
    [(a, b) => not(a ^ b), (a, b) => a + b],
    [(_, b) => b, (a, b) => (a | not(b)) + (a & b)],
    [(a, b) => a & b, (a, b) => (a & b) - 1],
    [() => ALL, (a) => a + a],
    [(a, b) => a | not(b), (a, b) => (a | b) + a],
    [(a, b) => a | b, (a, b) => (a | not(b)) + a],
    [(a) => a, (a) => a - 1],
  ];
  /** Active-low data; arithmetic without carry, Cn low. */
  const LOW: readonly Row[] = [
    [(a) => not(a), (a) => a - 1],
    [(a, b) => not(a & b), (a, b) => (a & b) - 1],
    [(a, b) => not(a) | b, (a, b) => (a & not(b)) - 1],
    [() => ALL, () => -1],
    [(a, b) => not(a | b), (a, b) => a + (a | not(b))],
    [(_, b) => not(b), (a, b) => (a & b) + (a | not(b))],
    [(a, b) => not(a ^ b), (a, b) => a - b - 1],
    [(a, b) => a | not(b), (a, b) => a | not(b)],
    [(a, b) => not(a) & b, (a, b) => a + (a | b)],
    [(a, b) => a ^ b, (a, b) => a + b],
    [(_, b) => b, (a, b) => (a & not(b)) + (a | b)],
    [(a, b) => a | b, (a, b) => a | b],
    [() => 0, (a) => a + a],
    [(a, b) => a & not(b), (a, b) => (a & b) + a],
    [(a, b) => a & b, (a, b) => (a & not(b)) + a],
    [(a) => a, (a) => a],
  ];

  function result(select: number, a: number, b: number, mode: boolean, cn: boolean): number {
    const pins = Object.fromEntries(
      LANES.flatMap((i) => [
        [`A[${i}]`, bit(a, i)],
        [`B[${i}]`, bit(b, i)],
        [`S[${i}]`, bit(select, i)],
      ]),
    );
    const shown = levels({ ...pins, M: mode, Cn: cn });
    return LANES.reduce((sum, i) => sum + (shown[`F[${i}]`] ? 2 ** i : 0), 0);
  }

  test.each(LANES.flatMap((high) => LANES.map((low) => 4 * high + low)))(
    'select %i: all operands, logic and arithmetic, both polarities',
    (select) => {
      for (let a = 0; a <= ALL; a++) {
        for (let b = 0; b <= ALL; b++) {
          const [logic, sum] = HIGH[select];
          expect(result(select, a, b, true, true)).toBe(logic(a, b));
          for (const carry of [0, 1]) {
            expect(result(select, a, b, false, carry === 0)).toBe((sum(a, b) + carry) & ALL);
          }
          const [lowLogic, lowSum] = LOW[select];
          const read = (mode: boolean, cn: boolean): number => not(result(select, not(a), not(b), mode, cn));
          expect(read(true, true)).toBe(lowLogic(a, b));
          for (const carry of [0, 1]) {
            expect(read(false, carry === 1)).toBe((lowSum(a, b) + carry) & ALL);
          }
        }
      }
    },
  );
});
