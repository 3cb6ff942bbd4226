// Systems and networks for the tests of the prover: adders of any width as equations and as networks of another
// structure, random systems, and the network that lays every operator of a system in the plainest way.

import { readEquations } from '../../src/equations/read-equations.ts';
import type { Expression, System } from '../../src/equations/system.ts';
import { packNetwork } from '../../src/network/build-network.ts';
import { FIRST_INPUT, type Network, ONE, type WireRail, ZERO } from '../../src/network/network.ts';

export function systemOf(text: string): System {
  const { value, diagnostics } = readEquations(text);
  if (value === null) throw new Error(diagnostics.map(({ message }) => message).join('\n'));
  return value;
}

/** Adds two numbers with carry-in: p, g, sum and carry of every bit, the last carry an output. */
export function rippleAdder(bits: number): System {
  const each = (line: (bit: number) => string): string =>
    Array.from({ length: bits }, (_, i) => line(i)).join('\n');
  return systemOf(
    `input ${Array.from({ length: bits }, (_, i) => `a${i}, b${i}`).join(', ')}, c0
     output ${Array.from({ length: bits }, (_, i) => `s${i}`).join(', ')}, c${bits}
     ${each((i) => `p${i} = a${i} ^ b${i}\ng${i} = a${i} b${i}\ns${i} = p${i} ^ c${i}\nc${i + 1} = g${i} + p${i} c${i}`)}`,
  );
}

/** Lays inverters one after another; wires are numbers. */
export class NetworkWriter {
  readonly inverters: number[][] = [];
  private readonly first: number;

  constructor(inputs: number) {
    this.first = FIRST_INPUT + inputs;
  }

  nor(legs: readonly number[]): number {
    this.inverters.push([...new Set(legs)].sort((a, b) => a - b));
    return this.first + this.inverters.length - 1;
  }

  not(wire: number): number {
    return this.nor([wire]);
  }

  or(wires: readonly number[]): number {
    return this.not(this.nor(wires));
  }

  and(wires: readonly number[]): number {
    return this.nor(wires.map((wire) => this.not(wire)));
  }

  xor(a: number, b: number): number {
    return this.nor([this.nor([a, b]), this.and([a, b])]);
  }
}

/** The same function as `rippleAdder`, its carries from a tree of prefixes of doubling length. */
export function prefixAdder(system: System, bits: number): Network {
  const inputs = system.inputs.map(({ signal }) => ({ signal, rail: 'high' as WireRail, tick: 0 }));
  const lay = new NetworkWriter(inputs.length);
  const a = (i: number): number => FIRST_INPUT + 2 * i;
  const b = (i: number): number => FIRST_INPUT + 2 * i + 1;
  const carryIn = FIRST_INPUT + 2 * bits;
  // Position 0 generates the carry-in; position i + 1 belongs to bit i.
  let generate = [carryIn];
  let alive = [ZERO];
  for (let i = 0; i < bits; i++) {
    generate.push(lay.and([a(i), b(i)]));
    alive.push(lay.or([a(i), b(i)]));
  }
  for (let reach = 1; reach <= bits; reach *= 2) {
    const [g, t] = [generate, alive];
    generate = g.map((wire, i) => (i < reach ? wire : lay.or([wire, lay.and([t[i], g[i - reach]])])));
    alive = t.map((wire, i) => (i < reach ? wire : i === reach ? ZERO : lay.and([wire, t[i - reach]])));
  }
  const sums = Array.from({ length: bits }, (_, i) => lay.xor(lay.xor(a(i), b(i)), generate[i]));
  return packNetwork(
    inputs,
    system.outputs.map(({ signal }) => ({ signal, rail: 'high' })),
    lay.inverters,
    [...sums, generate[bits]].map((wire) => [wire]),
  );
}

