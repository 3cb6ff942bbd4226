// Whole messages for broken input, one case a file in tests/cases/faults:
//
//     why: what the case is for
//     escapes: yes                (optional: \u{...}, \r and \n in the text stand for characters)
//     --- text
//     the equations, to the line before the next mark
//     --- expected
//     what is shown
//
// TICKWRIGHT_REFRESH=1 writes the expected part anew.

import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readEquations } from '../../src/equations/read-equations.ts';
import { renderDiagnostics } from '../../src/source/render-diagnostics.ts';
import { SourceText } from '../../src/source/source-text.ts';

const FOLDER = new URL('../cases/faults/', import.meta.url);
const REFRESH = process.env.TICKWRIGHT_REFRESH === '1';

interface Case {
  readonly head: string;
  readonly text: string;
  readonly expected: string;
}

function readCase(file: string): Case {
  const whole = readFileSync(new URL(file, FOLDER), 'utf8');
  const parts = /^([\s\S]*?--- text\n)([\s\S]*?)--- expected\n([\s\S]*)$/.exec(whole);
  if (parts === null) throw new Error(`${file} has not the three parts of a case`);
  const [, head, text, expected] = parts;
  return { head: head!, text: text!, expected: expected! };
}

function unescaped(text: string): string {
  return text
    .replace(/\\u\{([0-9a-f]+)\}/g, (_, code: string) => String.fromCodePoint(Number.parseInt(code, 16)))
    .replace(/\\r\\n\n?|\\r/g, (found) => (found.length > 2 ? '\r\n' : '\r'));
}

function shown(text: string): string {
  return `${renderDiagnostics(readEquations(text).diagnostics, new SourceText('hall.logic', text))}\n`;
}

const files = readdirSync(FOLDER).sort();

describe('faults', () => {
  test('there are cases', () => {
    expect(files.length).toBeGreaterThanOrEqual(15);
  });

  test.each(files)('%s', (file) => {
    const { head, text, expected } = readCase(file);
    expect(head).toMatch(/^why: \S/);
    const equations = /^escapes: yes$/m.test(head) ? unescaped(text) : text;
    const found = shown(equations);
    if (REFRESH) writeFileSync(new URL(file, FOLDER), `${head}${text}--- expected\n${found}`);
    else expect(found).toBe(expected);
    expect(shown(equations)).toBe(found);
    for (const line of found.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });
});
