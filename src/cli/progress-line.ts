// A line on a terminal that is written over and over and is gone in the end.

import { createLogUpdate } from 'log-update';
import type { ProgressLine } from './host.ts';

/** Writes of the same line are at least so many milliseconds apart: more cannot be read. */
const PAUSE = 100;

export function progressLineOn(stream: NodeJS.WriteStream): ProgressLine {
  const write = createLogUpdate(stream, { showCursor: true });
  let last = Number.NEGATIVE_INFINITY;
  return {
    show(text) {
      const now = performance.now();
      if (now - last < PAUSE) return;
      last = now;
      write(text);
    },
    clear() {
      write.clear();
      write.done();
    },
  };
}
