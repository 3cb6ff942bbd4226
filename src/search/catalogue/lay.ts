// From a set of tables to a network: which legs every inverter gets.
//
// A wire may be a leg of an inverter when the two are never 1 together; the legs of an inverter must cover all rows
// where it is 0. Any such choice gives the same tables. The fewest legs are taken, by trying covers of one leg, two legs
// and so on, and among those the wires that come first. Every inverter keeps the earliest tick that the set allows.

import { INPUT_TABLES } from '../../truth/permutation-classes.ts';

/** A network of four inputs and one output. Wire 0 to 3 are the inputs, wire 4 + i is inverter i; legs are bit masks. */
export interface SmallNetwork {
  /** By inverter; only wires before it are legs. */
  readonly legs: readonly number[];
  /** The join that is the output; never empty, but for constants: constant 0 has no legs, constant 1 is null. */
  readonly output: number | null;
}

/** Tables of all wires of a network, the four inputs first. */
export function wireTables(network: SmallNetwork): number[] {
  const tables = [...INPUT_TABLES];
  for (const legs of network.legs) tables.push(~joinOf(tables, legs) & 0xffff);
  return tables;
}

/** Table of the output. */
export function outputTable(network: SmallNetwork): number {
  return network.output === null ? 0xffff : joinOf(wireTables(network), network.output);
}

/** Most inverters between input `i` and the output, by input; -1 where there is no path. */
export function delays(network: SmallNetwork): number[] {
  const from: number[][] = [0, 1, 2, 3].map((input) => [0, 1, 2, 3].map((wire) => (wire === input ? 0 : -1)));
  for (const legs of network.legs)
    for (const path of from) path.push(longest(path, legs) < 0 ? -1 : longest(path, legs) + 1);
  return from.map((path) => longest(path, network.output ?? 0));
}

/** Ticks of a network: its most delayed input, or of its inverters without any input, none. */
export function ticksOf(network: SmallNetwork): number {
  return Math.max(0, ...delays(network));
}

/** A network of a representative, as a network of the function: legs are masks over the inputs of the function. */
export function renameInputs(network: SmallNetwork, order: readonly number[]): SmallNetwork {
  const rename = (legs: number): number => {
    let renamed = legs & ~15;
    for (let i = 0; i < 4; i++) if ((legs >> i) & 1) renamed |= 1 << order[i];
    return renamed;
  };
  return {
    legs: network.legs.map(rename),
    output: network.output === null ? null : rename(network.output),
  };
}

/**
 * The network without legs on inputs that the function does not depend on: those inputs held at 0. In a smallest network
 * no inverter loses its last leg that way, for then it could go.
 */
export function withoutIdleInputs(network: SmallNetwork, table: number): SmallNetwork {
  let idle = 0;
  for (let i = 0; i < INPUT_TABLES.length; i++) {
    const high = INPUT_TABLES[i];
    if ((table & high) >>> (1 << i) === (table & ~high)) idle |= 1 << i;
  }
  return {
    legs: network.legs.map((legs) => legs & ~idle),
    output: network.output === null ? null : network.output & ~idle,
  };
}

function longest(path: readonly number[], legs: number): number {
  let most = -1;
  for (let w = 0; w < path.length; w++) if ((legs >> w) & 1) most = Math.max(most, path[w]);
  return most;
}

function joinOf(tables: readonly number[], legs: number): number {
  let join = 0;
  for (let w = 0; w < tables.length; w++) if ((legs >> w) & 1) join |= tables[w];
  return join;
}

/**
 * The network of the function that has exactly these inverters, with the fewest legs for each, or null when the tables
 * do not make it by that tick.
 *
 * @param inverters tables, in any order.
 * @param arrivals tick of each input.
 */
export function layNetwork(
  table: number,
  ticks: number,
  inverters: readonly number[],
  arrivals: readonly number[] = [0, 0, 0, 0],
): SmallNetwork | null {
  if (table === 0xffff) return { legs: [], output: null };
  const wires = [...INPUT_TABLES];
  const legs: number[] = [];
  // Wires that have settled, as a mask.
  let there = 0;
  const waiting = new Set([...inverters].sort((a, b) => a - b));
  for (let tick = 0; tick <= ticks; tick++) {
    const settled: number[] = [];
    for (const inverter of waiting) {
      const cover = smallestCover(wires, there, ~inverter & 0xffff, inverter);
      if (cover === null) continue;
      settled.push(inverter);
      legs.push(cover);
    }
    for (const inverter of settled) {
      waiting.delete(inverter);
      there |= 1 << wires.length;
      wires.push(inverter);
    }
    for (let i = 0; i < arrivals.length; i++) if (arrivals[i] === tick) there |= 1 << i;
  }
  const output = smallestCover(wires, there, table, ~table & 0xffff);
  return output === null || waiting.size > 0 ? null : { legs, output };
}

/** The fewest wires, of those allowed, that are 1 nowhere in `off` and together everywhere in `on`; null: there are none. */
function smallestCover(wires: readonly number[], allowed: number, on: number, off: number): number | null {
  const able: number[] = [];
  let all = 0;
  wires.forEach((wire, w) => {
    if (((allowed >> w) & 1) === 0 || (wire & off) !== 0 || (wire & on) === 0) return;
    able.push(w);
    all |= wire;
  });
  if ((on & ~all) !== 0) return null;
  const pick = (rest: number, from: number, count: number): number | null => {
    if (rest === 0) return 0;
    if (count === 0) return null;
    for (let i = from; i < able.length; i++) {
      if ((wires[able[i]] & rest) === 0) continue;
      const more = pick(rest & ~wires[able[i]], i + 1, count - 1);
      if (more !== null) return more | (1 << able[i]);
    }
    return null;
  };
  for (let count = 0; ; count++) {
    const cover = pick(on, 0, count);
    if (cover !== null) return cover;
  }
}
