import { describe, expect, test } from 'vitest';
import { systemFaults } from '../../src/equations/check-system.ts';
import { printSystem } from '../../src/equations/print-system.ts';
import { readEquations } from '../../src/equations/read-equations.ts';
import { readTables } from '../../src/equations/read-tables.ts';
import type { Expression, System } from '../../src/equations/system.ts';
import { expressionValue } from '../support/naive-evaluator.ts';
import { seededRandom } from '../support/seeded-random.ts';

function systemOf(text: string): System {
  const { value, diagnostics } = readEquations(text);
  if (value === null) throw new Error(diagnostics.map(({ message }) => message).join('\n'));
  expect(systemFaults(value)).toEqual([]);
  return value;
}

const codes = (text: string): string[] => readEquations(text).diagnostics.map(({ code }) => code);
const lines = (text: string): string[] => printSystem(systemOf(text)).split('\n').slice(2, -1);

/** Rows on which `expression` over the inputs of `system` is 1; the first is the most significant. */
function rowsOf(system: System, expression: Expression): number[] {
  const inputs = system.inputs.length;
  const rows = Array.from({ length: 2 ** inputs }, (_, row) => row);
  return rows.filter((row) => {
    const values = Array.from({ length: inputs }, (_, i) => ((row >> (inputs - 1 - i)) & 1) === 1);
    return expressionValue(system, expression, values);
  });
}

describe('tables of rows', () => {
  test('the first name is the most significant', () => {
    expect(lines('f(a, b, c) = minterms(1, 4)')).toEqual(["f = a' b' c + a b' c'"]);
  });

  test.each([
    ['f(a, b) = minterms(3) + free(0)', ['f = a b', "free f: a' b'"]],
    ['f(a, b) = MINTERMS(3) + FREE(0)', ['f = a b', "free f: a' b'"]],
    ['f(a, b) = Σm(3) + d(0)', ['f = a b', "free f: a' b'"]],
    ['f(a, b) = ∑(3) + Σd(0)', ['f = a b', "free f: a' b'"]],
    ['f(a, b) = m(3)', ['f = a b']],
    ['f(a, b) = \\sum m(3)', ['f = a b']],
    ['f(a, b) = maxterms(0..2)', ['f = a b']],
    ['f(a, b) = ΠM(0, 1) · D(2)', ['f = a b', "free f: a b'"]],
    ['f(a, b) = ∏(0, 1) . D(2)', ['f = a b', "free f: a b'"]],
    ["f(a, b)' = m(0..2)", ['f = a b']],
    ["f'(a, b) = m(0..2)", ['f = a b']],
    ["!f'(a, b)' = m(0..2)", ['f = a b']],
    ['\\overline{f}(a, b) = \\sum_m(0..2)', ['f = a b']],
    ['f(a, b) = m(0, 1, 2)', ["f = (a b)'"]],
    ['f(a, b) = m()', ['f = 0']],
    ['f(a, b) = m(0..3)', ['f = 1']],
    ['f(a, b) = free(0..3)', ['f = 0', 'free f: 1']],
    ['f(a) = m(0)', ["f = a'"]],
    ['f(n[1:0]) = m(2)', ["f = n[1] n[0]'"]],
    ['f(a, b) = m(3) = a b', ['f = a b = a b']],
    ['f(a, b) = a b = m(3) + d(0)', ["f = a b = a b + (a' b') f"]],
    ['f(a, b) = a b', ['f = a b']],
  ])('%s', (text, expected) => {
    expect(lines(text)).toEqual(expected);
  });

  test('m and d are names everywhere else', () => {
    expect(lines('y = m(a + b) + d(c) M\nm = a')).toEqual(['m = a', 'y = m (a + b) + d c M']);
    expect(lines('g(m, d) = m d')).toEqual(['g = m d']);
  });

  test('free rows of a signal that others use', () => {
    const system = systemOf('f(a, b) = m(3) + d(0)\ny = f + c\nfree y: a c');
    expect(system.free!.map(({ signal }) => system.signals[signal])).toEqual(['f', 'y']);
  });

  test.each([
    ['f(a, b) = m(4)', ['no-such-row']],
    ['f(a, b) = m(0..1000000000000)', ['no-such-row']],
    ['f(a, b) = m(2..1)', ['no-such-row']],
    ['f(a, b) = m(1, 0..2)', ['row-twice']],
    ['f(a, b) = m(1) + d(1)', ['row-twice']],
    ['f(a, b) = m(1) + M(2)', ['mixed-table']],
    ['f(a, b) = ΣM(1)', ['wrong-table']],
    ['f(a, b) = m(1) ^ d(2)', ['wrong-table']],
    ['f(a, b) = m(1) + c', ['wrong-table']],
    ['f(a, b) = m(1,)', ['wrong-row']],
    ['f(a, b) = m(1 2)', ['wrong-row']],
    ['f(a, b) = m(1-2)', ['wrong-row']],
    ['f(a, b) = Σ', ['wrong-table']],
    ['f = minterms(1, 2)', ['wrong-table']],
    ['f = Σ(1)', ['wrong-table']],
    ['f(a, a) = m(1)', ['declared-twice']],
    ['f(a, b) = sum m(1, 2)', ['wrong-table']],
    ['f(a, b) = SUM(1)', ['wrong-table']],
    ['for i in 0..1: f[i](a, b) = minterms(i)', ['wrong-row']],
    ['f = Σ_{a,b}(1)', ['wrong-table']],
    ['f(a, b) = a c', ['unlisted-name']],
    ['f(a, b)(c) = a', ['wrong-left-side']],
    ['f(a[16:0]) = m(1)', ['too-many-inputs']],
    ['f(a, f) = m(1)', ['circular']],
    ['free f: a', ['free-undefined']],
    ['y = Σ(1)(a)', ['wrong-table']],
    ['y = a + Σm(1)', ['unexpected']],
  ])('%j', (text, expected) => {
    expect(codes(text)).toEqual(expected);
  });
});

