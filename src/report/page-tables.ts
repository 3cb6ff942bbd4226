// Pieces of the report page: paragraphs, tables, pictures, and the tables that show a network, its rails and its build
// sheet.

import { type Frame, pictureElement } from './picture.ts';
import type { Point, Result } from './result.ts';
import { type Lead, leadWords, type Sheet } from './sheet.ts';
import { escaped } from './svg-text.ts';

/** `3 ticks`, `1 tick`. */
export function counted(count: number, word: string): string {
  return `${count} ${word}${count === 1 ? '' : 's'}`;
}

/** A paragraph of running text. */
export const paragraph = (text: string, kind = ''): string =>
  `<p${kind === '' ? '' : ` class="${kind}"`}>${escaped(text)}</p>`;

/** A table; the first column heads its row. */
export function table(
  caption: string,
  head: readonly string[],
  rows: readonly (readonly string[])[],
  kinds: readonly string[] = [],
  raw: ReadonlySet<number> = new Set(),
): string {
  const kind = (at: number): string => (kinds[at] ? ` class="${kinds[at]}"` : '');
  const cell = (content: string, at: number): string => {
    const inside = raw.has(at) ? content : escaped(content);
    return at === 0 ? `<th scope="row"${kind(0)}>${inside}</th>` : `<td${kind(at)}>${inside}</td>`;
  };
  return [
    '<div class="scroll">',
    `<table><caption>${escaped(caption)}</caption>`,
    `<thead><tr>${head.map((name, at) => `<th scope="col"${kind(at)}>${escaped(name)}</th>`).join('')}</tr></thead>`,
    `<tbody>${rows.map((row) => `<tr>${row.map(cell).join('')}</tr>`).join('\n')}</tbody></table>`,
    '</div>',
  ].join('\n');
}

/** A picture in a frame that scrolls. */
export function picture(frame: Frame, prefix: string, kind = ''): string {
  const label = escaped(`${frame.title}, picture`);
  return `<section class="scroll" tabindex="0" aria-label="${label}">\n${pictureElement(frame, `picture-${prefix}`, false, kind)}\n</section>`;
}

/** Found against written. */
export function figures({ points, fastest, asWritten }: Result, point: Point): string {
  const rows = points.map((other) => [
    other === point ? 'answer' : 'found',
    String(other.ticks),
    String(other.parts),
    other.partsProved
      ? 'no network of these ticks has fewer parts: proved'
      : 'best found; a smaller one may exist',
  ]);
  if (fastest !== null)
    rows.push([
      'fastest',
      String(fastest.ticks),
      fastest.parts === null ? '' : String(fastest.parts),
      fastest.proved ? 'nothing settles sooner: proved' : 'a bound; none found so fast',
    ]);
  if (asWritten !== null)
    rows.push([
      'as written',
      String(asWritten.ticks),
      String(asWritten.parts),
      'every operator a gate of its own',
    ]);
  return table('Found against written', ['', 'ticks', 'parts', 'what is known'], rows, [
    '',
    'number',
    'number',
  ]);
}

/** Inverters and outputs with their legs and what they carry. */
export function wireTable({ network }: Point): string {
  const rows = [...network.inverters]
    .sort((a, b) => a.tick - b.tick)
    .map(({ wire, tick, legs, meaning, copyOf }) => [
      wire,
      String(tick),
      legs.join(' '),
      `${meaning ?? ''}${copyOf === undefined ? '' : ` (a copy of ${copyOf})`}`,
    ]);
  const outputs = network.outputs.map(({ name, tick, legs, meaning, rail }) => [
    name,
    String(tick),
    legs.join(' '),
    meaning ?? `active-${rail}`,
  ]);
  return [
    rows.length === 0
      ? paragraph('There is nothing to invert.')
      : table('Inverters, by tick', ['wire', 'tick', 'legs', 'carries'], rows, [
          'name',
          'number',
          'name',
          'name',
        ]),
    table('Outputs', ['output', 'tick', 'join of', 'carries'], outputs, ['name', 'number', 'name', 'name']),
  ].join('\n');
}

const RAIL_WORDS: Readonly<Record<string, string>> = {
  high: 'active-high',
  low: 'active-low',
  both: 'both rails',
  absorbed: 'no wire of its own',
  split: 'active-high for some readers, active-low for others',
};

/** On which rail every signal is. */
export function railTable({ rails, network }: Point): string {
  if (rails.length === 0) {
    const ports = [...network.inputs, ...network.outputs].map(({ name, rail, tick }) => [
      name,
      RAIL_WORDS[rail],
      '',
      String(tick),
    ]);
    return table('Rails of inputs and outputs', ['signal', 'rail', 'wires', 'tick'], ports, [
      'name',
      '',
      'name',
      'number',
    ]);
  }
  const rows = rails.map(({ signal, rail, wires, tick }) => [
    signal,
    RAIL_WORDS[rail],
    wires.join(' '),
    tick === null ? '' : String(tick),
  ]);
  return table('Rails of all named signals', ['signal', 'rail', 'wires', 'tick'], rows, [
    'name',
    '',
    'name',
    'number',
  ]);
}

/** The build sheet with boxes that can be ticked without a script. */
export function sheetTables({ patterns, inputs, steps, outputs }: Sheet): string {
  let boxes = 0;
  const box = (name: string): string => {
    const id = `done-${boxes++}`;
    return `<input type="checkbox" id="${id}"> <label for="${id}">${escaped(name)}</label>`;
  };
  const levels = (values: readonly (0 | 1)[]): string[] => values.map(String);
  const places = (leads: readonly Lead[]): string =>
    leads.length === 1
      ? leadWords(leads[0])
      : leads.map((lead, at) => `lead ${at + 1} to ${leadWords(lead)}`).join('; ');
  const kinds = ['name', '', ...patterns.map(() => 'level'), 'name', 'name'];
  const raw = new Set([0]);
  const shown = (caption: string, head: readonly string[], rows: readonly (readonly string[])[]): string =>
    table(caption, head, rows, kinds, raw);
  return [
    shown(
      'Inputs',
      ['wire', 'rail', ...patterns, 'goes to'],
      inputs.map(({ wire, rail, levels: at, leads }) => [
        box(wire),
        `active-${rail}`,
        ...levels(at),
        places(leads),
      ]),
    ),
    ...steps.map(({ tick, inverters, joins }) =>
      shown(
        `Tick ${tick}`,
        ['wire', 'part', ...patterns, 'legs', 'goes to'],
        [
          ...inverters.map(({ wire, legs, leads, levels: at, copyOf }) => [
            box(wire),
            copyOf === null ? 'inverter' : `inverter, a copy of ${copyOf}`,
            ...levels(at),
            legs.join(' '),
            places(leads),
          ]),
          ...joins.map(({ name, legs, to, levels: at }) => [
            box(name),
            'join',
            ...levels(at),
            legs.join(' '),
            to.join(', '),
          ]),
        ],
      ),
    ),
    shown(
      'Outputs',
      ['output', 'rail', ...patterns, 'comes from'],
      outputs.map(({ name, rail, from, levels: at }) => [box(name), `active-${rail}`, ...levels(at), from]),
    ),
  ].join('\n');
}

/** Lines of a text, each made safe by itself so that line feeds stay. */
export function lines(text: string): string {
  return text.split(/\r?\n/).map(escaped).join('\n').trimEnd();
}
