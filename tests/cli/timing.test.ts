// The commands settle, hazards and trial from words to screens. Whole screens are golden texts; the figures that must
// hold are asserted beside them.

import { describe, expect, test } from 'vitest';
import { expectGolden } from '../support/golden.ts';
import { runCli, screenOf } from '../support/run-cli.ts';
import { rippleAdder } from '../support/timed-circuit.ts';
import { readVcd } from '../support/vcd-reader.ts';

const ADDER = 'sum = a ^ b ^ carry_in; carry = maj(a, b, carry_in)';
const HAZARD = "lamp = gate crate + gate' spare";

const HALL = {
  files: {
    'slow-off.json': '{ "name": "slow-off", "inverter": { "ticksOn": 1, "ticksOff": 3 } }',
    'tired.json':
      '{ "name": "tired", "inverter": { "minPulse": 2, "wear": { "changes": 2, "window": 9 } }, "secondsPerTick": 0.1 }',
    'built.logic':
      'built lift { input up, down\n x = nor(up, down)\n y = nor(x, down)\n z = join(y, down)\n output z\n}\n',
    'later.logic':
      'built later {\n input crate\n n1 = not(crate)\n n2 = not(n1)\n lamp = join(crate, n2)\n output lamp\n}\n',
    'push.stimulus': 'start up = 1\nat 3: down = 1\nat 4: down = 0, up = 0\n',
    'wide.logic': `s = ${Array.from({ length: 21 }, (_, i) => `x${i}`).join(' ^ ')}\n`,
    'broken.logic': 'lamp = (door_a\n',
    'adder8.logic': `${rippleAdder(8)}\n`,
  },
} as const;

const SCREENS: readonly (readonly [string, number, readonly string[]])[] = [
  ['settle-full-adder', 0, ['settle', ADDER, '--wires', '--bench']],
  ['settle-slow-off', 0, ['settle', "idle = (belt + jam)'", '--target', 'slow-off.json', '--bench']],
  [
    'settle-false-path',
    0,
    ['settle', "x = a ^ p ^ q; z = x s + b s'; output f; f = z s' + c s", '--network', 'written'],
  ],
  ['settle-tired', 0, ['settle', 's = a ^ b ^ c', '--target', 'tired.json', '--network', 'written']],
  ['settle-built', 0, ['settle', 'built.logic', '--wires']],
  ['settle-off-later', 0, ['settle', 'later.logic', '--bench']],
  ['settle-held', 0, ['settle', ADDER, '--hold', 'carry_in=0']],
  ['settle-wide', 0, ['settle', 'adder8.logic', '--network', 'written']],
  ['settle-two-sources', 1, ['settle', 'x = a b', 'broken.logic']],
  ['settle-low-rails', 0, ['settle', 'x = a b', '--low', 'a,x', '--bench']],
  ['hazards', 5, ['hazards', HAZARD, '--network', 'written']],
  ['hazards-none', 0, ['hazards', 'x = a + b']],
  ['hazard-free', 0, ['hazards', HAZARD, '--ticks', '2', '--hazard-free']],
  ['hazards-wide', 1, ['hazards', 'wide.logic', '--network', 'written']],
  ['trial-table', 0, ['trial', 's = a ^ b', '--inside']],
  [
    'trial-wave',
    0,
    ['trial', 's = a ^ b', '--stimulus', 'at 0: a=1; at 5: flip b; at 90: flip a', '--view', 'wave'],
  ],
  [
    'trial-vcd',
    0,
    ['trial', 's = a ^ b', '--stimulus', 'at 0: a = 1', '--view', 'vcd', '--target', 'tired.json'],
  ],
  [
    'trial-tired',
    0,
    ['trial', "s = a'", '--stimulus', 'at 1: flip a; at 2: flip a; at 5: flip a', '--target', 'tired.json'],
  ],
  ['trial-built-tied', 0, ['trial', 'built.logic', '--stimulus', 'push.stimulus', '--inside', '--back-feed']],
  ['trial-faults', 1, ['trial', 's = a ^ b', '--stimulus', 'at 0: c = 1; at 5 a']],
  ['trial-no-file', 1, ['trial', 's = a ^ b', '--stimulus', 'nothing.stimulus']],
];

