// Stimuli, and a simulation as a table, as a waveform and as a value change dump.

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parseStimulus, STIMULUS_WORDS } from '../../grammar/stimulus.ts';
import { tickTable } from '../../src/report/tick-table.ts';
import { valueChangeDump } from '../../src/report/vcd.ts';
import { watchedWires } from '../../src/report/watched-wires.ts';
import { waveform } from '../../src/report/waveform.ts';
import { renderDiagnostics } from '../../src/source/render-diagnostics.ts';
import { SourceText } from '../../src/source/source-text.ts';
import type { Circuit } from '../../src/timing/circuit.ts';
import { circuitFaults, makeCircuit } from '../../src/timing/circuit.ts';
import { pulsesInRun, wearInRun } from '../../src/timing/endurance.ts';
import { changesOf, type History, simulate } from '../../src/timing/history.ts';
import { readStimulus, type Stimulus } from '../../src/timing/read-stimulus.ts';
import { tiedTogether } from '../../src/timing/tie-joins.ts';
import { foundCircuit, writtenCircuit } from '../support/timed-circuit.ts';
import { readVcd, valueAt } from '../support/vcd-reader.ts';

const { circuit: xor } = foundCircuit('s = a ^ b');
const { circuit: bus } = foundCircuit('input a[3:0], b; s = a[3] a[2] + a[1] a[0] b');

function stimulus(circuit: Circuit, text: string): Stimulus {
  const { value, diagnostics } = readStimulus(circuit, text);
  if (value === null) throw new Error(diagnostics.map(({ message }) => message).join('\n'));
  return value;
}

function run(circuit: Circuit, text: string): History {
  const { start, changes, until } = stimulus(circuit, text);
  return simulate(circuit, start, changes, until);
}

/** Everything that is said about a text, as it is printed. */
function faults(circuit: Circuit, text: string): string {
  const { value, diagnostics } = readStimulus(circuit, text);
  expect(value).toBeNull();
  return renderDiagnostics(diagnostics, new SourceText('hall.stimulus', text));
}

