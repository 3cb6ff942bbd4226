// How text becomes statements and how operators bind.

import { describe, expect, test } from 'vitest';
import { parseEquations } from '../../grammar/parse-equations.ts';
import type { Node, Statement } from '../../grammar/syntax.ts';

/** An expression with every operator in prefix form, so that the shape of the tree is seen. */
function shape(node: Node): string {
  switch (node.kind) {
    case 'name':
      return node.name;
    case 'constant':
      return String(node.value);
    case 'not':
      return `not[${shape(node.argument)}]`;
    case 'infix':
      return `${node.operator}[${node.args.map(shape).join(' ')}]`;
    case 'call':
      return `${node.name}(${node.args.map(shape).join(' ')})`;
  }
}

function expressionShape(text: string): string {
  const { statements, faults } = parseEquations(`y = ${text}`);
  expect(faults.filter(({ severity }) => severity === 'error')).toEqual([]);
  const [statement] = statements;
  if (statement?.kind !== 'definition' || statements.length !== 1) throw new Error('one definition expected');
  return shape(statement.sides[0]!.expression!);
}

/** What each statement defines or declares; what a loop stands over is in braces. */
function names(text: string): string[] {
  const nameOf = (statement: Statement): string => {
    if (statement.kind === 'definition') return statement.name;
    if (statement.kind === 'never') return 'never';
    if (statement.kind === 'free') return `free ${statement.name}`;
    if (statement.kind === 'loop') return `${statement.variable} {${statement.body.map(nameOf).join(' ')}}`;
    return `${statement.kind} ${statement.names.map(({ name }) => name).join(' ')}`;
  };
  return parseEquations(text).statements.map(nameOf);
}

describe('operators', () => {
  test.each([
    ['a + b c', 'or[a and[b c]]'],
    ['a b ^ c + d', 'or[xor[and[a b] c] d]'],
    ['a + b + c d e', 'or[a b and[c d e]]'],
    ['a & b * c · d ∧ e . f && g AND h i', 'and[a b c d e f g h i]'],
    ['a + b | c || d ∨ e OR f', 'or[a b c d e f]'],
    ['a + (b + c)', 'or[a or[b c]]'],
    ['a ^ b ⊕ c xor d', 'xor[a b c d]'],
    ['a ^ b ⊙ c ^ d', 'xor[xnor[xor[a b] c] d]'],
    ['a ~^ b ^~ c xnor d', 'xnor[xnor[xnor[a b] c] d]'],
    ['a -> b → c', 'implies[a implies[b c]]'],
    ['a <-> b ≡ c', 'equals[equals[a b] c]'],
    ['a -> b <-> c + d', 'equals[implies[a b] or[c d]]'],
    ["!a'", 'not[not[a]]'],
    ['!~¬not a', 'not[not[not[not[a]]]]'],
    ["a'′’", 'not[not[not[a]]]'],
    ["(a b)'c", 'and[not[and[a b]] c]'],
    ['!a b', 'and[not[a] b]'],
    ['a !b', 'and[a not[b]]'],
    ['A AND NOT B', 'and[A not[B]]'],
    ['not (a + b) c', 'and[not[or[a b]] c]'],
    ['a ^ ~b', 'xor[a not[b]]'],
    ['p3(g2 + p2 g1)', 'and[p3 or[g2 and[p2 g1]]]'],
    ['(a)(b)', 'and[a b]'],
    ['a nand b', 'nand[a b]'],
    ['a nor b -> c', 'implies[nor[a b] c]'],
    ['(a nand b) nand c', 'nand[nand[a b] c]'],
    ['and(a, b c) + Mux(s, a, b)', 'or[and(a and[b c]) Mux(s a b)]'],
    ['a and (b)', 'and[a b]'],
    ['a & and(b, c)', 'and[a and(b c)]'],
    ['not(a)', 'not[a]'],
    ['f(a, b)', 'f(a b)'],
    ['xor(maj(a, b, c), or(d))', 'xor(maj(a b c) or(d))'],
    ['true FALSE 1 0', 'and[1 0 1 0]'],
    ['a.b + c', 'or[and[a b] c]'],
  ])('%s', (text, expected) => {
    expect(expressionShape(text)).toBe(expected);
  });
});

describe('statements', () => {
  test.each([
    ['x = a\ny = b', ['x', 'y']],
    ['x = a; y = b;; z = c', ['x', 'y', 'z']],
    ['x = a\r\ny = b\rz = c\u2028w = d', ['x', 'y', 'z', 'w']],
    ['x = a +\n\n  b\ny = c', ['x', 'y']],
    ['x = a\n  # a remark\n  + b // another\ny = c', ['x', 'y']],
    ['x = a\n  or b\ny = c and\n not\n d', ['x', 'y']],
    ['x = (a\n b\n)\ny = c', ['x', 'y']],
    ['x =\n a b\ny = c', ['x', 'y']],
    ['input a,\n b low\n , c @ 2\nx = a', ['input a b c', 'x']],
    ['x = (a\ny = b', ['x', 'y']],
    ['x = (a\ninput b\ny = b', ['x', 'input b', 'y']],
    ['x = a +\ny = b', ['x', 'y']],
    ["x = a\n'", ['x']],
    ['INPUT a\nOutput x\nNEVER a\nx = a', ['input a', 'output x', 'never', 'x']],
    ['/* a = b\n c = d */\nx = a', ['x']],
    ['', []],
    [' \n;\n# x = a', []],
  ])('%j', (text, expected) => {
    expect(names(text)).toEqual(expected);
  });

  test('attributes may stand in either order', () => {
    const { statements, faults } = parseEquations('input a low @ 2, b @ 3 EITHER, c\noutput y by 4 both');
    expect(faults).toEqual([]);
    expect(statements).toMatchObject([
      {
        names: [
          { name: 'a', rail: 'low', tick: 2 },
          { name: 'b', rail: 'either', tick: 3 },
          { name: 'c', rail: null, tick: null },
        ],
      },
      { names: [{ name: 'y', rail: 'both', tick: 4 }] },
    ]);
  });

  test('each statement has its own fault, and what follows is read', () => {
    const { statements, faults } = parseEquations('x = a +\ny = b)\nz = c\nw = $\n');
    expect(faults.map(({ code }) => code)).toEqual(['missing-operand', 'extra-bracket', 'unknown-character']);
    expect(statements.map((statement) => statement.kind !== 'loop' && statement.whole)).toEqual([
      false,
      false,
      true,
      false,
    ]);
  });
});