describe('screens', () => {
  test.each(SCREENS)(
    '%s',
    async (name, code, argv) => {
      const ran = await runCli(argv, HALL);
      expect(ran.code).toBe(code);
      for (const line of ran.out.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
      expectGolden(`tests/cli/screens/timing/${name}.txt`, screenOf(argv, ran));
    },
    60_000,
  );
});

describe('wrong use', () => {
  test.each([
    [['settle'], 'there is nothing to settle'],
    [['settle', 'x = a', '--hold', 'a'], '--hold does not take "a"'],
    [['settle', 'x = a', '--network', 'best'], '--network does not know "best"'],
    [['trial', 'x = a', '--view', 'film'], '--view does not know "film"'],
    [['trial', 'x = a', 'built.logic', '--view', 'vcd'], 'a value change dump holds one network only'],
  ])('%j', async (argv, message) => {
    const { code, out, err } = await runCli(argv, HALL);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(message);
  });

  test('an input that is held and is not there', async () => {
    const { code, err } = await runCli(['settle', 'x = gate1 b', '--hold', 'gate2=1'], HALL);
    expect(code).toBe(1);
    expect(err).toBe('arguments: error: --hold: there is no input "gate2"\nhelp: did you mean "gate1"?\n');
  });
});

describe('for programs', () => {
  test('settle: figures, bench plan and wires of a full adder', async () => {
    const { code, out } = await runCli(['settle', ADDER, '--json']);
    expect(code).toBe(0);
    const [object] = JSON.parse(out);
    expect(object).toMatchObject({ format: 'tickwright.settling/1', network: 'found', inverters: 10 });
    expect(object.method).toEqual({ single: 'simulated', any: 'simulated' });
    expect(object.outputs[0]).toMatchObject({
      name: 'sum',
      bound: { on: 2, off: 2 },
      single: { on: { tick: 2, proved: true }, off: { tick: 2, proved: true } },
    });
    expect(object.bench[0].steps.map((step: { do: string }) => step.do)).toEqual([
      'set',
      'wait',
      'flip',
      'expect',
    ]);
    expect(object.bench[0].steps[3]).toEqual({
      do: 'expect',
      before: 0,
      changes: [{ tick: 2, level: 1 }],
      tick: 2,
    });
    expect(object.wires.find((wire: { wire: string }) => wire.wire === 'carry')).toMatchObject({
      kind: 'join',
      latest: { on: 2, off: 2 },
      slack: 0,
    });
  });

  test('hazards: possible, happening, and the remedy', async () => {
    const argv = ['hazards', HAZARD, '--network', 'written', '--hazard-free', '--json'];
    const { code, out } = await runCli(argv);
    expect(code).toBe(0);
    const [object] = JSON.parse(out);
    expect(object.hazards[0]).toMatchObject({
      output: 'lamp',
      kind: 'static-1',
      flipped: ['gate'],
      possible: 2,
      happens: 1,
      widest: 1,
    });
    expect(object.remedy).toMatchObject({ inverters: 5, extra: 0, ticks: 2, proved: true });
  });

  test('a source with faults is told in its place', async () => {
    for (const command of ['settle', 'hazards']) {
      const { code, out } = await runCli([command, 'broken.logic', '--json'], HALL);
      expect(code).toBe(1);
      expect(JSON.parse(out)[0]).toMatchObject({
        inverters: null,
        notices: [{ severity: 'error', line: 1 }],
      });
    }
  });

  test('the dump of a run can be read', async () => {
    const { out } = await runCli(['trial', ADDER, '--view', 'vcd', '--inside']);
    const file = readVcd(out);
    expect(file.variables.map(({ reference }) => reference)).toContain('carry');
    expect(file.changes.length).toBeGreaterThan(50);
  });
});
