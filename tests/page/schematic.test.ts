/// <reference lib="dom" />

// Schematics: their geometry from where things were placed, and what a browser makes of them. Looking is still the
// business of a person: TICKWRIGHT_PICTURES=FOLDER keeps the pictures that the browser sees.

import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { wiringLimits } from '../../src/cli/answers.ts';
import { printSystem } from '../../src/equations/print-system.ts';
import { readVerilog } from '../../src/network/read-verilog.ts';
import { asBuiltResult } from '../../src/report/as-built.ts';
import { schematicFile, schematicOf } from '../../src/report/schematic.ts';
import { orderings } from '../../src/report/schematic-order.ts';
import { UNLIMITED } from '../../src/report/wiring.ts';
import { optimize } from '../../src/tickwright.ts';
import { BROWSER_WORDS, NO_BROWSER, startBrowser } from '../support/browser.ts';
import { geometryFaults } from '../support/picture-geometry.ts';
import { library, PICTURED, picturedResult } from '../support/pictured-results.ts';
import { randomSystem } from '../support/random-system.ts';
import { targetOf } from '../support/system-of.ts';

const NAMES = Object.keys(PICTURED);
/** Crossings at most: an order that gets much worse is seen here, another network hardly matters. */
const MOST_CROSSINGS: Readonly<Record<string, number>> = {
  'look-ahead carry': 10,
  'full adder': 24,
  'adder of 4 bits': 320,
  'adder of 8 bits': 700,
};

const drawn = async (name: string) => {
  const result = picturedResult(name);
  return schematicOf(result, result.points[0], library, { limits: UNLIMITED });
};

describe('geometry', () => {
  test.each(NAMES)(
    '%s',
    async (name) => {
      const { sheets, frame } = await drawn(name);
      for (const { plan, placed } of sheets) {
        expect(geometryFaults(plan, placed)).toEqual([]);
        expect(placed.crossings).toBeLessThanOrEqual(MOST_CROSSINGS[name]);
        expect(orderings(plan, 1)[0].crossings).toBeLessThanOrEqual(placed.crossings + 5);
      }
      const again = await drawn(name);
      expect(again.frame.body).toBe(frame.body);
    },
    120_000,
  );

  test('a drawing that breaks every rule is found out', async () => {
    const { sheets } = await drawn('full adder');
    const [{ plan, placed }] = sheets;
    const at = placed.boxes.findIndex(({ box }) => box.name === 'n2');
    const other = placed.boxes.findIndex(({ box }) => box.name === 'n8');
    const onAnother = placed.boxes.map((box, n) =>
      n === at ? { ...box, x: placed.boxes[other].x, y: placed.boxes[other].y } : box,
    );
    const inTheWay = placed.boxes.map((box, n) =>
      n === at ? { ...box, x: box.x - 80, legs: box.legs.map(({ x, y }) => ({ x: x + 3, y: y + 3 })) } : box,
    );
    const faults = [onAnother, inTheWay].flatMap((boxes) => geometryFaults(plan, { ...placed, boxes }));
    expect(faults.some((fault) => fault.includes('overlaps'))).toBe(true);
    expect(faults.some((fault) => fault.includes('runs through'))).toBe(true);
    expect(
      faults.some((fault) => fault.includes('ends in the air') || fault.includes('not at its edge')),
    ).toBe(true);
    expect(faults.some((fault) => fault.includes('column'))).toBe(true);
  });
});

