// Batches as their users run them: in a process that may be killed, with files that may be broken.

import { existsSync, mkdtempSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { begin, ended, runKilled, writeSystems } from '../support/batch-runs.ts';
import { runCli } from '../support/run-cli.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'tickwright-batch-'));
const at = (...names: string[]): string => path.join(folder, ...names);
const bytes = (name: string): string => readFileSync(at(name, 'results.jsonl'), 'utf8');
const rowsOf = (name: string) =>
  bytes(name)
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line));
/** What was told, on one line. */
const words = ({ err }: { readonly err: string }): string => err.replace(/\s+/g, ' ');
const QUICK = ['--effort', 'quick'];

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('ended and gone on with', () => {
  const COUNT = 150;
  writeSystems(at('halls'), COUNT, 5);

  test('killed at random moments: the same bytes, no row lost or doubled', async () => {
    expect(await ended(begin(['batch', 'halls', '--into', 'whole', ...QUICK], folder))).toBe(0);
    const journal = at('torn', 'journal.jsonl');
    const rowsNow = (): number =>
      existsSync(journal) ? readFileSync(journal, 'utf8').split('\n').length - 1 : 0;
    const run = await runKilled(['batch', 'halls', '--into', 'torn', ...QUICK], folder, 4, COUNT, rowsNow, 9);
    expect(run.code).toBe(0);
    expect(run.kills).toBeGreaterThan(1);
    expect(bytes('torn')).toBe(bytes('whole'));
    expect(rowsOf('torn').map(({ position }) => position)).toEqual(
      Array.from({ length: COUNT }, (_, n) => n),
    );
    for (const name of ['summary.csv', 'summary.html', 'run.json']) {
      expect(readFileSync(at('torn', name), 'utf8')).toBe(readFileSync(at('whole', name), 'utf8'));
    }
    expect(existsSync(journal)).toBe(false);
  });

  test('one worker and two: the same bytes; three parts joined as well', async () => {
    expect(await ended(begin(['batch', 'halls', '--into', 'one', '--workers', '1', ...QUICK], folder))).toBe(
      0,
    );
    expect(bytes('one')).toBe(bytes('whole'));
    for (const shard of ['1/3', '2/3', '3/3']) {
      const into = `part${shard[0]}`;
      expect(await ended(begin(['batch', 'halls', '--into', into, '--shard', shard, ...QUICK], folder))).toBe(
        0,
      );
    }
    expect(await ended(begin(['merge', 'part2', 'part1', 'part3', '--into', 'joined'], folder))).toBe(0);
    expect(bytes('joined')).toBe(bytes('whole'));
    expect(readFileSync(at('joined', 'run.json'), 'utf8')).toBe(
      readFileSync(at('whole', 'run.json'), 'utf8'),
    );
    const missing = await runCli(['merge', at('part1'), at('part3'), '--into', at('never')]);
    expect(missing.code).toBe(2);
    expect(words(missing)).toContain('of 3 shards this one is missing: 2');
  });

  test('a line that was torn is cut off, and what stands before it stays', async () => {
    const argv = ['batch', at('halls'), '--into', at('cut'), ...QUICK];
    expect((await runCli(argv)).code).toBe(0);
    const whole = bytes('cut');
    // As a power cut leaves it: the journal still there, its last line half written.
    const half = whole.split('\n').slice(0, 20).join('\n');
    writeFileSync(at('cut', 'journal.jsonl'), half);
    truncateSync(at('cut', 'journal.jsonl'), half.length - 40);
    rmSync(at('cut', 'results.jsonl'));
    expect((await runCli([...argv, '--resume'])).code).toBe(0);
    expect(bytes('cut')).toBe(whole);
  });

  test('a run of other systems, another plan or another part is not gone on with', async () => {
    const argv = ['batch', at('halls', '000003.logic'), '--into', at('small'), ...QUICK];
    expect((await runCli(argv)).code).toBe(0);
    expect(words(await runCli(argv))).toContain('there is a run in');
    const others: [string[], string][] = [
      [['--seed', '7'], 'the plan differs'],
      [['--shard', '1/2'], 'as shard 1/1, not 1/2'],
    ];
    for (const [more, difference] of others) {
      expect(words(await runCli([...argv, '--resume', ...more]))).toContain(difference);
    }
    writeFileSync(at('halls', '000003.logic'), 'full = crate belt lamp\n');
    const changed = await runCli([...argv, '--resume']);
    expect(changed.code).toBe(2);
    expect(words(changed)).toContain('000003.logic changed');
    const none = await runCli(['batch', at('halls'), '--into', at('nowhere'), '--resume']);
    expect(words(none)).toContain('to go on with');
    expect(existsSync(at('nowhere'))).toBe(false);
  });
});

