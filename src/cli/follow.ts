// A search from the point of view of the person who waits for it: what it has found so far in one line on a terminal,
// and its end on demand. What is found is the same with and without a thread of its own; only a search that may take
// long gets one, because a thread takes about as long to begin as a short search to end.

import type { Optimized, Outcome } from '../tickwright.ts';
import type { Host } from './host.ts';
import { type Job, reportJob, runJob } from './job.ts';
import { progressText } from './progress-text.ts';

export interface Followed {
  /** Null when the search was cut short before it had found anything. */
  readonly optimized: Optimized | null;
  readonly isCutShort: boolean;
}

/** A text so long, or so many letters, is likely to take a while. */
const LONG_TEXT = 120;

function mayTakeLong({ text, options }: Job, host: Host): boolean {
  return (
    options.frontier === true ||
    options.effort === 'deep' ||
    text.length > LONG_TEXT ||
    host.progress !== undefined
  );
}

/** Runs a job, in at most so many threads, so that it can be followed and cut short where the host allows that. */
export async function follow(job: Job, threads: number, host: Host): Promise<Followed> {
  if (host.runApart === undefined || !mayTakeLong(job, host)) {
    return { optimized: runJob(job), isCutShort: false };
  }
  let latest: Outcome | null = null;
  const end = new AbortController();
  const release = host.onInterrupt?.(() => end.abort());
  const line = await host.progress?.();
  let optimized: Optimized | null;
  try {
    line?.show(progressText(job, null));
    const found = (outcome: Outcome): void => {
      latest = outcome;
      line?.show(progressText(job, outcome));
    };
    optimized = await host.runApart(job, found, end.signal, threads);
  } finally {
    line?.clear();
    release?.();
  }
  if (!end.signal.aborted || optimized !== null) return { optimized, isCutShort: false };
  return { optimized: latest === null ? null : reportJob(job, latest), isCutShort: true };
}
