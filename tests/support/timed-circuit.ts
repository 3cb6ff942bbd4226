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

/** A multiplier of two numbers of so many bits, a row of adders for each bit: full of ways that nothing takes. */
export function arrayMultiplier(bits: number): string {
  const lines: string[] = [];
  const outputs: string[] = [];
  for (let i = 0; i < bits; i++) for (let j = 0; j < bits; j++) lines.push(`m${i}_${j} = a${i} b${j}`);
  let row = Array.from({ length: bits }, (_, j) => `m0_${j}`);
  let top = '0';
  outputs.push(row[0]);
  for (let i = 1; i < bits; i++) {
    let carry = '0';
    const next: string[] = [];
    for (let j = 0; j < bits; j++) {
      const above = j + 1 < bits ? row[j + 1] : top;
      lines.push(`t${i}_${j} = ${above} ^ m${i}_${j}`, `u${i}_${j} = t${i}_${j} ^ ${carry}`);
      lines.push(`k${i}_${j} = ${above} m${i}_${j} + t${i}_${j} ${carry}`);
      next.push(`u${i}_${j}`);
      carry = `k${i}_${j}`;
    }
    row = next;
    top = carry;
    outputs.push(row[0]);
  }
  return [`output ${[...outputs, ...row.slice(1), top].join(', ')}`, ...lines].join('\n');
}
