// The build sheet as plain text of at most 80 columns, with a box before everything that is to be done.

import { visible } from '../../grammar/quote.ts';
import { paragraph, prose } from './paragraph.ts';
import { type Lead, leadWords, type Sheet, type SheetStep } from './sheet.ts';

const BOX = '[ ]';

function counted(count: number, word: string, many = `${word}s`): string {
  return `${count} ${count === 1 ? word : many}`;
}

/** What there is to build, in one sentence. */
export function totalsWords({ totals }: Sheet): string {
  const { inverters, copies, joins, legs, wires, saved } = totals;
  const copied = copies > 0 ? ` (${copies} of them copies)` : '';
  const spared = saved > 0 ? `; laying common legs once saves ${counted(saved, 'wire')}` : '';
  return `${counted(inverters, 'inverter')}${copied} with ${counted(legs, 'leg')}, ${counted(joins, 'join')}, ${counted(wires, 'wire')} to lay${spared}.`;
}

function leadsWords(leads: readonly Lead[]): string[] {
  if (leads.length === 0) return ['goes nowhere'];
  if (leads.length === 1) return `to ${leadWords(leads[0])}`.split(' ');
  return leads.flatMap((lead, at) =>
    `${at === 0 ? '' : '| '}lead ${at + 1} to ${leadWords(lead)}`.split(' '),
  );
}

function levels(values: readonly (0 | 1)[]): string {
  return values.join(' ');
}

function stepLines(sheet: Sheet, { tick, inverters, joins }: SheetStep): string[] {
  const wide = Math.max(
    ...inverters.map(({ wire }) => wire.length),
    ...joins.map(({ name }) => name.length),
    4,
  );
  const column = Math.min(wide, 24);
  const lines = ['', `Tick ${tick}`, `  ${'   '} ${'wire'.padEnd(column)}  ${sheet.patterns.join(' ')}`];
  for (const { wire, legs, leads, copyOf, meaning, levels: shown } of inverters) {
    const head = `  ${BOX} ${wire.padEnd(column)}  ${levels(shown)}  `;
    const margin = ' '.repeat(8 + column + 2 * sheet.patterns.length);
    lines.push(...paragraph(['legs', ...legs], head));
    lines.push(...paragraph(leadsWords(leads), margin));
    if (copyOf !== null) lines.push(...paragraph(`a copy of ${copyOf}`.split(' '), margin));
    if (meaning !== null) lines.push(...paragraph(`= ${meaning}`.split(' '), margin));
  }
  for (const { name, legs, to, levels: shown } of joins) {
    const head = `  ${BOX} ${name.padEnd(column)}  ${levels(shown)}  `;
    lines.push(...paragraph(['join', 'of', ...legs], head));
    lines.push(
      ...paragraph(['to', ...to.join(', ').split(' ')], ' '.repeat(8 + column + 2 * sheet.patterns.length)),
    );
  }
  return lines;
}

/** The sheet as text. */
export function sheetText(sheet: Sheet): string {
  const rule = sheet.logic === 'or' ? '1 only while all its legs are 0' : '0 only while all its legs are 1';
  const names = sheet.inputs.map(({ wire }) => wire.length);
  const column = Math.min(24, Math.max(4, ...names, ...sheet.outputs.map(({ name }) => name.length)));
  const margin = ' '.repeat(8 + column + 2 * sheet.patterns.length);
  return [
    `Build sheet: ${visible(sheet.source)}, target ${sheet.target}`,
    `${counted(sheet.ticks, 'tick')}, ${counted(sheet.parts, 'part')}; ${sheet.proof}`,
    '',
    ...prose(totalsWords(sheet), ''),
    '',
    ...prose(
      `An inverter is ${rule}. A join ties its legs together. Leads of one wire are laid from separate ends and never ` +
        'tied. Build tick by tick. The columns ' +
        `${sheet.patterns.join(', ')} are input patterns: put one on, and everything built so far shows these levels.`,
      '',
    ),
    '',
    'Inputs',
    `      ${'wire'.padEnd(column)}  ${sheet.patterns.join(' ')}`,
    ...sheet.inputs.flatMap(({ wire, rail, tick, leads, levels: shown }) => [
      ...paragraph(
        [`active-${rail},`, 'tick', `${tick}`],
        `  ${BOX} ${wire.padEnd(column)}  ${levels(shown)}  `,
      ),
      ...paragraph(leadsWords(leads), margin),
    ]),
    ...sheet.steps.flatMap((step) => stepLines(sheet, step)),
    '',
    'Outputs',
    `      ${'name'.padEnd(column)}  ${sheet.patterns.join(' ')}`,
    ...sheet.outputs.flatMap(({ name, rail, tick, from, levels: shown }) =>
      paragraph(
        `active-${rail}, tick ${tick}, from ${from}`.split(' '),
        `  ${BOX} ${name.padEnd(column)}  ${levels(shown)}  `,
      ),
    ),
    '',
  ]
    .map(visible)
    .join('\n');
}
