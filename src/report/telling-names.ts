// Names of inverters that tell what they are for: the signal that the wire carries, or else the nearest output that it
// serves, and the tick at which it settles, `c4_1a`, `c4_1b`, `c4_2`. Numbered names are shorter; these say more when a
// netlist or a label on a wire is all there is. They depend on the network alone, so the same network has the same names,
// and none of them is a name of the reader.

import type { Point, Result } from './result.ts';

/** `a` to `z`, then `aa` and so on. */
function letters(at: number): string {
  let rest = at;
  let word = '';
  do {
    word = String.fromCharCode(97 + (rest % 26)) + word;
    rest = Math.floor(rest / 26) - 1;
  } while (rest >= 0);
  return word;
}

/** The signal that every inverter stands for, by wire: carried where there is one, else served. */
function subjects({ network, rails }: Point): Map<string, string> {
  const found = new Map<string, string>();
  for (const { signal, rail, wires } of rails)
    if ((rail === 'high' || rail === 'low') && wires.length === 1 && !found.has(wires[0]))
      found.set(wires[0], signal);
  // Outputs spread backwards, one step a round, the first output first: what is reached sooner is served more closely.
  const legsOf = new Map(network.inverters.map(({ wire, legs }) => [wire, legs]));
  const served = new Map<string, string>();
  let front = network.outputs.flatMap(({ name, legs }) => legs.map((wire) => ({ wire, name })));
  while (front.length > 0) {
    const next: typeof front = [];
    for (const { wire, name } of front) {
      const legs = legsOf.get(wire);
      if (legs === undefined || served.has(wire)) continue;
      served.set(wire, name);
      next.push(...legs.map((leg) => ({ wire: leg, name })));
    }
    front = next;
  }
  for (const [wire, name] of served) if (!found.has(wire)) found.set(wire, name);
  return found;
}

function renamed(point: Point): Point {
  const { network } = point;
  const taken = new Set(['0', '1']);
  for (const { name, wire } of network.inputs) taken.add(name).add(wire);
  for (const { name } of network.outputs) taken.add(name);
  for (const { signal } of point.rails) taken.add(signal);
  const subject = subjects(point);
  const groups = new Map<string, string[]>();
  for (const { wire, tick } of network.inverters) {
    const base = (subject.get(wire) ?? 'spare').replace(/[^\p{L}\p{N}_]/gu, '');
    const key = `${base === '' ? 'wire' : base}_${tick}`;
    groups.set(key, [...(groups.get(key) ?? []), wire]);
  }
  const names = new Map<string, string>();
  for (const [key, wires] of groups) {
    wires.forEach((wire, at) => {
      let name = wires.length === 1 ? key : key + letters(at);
      while (taken.has(name)) name += '_';
      taken.add(name);
      names.set(wire, name);
    });
  }
  const now = (wire: string): string => names.get(wire) ?? wire;
  // Numbered names begin with what no name of the reader begins with, so they can be found in a text.
  const words = (text: string): string => text.replace(/[\p{L}_][\p{L}\p{N}_]*/gu, now);
  const meaning = (said: string | undefined): { meaning?: string } =>
    said === undefined ? {} : { meaning: words(said) };
  return {
    ...point,
    rails: point.rails.map((rail) => ({ ...rail, wires: rail.wires.map(now) })),
    network: {
      inputs: network.inputs,
      inverters: network.inverters.map(({ wire, legs, tick, copyOf, meaning: said }) => ({
        wire: now(wire),
        legs: legs.map(now),
        tick,
        ...(copyOf === undefined ? {} : { copyOf: now(copyOf) }),
        ...meaning(said),
      })),
      outputs: network.outputs.map((output) => ({
        ...output,
        legs: output.legs.map(now),
        ...meaning(output.meaning),
      })),
    },
  };
}

/** The result with telling names. */
export function withTellingNames(result: Result): Result {
  return { ...result, points: result.points.map(renamed) };
}
