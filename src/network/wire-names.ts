// Names of wires, as all printers show them: the constants are `0` and `1`, an input wire has the name of its signal,
// the low rail of an input with two wires says so (`g3_low`), and inverters are numbered `n1, n2, ...`. The names of
// the signals are the reader's own: when one of them looks like a numbered wire, another prefix is taken for all.

import type { Network } from './network.ts';

const PREFIXES = ['n', 'w', 'inv', 'wire'];

/**
 * Name of every wire, by wire number; all different, and none of those given to inverters or low rails is a name of
 * the reader. `signals` are all names of the system, by signal number.
 */
export function wireNames(network: Pick<Network, 'inputs' | 'size'>, signals: readonly string[]): string[] {
  const taken = new Set(signals);
  const rails = new Map<number, number>();
  for (const { signal } of network.inputs) rails.set(signal, (rails.get(signal) ?? 0) + 1);
  const names = ['0', '1'];
  for (const { signal, rail } of network.inputs) {
    let name = signals[signal];
    if (rail === 'low' && (rails.get(signal) ?? 0) > 1) {
      name += '_low';
      while (taken.has(name)) name += '_';
      taken.add(name);
    }
    names.push(name);
  }
  const prefix = inverterPrefix([...taken]);
  for (let i = 1; i <= network.size; i++) names.push(prefix + i);
  return names;
}

/** The first prefix such that no name is that prefix and a number. */
function inverterPrefix(names: readonly string[]): string {
  const heads = new Set(names.map((name) => /^(.*?)\d+$/.exec(name)?.[1]));
  const free = PREFIXES.find((prefix) => !heads.has(prefix));
  if (free !== undefined) return free;
  let prefix = 'n_';
  while (heads.has(prefix)) prefix += '_';
  return prefix;
}
