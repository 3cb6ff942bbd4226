import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { jsonReport } from '../../src/report/json.ts';
import { type Painter, PLAIN } from '../../src/report/painter.ts';
import { paragraph, WIDTH } from '../../src/report/paragraph.ts';
import type { Proof, Result } from '../../src/report/result.ts';
import { resultFaults } from '../../src/report/result-check.ts';
import { textReport } from '../../src/report/text.ts';
import { expectGolden } from '../support/golden.ts';
import { CARRY, CROWDED } from '../support/sample-results.ts';

const MARKS: Painter = {
  strong: (text) => `<b>${text}</b>`,
  faint: (text) => `<i>${text}</i>`,
  good: (text) => `<g>${text}</g>`,
  bad: (text) => `<r>${text}</r>`,
};

function withProof(proof: Proof): Result {
  return { ...CARRY, points: CARRY.points.map((point) => ({ ...point, proof })) };
}

/** The lines under one heading. */
function sectionOf(screen: string, heading: string): string {
  return screen.split(`\n${heading}\n`)[1]?.split('\n\n')[0] ?? '';
}

describe('the screen for people', () => {
  test('look-ahead carry', () => {
    expectGolden('tests/unit/report-screens/carry.txt', textReport(CARRY));
  });

  test('everything at once', () => {
    expectGolden('tests/unit/report-screens/crowded.txt', textReport(CROWDED));
  });

  test('joined wires that are AND', () => {
    expectGolden('tests/unit/report-screens/carry-and.txt', textReport({ ...CARRY, join: 'and' }));
  });

  test.each([CARRY, CROWDED])('80 columns, no space at line ends, nothing that moves a cursor', (result) => {
    for (const line of textReport(result).split('\n')) {
      expect(line.length).toBeLessThanOrEqual(WIDTH);
      expect(line).not.toMatch(/\s$/);
      // biome-ignore lint/suspicious/noControlCharactersInRegex: these must not be there
      expect(line).not.toMatch(/[\u0000-\u001f]/);
    }
  });

  test.each([CARRY, CROWDED])('colour only adds: without its marks the text is the same', (result) => {
    const painted = textReport(result, { painter: MARKS, notices: null });
    expect(painted).toMatch(/<b>.*<i>|<i>.*<b>/s);
    expect(painted.replace(/<\/?[bigr]>/g, '')).toBe(textReport(result));
  });

  test('nothing to invert', () => {
    const [point] = CARRY.points;
    const screen = textReport({
      ...CARRY,
      asWritten: { ticks: 0, parts: 0 },
      fastest: { ticks: 0, proved: true, parts: 0 },
      points: [
        {
          ...point!,
          ticks: 0,
          parts: 0,
          network: {
            inputs: [{ name: 'a', rail: 'high', wire: 'a', tick: 0 }],
            inverters: [],
            outputs: [{ name: 'x', rail: 'high', legs: ['a'], tick: 0 }],
          },
          proof: { verdict: 'equal', method: 'patterns', patterns: 2 },
          rails: [],
        },
      ],
    });
    expect(screen).toContain('x takes no parts: there is nothing to invert.');
    expect(screen).not.toContain('Inverters');
    expect(screen).toContain('Each output is one wire.');
    expect(screen).toContain('over all 2 patterns of the 1 input.');
  });

  test('no network that keeps what was asked for', () => {
    const screen = textReport({ ...CARRY, points: [] });
    expect(screen).toContain('No network was found that keeps what was asked for.');
    expect(screen).toContain('  fastest         2      6   proved: nothing settles sooner');
    expect(screen).not.toContain('found       ');
  });

  test('faults: the notices and nothing else', () => {
    const screen = textReport({ ...CROWDED, asWritten: null, fastest: null, points: [] });
    expect(screen.split('\n').slice(0, 4)).toEqual([
      'crates\\u001b[2J.logic, target joined-or-single',
      '',
      'Notices',
      '  warning: line 3, column 5: the input "crate31" is not used; take it out of the',
    ]);
  });

  test('notices that came rendered are printed as they are', () => {
    const screen = textReport(CROWDED, { painter: PLAIN, notices: ['as\n  it is'] });
    expect(screen).toMatch(/\nNotices\nas\n {2}it is\n$/);
  });

  test.each<[string, Proof]>([
    [
      '  Equal to the equations on every pattern of the 9 inputs: a solver found no\n  other way, its steps were checked.',
      { verdict: 'equal', method: 'solver' },
    ],
    ['  Equal to the equations over all patterns of the 9 inputs.', { verdict: 'equal', method: 'patterns' }],
    [
      '  NOT PROVED: the proof did not come to an end within its limit. Nothing speaks\n  against it so far.',
      { verdict: 'undecided', method: 'solver' },
    ],
    [
      '  DIFFERENT from the equations. This is a fault of the program; do not build\n  this.\n  They differ at g3=0 p3=1',
      { verdict: 'different', method: 'patterns', counterexample: { g3: 0, p3: 1 } },
    ],
  ])('proof: %s', (text, proof) => {
    expect(sectionOf(textReport(withProof(proof)), 'Proof').trimEnd()).toBe(text);
  });
});

