import { describe, expect, test } from 'vitest';
import { systemFaults } from '../../src/equations/check-system.ts';
import { nearestName } from '../../src/equations/nearest-name.ts';
import { orderDefinitions } from '../../src/equations/order-definitions.ts';
import { overrideRails } from '../../src/equations/override-rails.ts';
import { printSystem } from '../../src/equations/print-system.ts';
import { readEquations } from '../../src/equations/read-equations.ts';
import type { System } from '../../src/equations/system.ts';
import { randomSystem } from '../support/random-system.ts';

function systemOf(text: string): System {
  const { value, diagnostics } = readEquations(text);
  if (value === null) throw new Error(diagnostics.map(({ message }) => message).join('\n'));
  expect(systemFaults(value)).toEqual([]);
  return value;
}

const codes = (text: string): string[] => readEquations(text).diagnostics.map(({ code }) => code);

describe('reading', () => {
  test('without declarations', () => {
    const system = systemOf('y = b a\nz = y + c');
    expect(system.signals).toEqual(['b', 'a', 'c', 'y', 'z']);
    expect(system.inputs).toEqual([0, 1, 2].map((signal) => ({ signal, rail: 'high', tick: 0 })));
    expect(system.outputs).toEqual([3, 4].map((signal) => ({ signal, rail: 'high', by: null })));
    expect(system.definitions).toEqual([
      {
        signal: 3,
        expression: {
          kind: 'and',
          args: [
            { kind: 'signal', signal: 0 },
            { kind: 'signal', signal: 1 },
          ],
        },
        at: { start: 0, end: 1 },
      },
      {
        signal: 4,
        expression: {
          kind: 'or',
          args: [
            { kind: 'signal', signal: 3 },
            { kind: 'signal', signal: 2 },
          ],
        },
        at: { start: 8, end: 9 },
      },
    ]);
  });

  test('with declarations', () => {
    const text = "input p low @ 2, g\noutput z low by 5, y either\ny = g; z = p y; never p g'";
    const system = systemOf(text);
    expect(system.signals).toEqual(['p', 'g', 'y', 'z']);
    expect(system.inputs).toEqual([
      { signal: 0, rail: 'low', tick: 2 },
      { signal: 1, rail: 'high', tick: 0 },
    ]);
    expect(system.outputs).toEqual([
      { signal: 3, rail: 'low', by: 5 },
      { signal: 2, rail: 'either', by: null },
    ]);
    expect(system.never).toHaveLength(1);
    const [place] = system.neverAt!;
    expect(text.slice(place!.start, place!.end)).toBe("never p g'");
  });

  test('definitions in any order, each just before its first use and else as in the text', () => {
    const order = (text: string): string[] => {
      const system = systemOf(text);
      return system.definitions.map(({ signal }) => system.signals[signal]!);
    };
    expect(order('x = a\ny = b\nz = x + y')).toEqual(['x', 'y', 'z']);
    expect(order('z = x + y\nw = a\ny = b w\nx = a')).toEqual(['x', 'w', 'y', 'z']);
    expect(systemOf('z = x + y\nw = a\ny = b w\nx = a').outputs).toHaveLength(4);
  });

  test('a name in never alone is an input', () => {
    expect(systemOf('y = a\nnever b').signals).toEqual(['a', 'b', 'y']);
  });

  test('names that objects have of their own are names', () => {
    const system = systemOf('__proto__ = constructor + toString hasOwnProperty\nvalueOf = __proto__');
    expect(system.signals).toEqual(['constructor', 'toString', 'hasOwnProperty', '__proto__', 'valueOf']);
    expect(codes('input a\ny = a constructor')).toEqual(['unknown-name']);
    expect(codes('y = constructor(a, b)')).toEqual(['unknown-function']);
    expect(codes('y = toString(a, b) + __proto__(a, b)')).toEqual(['unknown-function', 'unknown-function']);
  });

  test('a name is a function only before a bracket with a comma or when it is a word', () => {
    expect(printSystem(systemOf('y = p3(g2 + p2 g1)'))).toMatch('y = p3 (g2 + p2 g1)');
    expect(printSystem(systemOf('y = MUX(s, a, b)'))).toMatch('y = mux(s, a, b)');
  });

  test.each([
    ['y = a b\nx = y', []],
    ['y = z +\nz = y', ['missing-operand']],
    ['input a\ny = a +\nz = y a', ['missing-operand']],
    ['input a b\ny = a b c', ['missing-comma', 'unknown-name']],
    ['output y z\ny = a\nz = b', ['missing-comma']],
    ['input a\ny = b b + b', ['unknown-name']],
    ['never', ['missing-operand']],
    ['never a', ['no-equations']],
    ['y = z\nz = y', ['circular']],
    ['a = b\nb = a\nc = d\nd = c', ['circular', 'circular']],
    ['y = a; y = b; y = c', ['defined-twice', 'defined-twice']],
    ['input a, b\nnever b\ny = a', []],
    ['input a, b\ny = a', ['unused-input']],
  ])('%j', (text, expected) => {
    expect(codes(text)).toEqual(expected);
    const { value, diagnostics } = readEquations(text);
    expect(value === null).toBe(diagnostics.some(({ severity }) => severity === 'error'));
  });
});

