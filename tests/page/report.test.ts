/// <reference lib="dom" />
// The report page: valid, closed to everything foreign, readable without scripts, and usable from the keyboard.

import { createHash } from 'node:crypto';
import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { HtmlValidate } from 'html-validate';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { PAGE_SCRIPT } from '../../src/report/page-script.ts';
import { PAGE_STYLE } from '../../src/report/page-style.ts';
import { DARK, LIGHT, PAPER, type Palette } from '../../src/report/picture-style.ts';
import { sha256 } from '../../src/report/sha256.ts';
import { BROWSER_WORDS, NO_BROWSER, startBrowser } from '../support/browser.ts';
import { rippleAdder } from '../support/pictured-results.ts';
import { runCli } from '../support/run-cli.ts';

const reports = new Map<string, string>();

/** The report of equations, as the command line writes it. */
async function reportOf(...argv: string[]): Promise<string> {
  const key = argv.join(' ');
  const known = reports.get(key);
  if (known !== undefined) return known;
  const { out, code } = await runCli([...argv, '--html', '-', '--effort', 'quick']);
  expect(code).toBe(0);
  reports.set(key, out);
  return out;
}

const fullAdder = () => reportOf('examples/04-full-adder.logic', '--frontier');
const wideAdder = () => reportOf(rippleAdder(3), '--ticks', '4');

test.each([
  ['full adder', fullAdder],
  ['adder of 3 bits', wideAdder],
  ['nothing to build', () => reportOf('y = a + b')],
  ['a constant', () => reportOf("y = a + a'")],
  ['AND joins', () => reportOf('y = a b + c', '--target', 'joined-and')],
])('%s: valid HTML', async (_, make) => {
  const validator = new HtmlValidate({ extends: ['html-validate:standard', 'html-validate:a11y'] });
  const report = await validator.validateString(await make());
  expect(
    report.results.flatMap(({ messages }) => messages.map(({ line, message }) => `${line}: ${message}`)),
  ).toEqual([]);
});

