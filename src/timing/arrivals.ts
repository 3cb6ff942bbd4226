// Arrivals and slack: between which ticks a wire can change at all, and how late it may.
//
// Idea. A wire goes on only after one of its legs went the right way: an inverter goes on when a leg goes off, and off
// when a leg goes on; a join follows its legs. So for every wire there are four figures, the earliest and the latest
// tick at which it may go on and go off, each a minimum or maximum over the legs plus the delay of that edge. Going on
// and going off are kept apart all along a path: where an inverter is slow in one direction only, a chain of k
// inverters pays for it every other time. The same figures taken backwards from the outputs give required times, and
// the difference is the slack.
//
// Correctness. Every change of a wire at tick t is caused by a change of a leg at t - ticksOn or t - ticksOff (see
// circuit.ts), so outside these bounds nothing can happen. They are bounds only: a path may never be exercised, which
// settling (settle.ts) finds out.
//
// Constants, and whatever hangs on constants and held inputs alone, never change: their figures are NEVER.

import { type Circuit, legsOfWire } from './circuit.ts';

/** Which way a wire goes: on is to level 1. */
export type Edge = 'on' | 'off';
export const EDGES: readonly Edge[] = ['on', 'off'];

export function otherEdge(edge: Edge): Edge {
  return edge === 'on' ? 'off' : 'on';
}

/** Stands for "at no tick". */
export const NEVER = -1;

export interface Arrivals {
  /** By wire; NEVER where the wire cannot go that way. */
  readonly earliest: Readonly<Record<Edge, Int32Array>>;
  readonly latest: Readonly<Record<Edge, Int32Array>>;
}

/** Which edge of a leg makes this wire go `edge`. */
export function causeOf(circuit: Circuit, wire: number, edge: Edge): Edge {
  return circuit.kinds[wire] === 'inverter' ? otherEdge(edge) : edge;
}

export function delayOf(circuit: Circuit, wire: number, edge: Edge): number {
  return edge === 'on' ? circuit.ticksOn[wire] : circuit.ticksOff[wire];
}

/**
 * Arrivals of every wire.
 *
 * @param circuit without circles.
 * @param moving by input: whether it may change; all of them unless said otherwise.
 */
export function arrivalsOf(circuit: Circuit, moving: ArrayLike<number> | null = null): Arrivals {
  const { order, names, inputs } = circuit;
  if (order === null) throw new Error('a circuit that feeds back into itself has no arrivals');
  const none = (): Int32Array => new Int32Array(names.length).fill(NEVER);
  const arrivals = {
    earliest: { on: none(), off: none() },
    latest: { on: none(), off: none() },
  };
  for (const wire of order) {
    const kind = circuit.kinds[wire];
    if (kind === 'constant') continue;
    if (kind === 'input') {
      const input = circuit.source[wire];
      if (moving !== null && !moving[input]) continue;
      for (const edge of EDGES) {
        arrivals.earliest[edge][wire] = inputs[input].tick;
        arrivals.latest[edge][wire] = inputs[input].tick;
      }
      continue;
    }
    for (const edge of EDGES) {
      const cause = causeOf(circuit, wire, edge);
      let [first, last] = [NEVER, NEVER];
      for (const leg of legsOfWire(circuit, wire)) {
        const soon = arrivals.earliest[cause][leg];
        if (soon === NEVER) continue;
        if (first === NEVER || soon < first) first = soon;
        last = Math.max(last, arrivals.latest[cause][leg]);
      }
      if (last === NEVER) continue;
      const delay = delayOf(circuit, wire, edge);
      arrivals.earliest[edge][wire] = first + delay;
      arrivals.latest[edge][wire] = last + delay;
    }
  }
  return arrivals;
}

/** Latest tick at which the wire may change in either direction, or NEVER. */
export function latestChange(arrivals: Arrivals, wire: number): number {
  return Math.max(arrivals.latest.on[wire], arrivals.latest.off[wire]);
}

/** Earliest tick at which the wire may change in either direction, or NEVER. */
export function earliestChange(arrivals: Arrivals, wire: number): number {
  const { on, off } = arrivals.earliest;
  if (on[wire] === NEVER || off[wire] === NEVER) return Math.max(on[wire], off[wire]);
  return Math.min(on[wire], off[wire]);
}