describe('hostile text: an answer or a clear fault, soon and without a deep stack', () => {
  const nested = (open: string, count: number, close: string): string =>
    `y = ${open.repeat(count)}a${close.repeat(count)}`;
  const chain = (count: number): string[] => Array.from({ length: count }, (_, i) => `x${i + 1} = x${i} + a`);
  test.each<[string, string, string[]]>([
    ['500 brackets', nested('(', 500, ')'), []],
    ['501 brackets', nested('(', 501, ')'), ['nesting-too-deep']],
    ['499 calls', nested('mux(p, q, ', 499, ')'), []],
    ['500 calls', nested('mux(p, q, ', 500, ')'), ['nesting-too-deep']],
    ['250 complemented brackets', nested('!(', 250, ')'), []],
    ['100,000 brackets', nested('(', 100_000, ')'), ['nesting-too-deep']],
    ['100,000 open brackets', `${nested('(', 100_000, '')}\nz = b`, ['nesting-too-deep']],
    ['100,000 closed brackets', nested('', 1, ')'.repeat(100_000)), ['extra-bracket']],
    ['100,000 NOTs', nested('!', 100_000, ''), ['nesting-too-deep']],
    ['100,000 NOTs behind', nested('', 1, "'".repeat(100_000)), ['nesting-too-deep']],
    ['100,000 implications', `y = a${' -> b'.repeat(100_000)}`, ['nesting-too-deep']],
    ['100,000 definitions', chain(100_000).join('\n'), []],
    ['20,000 definitions from the end', chain(20_000).reverse().join('\n'), []],
    ['a sum of half a megabyte', `y = a${' + b c'.repeat(80_000)}`, []],
    ['empty lines in a bracket', `y = (a${'\n'.repeat(1_000_000)})`, []],
    ['only separators', '; \n'.repeat(500_000), ['no-equations']],
    ['foreign comments that never end', `y = a ${'/*'.repeat(500_000)}`, ['unknown-character']],
    ['a name of a megabyte', `${'y'.repeat(1_000_000)} = a`, []],
    ['a circle of 20,000', `${chain(20_000).join('\n')}\nx0 = x20000`, ['circular']],
  ])('%s', (_, text, expected) => {
    const found = codes(text);
    expect(found.slice(0, 1)).toEqual(expected);
  });

  test('characters of every kind', () => {
    const junk = Array.from({ length: 200_000 }, (_, i) =>
      String.fromCharCode(1 + ((i * 7919) % 65_000)),
    ).join('');
    const { value, diagnostics } = readEquations(junk);
    expect(value).toBe(null);
    expect(diagnostics.length).toBeLessThan(2500);
  });
});

