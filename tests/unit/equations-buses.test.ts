import { describe, expect, test } from 'vitest';
import { systemFaults } from '../../src/equations/check-system.ts';
import { overrideRails } from '../../src/equations/override-rails.ts';
import { printSystem } from '../../src/equations/print-system.ts';
import { readEquations } from '../../src/equations/read-equations.ts';
import type { System } from '../../src/equations/system.ts';

function systemOf(text: string): System {
  const { value, diagnostics } = readEquations(text);
  if (value === null) throw new Error(diagnostics.map(({ message }) => message).join('\n'));
  expect(systemFaults(value)).toEqual([]);
  return value;
}

const codes = (text: string): string[] => readEquations(text).diagnostics.map(({ code }) => code);
const definitions = (text: string): string[] =>
  printSystem(systemOf(text))
    .split('\n')
    .filter((line) => line.includes('='));

describe('buses', () => {
  test('a range stands for its bits, with the attributes of the name', () => {
    const system = systemOf(
      'input a[1:0], b[0:2] low @ 2\noutput s[1:0] by 4\nfor i in 0..1: s[i] = a[i] b[i] b[2]',
    );
    const names = system.inputs.map(({ signal, rail, tick }) => `${system.signals[signal]} ${rail} ${tick}`);
    expect(names).toEqual(['a[1] high 0', 'a[0] high 0', 'b[0] low 2', 'b[1] low 2', 'b[2] low 2']);
    expect(system.outputs.map(({ signal, by }) => `${system.signals[signal]} ${by}`)).toEqual([
      's[1] 4',
      's[0] 4',
    ]);
  });

  test.each([
    ['y = a[3]', 'y = a[3]'],
    ['y = a [ 3 ]', 'y = a[3]'],
    ['y = a[-1]', 'y = a[-1]'],
    ['y = a[007]', 'y = a[7]'],
    ['y = a[2*(3 - 1) + 7/2 - 10 % 4]', 'y = a[5]'],
    ['y = a[-1/2] a[-1 % 4] a[--3] a[-(2)]', 'y = a[-1] a[3] a[3] a[-2]'],
    ['y = a[2 × 3 − 1]', 'y = a[5]'],
    ["y = p[3] c[2]' + p[3](a + b)", "y = p[3] c[2]' + p[3] (a + b)"],
  ])('%s', (text, expected) => {
    expect(definitions(text)).toEqual([expected]);
  });

  test('rails for a whole bus', () => {
    const system = systemOf('input a[3:0], b\ny = a[3] a[2] a[1] a[0] b');
    const rails = (names: string[]): string =>
      overrideRails(system, { low: names })
        .value?.inputs.map(({ rail }) => rail[0])
        .join('') ?? 'fault';
    expect(rails(['a'])).toBe('llllh');
    expect(rails(['a[2:1]'])).toBe('hllhh');
    expect(rails(['a[1:2]', 'b'])).toBe('hllhl');
    expect(rails(['a[3]'])).toBe('lhhhh');
    expect(rails(['a[4:3]'])).toBe('fault');
    expect(rails(['c'])).toBe('fault');
  });

  test.each([
    ['input a[7:0]\ny = a[8]', ['index-out-of-range']],
    ['input a[7:0]\ny = a', ['unknown-name']],
    ['input a[7:0]\ny = a3', ['unknown-name']],
    ['y = g3 g[3]', ['name-beside-bus']],
    ['y = g_3 g[3]', ['name-beside-bus']],
    ['y = g g[3]', ['name-beside-bus']],
    ['y = g2 g[3]', []],
    ['y = a[1000000]', ['no-such-index']],
    ['y = a[9007199254740993 - 9007199254740993]', ['no-such-index']],
    ['y = a[1 / 0]', ['no-such-index']],
    ['y = a[1', ['missing-bracket']],
    ['y = a[]', ['wrong-index']],
    ['y = a[1 +]', ['wrong-index']],
    ['y = a[(1]', ['wrong-index']],
    ["y = a[b']", ['wrong-index']],
    ['y = a[1:0]', ['range-of-bits']],
    ['y[1:0] = a', ['range-of-bits']],
    ['y = a[1] [2]', ['wrong-index']],
    ['y = (a] + b', ['other-bracket']],
    ['input a[999999:-999999]\ny = a[0]', ['too-many-statements']],
    ['input low[3], a\ny = a', ['reserved-word']],
  ])('%j', (text, expected) => {
    expect(codes(text)).toEqual(expected);
  });

  test('unused bits of one range are one warning', () => {
    const { diagnostics } = readEquations('input a[7:0], b\ny = a[0] b');
    expect(diagnostics.map(({ message }) => message)).toEqual([
      'the inputs "a[7]", "a[6]", "a[5]", "a[4]" and 3 more are not used',
    ]);
  });
});

