// The screen for people: 80 columns, readable without colour, made from the result object alone. First the answer, then
// the rails, the inverters by tick, the joins of the outputs, the proof, the notices. Words that the trade does not
// know are explained in a line of their own where they first appear.

import { visible } from '../../grammar/quote.ts';
import { frontierLines } from './frontier-text.ts';
import { inverterLines, outputLines, railLines } from './network-text.ts';
import { type Painter, PLAIN } from './painter.ts';
import { counted, paragraph, prose, WIDTH } from './paragraph.ts';
import type { Notice, Point, Proof, Result } from './result.ts';
import { sharingLines } from './sharing-text.ts';

export interface TextOptions {
  readonly painter: Painter;
  /**
   * Texts of the notices from someone who has the source at hand and can show the lines meant; null to print them
   * from the result, with line and column only.
   */
  readonly notices: readonly string[] | null;
}

const INDENT = '  ';

/** A heading with its lines, and an empty line before it. */
function section(heading: string, lines: readonly string[], painter: Painter): string[] {
  return ['', painter.strong(heading), ...lines];
}

/** The networks that are shown: of a whole frontier the answer alone. */
function shownPoints({ points, chosen }: Result): readonly Point[] {
  return chosen === undefined ? points : points.slice(chosen, chosen + 1);
}

function headLine(result: Result): string {
  return `${visible(result.source)}, target ${result.target}`;
}

function outputNames(point: Point): string {
  const names = [...new Set(point.network.outputs.map((output) => output.name))];
  const list = names.length > 1 ? `${names.slice(0, -1).join(', ')} and ${names.at(-1)}` : names.join();
  return list.length <= WIDTH - 40 ? list : `The ${names.length} outputs`;
}

function answerLine(point: Point): string {
  const names = outputNames(point);
  const many = new Set(point.network.outputs.map((output) => output.name)).size > 1;
  if (point.parts === 0) return `${names} ${many ? 'take' : 'takes'} no parts: there is nothing to invert.`;
  const settle = many ? 'settle' : 'settles';
  const take = many ? 'take' : 'takes';
  return `${names} ${settle} in ${counted(point.ticks, 'tick')} and ${take} ${counted(point.parts, 'part')}.`;
}

function noAnswerLine({ stop }: Result): string {
  return stop === 'cut short'
    ? 'Nothing had been found yet.'
    : 'No network was found that keeps what was asked for.';
}

/** `found`, `fastest` and `as written` beside each other, each with what is known about it. */
function figures(result: Result, painter: Painter): string[] {
  const lines = [painter.faint(`${INDENT}            ticks  parts`)];
  const row = (name: string, ticks: number, parts: number | null, remark: string, proved: boolean): void => {
    const numbers = `${String(ticks).padStart(5)}  ${String(parts ?? '?').padStart(5)}`;
    lines.push(`${INDENT}${name.padEnd(12)}${numbers}   ${proved ? painter.good(remark) : remark}`);
  };
  for (const { ticks, parts, partsProved, provedApart } of shownPoints(result)) {
    const remark = partsProved
      ? `proved: no network of ${counted(ticks, 'tick')} has fewer parts`
      : provedApart === undefined
        ? 'best found; a smaller one may exist'
        : `best found; each of ${provedApart} sets proved smallest`;
    row('found', ticks, parts, remark, partsProved);
  }
  if (result.fastest) {
    const { ticks, parts, proved } = result.fastest;
    const built = parts === null ? '; not built' : '';
    const bound = 'a bound: nothing settles sooner; none found so fast';
    row('fastest', ticks, parts, proved ? `proved: nothing settles sooner${built}` : bound, proved);
  }
  if (result.asWritten) {
    const { ticks, parts } = result.asWritten;
    row('as written', ticks, parts, 'every operator of the equations a gate of its own', false);
  }
  return lines;
}

