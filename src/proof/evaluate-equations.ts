// The prover's own reading of the equations: values of all signals for many patterns at once, 32 a word. Every operator
// is computed from what the language says about it, not from how anybody builds it.
//
// Cost: one pass over the words for every operand. Expressions are trees of limited depth, so recursion is safe. All
// values stand in one array that grows by need; a fresh array for every operator took three times as long on systems of
// thousands of signals.

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
  const evaluator = new Evaluator(system.signals.length, words);
  system.inputs.forEach(({ signal }, i) => {
    evaluator.set(signal, inputs[i]);
  });
  for (const { signal, expression } of system.definitions) evaluator.define(signal, expression);
  const allowed = new Uint32Array(words).fill(0xffffffff);
  for (const expression of system.never) {
    const forbidden = evaluator.value(expression);
    for (let w = 0; w < words; w++) allowed[w] &= ~forbidden[w];
  }
  return { signals: evaluator.signals(), allowed };
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
  const evaluator = new Evaluator(system.signals.length, words);
  defined.forEach((values, signal) => {
    evaluator.set(signal, values);
  });
  for (const { signal, expression } of system.definitions) {
    if (choices.dependent[signal] === 0) continue;
    const own = evaluator.value(expression);
    const free = new Uint32Array(words);
    for (const patterns of choices.free.get(signal) ?? []) {
      const here = evaluator.value(patterns);
      for (let w = 0; w < words; w++) free[w] |= here[w];
    }
    const chosen = built.get(signal);
    if (chosen !== undefined) {
      for (let w = 0; w < words; w++) own[w] = (chosen[w] & free[w]) | (own[w] & ~free[w]);
    }
    evaluator.set(signal, own);
  }
  return evaluator.signals();
}

/** Values of signals, one after the other in one array, and behind them those of the operators that are being computed. */
class Evaluator {
  private readonly words: number;
  private readonly count: number;
  private values: Words;

  constructor(count: number, words: number) {
    this.words = words;
    this.count = count;
    this.values = new Uint32Array((count + 16) * words);
  }

  set(signal: number, values: Words): void {
    this.values.set(values, signal * this.words);
  }

  define(signal: number, expression: Expression): void {
    const at = this.compute(expression, this.count);
    this.values.copyWithin(signal * this.words, at * this.words, (at + 1) * this.words);
  }

  /** A copy of the values of an expression. */
  value(expression: Expression): Words {
    const at = this.compute(expression, this.count);
    return this.values.slice(at * this.words, (at + 1) * this.words);
  }

  signals(): Words[] {
    const { words, values } = this;
    return Array.from({ length: this.count }, (_, signal) =>
      values.subarray(signal * words, (signal + 1) * words),
    );
  }

  /** Where the values of an expression stand: those of a signal in its place, others in place `free`, which they may use with all behind it. */
  private compute(e: Expression, free: number): number {
    if (e.kind === 'signal') return e.signal;
    if ((free + 1) * this.words > this.values.length) {
      const longer = new Uint32Array(2 * this.values.length);
      longer.set(this.values);
      this.values = longer;
    }
    const from = free * this.words;
    const to = from + this.words;
    switch (e.kind) {
      case 'constant':
        this.values.fill(e.value === 1 ? 0xffffffff : 0, from, to);
        break;
      case 'not':
        this.copy(e.argument, free);
        this.invert(from, to);
        break;
      case 'and':
      case 'nand':
        this.copy(e.args[0], free);
        for (let i = 1; i < e.args.length; i++) {
          let leg = this.compute(e.args[i], free + 1) * this.words;
          const { values } = this;
          for (let w = from; w < to; w++) values[w] &= values[leg++];
        }
        if (e.kind === 'nand') this.invert(from, to);
        break;
      case 'or':
      case 'nor':
        this.copy(e.args[0], free);
        for (let i = 1; i < e.args.length; i++) {
          let leg = this.compute(e.args[i], free + 1) * this.words;
          const { values } = this;
          for (let w = from; w < to; w++) values[w] |= values[leg++];
        }
        if (e.kind === 'nor') this.invert(from, to);
        break;
      case 'xor':
      case 'xnor':
        this.copy(e.args[0], free);
        for (let i = 1; i < e.args.length; i++) this.differ(e.args[i], free);
        if (e.kind === 'xnor') this.invert(from, to);
        break;
      case 'equals':
        this.copy(e.left, free);
        this.differ(e.right, free);
        this.invert(from, to);
        break;
      case 'implies': {
        this.copy(e.left, free);
        let right = this.compute(e.right, free + 1) * this.words;
        const { values } = this;
        for (let w = from; w < to; w++) values[w] = ~values[w] | values[right++];
        break;
      }
      case 'mux': {
        this.copy(e.select, free);
        let when0 = this.compute(e.when0, free + 1) * this.words;
        let when1 = this.compute(e.when1, free + 2) * this.words;
        const { values } = this;
        for (let w = from; w < to; w++) {
          const select = values[w];
          values[w] = (select & values[when1++]) | (~select & values[when0++]);
        }
        break;
      }
      case 'maj': {
        this.copy(e.args[0], free);
        let b = this.compute(e.args[1], free + 1) * this.words;
        let c = this.compute(e.args[2], free + 2) * this.words;
        const { values } = this;
        for (let w = from; w < to; w++, b++, c++) {
          const a = values[w];
          values[w] = (a & values[b]) | (a & values[c]) | (values[b] & values[c]);
        }
        break;
      }
    }
    return free;
  }

  /** Writes the values of an expression into place `at`. */
  private copy(e: Expression, at: number): void {
    const from = this.compute(e, at) * this.words;
    if (from !== at * this.words) this.values.copyWithin(at * this.words, from, from + this.words);
  }

  private invert(from: number, to: number): void {
    const { values } = this;
    for (let w = from; w < to; w++) values[w] = ~values[w];
  }

  /** What is in place `at` against the values of an expression. */
  private differ(e: Expression, at: number): void {
    let other = this.compute(e, at + 1) * this.words;
    const { values } = this;
    for (let w = at * this.words; w < (at + 1) * this.words; w++) values[w] ^= values[other++];
  }
}