describe('other networks', () => {
  test.each(['joined-or', 'joined-or-single', 'joined-or-4', 'nor-gates', 'joined-and'])(
    'random ones, %s',
    async (name) => {
      const target = targetOf(name);
      for (let seed = 1; seed <= 8; seed++) {
        const drawnSystem = randomSystem(seed, {
          rails: ['high', 'low', 'both'],
          buses: true,
          latestTick: 3,
          mostInputs: 5,
          depth: 3,
        });
        const system = {
          ...drawnSystem,
          outputs: drawnSystem.outputs.map((output) => ({ ...output, by: null })),
        };
        const options = {
          target,
          ticks: null,
          effort: 'quick',
          seed: 1,
          explain: true,
          version: 'test',
        } as const;
        const { result } = optimize('text', printSystem(system), {}, options);
        for (const point of result.points) {
          const limits = wiringLimits(target);
          const { sheets } = await schematicOf(result, point, library, { limits });
          for (const { plan, placed } of sheets)
            expect(geometryFaults(plan, placed), `seed ${seed}`).toEqual([]);
        }
      }
    },
    120_000,
  );

  test('many inverters: a table of contents, and a sheet for each output', async () => {
    const gates = Array.from(
      { length: 150 },
      (_, n) => `nor (n${n}, a${n % 7}, ${n < 10 ? 'b' : `n${n - 10}`});`,
    );
    const outputs = [149, 148, 40, 25];
    const names = [...Array.from({ length: 7 }, (_, n) => `a${n}`), 'b'];
    const text = `module m (${[...names, ...outputs.map((n) => `n${n}`)].join(', ')});
      input ${names.join(', ')}; output ${outputs.map((n) => `n${n}`).join(', ')}; ${gates.join('\n')} endmodule`;
    const { value } = readVerilog(text);
    const stated = { target: targetOf('joined-or'), effort: 'quick', seed: 1, version: 'test' } as const;
    const result = asBuiltResult('chain.v', value!, stated);
    const { sheets, frame } = await schematicOf(result, result.points[0], library, { limits: UNLIMITED });
    expect(sheets.length).toBe(4);
    for (const { plan, placed } of sheets) expect(geometryFaults(plan, placed)).toEqual([]);
    for (let at = 0; at < 4; at++) {
      expect(frame.body).toContain(`<a href="#tw-sheet-${at}">`);
      expect(frame.body).toContain(`id="tw-sheet-${at}"`);
    }
    const ids = [...frame.body.matchAll(/ id="([^"]*)"/g)].map((match) => match[1]);
    expect(new Set(ids).size).toBe(ids.length);
  }, 60_000);

  test('conflicts are marked where they are and told below', async () => {
    const result = picturedResult('full adder');
    const conflicts = [{ wire: 'n5', text: 'joined on different rails' }];
    const { frame } = await schematicOf(result, result.points[0], library, { limits: UNLIMITED, conflicts });
    expect(frame.body).toContain('conflict 1, n5: joined on different rails');
    expect(frame.body.match(/class="conflict"/g)).toHaveLength(1);
  });
});

describe.skipIf(NO_BROWSER)(BROWSER_WORDS, () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await startBrowser();
  }, 60_000);
  afterAll(async () => {
    await browser?.close();
  });

  test.each(NAMES)(
    '%s: all text is inside the view and nothing covers a name',
    async (name) => {
      const { frame, sheets } = await drawn(name);
      const page = await browser.newPage({
        viewport: { width: Math.ceil(frame.width), height: Math.ceil(frame.height) },
      });
      const folder = process.env.TICKWRIGHT_PICTURES;
      await page.setContent(
        `<!DOCTYPE html><style>body{margin:0}</style>${schematicFile({ frame, sheets }).replace(/^<\?xml.*\?>/, '')}`,
      );
      const told = await page.evaluate(() => {
        const svg = document.querySelector('svg')!;
        const view = svg.getBoundingClientRect();
        const texts = [...svg.querySelectorAll('text')].map((element) => {
          const { left, right, top, bottom } = element.getBoundingClientRect();
          return { words: element.textContent ?? '', left, right, top, bottom };
        });
        const outside = texts.filter(
          ({ left, right, top, bottom }) =>
            left < view.left || right > view.right || top < view.top || bottom > view.bottom,
        );
        const covered: string[] = [];
        texts.forEach((one, at) => {
          for (const other of texts.slice(at + 1)) {
            const apart =
              one.right <= other.left + 1 ||
              other.right <= one.left + 1 ||
              one.bottom <= other.top + 4 ||
              other.bottom <= one.top + 4;
            if (!apart) covered.push(`${one.words} and ${other.words}`);
          }
        });
        return { outside: outside.map(({ words }) => words), covered, count: texts.length };
      });
      expect(told.outside).toEqual([]);
      expect(told.covered).toEqual([]);
      expect(told.count).toBeGreaterThan(10);
      for (const scheme of ['light', 'dark', 'print'] as const) {
        await page.emulateMedia(
          scheme === 'print' ? { media: 'print' } : { media: 'screen', colorScheme: scheme },
        );
        const picture = await page.screenshot();
        expect(picture.length).toBeGreaterThan(5000);
        if (folder !== undefined) {
          mkdirSync(folder, { recursive: true });
          writeFileSync(path.join(folder, `${name.replaceAll(' ', '-')}-${scheme}.png`), picture);
        }
      }
      await page.close();
    },
    120_000,
  );
});
