// What one figure for the ticks of an inverter says about two. The search counts every inverter with the larger of
// ticksOn and ticksOff; the true tick of a wire follows rises and falls apart (levels.ts). Both are the latest over all
// paths from an input to the wire, and both depend on a path in the same three numbers only: the arrival a of its input,
// the inverters d on it, the joins e of two or more legs on it. With M the larger and m the smaller duration and j the
// ticks of a join:
//
//   searched  a + d M + e j
//   true      a + (d / 2) (M + m) + e j          for even d: rises and falls take turns
//             a + ((d - 1) / 2) (M + m) + M + e j  for odd d: the worse of both begins and ends the path
//
// So a limit on true ticks forbids certain triples (a, d, e), a limit on searched ticks likewise, and a bound can be
// carried over by listing triples:
//
// - `safe`: the largest searched limit that forbids every triple that the true limit forbids. What is found keeps the true
//   limit.
// - `needed`: the smallest searched limit that allows every triple that the true limit allows. What is refuted under it is
//   refuted under the true limit.
//
// Where needed <= safe both limits allow the same networks, and answers and refutations carry over alike. That is always
// so when all inputs arrive at the same tick and joins take no time (both ticks then only count inverters); it may fail
// when arrivals differ, and then what the search refuted is not said to be proved.
//
// Cost: (different arrivals) x (inverters on the longest path allowed); logarithmically often for the way back.

import type { TickCosts } from './levels.ts';

export class TickBounds {
  /** The durations are equal: one figure is exact, and all bounds are what they are. */
  readonly trivial: boolean;
  private readonly arrivals: readonly number[];
  private readonly joinTicks: number;
  private readonly larger: number;
  private readonly pair: number;

  /** `arrivals`: the ticks at which the inputs arrive. */
  constructor({ joinTicks, ticksOn, ticksOff }: Required<TickCosts>, arrivals: readonly number[]) {
    this.arrivals = [...new Set(arrivals)];
    this.joinTicks = joinTicks;
    this.larger = Math.max(ticksOn, ticksOff);
    this.pair = ticksOn + ticksOff;
    this.trivial = ticksOn === ticksOff || arrivals.length === 0;
  }

  /** Every network that keeps this limit of searched ticks keeps the limit `ticks` of true ones. */
  safe(ticks: number): number {
    if (this.trivial) return ticks;
    let least = Number.POSITIVE_INFINITY;
    for (const arrival of this.arrivals) {
      for (let d = 0, open = true; open; d++) {
        const bare = arrival + this.path(d);
        open = bare <= ticks;
        // The fewest joins with which the path is too long; more only make it longer.
        const joins = open ? Math.floor((ticks - bare) / this.joinTicks) + 1 : 0;
        if (joins <= d + 1) least = Math.min(least, arrival + d * this.larger + joins * this.joinTicks);
      }
    }
    return least - 1;
  }

  /** Every network that keeps the limit `ticks` of true ticks keeps this limit of searched ones. */
  needed(ticks: number): number {
    if (this.trivial) return ticks;
    let most = Math.min(ticks, 0);
    for (const arrival of this.arrivals) {
      for (let d = 0; arrival + this.path(d) <= ticks; d++) {
        const room = ticks - arrival - this.path(d);
        const joins = this.joinTicks === 0 ? 0 : Math.min(d + 1, Math.floor(room / this.joinTicks));
        most = Math.max(most, arrival + d * this.larger + joins * this.joinTicks);
      }
    }
    return most;
  }

  /** Both limits allow the same networks. */
  lossless(ticks: number): boolean {
    return this.needed(ticks) <= this.safe(ticks);
  }

  /** The fewest true ticks that a network of at least so many searched ticks can have. */
  least(searched: number): number {
    return this.first(searched, (ticks) => this.needed(ticks));
  }

  /** True ticks that a network of so many searched ticks does not exceed. */
  most(searched: number): number {
    return this.first(searched, (ticks) => this.safe(ticks));
  }

  /** Ticks of a path of `d` inverters behind its input, joins not counted. */
  private path(d: number): number {
    return (d >> 1) * this.pair + (d % 2) * this.larger;
  }

  /** The first limit of true ticks for which `bound` reaches `searched`; both ways of carrying over ascend. */
  private first(searched: number, bound: (ticks: number) => number): number {
    if (this.trivial) return searched;
    let low = 0;
    let high = searched; // the true tick is never the later one
    while (low < high) {
      const middle = (low + high) >> 1;
      if (bound(middle) >= searched) high = middle;
      else low = middle + 1;
    }
    return low;
  }
}
