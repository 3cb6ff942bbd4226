// The report: one page that holds everything and asks for nothing. It is read from top to bottom without scripts, and
// its policy lets nothing in but its own style and script, both named by their digests. Other parts of the program hand
// in sections as plain data (conflicts, timing), which are shown in the order given.

import { frontierPlot } from './frontier-plot.ts';
import type { Transition } from './levels.ts';
import { PAGE_SCRIPT } from './page-script.ts';
import { PAGE_STYLE } from './page-style.ts';
import { type Frame, pictureElement } from './picture.ts';
import type { Point, Result } from './result.ts';
import { sha256 } from './sha256.ts';
import { type Lead, leadWords, type Sheet } from './sheet.ts';
import { totalsWords } from './sheet-text.ts';
import { escaped } from './svg-text.ts';

export interface PageTable {
  readonly caption: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** A section that another part of the program has to say. */
export interface PageSection {
  /** Lower-case letters and hyphens. */
  readonly id: string;
  readonly title: string;
  readonly paragraphs: readonly string[];
  /** Shown in a face of equal widths, line by line. */
  readonly listing?: string;
  readonly tables?: readonly PageTable[];
  readonly pictures?: readonly Frame[];
}

export interface PageParts {
  readonly result: Result;
  readonly point: Point;
  /** The text of the equations. */
  readonly text: string;
  readonly schematic: Frame;
  readonly sheet: Sheet;
  readonly waveforms: { readonly frame: Frame; readonly transition: Transition } | null;
  /** Conflicts and ways out, timing: shown behind the rails. */
  readonly sections: readonly PageSection[];
  /** What was typed, to do the same again. */
  readonly command: string;
}

function counted(count: number, word: string): string {
  return `${count} ${word}${count === 1 ? '' : 's'}`;
}

const paragraph = (text: string, kind = ''): string =>
  `<p${kind === '' ? '' : ` class="${kind}"`}>${escaped(text)}</p>`;

/** A table; the first column heads its row. */
function table(
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

function picture(frame: Frame, prefix: string, kind = ''): string {
  const label = escaped(`${frame.title}, picture`);
  return `<section class="scroll" tabindex="0" aria-label="${label}">\n${pictureElement(frame, `picture-${prefix}`, false, kind)}\n</section>`;
}

function answerWords({ fastest, asWritten }: Result, point: Point): string {
  const names = [...new Set(point.network.outputs.map(({ name }) => name))];
  const list = names.length > 8 ? `${names.length} outputs` : names.join(', ');
  const settle = names.length === 1 ? 'settles' : 'settle';
  const written =
    asWritten === null
      ? ''
      : ` As written they take ${counted(asWritten.ticks, 'tick')} and ${counted(asWritten.parts, 'part')}.`;
  const bound =
    fastest?.proved && fastest.ticks === point.ticks ? ' Nothing settles sooner; that is proved.' : '';
  const fewest = point.partsProved
    ? ` No network of ${counted(point.ticks, 'tick')} has fewer parts; that is proved.`
    : '';
  return `${list} ${settle} in ${counted(point.ticks, 'tick')} with ${counted(point.parts, 'part')}.${bound}${fewest}${written}`;
}

function figures({ points, fastest, asWritten }: Result, point: Point): string {
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

function wireTable({ network }: Point): string {
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

function railTable({ rails, network }: Point): string {
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
function sheetTables({ patterns, inputs, steps, outputs }: Sheet): string {
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

function proofSection({ proof, network }: Point): string {
  const inputs = new Set(network.inputs.map(({ name }) => name)).size;
  if (proof.verdict === 'equal') {
    const how =
      proof.method === 'solver'
        ? `on every pattern of the ${counted(inputs, 'input')}: a solver found no other way, and its steps were checked`
        : `over ${proof.patterns === undefined ? 'all patterns' : counted(proof.patterns, 'pattern')} of the ${counted(inputs, 'input')}`;
    return paragraph(`The network is equal to the equations ${how}.`, 'good');
  }
  if (proof.verdict === 'undecided')
    return paragraph('NOT PROVED: the proof did not come to an end within its limit.', 'bad');
  const at = Object.entries(proof.counterexample ?? {}).map(([name, level]) => `${name}=${level}`);
  return paragraph(`DIFFERENT from the equations; do not build this. They differ at ${at.join(' ')}.`, 'bad');
}

function sectionOf({ paragraphs, listing, tables = [], pictures = [], id }: PageSection): string {
  return [
    ...paragraphs.map((words) => paragraph(words)),
    ...(listing === undefined ? [] : [`<pre>${lines(listing)}</pre>`]),
    ...tables.map(({ caption, head, rows }) => table(caption, head, rows)),
    ...pictures.map((frame, at) => picture(frame, `${id}-${at}-`)),
  ].join('\n');
}

/** Lines of a text, each made safe by itself so that line feeds stay. */
function lines(text: string): string {
  return text.split(/\r?\n/).map(escaped).join('\n').trimEnd();
}

function stepper(transition: Transition): string {
  const last = transition.steps.length;
  return [
    '<div class="stepper" id="stepper" hidden>',
    `<label for="at">Step through the ticks of the slowest transition found</label><br>`,
    `<input type="range" id="at" min="0" max="${last}" value="0" step="1"> <output id="step" for="at">before the change</output>`,
    '</div>',
  ].join('\n');
}

/** The whole page. */
export function reportPage(parts: PageParts): string {
  const { result, point, text, schematic, sheet, waveforms, sections, command } = parts;
  const plot = result.points.length > 1 ? frontierPlot(result) : null;
  const names = [...new Set(point.network.outputs.map(({ name }) => name))];
  const title = `${names.length > 4 ? `${names.slice(0, 3).join(', ')} and ${names.length - 3} more` : names.join(', ')} in inverters and joined wires`;
  const rule =
    (result.join ?? 'or') === 'or'
      ? 'Joined wires are OR: 1 while any of them is 1. An inverter is 1 only while all its legs, the wires at its input, are 0.'
      : 'Joined wires are AND: 1 only while all of them are 1. An inverter is 0 only while all its legs, the wires at its input, are 1.';
  const all: { id: string; title: string; body: string }[] = [
    { id: 'equations', title: 'Equations', body: `<pre>${lines(text)}</pre>` },
    {
      id: 'answer',
      title: 'Answer',
      body: [
        paragraph(answerWords(result, point)),
        paragraph(
          'Ticks count the delay from the inputs to the latest output, parts what is to be built.',
          'dim',
        ),
        figures(result, point),
      ].join('\n'),
    },
    ...(plot === null
      ? []
      : [{ id: 'frontier', title: 'Ticks against parts', body: picture(plot, 'frontier-') }]),
    {
      id: 'schematic',
      title: 'Schematic',
      body: [
        paragraph(`${rule} One column for each tick.`),
        waveforms === null ? '' : stepper(waveforms.transition),
        picture(schematic, 'schematic-', ' schematic'),
        '<p class="told dim" id="told" aria-live="polite"></p>',
        wireTable(point),
      ].join('\n'),
    },
    {
      id: 'rails',
      title: 'Rails',
      body: `${paragraph('On an active-high wire the level is the signal, on an active-low wire it is the opposite.')}\n${railTable(point)}`,
    },
    ...sections.map((section) => ({ id: section.id, title: section.title, body: sectionOf(section) })),
    ...(waveforms === null
      ? []
      : [
          {
            id: 'transition',
            title: 'Slowest transition',
            body: `${paragraph('Of the transitions tried, the one whose outputs change last. A raised bar is level 1.')}\n${picture(waveforms.frame, 'waves-')}`,
          },
        ]),
    {
      id: 'build',
      title: 'Build sheet',
      body: [
        paragraph(totalsWords(sheet)),
        paragraph(
          `Build tick by tick. The columns ${sheet.patterns.join(', ')} are input patterns: put one on, and everything built so far shows these levels.`,
        ),
        sheetTables(sheet),
      ].join('\n'),
    },
    { id: 'proof', title: 'Proof', body: proofSection(point) },
    ...(result.notices.length === 0
      ? []
      : [
          {
            id: 'notices',
            title: 'Notices',
            body: `<ul>${result.notices.map(({ severity, message, hint, line }) => `<li>${escaped(`${severity}${line === null ? '' : `, line ${line}`}: ${message}${hint === undefined ? '' : `; ${hint}`}`)}</li>`).join('')}</ul>`,
          },
        ]),
    {
      id: 'again',
      title: 'To do the same again',
      body: `<pre>${lines(command)}</pre>\n${table(
        'Made with',
        ['what', 'value'],
        [
          ['version', result.version],
          ['source', result.source],
          ['target', result.target],
          ['effort', result.effort],
          ['seed', String(result.seed)],
          ['the search ended', result.stop],
        ],
      )}`,
    },
  ];
  const policy = `default-src 'none'; style-src 'sha256-${sha256(PAGE_STYLE)}'; script-src 'sha256-${sha256(PAGE_SCRIPT)}'; base-uri 'none'; form-action 'none'`;
  return [
    '<!DOCTYPE html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="${policy}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    '<meta name="referrer" content="no-referrer">',
    `<title>${escaped(title)}</title>`,
    `<style>${PAGE_STYLE}</style>`,
    '</head>',
    '<body>',
    '<a class="skip" href="#equations">Skip to the report</a>',
    '<header>',
    `<h1>${escaped(title)}</h1>`,
    paragraph(answerWords(result, point), 'lead'),
    `<nav aria-label="Contents"><ul>${all.map(({ id, title: name }) => `<li><a href="#${id}">${escaped(name)}</a></li>`).join('')}</ul></nav>`,
    '</header>',
    '<main>',
    ...all.map(
      ({ id, title: name, body }) =>
        `<section id="${id}" aria-labelledby="${id}-title">\n<h2 id="${id}-title">${escaped(name)}</h2>\n${body}\n</section>`,
    ),
    '</main>',
    `<script>${PAGE_SCRIPT}</script>`,
    '</body>',
    '</html>',
    '',
  ].join('\n');
}
