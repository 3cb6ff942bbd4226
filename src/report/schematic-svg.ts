// The schematic as SVG: what stands where comes from the layout, what it looks like from the symbols and the style.
// Nothing but the file is needed to look at it; text stays text; every wire and every symbol tells on request what it
// is, in a title that readers of screens and pointers find.

import type { WireRail } from './result.ts';
import type { Placed, PlacedBox } from './schematic-layout.ts';
import { mergedPieces, type Piece, type Spot } from './schematic-pieces.ts';
import type { Box, Plan } from './schematic-plan.ts';
import {
  COMB,
  DIAMOND,
  inverterMeasures,
  KNOT,
  LEG_COLUMNS,
  NAME_COLUMNS,
  OUTLET,
  tickWords,
} from './schematic-symbols.ts';
import { escaped, shortened, widthOf } from './svg-text.ts';

export interface Drawn {
  readonly width: number;
  readonly height: number;
  /** Elements, without the root. */
  readonly body: string;
}

const HEAD = 30;

export const number = (value: number): string => String(Math.round(value * 10) / 10);

/** A text element; `end` sets it to the left of x. */
export function text(
  x: number,
  y: number,
  content: string,
  kind = '',
  anchor: 'start' | 'middle' | 'end' = 'start',
): string {
  const classes = kind === '' ? '' : ` class="${kind}"`;
  const anchored = anchor === 'start' ? '' : ` text-anchor="${anchor}"`;
  return `<text x="${number(x)}" y="${number(y)}"${classes}${anchored}>${escaped(content)}</text>`;
}

function path(pieces: readonly Piece[], kind: string): string {
  if (pieces.length === 0) return '';
  const d = pieces
    .map(([a, b]) => `M${number(a.x)} ${number(a.y)}${a.y === b.y ? `H${number(b.x)}` : `V${number(b.y)}`}`)
    .join('');
  return `<path class="${kind}" d="${d}"/>`;
}

function shape(points: readonly Spot[], kind: string): string {
  return `<path class="${kind}" d="M${points.map(({ x, y }) => `${number(x)} ${number(y)}`).join('L')}Z"/>`;
}

/** What is coloured by a rail. */
export function onRail(rail: WireRail | null, inside: string): string {
  return rail === null || inside === '' ? inside : `<g class="${rail}">${inside}</g>`;
}

/** A diamond around a spot; the half of its rail is filled. */
export function diamond(at: Spot, size: number, rail: WireRail | null, critical: boolean): string {
  const [left, right, up, down] = [
    { x: at.x - size, y: at.y },
    { x: at.x + size, y: at.y },
    { x: at.x, y: at.y - size },
    { x: at.x, y: at.y + size },
  ];
  const inner = size - 2.5;
  const half =
    rail === null
      ? ''
      : shape(
          [
            { x: at.x - inner, y: at.y },
            { x: at.x, y: at.y + (rail === 'high' ? -inner : inner) },
            { x: at.x + inner, y: at.y },
          ],
          'half',
        );
  const around = [left, up, right, down];
  return (critical ? shape(around, 'ring') : '') + shape(around, 'body') + onRail(rail, half);
}

/** A coin: the mark of an input and of an output. */
export function coin({ x, y }: Spot, rail: WireRail | null, critical: boolean): string {
  const circle = (kind: string): string =>
    `<circle class="${kind}" cx="${number(x)}" cy="${number(y)}" r="6"/>`;
  const half =
    rail === null
      ? ''
      : `<path class="half" d="M${number(x - 4)} ${number(y)}A4 4 0 0 ${rail === 'high' ? 1 : 0} ${number(x + 4)} ${number(y)}Z"/>`;
  return (critical ? circle('ring') : '') + circle('body') + onRail(rail, half);
}

/** The hollow bar from which separate leads leave. */
function outlet(x: number, leads: readonly Spot[], y: number): string {
  const top = Math.min(y, ...leads.map((lead) => lead.y)) - 5;
  const bottom = Math.max(y, ...leads.map((lead) => lead.y)) + 5;
  return `<rect class="body outlet" x="${number(x)}" y="${number(top)}" width="${OUTLET}" height="${number(bottom - top)}"/>`;
}

const level = (a: number, b: number, y: number): Piece => [
  { x: a, y },
  { x: b, y },
];

/** What a box tells about itself. */
export function titleOf(box: Box): string {
  const meaning = box.meaning === null ? '' : ` = ${box.meaning}`;
  switch (box.kind) {
    case 'input':
      return `input ${box.name}, active-${box.rail}, ${tickWords(box.tick)}`;
    case 'output':
      return `output ${box.name}, active-${box.rail}${box.meaning === null ? '' : `, = ${box.meaning}`}, ${tickWords(box.tick)}`;
    case 'constant':
      return `a wire that is always ${box.name}`;
    case 'join':
      return `join${box.name === '' ? '' : ` ${box.name}`} of ${box.legNames.join(', ')}${meaning}, ${tickWords(box.tick)}`;
    default:
      return `inverter ${box.name}, legs ${box.legNames.join(', ')}${meaning === '' ? '' : `,${meaning}`}, ${tickWords(box.tick)}`;
  }
}

