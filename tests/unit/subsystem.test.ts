// Systems cut into parts: which outputs hang together, and what a part holds.

import { describe, expect, test } from 'vitest';
import { systemFaults } from '../../src/equations/check-system.ts';
import { type Part, SystemParts } from '../../src/search/subsystem.ts';
import { randomSystem } from '../support/random-system.ts';
import { systemOf } from '../support/system-of.ts';

/** Names of the outputs that hang together, a set a string. */
function sets(text: string): string[] {
  const system = systemOf(text);
  const outputs = new SystemParts(system).independent();
  return outputs.map((set) => set.map((y) => system.signals[system.outputs[y]!.signal]).join(' '));
}

function partOf(text: string, ...names: string[]): Part {
  const system = systemOf(text);
  const outputs = system.outputs.flatMap(({ signal }, y) =>
    names.includes(system.signals[signal]!) ? [y] : [],
  );
  return new SystemParts(system).part(outputs);
}

describe('outputs hang together', () => {
  test.each([
    ['by an input', 'x = a b; y = c d; z = b + e', ['x z', 'y']],
    ['by a signal between', 'output x, y, z; h = a b; x = h c; y = d; z = h + e', ['x z', 'y']],
    ['by a chain of others', 'x = a b; y = b c; z = c d; u = e', ['x y z', 'u']],
    ['by a never', 'x = a b; y = c d; z = e; never a c', ['x y', 'z']],
    ['by a never about signals', 'output x, y, z; h = a b; x = h; y = c d; z = e; never h c', ['x y', 'z']],
    ['by free patterns', 'output x, y; x = a b; free x: c; y = c d', ['x y']],
    ['not by a constant', 'output x, y, z; one = 1; x = a one; y = b one; z = one', ['x', 'y', 'z']],
    ['not by what no output needs', 'output x, y; idle = a c; x = a b; y = c d', ['x', 'y']],
  ])('%s', (_, text, expected) => {
    expect(sets(text)).toEqual(expected);
  });
});

describe('a part', () => {
  test('holds what its outputs need, in the order of the whole, and says where it was', () => {
    const text = 'input a, b @ 2, c low, d\noutput y by 7, x\nh = b c\nx = h a\ny = h d';
    const { system, signals, outputs } = partOf(text, 'y');
    const whole = systemOf(text);
    expect(systemFaults(system)).toEqual([]);
    expect(signals.map((signal) => whole.signals[signal])).toEqual(['b', 'c', 'd', 'h', 'y']);
    expect(system.signals).toEqual(['b', 'c', 'd', 'h', 'y']);
    expect(system.inputs.map(({ rail, tick }) => `${rail} ${tick}`)).toEqual(['high 2', 'low 0', 'high 0']);
    expect(system.outputs).toEqual([{ signal: 4, rail: 'high', by: 7 }]);
    expect(outputs).toEqual([0]);
  });

  test('takes along the never lines about its inputs, with the inputs that these bring', () => {
    const { system } = partOf('x = a b; y = c d; z = e; never a f; never f g; never e h', 'x');
    expect(system.signals.join(' ')).toBe('a b f g x');
    expect(system.never.length).toBe(2);
  });

  test('does not free a signal that is mentioned outside', () => {
    const text = "output f, g; f = a b; free f: a b'; g = f'";
    expect(partOf(text, 'f').system.free).toBe(undefined);
    expect(partOf("output f, g; f = a b; free f: a b'; g = a'", 'f').system.free?.length).toBe(1);
  });

  test('is sound for random systems, and all parts together hold every output once', () => {
    for (let seed = 0; seed < 200; seed++) {
      const system = randomSystem(seed, { mostOutputs: 4, never: true, free: true, claims: true });
      const cutter = new SystemParts(system);
      const outputs = cutter.independent();
      expect(outputs.flat().sort()).toEqual(system.outputs.map((_, y) => y));
      const inputs = new Set<number>();
      for (const set of outputs) {
        const part = cutter.part(set);
        expect(systemFaults(part.system)).toEqual([]);
        for (const { signal } of part.system.inputs) {
          expect(inputs.has(part.signals[signal]!)).toBe(false);
          inputs.add(part.signals[signal]!);
        }
      }
    }
  });
});
