// What every network that leaves the search must keep, as one named function: the list of broken laws, in sentences.

import { usableFreedom } from '../../src/equations/free-signals.ts';
import type { System } from '../../src/equations/system.ts';
import { legFaults, networkFaults } from '../../src/network/check-network.ts';
import type { Network } from '../../src/network/network.ts';
import type { Target } from '../../src/target/target.ts';
import {
  allPatterns,
  canHappen,
  expressionValue,
  outputLevels,
  settlingTicks,
  signalValue,
} from './naive-evaluator.ts';

export interface NetworkWishes {
  /** Latest tick allowed for every output. */
  readonly ticks?: number;
  /** Whether the limits on legs and the declared deadlines hold for this network; not so for as-written ones. */
  readonly limits?: boolean;
}

/** Structure, rails, arrival ticks, deadlines, limits on legs, and equality on every pattern that can happen. */
export function brokenLaws(
  system: System,
  network: Network,
  target: Target,
  wishes: NetworkWishes = {},
): string[] {
  const broken = [...networkFaults(network)];
  if (broken.length > 0) return broken;
  const { limits = true } = wishes;
  if (limits) broken.push(...legFaults(network, target));
  broken.push(...brokenRails(system, network), ...brokenFunctions(system, network, target.join.logic));
  const ticks = settlingTicks(network, target.inverter.ticks, target.join.ticks);
  network.outputs.forEach(({ signal }, y) => {
    const name = system.signals[signal];
    const by = system.outputs.find((output) => output.signal === signal)?.by ?? null;
    if (limits && by !== null && ticks[y] > by)
      broken.push(`${name} is there at tick ${ticks[y]}, not by ${by}`);
    if (wishes.ticks !== undefined && ticks[y] > wishes.ticks) {
      broken.push(`${name} is there at tick ${ticks[y]}, later than ${wishes.ticks}`);
    }
  });
  return broken;
}

/** The wires that each declaration allows, as sorted lists of rails. */
const ALLOWED = {
  high: ['high'],
  low: ['low'],
  either: ['high', 'low'],
  both: ['high low'],
} as const;

function brokenRails(system: System, network: Network): string[] {
  const broken: string[] = [];
  const compare = (
    what: string,
    declared: readonly { readonly signal: number; readonly rail: keyof typeof ALLOWED }[],
    wires: readonly { readonly signal: number; readonly rail: string }[],
  ): void => {
    for (const { signal, rail } of declared) {
      const rails = wires
        .filter((wire) => wire.signal === signal)
        .map((wire) => wire.rail)
        .sort()
        .join(' ');
      if (!(ALLOWED[rail] as readonly string[]).includes(rails)) {
        broken.push(`${what} ${system.signals[signal]} was declared ${rail} and has the rails: ${rails}`);
      }
    }
  };
  compare('input', system.inputs, network.inputs);
  compare('output', system.outputs, network.outputs);
  for (const wire of network.inputs) {
    const declared = system.inputs.find((input) => input.signal === wire.signal);
    if (declared?.tick !== wire.tick) broken.push(`${system.signals[wire.signal]} arrives at ${wire.tick}`);
  }
  return broken;
}

/** May the signal have either value on this pattern? */
function isFree(system: System, signal: number, pattern: readonly boolean[]): boolean {
  const free = usableFreedom(system).get(signal) ?? [];
  return free.some((expression) => expressionValue(system, expression, pattern));
}

function brokenFunctions(system: System, network: Network, logic: 'or' | 'and'): string[] {
  for (const pattern of allPatterns(system.inputs.length)) {
    if (!canHappen(system, pattern)) continue;
    const inputs = network.inputs.map(({ signal, rail }) => {
      const value = pattern[system.inputs.findIndex((input) => input.signal === signal)];
      return rail === 'high' ? value : !value;
    });
    const levels = outputLevels(network, inputs, logic);
    for (let y = 0; y < levels.length; y++) {
      const { signal, rail } = network.outputs[y];
      if (isFree(system, signal, pattern)) continue;
      const wanted = signalValue(system, signal, pattern) === (rail === 'high');
      if (levels[y] !== wanted) {
        const text = system.inputs.map((input, i) => `${system.signals[input.signal]}=${pattern[i] ? 1 : 0}`);
        return [`${system.signals[signal]} (${rail}) is ${levels[y] ? 1 : 0} on ${text.join(' ')}`];
      }
    }
  }
  return [];
}
