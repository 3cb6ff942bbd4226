// Adders as books and data sheets have them: the '283 function, the adder in layers, Ling's equations, and the parallel
// prefix networks with their depth and their cells.

import { describe, expect, test } from 'vitest';
import type { System } from '../../src/equations/system.ts';
import { networkTicks } from '../../src/network/levels.ts';
import type { Network } from '../../src/network/network.ts';
import { prove } from '../../src/proof/prove.ts';
import { asWrittenDraft, asWrittenNetwork } from '../../src/search/as-written.ts';
import { sampleTables } from '../../src/search/sample.ts';
import { makeTask, rulesOf } from '../../src/search/task.ts';
import { networkLevels } from '../support/pin-levels.ts';
import { figures, foundNetwork, search, systemOf, targetOf, writtenFigures } from '../support/system-of.ts';

const target = targetOf('joined-or');

function lanes(count: number): number[] {
  return Array.from({ length: count }, (_, i) => i);
}

function bitsOf(value: number, names: readonly string[]): Record<string, boolean> {
  return Object.fromEntries(names.map((name, i) => [name, ((value >> i) & 1) === 1]));
}

function numberOf(levels: Readonly<Record<string, boolean>>, names: readonly string[]): number {
  return names.reduce((sum, name, i) => sum + (levels[name] ? 2 ** i : 0), 0);
}

/** The network as if it had been made for another system with the same names. */
function renamed(network: Network, from: System, to: System): Network {
  const other = (signal: number): number => to.signals.indexOf(from.signals[signal]);
  return {
    ...network,
    inputs: network.inputs.map((input) => ({ ...input, signal: other(input.signal) })),
    outputs: network.outputs.map((output) => ({ ...output, signal: other(output.signal) })),
  };
}

/** Laid gate by gate, and its ticks. */
function written(text: string): { system: System; network: Network; ticks: number } {
  const system = systemOf(text);
  const task = makeTask(system, sampleTables(system, 1), target, false);
  const network = asWrittenNetwork(task, asWrittenDraft(system, task));
  return { system, network, ticks: networkTicks(network, rulesOf(target)) };
}

describe("the '283 adder", () => {
  const A = lanes(4).map((i) => `A${i + 1}`);
  const B = lanes(4).map((i) => `B${i + 1}`);
  const S = lanes(4).map((i) => `S${i + 1}`);
  const text = `input ${[...A, ...B].join(', ')}, C0\noutput ${S.join(', ')}, C4\n${lanes(4)
    .map((i) => `S${i + 1} = A${i + 1} ^ B${i + 1} ^ C${i}\nC${i + 1} = maj(A${i + 1}, B${i + 1}, C${i})\n`)
    .join('')}`;
  const searched = search(text, { effort: 'quick' });
  const network = foundNetwork(searched);
  const add = (a: number, b: number, carry: number): Record<string, boolean> =>
    networkLevels(searched.system, network, { ...bitsOf(a, A), ...bitsOf(b, B), C0: carry === 1 });

  // Published: Motorola SN74LS283, data sheet: C0 + (A1+B1) + 2(A2+B2) + 4(A3+B3) + 8(A4+B4) = S1 + 2 S2 + 4 S3 + 8 S4 +
  // 16 C4, read active-high or active-low alike.
  test('its identity holds on all 512 patterns, in both polarities', () => {
    for (let row = 0; row < 512; row++) {
      const [a, b, carry] = [row & 15, (row >> 4) & 15, row >> 8];
      const high = add(a, b, carry);
      expect(numberOf(high, [...S, 'C4'])).toBe(a + b + carry);
      const low = add(15 - a, 15 - b, 1 - carry);
      expect(31 - numberOf(low, [...S, 'C4'])).toBe(a + b + carry);
    }
  });

  // Published: the same sheet's example: 10 + 9 + 0, S4..S1 = 0011 and C4 = 1; read active-low, carry + 5 + 6 = 12.
  test('the printed example', () => {
    const levels = add(10, 9, 0);
    expect([...S].reverse().map((name) => (levels[name] ? 1 : 0))).toEqual([0, 0, 1, 1]);
    expect(levels.C4).toBe(true);
    expect([1 + (15 - 10) + (15 - 9), 31 - numberOf(levels, [...S, 'C4'])]).toEqual([12, 12]);
  });
});

