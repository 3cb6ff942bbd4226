// Levels of all wires for many rows at once: a table per wire, one bit a row, 32 rows a word.

import type { JoinLogic } from '../target/target.ts';
import { legsOf, outputLegsOf } from './build-network.ts';
import { FIRST_INPUT, firstInverter, type Network } from './network.ts';

/**
 * Level of every wire, by wire number. `inputLevels[i]` is the level of input wire `i`; all tables have the same
 * number of words, and bits beyond the last row (given by `mask` for the last word) are kept 0.
 */
export function simulateWires(
  network: Network,
  inputLevels: readonly Uint32Array[],
  words: number,
  mask: number,
  logic: JoinLogic = 'or',
): Uint32Array<ArrayBuffer>[] {
  const first = firstInverter(network);
  const wires: Uint32Array<ArrayBuffer>[] = new Array(first + network.size);
  wires[0] = new Uint32Array(words);
  wires[1] = new Uint32Array(words).fill(0xffffffff);
  wires[1][words - 1] &= mask;
  for (let i = 0; i < network.inputs.length; i++) wires[FIRST_INPUT + i] = new Uint32Array(inputLevels[i]);
  for (let i = 0; i < network.size; i++) {
    const level = joinLevel(legsOf(network, i), wires, words, logic);
    for (let w = 0; w < words; w++) level[w] = ~level[w];
    level[words - 1] &= mask;
    wires[first + i] = level;
  }
  return wires;
}

/** Level of every output, from the levels of all wires. */
export function outputLevels(
  network: Network,
  wires: readonly Uint32Array[],
  logic: JoinLogic = 'or',
): Uint32Array<ArrayBuffer>[] {
  return network.outputs.map((_, y) => joinLevel(outputLegsOf(network, y), wires, wires[0].length, logic));
}

function joinLevel(
  legs: Int32Array,
  wires: readonly Uint32Array[],
  words: number,
  logic: JoinLogic,
): Uint32Array<ArrayBuffer> {
  const level = new Uint32Array(words);
  if (logic === 'and') {
    level.fill(0xffffffff);
    for (let l = 0; l < legs.length; l++) {
      const leg = wires[legs[l]];
      for (let w = 0; w < words; w++) level[w] &= leg[w];
    }
  } else {
    for (let l = 0; l < legs.length; l++) {
      const leg = wires[legs[l]];
      for (let w = 0; w < words; w++) level[w] |= leg[w];
    }
  }
  return level;
}
