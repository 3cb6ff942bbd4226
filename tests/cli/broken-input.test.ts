// Broken input of many kinds: whole messages, the right exit code, never a stack trace.

import { describe, expect, test } from 'vitest';
import { expectGolden } from '../support/golden.ts';
import { runCli, screenOf } from '../support/run-cli.ts';

const CASES: readonly (readonly [string, string])[] = [
  ['unknown-character', 'x = a $ b'],
  ['missing-operand', 'x = a +\ny = b * * c'],
  ['missing-bracket', 'x = (a + b\ny = c)'],
  ['unknown-name', 'input door_a, door_b\nlamp = door_a + dor_b'],
  ['unknown-function', 'x = majority(a, b, c)'],
  ['wrong-number-of-arguments', 'x = mux(a, b)\ny = maj(a, b, c, d)'],
  ['defined-twice', 'x = a\nx = b'],
  ['circular', 'x = y a\ny = z + b\nz = not x'],
  ['never-leaves-nothing', 'never a\nnever not a\nx = a b'],
  ['output-undefined', 'output lamp, horn\nlamp = a b'],
  ['word-as-name', 'and = a b'],
  ['mixed-without-brackets', 'x = a nand b nand c'],
  ['nothing', ''],
  ['only-comments', '# crates\n// belts\n'],
  ['many-faults', Array.from({ length: 30 }, (_, at) => `x${at} = a ? b`).join('\n')],
  ['forged-message', 'x = a \u001b[2Jb \u202e c\n'],
];

describe('broken equations', () => {
  test.each(CASES)('%s', async (name, text) => {
    const ran = await runCli(['hall.logic'], { files: { 'hall.logic': text } });
    expect([ran.code, ran.out]).toEqual([1, '']);
    expect(ran.err).toMatch(/^hall\.logic:(?:\d+:\d+:)? error: /);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these must not be there
    expect(ran.err).not.toMatch(/ {4}at |node:|[\u0000-\u0009\u000b-\u001f]/);
    const header = text.replace(/[^\n\x20-\x7e]/g, '?').replace(/^/gm, '| ');
    expectGolden(`tests/cli/screens/broken/${name}.txt`, `${header}\n${screenOf(['hall.logic'], ran)}`);
  });

  test('rails for names that are none, or internal', async () => {
    const ran = await runCli(['output x; x = y a; y = b c', '--low', 'y,aa', '--high', 'b', '--both', 'b']);
    expect([ran.code, ran.out]).toEqual([1, '']);
    expectGolden('tests/cli/screens/broken/rails.txt', ran.err);
  });
});

describe('hostile input: a clear fault or an answer', () => {
  test.each<[string, string | Uint8Array, number]>([
    ['100,000 nested brackets', `x = ${'('.repeat(100_000)}a${')'.repeat(100_000)}`, 1],
    ['100,000 nested NOTs', `x = ${'!'.repeat(100_000)}a`, 1],
    ['a byte order mark and CRLF', '\uFEFFx = a b\r\ny = a + b\r\n', 0],
    ['binary junk', Uint8Array.from({ length: 4096 }, (_, at) => (at * 7919) & 0xff), 1],
    ['zero bytes', new Uint8Array(4096), 1],
  ])('%s', async (_, content, code) => {
    const ran = await runCli(['hall.logic'], { files: { 'hall.logic': content } });
    expect(ran.err).not.toMatch(/ {4}at |node:|RangeError/);
    expect(ran.err.length).toBeLessThan(10_000);
    expect(ran.code).toBe(code);
  });
});