// Common practice: an eight-bit look-ahead adder laid gate by gate has a half adder of 2 ticks, three layers of 2 and a
// final XNOR of 2, ten in all; tuned by hand it reaches 6, with 5 to the carry.
describe('the adder of eight bits in layers', () => {
  const layers = [1, 2, 4].map((span, k) => {
    const lines = lanes(8).map((i) =>
      i < span
        ? `g${k + 1}[${i}] = g${k}[${i}]`
        : `g${k + 1}[${i}] = g${k}[${i}] + p${k}[${i}] g${k}[${i - span}]${
            i < 2 * span ? '' : `\np${k + 1}[${i}] = p${k}[${i}] p${k}[${i - span}]`
          }`,
    );
    return lines.join('\n');
  });
  // A span that begins at lane 0 needs no p of its own.
  const text = `input a[7:0], b[7:0]\noutput s[7:0], carry
    for i in 0..7 { g0[i] = a[i] b[i]; p0[i] = a[i] ^ b[i]; q[i] = a[i] xnor b[i] }
    ${layers.join('\n')}
    s[0] = p0[0]
    for i in 1..7: s[i] = q[i] xnor g3[i-1]
    carry = g3[7]`;
  const searched = search(text, { effort: 'quick' });

  test('takes ten ticks as written and at most six as found', () => {
    expect(writtenFigures(searched)).toMatch(/^10:/);
    const network = foundNetwork(searched);
    expect(networkTicks(network, rulesOf(target)), figures(searched)).toBeLessThanOrEqual(6);
    expect(prove(searched.system, network, 'or').verdict).toBe('equal');
  });
});

// Published: Ling's adder, four bits, as printed in a public encyclopedia: p = a OR b, g = ab, d = a XOR b.
describe("Ling's equations", () => {
  const declared = 'input a[3:0], b[3:0]\noutput s[3:0], carry\n';
  const ling = `${declared}for i in 0..3 { p[i] = a[i] + b[i]; g[i] = a[i] b[i]; d[i] = a[i] ^ b[i] }
    H0 = g[0]
    H1 = g[1] + g[0]
    H2 = g[2] + p[1] (g[1] + g[0])
    H3 = g[3] + g[2] + p[2] p[1] (g[1] + g[0])
    s[0] = d[0]
    s[1] = d[1] H0' + (d[1] ^ p[0]) H0
    s[2] = d[2] H1' + (d[2] ^ p[1]) H1
    s[3] = d[3] H2' + (d[3] ^ p[2]) H2
    carry = p[3] H3`;
  const ripple = `${declared}for i in 0..3 { p[i] = a[i] ^ b[i]; g[i] = a[i] b[i] }
    c[1] = g[0]
    for i in 1..3: c[i+1] = g[i] + p[i] c[i]
    s[0] = p[0]
    for i in 1..3: s[i] = p[i] ^ c[i]
    carry = c[4]`;

  test('are the ripple adder, and are built as fast', () => {
    const [one, other] = [ling, ripple].map((text) => search(text, { effort: 'quick' }));
    const found = foundNetwork(one);
    expect(prove(other.system, renamed(found, one.system, other.system), 'or')).toMatchObject({
      verdict: 'equal',
      patterns: 256,
    });
    // Own: gate by gate Ling's form is faster; what is found does not depend on the form.
    const [lingTicks, rippleTicks] = [ling, ripple].map((text) => written(text).ticks);
    expect(lingTicks).toBeLessThan(rippleTicks);
    expect(one.outcome.answer?.ticks).toBe(other.outcome.answer?.ticks);
  });
});

/** Joins of spans: `lane` takes in what ends at `below`, layer by layer. */
type Cells = readonly (readonly { readonly lane: number; readonly below: number }[])[];

function sklansky(n: number): Cells {
  return lanes(Math.log2(n)).map((k) =>
    lanes(n)
      .filter((i) => ((i >> k) & 1) === 1)
      .map((i) => ({ lane: i, below: ((i >> k) << k) - 1 })),
  );
}

