// The result as JSON text: two spaces, and names always in the order in which the schema lists them, however the
// objects were built. Made for programs that compare texts: same result, same bytes.

import type { Result } from './result.ts';

/** One order that serves every kind of object of the schema; a test compares them. */
const ORDER = `
  format version source target join effort seed stop asWritten fastest chosen sharing points notices
  way groups alone grouped together
  ticks proved parts copies
  signal name rail wire wires lowWires legs tick separate copyOf meaning
  ticksProved partsProved provedApart network proof rails
  inputs inverters outputs
  verdict method patterns counterexample
  severity code message hint line column
`;
const RANK: ReadonlyMap<string, number> = new Map(
  ORDER.trim()
    .split(/\s+/)
    .map((name, rank) => [name, rank]),
);

function inOrder(name: string, value: unknown): unknown {
  // The names in a counterexample are signals of the reader, which already stand in the order of the source.
  const isOurs =
    typeof value === 'object' && value !== null && !Array.isArray(value) && name !== 'counterexample';
  if (!isOurs) return value;
  const rank = ([key]: [string, unknown]): number => RANK.get(key) ?? RANK.size;
  return Object.fromEntries(Object.entries(value).sort((a, b) => rank(a) - rank(b)));
}

/** The text that `--json` prints: one array with one object per source, ending in a line feed. */
export function jsonReport(results: readonly Result[]): string {
  return `${JSON.stringify(results, inOrder, 2)}\n`;
}