/** Where the terminal of an input keeps its coin and its outlet. */
function inputMeasures({ box, x, width }: PlacedBox): { readonly plate: number; readonly coinX: number } {
  const plate = x + width - OUTLET - 4;
  return { plate, coinX: box.leads.length > 1 ? plate - 9 : x + width - 10 };
}

/** The wires inside a box, from its edge to its symbol, by net. */
export function stubsOf(placed: PlacedBox): { readonly net: number; readonly piece: Piece }[] {
  const { box, x, legs, leads } = placed;
  const many = box.leads.length > 1;
  const stubs: { net: number; piece: Piece }[] = [];
  const leave = (from: number): void => {
    leads.forEach((lead, n) => {
      stubs.push({ net: box.leads[n], piece: level(from, lead.x, lead.y) });
    });
  };
  if (box.kind === 'inverter') {
    const { strip, centre, outlet: plate } = inverterMeasures(box);
    legs.forEach((leg, n) => {
      stubs.push({ net: box.legs[n], piece: level(leg.x, x + strip, leg.y) });
    });
    leave(many ? x + plate + OUTLET : x + centre.x + DIAMOND);
  } else if (box.kind === 'output') {
    stubs.push({ net: box.legs[0], piece: level(legs[0].x, x + 4, legs[0].y) });
  } else if (box.kind !== 'join') {
    const { plate, coinX } = inputMeasures(placed);
    leave(many ? plate + OUTLET : coinX + (box.kind === 'input' ? 6 : -6));
  }
  return stubs;
}

function inverterBody(placed: PlacedBox): string {
  const { box, x, y } = placed;
  const { strip, centre, outlet: plate } = inverterMeasures(box);
  const at = { x: x + centre.x, y: y + centre.y };
  const comb = x + strip;
  const parts = [text(comb, y + 11, shortened(box.name, NAME_COLUMNS))];
  placed.legs.forEach((leg, n) => {
    parts.push(text(leg.x + 3, leg.y - 2.5, shortened(box.legNames[n], LEG_COLUMNS), 'small'));
  });
  const top = Math.min(at.y, ...placed.legs.map((leg) => leg.y)) - 5;
  const bottom = Math.max(at.y, ...placed.legs.map((leg) => leg.y)) + 5;
  parts.push(
    `<rect class="comb" x="${number(comb)}" y="${number(top)}" width="${COMB}" height="${number(bottom - top)}" rx="1.5"/>`,
    path([level(comb + COMB, at.x - DIAMOND, at.y)], 'line'),
    diamond(at, DIAMOND, box.rail, box.critical),
  );
  if (box.leads.length > 1) {
    parts.push(path([level(at.x + DIAMOND, x + plate, at.y)], 'line'), outlet(x + plate, placed.leads, at.y));
  }
  return parts.join('');
}

function terminalBody(placed: PlacedBox): string {
  const { box, x, y, height } = placed;
  const middle = y + height / 2;
  const name = shortened(box.name, NAME_COLUMNS);
  if (box.kind === 'output') {
    return [
      coin({ x: x + 10, y: middle }, box.rail, box.critical),
      text(x + 21, middle + 1, name),
      text(x + 21, middle + 12, tickWords(box.tick), 'small'),
    ].join('');
  }
  const { plate, coinX } = inputMeasures(placed);
  const parts = [text(coinX - 10, middle + 4, name, '', 'end')];
  if (box.kind === 'input') parts.push(coin({ x: coinX, y: middle }, box.rail, box.critical));
  if (box.leads.length > 1) {
    const from = box.kind === 'input' ? coinX + 6 : coinX - 6;
    parts.push(path([level(from, plate, middle)], 'line'), outlet(plate, placed.leads, middle));
  }
  return parts.join('');
}

function boxBody(placed: PlacedBox): string {
  const { box, x } = placed;
  if (box.kind === 'inverter') return inverterBody(placed);
  if (box.kind !== 'join') return terminalBody(placed);
  return box.name === ''
    ? ''
    : text(x + KNOT + 5, placed.leads[0].y - 4, shortened(box.name, NAME_COLUMNS), 'small');
}

function conflictMark({ box, x, y }: PlacedBox, numberOf: number): string {
  const at = { x: x - 2, y: y + 4 };
  return `<circle class="alarm" cx="${number(at.x)}" cy="${number(at.y)}" r="8"/>${text(at.x, at.y + 4, String(numberOf), 'mark on-alarm', 'middle')}<title>conflict at ${escaped(box.name)}: ${escaped(box.conflict ?? '')}</title>`;
}

