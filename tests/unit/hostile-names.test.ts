// Names that try to break out of a file: every printer is given all of them, and what comes out is read by readers that
// know nothing of the printers.

import { HtmlValidate } from 'html-validate';
import { SaxesParser } from 'saxes';
import { describe, expect, test } from 'vitest';
import type { Expression, System } from '../../src/equations/system.ts';
import { readVerilog } from '../../src/network/read-verilog.ts';
import { prove } from '../../src/proof/prove.ts';
import { pointOf } from '../../src/report/assemble.ts';
import { frontierCsv, networkCsv, sheetCsv } from '../../src/report/csv.ts';
import { dotGraph } from '../../src/report/dot.ts';
import { frontierPlot } from '../../src/report/frontier-plot.ts';
import { slowestTransition } from '../../src/report/levels.ts';
import { reportPage } from '../../src/report/page.ts';
import { pictureFile } from '../../src/report/picture.ts';
import type { Point, Result } from '../../src/report/result.ts';
import { schematicFile, schematicOf } from '../../src/report/schematic.ts';
import { sheetOf } from '../../src/report/sheet.ts';
import { sheetMarkdown } from '../../src/report/sheet-markdown.ts';
import { sheetText } from '../../src/report/sheet-text.ts';
import { verilogModule } from '../../src/report/verilog.ts';
import { verilogBench } from '../../src/report/verilog-bench.ts';
import { waveformPicture } from '../../src/report/waveforms.ts';
import { UNLIMITED } from '../../src/report/wiring.ts';
import { systemTables } from '../../src/truth/system-tables.ts';
import { library } from '../support/pictured-results.ts';
import { CARRY } from '../support/sample-results.ts';
import { foundNetwork, search } from '../support/system-of.ts';
import { runBench } from '../support/verilog-bench-runner.ts';

const GROUPS: Readonly<Record<string, readonly string[]>> = {
  markup: ['<script>alert(1)</script>', 'a&b', '"', "'", ']]>', '--><img src=x onerror=alert(1)>'],
  formulas: ['=1+1', '@SUM(A1)', '+1', '-1', '\t=1', '=HYPERLINK("x","y")'],
  programs: ['endmodule', '\\', 'a b', '*/', '`include "x"', '%d%s'],
  characters: ['x'.repeat(200), 'gr\u00f6\u00dfe', '\u6f22\u5b57', '\u202eevil', 'a\nb', '\u0000\u001b[31m'],
  collisions: ['n1', 'n2', 'j1', 'pattern', 'network', 'got_out'],
  graphs: ['a" -> "b', '\\n', 'x\\', '}', 'node [shape=box]', '|pipe|'],
  nothing: ['__proto__', 'constructor', '$u41$', '1bit', '_', '\ud83d\ude00'],
};

interface Hostile {
  readonly system: System;
  readonly point: Point;
  readonly result: Result;
}

function hostile(names: readonly string[]): Hostile {
  const signal = (at: number): Expression => ({ kind: 'signal', signal: at });
  const pairs = [0, 2, 4].map((at): Expression => ({ kind: 'and', args: [signal(at), signal(at + 1)] }));
  const system: System = {
    signals: [...names, `${names[0]} out`, 'out'],
    inputs: names.map((_, at) => ({
      signal: at,
      rail: at === 1 ? 'low' : at === 2 ? 'both' : 'high',
      tick: 0,
    })),
    outputs: [
      { signal: 6, rail: 'high', by: null },
      { signal: 7, rail: 'both', by: null },
    ],
    definitions: [
      { signal: 6, expression: { kind: 'or', args: pairs }, at: null },
      { signal: 7, expression: { kind: 'xor', args: [signal(0), signal(3)] }, at: null },
    ],
    never: [],
  };
  const searched = search(system, { effort: 'quick' });
  const { answer } = searched.outcome;
  if (answer === null) throw new Error('nothing was found');
  const network = foundNetwork(searched);
  const point = pointOf({
    system,
    tables: systemTables(system),
    target: searched.target,
    answer,
    verdict: prove(system, network, 'or'),
    explain: true,
  });
  const notice = {
    severity: 'warning',
    code: 'x',
    message: `about ${names[0]}`,
    line: null,
    column: null,
  } as const;
  return {
    system,
    point,
    result: { ...CARRY, source: names.join(' '), points: [point, point], notices: [notice] },
  };
}

/** Names of the elements and attributes in a well-formed document. */
function vocabulary(xml: string): Set<string> {
  const words = new Set<string>();
  const parser = new SaxesParser({ xmlns: true });
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', ({ name, attributes }) => {
    words.add(name);
    for (const attribute of Object.keys(attributes)) words.add(`@${attribute}`);
  });
  parser.write(xml).close();
  return words;
}

const SVG_WORDS = new Set(
  `svg g path rect circle text title desc style a @class @id @d @x @y @width @height @cx @cy @r @rx @transform @href
  @viewBox @xmlns @role @aria-labelledby @text-anchor @data-name @data-tick @data-rail @data-legs @data-leads @data-net
  @data-sheet @data-levels`.split(/\s+/),
);

