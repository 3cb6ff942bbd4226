// Text as people paste it from books, pages and word processors, one case a file in tests/cases/pasted:
//
//     why: what the case is for
//     --- text
//     the text, to the line before the next mark
//     --- expected
//     the system it is read as, if it can be read, and what is said of it
//
// TICKWRIGHT_REFRESH=1 writes the expected part anew.

import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { systemFaults } from '../../src/equations/check-system.ts';
import { printSystem } from '../../src/equations/print-system.ts';
import { readEquations } from '../../src/equations/read-equations.ts';
import { renderDiagnostics } from '../../src/source/render-diagnostics.ts';
import { SourceText } from '../../src/source/source-text.ts';
import { REFRESH } from '../support/golden.ts';

const FOLDER = new URL('../cases/pasted/', import.meta.url);
const files = readdirSync(FOLDER).sort();

function readCase(file: string): { head: string; text: string; expected: string } {
  const whole = readFileSync(new URL(file, FOLDER), 'utf8');
  const parts = /^(why: \S[\s\S]*?--- text\n)([\s\S]*?)--- expected\n([\s\S]*)$/.exec(whole);
  if (parts === null) throw new Error(`${file} has not the three parts of a case`);
  return { head: parts[1]!, text: parts[2]!, expected: parts[3]! };
}

function shown(text: string): string {
  const { value, diagnostics } = readEquations(text);
  const said = renderDiagnostics(diagnostics, new SourceText('pasted', text));
  return `${value === null ? '' : printSystem(value)}${said === '' ? '' : `${said}\n`}`;
}

describe('pasted text', () => {
  test('there are twenty cases and more', () => {
    expect(files.length).toBeGreaterThanOrEqual(20);
  });

  test.each(files)('%s', (file) => {
    const { head, text, expected } = readCase(file);
    const found = shown(text);
    if (REFRESH) writeFileSync(new URL(file, FOLDER), `${head}${text}--- expected\n${found}`);
    else expect(found).toBe(expected);
    expect(shown(text)).toBe(found);
    expect(found).not.toBe('');
  });

  test.each(files)('%s is printed so that it reads back without a word', (file) => {
    const { value } = readEquations(readCase(file).text);
    if (value === null) return;
    expect(systemFaults(value)).toEqual([]);
    const printed = printSystem(value);
    const again = readEquations(printed);
    expect(again.diagnostics.filter(({ code }) => code !== 'name-beside-bus')).toEqual([]);
    expect(printSystem(again.value!)).toBe(printed);
  });
});
