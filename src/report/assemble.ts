// From what the search and the prover say to the plain result of the contract (result.schema.json).

import type { System } from '../equations/system.ts';
import { countLegs, legsOf, outputLegsOf } from '../network/build-network.ts';
import { copiesOf, countCopies, laidJoins, type SeparateWires, separateWires } from '../network/copies.ts';
import { outputTicks, tickCosts, wireTicks } from '../network/levels.ts';
import { FIRST_INPUT, firstInverter, type Network } from '../network/network.ts';
import { wireNames } from '../network/wire-names.ts';
import type { Verdict } from '../proof/verdict.ts';
import type { Target } from '../target/target.ts';
import type { SystemTables } from '../truth/system-tables.ts';
import { type Meanings, meaningsOf } from './meaning.ts';
import type { NetworkInverter, Point, Proof, Result, WireNetwork } from './result.ts';
import { signalRails } from './signal-rails.ts';

/** The options that a result states. */
export interface StatedOptions {
  readonly target: Target;
  readonly effort: Result['effort'];
  readonly seed: number;
  readonly version: string;
}

/** The result of a source before anything is known about it. */
export function emptyResult(source: string, options: StatedOptions): Result {
  const { target, effort, seed, version } = options;
  return {
    format: 'tickwright.result/1',
    version,
    source,
    target: target.name,
    ...(target.join.logic === 'and' ? { join: 'and' } : {}),
    effort,
    seed,
    stop: 'faults',
    asWritten: null,
    fastest: null,
    points: [],
    notices: [],
  };
}

export interface Answer {
  readonly network: Network;
  readonly ticks: number;
  readonly ticksProved: boolean;
  readonly sizeProved: boolean;
  /** Every one of so many sets of outputs is proved smallest. */
  readonly provedApart?: number;
}

export interface PointParts {
  readonly system: System;
  /** Null when the system is too wide for tables: then no meanings are told. */
  readonly tables: SystemTables | null;
  readonly target: Target;
  readonly answer: Answer;
  readonly verdict: Verdict;
  readonly explain: boolean;
}

/** One point of the frontier as the contract shows it. */
export function pointOf({ system, tables, target, answer, verdict, explain }: PointParts): Point {
  const { network } = answer;
  const copies = countCopies(network, target.inverter.outputs);
  const names = wireNames(network, system.signals);
  const meanings =
    explain && tables !== null ? meaningsOf(system, tables, network, target.join.logic, names) : null;
  return {
    ticks: answer.ticks,
    parts: (network.size + copies) * target.inverter.parts,
    copies,
    legs: countLegs(network),
    ticksProved: answer.ticksProved,
    partsProved: answer.sizeProved,
    ...(answer.provedApart === undefined ? {} : { provedApart: answer.provedApart }),
    network: namedNetwork(system, network, target, names, meanings),
    proof: proofOf(verdict),
    rails: signalRails(system, tables, network, target).map(({ signal, rail, wires, lowWires, tick }) => ({
      signal: system.signals[signal],
      rail,
      wires: wires.map((wire) => names[wire]),
      ...(rail === 'both' || rail === 'split' ? { lowWires: lowWires.map((wire) => names[wire]) } : {}),
      tick,
    })),
  };
}

function namedNetwork(
  system: System,
  network: Network,
  target: Target,
  names: readonly string[],
  meanings: Meanings | null,
): WireNetwork {
  const costs = tickCosts(target);
  const ticks = wireTicks(network, costs);
  const outputs = outputTicks(network, costs, ticks);
  const first = firstInverter(network);
  const laid = laidJoins(network);
  const copies = new CopyPlan(network, target.inverter.outputs, names);
  const inverters = Array.from({ length: network.size }, (_, i): NetworkInverter[] => {
    const { taken } = laid;
    const legs = Array.from(legsOf(network, i), (leg) => copies.nameFor(leg, taken[i], laid.joins));
    const meaning = meanings === null ? {} : { meaning: meanings.inverters[i] };
    const made = { wire: names[first + i], legs, tick: ticks[first + i], ...meaning };
    const original = { ...made, ...copies.separateOf(first + i) };
    return [original, ...copies.of(first + i).map((wire) => ({ ...made, wire, copyOf: made.wire }))];
  });
  return {
    inputs: network.inputs.map(({ signal, rail, tick }, i) => ({
      name: system.signals[signal],
      rail,
      wire: names[FIRST_INPUT + i],
      tick,
      ...copies.separateOf(FIRST_INPUT + i),
    })),
    inverters: inverters.flat(),
    outputs: network.outputs.map(({ signal, rail }, y) => ({
      name: system.signals[signal],
      rail,
      legs: Array.from(outputLegsOf(network, y), (leg) =>
        copies.nameFor(leg, laid.ofOutput[y] < 0 ? [] : [laid.ofOutput[y]], laid.joins),
      ),
      tick: outputs[y],
      ...(meanings === null ? {} : { meaning: meanings.outputs[y] }),
    })),
  };
}

/** Which copy of an inverter feeds which of its separate wires. */
class CopyPlan {
  private readonly names: readonly string[];
  private readonly outputs: number;
  private readonly copies = new Map<number, string[]>();
  private readonly separate: readonly SeparateWires[];

  constructor(network: Network, outputs: number | null, names: readonly string[]) {
    this.names = names;
    this.outputs = outputs ?? Number.POSITIVE_INFINITY;
    this.separate = separateWires(network);
    const taken = new Set(names);
    copiesOf(network, outputs).forEach((count, i) => {
      const wire = firstInverter(network) + i;
      const list: string[] = [];
      for (let n = 0; n < count; n++) {
        let name = `${names[wire]}_${n + 2}`;
        while (taken.has(name)) name += '_';
        taken.add(name);
        list.push(name);
      }
      this.copies.set(wire, list);
    });
  }

  /** Names of the copies of a wire, the original left out. */
  of(wire: number): readonly string[] {
    return this.copies.get(wire) ?? [];
  }

  /** How many separate wires leave a driver, where that is more than one and no copies share them. */
  separateOf(wire: number): { readonly separate?: number } {
    const { joins, alone } = this.separate[wire];
    const count = joins.length + (alone ? 1 : 0);
    return count > 1 && this.of(wire).length === 0 ? { separate: count } : {};
  }

  /** The name under which a user that takes the given joins whole sees a wire. */
  nameFor(wire: number, joins: readonly number[], laid: readonly (readonly number[])[]): string {
    const copies = this.of(wire);
    if (copies.length === 0) return this.names[wire];
    const join = joins.find((n) => laid[n].includes(wire));
    const { joins: stands, alone } = this.separate[wire];
    const place = join === undefined ? 0 : stands.indexOf(join) + (alone ? 1 : 0);
    const copy = Math.floor(place / this.outputs);
    return copy === 0 ? this.names[wire] : copies[copy - 1];
  }
}

function proofOf({ verdict, method, patterns, counterexample }: Verdict): Proof {
  return {
    verdict,
    method,
    ...(patterns === null ? {} : { patterns }),
    ...(counterexample === undefined ? {} : { counterexample }),
  };
}
