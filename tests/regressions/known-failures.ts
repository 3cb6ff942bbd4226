// Regressions that are known to fail, each with what is wrong. The list stays honest: a listed case that passes is an
// error, so whoever mends it takes it out of here.

import { test } from 'vitest';

export const KNOWN_FAILURES: ReadonlyMap<number, string> = new Map<number, string>([]);

/** A regression test with the number of its file. */
export function regression(number: number, title: string, body: () => void): void {
  const wrong = KNOWN_FAILURES.get(number);
  if (wrong === undefined) test(title, body);
  else test.fails(`${title} (known failure: ${wrong})`, body);
}