describe('paragraphs', () => {
  test('keep every word, in order, within the width', () => {
    const word = fc.stringMatching(/^[a-z]{1,90}$/);
    fc.assert(
      fc.property(fc.array(word, { minLength: 1, maxLength: 60 }), fc.nat(20), (words, indent) => {
        const lines = paragraph(words, ' '.repeat(indent));
        expect(lines.join(' ').trim().split(/\s+/)).toEqual(words);
        for (const line of lines) {
          if (line.length > WIDTH) expect(line.trim()).not.toContain(' ');
        }
      }),
      { seed: 1 },
    );
  });
});

describe('JSON', () => {
  const schema = JSON.parse(
    readFileSync(new URL('../../src/report/result.schema.json', import.meta.url), 'utf8'),
  );

  /** The names of every object of the schema, in its order. */
  function orders(part: unknown): string[][] {
    if (typeof part !== 'object' || part === null) return [];
    const own = 'properties' in part ? [Object.keys(part.properties as object)] : [];
    return [...own, ...Object.values(part).flatMap(orders)];
  }

  test('the order of names is that of the schema, for every kind of object', () => {
    for (const names of orders(schema)) {
      const shuffled = Object.fromEntries([...names].reverse().map((name) => [name, 0]));
      const printed = JSON.parse(jsonReport([shuffled as unknown as Result]));
      expect(Object.keys(printed[0])).toEqual(names);
    }
  });

  test('samples keep the schema, printing loses nothing, two spaces, a line feed at the end', () => {
    for (const result of [CARRY, CROWDED]) {
      const text = jsonReport([result]);
      expect(resultFaults(JSON.parse(text))).toEqual([]);
      expect(JSON.parse(text)).toEqual([result]);
      expect(text.startsWith('[\n  {\n    "format": "tickwright.result/1",\n')).toBe(true);
      expect(text.endsWith(']\n')).toBe(true);
    }
  });

  test('the validator refuses what the contract does not allow', () => {
    const wrong = [
      { ...CARRY, format: 'tickwright.result/2' },
      { ...CARRY, extra: 1 },
      { ...CARRY, points: [{ ...CARRY.points[0], legs: -1 }] },
      { ...CARRY, notices: [{ severity: 'bad', code: '', message: '', line: 0, column: null }] },
      withProof({ verdict: 'different', method: 'patterns', counterexample: { a: 2 as 1 } }),
    ];
    for (const result of wrong) expect(resultFaults([result]), JSON.stringify(result)).not.toEqual([]);
    expect(resultFaults(CARRY)).not.toEqual([]);
  });
});
