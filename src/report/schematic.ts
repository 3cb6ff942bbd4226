// The schematic of a result: one drawing for a network of up to a hundred inverters; beyond that a table of contents and
// one drawing for each cone, which is an output with everything that it depends on.

import type { ELK as Library } from 'elkjs/lib/elk-api.js';
import { READ_FROM_NETLIST } from './as-built.ts';
import { BUILT_BLOCK } from './drawn-block.ts';
import { type Frame, legend, MARGIN, pictureFile } from './picture.ts';
import type { Point, Result } from './result.ts';
import { layOut, type Placed } from './schematic-layout.ts';
import { type Conflict, type Plan, planOf } from './schematic-plan.ts';
import { drawSchematic, text } from './schematic-svg.ts';
import { widthOf } from './svg-text.ts';
import type { WiringLimits } from './wiring.ts';

export interface SchematicOptions {
  readonly limits: WiringLimits;
  readonly conflicts?: readonly Conflict[];
  /** Say under the drawing what every wire means. */
  readonly meanings?: boolean;
  /** Before every id, so that several pictures can stand in one page. */
  readonly prefix?: string;
  /** Levels of a net by its drivers, one digit for each step, for the report. */
  readonly levels?: (drivers: readonly string[]) => string;
}

export interface Schematic {
  readonly frame: Frame;
  readonly sheets: readonly { readonly plan: Plan; readonly placed: Placed }[];
}

/** Most inverters on one drawing. */
export const MOST_ON_A_SHEET = 110;

interface Sheet {
  readonly name: string;
  readonly point: Point;
}

/** What an output depends on, as a network of its own. */
export function coneOf(point: Point, output: number): Point {
  const { inputs, inverters, outputs } = point.network;
  const wanted = new Set(outputs[output].legs);
  const kept = [...inverters].reverse().filter(({ wire, legs }) => {
    if (!wanted.has(wire)) return false;
    for (const leg of legs) wanted.add(leg);
    return true;
  });
  return {
    ...point,
    network: {
      inputs: inputs.filter(({ wire }) => wanted.has(wire)),
      inverters: kept.reverse(),
      outputs: [outputs[output]],
    },
  };
}

function sheetsOf(point: Point): Sheet[] {
  if (point.network.inverters.length <= MOST_ON_A_SHEET) return [{ name: '', point }];
  return point.network.outputs.map(({ name }, at) => ({ name, point: coneOf(point, at) }));
}

function counted(count: number, word: string): string {
  return `${count} ${word}${count === 1 ? '' : 's'}`;
}

/** The heading: what the picture shows. */
export function headline(result: Result, point: Point): string {
  const names = [...new Set(point.network.outputs.map(({ name }) => name))];
  const list =
    names.length > 6 ? `${names.slice(0, 5).join(', ')} and ${names.length - 5} more` : names.join(', ');
  return `${list}: ${counted(point.ticks, 'tick')}, ${counted(point.parts, 'part')}, target ${result.target}`;
}

function proofWords({ stop }: Result, { proof }: Point): string {
  if (stop === READ_FROM_NETLIST) return 'read from a netlist, not compared with equations';
  if (stop === BUILT_BLOCK) return 'as it was built';
  if (proof.verdict === 'equal') return 'proved equal to the equations';
  return proof.verdict === 'different' ? 'DIFFERENT from the equations' : 'not proved equal to the equations';
}

/** Lines under each other; the height of each is 17. */
function notes(lines: readonly string[], y: number): { body: string; width: number; height: number } {
  return {
    body: lines.map((line, at) => text(0, y + 12 + at * 17, line, 'note')).join('\n'),
    width: Math.max(0, ...lines.map((line) => widthOf(line, 11))),
    height: lines.length * 17,
  };
}

function meaningLines({ network }: Point): string[] {
  const said = [
    ...network.inverters.map(({ wire, meaning, tick }) => ({ wire, meaning, tick })),
    ...network.outputs.map(({ name, meaning, tick }) => ({ wire: name, meaning, tick })),
  ].filter(({ meaning }) => meaning !== undefined);
  return said.map(({ wire, meaning, tick }) => `${wire} = ${meaning}, tick ${tick}`);
}

