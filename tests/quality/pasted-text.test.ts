// Pasted text all the way: whatever a golden case of tests/cases/pasted is read as goes through search and proof, and
// what is refused is refused with a place and with what to write instead. So nothing is left without an answer.

import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { shippedTarget } from '../../src/target/shipped-targets.ts';
import { type Optimized, optimize } from '../../src/tickwright.ts';
import { allPatterns, signalValue } from '../support/naive-evaluator.ts';
import { systemOf } from '../support/system-of.ts';

const CASES = new URL('../cases/pasted/', import.meta.url);
const PAGE = new URL('../../examples/12-textbook-page.logic', import.meta.url);

/** The text of a golden case, between its marks. */
function pastedText(file: string): string {
  const text = /--- text\n([\s\S]*?)--- expected\n/.exec(readFileSync(new URL(file, CASES), 'utf8'))?.[1];
  if (text === undefined) throw new Error(`${file} has no text`);
  return text;
}

function answered(text: string): Optimized {
  const target = shippedTarget('joined-or');
  if (target === null) throw new Error('the default target is gone');
  const options = { target, ticks: null, effort: 'quick', seed: 1, explain: false, version: 'test' } as const;
  return optimize('pasted', text, {}, options);
}

describe('golden cases of pasted text', () => {
  const files = readdirSync(CASES).sort();

  test('there are twenty and more', () => {
    expect(files.length).toBeGreaterThanOrEqual(20);
  });

  test.each(files)('%s is built and proved, or refused with help', (file) => {
    const { result, diagnostics } = answered(pastedText(file));
    const errors = diagnostics.filter(({ severity }) => severity === 'error');
    expect(result.points.map(({ proof }) => proof.verdict)).toEqual(errors.length > 0 ? [] : ['equal']);
    for (const { at, hint } of errors)
      expect([at === null, hint === null || hint === '']).toEqual([false, false]);
  });
});

/** The page of the example, said in the plain language by hand. */
const PLAIN = `input G0, P0, C0, G1, P1, G2, P2, G3, P3
  output C1, C2, C3, C4, S3, Z, V
  C1 = G0 or (P0 and C0)
  C2 = G1 or (P1 and G0) or (P1 and P0 and C0)
  C3 = G2 or (P2 and C2)
  C4 = G3 or (P3 and C3)
  S3 = P3 xor C3
  Z = not (C1 or C2 or C3 or C4)
  V = C3 xor C4`;

describe('the page of the textbook', () => {
  const page = readFileSync(PAGE, 'utf8');

  test('means what it says, on all 512 patterns', () => {
    const [read, plain] = [systemOf(page), systemOf(PLAIN)];
    const names = (system: typeof read, list: readonly { readonly signal: number }[]): string[] =>
      list.map(({ signal }) => system.signals[signal]);
    expect(names(read, read.inputs)).toEqual(names(plain, plain.inputs));
    expect(names(read, read.outputs)).toEqual(names(plain, plain.outputs));
    for (const pattern of allPatterns(9)) {
      const values = [read, plain].map((system) =>
        system.outputs.map(({ signal }) => signalValue(system, signal, pattern)),
      );
      expect(values[0]).toEqual(values[1]);
    }
  });

  test('with a slip in its derivation is not believed', () => {
    const slipped = page.replace('P₃P₂G₁', 'P₃P₁G₁');
    expect(slipped).not.toBe(page);
    const { diagnostics } = answered(slipped);
    expect(diagnostics.map(({ code }) => code)).toContain('derivation-wrong');
  });
});
