// A browser for tests of pictures and pages. Where there is none these tests are skipped with a word, but not in CI.

import { type Browser, chromium } from 'playwright-core';
import { findBrowser } from '../../bin/browser.js';

const found: string | null = findBrowser();

/** Where nothing can be looked at. */
export const NO_BROWSER = found === null && process.env.CI !== 'true';

/** Said in the name of tests that are skipped. */
export const BROWSER_WORDS = NO_BROWSER
  ? 'in a browser (skipped: no Chromium; npm run browser installs one)'
  : 'in a browser';

/** Starts a browser that goes nowhere by itself. */
export async function startBrowser(): Promise<Browser> {
  if (found === null) throw new Error('there is no Chromium, and in CI there must be: run `npm run browser`');
  return chromium.launch({
    executablePath: found,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-background-networking',
      '--no-first-run',
      '--disable-sync',
    ],
  });
}
