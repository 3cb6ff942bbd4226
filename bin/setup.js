// Installs what is missing: compares the lock file with the stamp that the last set-up left in node_modules and runs
// `npm ci` only when they differ. Uses nothing but Node, because nothing else may be there yet.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const root = new URL('../', import.meta.url);
const stampFile = new URL('node_modules/.tickwright-setup', root);

/** What the stamp should say: the lock file as it is now, and for which kind of machine it was installed. */
function wanted() {
  const lock = readFileSync(new URL('package-lock.json', root));
  return `${createHash('sha256').update(lock).digest('hex')} ${process.platform} ${process.arch}\n`;
}

function present() {
  try {
    return readFileSync(stampFile, 'utf8');
  } catch {
    return null;
  }
}

function nodeIsRecentEnough() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  return major > 20 || (major === 20 && minor >= 19);
}

function install() {
  console.log('Installing what the lock file lists (npm ci); this happens once.');
  const args = ['ci', '--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error'];
  const npm = process.env.npm_execpath;
  const cwd = fileURLToPath(root);
  return npm?.endsWith('.js')
    ? spawnSync(process.execPath, [npm, ...args], { cwd, stdio: 'inherit' })
    : spawnSync('npm', args, { cwd, stdio: 'inherit', shell: process.platform === 'win32' });
}

if (!nodeIsRecentEnough()) {
  console.error(`tickwright needs Node 20.19 or newer; this is ${process.versions.node}.`);
  process.exitCode = 1;
} else if (present() !== wanted()) {
  const { status, error } = install();
  if (status === 0) {
    writeFileSync(stampFile, wanted());
  } else {
    console.error(
      [
        `Set-up failed: npm ci ${error ? `could not be started (${error.message})` : `ended with code ${status}`}.`,
        'It needs npm and a way to the package registry the first time. What npm said stands above.',
        'Then try the same command again.',
      ].join('\n'),
    );
    process.exitCode = 1;
  }
}
