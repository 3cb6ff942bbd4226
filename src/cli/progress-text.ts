// The one line that a terminal shows while a search runs.

import { visible } from '../../grammar/quote.ts';
import { counted } from '../report/paragraph.ts';
import type { Outcome } from '../tickwright.ts';
import type { Job } from './job.ts';

/** Most points of a frontier in the line: the fastest, and the last ones. */
const MOST_POINTS = 6;

/**
 * What has been found so far.
 *
 * @param outcome null before anything is known.
 */
export function progressText(job: Job, outcome: Outcome | null): string {
  const { parts } = job.options.target.inverter;
  const name = visible(job.name);
  if (outcome?.frontier != null && outcome.frontier.length > 0) {
    const points = outcome.frontier.map((point) => `${point.ticks}:${point.inverters * parts}`);
    const shown = points.length > MOST_POINTS ? [...points.slice(0, MOST_POINTS), '...'] : points;
    return `${name}: ticks:parts so far ${shown.join(' ')}; Ctrl-C ends the search`;
  }
  if (outcome?.answer == null) return `${name}: searching; Ctrl-C ends the search`;
  const { ticks, inverters } = outcome.answer;
  const found = `${counted(ticks, 'tick')}, ${counted(inverters * parts, 'part')}`;
  return `${name}: so far ${found}; Ctrl-C ends the search`;
}