/** Every operator of the system laid in the plainest way; inputs `either` are taken on the rail of `eitherRail`. */
export function plainNetwork(system: System, eitherRail: WireRail = 'high'): Network {
  const inputs = system.inputs.flatMap(({ signal, rail, tick }) => {
    const rails: WireRail[] = rail === 'both' ? ['high', 'low'] : [rail === 'either' ? eitherRail : rail];
    return rails.map((one) => ({ signal, rail: one, tick }));
  });
  const lay = new NetworkWriter(inputs.length);
  const wires: number[] = new Array(system.signals.length);
  inputs.forEach(({ signal, rail }, i) => {
    wires[signal] = rail === 'high' ? FIRST_INPUT + i : lay.not(FIRST_INPUT + i);
  });
  const wireOf = (e: Expression): number => {
    switch (e.kind) {
      case 'constant':
        return e.value === 1 ? ONE : ZERO;
      case 'signal':
        return wires[e.signal];
      case 'not':
        return lay.not(wireOf(e.argument));
      case 'and':
        return lay.and(e.args.map(wireOf));
      case 'or':
        return lay.or(e.args.map(wireOf));
      case 'nand':
        return lay.not(lay.and(e.args.map(wireOf)));
      case 'nor':
        return lay.nor(e.args.map(wireOf));
      case 'xor':
        return e.args.map(wireOf).reduce((a, b) => lay.xor(a, b));
      case 'xnor':
        return lay.not(e.args.map(wireOf).reduce((a, b) => lay.xor(a, b)));
      case 'equals':
        return lay.not(lay.xor(wireOf(e.left), wireOf(e.right)));
      case 'implies':
        return lay.or([lay.not(wireOf(e.left)), wireOf(e.right)]);
      case 'mux': {
        const select = wireOf(e.select);
        return lay.or([lay.and([lay.not(select), wireOf(e.when0)]), lay.and([select, wireOf(e.when1)])]);
      }
      case 'maj': {
        const [a, b, c] = e.args.map(wireOf);
        return lay.or([lay.and([a, b]), lay.and([c, lay.or([a, b])])]);
      }
    }
  };
  for (const { signal, expression } of system.definitions) wires[signal] = wireOf(expression);
  const outputs = system.outputs.flatMap(({ signal, rail }) => {
    const rails: WireRail[] = rail === 'both' ? ['high', 'low'] : [rail === 'low' ? 'low' : 'high'];
    return rails.map((one) => ({ signal, rail: one }));
  });
  const joins = outputs.map(({ signal, rail }) => [rail === 'high' ? wires[signal] : lay.not(wires[signal])]);
  return packNetwork(inputs, outputs, lay.inverters, joins);
}

/** A generator of whole numbers with a fixed seed: `next(n)` is in 0 .. n - 1. */
export function seeded(seed: number): (below: number) => number {
  let state = (seed * 2654435761 + 1) | 0 || 1;
  return (below) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % below;
  };
}

/** A random system that uses every kind of operator. */
export function randomSystem(
  next: (below: number) => number,
  inputs: number,
  definitions: number,
  options: { readonly never?: boolean; readonly rails?: boolean } = {},
): System {
  const rail = (): 'high' | 'low' | 'either' | 'both' =>
    options.rails ? (['high', 'low', 'either', 'both'] as const)[next(4)] : 'high';
  const expression = (signals: number, depth: number): Expression => {
    if (depth === 0 || next(6) === 0) {
      if (signals === 0 || next(40) === 0) return { kind: 'constant', value: next(2) as 0 | 1 };
      return { kind: 'signal', signal: next(signals) };
    }
    const inner = (): Expression => expression(signals, depth - 1);
    const some = (): Expression[] => Array.from({ length: 1 + next(3) }, inner);
    const kind = (
      ['and', 'or', 'nand', 'nor', 'xor', 'xnor', 'not', 'implies', 'equals', 'mux', 'maj'] as const
    )[next(11)];
    switch (kind) {
      case 'not':
        return { kind, argument: inner() };
      case 'implies':
      case 'equals':
        return { kind, left: inner(), right: inner() };
      case 'mux':
        return { kind, select: inner(), when0: inner(), when1: inner() };
      case 'maj':
        return { kind, args: [inner(), inner(), inner()] };
      default:
        return { kind, args: some() };
    }
  };
  const count = inputs + definitions;
  return {
    signals: Array.from({ length: count }, (_, i) => (i < inputs ? `x${i}` : `y${i - inputs}`)),
    inputs: Array.from({ length: inputs }, (_, signal) => ({ signal, rail: rail(), tick: 0 })),
    outputs: Array.from({ length: definitions }, (_, i) => ({
      signal: inputs + i,
      rail: rail(),
      by: null,
    })).filter((_, i) => i === definitions - 1 || next(3) > 0),
    definitions: Array.from({ length: definitions }, (_, i) => ({
      signal: inputs + i,
      expression: expression(inputs + i, 3),
      at: null,
    })),
    never: options.never ? [{ kind: 'and', args: [expression(count, 1), expression(inputs, 2)] }] : [],
  };
}

