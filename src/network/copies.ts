// Separate wires and copies: what it takes to build a network when an inverter can feed only so many separate wires.
//
// A join ties its legs for good: a wire that stands in a join is that OR wherever it goes on to. So a driver needs one
// separate wire for each different join of two or more legs that it stands in, and one more if it is used alone
// anywhere (all places where it is used alone share that one). The legs of one inverter are separate inputs and tie
// nothing; an inverter whose legs include a whole join takes that join as one leg, and its drivers are not used alone
// there. Where a driver needs more separate wires than an inverter has outputs, further inverters with the same legs
// are built: copies. They settle at the same tick and feed on the same wires, so nothing else changes.

import { legsOf, outputLegsOf } from './build-network.ts';
import { firstInverter, type Network } from './network.ts';

/** The different joins of two or more legs that go outside. */
export interface LaidJoins {
  /** Legs of each, ascending. */
  readonly joins: readonly (readonly number[])[];
  /** By output: index into `joins`, or -1 where the output is a single wire. */
  readonly ofOutput: readonly number[];
  /** By inverter: the joins that it takes as one leg each. */
  readonly taken: readonly (readonly number[])[];
}

/** Equal leg sets are laid once. */
export function laidJoins(network: Network): LaidJoins {
  const joins: number[][] = [];
  const indexOf = new Map<string, number>();
  const ofOutput = network.outputs.map((_, y) => {
    const legs = [...outputLegsOf(network, y)];
    if (legs.length < 2) return -1;
    const key = legs.join(' ');
    const known = indexOf.get(key) ?? joins.length;
    if (known === joins.length) {
      joins.push(legs);
      indexOf.set(key, known);
    }
    return known;
  });
  const byFirst = new Map<number, number[]>();
  joins.forEach(([first], n) => {
    byFirst.set(first, [...(byFirst.get(first) ?? []), n]);
  });
  const taken = Array.from({ length: network.size }, (_, i) => {
    const legs = legsOf(network, i);
    const near = Array.from(legs).flatMap((leg) => byFirst.get(leg) ?? []);
    if (near.length === 0) return near;
    const own = new Set(legs);
    return near.filter((n) => joins[n].every((leg) => own.has(leg))).sort((a, b) => a - b);
  });
  return { joins, ofOutput, taken };
}

/** What leaves a driver: the joins it stands in, and whether it is used alone somewhere. */
export interface SeparateWires {
  readonly joins: readonly number[];
  readonly alone: boolean;
}

/** The separate wires of every wire, by wire number. */
export function separateWires(network: Network, laid = laidJoins(network)): SeparateWires[] {
  const wires = firstInverter(network) + network.size;
  const joins: number[][] = Array.from({ length: wires }, () => []);
  const alone: boolean[] = new Array(wires).fill(false);
  laid.joins.forEach((legs, n) => {
    for (const leg of legs) joins[leg].push(n);
  });
  network.outputs.forEach((_, y) => {
    if (laid.ofOutput[y] < 0) alone[outputLegsOf(network, y)[0]] = true;
  });
  for (let i = 0; i < network.size; i++) {
    const covered = new Set(laid.taken[i].flatMap((n) => laid.joins[n]));
    for (const leg of legsOf(network, i)) if (!covered.has(leg)) alone[leg] = true;
  }
  return joins.map((list, wire) => ({ joins: list, alone: alone[wire] }));
}

/** Copies that each inverter needs when it has `outputs` outputs (null for any number). */
export function copiesOf(network: Network, outputs: number | null): number[] {
  const copies: number[] = new Array(network.size).fill(0);
  if (outputs === null) return copies;
  const first = firstInverter(network);
  const separate = separateWires(network);
  for (let i = 0; i < network.size; i++) {
    const { joins, alone } = separate[first + i];
    const wires = joins.length + (alone ? 1 : 0);
    copies[i] = Math.max(0, Math.ceil(wires / outputs) - 1);
  }
  return copies;
}

/** All copies together. */
export function countCopies(network: Network, outputs: number | null): number {
  return copiesOf(network, outputs).reduce((sum, count) => sum + count, 0);
}