describe('stimuli', () => {
  test('changes at ticks, relative ones, flips, comments and blanks', () => {
    const text = `
      start b = 1       # before
      at 3: a = 1, flip b; after 4: flip a, b   // both
      at 1 b = 0
      until 20`;
    expect(stimulus(xor, text)).toEqual({
      start: Uint8Array.of(0, 1),
      changes: [
        { tick: 3, input: 0, value: 1 },
        { tick: 3, input: 1, value: 0 },
        { tick: 7, input: 0, value: 0 },
        { tick: 7, input: 1, value: 1 },
        { tick: 1, input: 1, value: 0 },
      ],
      until: 20,
    });
  });

  test('words of a bus: highest bit first as written, by name alone from the highest index', () => {
    const bits = (text: string): string => {
      const { start } = stimulus(bus, text);
      return bus.inputs.flatMap(({ name }, i) => (start[i] === 1 ? [name] : [])).join(' ');
    };
    expect(bits('start a[3:0] = 0b0101')).toBe('a[2] a[0]');
    expect(bits('start a[0:3] = 1')).toBe('a[3]');
    expect(bits('start a = 0x8')).toBe('a[3]');
    expect(bits('start a[1] = 1, b = 1')).toBe('a[1] b');
  });

  test('a counting sequence goes through all patterns, the first name is the lowest bit', () => {
    const { changes, until } = stimulus(xor, 'count every 5');
    expect(changes).toEqual([
      { tick: 0, input: 0, value: 1 },
      { tick: 5, input: 0, value: 0 },
      { tick: 5, input: 1, value: 1 },
      { tick: 10, input: 0, value: 1 },
      { tick: 15, input: 0, value: 0 },
      { tick: 15, input: 1, value: 0 },
    ]);
    expect(until).toBe(18);
    expect(stimulus(xor, 'count b every 2 times 3').changes.map(({ value }) => value)).toEqual([1, 0, 1]);
  });

  test('random values depend on the seed alone', () => {
    const text = 'random every 4 times 30 seed 9';
    expect(stimulus(xor, text)).toEqual(stimulus(xor, text));
    expect(stimulus(xor, text)).not.toEqual(stimulus(xor, 'random every 4 times 30 seed 10'));
    expect(new Set(stimulus(xor, text).changes.map(({ tick }) => tick % 4))).toEqual(new Set([0]));
  });

  test('an empty stimulus changes nothing', () => {
    for (const text of ['', '  \n# only words\n']) {
      const history = run(xor, text);
      expect(history.ticks).toBe(3);
      for (const { wire } of watchedWires(xor, true)) expect(changesOf(history, wire)).toEqual([]);
    }
  });

  test('unknown names: the whole message', () => {
    const { circuit } = foundCircuit('crate = gate1 gate2; full = crate lamp');
    expect(faults(circuit, 'start gate1 = 1\nat 0: gate3 = 1, crate = 1; at 5: flip Lamp, horn')).toBe(
      [
        'hall.stimulus:2:7: error: there is no input "gate3"',
        '  2 | at 0: gate3 = 1, crate = 1; at 5: flip Lamp, horn',
        '    |       ^^^^^',
        'help: did you mean "gate1"?',
        '',
        'hall.stimulus:2:18: error: "crate" is not an input and cannot be set',
        '  2 | at 0: gate3 = 1, crate = 1; at 5: flip Lamp, horn',
        '    |                  ^^^^^',
        'help: the inputs are gate1, gate2, lamp',
        '',
        'hall.stimulus:2:40: error: there is no input "Lamp"',
        '  2 | at 0: gate3 = 1, crate = 1; at 5: flip Lamp, horn',
        '    |                                        ^^^^',
        'help: did you mean "lamp"?',
        '',
        'hall.stimulus:2:46: error: there is no input "horn"',
        '  2 | at 0: gate3 = 1, crate = 1; at 5: flip Lamp, horn',
        '    |                                              ^^^^',
        'help: the inputs are gate1, gate2, lamp',
      ].join('\n'),
    );
  });

  test.each([
    ['at 5 a', '"a" is given no value', 'write a = 1, or flip a'],
    ['start a', '"a" is given no value', 'write a = 1'],
    ['at x: a = 1', 'the tick after `at` is missing before "x"', 'write a whole number'],
    ['at 99999999 a = 1', '99999999 is more than 1000000', 'take fewer'],
    ['a = 1', '"a" begins no statement', 'a statement begins with start, at, after, count, random or until'],
    ['at 5:', 'nothing is set here', 'write at 5: a = 1'],
    ['at 5: a = 2', '"a" cannot be 2', 'it takes 0 or 1'],
    ['at 5: a = b', 'a value for "a" is missing before "b"', 'write a whole number'],
    ['at 5: a =', 'a value for "a" is missing at the end of this statement', null],
    ['at 5: 7 = 1', '"7" is not the name of an input', 'write a name such as a or a[3]'],
    ['at 5: a[1 = 1', '"=" stands where ] should', 'write a[3] or a[3:0]'],
    ['count', 'how many ticks are between two steps?', 'write count every 10'],
    ['count every 5 seed 3', '"seed" cannot stand here', 'write count every 10'],
    ['random every 0', 'how many ticks are between two steps?', 'write random every 10 times 20 seed 1'],
    ['until 5 now', '"now" is too much', '`until` stands alone with its tick'],
    ['at 1: a = 1; start b = 1', 'start stands behind a change', 'write start first'],
    ['count every 1000000 times 9', '9 steps of 1000000 ticks are too many', 'take fewer steps'],
    ['at 5: a[2] = 1', 'there is no input "a[2]"', 'the inputs are a, b'],
    ['at 5: a € 1', '"a" is given no value', 'write a = 1, or flip a'],
  ])('%s', (text, message, hint) => {
    const { value, diagnostics } = readStimulus(xor, text);
    expect(value).toBeNull();
    expect(diagnostics.map((fault) => [fault.message, fault.hint])).toEqual([[message, hint]]);
    const at = diagnostics[0].at;
    expect(at !== null && at.start >= 0 && at.end <= text.length && at.start < at.end).toBe(true);
  });

  test('what is described is read', () => {
    const description = readFileSync(new URL('../../grammar/stimulus.md', import.meta.url), 'utf8');
    const blocks = [...description.matchAll(/```stimulus\n([\s\S]*?)```/g)].map((match) => match[1]);
    expect(blocks.length).toBeGreaterThan(2);
    for (const block of blocks) expect(parseStimulus(block).faults).toEqual([]);
    for (const word of STIMULUS_WORDS) expect(description).toContain(`\`${word}`);
  });

  test('no text makes it stumble', () => {
    const pieces = [
      'at',
      '5',
      ':',
      'a',
      '=',
      '[',
      ']',
      'flip',
      ';',
      '\n',
      'count',
      'every',
      '#',
      '\ufeff',
      '1',
      ',',
    ];
    for (let seed = 1; seed < 3000; seed++) {
      let state = seed;
      const next = (): number => {
        state = (Math.imul(state, 1103515245) + 12345) >>> 0;
        return state >>> 8;
      };
      const text = Array.from({ length: next() % 12 }, () => pieces[next() % pieces.length]).join(' ');
      const { value, diagnostics } = readStimulus(xor, text);
      expect(value === null).toBe(diagnostics.length > 0);
    }
  });
});

