// One random formula in the notations that people paste, each written by a printer of its own here: whatever the
// notation, what is read must have the values of the formula on every pattern.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readEquations } from '../../src/equations/read-equations.ts';
import { expressionValue } from '../support/naive-evaluator.ts';

const SEED = 3_141;
const RUNS = 300;
const NAMES = 4;

type Formula =
  | { readonly sort: 'name'; readonly number: number }
  | { readonly sort: 'not'; readonly of: Formula }
  | { readonly sort: 'and' | 'or' | 'xor'; readonly of: readonly Formula[] };

function formulas(depth: number): fc.Arbitrary<Formula> {
  const name = fc.record({ sort: fc.constant('name' as const), number: fc.nat(NAMES - 1) });
  if (depth === 0) return name;
  const inner = formulas(depth - 1);
  return fc.oneof(
    { arbitrary: name, weight: 1 },
    { arbitrary: fc.record({ sort: fc.constant('not' as const), of: inner }), weight: 2 },
    {
      arbitrary: fc.record({
        sort: fc.constantFrom('and' as const, 'and' as const, 'or' as const, 'xor' as const),
        of: fc.array(inner, { minLength: 2, maxLength: 3 }),
      }),
      weight: 4,
    },
  );
}

function truth(formula: Formula, values: readonly boolean[]): boolean {
  if (formula.sort === 'name') return values[formula.number]!;
  if (formula.sort === 'not') return !truth(formula.of, values);
  const parts = formula.of.map((part) => truth(part, values));
  if (formula.sort === 'and') return parts.every(Boolean);
  if (formula.sort === 'or') return parts.some(Boolean);
  return parts.filter(Boolean).length % 2 === 1;
}

interface Notation {
  readonly names: readonly string[];
  /** How the names are read. */
  readonly read: readonly string[];
  readonly and: string;
  readonly or: string;
  readonly xor: string;
  readonly not: (inner: string, isName: boolean) => string;
  readonly open?: string;
  readonly close?: string;
  readonly whole: (formula: string) => string;
  /** Whether a warning that offers the right reading will do. */
  readonly unsure?: true;
}

const STRENGTH = { or: 1, xor: 2, and: 3 };

function write(formula: Formula, notation: Notation): string {
  const { open = '(', close = ')' } = notation;
  if (formula.sort === 'name') return notation.names[formula.number]!;
  if (formula.sort === 'not') return notation.not(write(formula.of, notation), formula.of.sort === 'name');
  const strength = STRENGTH[formula.sort];
  const parts = formula.of.map((part) => {
    const written = write(part, notation);
    return part.sort === 'name' || part.sort === 'not' || STRENGTH[part.sort] > strength
      ? written
      : `${open}${written}${close}`;
  });
  return parts.join(notation[formula.sort]);
}

const letters = ['A', 'B', 'C', 'D'];
const numbered = ['x0', 'x1', 'x2', 'x3'];
const barred = (text: string): string => [...text].map((character) => `${character}\u0305`).join('');
const wide = (text: string): string =>
  text.replace(/[!-~]/g, (character) => String.fromCharCode(character.charCodeAt(0) + 0xfee0));
const plainNot =
  (sign: string) =>
  (inner: string, isName: boolean): string =>
    isName ? `${inner}${sign}` : `(${inner})${sign}`;