/** What ticks and parts are, in the figures of this answer. */
function vocabulary(result: Result, painter: Painter): string[] {
  const parts = shownPoints(result).map((point) => {
    const copies =
      point.copies > 0 ? `, ${point.copies} of them copies of another that feeds too many wires` : '';
    return `${counted(point.network.inverters.length, 'inverter')}${copies}`;
  });
  const here = parts.length === 1 ? `, here ${parts[0]}` : '';
  const text = `Ticks count the delay from the inputs to the latest output, parts what is to be built${here}.`;
  return prose(text, INDENT).map((line) => painter.faint(line));
}

function proofLines(proof: Proof, inputs: number, painter: Painter): string[] {
  if (proof.verdict === 'different') {
    const levels = Object.entries(proof.counterexample ?? {}).map(([name, level]) => `${name}=${level}`);
    return [
      ...prose('DIFFERENT from the equations. This is a fault of the program; do not build this.', INDENT),
      ...(levels.length > 0 ? paragraph(levels, `${INDENT}They differ at `) : []),
    ].map((line) => painter.bad(line));
  }
  if (proof.verdict === 'undecided') {
    const text =
      'NOT PROVED: the proof did not come to an end within its limit. Nothing speaks against it so far.';
    return prose(text, INDENT).map((line) => painter.bad(line));
  }
  return prose(`Equal to the equations ${extent(proof, inputs)}.`, INDENT).map((line) => painter.good(line));
}

/** Over what the equality was shown. */
function extent(proof: Proof, inputs: number): string {
  const of = `of the ${counted(inputs, 'input')}`;
  if (proof.method === 'solver')
    return `on every pattern ${of}: a solver found no other way, its steps were checked`;
  if (proof.patterns === undefined) return `over all patterns ${of}`;
  if (inputs === 0) return 'over the one pattern there is';
  const all = 2 ** inputs;
  return proof.patterns === all
    ? `over all ${all} patterns ${of}`
    : `over the ${counted(proof.patterns, 'pattern')} that can happen, of ${all}`;
}

function noticeText(notice: Notice): string {
  const place = notice.line === null ? '' : `line ${notice.line}, column ${notice.column}: `;
  const hint = notice.hint === undefined ? '' : `; ${notice.hint}`;
  return prose(`${place}${notice.message}${hint}`, `${INDENT}${notice.severity}: `).join('\n');
}

function pointSections(result: Result, point: Point, painter: Painter): string[] {
  const { network, proof } = point;
  const inputs = new Set(network.inputs.map((input) => input.name)).size;
  const logic = result.join ?? 'or';
  return [
    ...section('Rails', railLines(point, painter), painter),
    ...(network.inverters.length > 0
      ? section('Inverters', inverterLines(network.inverters, logic, painter), painter)
      : []),
    ...section('Outputs', outputLines(network.outputs, logic, painter), painter),
    ...section('Proof', proofLines(proof, inputs, painter), painter),
  ];
}

/**
 * The result for people.
 *
 * @returns lines of at most 80 columns (a name longer than that is not broken), ending in a line feed. With faults there
 *   is no answer, and only the notices are printed.
 */
export function textReport(result: Result, options: TextOptions = { painter: PLAIN, notices: null }): string {
  const { painter } = options;
  const lines = [painter.faint(headLine(result)), ''];
  if (result.fastest || result.asWritten) {
    const [first] = shownPoints(result);
    lines.push(painter.strong(first ? answerLine(first) : noAnswerLine(result)));
    if (result.stop === 'cut short') lines.push(painter.bad('The search was cut short.'));
    lines.push('', ...figures(result, painter), '', ...vocabulary(result, painter));
    if (result.chosen !== undefined)
      lines.push(...section('Frontier', frontierLines(result, painter), painter));
    if (result.sharing !== undefined)
      lines.push(...section('Sharing', sharingLines(result.sharing), painter));
  } else {
    lines.pop();
  }
  for (const point of shownPoints(result)) lines.push(...pointSections(result, point, painter));
  const notices = options.notices ?? result.notices.map(noticeText);
  if (notices.length > 0) lines.push(...section('Notices', notices, painter));
  return `${lines.join('\n')}\n`;
}
