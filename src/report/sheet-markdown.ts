// The build sheet as Markdown: tables with a box in each row.

import { visible } from '../../grammar/quote.ts';
import { type Lead, leadWords, type Sheet } from './sheet.ts';
import { totalsWords } from './sheet-text.ts';

/** A text that means only itself inside a table of Markdown. */
export function plainMarkdown(text: string): string {
  return visible(text).replace(/[\\`*_{}[\]<>()#+!|~&$=^:.-]/g, (sign) => `\\${sign}`);
}

function row(cells: readonly string[]): string {
  return `| ${cells.join(' | ')} |`;
}

function table(head: readonly string[], rows: readonly (readonly string[])[]): string[] {
  return [row(head), row(head.map(() => '---')), ...rows.map(row)];
}

function places(leads: readonly Lead[]): string {
  if (leads.length === 1) return plainMarkdown(leadWords(leads[0]));
  return leads.map((lead, at) => `lead ${at + 1}: ${plainMarkdown(leadWords(lead))}`).join('<br>');
}

/** The sheet as Markdown. */
export function sheetMarkdown(sheet: Sheet): string {
  const { patterns } = sheet;
  const box = '\u2610';
  const levels = (values: readonly (0 | 1)[]): string[] => values.map(String);
  const names = (list: readonly string[]): string => list.map(plainMarkdown).join(', ');
  return [
    `# Build sheet: ${plainMarkdown(sheet.source)}`,
    '',
    `${sheet.ticks} ticks, ${sheet.parts} parts, target ${plainMarkdown(sheet.target)}; ${sheet.proof}. ${totalsWords(sheet)}`,
    '',
    `The columns ${patterns.join(', ')} are input patterns: put one on, and everything built so far shows these levels.`,
    '',
    '## Inputs',
    '',
    ...table(
      ['', 'wire', 'rail', 'tick', ...patterns, 'goes to'],
      sheet.inputs.map(({ wire, rail, tick, leads, levels: shown }) => [
        box,
        plainMarkdown(wire),
        `active-${rail}`,
        String(tick),
        ...levels(shown),
        places(leads),
      ]),
    ),
    ...sheet.steps.flatMap(({ tick, inverters, joins }) => [
      '',
      `## Tick ${tick}`,
      '',
      ...table(
        ['', 'part', 'wire', 'legs', ...patterns, 'goes to', 'carries'],
        [
          ...inverters.map(({ wire, legs, leads, copyOf, meaning, levels: shown }) => [
            box,
            copyOf === null ? 'inverter' : `inverter, copy of ${plainMarkdown(copyOf)}`,
            plainMarkdown(wire),
            names(legs),
            ...levels(shown),
            places(leads),
            meaning === null ? '' : plainMarkdown(meaning),
          ]),
          ...joins.map(({ name, legs, to, levels: shown }) => [
            box,
            'join',
            plainMarkdown(name),
            names(legs),
            ...levels(shown),
            names(to),
            '',
          ]),
        ],
      ),
    ]),
    '',
    '## Outputs',
    '',
    ...table(
      ['', 'output', 'rail', 'tick', ...patterns, 'comes from'],
      sheet.outputs.map(({ name, rail, tick, from, levels: shown }) => [
        box,
        plainMarkdown(name),
        `active-${rail}`,
        String(tick),
        ...levels(shown),
        plainMarkdown(from),
      ]),
    ),
    '',
  ].join('\n');
}