/** Cells of RFC 4180. */
function csvRows(text: string): string[][] {
  const rows: string[][] = [[]];
  const pattern = /(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r\n|$)/y;
  while (pattern.lastIndex < text.length) {
    const match = pattern.exec(text);
    if (match === null) throw new Error('this is not CSV');
    rows[rows.length - 1].push(match[1]?.replaceAll('""', '"') ?? match[2]);
    if (match[3] === '\r\n') rows.push([]);
  }
  if (rows[rows.length - 1].length === 0) rows.pop();
  return rows;
}

describe.each(Object.entries(GROUPS))('%s', (_, names) => {
  const { system, point, result } = hostile(names);

  test('SVG is well formed and holds nothing but pictures', async () => {
    const drawn = await schematicOf(result, point, library, {
      limits: UNLIMITED,
      meanings: true,
      conflicts: [{ wire: names[0], text: names.join(' ') }],
    });
    const found = slowestTransition(point.network, 'or');
    const pictures = [
      schematicFile(drawn),
      ...(found === null ? [] : [pictureFile(waveformPicture(result, point, found))]),
      pictureFile(frontierPlot(result)!),
    ];
    for (const picture of pictures)
      expect([...vocabulary(picture)].filter((word) => !SVG_WORDS.has(word))).toEqual([]);
  });

  test('the report page is valid, and one script stands in it', async () => {
    const drawn = await schematicOf(result, point, library, { limits: UNLIMITED, prefix: 's-' });
    const found = slowestTransition(point.network, 'or')!;
    const page = reportPage({
      result,
      point,
      text: names.join('\n'),
      schematic: drawn.frame,
      sheet: sheetOf(result, point, UNLIMITED),
      waveforms: { frame: waveformPicture(result, point, found), transition: found },
      sections: [
        {
          id: 'conflicts',
          title: 'Conflicts',
          paragraphs: [...names],
          listing: names.join('\n'),
          tables: [{ caption: names[0], head: names.slice(0, 3), rows: [names.slice(0, 3)] }],
        },
      ],
      command: names.join(' '),
    });
    const validator = new HtmlValidate({ extends: ['html-validate:standard', 'html-validate:a11y'] });
    const report = await validator.validateString(page);
    expect(
      report.results.flatMap(({ messages }) => messages.map(({ line, message }) => `${line}: ${message}`)),
    ).toEqual([]);
    expect(page.match(/<script/gi)).toHaveLength(1);
    expect(page).not.toMatch(/<img|javascript:|https?:(?!\/\/www\.w3\.org\/)/i);
  });

  test('CSV has no cell that is a formula', () => {
    const sheet = sheetOf(result, point, UNLIMITED);
    for (const text of [networkCsv(point), frontierCsv(result), sheetCsv(sheet)]) {
      const rows = csvRows(text);
      for (const row of rows) {
        expect(row.length).toBe(rows[0].length);
        for (const cell of row) expect(cell).not.toMatch(/^\s*[=+\-@]/);
      }
      // biome-ignore lint/suspicious/noControlCharactersInRegex: these must not be there
      expect(text.replaceAll('\r\n', '')).not.toMatch(/[\u0000-\u001f\u202e]/);
    }
  });

  test('Verilog is read by two readers, and its bench finds nothing', () => {
    const module = verilogModule(result, point);
    const { lines, finished } = runBench(module, verilogBench(system, result, point));
    expect([...lines, finished]).toEqual(['64 patterns, 0 mismatches', true]);
    const { value, diagnostics } = readVerilog(module);
    expect(diagnostics).toEqual([]);
    expect(value?.network.size).toBe(point.network.inverters.length);
    const ports = value?.network.inputs.map(({ signal }) => value.signals[signal]);
    expect([...new Set(ports)].sort()).toEqual([...names].sort());
    expect(module).toMatch(/^[\n -~]*$/);
  });

  test('DOT consists of its own words and quoted texts', () => {
    const graph = dotGraph(names.join(' '), point);
    const rest = graph.replace(/"(?:[^"\\]|\\.)*"/g, '@');
    for (const line of rest.split('\n')) {
      expect(line).toMatch(
        /^(?:digraph @ \{|\}| {2}rankdir=LR;| {2}\w+ \[shape=\w+,(?: peripheries=2,)? label=@\];| {2}\w+ -> \w+(?: \[style=dashed\])?;| {2}\{ rank=\w+; [\w; ]+; \}|)$/,
      );
    }
  });

  test('texts and Markdown keep their shape', () => {
    const sheet = sheetOf(result, point, UNLIMITED);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these must not be there
    const unsafe = /[\u0000-\u0009\u000b-\u001f\u202e]/;
    expect(sheetText(sheet)).not.toMatch(unsafe);
    const markdown = sheetMarkdown(sheet);
    expect(markdown).not.toMatch(unsafe);
    const tables = markdown.split('\n\n').filter((block) => block.startsWith('|'));
    for (const block of tables) {
      const widths = block
        .trimEnd()
        .split('\n')
        .map((line) => line.replace(/\\./g, '').split('|').length);
      expect(new Set(widths).size).toBe(1);
    }
    expect(markdown.replaceAll('<br>', '')).not.toMatch(/(?<!\\)</);
  });
});
