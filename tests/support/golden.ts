// Golden texts: whole screens in files of their own, so that a change of a screen is read as a change of a text. With
// TICKWRIGHT_REFRESH=1 they are written anew.

import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));

export const REFRESH = process.env.TICKWRIGHT_REFRESH === '1';

/**
 * Expects `text` to be what the golden file holds.
 *
 * @param file from the top of the repository, such as `tests/cli/screens/carry.txt`.
 */
export function expectGolden(file: string, text: string): void {
  const full = path.join(root, file);
  if (REFRESH) {
    mkdirSync(path.dirname(full), { recursive: true });
    writeFileSync(full, text);
  }
  let golden = '';
  try {
    golden = readFileSync(full, 'utf8');
  } catch {
    throw new Error(`${file} is not there yet; TICKWRIGHT_REFRESH=1 writes it`);
  }
  expect(text, `${file} (TICKWRIGHT_REFRESH=1 writes it anew)`).toBe(golden);
}
