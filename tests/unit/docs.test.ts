// README.md and DEVELOPERS.md are executed. What they must keep to:
//
// - A `sh` block is run in a folder that looks like this one. A `text` block behind it is its whole output, both streams
//   together; without one the commands must succeed. A block of `npm`, `npx` or `git` lines is not run (it would start
//   these tests again): its scripts and files must exist.
// - The `js` blocks of one document are one program, run at the top of the repository.
// - A block marked `file=NAME` is written to that file before the commands are run; equations in it must be sound.
// - `<!-- table NAME -->` stands before a table that comes from the code.
// - Paths must exist, and names of code in backticks must occur in the code.
// - What README.md says is not there yet is tried where that is cheap: once it works, its row here and its sentence go.
//
// TICKWRIGHT_REFRESH=1 writes outputs and tables anew.

import { spawnSync } from 'node:child_process';
import {
  copyFileSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { cutBlocks, isBlank } from '../../grammar/blocks.ts';
import packageJson from '../../package.json' with { type: 'json' };
import { itemsOf } from '../../src/batch/items.ts';
import { commandsMarkdown, exitCodesMarkdown, optionsMarkdown } from '../../src/cli/help.ts';
import { readBuiltText } from '../../src/equations/read-built.ts';
import { readEquations } from '../../src/equations/read-equations.ts';
import type { Diagnostic } from '../../src/source/diagnostic.ts';
import { readTarget } from '../../src/target/read-target.ts';
import { SHIPPED_TARGETS } from '../../src/target/shipped-targets.ts';
import { optimize, type Result } from '../../src/tickwright.ts';
import { REFRESH } from '../support/golden.ts';
import { search, targetOf, writtenFigures } from '../support/system-of.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const DOCUMENTS = ['README.md', 'DEVELOPERS.md'];
const FOLDERS = ['bin', 'examples', 'grammar', 'src', 'tests', 'node_modules'];

/** A piece of a document: running text, or a fenced block with its info string and the lines inside. */
type Piece =
  | { readonly kind: 'prose'; text: string }
  | { readonly kind: 'block'; readonly info: string; body: string; readonly line: number };
type Block = Extract<Piece, { kind: 'block' }>;

class Document {
  readonly name: string;
  readonly text: string;
  readonly pieces: Piece[] = [];

  constructor(name: string) {
    this.name = name;
    this.text = readFileSync(path.join(root, name), 'utf8');
    let from = 0;
    for (const match of this.text.matchAll(/^```(.*)\n([\s\S]*?)^```$/gm)) {
      const line = this.text.slice(0, match.index).split('\n').length;
      this.pieces.push({ kind: 'prose', text: this.text.slice(from, match.index) });
      this.pieces.push({ kind: 'block', info: match[1] ?? '', body: match[2] ?? '', line });
      from = match.index + match[0].length;
    }
    this.pieces.push({ kind: 'prose', text: this.text.slice(from) });
  }

  blocks(language: string): Block[] {
    return this.pieces.filter(
      (piece): piece is Block => piece.kind === 'block' && piece.info.split(' ')[0] === language,
    );
  }

  /** The `text` block that stands behind a block with nothing between, or null. */
  outputOf(block: Block): Block | null {
    const at = this.pieces.indexOf(block);
    const [between, next] = [this.pieces[at + 1], this.pieces[at + 2]];
    if (between?.kind !== 'prose' || between.text.trim() !== '') return null;
    return next?.kind === 'block' && next.info === 'text' ? next : null;
  }

  /** Compares what a document shows with what is so, or writes it down. */
  expectOutput(shown: Block, output: string): void {
    if (REFRESH) shown.body = output;
    const hint = `${this.name}, line ${shown.line} (TICKWRIGHT_REFRESH=1 writes it anew)`;
    expect(output, hint).toBe(shown.body);
  }

  print(): string {
    return this.pieces
      .map((piece) => (piece.kind === 'prose' ? piece.text : `\`\`\`${piece.info}\n${piece.body}\`\`\``))
      .join('');
  }
}

const documents = DOCUMENTS.map((name) => new Document(name));
const each = documents.map((document): [string, Document] => [document.name, document]);

/** A folder in which the commands of the documents can be run as if it were this one. */
const folder = mkdtempSync(path.join(tmpdir(), 'tickwright-docs-'));
for (const name of FOLDERS) symlinkSync(path.join(root, name), path.join(folder, name), 'junction');
copyFileSync(path.join(root, 'package.json'), path.join(folder, 'package.json'));

afterAll(() => {
  rmSync(folder, { recursive: true });
  if (!REFRESH) return;
  for (const document of documents) writeFileSync(path.join(root, document.name), document.print());
});

/** Faults of a text with or without blocks. */
function faultsOf(text: string): readonly Diagnostic[] {
  const { rest, blocks } = cutBlocks(text);
  const apart = blocks
    .filter(({ kind }) => kind === 'block')
    .flatMap(({ inside }) => readEquations(inside).diagnostics);
  const isBuilt = blocks.some(({ kind }) => kind === 'built');
  const whole = isBuilt
    ? readBuiltText(text).diagnostics
    : isBlank(rest)
      ? []
      : readEquations(text).diagnostics;
  return [...apart, ...whole];
}

function sourceFiles(): string[] {
  const skipped = /(?:^|\/)(?:node_modules|built|coverage|\.git)(?:\/|$)/;
  return ['bin', 'grammar', 'src', 'tests', 'examples', '.ci'].flatMap((top) =>
    readdirSync(path.join(root, top), { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => path.relative(root, path.join(entry.parentPath, entry.name)).replaceAll('\\', '/'))
      .filter((file) => !skipped.test(file)),
  );
}

const NOT_RUN = /^(?:[A-Z_]+=\S+ )*(?:npm|npx|git)\b/;
const linesOf = (block: Block): string[] => block.body.split('\n').filter((line) => line !== '');
const isNotRun = (block: Block): boolean => linesOf(block).every((line) => NOT_RUN.test(line));

test.each(each)('%s is read whole and has blocks of known kinds', (_, document) => {
  expect(document.print()).toBe(document.text);
  for (const piece of document.pieces) {
    if (piece.kind === 'block')
      expect(piece.info).toMatch(/^(?:sh|text|js|(?:logic|json)(?: file=[\w.-]+)?)$/);
  }
  const shown = [...document.blocks('sh'), ...document.blocks('js')].map((block) => document.outputOf(block));
  for (const block of document.blocks('text')) expect(shown, `line ${block.line}`).toContain(block);
});

describe('files', () => {
  const marked = documents.flatMap((document) =>
    [...document.blocks('logic'), ...document.blocks('json')].map((block): [string, Block] => [
      /file=(\S+)/.exec(block.info)?.[1] ?? `${document.name}, line ${block.line}`,
      block,
    ]),
  );
  test.each(marked)('%s is sound', (name, { info, body }) => {
    if (info.includes('file=')) writeFileSync(path.join(folder, name), body);
    // A file of a batch may hold several systems.
    if (info.startsWith('logic')) {
      for (const { text } of itemsOf([{ name, text: body }])) expect(faultsOf(text)).toEqual([]);
    } else expect(readTarget(body).diagnostics).toEqual([]);
  });
});

describe.skipIf(process.platform === 'win32')('commands', () => {
  const run = documents.flatMap((document) =>
    document
      .blocks('sh')
      .filter((block) => !isNotRun(block))
      .map((block): [string, Block, Document] => [`${document.name}, line ${block.line}`, block, document]),
  );
  test.each(run)('%s', (_, block, document) => {
    const env = { ...process.env, NO_COLOR: '1', TICKWRIGHT_REFRESH: '' };
    const script = `exec 2>&1\n${block.body}`;
    const { status, stdout } = spawnSync('sh', ['-c', script], { cwd: folder, encoding: 'utf8', env });
    const shown = document.outputOf(block);
    if (shown === null) expect([status, stdout]).toEqual([0, stdout]);
    else document.expectOutput(shown, stdout);
    // A fault that is meant to be shown is shown with its exit code.
    if (/error: /.test(stdout)) expect(stdout).toMatch(/^exit code [1-6]$/m);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: colours must not be there
    expect(stdout).not.toMatch(/\u001b|^ {4}at .*:\d+:\d+/m);
  });

  const notRun = documents.flatMap((document) => document.blocks('sh').filter(isNotRun).flatMap(linesOf));
  test.each([...new Set(notRun)])('%s names a script and files that exist', (line) => {
    const script = /\bnpm (?:run )?([\w-]+)/.exec(line)?.[1];
    if (script !== undefined) expect(Object.keys(packageJson.scripts)).toContain(script);
    const files = line.split(' ').filter((word) => /^\w[\w.-]*\//.test(word));
    for (const file of files) expect(existsSync(path.join(root, file)), file).toBe(true);
  });
});

describe('programs', () => {
  const MARK = '\u0001 end of block';

  test.each(each)('%s', (_, document) => {
    const blocks = document.blocks('js');
    const program = blocks.map(({ body }) => `${body}\nconsole.log(${JSON.stringify(MARK)});\n`).join('');
    const argv = ['--import', 'tsx', '--input-type=module', '-'];
    const { status, stdout, stderr } = spawnSync(process.execPath, argv, {
      cwd: root,
      encoding: 'utf8',
      input: program,
      env: { ...process.env, NO_COLOR: '1' },
    });
    expect([stderr, status]).toEqual(['', 0]);
    const outputs = stdout.split(`${MARK}\n`);
    expect(outputs.length).toBe(blocks.length + 1);
    blocks.forEach((block, at) => {
      const shown = document.outputOf(block);
      if (shown === null) throw new Error(`${document.name}, line ${block.line}: no output is shown`);
      document.expectOutput(shown, outputs[at] ?? '');
    });
  });
});

describe('tables', () => {
  const row = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
  const table = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
    [head, head.map(() => '---'), ...rows].map(row).join('\n');

  /** What gates of two operands cost, asked of the program: `ticks, parts`. */
  function gatesMarkdown(): string {
    const targets = ['joined-or', 'joined-and', 'nor-gates'];
    const gates = ['a + b', 'a nor b', 'a nand b', 'a b', 'a ^ b', 'a xnor b'];
    const names = ['OR', 'NOR', 'NAND', 'AND', 'XOR', 'XNOR'];
    const cost = (gate: string, name: string): string => {
      const [ticks, parts] = writtenFigures(search(`x = ${gate}`, { target: targetOf(name) })).split(':');
      return `${ticks} ${ticks === '1' ? 'tick' : 'ticks'}, ${parts} ${parts === '1' ? 'part' : 'parts'}`;
    };
    const rows = gates.map((gate, at) => [names[at] ?? '', ...targets.map((target) => cost(gate, target))]);
    return table(['gate', ...targets.map((name) => `\`${name}\``)], rows);
  }

  const TABLES: Readonly<Record<string, () => string>> = {
    commands: commandsMarkdown,
    options: () => optionsMarkdown(),
    'exit-codes': exitCodesMarkdown,
    targets: () =>
      table(
        ['target', 'what it means'],
        SHIPPED_TARGETS.map(({ name, summary }) => [`\`${name}\``, summary]),
      ),
    gates: gatesMarkdown,
  };
  const PLACE = /<!-- table ([\w-]+) -->\n\n((?:(?:\|.*\n)+\n)?)/g;

  test('every table has its place, once', () => {
    const names = documents.flatMap(({ text }) => [...text.matchAll(PLACE)].map((match) => match[1]));
    expect(names.sort()).toEqual(Object.keys(TABLES).sort());
  });

  test.each(Object.entries(TABLES))('%s', (name, make) => {
    const expected = `${make()}\n\n`;
    for (const { pieces } of documents) {
      for (const piece of pieces) {
        if (piece.kind !== 'prose') continue;
        piece.text = piece.text.replace(PLACE, (whole: string, found: string, rows: string) => {
          if (found !== name) return whole;
          if (!REFRESH) expect(rows, `table ${name} (TICKWRIGHT_REFRESH=1 writes it anew)`).toBe(expected);
          return `<!-- table ${name} -->\n\n${expected}`;
        });
      }
    }
  });
});

describe('what is said not to be there is not there', () => {
  const [, missing = ''] = documents[0]?.text.split('## What is not there yet') ?? [];
  const found = (text: string, target = targetOf('joined-or')): Result => {
    const options = { target, ticks: null, effort: 'quick', seed: 1, explain: false, version: '' } as const;
    return optimize('text', text, {}, options).result;
  };
  const said = (text: string, target = targetOf('joined-or')): string[] =>
    found(text, target).notices.map(({ code }) => code);
  const oneWire = { ...targetOf('joined-or'), input: { outputs: 1 } };
  /** The words of a sentence, and what is true as long as it is. */
  const ROWS: readonly (readonly [string, () => boolean])[] = [
    ['is only warned of', () => said('x = a + b; y = a nor c', oneWire).includes('input-feeds-too-many')],
    ['no other equation mentions', () => (found("x = a b; free x: a' b; y = x c").points[0]?.parts ?? 0) > 3],
    ['Memory', () => said('x = a x').includes('circular')],
  ];
  test.each(ROWS)('%s', (words, isStillSo) => {
    expect(missing.replace(/\s+/g, ' ')).toContain(words);
    expect(isStillSo(), 'it is there now: take the sentence and this row out').toBe(true);
  });
});

describe('what the documents name is there', () => {
  const files = sourceFiles();
  const baseNames = new Set(files.map((file) => path.posix.basename(file)));
  const code = files
    .filter((file) => /\.(?:ts|js|json|ebnf)$/.test(file) && !file.endsWith('docs.test.ts'))
    .map((file) => readFileSync(path.join(root, file), 'utf8'))
    .join('\n');
  const made = new Set(
    documents.flatMap(({ text }) => [...text.matchAll(/file=(\S+)/g)].map((match) => match[1])),
  );

  test.each(each)('%s: paths', (_, { text }) => {
    const paths = text.matchAll(/(?<![\w/.-])(?:\.ci|src|grammar|bin|tests|examples)\/[\w./-]*/g);
    const missing = [...paths]
      .map(([found]) => found.replace(/\.$/, ''))
      .filter((found) => !existsSync(path.join(root, found)));
    expect(missing).toEqual([]);
  });

  test.each(each)('%s: links', (_, { text }) => {
    const targets = [...text.matchAll(/\]\(([^)#]+)\)/g)].map((match) => match[1] ?? '');
    expect(targets.filter((target) => !existsSync(path.join(root, target)))).toEqual([]);
  });

  test.each(each)('%s: names', (_, { pieces }) => {
    const prose = pieces.map((piece) => (piece.kind === 'prose' ? piece.text : '')).join('');
    const words = [...prose.matchAll(/`([^`\n]+)`/g)].map((match) => match[1] ?? '');
    const fileNames = words.filter((word) => /^[\w-]+\.(?:ts|js|json|md|ebnf|logic)$/.test(word));
    const unknown = (word: string): boolean =>
      !baseNames.has(word) && !made.has(word) && !existsSync(path.join(root, word));
    expect(fileNames.filter(unknown)).toEqual([]);
    const names = words.filter((word) =>
      /^(?:[a-z]+[A-Z]\w*|[A-Z]+_[A-Z_]+|[A-Z][a-z]+[A-Z]\w*)$/.test(word),
    );
    expect(names.filter((name) => !new RegExp(`\\b${name}\\b`).test(code))).toEqual([]);
  });

  test('no machine and no tool of the workplace is named', () => {
    for (const { text } of documents) expect(text).not.toMatch(/\/(?:work|tmp|home|root)\//);
  });
});
