// The real process: launcher, streams, exit codes. Needs the bundle, which `npm test` builds first.

import { type SpawnSyncReturns, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdtempSync, openSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { resultFaults } from '../../src/report/result-check.ts';
import { runCli } from '../support/run-cli.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const launcher = path.join(root, 'bin', 'tickwright.js');
const folder = mkdtempSync(path.join(tmpdir(), 'tickwright-'));
afterAll(() => rmSync(folder, { recursive: true }));

function run(argv: readonly string[], input?: string | Buffer): SpawnSyncReturns<string> {
  return spawnSync(process.execPath, [launcher, ...argv], {
    encoding: 'utf8',
    cwd: folder,
    input: input ?? '',
  });
}

describe('the process', () => {
  test('arguments, a file and standard input', () => {
    writeFileSync(path.join(folder, 'hall.logic'), 'lamp = door_a nor door_b\n');
    const { status, stdout, stderr } = run(['x = a b', 'hall.logic', '-', '--json'], 'y = a xor b');
    expect([status, stderr]).toEqual([0, '']);
    const sources = JSON.parse(stdout).map((result: { source: string }) => result.source);
    expect(sources).toEqual(['arguments', 'hall.logic', 'standard input']);
  });

  test('no colours in a pipe', () => {
    expect(run(['x = a b']).stdout).not.toContain('\u001b');
  });

  test('a folder, a missing file, a file that is not UTF-8', () => {
    writeFileSync(path.join(folder, 'latin.logic'), Buffer.from('x = \xe9', 'latin1'));
    const { status, stdout, stderr } = run(['.', 'nowhere', 'latin.logic']);
    expect([status, stdout]).toEqual([1, '']);
    expect(stderr).toMatchInlineSnapshot(`
      ".: error: this is a folder, not a file
      help: name a file in it

      nowhere: error: there is no such file
      help: an argument that holds = is equations, any other is a file

      latin.logic: error: this is not UTF-8 text: byte 5 cannot stand there
      help: save it as UTF-8, or is it the right file?
      "
    `);
  });

  test('wrong use', () => {
    expect(run(['--nonsense']).status).toBe(2);
    expect(run([]).status).toBe(2);
  });

  test.skipIf(process.platform === 'win32')('a reader that goes away early is no fault', () => {
    const command = `"${process.execPath}" "${launcher}" --help | true; echo "\${PIPESTATUS[0]}"`;
    const { stdout, stderr } = spawnSync('bash', ['-c', command], { encoding: 'utf8' });
    expect([stdout, stderr]).toEqual(['0\n', '']);
  });

  test.skipIf(!existsSync('/dev/full'))('a full disk: 6', () => {
    const full = openSync('/dev/full', 'w');
    const { status, stderr } = spawnSync(process.execPath, [launcher, 'x = a b'], {
      encoding: 'utf8',
      stdio: ['ignore', full, 'pipe'],
    });
    expect([status, stderr]).toEqual([6, 'tickwright: error: the output could not be written: ENOSPC\n']);
  });
});

describe('a long search', () => {
  const bits = 6;
  const adder = [
    `input a[${bits - 1}:0], b[${bits - 1}:0], c[0]`,
    `for i in 0..${bits - 1} { sum[i] = a[i] ^ b[i] ^ c[i]; c[i+1] = maj(a[i], b[i], c[i]) }`,
    `output sum[${bits - 1}:0], c[${bits}]`,
  ].join('\n');

  // A program that starts this one often passes the signal on that both got.
  test.skipIf(process.platform === 'win32').each([
    ['Ctrl-C during deep', [6000]],
    ['the same, passed on as well,', [6000, 6020]],
  ])('%s leaves a valid, proved, marked answer: 130', async (_, times) => {
    const argv = [launcher, adder, '--effort', 'deep', '--frontier', '--json'];
    const child = spawn(process.execPath, argv, { stdio: ['ignore', 'pipe', 'pipe'] });
    let [out, err] = ['', ''];
    child.stdout.on('data', (data) => {
      out += data;
    });
    child.stderr.on('data', (data) => {
      err += data;
    });
    for (const time of times) setTimeout(() => child.kill('SIGINT'), time);
    const [code] = await once(child, 'close');
    expect([code, err]).toEqual([130, '']);
    const [result] = JSON.parse(out);
    expect(resultFaults([result])).toEqual([]);
    expect(result.stop).toBe('cut short');
    expect(result.notices.map((notice: { code: string }) => notice.code)).toEqual(['cut-short']);
    expect(result.points.length).toBeGreaterThan(0);
    for (const point of result.points) expect(point.proof.verdict).toBe('equal');
  });

  test('the same bytes with one worker and with two', () => {
    const three = adder.replaceAll('5', '2').replaceAll('6', '3');
    const outputs = ['1', '2'].map((workers) =>
      run([three, '--frontier', '--effort', 'quick', '--json', '--workers', workers]),
    );
    expect(outputs.map(({ status, stderr }) => [status, stderr])).toEqual([
      [0, ''],
      [0, ''],
    ]);
    expect(outputs[0]?.stdout).toBe(outputs[1]?.stdout);
    expect(JSON.parse(outputs[0]?.stdout ?? '')[0].stop).toBe('limit');
  });

  test('the same bytes with a thread of its own and without', async () => {
    const argv = ['sum = a ^ b ^ c', 'carry = maj(a, b, c)', '--frontier', '--json', '--explain'];
    const { status, stdout, stderr } = run(argv);
    expect([status, stderr]).toEqual([0, '']);
    expect(stdout).toBe((await runCli(argv)).out);
  });
});

describe('the house', () => {
  /** Runs .ci/counts.js over a report. */
  function counts(report: unknown, status: number): string {
    const file = path.join(folder, 'report.json');
    if (report === null) rmSync(file, { force: true });
    else writeFileSync(file, JSON.stringify(report));
    const program = path.join(root, '.ci', 'counts.js');
    return spawnSync(process.execPath, [program, file, String(status)], { encoding: 'utf8' }).stdout;
  }

  test('counts are never greener than the run', () => {
    const green = { numPassedTests: 12, numFailedTests: 0, testResults: [] };
    const broken = { status: 'failed', assertionResults: [] };
    expect(counts(green, 0)).toBe('12 passed, 0 failed\n');
    expect(counts(green, 1)).toBe('12 passed, 1 failed\n');
    expect(counts({ ...green, numFailedTests: 2 }, 1)).toBe('12 passed, 2 failed\n');
    expect(counts({ ...green, testResults: [broken] }, 1)).toBe('12 passed, 1 failed\n');
    expect(counts(null, 1)).toBe('0 passed, 1 failed\n');
    expect(counts(null, 0)).toBe('0 passed, 1 failed\n');
    expect(counts({ ...green, numPassedTests: 0 }, 0)).toBe('0 passed, 1 failed\n');
  });

  test('set-up and build have nothing to do a second time', () => {
    for (const program of ['setup.js', 'build.js']) {
      const { status, stdout, stderr } = spawnSync(process.execPath, [path.join(root, 'bin', program)], {
        encoding: 'utf8',
      });
      expect([status, stdout, stderr]).toEqual([0, '', '']);
    }
  });

  test('the library is there for import, with its types', async () => {
    const script = "import { optimize } from 'tickwright'; console.log(typeof optimize);";
    const { stdout } = spawnSync(process.execPath, ['--input-type=module', '-e', script], {
      encoding: 'utf8',
      cwd: root,
    });
    expect(stdout).toBe('function\n');
    expect(existsSync(path.join(root, 'bin/built/types/src/tickwright.d.ts'))).toBe(true);
  });
});
