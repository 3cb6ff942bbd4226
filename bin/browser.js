// Finds a Chromium for the tests of pictures and pages, or installs Debian's where that can be done. Prints its path, or
// says why there is none. `--install` allows the installation; without it this only looks.
import { spawnSync } from 'node:child_process';
import { accessSync, constants } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];

/** The path of a Chromium, or null. TICKWRIGHT_BROWSER names another one. */
export function findBrowser() {
  const folders = (process.env.PATH ?? '').split(path.delimiter);
  const named = process.env.TICKWRIGHT_BROWSER;
  const places = named ? [named] : folders.flatMap((folder) => NAMES.map((name) => path.join(folder, name)));
  for (const place of places) {
    try {
      accessSync(place, constants.X_OK);
      return place;
    } catch {
      // Not here.
    }
  }
  return null;
}

function installBrowser() {
  const isRoot = process.getuid?.() === 0;
  const hasApt = spawnSync('apt-get', ['--version'], { stdio: 'ignore' }).status === 0;
  if (!isRoot || !hasApt) {
    console.error('A Chromium can be installed here by hand only (Debian: apt-get install chromium).');
    return;
  }
  console.error("Installing Debian's Chromium for the tests of pictures; this happens once.");
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const stdio = ['ignore', 'ignore', 'inherit'];
  spawnSync('apt-get', ['update', '-q'], { env, stdio });
  spawnSync('apt-get', ['install', '-y', '-q', '--no-install-recommends', 'chromium', 'fonts-dejavu-core'], {
    env,
    stdio,
  });
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  if (findBrowser() === null && process.argv.includes('--install')) installBrowser();
  const found = findBrowser();
  if (found === null) {
    console.error('There is no Chromium: the tests of pictures in a browser are left out.');
    process.exitCode = 1;
  } else console.log(found);
}
