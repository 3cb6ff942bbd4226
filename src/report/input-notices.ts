// Warnings about inputs that must feed more separate wires than the target lets them.

import { quote } from '../../grammar/quote.ts';
import type { System } from '../equations/system.ts';
import { overfedInputs } from '../network/input-feeds.ts';
import type { Network } from '../network/network.ts';
import type { Diagnostic } from '../source/diagnostic.ts';
import type { Target } from '../target/target.ts';

/** One warning for each input wire that feeds too many separate wires in any of the networks, with the most it feeds. */
export function inputNotices(system: System, networks: readonly Network[], target: Target): Diagnostic[] {
  const { outputs } = target.input;
  const found = new Map<string, { readonly name: string; readonly wires: number }>();
  for (const network of networks) {
    for (const { input, wires } of overfedInputs(network, outputs)) {
      const { signal, rail } = network.inputs[input];
      const isOneOfTwo = network.inputs.some((other) => other.signal === signal && other.rail !== rail);
      const name = quote(system.signals[signal]) + (isOneOfTwo ? ` (active-${rail})` : '');
      if (wires > (found.get(name)?.wires ?? 0)) found.set(name, { name, wires });
    }
  }
  return [...found.values()].map(
    ({ name, wires }): Diagnostic => ({
      severity: 'warning',
      code: 'input-feeds-too-many',
      message: `the input ${name} feeds ${wires} separate wires, and by the target ${target.name} an input can feed ${outputs}`,
      at: null,
      hint: 'bring it in on more wires, or lead it over two inverters, which take their ticks and parts',
    }),
  );
}
