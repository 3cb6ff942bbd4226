// Printing a system and reading the text gives back the same system.

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { systemFaults } from '../../src/equations/check-system.ts';
import { printSystem } from '../../src/equations/print-system.ts';
import { readEquations } from '../../src/equations/read-equations.ts';
import type { System } from '../../src/equations/system.ts';
import { renderDiagnostics } from '../../src/source/render-diagnostics.ts';
import { SourceText } from '../../src/source/source-text.ts';
import { randomSystem, systemArbitrary } from '../support/random-system.ts';

const SEED = 7_182;
const RUNS = 400;

/** Without the places, which a system that was made by program does not have. */
function withoutPlaces({ neverAt: _, free, claims, ...system }: System): System {
  const placeless = <T extends object>(entries: readonly T[]): (T & { at: null })[] =>
    entries.map((entry) => ({ ...entry, at: null }));
  return {
    ...system,
    definitions: placeless(system.definitions),
    ...(free === undefined ? {} : { free: placeless(free) }),
    ...(claims === undefined ? {} : { claims: placeless(claims) }),
  };
}

const systems = systemArbitrary({
  rails: ['high', 'low', 'either', 'both'],
  latestTick: 5,
  never: true,
  buses: true,
  free: true,
  claims: true,
});

test(`printed systems read back (seed ${SEED})`, () => {
  fc.assert(
    fc.property(systems, (system) => {
      expect(systemFaults(system)).toEqual([]);
      const text = printSystem(system);
      const { value, diagnostics } = readEquations(text);
      expect([text, diagnostics.filter(({ severity }) => severity === 'error')]).toEqual([text, []]);
      expect(systemFaults(value!)).toEqual([]);
      expect(withoutPlaces(value!)).toEqual(system);
      expect(printSystem(value!)).toBe(text);
    }),
    { seed: SEED, numRuns: RUNS },
  );
});

test('a random system is the same for the same seed', () => {
  expect(randomSystem(5, { never: true })).toEqual(randomSystem(5, { never: true }));
  expect(randomSystem(5)).not.toEqual(randomSystem(6));
});

const PIECES = [
  ...[
    'a',
    'b',
    'x1',
    '=',
    '=',
    '(',
    ')',
    ',',
    ';',
    '\n',
    ' ',
    '+',
    '&',
    "'",
    '!',
    '^',
    '~^',
    '->',
    '<->',
    '.',
    '@',
  ],
  ...[
    'and',
    'nand',
    'nor',
    'xnor',
    'not',
    'mux',
    'maj',
    'low',
    'by',
    'input',
    'output',
    'never',
    'true',
    '0',
    '1',
    '2',
  ],
  ...[
    '[',
    ']',
    '{',
    '}',
    ':',
    '..',
    '-',
    '/',
    '%',
    'for',
    'in',
    'i',
    'free',
    'letters',
    'f(a, b) =',
    'c[i+1]',
    'AB',
    'P3G2',
  ],
  ...[
    'Σ',
    'm(1)',
    'minterms(',
    '$x$',
    '\\overline',
    '\\cdot',
    '\\\\',
    '_{1}',
    'A\u0305',
    'A\u0305+\u0305',
    'ᵢ',
    '₄',
    '×',
    '＝',
    '"',
  ],
  ...['#', '//', '/*', '*/', '==', '$', '\r', '\u0301', '\ud800', '\ufeff', '1x', "1'b0"],
];

test(`whatever is read, the answer is a sound system or a fault that can be shown (seed ${SEED})`, () => {
  const soup = fc.array(fc.constantFrom(...PIECES), { maxLength: 25 }).map((pieces) => pieces.join(' '));
  fc.assert(
    fc.property(fc.oneof(soup, fc.string({ unit: 'binary' })), (text) => {
      const { value, diagnostics } = readEquations(text);
      const shown = renderDiagnostics(diagnostics, new SourceText('f', text), { limit: 100 });
      expect(value === null).toBe(diagnostics.some(({ severity }) => severity === 'error'));
      expect(shown).not.toMatch(/undefined|NaN|null/);
      for (const { at } of diagnostics) {
        if (at !== null)
          expect([at.start >= 0, at.end >= at.start, at.end <= text.length]).toEqual([true, true, true]);
      }
      if (value !== null) expect(systemFaults(value)).toEqual([]);
    }),
    { seed: SEED, numRuns: 2000 },
  );
});
