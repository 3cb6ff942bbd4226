// The summary of a batch for the terminal, and its rows as CSV.

import { visible } from '../../grammar/quote.ts';
import { csvTable } from '../report/csv.ts';
import type { Painter } from '../report/painter.ts';
import type { Told } from './journal.ts';
import { failureWords, type Summary } from './summary.ts';

const BAR = 40;
const MOST_FAILURES = 20;
const LONGEST_NAME = 44;

/** @param folder where the results are. */
export function summaryText(summary: Summary, folder: string, painter: Painter): string {
  const { systems, done, failed, written, found, proved, improved, failures } = summary;
  const lines = [painter.strong(`${counted(systems, 'system')}: ${done} done, ${failed} failed`), ''];
  if (done > 0) {
    lines.push(
      figures(['', 'as written', 'found']),
      figures(['ticks, all together', String(written.ticks), String(found.ticks)]),
      figures(['parts, all together', String(written.parts), String(found.parts)]),
      '',
      `Proved equal ${proved.equal}, in the fewest ticks ${proved.ticks}, with the fewest parts ${proved.parts}.`,
      '',
      'Answers by ticks',
      ...bars(summary.byTicks),
      '',
    );
  }
  if (improved.length > 0) {
    lines.push('Most improved (ticks:parts, as written and found)');
    const names = improved.map(({ name }) => shortened(name));
    const width = Math.max(...names.map((name) => name.length));
    improved.forEach(({ ticks, parts }, at) => {
      lines.push(`  ${names[at]?.padEnd(width)}  ${ticks[0]}:${parts[0]} -> ${ticks[1]}:${parts[1]}`);
    });
    lines.push('');
  }
  if (failures.length > 0) {
    lines.push('Failed');
    for (const row of failures.slice(0, MOST_FAILURES)) lines.push(`  ${visible(failureWords(row))}`);
    const more = failures.length - MOST_FAILURES;
    if (more > 0) lines.push(`  and ${more} more, all of them in summary.csv`);
    lines.push('');
  }
  lines.push(`Results, summary.csv and summary.html are in ${visible(folder)}.`);
  return `${lines.join('\n')}\n`;
}

function counted(count: number, word: string): string {
  return `${count} ${word}${count === 1 ? '' : 's'}`;
}

function figures([what = '', before = '', after = '']: readonly string[]): string {
  return `  ${what.padEnd(22)}${before.padStart(12)}${after.padStart(12)}`;
}

function bars(counts: Summary['byTicks']): string[] {
  const most = Math.max(...counts.map(([, count]) => count));
  return counts.map(([value, count]) => {
    const length = Math.max(1, Math.round((BAR * count) / most));
    return `  ${String(value).padStart(4)}  ${'#'.repeat(length)} ${count}`;
  });
}

function shortened(name: string): string {
  const text = visible(name);
  return text.length <= LONGEST_NAME ? text : `...${text.slice(3 - LONGEST_NAME)}`;
}

/** Every row of the results, one a line. */
export function summaryCsv(rows: readonly Told[]): string {
  const yes = (proved: boolean): string => (proved ? 'yes' : 'no');
  return csvTable([
    [
      ...['position', 'name', 'status', 'seed', 'ticks as written', 'parts as written', 'ticks', 'parts'],
      ...['ticks proved', 'parts proved', 'proof', 'line', 'column', 'fault'],
    ],
    ...rows.map(({ position, name, status, seed, asWritten, answer, notices }) => {
      const fault = status === 'failed' ? notices.find(({ severity }) => severity === 'error') : undefined;
      return [
        ...[position, name, status, seed ?? ''],
        ...[asWritten?.ticks ?? '', asWritten?.parts ?? '', answer?.ticks ?? '', answer?.parts ?? ''],
        ...(answer === null
          ? ['', '', '']
          : [yes(answer.ticksProved), yes(answer.partsProved), answer.proof]),
        ...[fault?.line ?? '', fault?.column ?? '', fault?.message ?? ''],
      ];
    }),
  ]);
}