describe('views', () => {
  const history = run(xor, 'at 0: a = 1; at 5: flip b; until 9');
  const wires = watchedWires(xor, false);

  test('the table has a line for every tick with a change', () => {
    expect(tickTable(history, wires)).toEqual([
      '    tick  a  b  s',
      '  before  0  0  0',
      '       0  1  .  .',
      '       2  .  .  1',
      '       5  .  1  .',
      '       6  .  .  0',
    ]);
  });

  test('the waveform has a character for every tick', () => {
    expect(waveform(history, wires)).toEqual([
      '  tick  0',
      '  a    _##########',
      '  b    ______#####',
      '  s    ___####____',
    ]);
  });

  test('a long run is broken to fit, and quiet stretches are left out', () => {
    const long = run(xor, 'at 0: a = 1; at 500: b = 1; until 700');
    const lines = waveform(long, wires);
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
    expect(lines).toContain('  nothing changes at ticks 70 to 489');
    expect(lines).toContain('  nothing changes at ticks 560 to 700');
  });

  test('a wide table is broken to fit', () => {
    const { circuit } = writtenCircuit('s = a ^ b ^ c ^ d ^ e ^ f ^ g');
    const lines = tickTable(run(circuit, 'count every 9 times 3'), watchedWires(circuit, true));
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
    expect(lines).toContain('');
  });

  test('the dump says the same, read by a reader of its own', () => {
    const { circuit } = foundCircuit('input a[1:0], b low @ 2; output s low; s = a[1] a[0] + b');
    const shown = watchedWires(circuit, true);
    const traced = run(circuit, 'random every 7 times 40 seed 3');
    const text = valueChangeDump(traced, shown, { version: '1.0', secondsPerTick: 0.05 });
    const file = readVcd(text);
    expect(file.unit).toBeCloseTo(0.01);
    expect(file.variables.map(({ reference }) => reference).slice(0, 3)).toEqual(['a[1]', 'a[0]', 'b_low']);
    expect(
      file.variables.every(({ type, size, scope }) => `${type} ${size} ${scope}` === 'wire 1 network'),
    ).toBe(true);
    for (let tick = -1; tick <= traced.ticks; tick++) {
      shown.forEach(({ wire }, at) => {
        const level = tick < 0 ? traced.before[wire] : traced.levels[wire][tick];
        expect(valueAt(file, file.variables[at].reference, (tick + 1) * 5)).toBe(String(level));
      });
    }
    expect(file.lastTime).toBe((traced.ticks + 1) * 5);
  });

  test('more wires than one character can name', () => {
    const many = Array.from({ length: 300 }, (_, i) => ({ label: `w${i}`, wire: 2 + (i % 2) }));
    const file = readVcd(valueChangeDump(history, many, { version: '1.0', secondsPerTick: null }));
    expect(new Set(file.variables.map(({ code }) => code)).size).toBe(300);
    expect(file.unit).toBe(1e-9);
  });
});

