// The slowest and plainest evaluator there is: one pattern at a time, by recursion over the definition of each thing.
// It is written apart from src on purpose, so that a mistake there cannot be made here as well.

import type { Expression, System } from '../../src/equations/system.ts';
import type { Network } from '../../src/network/network.ts';

/** Value of a signal when input `i` of the system has the value `pattern[i]`. */
export function signalValue(system: System, signal: number, pattern: readonly boolean[]): boolean {
  const input = system.inputs.findIndex((declared) => declared.signal === signal);
  if (input >= 0) return pattern[input];
  const definition = system.definitions.find((defined) => defined.signal === signal);
  if (definition === undefined) throw new Error(`signal ${signal} has no definition`);
  return expressionValue(system, definition.expression, pattern);
}

export function expressionValue(system: System, e: Expression, pattern: readonly boolean[]): boolean {
  const of = (part: Expression): boolean => expressionValue(system, part, pattern);
  const ones = (parts: readonly Expression[]): number => parts.filter(of).length;
  switch (e.kind) {
    case 'constant':
      return e.value === 1;
    case 'signal':
      return signalValue(system, e.signal, pattern);
    case 'not':
      return !of(e.argument);
    case 'and':
      return ones(e.args) === e.args.length;
    case 'nand':
      return ones(e.args) < e.args.length;
    case 'or':
      return ones(e.args) > 0;
    case 'nor':
      return ones(e.args) === 0;
    case 'xor':
      return ones(e.args) % 2 === 1;
    case 'xnor':
      return ones(e.args) % 2 === 0;
    case 'implies':
      return of(e.left) ? of(e.right) : true;
    case 'equals':
      return of(e.left) === of(e.right);
    case 'mux':
      return of(e.select) ? of(e.when1) : of(e.when0);
    case 'maj':
      return ones(e.args) >= 2;
  }
}

/** Can this pattern happen? */
export function canHappen(system: System, pattern: readonly boolean[]): boolean {
  return !system.never.some((forbidden) => expressionValue(system, forbidden, pattern));
}

/** Legs of an inverter (0 for the first), or of an output, as a plain list of wire numbers. */
export function inverterLegs(network: Network, inverter: number): number[] {
  return [...network.legs.slice(network.legStart[inverter], network.legStart[inverter + 1])];
}

export function joinLegs(network: Network, output: number): number[] {
  return [...network.outputLegs.slice(network.outputStart[output], network.outputStart[output + 1])];
}

/** Levels of all outputs of a network when input wire `i` has the level `inputs[i]`. */
export function outputLevels(network: Network, inputs: readonly boolean[], logic: 'or' | 'and'): boolean[] {
  const known = new Map<number, boolean>();
  const level = (wire: number): boolean => {
    if (wire < 2) return wire === 1;
    if (wire < 2 + inputs.length) return inputs[wire - 2];
    let found = known.get(wire);
    if (found === undefined) {
      found = !join(inverterLegs(network, wire - 2 - inputs.length));
      known.set(wire, found);
    }
    return found;
  };
  const join = (legs: readonly number[]): boolean => (logic === 'or' ? legs.some(level) : legs.every(level));
  return network.outputs.map((_, y) => join(joinLegs(network, y)));
}

/** Tick of every output: an inverter is `inverterTicks` after its latest leg, joining costs `joinTicks`. */
export function settlingTicks(network: Network, inverterTicks: number, joinTicks: number): number[] {
  const known = new Map<number, number>();
  const first = 2 + network.inputs.length;
  const tick = (wire: number): number => {
    if (wire < 2) return 0;
    if (wire < first) return network.inputs[wire - 2].tick;
    let found = known.get(wire);
    if (found === undefined) {
      found = joined(inverterLegs(network, wire - first)) + inverterTicks;
      known.set(wire, found);
    }
    return found;
  };
  const joined = (legs: readonly number[]): number =>
    Math.max(...legs.map(tick)) + (legs.length > 1 ? joinTicks : 0);
  return network.outputs.map((_, y) => joined(joinLegs(network, y)));
}

/** All patterns of `count` inputs, the first input changes fastest. */
export function* allPatterns(count: number): Generator<boolean[]> {
  for (let row = 0; row < 2 ** count; row++) {
    yield Array.from({ length: count }, (_, i) => ((row >> i) & 1) === 1);
  }
}
