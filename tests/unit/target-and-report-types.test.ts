import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

test('types and validators are fresh against their schemas', () => {
  const program = fileURLToPath(new URL('../../bin/types.js', import.meta.url));
  const { status, stderr } = spawnSync(process.execPath, [program, '--check'], { encoding: 'utf8' });
  expect(stderr).toBe('');
  expect(status).toBe(0);
});