const NOTATIONS: Readonly<Record<string, Notation>> = {
  'products of letters': {
    names: letters,
    read: letters,
    and: '',
    or: ' + ',
    xor: ' ⊕ ',
    not: plainNot("'"),
    whole: (formula) => `letters\nY = ${formula}`,
  },
  'products of numbered letters': {
    names: ['P0', 'P1', 'G2', 'G3'],
    read: ['P0', 'P1', 'G2', 'G3'],
    and: '',
    or: '+',
    xor: '⊕',
    not: plainNot("'"),
    // The first product shows that the digits end names.
    whole: (formula) => `Z=P0G3\nY=${formula}`,
  },
  'LaTeX with bars': {
    names: ['A_{0}', 'A_1', 'B_{in}', 'D'],
    read: ['A0', 'A1', 'B_in', 'D'],
    and: ' \\cdot ',
    or: ' + ',
    xor: ' \\oplus ',
    not: (inner) => `\\overline{${inner}}`,
    open: '\\left(',
    close: '\\right)',
    whole: (formula) => `{\\displaystyle Y=${formula}.}`,
  },
  'LaTeX with signs of logic': {
    names: letters,
    read: letters,
    and: ' \\land ',
    or: '\\lor ',
    xor: '\\oplus{}',
    not: (inner, isName) => (isName ? `\\lnot ${inner}` : `\\lnot(${inner})`),
    whole: (formula) => `$$\nY = ${formula}\n$$`,
  },
  'LaTeX with products without a sign': {
    names: letters,
    read: letters,
    and: '',
    or: ' \\vee ',
    xor: ' \\oplus ',
    not: (inner) => `\\bar{${inner}}`,
    unsure: true,
    whole: (formula) => `\\begin{aligned} Y &= ${formula} \\end{aligned}`,
  },
  'signs of logic': {
    names: numbered,
    read: numbered,
    and: '∧',
    or: '∨',
    xor: '⊕',
    not: (inner, isName) => (isName ? `¬${inner}` : `¬(${inner})`),
    whole: (formula) => `Y = ${formula}`,
  },
  'subscripts and raised dots': {
    names: ['x₀', 'x₁', 'x₂', 'x₃'],
    read: numbered,
    and: '⋅',
    or: ' + ',
    xor: ' ⨁ ',
    not: plainNot('’'),
    whole: (formula) => `Y = ${formula}`,
  },
  'subscripts side by side': {
    names: ['x₀', 'x₁', 'x₂', 'x₃'],
    read: numbered,
    and: '',
    or: ' ⋁ ',
    xor: ' ⊕ ',
    not: plainNot('´'),
    whole: (formula) => `Y = ${formula}`,
  },
  'bars over letters': {
    names: letters,
    read: letters,
    and: ' ',
    or: ' + ',
    xor: ' ⊕ ',
    not: (inner, isName) => (isName ? barred(inner) : `(${inner})'`),
    whole: (formula) => `Y = ${formula}`,
  },
  'bars over numbered letters and groups': {
    names: numbered,
    read: numbered,
    and: '·',
    or: '+',
    xor: '⊕',
    not: (inner, isName) =>
      isName ? barred(inner) : inner.includes('\u0305') ? `(${inner})'` : barred(inner),
    whole: (formula) => `Y = ${formula}`,
  },
  'full-width forms': {
    names: letters,
    read: letters,
    and: '&',
    or: '|',
    xor: ' ^ ',
    not: (inner, isName) => (isName ? `~${inner}` : `~(${inner})`),
    whole: (formula) => wide(`Y = ${formula}`).replaceAll(' ', '\u3000'),
  },
};

describe('a formula in every notation', () => {
  test.each(Object.entries(NOTATIONS))(`%s (seed ${SEED})`, (_, notation) => {
    fc.assert(
      fc.property(formulas(4), (formula) => {
        const text = notation.whole(write(formula, notation));
        const { value, diagnostics } = readEquations(text);
        const said = diagnostics.filter(({ severity }) => severity !== 'notice').map(({ code }) => code);
        // Where letters cannot be told from a word the text says so, and is not read as a product.
        if (notation.unsure && said[0] === 'letters-offered') return;
        expect([text, said]).toEqual([text, []]);
        const system = value!;
        const { expression } = system.definitions.find(({ signal }) => system.signals[signal] === 'Y')!;
        const numbers = system.inputs.map(({ signal }) => notation.read.indexOf(system.signals[signal]!));
        expect([text, numbers.includes(-1)]).toEqual([text, false]);
        for (let pattern = 0; pattern < 2 ** NAMES; pattern++) {
          const values = Array.from({ length: NAMES }, (_, number) => ((pattern >> number) & 1) === 1);
          const found = expressionValue(
            system,
            expression,
            numbers.map((number) => values[number]!),
          );
          expect([text, pattern, found]).toEqual([text, pattern, truth(formula, values)]);
        }
      }),
      { seed: SEED, numRuns: RUNS },
    );
  });
});
