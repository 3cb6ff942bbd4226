// Files that the command line writes: whole or not at all, never over another without leave, and a word about each.

import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeEach, describe, expect, test } from 'vitest';
import { OPTIMIZE } from '../../src/cli/commands.ts';
import type { WriteFault } from '../../src/cli/host.ts';
import { DRAW, EXPORT, FORMS, PICTURES } from '../../src/cli/picture-commands.ts';
import { writeWhole } from '../../src/cli/write-file.ts';
import { runCli } from '../support/run-cli.ts';

const top = mkdtempSync(path.join(tmpdir(), 'tickwright-files-'));
let folder = top;
let next = 0;
beforeEach(() => {
  folder = path.join(top, String(next++));
  mkdirSync(folder);
});
afterAll(() => rmSync(top, { recursive: true }));

const CARRY = 'c1 = g0 + p0 c0';
const file = (name: string): string => path.join(folder, name);

describe('what is written', () => {
  test.each(PICTURES)('draw --picture %s', async (kind) => {
    const { code, out, err } = await runCli(['draw', CARRY, '--picture', kind, '-o', file('a.svg')]);
    expect([code, out]).toEqual([0, '']);
    expect(err).toMatch(/^wrote .*a\.svg, \d+ (?:bytes|kB)\n$/);
    expect(readFileSync(file('a.svg'), 'utf8')).toMatch(/^<\?xml[\s\S]*<\/svg>\n$/);
    expect(readdirSync(folder)).toEqual(['a.svg']);
  });

  test.each(FORMS)('export --as %s, the same on standard output', async (form) => {
    const written = await runCli(['export', CARRY, '--as', form, '-o', file('a')]);
    expect([written.code, written.out]).toEqual([0, '']);
    const printed = await runCli(['export', CARRY, '--as', form]);
    expect([printed.code, printed.err]).toEqual([0, '']);
    expect(printed.out).toBe(readFileSync(file('a'), 'utf8'));
    expect(printed.out.length).toBeGreaterThan(50);
  });

  test('optimize: the screen, the schematic and the report in one run', async () => {
    const argv = [CARRY, '-o', file('screen.txt'), '--svg', file('a.svg'), '--html', file('a.html')];
    const { code, out, err } = await runCli(argv);
    expect([code, out]).toEqual([0, '']);
    expect(err.match(/^wrote /gm)).toHaveLength(3);
    expect(readFileSync(file('screen.txt'), 'utf8')).toContain('c1 settles in 2 ticks');
    expect(readFileSync(file('a.html'), 'utf8')).toContain('c1 settles in 2 ticks');
  });

  test('--sheet prints the build sheet instead of the screen', async () => {
    const { code, out } = await runCli([CARRY, '--sheet']);
    expect(code).toBe(0);
    expect(out).toMatch(/^Build sheet: arguments/);
    expect(out).toMatch(/\[ \] n3 {2}.*legs n1 n2/);
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  test('a netlist can be drawn and exported, and faults in it are shown', async () => {
    await runCli(['export', CARRY, '--as', 'bench', '-o', file('a.v')]);
    const text = readFileSync(file('a.v'), 'utf8');
    const drawn = await runCli(['draw', 'a.v'], { files: { 'a.v': text } });
    expect(drawn.code).toBe(0);
    expect(drawn.out).toContain('read from a netlist, not compared with equations');
    const again = await runCli(['export', 'a.v'], { files: { 'a.v': text } });
    const bare = (module: string): string => module.replace(/^\/\/.*\n| +\/\/.*$/gm, '');
    expect(bare(again.out)).toBe(bare(text.slice(0, text.indexOf('endmodule') + 10)));
    const bench = await runCli(['export', 'a.v', '--as', 'bench'], { files: { 'a.v': text } });
    expect([bench.code, bench.err]).toEqual([2, expect.stringContaining('a netlist has none')]);
    const faulty = await runCli(['draw', 'a.v'], {
      files: { 'a.v': 'module m (x); output x; nor (x, y); endmodule' },
    });
    expect([faulty.code, faulty.out]).toEqual([1, '']);
    expect(faulty.err).toContain('a.v:1:33: error: nothing drives "y"');
  });

  test('of equations with faults nothing is written', async () => {
    const { code } = await runCli(['c1 = (a', '-o', file('a.txt'), '--svg', file('a.svg')]);
    expect(code).toBe(1);
    expect((await runCli(['draw', 'c1 = (a', '-o', file('a.svg')])).code).toBe(1);
    expect(readdirSync(folder)).toEqual([]);
  });

  test('several sources and one file are refused', async () => {
    const argv = ['a = b', 'examples/03-half-adder.logic'];
    expect(await runCli(['draw', ...argv])).toMatchObject({ code: 2, out: '' });
    expect(await runCli([...argv, '--svg', file('a.svg')])).toMatchObject({ code: 2, out: '' });
    expect(readdirSync(folder)).toEqual([]);
  });
});

describe('a file that is there', () => {
  test.each([
    [['draw', CARRY, '-o']],
    [['export', CARRY, '-o']],
    [[CARRY, '-o']],
    [[CARRY, '--svg']],
    [[CARRY, '--html']],
  ])('%j leaves it alone without --force', async (argv) => {
    writeFileSync(file('a'), 'mine');
    const refused = await runCli([...argv, file('a')]);
    expect([refused.code, refused.out]).toEqual([6, '']);
    expect(refused.err).toBe(
      `tickwright: error: "${file('a')}" is there already\nhelp: choose another name, or write over it with --force\n`,
    );
    expect(readFileSync(file('a'), 'utf8')).toBe('mine');
    chmodSync(file('a'), 0o640);
    expect((await runCli([...argv, file('a'), '--force'])).code).toBe(0);
    expect(readFileSync(file('a'), 'utf8')).not.toBe('mine');
    expect(statSync(file('a')).mode & 0o777).toBe(0o640);
    expect(readdirSync(folder)).toEqual(['a']);
  });

  test('one that comes into being while the search runs is left alone, too', () => {
    writeFileSync(file('a'), 'mine');
    expect(writeWhole(file('a'), 'text', false)).toEqual({ kind: 'exists' });
    expect(readFileSync(file('a'), 'utf8')).toBe('mine');
  });

  test('a link stays a link', () => {
    writeFileSync(file('real'), 'old');
    symlinkSync(file('real'), file('link'));
    expect(writeWhole(file('link'), 'new', true)).toBeNull();
    expect(lstatSync(file('link')).isSymbolicLink()).toBe(true);
    expect(readFileSync(file('real'), 'utf8')).toBe('new');
    expect(readdirSync(folder).sort()).toEqual(['link', 'real']);
  });

  test('asking twice for the same file is refused', async () => {
    const { code, err } = await runCli([CARRY, '-o', file('a'), '--svg', file('a')]);
    expect([code, err]).toEqual([6, expect.stringContaining('asked for twice')]);
    expect(existsSync(file('a'))).toBe(false);
  });
});

describe('a file that cannot be written', () => {
  const FAULTS: readonly (readonly [WriteFault, string])[] = [
    [{ kind: 'disk-full' }, 'the disk is full'],
    [{ kind: 'no-permission' }, 'there is no permission'],
    [{ kind: 'read-only' }, 'the disk is read-only'],
    [{ kind: 'name-too-long' }, 'the name is too long'],
    [{ kind: 'other', reason: 'EIO' }, 'EIO'],
  ];
  test.each(FAULTS)('%j', async (writeFault, words) => {
    const { code, err } = await runCli(['draw', CARRY, '-o', file('a')], { writeFault });
    expect(code).toBe(6);
    expect(err.replace(/\s+/g, ' ')).toContain(`"${file('a')}" cannot be written: ${words}`);
    expect(err).not.toMatch(/^\s+at /m);
  });

  test('no folder is made', async () => {
    const { code, err } = await runCli(['draw', CARRY, '-o', file('new/a.svg')]);
    expect([code, err]).toEqual([
      6,
      expect.stringContaining('there is no such folder\nhelp: make the folder first\n'),
    ]);
    expect(readdirSync(folder)).toEqual([]);
    expect((await runCli(['draw', CARRY, '-o', folder])).err).toContain('is a folder');
    expect(writeWhole(path.join(folder, 'x'.repeat(300)), '', false)).toEqual({ kind: 'name-too-long' });
  });

  test.skipIf(!existsSync('/dev/full'))('a full device', () => {
    expect(writeWhole('/dev/full', 'text', false)).toEqual({ kind: 'disk-full' });
  });

  // Nobody, not even root, makes files there.
  test.skipIf(process.platform !== 'linux' || !existsSync('/sys/kernel'))(
    'a folder that takes no files',
    () => {
      expect(['no-permission', 'read-only']).toContain(
        writeWhole('/sys/kernel/tickwright', 'text', false)?.kind,
      );
    },
  );

  const small = path.join(top, 'small');
  mkdirSync(small);
  const mounted =
    spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=16k', 'tmpfs', small], { stdio: 'ignore' }).status === 0;
  afterAll(() => {
    if (mounted) spawnSync('umount', [small]);
  });
  test.skipIf(!mounted)('a disk that is full: nothing is left behind, and what was there stays', () => {
    writeFileSync(path.join(small, 'a'), 'mine');
    const text = 'x'.repeat(1 << 20);
    expect(writeWhole(path.join(small, 'b'), text, false)).toEqual({ kind: 'disk-full' });
    expect(writeWhole(path.join(small, 'a'), text, true)).toEqual({ kind: 'disk-full' });
    expect(readdirSync(small)).toEqual(['a']);
    expect(readFileSync(path.join(small, 'a'), 'utf8')).toBe('mine');
  });
});

describe.skipIf(process.platform === 'win32')('a closed pipe', () => {
  const program = fileURLToPath(new URL('../../bin/tickwright.js', import.meta.url));
  test.each([
    ['draw', 'svg'],
    ['export', 'v'],
  ])('%s | head -n 1 ends well', (command) => {
    const line = `"${process.execPath}" "${program}" ${command} '${CARRY}' | head -n 1`;
    const { stdout, stderr, status } = spawnSync('bash', ['-o', 'pipefail', '-c', line], {
      encoding: 'utf8',
    });
    expect([status, stderr]).toEqual([0, '']);
    expect(stdout.split('\n').length).toBe(2);
  });
});

test('every command that writes takes -o and --force', () => {
  for (const { options } of [OPTIMIZE, DRAW, EXPORT])
    expect(options.map(({ name }) => name)).toEqual(expect.arrayContaining(['out', 'force']));
});
