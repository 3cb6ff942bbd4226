// From what the search and the prover say to the plain result of the contract (result.schema.json).

import type { System } from '../equations/system.ts';
import { countLegs, legsOf, outputLegsOf } from '../network/build-network.ts';
import { outputTicks, wireTicks } from '../network/levels.ts';
import { FIRST_INPUT, firstInverter, type Network } from '../network/network.ts';
import { wireNames } from '../network/wire-names.ts';
import { railsReport } from '../polarity/rails.ts';
import type { Verdict } from '../proof/verdict.ts';
import type { Target } from '../target/target.ts';
import type { SystemTables } from '../truth/system-tables.ts';
import { type Meanings, meaningsOf } from './meaning.ts';
import type { Point, Proof, Result, WireNetwork } from './result.ts';

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
}

export interface PointParts {
  readonly system: System;
  readonly tables: SystemTables;
  readonly target: Target;
  readonly answer: Answer;
  readonly verdict: Verdict;
  readonly explain: boolean;
}

/** One point of the frontier as the contract shows it. */
export function pointOf({ system, tables, target, answer, verdict, explain }: PointParts): Point {
  const { network } = answer;
  const names = wireNames(network, system.signals);
  const meanings = explain ? meaningsOf(system, tables, network, target.join.logic, names) : null;
  return {
    ticks: answer.ticks,
    parts: network.size * target.inverter.parts,
    copies: 0,
    legs: countLegs(network),
    ticksProved: answer.ticksProved,
    partsProved: answer.sizeProved,
    network: namedNetwork(system, network, target, names, meanings),
    proof: proofOf(verdict),
    rails: railsReport(system, tables, network, target).map(({ signal, rail, wires, tick }) => ({
      signal: system.signals[signal],
      rail,
      wires: wires.map((wire) => names[wire]),
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
  const costs = { joinTicks: target.join.ticks, inverterTicks: target.inverter.ticks };
  const ticks = wireTicks(network, costs);
  const outputs = outputTicks(network, costs, ticks);
  const first = firstInverter(network);
  const named = (legs: Int32Array): string[] => Array.from(legs, (leg) => names[leg]);
  return {
    inputs: network.inputs.map(({ signal, rail, tick }, i) => ({
      name: system.signals[signal],
      rail,
      wire: names[FIRST_INPUT + i],
      tick,
    })),
    inverters: Array.from({ length: network.size }, (_, i) => ({
      wire: names[first + i],
      legs: named(legsOf(network, i)),
      tick: ticks[first + i],
      ...(meanings === null ? {} : { meaning: meanings.inverters[i] }),
    })),
    outputs: network.outputs.map(({ signal, rail }, y) => ({
      name: system.signals[signal],
      rail,
      legs: named(outputLegsOf(network, y)),
      tick: outputs[y],
      ...(meanings === null ? {} : { meaning: meanings.outputs[y] }),
    })),
  };
}

function proofOf({ verdict, method, patterns, counterexample }: Verdict): Proof {
  return {
    verdict,
    method,
    ...(patterns === null ? {} : { patterns }),
    ...(counterexample === undefined ? {} : { counterexample }),
  };
}
