// Proof by patterns: equations and network are evaluated for every input pattern and must agree wherever no `never`
// forbids the pattern. Nothing is assumed and nothing can be overlooked, so this is the method of choice as long as
// 2^inputs is a small number.
//
// Patterns are numbered by the values of the inputs, the first input is bit 0. They are compared in blocks, ascending,
// so that memory stays small however wide the system is, and the pattern reported is the smallest that differs.
//
// Cost: (operands of equations and network) x 2^inputs / 32 word operations. An 8-bit adder (2^17 patterns, 276
// inverters) takes about 60 ms.

import type { System } from '../equations/system.ts';
import type { Network } from '../network/network.ts';
import { evaluateBuilt, evaluateEquations, type Words } from './evaluate-equations.ts';
import { evaluateNetwork, type Logic } from './evaluate-network.ts';
import { type FreeChoices, freeChoices } from './free-choices.ts';

/** Words of a block: 2^14 patterns, or less when the system is so wide that a block would take much memory. */
const BLOCK_WORDS = 512;
const WORDS_IN_MEMORY = 1 << 21;

const LOW_BITS = [0xaaaaaaaa, 0xcccccccc, 0xf0f0f0f0, 0xff00ff00, 0xffff0000];

/** A pattern where an output is wrong. */
export interface Difference {
  /** Values of the inputs, in the order of `system.inputs`. */
  readonly values: readonly (0 | 1)[];
  /** Number of the output wire of the network. */
  readonly output: number;
}

export interface Comparison {
  /** Allowed patterns compared, up to and with the difference. */
  readonly patterns: number;
  readonly difference: Difference | null;
  /** False: the difference might go away under choices that were not tried (free-choices.ts). */
  readonly complete: boolean;
}

/** Compares on all patterns; at most 30 inputs. The network must have passed `deliveryFault`. */
export function comparePatterns(system: System, network: Network, logic: Logic): Comparison {
  const inputs = system.inputs.length;
  const totalWords = inputs <= 5 ? 1 : 2 ** (inputs - 5);
  let words = Math.min(BLOCK_WORDS, totalWords);
  const arrays = system.signals.length + network.size + network.inputs.length + network.outputs.length;
  while (words > 1 && words * arrays > WORDS_IN_MEMORY) words /= 2;
  const rows = inputs < 5 ? 2 ** (1 << inputs) - 1 : 0xffffffff;
  const choices = freeChoices(system, network);
  let patterns = 0;
  for (let block = 0; block < totalWords; block += words) {
    const values = system.inputs.map((_, i) => patternWords(i, block, words));
    const { allowed, wrong } = differences(system, network, logic, choices, values, words);
    for (let w = 0; w < words; w++) {
      const allowedHere = allowed[w] & rows;
      let any = 0;
      for (const output of wrong) any |= output[w] & rows;
      if (any === 0) {
        patterns += countBits(allowedHere);
        continue;
      }
      const lowest = any & -any;
      const row = (block + w) * 32 + 31 - Math.clz32(lowest);
      return {
        patterns: patterns + countBits(allowedHere & (lowest | (lowest - 1))),
        complete: choices.complete,
        difference: {
          values: system.inputs.map((_, i) => (Math.floor(row / 2 ** i) % 2 === 1 ? 1 : 0)),
          output: wrong.findIndex((output) => (output[w] & lowest) !== 0),
        },
      };
    }
  }
  return { patterns, difference: null, complete: true };
}

/** The output that is wrong on one pattern, or -1; -1 also when the pattern is forbidden. */
export function wrongOutputOn(
  system: System,
  network: Network,
  logic: Logic,
  pattern: readonly (0 | 1)[],
): number {
  const values = pattern.map((bit) => Uint32Array.of(bit));
  const { wrong } = differences(system, network, logic, freeChoices(system, network), values, 1);
  return wrong.findIndex((output) => (output[0] & 1) !== 0);
}

/**
 * For every output wire the allowed patterns on which it is wrong. Where free signals are hidden, a pattern counts only
 * when something is wrong under every combination of choices, and what is wrong under the first is told.
 */
function differences(
  system: System,
  network: Network,
  logic: Logic,
  choices: FreeChoices,
  inputs: readonly Words[],
  words: number,
): { readonly allowed: Words; readonly wrong: readonly Words[] } {
  const { signals, allowed } = evaluateEquations(system, inputs, words);
  const levels = evaluateNetwork(system, network, logic, inputs, words);
  const shown = new Map<number, Words>();
  for (const [signal, y] of choices.shownBy) {
    shown.set(signal, network.outputs[y].rail === 'low' ? levels[y].map((word) => ~word) : levels[y]);
  }
  const wrongUnder = (combination: ReadonlyMap<number, 0 | 1>): Words[] => {
    const built = new Map(shown);
    for (const [signal, bit] of combination) built.set(signal, new Uint32Array(words).fill(-bit));
    const wanted = evaluateBuilt(system, choices, signals, built, words);
    return network.outputs.map(({ signal, rail }, y) => {
      const flip = rail === 'low' ? 0xffffffff : 0;
      return levels[y].map((level, w) => (level ^ wanted[signal][w] ^ flip) & allowed[w]);
    });
  };
  const [first, ...others] = choices.combinations;
  const wrong = wrongUnder(first);
  for (const combination of others) {
    const also = wrongUnder(combination);
    for (let w = 0; w < words; w++) {
      const any = also.reduce((bits, output) => bits | output[w], 0);
      for (const output of wrong) output[w] &= any;
    }
  }
  return { allowed, wrong };
}

/** Values of input `index` on the patterns of `words` words from word `from` on. */
function patternWords(index: number, from: number, words: number): Words {
  const result = new Uint32Array(words);
  if (index < 5) return result.fill(LOW_BITS[index]);
  const stride = 2 ** (index - 5);
  for (let w = 0; w < words; w++) if (Math.floor((from + w) / stride) % 2 === 1) result[w] = 0xffffffff;
  return result;
}

function countBits(word: number): number {
  let count = 0;
  for (let bits = word; bits !== 0; bits &= bits - 1) count++;
  return count;
}