describe('overriding rails', () => {
  const system = systemOf('input a low, b @ 3\noutput y by 2\nt = a b\ny = t + a');

  test('inputs and outputs', () => {
    const { value, diagnostics } = overrideRails(system, { high: ['a'], both: ['b'], low: ['y'] });
    expect(diagnostics).toEqual([]);
    expect(value!.inputs.map(({ rail }) => rail)).toEqual(['high', 'both']);
    expect(value!.inputs[1]!.tick).toBe(3);
    expect(value!.outputs).toEqual([{ ...system.outputs[0]!, rail: 'low' }]);
    expect(system.inputs[0]!.rail).toBe('low');
    expect(overrideRails(system, {}).value).toEqual(system);
    expect(overrideRails(system, { low: ['a', 'a'] }).value).not.toBe(null);
  });

  test.each([
    [{ low: ['t'] }, 'internal-rail'],
    [{ low: ['Y'] }, 'unknown-name'],
    [{ either: ['nobody'] }, 'unknown-name'],
    [{ high: ['a'], low: ['a'] }, 'two-rails'],
  ])('%j', (names, code) => {
    const { value, diagnostics } = overrideRails(system, names);
    expect([value, diagnostics.map((diagnostic) => diagnostic.code)]).toEqual([null, [code]]);
  });
});

describe('printing', () => {
  test.each([
    ["c4 = g3 + p3(g2 + p2 g1)'", "c4 = g3 + p3 (g2 + p2 g1)'"],
    ['y = !(!a)', "y = a''"],
    ['y = (a ^ b) ^ c', 'y = (a ^ b) ^ c'],
    ['y = a & nor(b, c) & mux(a, b, c)', 'y = a & nor(b, c) mux(a, b, c)'],
    ['y = (a -> b) -> c', 'y = (a -> b) -> c'],
    ['y = a -> b -> c', 'y = a -> (b -> c)'],
    ['y = a nand b', 'y = nand(a, b)'],
    ['y = xnor(a, b, c)', 'y = xnor(a, b, c)'],
    ['y = or(a)', 'y = or(a)'],
    ['y = 1 0', 'y = 1 & 0'],
  ])('%s', (text, expected) => {
    expect(printSystem(systemOf(text)).split('\n').at(-2)).toBe(expected);
  });

  test('declarations', () => {
    const text = 'input a low, b @ 3, c both @ 1\noutput y by 2, z either\ny = a b\nz = c y\nnever a c\n';
    expect(printSystem(systemOf(text))).toBe(text);
  });
});

test('the invariants of a system are noticed when broken', () => {
  const sound = randomSystem(3, { never: true });
  expect(systemFaults(sound)).toEqual([]);
  const [definition] = sound.definitions;
  const [output] = sound.outputs;
  const [input] = sound.inputs;
  const broken: [Partial<System>, RegExp][] = [
    [{ signals: sound.signals.map(() => 'a') }, /two signals have one name/],
    [{ definitions: [...sound.definitions, definition!] }, /defined before/],
    [{ definitions: [] }, /neither an input nor defined/],
    [{ outputs: [output!, output!] }, /stands twice/],
    [{ outputs: [{ ...output!, signal: 0 }] }, /is not defined/],
    [{ outputs: [{ ...output!, by: 1.5 }] }, /not a tick/],
    [{ inputs: [...sound.inputs, input!] }, /declared twice/],
    [{ inputs: sound.inputs.map((each) => ({ ...each, tick: -1 })) }, /not a tick/],
    [{ never: [{ kind: 'and', args: [] }] }, /without arguments/],
    [{ never: [{ kind: 'signal', signal: 999 }] }, /too early/],
    [{ neverAt: Array.from({ length: 9 }, () => null) }, /length of never/],
  ];
  for (const [change, message] of broken) {
    expect(systemFaults({ ...sound, ...change }).join('\n')).toMatch(message);
  }
});

test.each([
  ['gat2', ['gate1', 'gate2'], 'gate2'],
  ['Lamp', ['damp', 'lamp'], 'lamp'],
  ['p9', ['g0', 'p0', 'p1'], 'p0'],
  ['ab', ['ba'], 'ba'],
  ['z', ['w'], null],
  ['siren', ['gate1', 'lamp'], null],
  ['x'.repeat(100), ['x'.repeat(99)], null],
])('the name nearest to %s', (name, candidates, expected) => {
  expect(nearestName(name, candidates)).toBe(expected);
});

test('circles are found once each and the order is that of need', () => {
  expect(orderDefinitions([[1, 2], [2], []])).toEqual({ order: [2, 1, 0], circles: [] });
  expect(orderDefinitions([[], [0], [0]])).toEqual({ order: [0, 1, 2], circles: [] });
  expect(orderDefinitions([[1], [0], [2], [0]]).circles).toEqual([[0, 1], [2]]);
});
