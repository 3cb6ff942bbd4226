// Systems of a batch in threads. Small ones go several in one message, so that messages cost nothing; each thread has one
// message waiting beside the one it works on. Rows come back as text: that is what is written.

import { fileURLToPath } from 'node:url';
import workerpool from 'workerpool';
import type { CommonOptions } from '../tickwright.ts';
import type { Item } from './items.ts';
import type { Plan } from './plan.ts';
import { type Row, runItem } from './run-item.ts';

/** Systems of so much text together are one message, but never more than so many. */
const TEXT_OF_A_MESSAGE = 2000;
const MOST_IN_A_MESSAGE = 32;

/** What a thread is asked for. */
export interface Batchwork {
  readonly items: readonly Item[];
  readonly plan: Plan;
  readonly common: CommonOptions;
}

/** Runs in a thread, or in this one. */
export function runItems({ items, plan, common }: Batchwork): string[] {
  return items.map((item) => JSON.stringify(runItem(item, plan, common)));
}

/** Systems in the messages that they are sent in. */
export function messagesOf(items: readonly Item[]): Item[][] {
  const messages: Item[][] = [];
  let size = Number.POSITIVE_INFINITY;
  for (const item of items) {
    const last = messages.at(-1);
    size += item.text.length;
    if (last !== undefined && size <= TEXT_OF_A_MESSAGE && last.length < MOST_IN_A_MESSAGE) last.push(item);
    else {
      messages.push([item]);
      size = item.text.length;
    }
  }
  return messages;
}

export interface PoolOptions {
  readonly plan: Plan;
  readonly version: string;
  /** The bytes of the catalogue, where there is one. */
  readonly catalogue?: Uint8Array;
  readonly workers: number;
  /** The file that the threads run; it must serve `items`. Null: everything in this thread. */
  readonly program: URL | null;
  /** Takes rows as they are ready, in any order. */
  readonly ready: (lines: readonly string[]) => void;
  /** Ends the work: what is not ready then is not done. */
  readonly signal: AbortSignal;
}

/** Searches all systems. */
export async function runAll(items: readonly Item[], options: PoolOptions): Promise<void> {
  const { plan, version, catalogue, program, signal, ready } = options;
  const common = catalogue === undefined ? { version } : { version, catalogue };
  const messages = messagesOf(items);
  if (program === null) {
    for (const message of messages) {
      if (signal.aborted) return;
      ready(runItems({ items: message, plan, common }));
      await new Promise((resolve) => setImmediate(resolve));
    }
    return;
  }
  const pool = workerpool.pool(fileURLToPath(program), { workerType: 'thread', maxWorkers: options.workers });
  const ended = new Promise<'ended'>((resolve) => {
    if (signal.aborted) resolve('ended');
    signal.addEventListener('abort', () => resolve('ended'));
  });
  const run = async (message: readonly Item[]): Promise<void> => {
    const work: Batchwork = { items: message, plan, common };
    try {
      const lines = (await pool.exec('items', [work])) as string[];
      if (!signal.aborted) ready(lines);
    } catch (error) {
      if (signal.aborted) return;
      const [item] = message;
      // A thread that broke down takes only one system with it.
      if (message.length > 1) for (const one of message) await run([one]);
      else if (item !== undefined) ready([JSON.stringify(brokenRow(item, error))]);
    }
  };
  const work = async (): Promise<void> => {
    let next = 0;
    const lane = async (): Promise<void> => {
      while (next < messages.length && !signal.aborted) await run(messages[next++] ?? []);
    };
    await Promise.all(Array.from({ length: 2 * options.workers }, lane));
  };
  try {
    await Promise.race([ended, work()]);
  } finally {
    await pool.terminate(true);
  }
}

/** The row of a system that no thread survived. */
function brokenRow({ position, name, line, column }: Item, error: unknown): Row {
  const message = `the search broke down: ${error instanceof Error ? error.message.split('\n')[0] : 'no reason given'}`;
  return {
    ...{ position, name, status: 'failed', seed: null, asWritten: null, fastest: null, answer: null },
    notices: [
      {
        severity: 'error',
        code: 'broke-down',
        message,
        hint: 'leave it out, or limit its size in the plan',
        line,
        column,
      },
    ],
  };
}
