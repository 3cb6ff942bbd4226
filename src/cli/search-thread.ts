// The search in threads of its own, so that this one can hear the keyboard and show how far the search is, and so that
// independent walks over a frontier run at the same time. The search itself never waits and never listens; to end it,
// its threads are ended, and what they had told until then is what remains. The answer does not depend on the number
// of threads.

import { fileURLToPath } from 'node:url';
import workerpool from 'workerpool';
import { type Batchwork, runItems } from '../batch/pool.ts';
import { type Optimized, type Outcome, seedsOf } from '../tickwright.ts';
import type { RunApart } from './host.ts';
import { type Job, reportJob, runJob, Walks, walkJob } from './job.ts';

/** @param program the file that the threads run: it must call `serveSearch`. */
export function apartIn(program: URL): RunApart {
  return async (job, found, signal, threads) => {
    const seeds = seedsOf(job.options);
    const maxWorkers = Math.min(threads, seeds.length);
    const pool = workerpool.pool(fileURLToPath(program), { workerType: 'thread', maxWorkers });
    const isEnded = new Promise<null>((resolve) => {
      signal.addEventListener('abort', () => resolve(null));
    });
    const tell = (outcome: Outcome): void => {
      if (!signal.aborted) found(outcome);
    };
    /** Runs a method in a thread; a failure there is one here. */
    const run = <Result>(method: string, what: unknown[], on: (outcome: Outcome) => void): Promise<Result> =>
      new Promise((resolve, reject) => {
        pool.exec(method, what, { on }).then((value) => resolve(value as Result), reject);
      });
    const wholeJob = (): Promise<Optimized> => run('whole', [job], tell);
    const inWalks = async (): Promise<Optimized> => {
      const walks = new Walks(job, seeds.length);
      const outcome = await new Promise<Outcome | null>((resolve, reject) => {
        let begun = 0;
        const begin = (): void => {
          const at = begun++;
          if (!walks.isNeeded(at)) return;
          run<Outcome | null>('walk', [job, seeds[at]], (news) => tell(walks.found(at, news))).then((end) => {
            walks.ended(at, end);
            const { outcome } = walks;
            if (outcome === undefined) begin();
            else resolve(outcome);
          }, reject);
        };
        for (let n = 0; n < maxWorkers; n++) begin();
      });
      if (outcome === null) return runJob(job);
      // What sharing saves is a search of its own. Anything else is told in this thread: those of the search may still be
      // busy with walks that nobody needs any more.
      return job.options.share === undefined ? reportJob(job, outcome) : run('report', [job, outcome], tell);
    };
    try {
      return await Promise.race([isEnded, seeds.length === 1 ? wholeJob() : inWalks()]);
    } finally {
      void pool.terminate(true);
    }
  };
}

/** Runs in a thread of the search. */
export function serveSearch(): void {
  const found = (outcome: Outcome): void => workerpool.workerEmit(outcome);
  workerpool.worker({
    whole: (job: Job) => runJob(job, found),
    items: (work: Batchwork) => runItems(work),
    walk: (job: Job, seed: number) => walkJob(job, seed, found),
    report: (job: Job, outcome: Outcome) => reportJob(job, outcome),
  });
}
