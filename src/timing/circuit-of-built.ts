// From a network as it was built to a circuit, wire by wire as drawn: joins, runs and taps stay wires of their own, under
// the names that the builder gave them. `tiedTogether` makes of it what the wires really do to each other.
//
// Where the target's joins take time, nested joins are one join and its ticks count once, so the legs of joins and
// inverters are followed through joins first; the levels are the same either way.

import { type BuiltNetwork, builtLegs } from '../network/built-network.ts';
import { FIRST_INPUT } from '../network/network.ts';
import type { Target } from '../target/target.ts';
import { type Circuit, type CircuitOutput, makeCircuit, type WireKind, type WirePlan } from './circuit.ts';

/** The circuit of a built network, as drawn. Its inputs are the signals of the block, in their order. */
export function circuitOfBuilt(built: BuiltNetwork, target: Target): Circuit {
  const { join, inverter } = target;
  const signals = [...new Set(built.inputs.map(({ signal }) => signal))];
  const inputs = signals.map((name) => ({
    name,
    tick: Math.max(...built.inputs.filter(({ signal }) => signal === name).map(({ tick }) => tick)),
  }));
  const isTied = (wire: number): boolean =>
    built.kinds[wire] === 'join' || (built.kinds[wire] === 'run' && built.delay[wire] === 0);
  const expanded = (wire: number): number[] => {
    const found = new Set<number>();
    const walk = (at: number): void => {
      if (isTied(at)) for (const leg of builtLegs(built, at)) walk(leg);
      else found.add(at);
    };
    for (const leg of builtLegs(built, wire)) walk(leg);
    return [...found];
  };
  const wires = built.names.map((name, wire): WirePlan => {
    const kind = built.kinds[wire];
    if (kind === 'constant') return { name, kind, source: wire };
    if (kind === 'input') {
      const { signal, rail } = built.inputs[wire - FIRST_INPUT];
      return { name, kind, source: signals.indexOf(signal), inverted: rail === 'low' };
    }
    const legs = expanded(wire);
    const extra = legs.length > 1 ? join.ticks : 0;
    if (kind === 'inverter') {
      return { name, kind, legs, ticksOn: inverter.ticksOn + extra, ticksOff: inverter.ticksOff + extra };
    }
    const ticks = extra + built.delay[wire];
    const as: WireKind = kind === 'tap' || kind === 'join' ? kind : isTied(wire) ? 'join' : 'run';
    return { name, kind: as, legs, ticksOn: ticks, ticksOff: ticks };
  });
  const outputs = built.outputs.map(
    ({ wire, rail, by }): CircuitOutput => ({
      name: built.names[wire],
      rail,
      wire,
      by,
    }),
  );
  const { minPulse, wear } = inverter;
  return makeCircuit(join.logic, inputs, wires, outputs, { minPulse, wear });
}
