// Which point of the frontier is the answer: the fastest that a budget of inverters allows.
//
// The fastest possible network is often absurdly large, and the smallest absurdly slow. The budget says how much may be
// spent for speed: some times the inverters of the smallest network found, or a number. A number that nothing meets
// leaves the smallest network.

/** At most so many times the inverters of the smallest network found, or at most so many inverters. */
export type Budget = { readonly factor: number } | { readonly inverters: number };

export const DEFAULT_BUDGET: Budget = { factor: 2 };

/** The most inverters that an answer may take when the smallest network takes `smallest`. */
export function mostWithin(budget: Budget, smallest: number): number {
  return 'factor' in budget ? budget.factor * smallest : Math.max(budget.inverters, smallest);
}

/** Position of the answer among points of a frontier, fewest ticks first; -1 when there are none. */
export function chosenWithin(budget: Budget, sizes: readonly number[]): number {
  const most = mostWithin(budget, Math.min(...sizes));
  return sizes.findIndex((size) => size <= most);
}
