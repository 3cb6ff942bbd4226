// Loads the bundled program as Node loads any CommonJS module, but takes the compiled code from a file that the build
// left beside it: a third of the start-up time is otherwise spent compiling the same text again. V8 refuses compiled
// code of another version of itself, and then simply compiles.
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { Script } from 'node:vm';

const file = fileURLToPath(new URL('./built/tickwright.cjs', import.meta.url));
export const compiledFile = fileURLToPath(new URL('./built/tickwright.compiled', import.meta.url));

/** The exports of the program and the script they come from; null when there is no bundle yet. */
export function loadBundle() {
  if (!existsSync(file)) return null;
  // The bundle is written in ASCII, which is read fastest this way.
  const text = readFileSync(file, 'latin1');
  const cachedData = existsSync(compiledFile) ? readFileSync(compiledFile) : undefined;
  const script = new Script(`(function (exports, require, module) {${text}\n})`, {
    filename: file,
    cachedData,
  });
  const module = { exports: {} };
  script.runInThisContext()(module.exports, createRequire(file), module);
  return { program: module.exports, script };
}