test('the policy names the digests of the style and the script, and nothing else', async () => {
  const page = await fullAdder();
  const digest = (text: string): string => createHash('sha256').update(text).digest('base64');
  expect(sha256(PAGE_STYLE)).toBe(digest(PAGE_STYLE));
  expect(sha256(PAGE_SCRIPT)).toBe(digest(PAGE_SCRIPT));
  for (const text of [
    '',
    'a',
    'x'.repeat(55),
    'x'.repeat(56),
    'x'.repeat(64),
    '\u6f22\ud83d\ude00'.repeat(99),
  ])
    expect(sha256(text)).toBe(digest(text));
  const policy = /Content-Security-Policy" content="([^"]*)"/.exec(page)?.[1];
  expect(policy).toBe(
    `default-src 'none'; style-src 'sha256-${digest(PAGE_STYLE)}'; script-src 'sha256-${digest(PAGE_SCRIPT)}'; base-uri 'none'; form-action 'none'`,
  );
  expect(page.replaceAll('http://www.w3.org/2000/svg', '')).not.toMatch(
    /https?:|url\(|@import|<link|<img|<iframe/,
  );
  expect(page).not.toMatch(/\sstyle=|\son\w+=/);
});

describe('contrast', () => {
  const channel = (value: number): number =>
    value <= 0.03928 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  const luminance = (colour: string): number => {
    const [r, g, b] = [1, 3, 5].map((at) => channel(Number.parseInt(colour.slice(at, at + 2), 16) / 255));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const contrast = (a: string, b: string): number => {
    const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x);
    return (light + 0.05) / (dark + 0.05);
  };
  const PALETTES: readonly (readonly [string, Palette])[] = [
    ['light', LIGHT],
    ['dark', DARK],
    ['paper', PAPER],
  ];
  test.each(PALETTES)('%s', (_, palette) => {
    for (const ground of [palette.paper, palette.band]) {
      for (const role of ['ink', 'faint', 'high', 'low', 'plain', 'alarm'] as const)
        expect(contrast(palette[role], ground), `${role} on ${ground}`).toBeGreaterThanOrEqual(4.5);
    }
    // Text and wires are also drawn over the mark of the slowest path.
    for (const role of ['ink', 'high', 'low'] as const)
      expect(contrast(palette[role], palette.slow), `${role} on slow`).toBeGreaterThanOrEqual(3);
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

  async function opened(
    content: string,
    options: Parameters<Browser['newPage']>[0] = {},
  ): Promise<{ page: Page; asked: string[]; said: string[] }> {
    const page = await browser.newPage({ viewport: { width: 1100, height: 900 }, ...options });
    const [asked, said]: [string[], string[]] = [[], []];
    page.on('request', (request) => asked.push(request.url()));
    page.on('console', (message) => said.push(message.text()));
    page.on('pageerror', (error) => said.push(String(error)));
    await page.route('**', (route) =>
      route.fulfill({ contentType: 'text/html; charset=utf-8', body: content }),
    );
    await page.goto('http://report.invalid/');
    return { page, asked, said };
  }

  test('a wire lights what it depends on, and the slider steps', async () => {
    const { page, asked, said } = await opened(await fullAdder());
    expect(await page.locator('.tw.schematic.cone').count()).toBe(0);
    await page.hover('.box[data-name="n8"]');
    expect(
      await page
        .locator('.box.lit')
        .evaluateAll((boxes) => boxes.map((box) => (box as SVGElement).dataset.name).sort()),
    ).toEqual(['a', 'b', 'carry_in', 'n1', 'n2', 'n3', 'n8']);
    expect(await page.textContent('#told')).toContain('inverter n8');
    await page.mouse.move(1, 1);
    expect(await page.locator('.lit').count()).toBe(0);
    const slider = page.locator('#at');
    expect(await slider.isVisible()).toBe(true);
    await slider.focus();
    await page.keyboard.press('ArrowRight');
    expect(await page.textContent('#step')).toBe('tick 0');
    expect(await page.locator('.net.now1').count()).toBeGreaterThan(0);
    expect(asked).toEqual(['http://report.invalid/']);
    expect(said).toEqual([]);
    await page.close();
  }, 60_000);

  test('everything can be reached from the keyboard, from top to bottom', async () => {
    const { page } = await opened(await fullAdder());
    const reached: string[] = [];
    for (let press = 0; press < 60; press++) {
      await page.keyboard.press('Tab');
      const at = await page.evaluate(() => {
        const element = document.activeElement;
        const top = (element?.getBoundingClientRect().top ?? 0) + window.scrollY;
        return {
          name: element?.getAttribute('data-name') ?? element?.id ?? element?.textContent ?? '',
          top,
          tag: element?.tagName ?? '',
        };
      });
      reached.push(`${at.tag} ${at.name}`.trim());
    }
    expect(reached[0]).toMatch(/^A/);
    expect(reached).toEqual(expect.arrayContaining(['INPUT at', 'g n8', 'INPUT done-0']));
    expect(await page.textContent('#told')).not.toBe('');
    await page.close();
  }, 60_000);

  test('without scripts everything is there but the slider', async () => {
    const { page } = await opened(await wideAdder(), { javaScriptEnabled: false });
    expect(await page.locator('h2').allTextContents()).toEqual([
      'Equations',
      'Answer',
      'Schematic',
      'Rails',
      'Timing and bench plan',
      'Slowest transition',
      'Build sheet',
      'Proof',
      'To do the same again',
    ]);
    expect(await page.locator('#stepper').isVisible()).toBe(false);
    await page.locator('#done-0').check();
    expect(await page.locator('#done-0').isChecked()).toBe(true);
    await page.close();
  }, 60_000);

  test('light, dark and print: nothing is wider than the page', async () => {
    const { page } = await opened(await wideAdder());
    const folder = process.env.TICKWRIGHT_PICTURES;
    for (const scheme of ['light', 'dark', 'print'] as const) {
      await page.emulateMedia(
        scheme === 'print' ? { media: 'print' } : { media: 'screen', colorScheme: scheme },
      );
      const wide = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      expect(wide, scheme).toBeLessThanOrEqual(0);
      const picture = await page.screenshot({ fullPage: true });
      if (folder !== undefined) {
        mkdirSync(folder, { recursive: true });
        writeFileSync(path.join(folder, `report-${scheme}.png`), picture);
      }
    }
    await page.setViewportSize({ width: 360, height: 700 });
    await page.emulateMedia({ media: 'screen' });
    const wide = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(wide, 'on a telephone').toBeLessThanOrEqual(0);
    await page.close();
  }, 120_000);
});
