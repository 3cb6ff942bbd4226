// The section about sharing on the screen.

import { visible } from '../../grammar/quote.ts';
import { counted, paragraph, prose } from './paragraph.ts';
import type { Sharing } from './result.ts';

const INDENT = '  ';
/** More groups than so many are counted and not listed. */
const MOST_GROUPS = 12;

/** What each way of sharing takes, what sharing saves, and the groups that were searched apart. */
export function sharingLines({ way, groups, alone, grouped, together }: Sharing): string[] {
  const figures: readonly (readonly [string, number | null | undefined, boolean])[] = [
    ['every output alone', alone, way === 'alone'],
    ['in groups', grouped, way === 'grouped'],
    ['all together', together, way === 'together'],
  ];
  const shown = figures.flatMap(([words, parts, isAnswer]) =>
    parts === undefined ? [] : [`${words} ${parts ?? '?'}${isAnswer ? ' (the answer)' : ''}`],
  );
  const saved =
    alone === null || together === null
      ? ''
      : alone === together
        ? ' Sharing saves nothing here.'
        : ` Sharing saves ${counted(alone - together, 'part')}.`;
  const lines = prose(`Parts at these ticks: ${shown.join(', ')}.${saved}`, INDENT);
  if (groups.length < 2) return lines;
  lines.push('', `${INDENT}ticks  parts  searched apart`);
  for (const { outputs, ticks, parts } of groups.slice(0, MOST_GROUPS)) {
    const head = `${INDENT}${String(ticks).padStart(5)}${String(parts).padStart(7)}  `;
    lines.push(
      ...paragraph(
        outputs.map((name) => visible(name)),
        head,
      ),
    );
  }
  if (groups.length > MOST_GROUPS) {
    lines.push(`${INDENT}and ${groups.length - MOST_GROUPS} more, which --json lists`);
  }
  return lines;
}
