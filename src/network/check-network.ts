// The invariants of a network, executable. `networkFaults` says what is wrong with the structure itself, whatever it is
// for; `legFaults` what a target does not allow. Both return sentences that name inverters and outputs by number
// (from 1) and wires by wire number; an empty list means that all is well.
//
// Deliberately absent: whether the network computes what it should (src/proof), whether equal inverters were merged or
// unused ones dropped (tidyNetwork does so; an as-written network keeps its doubles on purpose).

import type { Target } from '../target/target.ts';
import { FIRST_INPUT, firstInverter, type Network } from './network.ts';

/** Every broken invariant of network.ts. */
export function networkFaults(network: Network): string[] {
  const faults: string[] = [];
  const { inputs, outputs, size } = network;
  wireFaults('input', inputs, faults);
  wireFaults('output', outputs, faults);
  inputs.forEach(({ tick }, i) => {
    if (!Number.isInteger(tick) || tick < 0) faults.push(`input ${i + 1} has the tick ${tick}`);
  });
  if (!Number.isInteger(size) || size < 0) return [...faults, `the number of inverters is ${size}`];
  const first = firstInverter(network);
  const { legStart, legs, outputStart, outputLegs } = network;
  sectionFaults('inverter', size, legStart, legs, (i) => first + i, faults);
  sectionFaults('output', outputs.length, outputStart, outputLegs, () => first + size, faults);
  return faults;
}

/** What the target does not allow: too many legs, a join where none can be. */
export function legFaults(network: Network, target: Target): string[] {
  const faults: string[] = [];
  const { join, inverter } = target;
  const check = (what: string, i: number, start: Int32Array, most: number | null): void => {
    const count = start[i + 1] - start[i];
    if (most !== null && count > most) {
      faults.push(`${what} ${i + 1} has ${count} legs, the target ${target.name} allows ${most}`);
    }
  };
  for (let i = 0; i < network.size; i++) check('inverter', i, network.legStart, inverter.maxLegs);
  for (let y = 0; y < network.outputs.length; y++) {
    const count = network.outputStart[y + 1] - network.outputStart[y];
    if (join.where === 'anywhere') check('output', y, network.outputStart, join.maxLegs);
    else if (count > 1) {
      faults.push(
        `output ${y + 1} joins ${count} legs, the target ${target.name} joins wires at inverters only`,
      );
    }
  }
  return faults;
}

/** A signal may have one wire on each rail. */
function wireFaults(
  what: string,
  wires: readonly { readonly signal: number; readonly rail: string }[],
  faults: string[],
): void {
  const seen = new Set<string>();
  wires.forEach(({ signal, rail }, i) => {
    if (!Number.isInteger(signal) || signal < 0) faults.push(`${what} ${i + 1} has the signal ${signal}`);
    if (rail !== 'high' && rail !== 'low') faults.push(`${what} ${i + 1} has the rail ${rail}`);
    const key = `${signal} ${rail}`;
    if (seen.has(key)) faults.push(`${what} ${i + 1} is there twice: signal ${signal} on the ${rail} rail`);
    seen.add(key);
  });
}

/** Checks one packed list of legs; `limit(i)` is the first wire number that reader `i` may not have as a leg. */
function sectionFaults(
  what: string,
  count: number,
  start: Int32Array,
  legs: Int32Array,
  limit: (i: number) => number,
  faults: string[],
): void {
  if (start.length !== count + 1) {
    faults.push(`there are ${start.length} offsets for the legs of ${count} ${what}s`);
    return;
  }
  if (start[0] !== 0) faults.push(`the legs of the ${what}s start at ${start[0]}`);
  if (start[count] !== legs.length) {
    faults.push(`the legs of the ${what}s end at ${start[count]}, but ${legs.length} are there`);
  }
  for (let i = 0; i < count; i++) {
    const [from, to] = [start[i], Math.min(start[i + 1], legs.length)];
    if (to <= from) faults.push(`${what} ${i + 1} has no legs`);
    for (let at = from; at < to; at++) {
      const leg = legs[at];
      if (leg < 0) faults.push(`${what} ${i + 1} has the leg ${leg}`);
      if (leg >= limit(i)) faults.push(`${what} ${i + 1} has the leg ${leg}, which does not stand before it`);
      if (at > from && leg <= legs[at - 1]) {
        faults.push(`the legs of ${what} ${i + 1} are not ascending: ${legs[at - 1]}, ${leg}`);
      }
      if (leg >= 0 && leg < FIRST_INPUT && to - from > 1) {
        faults.push(`${what} ${i + 1} has the constant ${leg} beside other legs`);
      }
    }
  }
}
