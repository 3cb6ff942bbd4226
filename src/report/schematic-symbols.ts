// The symbols of a schematic and their measures, in pixels. They are plain and our own.
//
// An inverter is a comb and a diamond: the legs end at the comb, each under its name, and the diamond behind it turns
// the level over. The half of a diamond that is filled tells the rail of what comes out: the upper half for an
// active-high wire, the lower for an active-low one, neither where the wire is neither. An input and an output are a
// name with a coin that is filled in the same way. Where separate leads leave a driver they leave from an outlet, a
// hollow bar: leads that begin there are not tied together. A join is drawn as what it is, wires that are tied with dots.

import type { Spot } from './schematic-pieces.ts';
import type { Box } from './schematic-plan.ts';
import { shortened, widthOf } from './svg-text.ts';

/** From one leg to the next, and from one lead to the next. */
export const PITCH = 14;
/** Sizes of type. */
export const NAME_SIZE = 12;
export const LEG_SIZE = 9;
/** Most characters of a name beside a symbol, and over a leg. */
export const NAME_COLUMNS = 18;
export const LEG_COLUMNS = 10;

export const COMB = 4;
export const NECK = 5;
export const DIAMOND = 11;
export const OUTLET = 4;
/** From the legs of a join to the wire that ties them. */
export const KNOT = 7;
/** Room for the name over an inverter. */
export const NAME_ROW = 16;

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** How wide the strip is in which the legs run under their names. */
export function legStrip(names: readonly string[]): number {
  return 8 + Math.max(0, ...names.map((name) => widthOf(shortened(name, LEG_COLUMNS), LEG_SIZE)));
}

/** Where the ends of a box are, from its upper left corner, from the top down. */
export interface Ends {
  readonly legs: readonly Spot[];
  readonly leads: readonly Spot[];
}

function shownName(box: Box): string {
  return shortened(box.name, NAME_COLUMNS);
}

/** Room for ends that stand under each other. */
function ladder(count: number): number {
  return Math.max(1, count) * PITCH;
}

/** Parts of an inverter from left to right, and the height of its body. */
export function inverterMeasures(box: Box): {
  readonly strip: number;
  readonly centre: Spot;
  readonly outlet: number;
  readonly width: number;
  readonly body: number;
} {
  const { strip } = box;
  const body = Math.max(2 * DIAMOND + 2, ladder(box.legs.length), ladder(box.leads.length));
  const centre = { x: strip + COMB + NECK + DIAMOND, y: NAME_ROW + body / 2 };
  const outlet = centre.x + DIAMOND + 7;
  const width = Math.max(outlet + OUTLET, strip + widthOf(shownName(box), NAME_SIZE) + 4);
  return { strip, centre, outlet, width, body };
}

/** Width and height of a box. */
export function boxSize(box: Box): Size {
  const name = widthOf(shownName(box), NAME_SIZE);
  switch (box.kind) {
    case 'inverter': {
      const { width, body } = inverterMeasures(box);
      return { width, height: NAME_ROW + body };
    }
    case 'join':
      return { width: KNOT + 9 + (box.name === '' ? 0 : name), height: ladder(box.legs.length) };
    case 'output':
      return { width: 24 + Math.max(name, widthOf(tickWords(box.tick), LEG_SIZE)), height: 30 };
    default:
      return {
        width: name + 26 + (box.leads.length > 1 ? OUTLET + 4 : 0),
        height: Math.max(18, ladder(box.leads.length)),
      };
  }
}

export function tickWords(tick: number): string {
  return `tick ${tick}`;
}

/** The ends of a box. */
export function endsOf(box: Box, width = boxSize(box).width): Ends {
  const { height } = boxSize(box);
  const top = box.kind === 'inverter' ? NAME_ROW : 0;
  const column = (x: number, count: number): Spot[] => {
    const first = top + (height - top - (count - 1) * PITCH) / 2;
    return Array.from({ length: count }, (_, n) => ({ x, y: first + n * PITCH }));
  };
  return { legs: column(0, box.legs.length), leads: column(width, box.leads.length) };
}
