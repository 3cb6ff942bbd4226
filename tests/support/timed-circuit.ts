// Circuits for tests of timing: from a text through the search, or as written.

import type { System } from '../../src/equations/system.ts';
import type { Network } from '../../src/network/network.ts';
import { asWrittenDraft, asWrittenNetwork } from '../../src/search/as-written.ts';
import type { Target } from '../../src/target/target.ts';
import type { Circuit } from '../../src/timing/circuit.ts';
import { circuitOfNetwork } from '../../src/timing/circuit-of-network.ts';
import { foundNetwork, search, systemOf, targetOf, taskOf } from './system-of.ts';

export interface Timed {
  readonly system: System;
  readonly network: Network;
  readonly target: Target;
  readonly circuit: Circuit;
  /** Signal of each input. */
  readonly signals: readonly number[];
}

export interface TimedWishes {
  readonly target?: Target;
  readonly ticks?: number | null;
}

export function timed(system: System, network: Network, target: Target): Timed {
  const circuit = circuitOfNetwork(network, system.signals, system.inputs, target);
  return { system, network, target, circuit, signals: system.inputs.map(({ signal }) => signal) };
}

/** The system laid operator by operator. */
export function writtenCircuit(what: string | System, target = targetOf('joined-or')): Timed {
  const system = typeof what === 'string' ? systemOf(what) : what;
  const task = taskOf(system, target);
  return timed(system, asWrittenNetwork(task, asWrittenDraft(system, task)), target);
}

/** The network that the search finds with little effort. */
export function foundCircuit(what: string | System, wishes: TimedWishes = {}): Timed {
  const { target = targetOf('joined-or'), ticks = null } = wishes;
  const searched = search(what, { target, ticks, effort: 'quick' });
  return timed(searched.system, foundNetwork(searched), target);
}

/** An adder of so many bits with a carry in, its carries written one after another. */
export function rippleAdder(bits: number): string {
  const lines = [`output ${Array.from({ length: bits }, (_, i) => `s${i}`).join(', ')}, c${bits}`];
  for (let i = 0; i < bits; i++) {
    lines.push(`p${i} = a${i} ^ b${i}`, `g${i} = a${i} b${i}`);
    lines.push(`s${i} = p${i} ^ c${i}`, `c${i + 1} = g${i} + p${i} c${i}`);
  }
  return lines.join('\n');
}
