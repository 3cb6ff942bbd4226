// The levels of all wires of a network on the rows of its system: what is compared with the tables of named signals.

import type { System } from '../equations/system.ts';
import type { Network } from '../network/network.ts';
import { simulateWires } from '../network/simulate.ts';
import type { JoinLogic } from '../target/target.ts';
import type { SystemTables } from '../truth/system-tables.ts';
import { inputTable, lastMask, not, type Table, wordsFor } from '../truth/table.ts';

/**
 * Level of every wire, by wire number. The inputs of the network must be inputs of the system, at most MAX_INPUTS unless
 * `given` brings the tables of a sample of rows.
 */
export function wireTables(
  system: System,
  network: Network,
  logic: JoinLogic,
  given: Pick<SystemTables, 'inputs' | 'signals'> | null = null,
): Table[] {
  const inputs = given?.inputs ?? system.inputs.length;
  const indexOf = new Map(system.inputs.map(({ signal }, index) => [signal, index]));
  const levels = network.inputs.map(({ signal, rail }) => {
    const table = given?.signals[signal] ?? inputTable(inputs, indexOf.get(signal) ?? 0);
    return rail === 'high' ? table : not(table, inputs);
  });
  return simulateWires(network, levels, wordsFor(inputs), lastMask(inputs), logic);
}