/** Draws one point of a result. */
export async function schematicOf(
  result: Result,
  point: Point,
  library: Library,
  options: SchematicOptions,
): Promise<Schematic> {
  const { limits, conflicts = [], meanings = false, prefix = 'tw-', levels } = options;
  const parts = sheetsOf(point);
  const sheets: { plan: Plan; placed: Placed }[] = [];
  for (const sheet of parts) {
    const plan = planOf(sheet.point, limits, conflicts);
    sheets.push({ plan, placed: await layOut(plan, library) });
  }
  const title = headline(result, point);
  const under = `${result.source === 'arguments' ? '' : `${result.source}, `}${proofWords(result, point)}`;
  const body = [text(0, 14, title, 'head'), text(0, 32, under, 'note')];
  let width = Math.max(widthOf(title, 15), widthOf(under, 11));
  let y = 46;
  const put = (block: { body: string; width: number; height: number }, gap: number): void => {
    body.push(block.body);
    width = Math.max(width, block.width);
    y += block.height + gap;
  };
  if (parts.length > 1) {
    const lines = parts.map(({ name, point: cone }, at) => ({
      words: `${at + 1}. ${name}: ${counted(cone.network.inverters.length, 'inverter')}, tick ${cone.network.outputs[0].tick}`,
      at,
    }));
    put({ body: text(0, y + 13, 'Contents, by output', 'head'), width: 200, height: 20 }, 4);
    for (const { words, at } of lines)
      put(
        {
          body: `<a href="#${prefix}sheet-${at}">${text(0, y + 12, words, 'note')}</a>`,
          width: widthOf(words, 11),
          height: 17,
        },
        0,
      );
    y += 16;
  }
  parts.forEach(({ name }, at) => {
    const drawn = drawSchematic(
      sheets[at].plan,
      sheets[at].placed,
      parts.length > 1 ? `${prefix}${at}-` : prefix,
      levels,
    );
    if (parts.length > 1)
      put(
        { body: text(0, y + 13, `${at + 1}. ${name}`, 'head'), width: widthOf(name, 15) + 40, height: 22 },
        2,
      );
    const opening = `<g id="${prefix}sheet-${at}" class="sheet" transform="translate(0 ${y})">`;
    put({ body: `${opening}${drawn.body}</g>`, width: drawn.width, height: drawn.height }, 16);
  });
  const boxes = sheets.flatMap(({ plan }) => plan.boxes);
  const rails = [
    ...boxes.map(({ rail }) => rail),
    ...sheets.flatMap(({ plan }) => plan.nets.map(({ rail }) => rail)),
  ];
  const signs = legend(width, result.join ?? 'or', {
    low: rails.includes('low'),
    plain: rails.includes(null),
    slow: sheets.some(({ placed }) => placed.nets.some(({ criticalPieces }) => criticalPieces.length > 0)),
    outlets: boxes.some(({ leads, kind }) => kind !== 'join' && leads.length > 1),
    conflicts: boxes.some(({ conflict }) => conflict !== null),
  });
  put({ ...signs, body: `<g transform="translate(0 ${y})">${signs.body}</g>` }, 10);
  const wrong = boxes.filter(({ conflict }) => conflict !== null);
  if (wrong.length > 0)
    put(
      notes(
        wrong.map(({ name, conflict }, at) => `conflict ${at + 1}, ${name}: ${conflict}`),
        y,
      ),
      10,
    );
  if (meanings) put(notes(meaningLines(point), y), 10);
  const description =
    `Schematic of ${counted(point.network.inverters.length, 'inverter')} in columns by tick, inputs on the left, ` +
    `outputs on the right; ${proofWords(result, point)}.`;
  const inside = `<g transform="translate(${MARGIN} ${MARGIN})">${body.join('\n')}</g>`;
  const frame = { width: width + 2 * MARGIN, height: y + 2 * MARGIN - 10, title, description, body: inside };
  return { frame, sheets };
}

/** The schematic as a file. */
export function schematicFile({ frame }: Schematic): string {
  return pictureFile(frame);
}
