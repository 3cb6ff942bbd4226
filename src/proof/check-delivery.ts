// Does the network take what the outside gives and deliver what was asked for? A network can compute every function
// rightly and still be wrong: an output missing or on the wrong rail, an input wire that nobody declared. This is
// checked before any pattern is compared, so that the evaluators may trust every number they read.

import type { InputDeclaration, Rail, System } from '../equations/system.ts';
import type { InputWire, Network, OutputWire } from '../network/network.ts';

/** The first fault of delivery, with the signal it concerns, or null. */
export interface DeliveryFault {
  readonly reason: string;
  readonly output: number | null;
}

/** Checks structure, inputs and outputs, in this order; null when all is well. */
export function deliveryFault(system: System, network: Network): DeliveryFault | null {
  const reason = structureFault(network) ?? inputFault(system, network.inputs);
  return reason !== null ? { reason, output: null } : outputFault(system, network.outputs);
}

/** Every leg must be a wire that stands before its reader, else the levels are not defined. */
function structureFault(network: Network): string | null {
  const first = 2 + network.inputs.length;
  const sections = [
    { what: 'inverter', count: network.size, start: network.legStart, legs: network.legs, own: first },
    {
      what: 'output',
      count: network.outputs.length,
      start: network.outputStart,
      legs: network.outputLegs,
      own: null,
    },
  ];
  for (const { what, count, start, legs, own } of sections) {
    if (start.length !== count + 1 || start[0] !== 0 || start[count] !== legs.length) {
      return `the legs of the ${what}s are not packed as they should be`;
    }
    for (let i = 0; i < count; i++) {
      const limit = own === null ? first + network.size : own + i;
      if (start[i + 1] <= start[i]) return `${what} ${i + 1} has no legs`;
      for (let at = start[i]; at < start[i + 1]; at++) {
        if (legs[at] < 0 || legs[at] >= limit) {
          return `${what} ${i + 1} has the leg ${legs[at]}, which is no wire before it`;
        }
      }
    }
  }
  return null;
}

function inputFault(system: System, wires: readonly InputWire[]): string | null {
  const declared = new Map<number, InputDeclaration>(system.inputs.map((input) => [input.signal, input]));
  const seen = new Map<number, string>();
  for (const { signal, rail, tick } of wires) {
    const input = declared.get(signal);
    const name = system.signals[signal] ?? `number ${signal}`;
    if (input === undefined) return `the network has an input wire for ${name}, which is no input`;
    if ((input.rail === 'high' || input.rail === 'low') && input.rail !== rail) {
      return `the input ${name} is ${spoken(input.rail)}, but the network takes it ${spoken(rail)}`;
    }
    const before = seen.get(signal);
    if (before === rail || (before !== undefined && (input.rail !== 'both' || before === 'both'))) {
      return `the network has more wires for the input ${name} than the outside gives`;
    }
    if (tick !== input.tick) return `the input ${name} arrives at tick ${input.tick}, not ${tick}`;
    seen.set(signal, before === undefined ? rail : 'both');
  }
  return null;
}

function outputFault(system: System, wires: readonly OutputWire[]): DeliveryFault | null {
  const asked = new Map<number, Rail>(system.outputs.map(({ signal, rail }) => [signal, rail]));
  const delivered = new Map<number, Set<string>>();
  for (const { signal, rail } of wires) {
    const name = system.signals[signal] ?? `number ${signal}`;
    const fault = (reason: string): DeliveryFault => ({ reason, output: signal });
    const wanted = asked.get(signal);
    if (wanted === undefined) return fault(`the network delivers ${name}, which is no output`);
    if ((wanted === 'high' || wanted === 'low') && wanted !== rail) {
      return fault(`the output ${name} must be ${spoken(wanted)}, but is delivered ${spoken(rail)}`);
    }
    const rails = delivered.get(signal) ?? new Set();
    if (rails.has(rail) || (rails.size > 0 && wanted !== 'both')) {
      return fault(`the output ${name} is delivered more often than asked for`);
    }
    delivered.set(signal, rails.add(rail));
  }
  for (const [signal, rail] of asked) {
    const count = delivered.get(signal)?.size ?? 0;
    const name = system.signals[signal];
    if (count === 0) return { reason: `the output ${name} is not delivered`, output: signal };
    if (rail === 'both' && count < 2) {
      return { reason: `the output ${name} must be delivered on both rails`, output: signal };
    }
  }
  return null;
}

function spoken(rail: 'high' | 'low'): string {
  return rail === 'high' ? 'active-high' : 'active-low';
}