describe('hex tables', () => {
  test('row 0 is the lowest bit, the first input the highest bit of a row', () => {
    const system = systemOf('{"inputs": 3, "table": "97"}');
    expect(system.signals).toEqual(['x[2]', 'x[1]', 'x[0]', 'f']);
    expect(rowsOf(system, system.definitions[0]!.expression)).toEqual([0, 1, 2, 4, 7]);
  });

  test('random tables of one to seven inputs', () => {
    const random = seededRandom(283);
    for (let inputs = 1; inputs <= 7; inputs++) {
      for (let round = 0; round < 12; round++) {
        const kinds = Array.from({ length: 2 ** inputs }, () => Math.floor(random() * 3));
        const hex = (kind: number): string => {
          const digits = Array.from({ length: Math.ceil(kinds.length / 4) }, (_, digit) =>
            [0, 1, 2, 3]
              .reduce((sum, bit) => sum + (kinds[4 * digit + bit] === kind ? 2 ** bit : 0), 0)
              .toString(16),
          );
          return digits.reverse().join('');
        };
        const { value } = readTables(JSON.stringify({ inputs, table: hex(1), free: hex(2) }));
        const rowsWith = (kind: number): number[] =>
          kinds.flatMap((each, row) => (each === kind ? [row] : []));
        expect(rowsOf(value!, value!.definitions[0]!.expression)).toEqual(rowsWith(1));
        const free = value!.free?.[0]?.expression ?? ({ kind: 'constant', value: 0 } as const);
        expect(rowsOf(value!, free)).toEqual(rowsWith(2));
      }
    }
  });

  test('several with shared inputs', () => {
    const text =
      ' [{"inputs": ["a", "b"], "table": "6", "name": "s[0]"}, {"inputs": ["b", "a"], "table": "0x8"}]';
    expect(printSystem(systemOf(text))).toBe("input a, b\noutput s[0], f1\ns[0] = a' b + a b'\nf1 = b a\n");
  });

  test.each([
    ['{"inputs": 3, "table": "9"}', '$.table must be 2 digits of base 16 for 8 rows, not "9"'],
    ['{"inputs": 1, "table": "4"}', '$.table must be less than 4, for 2 rows, not "4"'],
    ['{"inputs": 3, "table": "9g"}', '$.table must be 2 digits of base 16 for 8 rows, not "9g"'],
    ['[{"inputs": 3}]', '$[0].table is missing: it must be 2 digits of base 16 for 8 rows'],
    [
      '{"inputs": 17, "table": "0"}',
      '$.inputs must be a whole number from 1 to 16 or a list of as many names, not 17',
    ],
    ['{"inputs": ["a", "or"], "table": "8"}', '$.inputs[1] must be a name, not "or"'],
    ['{"inputs": ["a", "a"], "table": "8"}', '$.inputs[1] is "a" for the second time'],
    ['{"inputs": ["f", "a"], "table": "8"}', '$.inputs has "f" as an input and as the output'],
    ['{"inputs": 2, "table": "8", "free": "9"}', '$.free frees row 3, on which the table has a 1'],
    ['{"inputs": 2, "table": "8", "rows": 4}', '$.rows is not a field of a table'],
    ['{"inputs": 2, "table": 8}', '$.table must be one digit of base 16 for 4 rows, not 8'],
    ['[]', '$ must hold at least one table'],
    ['[[]]', '$[0] must be a table, not []'],
    ['{inputs: 3}', 'this is not JSON: "i" stands where a name in double quotes should be'],
    ['{"inputs": 3,', 'this is not JSON: the text ends where a name in double quotes should be'],
  ])('%s', (text, expected) => {
    const { value, diagnostics } = readEquations(text);
    expect([value, diagnostics.map(({ message }) => message)]).toEqual([null, [expected]]);
    expect(diagnostics[0]!.at).not.toBe(null);
  });

  test('other text in brackets is not JSON', () => {
    expect(codes('{\\displaystyle Y=A}')).toEqual([]);
    expect(codes('[a] = b')).toEqual(['wrong-left-side']);
  });
});
