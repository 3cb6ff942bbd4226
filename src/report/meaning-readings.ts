// A reading is a form with its rail, one of several that a wire may be given; a meaning is the one that is shown.

import type { WireRail } from '../network/network.ts';
import { intersects, isInside, type Table } from '../truth/table.ts';
import { type Form, printForm, readingCost, signs } from './meaning-forms.ts';
import type { Wanted } from './meaning-search.ts';

/** Longest expression, in characters. */
export const LONGEST = 68;

export interface Meaning {
  /** In the equation language, over signals, and wires where it would be too long; null when even that is. */
  readonly expression: string | null;
  /** high: the level is the expression. low: the level is its complement. null: the level, all in wire names. */
  readonly rail: WireRail | null;
  /** What is shown: `g2 + p2, active-low`. */
  readonly text: string;
}

/** A form with its rail: what a wire means. */
export interface Reading {
  readonly form: Form;
  readonly rail: WireRail;
  readonly cost: number;
}

/** What a complement inside an active-low form costs beyond its signs: it has to be turned round twice. */
const TURNED_TWICE = 3;

/** A form with its rail and what there is to read; `weight` below 1 prefers it. */
export function readingOf(form: Form, rail: WireRail, weight = 1): Reading {
  const turned = rail === 'low' && signs(form) > 0 ? TURNED_TWICE : 0;
  return { form, rail, cost: weight * (readingCost(form) + turned) };
}

/** Is the table 1 where it must be and 0 where it must be? */
export function isBetween(table: Table, { on, off }: Wanted): boolean {
  return isInside(on, table) && !intersects(off, table);
}

export function swapped({ on, off }: Wanted): Wanted {
  return { on: off, off: on };
}

/** The reading with the least cost, the first of equals. */
export function cheapest(readings: readonly Reading[]): Reading | null {
  let best: Reading | null = null;
  for (const reading of readings) if (best === null || reading.cost < best.cost) best = reading;
  return best;
}

export function shown({ form, rail }: Pick<Reading, 'form' | 'rail'>): Meaning {
  const expression = printForm(form);
  return { expression, rail, text: `${expression}, active-${rail}` };
}
