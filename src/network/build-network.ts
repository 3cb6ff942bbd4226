// Makes networks from plain lists, and tidies them: constants folded, legs sorted and without doubles, inverters with
// the same legs merged, inverters that reach no output dropped, the rest numbered by tick. Tidying never changes a
// function and never adds a tick or a part.

import {
  FIRST_INPUT,
  firstInverter,
  type InputWire,
  type Network,
  ONE,
  type OutputWire,
  ZERO,
} from './network.ts';

/** Packs lists of legs. `inverters[i]` holds the legs of inverter `i`, all of them smaller wire numbers. */
export function packNetwork(
  inputs: readonly InputWire[],
  outputs: readonly OutputWire[],
  inverters: readonly (readonly number[])[],
  outputJoins: readonly (readonly number[])[],
): Network {
  const [legStart, legs] = pack(inverters);
  const [outputStart, outputLegs] = pack(outputJoins);
  return { inputs, outputs, size: inverters.length, legStart, legs, outputStart, outputLegs };
}

/** The legs of inverter `index` (0 for the first inverter). */
export function legsOf(network: Network, index: number): Int32Array {
  return network.legs.subarray(network.legStart[index], network.legStart[index + 1]);
}

/** The legs of the join of output `index`. */
export function outputLegsOf(network: Network, index: number): Int32Array {
  return network.outputLegs.subarray(network.outputStart[index], network.outputStart[index + 1]);
}

/** See the head of this file. The result is the same for networks that differ in numbering alone of equal inverters. */
export function tidyNetwork(
  inputs: readonly InputWire[],
  outputs: readonly OutputWire[],
  inverters: readonly (readonly number[])[],
  outputJoins: readonly (readonly number[])[],
): Network {
  const first = firstInverter({ inputs });
  // 1. Fold constants and merge equal inverters, in order. `now[w]` is what wire w has become.
  const now: number[] = [];
  const depth: number[] = [];
  for (let w = 0; w < first; w++) {
    now.push(w);
    depth.push(w < FIRST_INPUT ? 0 : inputs[w - FIRST_INPUT].tick);
  }
  const kept: number[][] = [];
  const known = new Map<string, number>();
  inverters.forEach((legs) => {
    const clean = cleanLegs(legs.map((leg) => now[leg]));
    if (clean.includes(ONE)) now.push(ZERO);
    else if (clean.length === 0) now.push(ONE);
    else {
      const key = clean.join(' ');
      let wire = known.get(key);
      if (wire === undefined) {
        wire = first + kept.length;
        known.set(key, wire);
        kept.push(clean);
        depth.push(1 + Math.max(...clean.map((leg) => depth[leg])));
      }
      now.push(wire);
    }
  });
  const joins = outputJoins.map((legs) => {
    const clean = cleanLegs(legs.map((leg) => now[leg]));
    return clean.includes(ONE) ? [ONE] : clean.length === 0 ? [ZERO] : clean;
  });
  // 2. Keep what reaches an output.
  const used = new Uint8Array(first + kept.length);
  for (const legs of joins) for (const leg of legs) used[leg] = 1;
  for (let i = kept.length - 1; i >= 0; i--)
    if (used[first + i] === 1) for (const leg of kept[i]) used[leg] = 1;
  // 3. Number by tick; within a tick by the legs as they are numbered then.
  const final = new Int32Array(first + kept.length);
  for (let w = 0; w < first; w++) final[w] = w;
  const alive = kept.map((_, i) => i).filter((i) => used[first + i] === 1);
  alive.sort((a, b) => depth[first + a] - depth[first + b] || a - b);
  const ordered: number[][] = [];
  for (let from = 0; from < alive.length; ) {
    let to = from;
    while (to < alive.length && depth[first + alive[to]] === depth[first + alive[from]]) to++;
    const layer = alive
      .slice(from, to)
      .map((i) => ({ i, legs: kept[i].map((leg) => final[leg]).sort((a, b) => a - b) }));
    layer.sort((a, b) => compareLegs(a.legs, b.legs));
    for (const { i, legs } of layer) {
      final[first + i] = first + ordered.length;
      ordered.push(legs);
    }
    from = to;
  }
  return packNetwork(
    inputs,
    outputs,
    ordered,
    joins.map((legs) => legs.map((leg) => final[leg]).sort((a, b) => a - b)),
  );
}

/** Number of legs of all inverters and of all joins of two or more at the outputs. */
export function countLegs(network: Network): number {
  let count = network.legs.length;
  for (let y = 0; y < network.outputs.length; y++) {
    const legs = network.outputStart[y + 1] - network.outputStart[y];
    if (legs > 1) count += legs;
  }
  return count;
}

function compareLegs(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < a.length && i < b.length; i++) if (a[i] !== b[i]) return a[i] - b[i];
  return a.length - b.length;
}

function cleanLegs(legs: readonly number[]): number[] {
  return [...new Set(legs)].filter((leg) => leg !== ZERO).sort((a, b) => a - b);
}

function pack(lists: readonly (readonly number[])[]): [Int32Array, Int32Array] {
  const start = new Int32Array(lists.length + 1);
  for (let i = 0; i < lists.length; i++) start[i + 1] = start[i] + lists[i].length;
  const packed = new Int32Array(start[lists.length]);
  lists.forEach((list, i) => {
    packed.set(list, start[i]);
  });
  return [start, packed];
}
