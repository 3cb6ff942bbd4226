// One source with everything the library needs for it, as plain data that can be sent to another thread, and the pieces
// that its work can be cut into.

import type { RailNames } from '../equations/override-rails.ts';
import {
  isEnough,
  mergeFound,
  type Optimized,
  type OptimizeOptions,
  type Outcome,
  optimize,
  searchOnce,
} from '../tickwright.ts';

export interface Job {
  readonly name: string;
  readonly text: string;
  readonly rails: RailNames;
  readonly options: Omit<OptimizeOptions, 'watch' | 'found'>;
}

type Found = (outcome: Outcome) => void;

/** Runs the job in this thread. */
export function runJob({ name, text, rails, options }: Job, found?: Found): Optimized {
  return optimize(name, text, rails, found === undefined ? options : { ...options, watch: { found } });
}

/** What a search had found, proved and reported. */
export function reportJob({ name, text, rails, options }: Job, found: Outcome): Optimized {
  return optimize(name, text, rails, { ...options, found });
}

/** One walk of the search; null when the text has faults. */
export function walkJob({ text, rails, options }: Job, seed: number, found: Found): Outcome | null {
  return searchOnce(text, rails, { ...options, watch: { found } }, seed);
}

/** Walks that run at the same time, and what they come to together: the same as one after the other. */
export class Walks {
  private readonly job: Job;
  private readonly news: (Outcome | null)[];
  private readonly ends: (Outcome | null | undefined)[];

  constructor(job: Job, count: number) {
    this.job = job;
    this.news = new Array(count).fill(null);
    this.ends = new Array(count).fill(undefined);
  }

  /** Takes news of a walk; returns what all walks together have found so far. */
  found(walk: number, outcome: Outcome): Outcome {
    this.news[walk] = outcome;
    const known = this.news.filter((other) => other !== null);
    return mergeFound(known, this.job.options);
  }

  /** Takes the end of a walk. */
  ended(walk: number, outcome: Outcome | null): void {
    this.ends[walk] = outcome;
  }

  /** Whether a walk can still add to the result, as far as the ends of others tell. */
  isNeeded(walk: number): boolean {
    const isSpared = (end: Outcome | null | undefined, at: number): boolean =>
      end != null &&
      (walk >= (end.walks ?? Number.POSITIVE_INFINITY) || (walk > at && isEnough(end, at + 1)));
    return walk < this.ends.length && !this.ends.some(isSpared);
  }

  /**
   * What all walks come to: undefined while one is missing that is needed, null when the text has faults. Walks behind
   * one that is enough are not needed, since one after the other they would not have begun.
   */
  get outcome(): Outcome | null | undefined {
    const needed: Outcome[] = [];
    for (const end of this.ends) {
      if (end === undefined || end === null) return end;
      needed.push(end);
      if (isEnough(end, needed.length)) break;
    }
    return mergeFound(needed, this.job.options);
  }
}