/** Required times: the latest tick at which a wire may go each way so that every output is in time. */
export interface Requirements {
  /** By wire; Infinity where no output depends on it. */
  readonly required: Readonly<Record<Edge, Float64Array>>;
  /** By wire: ticks to spare, Infinity where nothing is required or nothing happens. Negative: too late. */
  readonly slack: Float64Array;
}

/**
 * Required times and slack.
 *
 * @param by by output: the tick at which it must have settled. Unless given: what the circuit asks for, else the latest
 *   arrival of all outputs.
 */
export function requirementsOf(
  circuit: Circuit,
  arrivals: Arrivals,
  by: readonly number[] = deadlinesOf(circuit, arrivals),
): Requirements {
  const { order, names } = circuit;
  if (order === null) throw new Error('a circuit that feeds back into itself has no required times');
  const unbounded = (): Float64Array => new Float64Array(names.length).fill(Number.POSITIVE_INFINITY);
  const required = { on: unbounded(), off: unbounded() };
  circuit.outputs.forEach(({ wire }, y) => {
    for (const edge of EDGES) required[edge][wire] = Math.min(required[edge][wire], by[y]);
  });
  for (let at = order.length - 1; at >= 0; at--) {
    const wire = order[at];
    for (const edge of EDGES) {
      const cause = causeOf(circuit, wire, edge);
      const tick = required[edge][wire] - delayOf(circuit, wire, edge);
      for (const leg of legsOfWire(circuit, wire)) {
        required[cause][leg] = Math.min(required[cause][leg], tick);
      }
    }
  }
  const slack = unbounded();
  for (let wire = 0; wire < names.length; wire++) {
    for (const edge of EDGES) {
      const latest = arrivals.latest[edge][wire];
      if (latest !== NEVER) slack[wire] = Math.min(slack[wire], required[edge][wire] - latest);
    }
  }
  return { required, slack };
}

/** The tick that each output is asked for by, or the latest of all outputs. */
export function deadlinesOf(circuit: Circuit, arrivals: Arrivals): number[] {
  const latest = Math.max(0, ...circuit.outputs.map(({ wire }) => latestChange(arrivals, wire)));
  return circuit.outputs.map(({ by }) => by ?? latest);
}

/** A way through the circuit: from an input wire to an output, with the tick and the edge of every wire on it. */
export interface Path {
  readonly steps: readonly PathStep[];
}

export interface PathStep {
  readonly wire: number;
  readonly tick: number;
  readonly edge: Edge;
}

/** The tick at which the last wire of the path changes. */
export function pathTick(path: Path): number {
  return path.steps[path.steps.length - 1].tick;
}

/**
 * Paths that end in `edge` of `wire` later than tick `after`, the latest first, then in the order of the legs; at most
 * `most` of them.
 */
export function longestPaths(
  circuit: Circuit,
  arrivals: Arrivals,
  wire: number,
  edge: Edge,
  after: number,
  most: number,
): Path[] {
  const found: Path[] = [];
  /** Wire, edge and tick of which no way leads back to an input in time. */
  const dead = new Set<string>();
  // One walk for each tick, so that later paths come first.
  const bound = arrivals.latest[edge][wire];
  for (let tick = bound; tick > after && found.length < most; tick--) walk(wire, edge, tick, []);
  return found;

  function walk(at: number, way: Edge, tick: number, behind: readonly PathStep[]): boolean {
    if (found.length >= most) return true;
    const last = arrivals.latest[way][at];
    if (last === NEVER || tick > last || tick < arrivals.earliest[way][at]) return false;
    const steps = [{ wire: at, tick, edge: way }, ...behind];
    if (circuit.kinds[at] === 'input') {
      found.push({ steps });
      return true;
    }
    const key = `${at} ${way} ${tick}`;
    if (dead.has(key)) return false;
    const cause = causeOf(circuit, at, way);
    const before = tick - delayOf(circuit, at, way);
    let arrives = false;
    for (const leg of legsOfWire(circuit, at)) arrives = walk(leg, cause, before, steps) || arrives;
    if (!arrives) dead.add(key);
    return arrives;
  }
}
