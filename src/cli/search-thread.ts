// The search in a thread of its own, so that this one can hear the keyboard and show how far the search is. The search
// itself never waits and never listens; to end it, its thread is ended, and what it had told until then is what remains.

import { parentPort, Worker, workerData } from 'node:worker_threads';
import type { Optimized, Outcome } from '../tickwright.ts';
import type { RunApart } from './host.ts';
import { type Job, runJob } from './job.ts';

/** What the thread of the search sends. */
type Message = { readonly found: Outcome } | { readonly done: Optimized };

/** @param program the file that the thread runs: it must call `serveSearch`. */
export function apartIn(program: URL): RunApart {
  return (job, found, signal) =>
    new Promise((resolve, reject) => {
      const worker = new Worker(program, { workerData: job });
      const finish = (optimized: Optimized | null): void => {
        resolve(optimized);
        void worker.terminate();
      };
      worker.on('message', (message: Message) => {
        if ('done' in message) finish(message.done);
        else if (!signal.aborted) found(message.found);
      });
      worker.on('error', reject);
      worker.on('exit', () => reject(new Error('the thread of the search ended without an answer')));
      signal.addEventListener('abort', () => finish(null));
    });
}

/** Runs in the thread of the search. */
export function serveSearch(): void {
  const send = (message: Message): void => parentPort?.postMessage(message);
  send({ done: runJob(workerData as Job, (found) => send({ found })) });
}
