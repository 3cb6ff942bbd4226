// The summary of a batch as one page that needs nothing else: totals, distributions as bars, the most improved, the
// failed. Names come from files of anybody and are escaped; the page allows its own style and nothing more.

import { visible } from '../../grammar/quote.ts';
import { framedPage } from '../report/page-frame.ts';
import { counted, paragraph, table } from '../report/page-tables.ts';
import { escaped } from '../report/svg-text.ts';
import { failureWords, type Summary } from './summary.ts';

const MOST_FAILURES = 500;
const WIDTH = 520;
const ROW = 22;
const LABEL = 60;

export function summaryPage(summary: Summary, target: string, version: string): string {
  const { systems, done, failed, written, found, proved, improved, failures } = summary;
  const title = `Batch of ${counted(systems, 'system')}`;
  const numbers = ['name', 'number', 'number'];
  const totals = table(
    'All systems that are done, together',
    ['', 'as written', 'found'],
    [
      ['ticks', String(written.ticks), String(found.ticks)],
      ['parts', String(written.parts), String(found.parts)],
    ],
    numbers,
  );
  const proofs = table(
    'What is proved',
    ['', 'systems'],
    [
      ['equal to the equations', String(proved.equal)],
      ['no network has fewer ticks', String(proved.ticks)],
      ['no network of these ticks has fewer parts', String(proved.parts)],
    ],
    ['', 'number'],
  );
  const sections: [string, string][] = [];
  if (done > 0) {
    sections.push(['Totals', `${totals}\n${proofs}`]);
    sections.push(['Answers by ticks', bars('ticks', summary.byTicks)]);
    sections.push(['Answers by parts', bars('parts', summary.byParts)]);
  }
  if (improved.length > 0) {
    const rows = improved.map(({ name, ticks, parts }) => [
      visible(name),
      ...[...ticks, ...parts].map(String),
    ]);
    const head = ['system', 'ticks as written', 'ticks', 'parts as written', 'parts'];
    const kinds = ['name', 'number', 'number', 'number', 'number'];
    sections.push([
      'Most improved',
      table('Those that gained most ticks, then most parts', head, rows, kinds),
    ]);
  }
  if (failures.length > 0) {
    const rows = failures
      .slice(0, MOST_FAILURES)
      .map((row) => [String(row.position), visible(failureWords(row))]);
    const more = failures.length - MOST_FAILURES;
    const rest = more > 0 ? paragraph(`And ${more} more; all of them are in summary.csv.`) : '';
    sections.push(['Failed', `${table('Place, and what is wrong', ['position', 'fault'], rows)}\n${rest}`]);
  }
  const body = [
    '<header>',
    `<h1>${escaped(title)}</h1>`,
    paragraph(`${done} done, ${failed} failed. Target ${target}, tickwright ${version}.`, 'lead'),
    '</header>',
    '<main>',
    ...sections.map(([name, content]) => `<section>\n<h2>${escaped(name)}</h2>\n${content}\n</section>`),
    '</main>',
  ];
  return framedPage(title, body, null);
}

/** A bar for each value that occurs, as long as it is frequent. */
function bars(what: string, counts: Summary['byTicks']): string {
  const most = Math.max(...counts.map(([, count]) => count));
  const height = ROW * counts.length;
  const rows = counts.map(([value, count], at) => {
    const y = at * ROW;
    const length = Math.max(1, Math.round(((WIDTH - LABEL - 80) * count) / most));
    const text = (x: number, words: string, anchor: string): string =>
      `<text x="${x}" y="${y + 15}" text-anchor="${anchor}" fill="currentColor" font-size="13">${words}</text>`;
    return [
      text(LABEL - 8, String(value), 'end'),
      `<rect x="${LABEL}" y="${y + 3}" width="${length}" height="${ROW - 7}" fill="currentColor" opacity="0.55"/>`,
      text(LABEL + length + 6, String(count), 'start'),
    ].join('');
  });
  return [
    `<svg viewBox="0 0 ${WIDTH} ${height}" width="${WIDTH}" height="${height}" role="img"`,
    ` aria-label="How many answers have so many ${escaped(what)}">${rows.join('\n')}</svg>`,
  ].join('');
}