/** Values of all signals on one row, computed the slow and obvious way; null when a `never` forbids the row. */
export function naiveValues(system: System, row: number): number[] | null {
  const values: number[] = [];
  system.inputs.forEach(({ signal }, i) => {
    values[signal] = Math.floor(row / 2 ** i) % 2;
  });
  const of = (e: Expression): number => {
    const args = 'args' in e ? e.args.map(of) : [];
    const ones = args.filter((value) => value === 1).length;
    switch (e.kind) {
      case 'constant':
        return e.value;
      case 'signal':
        return values[e.signal];
      case 'not':
        return 1 - of(e.argument);
      case 'and':
        return ones === args.length ? 1 : 0;
      case 'nand':
        return ones === args.length ? 0 : 1;
      case 'or':
        return ones > 0 ? 1 : 0;
      case 'nor':
        return ones > 0 ? 0 : 1;
      case 'xor':
        return ones % 2;
      case 'xnor':
        return 1 - (ones % 2);
      case 'implies':
        return of(e.left) <= of(e.right) ? 1 : 0;
      case 'equals':
        return of(e.left) === of(e.right) ? 1 : 0;
      case 'mux':
        return of(e.select) === 1 ? of(e.when1) : of(e.when0);
      case 'maj':
        return ones >= 2 ? 1 : 0;
    }
  };
  for (const { signal, expression } of system.definitions) values[signal] = of(expression);
  return system.never.some((expression) => of(expression) === 1) ? null : values;
}

/** Levels of all wires and of all outputs for one row, the slow and obvious way. */
export function naiveLevels(
  system: System,
  network: Network,
  logic: 'or' | 'and',
  row: number,
): { readonly wires: number[]; readonly outputs: number[] } {
  const wires = [0, 1];
  for (const { signal, rail } of network.inputs) {
    const bit = Math.floor(row / 2 ** system.inputs.findIndex((input) => input.signal === signal)) % 2;
    wires.push(rail === 'high' ? bit : 1 - bit);
  }
  const join = (legs: readonly number[]): number => {
    const levels = legs.map((leg) => wires[leg]);
    return logic === 'or' ? Math.max(...levels) : Math.min(...levels);
  };
  const list = (start: Int32Array, legs: Int32Array, i: number): number[] => [
    ...legs.slice(start[i], start[i + 1]),
  ];
  for (let i = 0; i < network.size; i++) wires.push(1 - join(list(network.legStart, network.legs, i)));
  return {
    wires,
    outputs: network.outputs.map((_, y) => join(list(network.outputStart, network.outputLegs, y))),
  };
}

/** The network with one leg of an inverter or output put elsewhere; its structure stays sound. */
export function damaged(network: Network, next: (below: number) => number): Network {
  const legs = network.legs.slice();
  if (network.size === 0) return network;
  const inverter = next(network.size);
  const at = network.legStart[inverter] + next(network.legStart[inverter + 1] - network.legStart[inverter]);
  legs[at] = next(FIRST_INPUT + network.inputs.length + inverter);
  return { ...network, legs };
}
