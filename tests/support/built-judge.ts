// Whether a built block has a fault of level, judged by simulation alone: on some pattern it does not settle, or a wire
// that is read, or goes outside, has another level than was wished, or a declared wire drives something else than it is
// declared to carry. Works from the words of the block; shares nothing with src/polarity.

import type { Node } from '../../grammar/syntax.ts';
import type { BuiltBlock } from '../../src/equations/built.ts';
import { electricalModel, patternOf } from './electrical-simulation.ts';

type Values = Readonly<Record<string, 0 | 1>>;

/** Value of an expression over signals. */
export function nodeValue(node: Node, values: Values): 0 | 1 {
  const of = (inner: Node): 0 | 1 => nodeValue(inner, values);
  const bit = (is: boolean): 0 | 1 => (is ? 1 : 0);
  if (node.kind === 'constant') return node.value;
  if (node.kind === 'name') return values[node.name];
  if (node.kind === 'not') return bit(of(node.argument) === 0);
  if (node.kind === 'call') throw new Error('no calls in the blocks of the tests');
  const args = node.args.map(of);
  const ones = args.filter((value) => value === 1).length;
  if (node.operator === 'and') return bit(ones === args.length);
  if (node.operator === 'or') return bit(ones > 0);
  if (node.operator === 'xor') return bit(ones % 2 === 1);
  throw new Error(`no ${node.operator} in the blocks of the tests`);
}

/** Level of every wire as drawn, each driven by its own legs alone. */
export function drawnByHand(block: BuiltBlock, values: Values): Map<string, 0 | 1> {
  const level = new Map<string, 0 | 1>([
    ['0', 0],
    ['1', 1],
  ]);
  const flip = (value: 0 | 1): 0 | 1 => (value === 1 ? 0 : 1);
  for (const { name, signal, rail } of block.inputs) {
    level.set(name, rail === 'high' ? values[signal] : flip(values[signal]));
  }
  for (const { name, gate, legs } of block.elements) {
    const ones = legs.filter((leg) => level.get(leg) === 1).length;
    const is = {
      nor: ones === 0,
      not: ones === 0,
      nand: ones < legs.length,
      and: ones === legs.length,
      join: ones > 0,
      wire: ones > 0,
      separate: ones > 0,
    }[gate];
    level.set(name, is ? 1 : 0);
  }
  return level;
}

export interface JudgedFault {
  readonly row: number;
  readonly wire: string;
}

/** The first fault found, or null. Joins compute OR; meanings are over the inputs alone. */
export function levelFaultBySimulation(block: BuiltBlock): JudgedFault | null {
  const model = electricalModel(block);
  const signals = [...new Set(block.inputs.map(({ signal }) => signal))];
  const read = new Set(block.outputs.map(({ wire }) => wire));
  for (const { gate, legs, delay } of block.elements) {
    const reads = ['nor', 'not', 'nand', 'and'].includes(gate) || (gate === 'wire' && delay > 0);
    if (reads) for (const leg of legs) read.add(leg);
  }
  const meanings = new Map(block.meanings.map((meaning) => [meaning.wire, meaning]));
  const rails = new Map<string, 'high' | 'low'>(block.inputs.map(({ name, rail }) => [name, rail]));
  for (const { wire, rail } of block.meanings) rails.set(wire, rail);
  for (let row = 0; row < 2 ** signals.length; row++) {
    const values = patternOf(signals, row);
    const { levels } = model.settle(values);
    if (levels === null) return { row, wire: '' };
    const drawn = drawnByHand(block, values);
    const flip = (value: 0 | 1 | undefined): 0 | 1 => (value === 1 ? 0 : 1);
    /** What the level of a wire says of its signal. */
    const signalOf = (wire: string): 0 | 1 => {
      const meaning = meanings.get(wire);
      if (meaning !== undefined) return nodeValue(meaning.expression, values);
      return rails.get(wire) === 'low' ? flip(drawn.get(wire)) : (drawn.get(wire) ?? 0);
    };
    for (const { name } of block.inputs) {
      if (read.has(name) && levels.get(name) !== drawn.get(name)) return { row, wire: name };
    }
    for (const { name, gate, legs } of block.elements) {
      const meaning = meanings.get(name);
      let wished = drawn.get(name);
      if (meaning !== undefined) {
        const value = nodeValue(meaning.expression, values);
        wished = meaning.rail === 'high' ? value : flip(value);
      } else if (gate === 'join') {
        const known = [...new Set(legs)].map((leg) => rails.get(leg));
        if (known.includes('high') && known.includes('low') && !known.includes(undefined)) {
          wished = legs.some((leg) => signalOf(leg) === 1) ? 1 : 0;
        }
      }
      const is = read.has(name) ? levels.get(name) : drawn.get(name);
      if (is !== wished) return { row, wire: name };
    }
  }
  return null;
}