function attributes(box: Box): string {
  return `class="box ${box.kind}" data-rail="${box.rail ?? 'none'}" data-name="${escaped(box.name)}" data-tick="${box.tick}" data-legs="${box.legs.join(' ')}" data-leads="${box.leads.join(' ')}"`;
}

/** The columns with their ticks, from the places of what stands in them. */
function columns(plan: Plan, placed: Placed): string[] {
  return plan.ticks.flatMap((tick, at) => {
    const inside = placed.boxes.filter(({ box }) => box.column === 2 * at);
    if (inside.length === 0) return [];
    const left = Math.min(...inside.map(({ x }) => x)) - 5;
    const right = Math.max(...inside.map(({ x, width }) => x + width)) + 5;
    return [
      `<rect class="band" data-tick="${tick}" x="${number(left)}" y="0" width="${number(right - left)}" height="${number(placed.height + HEAD + 8)}" rx="3"/>`,
      text((left + right) / 2, 15, tickWords(tick), 'note', 'middle'),
    ];
  });
}

/** The slowest path where it runs through boxes. */
function slowEnds({ lines }: Plan, { boxes }: Placed): Piece[] {
  return lines.flatMap(({ critical, net, from, to }): Piece[] => {
    if (!critical) return [];
    const [source, target] = [boxes[from], boxes[to]];
    const pieces: Piece[] = [];
    const lead = source.leads[source.box.leads.indexOf(net)];
    if (source.box.kind === 'inverter') {
      const { centre } = inverterMeasures(source.box);
      const y = source.y + centre.y;
      const plate = source.x + inverterMeasures(source.box).outlet;
      const many = source.box.leads.length > 1;
      if (many) pieces.push(level(source.x + centre.x, plate, y));
      pieces.push(level(many ? plate : source.x + centre.x, lead.x, many ? lead.y : y));
    } else if (source.box.kind !== 'join') pieces.push(level(source.x + source.width - 10, lead.x, lead.y));
    if (target.box.kind === 'inverter') {
      const leg = target.legs[target.box.legs.indexOf(net)];
      pieces.push(level(leg.x, target.x + target.box.strip, leg.y));
    } else if (target.box.kind === 'output') pieces.push(level(target.x, target.x + 10, target.legs[0].y));
    return pieces;
  });
}

/** Draws what was laid out; the upper left corner is at 0, 0. */
export function drawSchematic(
  plan: Plan,
  placed: Placed,
  prefix: string,
  levels?: (drivers: readonly string[]) => string,
): Drawn {
  const shift = (inside: string): string => `<g transform="translate(0 ${HEAD})">${inside}</g>`;
  const slow = path(
    [...placed.nets.flatMap(({ criticalPieces }) => criticalPieces), ...slowEnds(plan, placed)],
    'slow',
  );
  const stubs = placed.boxes.flatMap(stubsOf);
  const wires = placed.nets.map(({ net, pieces: outside, dots }) => {
    const inside = stubs.filter((stub) => stub.net === net).map(({ piece }) => piece);
    const pieces = mergedPieces([...outside, ...inside]);
    const face = plan.nets[net];
    const meaning = face.meaning === null ? '' : ` = ${face.meaning}`;
    const title = `<title>${escaped(`wire ${face.name}${meaning}, ${tickWords(face.tick)}`)}</title>`;
    const marks = dots
      .map(({ x, y }) => `<circle class="dot" cx="${number(x)}" cy="${number(y)}" r="2.6"/>`)
      .join('');
    const rail = face.rail === null ? '' : ` ${face.rail}`;
    const steps = levels === undefined ? '' : ` data-levels="${levels(plan.wiring.nets[net].drivers)}"`;
    return `<g class="net${rail}" id="${prefix}net-${net}" data-sheet="${prefix}" data-net="${net}" data-name="${escaped(face.name)}"${steps}>${title}${path(pieces, 'hit')}${path(pieces, 'wire')}${marks}</g>`;
  });
  const boxes = placed.boxes.map((box) => {
    const pad = `<rect class="pad" x="${number(box.x)}" y="${number(box.y)}" width="${number(box.width)}" height="${number(box.height)}"/>`;
    const title = `<title>${escaped(titleOf(box.box))}</title>${pad}`;
    return `<g ${attributes(box.box)} data-sheet="${prefix}" id="${prefix}box-${box.box.id}">${title}${boxBody(box)}</g>`;
  });
  let conflicts = 0;
  const marks = placed.boxes.map((box) =>
    box.box.conflict === null ? '' : `<g class="conflict">${conflictMark(box, ++conflicts)}</g>`,
  );
  return {
    width: placed.width,
    height: placed.height + HEAD + 8,
    body: [...columns(plan, placed), shift([slow, ...wires, ...boxes, ...marks].join('\n'))].join('\n'),
  };
}

/** How wide a line of notes is. */
export function noteWidth(content: string): number {
  return widthOf(content, 11);
}
