// What a batch came to: totals, what was improved most, what failed, and how ticks and parts are distributed.

import type { Told } from './journal.ts';

export interface Summary {
  readonly systems: number;
  readonly done: number;
  readonly failed: number;
  /** Sums over the systems that are done. */
  readonly written: { readonly ticks: number; readonly parts: number };
  readonly found: { readonly ticks: number; readonly parts: number };
  readonly proved: { readonly equal: number; readonly ticks: number; readonly parts: number };
  /** Those that gained most, in ticks first, then in parts. */
  readonly improved: readonly Gain[];
  readonly failures: readonly Told[];
  /** How many answers have so many ticks, and so many parts; ascending. */
  readonly byTicks: readonly (readonly [ticks: number, count: number])[];
  readonly byParts: readonly (readonly [parts: number, count: number])[];
}

export interface Gain {
  readonly name: string;
  readonly ticks: readonly [written: number, found: number];
  readonly parts: readonly [written: number, found: number];
}

const MOST_GAINS = 10;

export function summaryOf(rows: readonly Told[]): Summary {
  const failures: Told[] = [];
  const gains: Gain[] = [];
  const written = { ticks: 0, parts: 0 };
  const found = { ticks: 0, parts: 0 };
  const proved = { equal: 0, ticks: 0, parts: 0 };
  const byTicks = new Map<number, number>();
  const byParts = new Map<number, number>();
  for (const row of rows) {
    const { answer, asWritten } = row;
    if (row.status === 'failed' || answer === null) {
      failures.push(row);
      continue;
    }
    found.ticks += answer.ticks;
    found.parts += answer.parts;
    written.ticks += asWritten?.ticks ?? answer.ticks;
    written.parts += asWritten?.parts ?? answer.parts;
    if (answer.proof === 'equal') proved.equal++;
    if (answer.ticksProved) proved.ticks++;
    if (answer.partsProved) proved.parts++;
    byTicks.set(answer.ticks, (byTicks.get(answer.ticks) ?? 0) + 1);
    byParts.set(answer.parts, (byParts.get(answer.parts) ?? 0) + 1);
    if (asWritten !== null) {
      gains.push({
        name: row.name,
        ticks: [asWritten.ticks, answer.ticks],
        parts: [asWritten.parts, answer.parts],
      });
    }
  }
  const saved = ([before, after]: readonly [number, number]): number => before - after;
  const improved = gains
    .filter(({ ticks, parts }) => saved(ticks) > 0 || (saved(ticks) === 0 && saved(parts) > 0))
    .sort((a, b) => saved(b.ticks) - saved(a.ticks) || saved(b.parts) - saved(a.parts))
    .slice(0, MOST_GAINS);
  const ascending = (counts: Map<number, number>): [number, number][] =>
    [...counts].sort((a, b) => a[0] - b[0]);
  return {
    ...{ systems: rows.length, done: rows.length - failures.length, failed: failures.length },
    ...{
      written,
      found,
      proved,
      improved,
      failures,
      byTicks: ascending(byTicks),
      byParts: ascending(byParts),
    },
  };
}

/** `file:line:column: what is wrong` of the gravest notice of a row. */
export function failureWords({ name, notices, answer }: Told): string {
  const notice = notices.find(({ severity }) => severity === 'error') ?? notices[0];
  if (notice === undefined) {
    return `${name}: ${answer === null ? 'there is no answer' : 'a network could not be proved equal'}`;
  }
  const { line, column, message } = notice;
  // The name of a row in a JSON Lines file has its line already.
  const place =
    line === null ? '' : name.includes(`:${line}`) ? `:${column ?? 1}` : `:${line}:${column ?? 1}`;
  return `${name}${place}: ${message}`;
}
