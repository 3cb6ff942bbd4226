// The prover's own reading of the equations: values of all signals for many patterns at once, 32 a word. Every operator
// is computed from what the language says about it, not from how anybody builds it.
//
// Cost: one pass over the words for every operand. Expressions are trees of limited depth, so recursion is safe.
// Lost: a flat program with reused buffers was no quicker than fresh arrays of half a kilobyte to two.

import type { Expression, System } from '../equations/system.ts';
import type { FreeChoices } from './free-choices.ts';

export type Words = Uint32Array;

export interface SystemValues {
  /** Value of every signal, by signal number. */
  readonly signals: readonly Words[];
  /** Patterns that no `never` forbids. */
  readonly allowed: Words;
}

/** `inputs[i]` holds the values of `system.inputs[i]`; all arrays have `words` words. */
export function evaluateEquations(system: System, inputs: readonly Words[], words: number): SystemValues {
  const signals: Words[] = new Array(system.signals.length);
  system.inputs.forEach(({ signal }, i) => {
    signals[signal] = inputs[i];
  });
  for (const { signal, expression } of system.definitions)
    signals[signal] = value(expression, signals, words);
  const allowed = new Uint32Array(words).fill(0xffffffff);
  for (const expression of system.never) {
    const forbidden = value(expression, signals, words);
    for (let w = 0; w < words; w++) allowed[w] &= ~forbidden[w];
  }
  return { signals, allowed };
}

/**
 * The values once more, as a network sees them: wherever a signal is free it has the value of `built`. `defined` are the
 * values that the definitions give.
 */
export function evaluateBuilt(
  system: System,
  choices: FreeChoices,
  defined: readonly Words[],
  built: ReadonlyMap<number, Words>,
  words: number,
): readonly Words[] {
  if (choices.free.size === 0) return defined;
  const signals = [...defined];
  for (const { signal, expression } of system.definitions) {
    if (choices.dependent[signal] === 0) continue;
    const own = value(expression, signals, words);
    const free = some(
      (choices.free.get(signal) ?? []).map((patterns) => value(patterns, signals, words)),
      words,
    );
    const chosen = built.get(signal);
    signals[signal] = chosen === undefined ? own : own.map((v, w) => (chosen[w] & free[w]) | (v & ~free[w]));
  }
  return signals;
}

function value(e: Expression, signals: readonly Words[], words: number): Words {
  const of = (inner: Expression): Words => value(inner, signals, words);
  switch (e.kind) {
    case 'constant':
      return new Uint32Array(words).fill(e.value === 1 ? 0xffffffff : 0);
    case 'signal':
      return signals[e.signal];
    case 'not':
      return inverted(of(e.argument));
    case 'and':
      return all(e.args.map(of), words);
    case 'nand':
      return inverted(all(e.args.map(of), words));
    case 'or':
      return some(e.args.map(of), words);
    case 'nor':
      return inverted(some(e.args.map(of), words));
    case 'xor':
      return parity(e.args.map(of), words);
    case 'xnor':
      return inverted(parity(e.args.map(of), words));
    case 'equals':
      return inverted(parity([of(e.left), of(e.right)], words));
    case 'implies':
      return some([inverted(of(e.left)), of(e.right)], words);
    case 'mux': {
      const [select, when0, when1] = [of(e.select), of(e.when0), of(e.when1)];
      return select.map((s, w) => (s & when1[w]) | (~s & when0[w]));
    }
    case 'maj': {
      const [a, b, c] = e.args.map(of);
      return a.map((_, w) => (a[w] & b[w]) | (a[w] & c[w]) | (b[w] & c[w]));
    }
  }
}

function inverted(a: Words): Words {
  return a.map((word) => ~word);
}

function all(args: readonly Words[], words: number): Words {
  const result = new Uint32Array(words).fill(0xffffffff);
  for (const arg of args) for (let w = 0; w < words; w++) result[w] &= arg[w];
  return result;
}

function some(args: readonly Words[], words: number): Words {
  const result = new Uint32Array(words);
  for (const arg of args) for (let w = 0; w < words; w++) result[w] |= arg[w];
  return result;
}

function parity(args: readonly Words[], words: number): Words {
  const result = new Uint32Array(words);
  for (const arg of args) for (let w = 0; w < words; w++) result[w] ^= arg[w];
  return result;
}
