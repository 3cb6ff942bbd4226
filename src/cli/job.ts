// One source with everything the library needs for it, as plain data that can be sent to another thread.

import type { RailNames } from '../equations/override-rails.ts';
import { type Optimized, type OptimizeOptions, type Outcome, optimize } from '../tickwright.ts';

export interface Job {
  readonly name: string;
  readonly text: string;
  readonly rails: RailNames;
  readonly options: Omit<OptimizeOptions, 'watch' | 'found'>;
}

/** Runs the job in this thread. */
export function runJob({ name, text, rails, options }: Job, found?: (outcome: Outcome) => void): Optimized {
  return optimize(name, text, rails, found === undefined ? options : { ...options, watch: { found } });
}

/** What an ended search had found, proved and reported. */
export function reportJob({ name, text, rails, options }: Job, found: Outcome): Optimized {
  return optimize(name, text, rails, { ...options, found });
}
