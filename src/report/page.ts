// The report: one page that holds everything and asks for nothing. It is read from top to bottom without scripts, and
// its policy lets nothing in but its own style and script, both named by their digests. Other parts of the program hand
// in sections as plain data (conflicts, timing), which are shown in the order given.

import { frontierPlot } from './frontier-plot.ts';
import type { Transition } from './levels.ts';
import { framedPage } from './page-frame.ts';
import { PAGE_SCRIPT } from './page-script.ts';
import {
  counted,
  figures,
  lines,
  paragraph,
  picture,
  railTable,
  sheetTables,
  table,
  wireTable,
} from './page-tables.ts';
import type { Frame } from './picture.ts';
import type { Point, Result } from './result.ts';
import type { Sheet } from './sheet.ts';
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
  const body = [
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
  ];
  return framedPage(title, body, PAGE_SCRIPT);
}
