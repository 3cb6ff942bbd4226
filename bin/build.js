// Builds bin/built/: the command line in one file with its compiled code, the library in one file, and the declarations
// of the library. Does nothing when no source has changed since the last build, judged by content.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { compiledFile, loadBundle } from './load-bundle.js';

const root = new URL('../', import.meta.url);
const built = new URL('bin/built/', root);
const bundleFile = new URL('tickwright.cjs', built);
const stampFile = new URL('stamp', built);
const OUTPUTS = ['tickwright.cjs', 'tickwright.compiled', 'library.js', 'types/src/tickwright.d.ts'];
const BUILDERS = ['bin/build.js', 'bin/load-bundle.js', 'bin/tsconfig.library.json'];
const FILES = ['package.json', 'package-lock.json', 'tsconfig.json', ...BUILDERS];
const FOLDERS = ['src', 'grammar'];

/** Short runs that between them use what most runs use. */
const WARM_UP = [['c2 = g1 + p1 g0 + p1 p0 c0'], ['x = a ^ b', '--either', 'a', '--json', '--explain']];

/** One hash over the names and contents of everything that the build reads. */
function sourceHash() {
  const files = [...FILES];
  for (const folder of FOLDERS) {
    for (const entry of readdirSync(new URL(`${folder}/`, root), { recursive: true, withFileTypes: true })) {
      if (entry.isFile()) files.push(`${entry.parentPath}/${entry.name}`.slice(fileURLToPath(root).length));
    }
  }
  const hash = createHash('sha256');
  for (const file of files.map((name) => name.replaceAll('\\', '/')).sort()) {
    const content = readFileSync(new URL(file, root));
    hash.update(`${file} ${content.length}\n`).update(content);
  }
  return hash.digest('hex');
}

function isFresh(hash) {
  if (!OUTPUTS.every((name) => existsSync(new URL(name, built)))) return false;
  try {
    return readFileSync(stampFile, 'utf8') === hash;
  } catch {
    return false;
  }
}

/** Bundles; names stay as they are, so that a stack trace in a report of a fault can be read. */
async function bundle() {
  const { build } = await import('esbuild');
  const common = {
    absWorkingDir: fileURLToPath(root),
    bundle: true,
    target: 'node20',
    minifyWhitespace: true,
    minifySyntax: true,
    sourcemap: 'external',
    legalComments: 'none',
    logLevel: 'warning',
  };
  // CommonJS, because its compiled code can be kept (load-bundle.js).
  await build({
    ...common,
    entryPoints: ['src/cli/main.ts'],
    outfile: 'bin/built/tickwright.cjs',
    format: 'cjs',
    platform: 'node',
    // Large, and needed for pictures only: read when it is asked for.
    external: ['elkjs/lib/elk.bundled.js'],
    supported: { 'dynamic-import': false },
  });
  await build({
    ...common,
    entryPoints: ['src/tickwright.ts'],
    outfile: 'bin/built/library.js',
    format: 'esm',
    platform: 'neutral',
    mainFields: ['module', 'main'],
  });
}

/** The bundle is read as ASCII; what esbuild leaves beyond that, in regular expressions, is escaped here. */
function writeInAscii() {
  const text = readFileSync(bundleFile, 'utf8');
  const escaped = (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`;
  // biome-ignore lint/suspicious/noControlCharactersInRegex: all of ASCII is meant
  writeFileSync(bundleFile, text.replace(/[^\x00-\x7f]/g, escaped));
}

/** Keeps the compiled code of what a short run uses. */
async function keepCompiled() {
  const { program, script } = loadBundle();
  const host = { readFile() {}, readInput() {}, async writeOut() {}, async writeErr() {}, colour: {} };
  for (const argv of WARM_UP) await program.main(argv, host);
  writeFileSync(compiledFile, script.createCachedData());
}

function declarations() {
  const compiler = fileURLToPath(new URL('node_modules/typescript/bin/tsc', root));
  const project = fileURLToPath(new URL('bin/tsconfig.library.json', root));
  return spawnSync(process.execPath, [compiler, '-p', project], { stdio: 'inherit' }).status === 0;
}

const hash = sourceHash();
if (!isFresh(hash)) {
  for (const stale of [fileURLToPath(stampFile), compiledFile]) rmSync(stale, { force: true });
  mkdirSync(built, { recursive: true });
  try {
    await bundle();
    writeInAscii();
    await keepCompiled();
    if (declarations()) writeFileSync(stampFile, hash);
    else process.exitCode = 1;
  } catch (error) {
    // esbuild has printed where; anything else says so itself.
    if (!error.errors) console.error(error);
    process.exitCode = 1;
  }
  console.log(process.exitCode ? 'Build failed.' : 'Built bin/built/.');
}
