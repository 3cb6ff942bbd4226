// Which wires of a simulation are shown, and under which names.

import type { Circuit } from '../timing/circuit.ts';

export interface WatchedWire {
  readonly label: string;
  readonly wire: number;
}

/** Inputs, then what is in between when `inside` says so, then outputs. Each wire under its name, outputs under theirs. */
export function watchedWires(circuit: Circuit, inside: boolean): WatchedWire[] {
  const { kinds, names, outputs, inputs, source, inverted } = circuit;
  const all = names.map((label, wire) => ({ label, wire }));
  const isOutput = new Set(outputs.map(({ wire }) => wire));
  const outputNames = new Set(outputs.map(({ name }) => name));
  const shown = all.filter(({ wire }) => {
    if (kinds[wire] === 'input') return true;
    if (!inside || kinds[wire] === 'constant') return false;
    return !(isOutput.has(wire) && (kinds[wire] === 'join' || outputNames.has(names[wire])));
  });
  const twice = new Set(
    outputs.flatMap(({ name }, y) =>
      outputs.some((other, z) => z < y && other.name === name) ? [name] : [],
    ),
  );
  const label = ({ wire }: WatchedWire): string => {
    const [input, name] = [inputs[source[wire]]?.name, names[wire]];
    // On a wire whose name does not say so, the level is the complement of the input.
    return kinds[wire] === 'input' && inverted[wire] === 1 && input === name ? `${name} (low)` : name;
  };
  return [
    ...shown.map((watched) => ({ ...watched, label: label(watched) })),
    ...outputs
      .filter(({ wire, name }) => !(kinds[wire] === 'input' && names[wire] === name))
      .map(({ name, rail, wire }) => ({
        label: rail === 'low' ? `${name} (low)` : twice.has(name) ? `${name} (high)` : name,
        wire,
      })),
  ];
}
