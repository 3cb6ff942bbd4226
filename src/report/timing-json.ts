// Settling and hazards as plain data for programs. Levels are levels of wires; patterns are values of inputs.

import { type Arrivals, EDGES, type Edge, NEVER, type Path, requirementsOf } from '../timing/arrivals.ts';
import { type BenchTest, benchPlan } from '../timing/bench-plan.ts';
import type { Circuit, Pattern } from '../timing/circuit.ts';
import { isTooShort, strainOf } from '../timing/endurance.ts';
import type { Hazard } from '../timing/hazards.ts';
import { FLIPS, type Slowest } from '../timing/settle.ts';
import type { Transition } from '../timing/settle-exact.ts';
import type { Notice } from './result.ts';
import type { SettlingReport } from './settling-text.ts';

/** Format of the objects that `settle --json` prints. */
export const SETTLING_FORMAT = 'tickwright.settling/1';
/** Format of the objects that `hazards --json` prints. */
export const HAZARDS_FORMAT = 'tickwright.hazards/1';

export interface StatedSource {
  readonly version: string;
  readonly source: string;
  readonly target: string;
  readonly network: 'found' | 'written' | 'built';
  readonly notices: readonly Notice[];
}

type Json = null | boolean | number | string | readonly Json[] | { readonly [name: string]: Json };

/** The object of a source that has no network: nothing but what is said about it. */
export function faultyJson(format: string, stated: StatedSource): Json {
  return { format, ...head(stated), inverters: null, outputs: [] };
}

function head({ version, source, target, network, notices }: StatedSource): Record<string, Json> {
  return {
    version,
    source,
    target,
    network,
    notices: notices.map((notice) => ({ ...notice, hint: notice.hint ?? null })),
  };
}

function patternJson(circuit: Circuit, pattern: Pattern): Json {
  return Object.fromEntries(circuit.inputs.map(({ name }, i) => [name, pattern[i]]));
}

function transitionJson(circuit: Circuit, { from, to }: Transition): Json {
  return { from: patternJson(circuit, from), to: patternJson(circuit, to) };
}

function tickJson(tick: number): number | null {
  return tick === NEVER || !Number.isFinite(tick) ? null : tick;
}

function pathJson(circuit: Circuit, { steps }: Path): Json {
  return steps.map(({ wire, tick, edge }) => ({ wire: circuit.names[wire], tick, edge }));
}

function slowestJson(circuit: Circuit, { tick, claim, transition }: Slowest): Json {
  return {
    tick: tickJson(tick),
    proved: claim !== 'found',
    claim,
    transition: transition === null ? null : transitionJson(circuit, transition),
  };
}

function pairJson(pair: Readonly<Record<Edge, ArrayLike<number>>>, wire: number): Json {
  return { on: tickJson(pair.on[wire]), off: tickJson(pair.off[wire]) };
}

function wiresJson(circuit: Circuit, arrivals: Arrivals): Json {
  const { required, slack } = requirementsOf(circuit, arrivals);
  return circuit.names.flatMap((name, wire) =>
    circuit.kinds[wire] === 'constant'
      ? []
      : [
          {
            wire: name,
            kind: circuit.kinds[wire],
            earliest: pairJson(arrivals.earliest, wire),
            latest: pairJson(arrivals.latest, wire),
            required: pairJson(required, wire),
            slack: tickJson(slack[wire]),
          },
        ],
  );
}

function benchJson(circuit: Circuit, test: BenchTest): Json {
  const { output, edge, flips, claim, tick, transition, wait, changed, before, changes, path } = test;
  return {
    output: circuit.outputs[output].name,
    rail: circuit.outputs[output].rail,
    edge,
    flips,
    proved: claim !== 'found',
    steps: [
      { do: 'set', inputs: patternJson(circuit, transition.from) },
      { do: 'wait', ticks: wait },
      {
        do: 'flip',
        inputs: Object.fromEntries(changed.map((i) => [circuit.inputs[i].name, transition.to[i]])),
      },
      { do: 'expect', before, changes: changes.map(({ tick: at, level }) => ({ tick: at, level })), tick },
    ],
    path: pathJson(circuit, path),
  };
}

