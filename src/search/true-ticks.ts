// Between what a reader asks and the search, where rises and falls of an inverter take different times. The search counts
// every inverter with the larger of the two (network/tick-bounds.ts says what that means). Here limits are handed to it in
// its own ticks, and its outcome is told in true ones:
//
// - Limits become the smallest searched ones that let pass every network within the true limits. What the search refutes
//   under them is refuted. A network found under them may be too late; then the search is asked once more, with limits
//   that only let pass what is in time, and what it refutes then proves nothing.
// - Ticks of a found network are counted anew, exactly.
// - "Fastest" becomes the fewest true ticks that are compatible with what the search found out, and is proved only when a
//   network of so many true ticks is known to exist.
// - "No network of so many ticks has fewer parts" stays proved only when the limits that were refuted let pass every
//   network of so many true ticks.
//
// With equal durations nothing changes at all.

import type { System } from '../equations/system.ts';
import { networkTicks, outputTicks, tickCosts } from '../network/levels.ts';
import { TickBounds } from '../network/tick-bounds.ts';
import type { Target } from '../target/target.ts';
import type { Fastest } from './fastest.ts';
import type { Outcome, Point } from './run-search.ts';

/** How limits are carried over: so that nothing within them is lost, or so that nothing beyond them is found. */
type Carried = 'needed' | 'safe';

export class TrueTicks {
  private readonly system: System;
  private readonly costs: ReturnType<typeof tickCosts>;
  private readonly bounds: TickBounds;

  constructor(system: System, target: Target) {
    this.system = system;
    this.costs = tickCosts(target);
    this.bounds = new TickBounds(
      this.costs,
      system.inputs.map(({ tick }) => tick),
    );
  }

  /**
   * Runs a search for the system within `ticks` (null for no limit). `ask` is given the system with its deadlines, and the
   * limit, in ticks of the search; the outcome is in true ticks.
   */
  search<T extends Outcome>(ticks: number | null, ask: (system: System, ticks: number | null) => T): T {
    if (this.bounds.trivial) return ask(this.system, ticks);
    const wide = ask(this.carried('needed'), this.limit(ticks, 'needed'));
    if (wide.answer === null || this.inTime(wide.answer, ticks)) return this.outcome(wide, 'needed');
    return this.outcome(ask(this.carried('safe'), this.limit(ticks, 'safe')), 'safe');
  }

  private carried(how: Carried): System {
    const outputs = this.system.outputs.map((output) => ({ ...output, by: this.limit(output.by, how) }));
    return { ...this.system, outputs };
  }

  private limit(ticks: number | null, how: Carried): number | null {
    return ticks === null ? null : this.bounds[how](ticks);
  }

  private inTime({ network }: Point, limit: number | null): boolean {
    const ticks = outputTicks(network, this.costs);
    return network.outputs.every(({ signal }, y) => {
      const by = this.system.outputs.find((output) => output.signal === signal)?.by ?? null;
      return ticks[y] <= Math.min(by ?? Number.POSITIVE_INFINITY, limit ?? Number.POSITIVE_INFINITY);
    });
  }

  private outcome<T extends Outcome>(outcome: T, how: Carried): T {
    const { bounds } = this;
    const fastest = this.fastest(outcome.fastest, how);
    const answer = outcome.answer === null ? null : this.point(outcome.answer, fastest, how);
    const isMet = bounds.most(outcome.fastest.ticks) === fastest.ticks;
    const ofAnswer = answer?.ticks === fastest.ticks ? answer.inverters : null;
    // Parts are told in ticks of the search, and nobody asks for them in true ones.
    const { apart: _, ...rest } = outcome;
    return {
      ...(rest as T),
      fastest: { ...fastest, exact: fastest.exact && isMet },
      fastestSize: isMet ? outcome.fastestSize : ofAnswer,
      answer,
      frontier: outcome.frontier?.map((point) => this.point(point, fastest, how)) ?? null,
    };
  }

  private point(point: Point, fastest: Fastest, how: Carried): Point {
    const { bounds, system } = this;
    const ticks = networkTicks(point.network, this.costs);
    const deadlinesKept =
      how === 'needed' || system.outputs.every(({ by }) => by === null || bounds.lossless(by));
    return {
      ...point,
      ticks,
      ticksProved: ticks === fastest.ticks,
      sizeProved: point.sizeProved && deadlinesKept && bounds.needed(ticks) <= point.ticks,
    };
  }

  private fastest({ ticks, withDeadlines, each, exact }: Fastest, how: Carried): Fastest {
    const least = (searched: number): number => this.bounds.least(searched);
    // Under safe limits that nothing keeps there may still be a network in time; that of none is not known.
    const inTime = withDeadlines ?? (how === 'safe' ? ticks : null);
    return {
      ticks: least(ticks),
      withDeadlines: inTime === null ? null : least(inTime),
      each: each.map(least),
      exact,
    };
  }
}