describe('wear and pulses of a run', () => {
  test('the busiest window and the shortest pulse', () => {
    const { circuit } = writtenCircuit("f = a'");
    const history = run(circuit, 'at 10: flip a; at 12: flip a; at 13: flip a; at 30: flip a');
    expect(wearInRun(history, 4)).toMatchObject([{ changes: 3, tick: 11 }]);
    expect(wearInRun(history, 3)).toMatchObject([{ changes: 2, tick: 11 }]);
    expect(wearInRun(history, 100)).toMatchObject([{ changes: 4, tick: 11 }]);
    const { wire } = circuit.outputs[0];
    expect(pulsesInRun(history).find((pulse) => pulse.wire === wire)).toMatchObject({ ticks: 1, tick: 13 });
  });
});

describe('wires tied together', () => {
  test('a wire that stands in a join and goes elsewhere carries the join there, too', () => {
    // n1 = NOT a goes to g through n2 and stands in the join f with b: tied, b feeds back into n2.
    const circuit = makeCircuit(
      'or',
      [
        { name: 'a', tick: 0 },
        { name: 'b', tick: 0 },
      ],
      [
        { name: 'a', kind: 'input', source: 0 },
        { name: 'b', kind: 'input', source: 1 },
        { name: 'n1', kind: 'inverter', legs: [0], ticksOn: 1, ticksOff: 1 },
        { name: 'f', kind: 'join', legs: [1, 2] },
        { name: 'n2', kind: 'inverter', legs: [2], ticksOn: 1, ticksOff: 1 },
      ],
      [
        { name: 'f', rail: 'high', wire: 3, by: null },
        { name: 'g', rail: 'high', wire: 4, by: null },
      ],
    );
    const tied = tiedTogether(circuit);
    expect(circuitFaults(tied)).toEqual([]);
    const text = 'start a = 1; at 5: b = 1';
    const g = (history: History, of: Circuit): unknown => changesOf(history, of.outputs[1].wire);
    expect(g(run(circuit, text), circuit)).toEqual([]);
    expect(g(run(tied, text), tied)).toEqual([{ tick: 6, level: 0 }]);
  });

  test('a circle: what does not follow from the inputs is said', () => {
    const wires = [
      { name: 'set', kind: 'input' as const, source: 0 },
      { name: 'reset', kind: 'input' as const, source: 1 },
      { name: 'q', kind: 'inverter' as const, legs: [1, 3], ticksOn: 1, ticksOff: 1 },
      { name: 'p', kind: 'inverter' as const, legs: [0, 2], ticksOn: 1, ticksOff: 1 },
    ];
    const inputs = [
      { name: 'set', tick: 0 },
      { name: 'reset', tick: 0 },
    ];
    const latch = makeCircuit('or', inputs, wires, [{ name: 'q', rail: 'high', wire: 2, by: null }]);
    expect(latch.order).toBeNull();
    const history = run(latch, 'at 2: set = 1; at 6: set = 0; at 12: reset = 1; at 16: reset = 0; until 30');
    expect(history.undetermined).toEqual([2, 3]);
    expect([history.levels[2][10], history.levels[2][25]]).toEqual([1, 0]);
    const held = run(latch, 'start reset = 1; at 4: reset = 0; until 9');
    expect(held.undetermined).toEqual([]);
    expect(held.levels[2][9]).toBe(0);
  });
});
