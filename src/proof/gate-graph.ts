// Equations and network in one graph of AND and XOR gates, for the proof by solver. A literal is twice the number of a
// node, plus one for its complement. Nodes are numbered so that arguments come before their gates: node 0 is the
// constant 0, then come the inputs, the gates of the equations, those of `never`, and those of the network.
//
// Where definitions are free, the equations that see what was built stand behind the network: they read the level that
// the network has there (see free-choices.ts).
//
// Nothing is simplified or shared on the way: what the solver is asked is the equations and the network as they stand,
// and a mistake of a clever translation cannot make them equal.

import type { Expression, System } from '../equations/system.ts';
import type { Network } from '../network/network.ts';
import type { Logic } from './evaluate-network.ts';
import { type FreeChoices, freeChoices } from './free-choices.ts';

export const FALSE = 0;
export const TRUE = 1;

export class GateGraph {
  /** `xor[n]` is 1 for an XOR gate; a node without arguments is an input or the constant. */
  readonly xor: number[] = [0];
  /** Arguments of node `n`, literals: `args[start[n]] .. args[start[n + 1] - 1]`. */
  readonly start: number[] = [0, 0];
  readonly args: number[] = [];

  get size(): number {
    return this.xor.length;
  }

  input(): number {
    return this.add(0, []);
  }

  and(args: readonly number[]): number {
    return args.length === 1 ? args[0] : this.add(0, args);
  }

  or(args: readonly number[]): number {
    return args.length === 1
      ? args[0]
      : this.add(
          0,
          args.map((literal) => literal ^ 1),
        ) ^ 1;
  }

  /** Parity, as a chain of gates of two arguments. */
  parity(args: readonly number[]): number {
    return args.reduce((a, b) => this.add(1, [a, b]));
  }

  private add(xor: 0 | 1, args: readonly number[]): number {
    this.xor.push(xor);
    for (const literal of args) this.args.push(literal);
    this.start.push(this.args.length);
    return 2 * (this.xor.length - 1);
  }
}

export interface Translation {
  readonly graph: GateGraph;
  /** Literals of the inputs, in the order of the system. */
  readonly inputs: readonly number[];
  /** Literals of the `never` expressions. */
  readonly never: readonly number[];
  /** Nodes from here on belong to the network. */
  readonly networkFrom: number;
  /** By output wire of the network: its level, and the level that the equations want. */
  readonly outputs: readonly OutputPair[];
  /** The same for every further combination of choices of hidden free signals: a pattern must be wrong under all. */
  readonly otherwise: readonly (readonly OutputPair[])[];
  /** All choices that matter are among these. */
  readonly complete: boolean;
}

export interface OutputPair {
  readonly level: number;
  readonly wanted: number;
}

/** Translates both sides over the same inputs. The network must have passed `deliveryFault`. */
export function translate(system: System, network: Network, logic: Logic): Translation {
  const graph = new GateGraph();
  const signals: number[] = new Array(system.signals.length);
  for (const { signal } of system.inputs) signals[signal] = graph.input();
  for (const { signal, expression } of system.definitions) {
    signals[signal] = literalOf(expression, signals, graph);
  }
  const never = system.never.map((expression) => literalOf(expression, signals, graph));
  const networkFrom = graph.size;

  const wires = [FALSE, TRUE];
  for (const { signal, rail } of network.inputs) wires.push(signals[signal] ^ (rail === 'low' ? 1 : 0));
  const join = (legs: Int32Array, from: number, to: number): number => {
    const literals = Array.from(legs.subarray(from, to), (leg) => wires[leg]);
    return logic === 'or' ? graph.or(literals) : graph.and(literals);
  };
  for (let i = 0; i < network.size; i++) {
    wires.push(join(network.legs, network.legStart[i], network.legStart[i + 1]) ^ 1);
  }
  const levels = network.outputs.map((_, y) =>
    join(network.outputLegs, network.outputStart[y], network.outputStart[y + 1]),
  );
  const choices = freeChoices(system, network);
  const [outputs, ...otherwise] = choices.combinations.map((combination) => {
    const built = new Map<number, number>();
    for (const [signal, y] of choices.shownBy)
      built.set(signal, levels[y] ^ (network.outputs[y].rail === 'low' ? 1 : 0));
    for (const [signal, bit] of combination) built.set(signal, bit === 1 ? TRUE : FALSE);
    const seen = asBuilt(system, choices, signals, built, graph);
    return network.outputs.map(({ signal, rail }, y) => ({
      level: levels[y],
      wanted: seen[signal] ^ (rail === 'low' ? 1 : 0),
    }));
  });
  const inputs = system.inputs.map(({ signal }) => signals[signal]);
  return { graph, inputs, never, networkFrom, outputs, otherwise, complete: choices.complete };
}

/** Literals of all signals as the network sees them: where a signal is free it is what was built. */
function asBuilt(
  system: System,
  choices: FreeChoices,
  defined: readonly number[],
  built: ReadonlyMap<number, number>,
  graph: GateGraph,
): readonly number[] {
  if (choices.free.size === 0) return defined;
  const signals = [...defined];
  for (const { signal, expression } of system.definitions) {
    if (choices.dependent[signal] === 0) continue;
    const own = literalOf(expression, signals, graph);
    const chosen = built.get(signal);
    const patterns = choices.free.get(signal);
    if (chosen === undefined || patterns === undefined) signals[signal] = own;
    else {
      const free = graph.or(patterns.map((pattern) => literalOf(pattern, signals, graph)));
      signals[signal] = graph.or([graph.and([free, chosen]), graph.and([free ^ 1, own])]);
    }
  }
  return signals;
}

function literalOf(e: Expression, signals: readonly number[], graph: GateGraph): number {
  const of = (inner: Expression): number => literalOf(inner, signals, graph);
  switch (e.kind) {
    case 'constant':
      return e.value === 1 ? TRUE : FALSE;
    case 'signal':
      return signals[e.signal];
    case 'not':
      return of(e.argument) ^ 1;
    case 'and':
      return graph.and(e.args.map(of));
    case 'nand':
      return graph.and(e.args.map(of)) ^ 1;
    case 'or':
      return graph.or(e.args.map(of));
    case 'nor':
      return graph.or(e.args.map(of)) ^ 1;
    case 'xor':
      return graph.parity(e.args.map(of));
    case 'xnor':
      return graph.parity(e.args.map(of)) ^ 1;
    case 'equals':
      return graph.parity([of(e.left), of(e.right)]) ^ 1;
    case 'implies':
      return graph.or([of(e.left) ^ 1, of(e.right)]);
    case 'mux': {
      const [select, when0, when1] = [of(e.select), of(e.when0), of(e.when1)];
      return graph.or([graph.and([select, when1]), graph.and([select ^ 1, when0])]);
    }
    case 'maj': {
      const [a, b, c] = e.args.map(of);
      return graph.or([graph.and([a, b]), graph.and([a, c]), graph.and([b, c])]);
    }
  }
}