function koggeStone(n: number): Cells {
  return lanes(Math.log2(n)).map((k) =>
    lanes(n)
      .filter((i) => i >= 2 ** k)
      .map((i) => ({ lane: i, below: i - 2 ** k })),
  );
}

function brentKung(n: number): Cells {
  const up = lanes(Math.log2(n)).map((k) =>
    lanes(n)
      .filter((i) => (i + 1) % 2 ** (k + 1) === 0)
      .map((i) => ({ lane: i, below: i - 2 ** k })),
  );
  const down = lanes(Math.log2(n) - 1)
    .map((k) => 2 ** k)
    .reverse()
    .map((span) =>
      lanes(n)
        .filter((i) => i >= 2 * span && (i + 1) % (2 * span) === span)
        .map((i) => ({ lane: i, below: i - span })),
    );
  return [...up, ...down];
}

/** Equations of the carries. */
function prefixText(n: number, cells: Cells): string {
  const lines = [`input a[${n - 1}:0], b[${n - 1}:0]`, `output c[${n}:1]`];
  const g = lanes(n).map((i) => `g_${i}`);
  const p = lanes(n).map((i) => `p_${i}`);
  for (const i of lanes(n)) lines.push(`${g[i]} = a[${i}] b[${i}]`, `${p[i]} = a[${i}] + b[${i}]`);
  cells.forEach((layer, k) => {
    const before = [[...g], [...p]];
    for (const { lane, below } of layer) {
      g[lane] = `g_${lane}_${k}`;
      p[lane] = `p_${lane}_${k}`;
      lines.push(`${g[lane]} = ${before[0][lane]} + ${before[1][lane]} ${before[0][below]}`);
      lines.push(`${p[lane]} = ${before[1][lane]} ${before[1][below]}`);
    }
  });
  for (const i of lanes(n)) lines.push(`c[${i + 1}] = ${g[i]}`);
  return lines.join('\n');
}

function rippleText(n: number): string {
  return `input a[${n - 1}:0], b[${n - 1}:0]\noutput c[${n}:1]\nc[1] = a[0] b[0]
    for i in 1..${n - 1}: c[i+1] = maj(a[i], b[i], c[i])`;
}

// From memory (the titles; formulas from secondary texts): J. Sklansky 1960, depth log2 n with (n/2) log2 n cells; P. M.
// Kogge and H. S. Stone 1973, n log2 n - n + 1 cells; R. P. Brent and H. T. Kung 1982, 2 log2 n - 2 levels with
// 2n - 2 - log2 n cells. Published: R. E. Ladner, M. J. Fischer, "Parallel Prefix Computation", J. ACM 27 (1980), depth
// ceil(log2 n) is possible with fewer than 4n cells; M. Snir, J. Algorithms 7 (1986) 185-201, size + depth >= 2n - 2.
describe.each([8, 16, 32])('prefix networks of %i lanes', (n) => {
  const log = Math.log2(n);
  test.each([
    ['Sklansky', sklansky(n), log, (n / 2) * log],
    ['Kogge and Stone', koggeStone(n), log, n * log - n + 1],
    ['Brent and Kung', brentKung(n), 2 * log - 2, 2 * n - 2 - log],
  ] as const)('%s: depth, cells, and the same carries as the ripple', (_, cells, depth, count) => {
    const size = cells.flat().length;
    const levels = depthOf(n, cells);
    expect([levels, size]).toEqual([depth, count]);
    expect(size + levels).toBeGreaterThanOrEqual(2 * n - 2);
    const prefix = written(prefixText(n, cells));
    const ripple = systemOf(rippleText(n));
    expect(prove(ripple, renamed(prefix.network, prefix.system, ripple), 'or').verdict).toBe('equal');
    // Own: gate by gate an AND is two ticks and the OR is free, so each level takes two, and g another two.
    expect(prefix.ticks).toBe(2 + 2 * levels);
  });
});

/** Most cells one after the other. */
function depthOf(n: number, cells: Cells): number {
  const depth = new Array<number>(n).fill(0);
  for (const layer of cells) {
    const before = [...depth];
    for (const { lane, below } of layer) depth[lane] = Math.max(before[lane], before[below]) + 1;
  }
  return Math.max(...depth);
}
