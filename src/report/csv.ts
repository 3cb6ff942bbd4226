// Tables as CSV (RFC 4180): commas, quotes doubled, CR LF at the end of each line. A cell that a spreadsheet would take
// for a formula gets an apostrophe before it, which spreadsheets do not show.

import { visible } from '../../grammar/quote.ts';
import type { Point, Result } from './result.ts';
import { leadWords, type Sheet } from './sheet.ts';

/** One cell. */
export function csvCell(value: string | number): string {
  if (typeof value === 'number') return String(value);
  const text = visible(value);
  const safe = /^[\s]*[=+\-@\uff1d\uff0b\uff0d\uff20]/.test(text) ? `'${text}` : text;
  return /[",\r\n;\t]/.test(safe) || safe !== safe.trim() ? `"${safe.replaceAll('"', '""')}"` : safe;
}

export function csvTable(rows: readonly (readonly (string | number)[])[]): string {
  return rows.map((row) => `${row.map(csvCell).join(',')}\r\n`).join('');
}

/** All points of a result. */
export function frontierCsv(result: Result): string {
  return csvTable([
    ['ticks', 'parts', 'copies', 'legs', 'ticks proved', 'parts proved', 'proof'],
    ...result.points.map(({ ticks, parts, copies, legs, ticksProved, partsProved, proof }) => [
      ticks,
      parts,
      copies,
      legs,
      ticksProved ? 'yes' : 'no',
      partsProved ? 'yes' : 'no',
      proof.verdict,
    ]),
  ]);
}

/** Every wire of a network, one a row. */
export function networkCsv(point: Point): string {
  const { inputs, inverters, outputs } = point.network;
  return csvTable([
    ['kind', 'name', 'tick', 'rail', 'legs', 'copy of', 'carries'],
    ...inputs.map(({ name, wire, tick, rail }) => ['input', wire, tick, `active-${rail}`, '', '', name]),
    ...inverters.map(({ wire, legs, tick, copyOf, meaning }) => [
      'inverter',
      wire,
      tick,
      '',
      legs.join(' '),
      copyOf ?? '',
      meaning ?? '',
    ]),
    ...outputs.map(({ name, rail, legs, tick, meaning }) => [
      'output',
      name,
      tick,
      `active-${rail}`,
      legs.join(' '),
      '',
      meaning ?? '',
    ]),
  ]);
}

/** The build sheet, one thing to do a row. */
export function sheetCsv(sheet: Sheet): string {
  const { patterns } = sheet;
  return csvTable([
    [
      'done',
      'tick',
      'part',
      'name',
      'legs',
      'goes to',
      ...patterns.map((name) => `level at ${name}`),
      'carries',
    ],
    ...sheet.inputs.map(({ wire, tick, rail, leads, levels }) => [
      '',
      tick,
      `input, active-${rail}`,
      wire,
      '',
      leads.map(leadWords).join(' | '),
      ...levels,
      '',
    ]),
    ...sheet.steps.flatMap(({ tick, inverters, joins }) => [
      ...inverters.map(({ wire, legs, leads, copyOf, meaning, levels }) => [
        '',
        tick,
        copyOf === null ? 'inverter' : `inverter, copy of ${copyOf}`,
        wire,
        legs.join(' '),
        leads.map(leadWords).join(' | '),
        ...levels,
        meaning ?? '',
      ]),
      ...joins.map(({ name, legs, to, levels }) => [
        '',
        tick,
        'join',
        name,
        legs.join(' '),
        to.join(', '),
        ...levels,
        '',
      ]),
    ]),
    ...sheet.outputs.map(({ name, rail, tick, from, levels }) => [
      '',
      tick,
      `output, active-${rail}`,
      name,
      from,
      '',
      ...levels,
      '',
    ]),
  ]);
}