/** The object of one source. */
export function settlingJson(report: SettlingReport, stated: StatedSource): Json {
  const { circuit, arrivals, settling, falsePaths, endurance, candidates } = report;
  return {
    format: SETTLING_FORMAT,
    ...head(stated),
    inverters: circuit.kinds.filter((kind) => kind === 'inverter').length,
    method: { ...settling.method },
    outputs: settling.outputs.map(({ output, bound, slowest }) => ({
      name: circuit.outputs[output].name,
      rail: circuit.outputs[output].rail,
      bound: { on: tickJson(bound.on), off: tickJson(bound.off) },
      ...Object.fromEntries(
        FLIPS.map((flips) => [
          flips,
          Object.fromEntries(
            EDGES.map((edge) => [
              edge,
              {
                ...(slowestJson(circuit, slowest[flips][edge].settles) as object),
                lasting: slowestJson(circuit, slowest[flips][edge].changes),
              },
            ]),
          ),
        ]),
      ),
    })),
    falsePaths: falsePaths.map(({ output, edge, bound, settles, path, stuck, pulse }) => ({
      output: circuit.outputs[output].name,
      edge,
      bound,
      settles: tickJson(settles),
      path: pathJson(circuit, path),
      stuck: stuck === null ? null : circuit.names[path.steps[stuck].wire],
      pulse,
    })),
    wires: wiresJson(circuit, arrivals),
    candidates:
      candidates === null
        ? null
        : candidates.map(({ output, input, edge, tick, transition }) => ({
            output: circuit.outputs[output].name,
            rail: circuit.outputs[output].rail,
            input: circuit.inputs[input].name,
            edge,
            tick,
            transition: transition === null ? null : transitionJson(circuit, transition),
          })),
    bench: benchPlan(circuit, settling).map((test) => benchJson(circuit, test)),
    endurance:
      endurance === null
        ? null
        : {
            flips: endurance.flips,
            wear: endurance.wear.map((wear) => ({
              wire: circuit.names[wear.wire],
              changes: wear.changes,
              strain: strainOf(circuit, wear),
              transition: wear.transition === null ? null : transitionJson(circuit, wear.transition),
            })),
            pulses: endurance.pulses.map((pulse) => ({
              wire: circuit.names[pulse.wire],
              ticks: pulse.ticks,
              tooShort: isTooShort(circuit, pulse),
              transition: pulse.transition === null ? null : transitionJson(circuit, pulse.transition),
            })),
          },
  };
}

/** What `--hazard-free` came to. */
export interface RemedyJson {
  readonly inverters: number;
  readonly ticks: number;
  readonly extra: number;
  readonly proved: boolean;
  readonly network: { readonly inverters: readonly Json[]; readonly outputs: readonly Json[] };
}

/** The object of one source. */
export function hazardsJson(
  circuit: Circuit,
  hazards: readonly Hazard[],
  mostFlips: number,
  remedy: RemedyJson | null,
  stated: StatedSource,
): Json {
  return {
    format: HAZARDS_FORMAT,
    ...head(stated),
    inverters: circuit.kinds.filter((kind) => kind === 'inverter').length,
    mostFlips,
    outputs: circuit.outputs.map(({ name, rail }) => ({ name, rail })),
    hazards: hazards.map((hazard) => ({
      output: circuit.outputs[hazard.output].name,
      rail: circuit.outputs[hazard.output].rail,
      kind: hazard.kind,
      flipped: hazard.flipped.map((i) => circuit.inputs[i].name),
      possible: hazard.possible,
      happens: hazard.happens,
      ofFunction: hazard.ofFunction,
      widest: hazard.widest,
      example: transitionJson(circuit, hazard.example),
    })),
    remedy: remedy === null ? null : { ...remedy, network: { ...remedy.network } },
  };
}

/** One array for all sources, as text. */
export function timingJsonText(objects: readonly Json[]): string {
  return `${JSON.stringify(objects, null, 2)}\n`;
}

/** Every inverter and output with its legs, by name. */
export function circuitJson(circuit: Circuit): RemedyJson['network'] {
  const legs = (wire: number): string[] =>
    Array.from(
      circuit.legs.subarray(circuit.legStart[wire], circuit.legStart[wire + 1]),
      (leg) => circuit.names[leg],
    );
  return {
    inverters: circuit.names.flatMap((wire, w) =>
      circuit.kinds[w] === 'inverter' ? [{ wire, legs: legs(w) }] : [],
    ),
    outputs: circuit.outputs.map(({ name, rail, wire }) => ({
      name,
      rail,
      legs: circuit.kinds[wire] === 'join' ? legs(wire) : [circuit.names[wire]],
    })),
  };
}