test('broken files are failed rows in their places, with line and column', async () => {
  const broken = writeSystems(at('some-broken'), 100, 6, 20);
  const { code, out } = await runCli(['batch', at('some-broken'), '--into', at('rows'), ...QUICK]);
  expect(code).toBe(1);
  expect(out).toContain('100 systems: 95 done, 5 failed');
  const failed = rowsOf('rows').filter(({ status }) => status === 'failed');
  const places = failed.map(({ position, notices: [{ line, column }] }) => [position, [line, column]]);
  expect(places).toEqual([...broken]);
});

test('one file with many systems, and rows of JSON', async () => {
  const rows = [
    '{"name": "any", "inputs": ["a", "b"], "tables": {"any": "0111", "first": "-1-1"}}',
    '{"equations": "y = a (b + c"}',
    '{"inputs": ["a"], "tables": {"f": "011"}}',
    '{"inputs": ["a", "a"], "tables": {"f": "0111"}}',
    '{"equations": "y = a", "inputs": ["a"]}',
    '{"name": "__proto__", "equations": "constructor = __proto__ toString"}',
    'nonsense',
  ];
  writeFileSync(at('rows.jsonl'), `${rows.join('\n')}\n`);
  writeFileSync(
    at('many.logic'),
    '--- two lanes\nany = a + b\n\n---\n# nothing here\nx = a b\r\n--- bad\ny = (\n',
  );
  await runCli(['batch', at('rows.jsonl'), at('many.logic'), '--into', at('many'), ...QUICK]);
  const told = rowsOf('many').map(({ name, status, answer, notices: [notice] }) => [
    name.replace(folder, '').slice(1),
    status === 'done' ? `${answer.ticks}:${answer.parts}` : [notice.line, notice.column, notice.code],
  ]);
  expect(told).toMatchSnapshot();
});

test('the plan is obeyed, and its faults are shown in their places', async () => {
  writeFileSync(
    at('plan.json'),
    '{"effort": "quick", "frontier": true, "keep": "figures", "limits": {"inputs": 3}}',
  );
  writeFileSync(at('sums.logic'), 's = a ^ b ^ c\nc1 = maj(a, b, c)\n---\ny = a b c d\n');
  const argv = ['batch', at('sums.logic'), '--plan', at('plan.json'), '--into', at('planned')];
  expect((await runCli(argv)).code).toBe(1);
  const [sum, wide] = rowsOf('planned');
  expect(
    sum.frontier.map(({ ticks, parts }: { ticks: number; parts: number }) => `${ticks}:${parts}`),
  ).toEqual(['2:10', '3:8', '5:7']);
  expect(sum.result).toBeUndefined();
  expect(wide.notices[0].message).toBe('this system has 4 inputs, and the plan allows 3');
  writeFileSync(at('bad.json'), '{"effort": "fast",\n "seedz": [1], "ticks": 3, "parts": 4}');
  const bad = await runCli(['batch', at('sums.logic'), '--plan', at('bad.json'), '--into', at('unused')]);
  expect(bad.code).toBe(1);
  expect(bad.err.replaceAll(folder, '')).toMatchSnapshot();
  expect(existsSync(at('unused'))).toBe(false);
});
