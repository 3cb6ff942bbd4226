// Words in, messages and exit codes out: everything the command line decides before an equation is read.

import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import packageJson from '../../package.json' with { type: 'json' };
import { understand } from '../../src/cli/command-line.ts';
import { COMMANDS, OPTIMIZE, optionsOf } from '../../src/cli/commands.ts';
import { EXIT, EXIT_MEANINGS, gravest } from '../../src/cli/exit-codes.ts';
import {
  commandHelp,
  commandsMarkdown,
  exitCodesMarkdown,
  generalHelp,
  optionsMarkdown,
} from '../../src/cli/help.ts';
import { rangeOf, typed } from '../../src/cli/options.ts';
import { SHIPPED_TARGETS } from '../../src/target/shipped-targets.ts';
import { expectGolden } from '../support/golden.ts';
import { runCli } from '../support/run-cli.ts';

describe('help and version', () => {
  test('the help, whole', async () => {
    const { code, out, err } = await runCli(['--help']);
    expect([code, err]).toEqual([0, '']);
    expectGolden('tests/cli/screens/help.txt', out.replace(packageJson.version, 'VERSION'));
  });

  test.each(COMMANDS.map(({ name }) => name))('the help of %s, whole', async (name) => {
    const { code, out, err } = await runCli([name, '--help']);
    expect([code, err]).toEqual([0, '']);
    expectGolden(`tests/cli/screens/help-${name}.txt`, out.replace(packageJson.version, 'VERSION'));
  });

  test.each(COMMANDS)('the help of $name names every option, range and default, in 80 columns', (command) => {
    const help = commandHelp(command, '0');
    const flat = help.replace(/\s+/g, ' ');
    for (const row of optionsOf(command)) {
      expect(flat).toContain(`${typed(row)} ${row.purpose}`);
      if (rangeOf(row) !== null) expect(flat).toContain(rangeOf(row));
    }
    for (const line of help.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  test('the help names every command and exit code, that of optimize every target', () => {
    const flat = generalHelp('0').replace(/\s+/g, ' ');
    for (const { name, summary } of COMMANDS) expect(flat).toContain(`${name} ${summary}`);
    for (const [code, meaning] of EXIT_MEANINGS) expect(flat).toContain(`${code} ${meaning}`);
    const optimize = commandHelp(OPTIMIZE, '0').replace(/\s+/g, ' ');
    for (const target of SHIPPED_TARGETS) expect(optimize).toContain(`${target.name} ${target.summary}`);
    for (const line of generalHelp('0').split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  test.each([[['-h']], [['--help']], [['--low', 'a', '--help']]])(
    '%j prints the general help',
    async (argv) => {
      expect((await runCli(argv)).out).toBe(generalHelp(packageJson.version));
    },
  );

  test.each([
    [['optimize', '--help']],
    [['a = b', '-h']],
    [['-h', 'optimize']],
    [['--help', 'crates.logic']],
  ])('%j prints the help of optimize', async (argv) => {
    expect((await runCli(argv)).out).toBe(commandHelp(OPTIMIZE, packageJson.version));
  });

  test.each(['--version', '-V'])('%s', async (word) => {
    expect(await runCli([word])).toEqual({ code: 0, out: `${packageJson.version}\n`, err: '' });
  });

  test('the tables of the README are those of the program', () => {
    const file = new URL('../../README.md', import.meta.url);
    if (!existsSync(file)) return;
    const readme = readFileSync(file, 'utf8');
    for (const table of [commandsMarkdown(), optionsMarkdown(), exitCodesMarkdown()]) {
      const [head = ''] = table.split('\n');
      if (readme.includes(head)) expect(readme).toContain(table);
    }
  });
});

describe('the table of commands', () => {
  test('names are words, each once, and stand in the order of the alphabet behind the first', () => {
    const names = COMMANDS.map(({ name }) => name);
    for (const name of names) expect(name).toMatch(/^[a-z]+$/);
    expect(new Set(names).size).toBe(names.length);
    expect(names.slice(1)).toEqual([...names.slice(1)].sort());
    expect(COMMANDS[0]).toBe(OPTIMIZE);
  });

  test('an option takes a value in all commands or in none, and has one letter', () => {
    const kinds = new Map<string, string>();
    for (const row of COMMANDS.flatMap((command) => optionsOf(command))) {
      const kind = `${row.letter} ${row.value === null}`;
      expect(kinds.get(row.name) ?? kind, row.name).toBe(kind);
      kinds.set(row.name, kind);
    }
    for (const command of COMMANDS) {
      const names = optionsOf(command).map(({ name }) => name);
      expect(new Set(names).size, command.name).toBe(names.length);
    }
  });

  test.each(COMMANDS.map(({ name }) => name))('%s can be loaded', async (name) => {
    const command = COMMANDS.find((row) => row.name === name);
    expect(typeof (await command?.load())).toBe('function');
  });

  test.each<[string[], boolean, string[]]>([
    [['optimize', 'x = a'], true, ['x = a']],
    [['--low', 'a', 'optimize', 'x = a'], true, ['x = a']],
    [['--low=a', 'optimize', 'x = a'], true, ['x = a']],
    [['x = a', 'optimize'], false, ['x = a', 'optimize']],
    [['./optimize'], false, ['./optimize']],
    [['optimize', 'optimize'], true, ['optimize']],
    [['--', 'optimize'], false, ['optimize']],
    [['--low', 'optimize', 'x = optimize'], false, ['x = optimize']],
    [['-', '--json'], false, ['-']],
  ])('%j', (argv, named, operands) => {
    const understood = understand(argv);
    if ('fault' in understood) throw new Error(understood.fault.message);
    expect(understood.request).toMatchObject({ command: OPTIMIZE, named, operands });
  });
});

describe('wrong use', () => {
  const NOTHING = "give equations or a file, as in tickwright 'x = a b'; tickwright --help says more";
  const TARGETS = SHIPPED_TARGETS.map((target) => target.name).join(', ');
  test.each<[string[], string, string]>([
    [[], 'there is nothing to optimize', NOTHING],
    [['optimize'], 'there is nothing to optimize', NOTHING],
    [['x = a', '--lwo', 'a'], 'there is no option "--lwo"', 'did you mean --low?'],
    [
      ['x = a', '--frobnicate'],
      'there is no option "--frobnicate"',
      'tickwright --help shows those there are',
    ],
    [['x = a', '-q'], 'there is no option "-q"', 'tickwright --help shows those there are'],
    [
      ['x = a', '--\u001b[31m'],
      'there is no option "--\\u001b[31m"',
      'tickwright --help shows those there are',
    ],
    [['x = a', '--target'], '--target needs a value', 'write --target NAME|FILE.json'],
    [['x = a', '--ticks'], '--ticks needs a value', 'write --ticks N'],
    [['x = a', '--ticks', '-1'], '--ticks does not take "-1"', 'it takes whole numbers from 0 to 1000000'],
    [['x = a', '--ticks', '2.5'], '--ticks does not take "2.5"', 'it takes whole numbers from 0 to 1000000'],
    [
      ['x = a', '--seed', '4294967296'],
      '--seed does not take "4294967296"',
      'it takes whole numbers from 0 to 4294967295',
    ],
    [
      ['x = a', '--budget', '0.5x'],
      '--budget does not take "0.5x"',
      'it takes a factor such as 1.5x, times the parts of the smallest network, or a number of parts',
    ],
    [
      ['x = a', '--ticks', '3', '--parts', '4'],
      '--ticks and --parts cannot stand together',
      'leave one out; --frontier shows the fewest parts at every number of ticks',
    ],
    [
      ['x = a', '--frontier', '--ticks', '3'],
      '--ticks and --frontier cannot stand together',
      'leave one out; --frontier shows the fewest parts at every number of ticks',
    ],
    [['x = a', '--effort', 'huge'], '--effort does not know "huge"', 'it takes quick, normal, deep'],
    [['x = a', '--low', 'a,,b'], 'a name is missing in --low "a,,b"', 'write --low a,b,c'],
    [
      ['x = a', '--target', 'nand-gates'],
      'there is no target "nand-gates"',
      `there are ${TARGETS}, and files ending in .json`,
    ],
  ])('%j', async (argv, message, hint) => {
    const { code, out, err } = await runCli(argv);
    expect([code, out]).toEqual([2, '']);
    expect(err.replace(/\n {4,}/g, ' ')).toBe(`tickwright: error: ${message}\nhelp: ${hint}\n`);
    expect(err).not.toMatch(/ {4}at |node:internal/);
  });
});

describe('exit codes', () => {
  test('each code once, with a meaning', () => {
    expect(EXIT_MEANINGS.map(([code]) => code)).toEqual(Object.values(EXIT));
  });

  test('of several sources the gravest counts', () => {
    expect(gravest([])).toBe(EXIT.done);
    expect(gravest([EXIT.done, EXIT.notProved, EXIT.deadline])).toBe(EXIT.deadline);
    expect(gravest([EXIT.conflicts, EXIT.faults, EXIT.done])).toBe(EXIT.faults);
  });

  test('what cannot be written: 6, but a reader that went away is no fault', async () => {
    const full = await runCli(['--help'], { writeError: 'ENOSPC' });
    expect(full).toEqual({
      code: 6,
      out: '',
      err: 'tickwright: error: the output could not be written: ENOSPC\n',
    });
    expect(await runCli(['--help'], { writeError: 'EPIPE' })).toEqual({ code: 0, out: '', err: '' });
  });
});

describe('files that cannot be read', () => {
  const machine = {
    files: {
      folder: { kind: 'folder' },
      big: { kind: 'too-large' },
      locked: { kind: 'unreadable', reason: 'there is no permission' },
      latin: new Uint8Array([0x78, 0x20, 0xe9, 0x0a]),
      wide: new Uint8Array([0xff, 0xfe, 0x78, 0x00]),
      'bad.json': '{ "name": "x",\n  "join": { "leg": 2 } }',
    },
    input: new Uint8Array([0x80]),
  } as const;

  test('each with its message, whole', async () => {
    const argv = ['missing', 'input a low', 'folder', 'big', 'locked', 'latin', 'wide', '-', 'esc\u001b[1m'];
    const { code, out, err } = await runCli(argv, machine);
    expect([code, out]).toEqual([1, '']);
    expectGolden('tests/cli/screens/unreadable.txt', err);
  });

  test.each([
    ['optimise', 'if you meant the command, it is optimize'],
    ['help', 'tickwright --help says what there is'],
    ['crates', 'an argument that holds = is equations, any other is a file'],
  ])('%s: %s', async (name, hint) => {
    const err = `${name}: error: there is no such file\nhelp: ${hint}\n`;
    expect(await runCli([name])).toEqual({ code: 1, out: '', err });
  });

  test('a target that is not there, and one with a fault', async () => {
    const missing = await runCli(['x = a', '--target', 'mine.json']);
    expect(missing).toEqual({
      code: 1,
      out: '',
      err: 'mine.json: error: there is no such file\nhelp: targets without a file are joined-or, joined-or-single, joined-or-4,\n      nor-gates, joined-and\n',
    });
    const bad = await runCli(['x = a', '--target', 'bad.json'], machine);
    expect([bad.code, bad.out]).toEqual([1, '']);
    expectGolden('tests/cli/screens/bad-target.txt', bad.err);
  });
});
