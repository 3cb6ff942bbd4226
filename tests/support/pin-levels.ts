// Levels of the output pins of a network from the levels of its input pins: nothing is known of rails but the names.

import type { System } from '../../src/equations/system.ts';
import type { Network } from '../../src/network/network.ts';

/** `pins` holds the level of the wire of every input, by name; HIGH is true. Joins compute OR. */
export function networkLevels(
  system: System,
  network: Network,
  pins: Readonly<Record<string, boolean>>,
): Record<string, boolean> {
  const level: boolean[] = [false, true, ...network.inputs.map(({ signal }) => pins[system.signals[signal]])];
  const any = (legs: Int32Array): boolean => [...legs].some((leg) => level[leg]);
  for (let i = 0; i < network.size; i++) {
    level.push(!any(network.legs.subarray(network.legStart[i], network.legStart[i + 1])));
  }
  return Object.fromEntries(
    network.outputs.map(({ signal }, y) => [
      system.signals[signal],
      any(network.outputLegs.subarray(network.outputStart[y], network.outputStart[y + 1])),
    ]),
  );
}
