// Runs every bench of this folder, one after the other, each in a process of its own.
import { spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const folder = new URL('./', import.meta.url);
const own = fileURLToPath(import.meta.url);
for (const name of readdirSync(folder).sort()) {
  const file = fileURLToPath(new URL(name, folder));
  if (file === own || !/\.(?:js|ts)$/.test(name)) continue;
  const loader = name.endsWith('.ts') ? ['--import', 'tsx'] : [];
  const { status } = spawnSync(process.execPath, [...loader, file], { stdio: 'inherit' });
  if (status !== 0) process.exitCode = 1;
}
