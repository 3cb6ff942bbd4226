// The shape of the code, checked: which folder may import from which, and what only the command line may touch.

import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** Data flows downwards: each layer may import from itself and from those above it. */
const LAYERS = [
  'grammar',
  'src/source',
  'src/equations',
  'src/truth',
  'src/target',
  'src/network',
  'src/solver',
  'src/search',
  'src/polarity',
  'src/timing',
  'src/slices',
  'src/proof',
  'src/report',
  'src/tickwright.ts',
  'src/batch',
  'src/page',
  'src/cli',
];

/** Layers that may import from less than everything above them; `types of` allows `import type` only. */
const NARROWER: Readonly<Record<string, readonly string[]>> = {
  grammar: [],
  'src/proof': ['src/source', 'src/equations', 'src/solver', 'types of src/network'],
};

/** Layers that know the machine; everything else also runs in a browser. */
const AT_THE_EDGE = ['src/cli', 'src/batch'];

const FORBIDDEN_NAMES = /\b(?:utils?|helpers?|common|core|misc|index)\.ts$/;

interface Import {
  readonly from: string;
  readonly to: string;
  readonly typeOnly: boolean;
}

function filesUnder(folder: string): string[] {
  return readdirSync(path.join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.ts'))
    .map((entry) => path.relative(root, path.join(entry.parentPath, entry.name)).replaceAll('\\', '/'))
    .sort();
}

function layerOf(file: string): string {
  const layer = LAYERS.find((name) => file === name || file.startsWith(`${name}/`));
  if (layer === undefined) throw new Error(`${file} stands in no layer: add its folder to LAYERS or move it`);
  return layer;
}

/** The text of a file without comments; texts in quotes stay, which the patterns below can bear. */
function codeOf(file: string): string {
  return readFileSync(path.join(root, file), 'utf8')
    .replace(/\/\*[\s\S]*?\*\//g, '')
    .replace(/^\s*\/\/.*$/gm, '')
    .replace(/(^|[\s;,{(])\/\/ .*$/gm, '$1');
}

function importsOf(file: string): Import[] {
  const pattern = /\b(?:import|export)\s+(type\s+)?(?:([^'";]*?)\s*\bfrom\s*)?['"]([^'"]+)['"]/g;
  const lazy = /\bimport\(\s*['"]([^'"]+)['"]/g;
  const code = codeOf(file);
  const found = [...code.matchAll(pattern)].map((match) => ({
    to: match[3] ?? '',
    typeOnly: match[1] !== undefined || everyNameIsType(match[2]),
  }));
  for (const match of code.matchAll(lazy)) found.push({ to: match[1] ?? '', typeOnly: false });
  return found.map(({ to, typeOnly }) => ({
    from: file,
    to: to.startsWith('.') ? path.posix.join(path.posix.dirname(file), to) : to,
    typeOnly,
  }));
}

function everyNameIsType(clause: string | undefined): boolean {
  const names = /^\{([\s\S]*)\}$/.exec(clause?.trim() ?? '')?.[1]?.split(',') ?? [];
  return names.length > 0 && names.every((name) => name.trim() === '' || name.trim().startsWith('type '));
}

function isOurs(target: string): boolean {
  return target.startsWith('src/') || target.startsWith('grammar/');
}

function mayImport(from: string, to: string, typeOnly: boolean): boolean {
  if (from === to) return true;
  const allowed = NARROWER[from];
  if (allowed !== undefined) return allowed.includes(to) || (typeOnly && allowed.includes(`types of ${to}`));
  return LAYERS.indexOf(to) < LAYERS.indexOf(from);
}

const files = [...filesUnder('grammar'), ...filesUnder('src')];
const imports = files.flatMap(importsOf);
const browserFiles = files.filter((file) => !AT_THE_EDGE.includes(layerOf(file)));

describe('layers', () => {
  test('there are files to judge, and their imports are found', () => {
    expect(files.length).toBeGreaterThan(10);
    expect(imports.some(({ typeOnly }) => typeOnly)).toBe(true);
    expect(imports.some(({ typeOnly }) => !typeOnly)).toBe(true);
  });

  test('each folder imports only from those above it', () => {
    const wrong = imports
      .filter(({ to }) => isOurs(to))
      .filter(({ from, to, typeOnly }) => !mayImport(layerOf(from), layerOf(to), typeOnly))
      .map(({ from, to }) => `${from} imports ${to}`);
    expect(wrong).toEqual([]);
  });

  test('imports name files of this repository with their ending, and they exist', () => {
    const known = new Set([...files, 'package.json']);
    const wrong = imports
      .filter(({ to }) => isOurs(to) && !known.has(to))
      .map(({ from, to }) => `${from}: ${to}`);
    expect(wrong).toEqual([]);
  });

  test('nothing of the tests or of the builders is imported', () => {
    expect(imports.filter(({ to }) => /^(?:\.\.|tests\/|bin\/)/.test(to))).toEqual([]);
  });
});

describe('everything but the edge runs in a browser', () => {
  test('no Node module', () => {
    const wrong = imports.filter(({ from, to }) => browserFiles.includes(from) && to.startsWith('node:'));
    expect(wrong).toEqual([]);
  });

  test.each([
    ['no console, process or file', /\b(?:console|process|Buffer|__dirname|require)\s*[.(]/],
    ['no clock', /\bDate\b|\bperformance\s*\.|\bset(?:Timeout|Interval|Immediate)\b/],
    ['no randomness', /\bMath\.random\b|\bcrypto\b/],
  ])('%s', (_, pattern) => {
    expect(browserFiles.filter((file) => pattern.test(codeOf(file)))).toEqual([]);
  });
});

describe('habits', () => {
  test('no `any`', () => {
    const pattern = /(?::|<|\bas|\|)\s*any\b(?!['`])/;
    expect(files.filter((file) => pattern.test(codeOf(file)))).toEqual([]);
  });

  test('no default exports, no names without a subject', () => {
    expect(files.filter((file) => /\bexport\s+default\b/.test(codeOf(file)))).toEqual([]);
    expect(files.filter((file) => FORBIDDEN_NAMES.test(file))).toEqual([]);
  });

  test('the top level holds nothing else', () => {
    const allowed = [
      'CHANGELOG.md',
      'DEVELOPERS.md',
      'LICENSE',
      'README.md',
      'bin',
      'examples',
      'grammar',
      'package-lock.json',
      'package.json',
      'src',
      'tests',
      'tsconfig.json',
      // Ignored by git.
      'coverage',
      'node_modules',
    ];
    const present = readdirSync(root).filter((name) => !name.startsWith('.'));
    expect(present.filter((name) => !allowed.includes(name))).toEqual([]);
  });
});
