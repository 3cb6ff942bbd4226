// What a check came to, on a screen: equal or where it differs, what stands, and the best that is known beside it.

import type { CheckedBlock } from './check.ts';
import type { Painter } from './painter.ts';
import { counted, prose } from './paragraph.ts';

export interface BestKnown {
  readonly ticks: number;
  readonly parts: number;
  readonly legs: number;
  readonly ticksProved: boolean;
  readonly partsProved: boolean;
}

/** One block; lines without a line feed at the end. `best` is null when the search found nothing. */
export function checkText(block: CheckedBlock, best: BestKnown | null, painter: Painter): string {
  const { name, verdict, outputs, pattern, firstWrong, suspect, conflicts } = block;
  const lines: string[] = [headline(block, painter)];
  if (verdict === 'equal') {
    const how =
      block.method === 'patterns' ? `over all ${block.patterns} patterns` : 'by a proof that was replayed';
    lines.push(...prose(`Proved ${how}, with joined wires as one.`, ''));
  }
  if (verdict === 'undecided')
    lines.push(...prose('The limit of the proof ended it; nothing is proved.', ''));
  lines.push('');
  for (const { output, wire, rail, tick } of outputs) {
    const where =
      wire === null
        ? 'no wire carries it'
        : `${wire}, ${rail === 'high' ? 'active-high' : 'active-low'}, at tick ${tick}`;
    lines.push(...prose(`${output}: ${where}`, '  '));
  }
  if (pattern !== null) {
    const values = pattern.map(([input, value]) => `${input} = ${value}`).join(', ');
    lines.push('', ...prose(`Differs at ${values}.`, '  '));
    if (firstWrong !== null) lines.push(...prose(wrongWords(firstWrong), '  '));
    if (suspect !== null) {
      const { wire, is, meant } = suspect;
      lines.push(...prose(`All outputs would be right there if ${wire} were ${meant} and not ${is}.`, '  '));
    }
  }
  if (conflicts > 0) {
    const hint = `${counted(conflicts, 'conflict')} in ${name}: tickwright conflicts shows what, and every way out.`;
    lines.push('', ...prose(hint, '  '));
  }
  const row = (
    label: string,
    ticks: number | string,
    parts: number | string,
    legs: number | string,
    note = '',
  ): string =>
    `  ${label.padEnd(12)}${String(ticks).padStart(5)}  ${String(parts).padStart(5)}  ${String(legs).padStart(4)}${note === '' ? '' : `   ${note}`}`;
  lines.push(
    '',
    row('', 'ticks', 'parts', 'legs'),
    row('as it stands', block.ticks, block.parts, block.legs),
  );
  if (best !== null) lines.push(row('best known', best.ticks, best.parts, best.legs, proofWords(best)));
  return lines.join('\n');
}

function headline({ name, verdict, outputs }: CheckedBlock, painter: Painter): string {
  const missing = outputs.filter(({ wire }) => wire === null).length;
  if (missing > 0)
    return painter.bad(`${name} does not deliver ${counted(missing, 'output')} of the equations.`);
  if (verdict === 'equal') return painter.good(`${name} is equal to the equations.`);
  return painter.bad(
    verdict === 'different' ? `${name} is not what the equations say.` : `${name} is not proved.`,
  );
}

function wrongWords({ wire, is, meant }: NonNullable<CheckedBlock['firstWrong']>): string {
  if (is === null) return `There ${wire} does not settle to one level; ${meant} is meant.`;
  return `The first wire that is wrong there is ${wire}: it is ${is}, and ${meant} is meant.`;
}

function proofWords({ ticksProved, partsProved }: BestKnown): string {
  if (ticksProved && partsProved) return 'proved: no faster, and no smaller at these ticks';
  if (ticksProved) return 'proved: no faster';
  return partsProved ? 'proved: no smaller at these ticks' : '';
}
