// The last recorded figures of something, and what becomes of new ones: worse fails, better is printed, and
// TICKWRIGHT_REFRESH=1 records what is better or new. What is worse is never recorded; who wants that takes the entry out
// of the record by hand.

import { readFileSync, writeFileSync } from 'node:fs';
import { expect } from 'vitest';
import { REFRESH } from '../support/golden.ts';

export interface Figures {
  readonly ticks: number;
  readonly parts: number;
  /** No network is faster, and none has fewer parts at this number of ticks. */
  readonly proved: boolean;
}

/** What counts first: parts where a number of ticks was allowed, ticks where the answer was left to the search. */
export type First = 'ticks' | 'parts';

/** Below 0 when `a` is better: by ticks and parts, then a proved one before one that is not. */
export function compareFigures(a: Figures, b: Figures, first: First): number {
  const [ticks, parts] = [a.ticks - b.ticks, a.parts - b.parts];
  const order = first === 'ticks' ? ticks || parts : parts || ticks;
  return order || Number(b.proved) - Number(a.proved);
}

export class FigureRecord {
  private readonly file: URL;
  private readonly before: ReadonlyMap<string, Figures>;
  private readonly now = new Map<string, Figures>();

  constructor(file: URL) {
    this.file = file;
    this.before = new Map(Object.entries(JSON.parse(readFileSync(file, 'utf8'))));
  }

  /** Fails when the figures are worse than the recorded ones, or when there are none. */
  expectNoWorse(name: string, figures: Figures, first: First): void {
    const before = this.before.get(name);
    if (before === undefined) {
      if (REFRESH) this.now.set(name, figures);
      expect(REFRESH, `${name} has no record yet; TICKWRIGHT_REFRESH=1 makes one`).toBe(true);
      return;
    }
    const order = compareFigures(figures, before, first);
    this.now.set(name, order < 0 ? figures : before);
    if (order === 0) return;
    const difference = `${name}: ${shown(figures)}; recorded were ${shown(before)}`;
    expect(order, `worse than recorded: ${difference}`).toBeLessThan(0);
    process.stderr.write(`better than recorded: ${difference}. TICKWRIGHT_REFRESH=1 records it.\n`);
  }

  /** To be called when all figures are there: the record must hold no others. Writes it anew on demand. */
  close(): void {
    if (!REFRESH) expect([...this.before.keys()]).toEqual([...this.now.keys()]);
    else writeFileSync(this.file, `${JSON.stringify(Object.fromEntries(this.now), null, 2)}\n`);
  }
}

function shown({ ticks, parts, proved }: Figures): string {
  return `${ticks} ticks, ${parts} parts, ${proved ? 'proved' : 'best found'}`;
}
