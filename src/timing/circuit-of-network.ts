// From a network of the search, and a target, to a circuit. Inverters keep the ticks of the target; where legs meet at
// an inverter, the ticks of a join are added to it, because that join is not a wire of its own. An output of several
// legs is a wire of its own, named after the output.

import { legsOf, outputLegsOf } from '../network/build-network.ts';
import { FIRST_INPUT, firstInverter, type Network } from '../network/network.ts';
import { wireNames } from '../network/wire-names.ts';
import type { Target } from '../target/target.ts';
import { type Circuit, type CircuitOutput, makeCircuit, type WirePlan } from './circuit.ts';

/** An input of the equations: its signal, and when its wires settle. */
export interface InputSignal {
  readonly signal: number;
  readonly tick: number;
}

/**
 * The circuit of a network.
 *
 * @param signals names by signal number.
 * @param inputs the inputs of the equations in their order; patterns are numbered by it.
 * @param deadlines by output of the network; absent when nobody asked for any.
 */
export function circuitOfNetwork(
  network: Network,
  signals: readonly string[],
  inputs: readonly InputSignal[],
  target: Target,
  deadlines: readonly (number | null)[] = [],
): Circuit {
  const { join, inverter } = target;
  const names = wireNames(network, signals);
  const taken = new Set([...names, ...signals]);
  const inputOf = new Map(inputs.map(({ signal }, i) => [signal, i]));
  const wires: WirePlan[] = [0, 1].map((level) => ({ name: names[level], kind: 'constant', source: level }));
  network.inputs.forEach(({ signal, rail }, i) => {
    const source = inputOf.get(signal);
    if (source === undefined) throw new Error(`signal ${signal} of the network is not an input`);
    wires.push({ name: names[FIRST_INPUT + i], kind: 'input', source, inverted: rail === 'low' });
  });
  for (let i = 0; i < network.size; i++) {
    const legs = [...legsOf(network, i)];
    const extra = legs.length > 1 ? join.ticks : 0;
    const name = names[firstInverter(network) + i];
    const { ticksOn, ticksOff } = inverter;
    wires.push({ name, kind: 'inverter', legs, ticksOn: ticksOn + extra, ticksOff: ticksOff + extra });
  }
  const outputs = network.outputs.map(({ signal, rail }, y): CircuitOutput => {
    const legs = [...outputLegsOf(network, y)];
    const output = { name: signals[signal], rail, by: deadlines[y] ?? null };
    if (legs.length === 1) return { ...output, wire: legs[0] };
    const isSecond = network.outputs.some((other, z) => z < y && other.signal === signal);
    let name = signals[signal] + (isSecond ? `_${rail}` : '');
    const others = isSecond || names.includes(name) ? taken : new Set<string>();
    while (others.has(name)) name += '_';
    taken.add(name);
    wires.push({ name, kind: 'join', legs, ticksOn: join.ticks, ticksOff: join.ticks });
    return { ...output, wire: wires.length - 1 };
  });
  const { minPulse, wear } = inverter;
  const sources = inputs.map(({ signal, tick }) => ({ name: signals[signal], tick }));
  return makeCircuit(join.logic, sources, wires, outputs, { minPulse, wear });
}