describe('loops', () => {
  test.each([
    ['for i in 0..1: y[i] = a[i]', ['y[0] = a[0]', 'y[1] = a[1]']],
    ['FOR i IN 0..0: y[i] = a', ['y[0] = a']],
    ['for i in 0..1:\n  y[i] = a[i]\nz = b', ['y[0] = a[0]', 'y[1] = a[1]', 'z = b']],
    [
      'for i in 0..1\n{\n  y[i] = a\n  z[i] = b; w[i] = c }',
      ['y[0] = a', 'z[0] = b', 'w[0] = c', 'y[1] = a', 'z[1] = b', 'w[1] = c'],
    ],
    ['for i in 0..1: { y[i] = a }\nz = b', ['y[0] = a', 'y[1] = a', 'z = b']],
    ['for i in 0..2: for j in 0..i-1: y[3*i+j] = a', ['y[3] = a', 'y[6] = a', 'y[7] = a']],
    ['for i in 1..2 { for j in i..2 { y[i*j] = a[j-i] } }', ['y[1] = a[0]', 'y[2] = a[1]', 'y[4] = a[0]']],
    ['for i in 0..1: f[i](a, b) = m(3)', ['f[0] = a b', 'f[1] = a b']],
    ['y = for in; for = a', ['for = a', 'y = for in']],
  ])('%j', (text, expected) => {
    expect(definitions(text)).toEqual(expected);
  });

  test('every kind of statement can stand in a loop', () => {
    const good =
      'for i in 0..1 {\n input a[i] @ 1, b[i]\n output y[i]\n y[i] = a[i] b[i]\n never a[i] b[i]\n free y[i]: b[i]\n}';
    const system = systemOf(good);
    expect([system.inputs.length, system.outputs.length, system.never.length, system.free?.length]).toEqual([
      4, 2, 2, 2,
    ]);
  });

  test.each([
    ['for i in 0..1000000000000: y[i] = a', ['loop-range']],
    ['for i in 0..999999: y[i] = a', ['too-many-statements']],
    ['for i in 0..999: for j in 0..999: y[i] = a', ['too-many-statements']],
    ['for i in 0..999: for j in 0..999 { }', ['too-many-statements']],
    ['for i in 3..0: y[i] = a\nz = b', ['empty-loop']],
    ['for i in 0..3: y = a', ['defined-twice']],
    ['for i in 0..3: for i in 0..3: y[i] = a', ['loop-variable']],
    ['for i in 0..3: y[i] = a[j]', ['unknown-index']],
    ['for i in j..3: y[i] = a', ['unknown-index']],
    ['for i in 0..n: y[i] = a', ['unknown-index']],
    ['for i in 0..2: y[i] = a[i] i', ['variable-as-signal']],
    ['for i in 0..2: never a[i] i\ny = a[0]', ['variable-as-signal']],
    ['for i in 0..3\n  y[i] = a[i]', ['wrong-loop']],
    ['for i in 0:3: y[i] = a[i]', ['wrong-loop']],
    ['for i in 0:3 { y[i] = a[i] }', ['wrong-loop']],
    ['y[i] = a[i]', ['general-formula']],
    ['y = a[sel]', ['unknown-index']],
    ['for i in 0..3 y[i] = a', ['wrong-loop']],
    ['for i = 0..3: y[i] = a', ['wrong-loop']],
    ['for i in 3: y[i] = a', ['wrong-loop']],
    ['for i in 0..3:', ['wrong-loop']],
    ['for i in 0..3: ; y = a', ['wrong-loop']],
    ['for i in 0..3 {\ny[i] = a', ['missing-bracket']],
    ['for i in 0..3 { y[i] = a } z = b', ['missing-separator']],
    ['for i in 0..3 { y[i] = (a }\nz = b', ['missing-bracket']],
    ['for not in 0..3: y = a', ['wrong-loop']],
    ['y = a }', ['extra-bracket']],
    [`${Array.from({ length: 17 }, (_, i) => `for i${i} in 0..0: `).join('')}y = a`, ['nesting-too-deep']],
  ])('%j', (text, expected) => {
    expect(codes(text)).toEqual(expected);
  });

  test.each([
    'input a[3:0]\noutput y[3:0], z\nfor i in 0 to 3: y[i] = a[i]\nz = y[0]',
    'input a[3:0]\noutput y[3:0], z\nfor i in 0..3\n y[i] = a[i]\nz = y[0]',
    'input a[3:0]\noutput y[3:0], z\nfor i in 0..3: y[i] = a[k]\nz = y[0]',
    'for i in 0..3 { y[i] = a[k] }',
    'input a\nfor i in 1 { for j in 0..1 { y[i] = a; y[j] = a; q = a } }\nz = y[0] q',
  ])('%j: a fault brings no others after it', (text) => {
    expect(codes(text)).toHaveLength(1);
  });

  test('a wide bus and many bits that it lacks cost no more than both together', () => {
    const wrong = Array.from({ length: 20_000 }, (_, bit) => `y${bit} = a[${bit + 50_000}]`);
    const { diagnostics } = readEquations(`input a[49999:0]\n${wrong.join('\n')}`);
    expect(diagnostics).toHaveLength(20_000);
  });

  test.each<[string, string]>([
    ['100,000 nested loops', `${'for i in 0..0 { '.repeat(100_000)}y = a${'}'.repeat(100_000)}`],
    ['100,000 heads', 'for i in 0..0: '.repeat(100_000)],
    ['100,000 brackets in an index', `y = a[${'('.repeat(100_000)}1${')'.repeat(100_000)}]`],
    ['a sum of 100,000 in an index', `y = a[0${' + 0'.repeat(100_000)}]`],
    ['100,000 minus signs in an index', `y = a[${'-'.repeat(100_000)}1]`],
    ['100,000 square brackets', `y = ${'a['.repeat(100_000)}`],
    ['100,000 indices', `y = a${'[0]'.repeat(100_000)}`],
    ['a table of 100,000 lists', `f(a) = ${'m(0) + '.repeat(100_000)}m(1)`],
    ['100,000 equals signs', `y = a${' = a'.repeat(100_000)}`],
    ['100,000 bars', `y = ${'a\u0305'.repeat(100_000)} + ${'a\u0305+\u0305'.repeat(100_000)}`],
    ['100,000 commands', `y = ${'\\overline{'.repeat(100_000)}`],
    ['100,000 words', `y = ${'\\text{'.repeat(100_000)} ${' '.repeat(100_000)}`],
    ['100,000 braces', `y = _{${'{'.repeat(100_000)}`],
    ['100,000 subscripts', `y = a${'_{1'.repeat(100_000)}`],
    ['100,000 braces around a formula', `$${'{'.repeat(100_000)}y = a${'}'.repeat(100_000)}$`],
    ['100,000 braces around an operand', `$y = ${'{'.repeat(100_000)}a${'}'.repeat(100_000)}$`],
    ['100,000 equals signs and a comment', `y${' ='.repeat(100_000)} a#`],
    ['100,000 names in a list', `f'(${'a, '.repeat(100_000)}b) = a`],
    ['100,000 dollars', `y = ${'$'.repeat(100_000)}`],
    ['a product of 100,000 letters', `y = ${'P3G2'.repeat(100_000)}`],
  ])('hostile text, %s: an answer or a fault', (_, text) => {
    const { value, diagnostics } = readEquations(text);
    expect(value === null).toBe(diagnostics.some(({ severity }) => severity === 'error'));
  });
});
