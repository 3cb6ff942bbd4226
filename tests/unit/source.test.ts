import { describe, expect, test } from 'vitest';
import { quote, visible } from '../../grammar/quote.ts';
import type { Diagnostic } from '../../src/source/diagnostic.ts';
import { excerptOf } from '../../src/source/excerpt.ts';
import { type Painter, renderDiagnostics } from '../../src/source/render-diagnostics.ts';
import { SourceText } from '../../src/source/source-text.ts';

const at = (start: number, end: number): Pick<Diagnostic, 'at'> => ({ at: { start, end } });
const fault: Diagnostic = { severity: 'error', code: 'x', message: 'wrong', ...at(0, 1), hint: null };

describe('positions', () => {
  test.each([
    ['x = a', 4, '1:5'],
    ['x\ny = a', 2, '2:1'],
    ['x\r\ny = a', 3, '2:1'],
    ['x\ry', 2, '2:1'],
    ['x\n\r\ny', 4, '3:1'],
    ['\ufeffx = a', 1, '1:1'],
    ['\ufeffx = a', 0, '1:1'],
    ['\tx', 1, '1:2'],
    ['é\u0301x', 2, '1:2'],
    ['e\u0301x', 1, '1:1'],
    ['👩‍🌾x', 5, '1:2'],
    ['🇸🇪🇳🇴x', 8, '1:3'],
    ['箱x', 1, '1:2'],
    ['x', 99, '1:2'],
    ['', 0, '1:1'],
  ])('%j at %i', (text, offset, expected) => {
    const { line, column } = new SourceText('f', text).positionOf(offset);
    expect(`${line}:${column}`).toBe(expected);
  });
});

describe('excerpts', () => {
  const caret = (text: string, start: number, end: number, width = 40): [string, string] => {
    const { shown, indent, carets } = excerptOf(new SourceText('f', text), { start, end }, width);
    return [shown, ' '.repeat(indent) + '^'.repeat(carets)];
  };
  test.each([
    ['x = ab c', 4, 6, 'x = ab c', '    ^^'],
    ['x =', 3, 3, 'x =', '   ^'],
    ['\tx', 1, 2, '    x', '    ^'],
    ['箱 x', 2, 3, '箱 x', '   ^'],
    ['a\u0007b', 1, 2, 'a\\u0007b', ' ^^^^^^'],
    ['ab\ncd', 1, 5, 'ab', ' ^'],
    ['ab\r\ncd', 4, 6, 'cd', '^^'],
  ])('%j %i..%i', (text, start, end, shown, carets) => {
    expect(caret(text, start, end)).toEqual([shown, carets]);
  });

  test('a long line is clipped around the caret, wherever it stands', () => {
    const text = Array.from({ length: 2000 }, (_, index) => `n${index}`).join(' + ');
    for (const start of [0, 5, 60, 7000, text.length - 30, text.length - 1]) {
      const { shown, indent, carets } = excerptOf(new SourceText('f', text), { start, end: start + 1 }, 40);
      expect(shown.length).toBeLessThanOrEqual(40);
      expect(shown.length).toBeGreaterThan(20);
      expect([indent + carets <= 40, shown[indent]]).toEqual([true, text[start]]);
    }
  });

  test('a span longer than the line is marked as far as it is shown', () => {
    const { shown, indent, carets } = excerptOf(
      new SourceText('f', 'x'.repeat(500)),
      { start: 100, end: 400 },
      40,
    );
    expect(shown.length).toBeLessThanOrEqual(40);
    expect(indent + carets).toBeLessThanOrEqual(40);
  });

  test('a line of five million characters costs no more than a short one', () => {
    const source = new SourceText('f', 'é'.repeat(5_000_000));
    expect(excerptOf(source, { start: 4_000_000, end: 4_000_001 }, 40).shown).toHaveLength(40);
    expect(source.positionOf(4_000_000).column).toBe(4_000_001);
  });
});

describe('rendering', () => {
  const source = new SourceText('hall.logic', 'c4 = g3\nc4 = p3');

  test('the whole shape', () => {
    const twice: Diagnostic = {
      ...fault,
      ...at(8, 10),
      hint: 'say it once',
      related: [{ at: { start: 0, end: 2 }, note: 'first here' }],
    };
    expect(renderDiagnostics([twice, { ...fault, severity: 'notice', at: null }], source)).toBe(
      [
        'hall.logic:2:1: error: wrong',
        '  2 | c4 = p3',
        '    | ^^',
        '  1 | c4 = g3',
        '    | -- first here',
        'help: say it once',
        '',
        'hall.logic: notice: wrong',
      ].join('\n'),
    );
  });

  test('without a text or a name', () => {
    expect(renderDiagnostics([fault], null)).toBe('error: wrong');
    expect(renderDiagnostics([fault], new SourceText('', 'c4 = g3'))).toBe(
      'line 1:1: error: wrong\n  1 | c4 = g3\n    | ^',
    );
  });

  test('colours come from outside and change nothing else', () => {
    const paint: Painter = (role, text) => `<${role}>${text}</${role}>`;
    const painted = renderDiagnostics([{ ...fault, hint: 'do' }], source, { paint });
    expect(painted.split('\n')[0]).toBe('<place>hall.logic:1:1:</place> <error>error:</error> wrong');
    expect(painted.replace(/<\/?[a-z]+>/g, '')).toBe(renderDiagnostics([{ ...fault, hint: 'do' }], source));
  });

  test('errors go first when there is no room, in the order of the text', () => {
    const many = Array.from({ length: 30 }, (_, index): Diagnostic => {
      return { ...fault, severity: index % 3 === 0 ? 'error' : 'warning', message: `m${index}`, at: null };
    });
    const text = renderDiagnostics(many, null, { limit: 12 });
    expect(text.match(/m\d+/g)).toEqual([
      'm0',
      'm1',
      'm2',
      ...[3, 6, 9, 12, 15, 18, 21, 24, 27].map((n) => `m${n}`),
    ]);
    expect(text.endsWith('\n\nand 18 more: 18 warnings')).toBe(true);
    expect(renderDiagnostics(many.slice(0, 13), null, { limit: 12 })).toMatch(/and 1 more: 1 warning$/);
    expect(renderDiagnostics([], null)).toBe('');
  });
});

test('nothing that moves the cursor reaches a message', () => {
  expect(visible('a\u001b[2J\n\u202eb\u200b\ud800')).toBe('a\\u001b[2J\\u000a\\u202eb\\u200b\\ud800');
  expect(visible('箱 é 👩 ¬')).toBe('箱 é 👩 ¬');
  expect(quote('x'.repeat(100))).toBe(`"${'x'.repeat(30)}...${'x'.repeat(7)}"`);
  expect(quote('\u0301')).toBe('"\\u0301"');
});
