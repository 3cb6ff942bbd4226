// Structural Verilog out and in again, and the bench that goes with it.

import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { overrideRails } from '../../src/equations/override-rails.ts';
import { readEquations } from '../../src/equations/read-equations.ts';
import type { System } from '../../src/equations/system.ts';
import { networkFaults } from '../../src/network/check-network.ts';
import { readVerilog } from '../../src/network/read-verilog.ts';
import { prove } from '../../src/proof/prove.ts';
import { pointOf } from '../../src/report/assemble.ts';
import type { Result } from '../../src/report/result.ts';
import { verilogModule } from '../../src/report/verilog.ts';
import { verilogBench } from '../../src/report/verilog-bench.ts';
import { optimize } from '../../src/tickwright.ts';
import { systemTables } from '../../src/truth/system-tables.ts';
import { systemArbitrary } from '../support/random-system.ts';
import { CARRY } from '../support/sample-results.ts';
import { foundNetwork, search, systemOf, targetOf } from '../support/system-of.ts';
import { runBench } from '../support/verilog-bench-runner.ts';

const folder = new URL('../../examples/', import.meta.url);
const EXAMPLES = readdirSync(folder).filter((name) => name.endsWith('.logic'));

function optimized(text: string, target = 'joined-or'): { result: Result; system: System } {
  const options = {
    target: targetOf(target),
    ticks: null,
    effort: 'quick',
    seed: 1,
    explain: false,
    version: 'test',
  } as const;
  const { result } = optimize('text', text, {}, options);
  const read = readEquations(text);
  if (read.value === null) throw new Error('the example has faults');
  const { value } = overrideRails(read.value, {});
  if (value === null) throw new Error('the rails have faults');
  return { result, system: value };
}

describe('the bench of every example', () => {
  test.each(EXAMPLES)('%s has no mismatches', (name) => {
    const { result, system } = optimized(readFileSync(new URL(name, folder), 'utf8'));
    const [point] = result.points;
    const module = verilogModule(result, point);
    const { lines, finished, gates } = runBench(module, verilogBench(system, result, point));
    expect(lines.at(-1)).toMatch(/^[1-9]\d* patterns, 0 mismatches$/);
    expect(lines.length).toBe(1);
    expect(finished).toBe(true);
    expect(Object.keys(gates).every((kind) => ['nor', 'not', 'or'].includes(kind))).toBe(true);
    expect((gates.nor ?? 0) + (gates.not ?? 0)).toBe(point.network.inverters.length);
  });

  test('where joined wires are AND, too', () => {
    const { result, system } = optimized('x = a b + c\ny = a ^ b', 'joined-and');
    const [point] = result.points;
    const { lines } = runBench(verilogModule(result, point), verilogBench(system, result, point));
    expect(lines).toEqual(['8 patterns, 0 mismatches']);
  });

  test('with many inputs a fixed sequence of patterns is tried', () => {
    const letters = Array.from({ length: 18 }, (_, i) => `x${i}`);
    const { result, system } = optimized(`any = ${letters.join(' + ')}\nall = ${letters.join(' ')}`);
    const [point] = result.points;
    const { lines } = runBench(verilogModule(result, point), verilogBench(system, result, point));
    expect(lines).toEqual(['4096 patterns, 0 mismatches']);
  });

  test('a wrong network is seen, and the first patterns are told', () => {
    const system = systemOf('c4 = g3 + p3 g2 + p3 p2 g1 + p3 p2 p1 g0 + p3 p2 p1 p0 c0');
    const [point] = CARRY.points;
    const wrong = {
      ...point,
      network: { ...point.network, outputs: [{ ...point.network.outputs[0], legs: ['n5'] }] },
    };
    const { lines } = runBench(verilogModule(CARRY, wrong), verilogBench(system, CARRY, wrong));
    expect(lines.length).toBe(11);
    expect(lines[0]).toBe('c4, active-high: pattern 000000001 gives 0, wanted 1');
    expect(lines.at(-1)).toMatch(/^512 patterns, [1-9]\d* mismatches$/);
  });
});

describe('round trip', () => {
  test('random networks are read back and proved equal', () => {
    const systems = systemArbitrary({
      rails: ['high', 'low', 'either', 'both'],
      buses: true,
      latestTick: 2,
      never: true,
      free: true,
      mostInputs: 5,
      depth: 3,
    });
    fc.assert(
      fc.property(systems, (system) => {
        const searched = search(withoutDeadlines(system), { effort: 'quick' });
        const { answer } = searched.outcome;
        if (answer === null) return;
        const network = foundNetwork(searched);
        const verdict = prove(searched.system, network, 'or');
        const point = pointOf({
          system: searched.system,
          tables: systemTables(searched.system),
          target: searched.target,
          answer,
          verdict,
          explain: false,
        });
        const module = verilogModule(CARRY, point);
        const { value, diagnostics } = readVerilog(module, searched.system.signals);
        expect(diagnostics).toEqual([]);
        if (value === null) throw new Error('nothing was read');
        expect(networkFaults(value.network)).toEqual([]);
        expect(value.signals).toEqual(searched.system.signals);
        expect(value.network.size).toBe(network.size);
        expect(value.network.inputs).toEqual(network.inputs);
        expect(prove(searched.system, value.network, 'or').verdict).toBe('equal');
        const { lines } = runBench(module, verilogBench(searched.system, CARRY, point));
        expect(lines.join('\n')).toMatch(/^\d+ patterns, 0 mismatches$/);
      }),
      { seed: 20, numRuns: 60 },
    );
  });

  test('gates of other kinds are laid in inverters', () => {
    const text = `
      \`timescale 1ns/1ps
      module m (input [1:0] a, input b, output x, y, z);
        wire t; wor w; /* two drivers */
        nand #(1,2) g1 (t, a[0], a[1]), g2 (y, t, b);
        and (w, a[0], b); not (w, a[1]);
        xnor (x, a[1], b, 1'b1);
        assign z = ~w;
      endmodule`;
    const { value, diagnostics } = readVerilog(text, ['a[1]', 'a[0]', 'b']);
    expect(diagnostics).toEqual([]);
    const system = systemOf(
      "input a[1:0], b\noutput x, y, z\nx = xnor(a[1], b, 1)\ny = (a[0] nand a[1]) nand b\nz = nor(a[0] b, a[1]')",
    );
    const again = readVerilog(text, system.signals).value;
    if (again === null || value === null) throw new Error('nothing was read');
    expect(prove(system, again.network, 'or').verdict).toBe('equal');
  });

  const FAULTS: readonly (readonly [string, string, string])[] = [
    ['module m (a, x); input a; output x; nor (x, b); endmodule', 'netlist-undriven', 'nothing drives "b"'],
    [
      'module m (a, x); input a; output x; nor (x, y); nor (y, x); endmodule',
      'netlist-circle',
      'depends on itself',
    ],
    [
      'module m (a, x); input a; output x; not (x, a); buf (x, a); endmodule',
      'netlist-driven-twice',
      'two gates drive "x"',
    ],
    [
      'module m (a, x); input a; output x; always x = a; endmodule',
      'netlist-item',
      '"always" cannot be read here',
    ],
    ['module m (a, x); input a; output x; not (x, a);', 'netlist-shape', 'the module is never closed'],
    ['module m (a, x); input a; output x; not (a, x); endmodule', 'netlist-driven', 'is an input'],
    ['', 'netlist-shape', 'a netlist wants "module", not the end of the text'],
    ['module m; \u0001', 'netlist-character', '"\\u0001" cannot stand here'],
  ];
  test.each(FAULTS)('%s', (text, code, message) => {
    const { value, diagnostics } = readVerilog(text);
    expect(value).toBeNull();
    expect(diagnostics.map((diagnostic) => diagnostic.code)).toEqual([code]);
    expect(diagnostics[0].message).toContain(message);
    expect(diagnostics[0].at).not.toBeNull();
  });

  test('long chains in any order are read', () => {
    const gates = Array.from(
      { length: 20_000 },
      (_, n) => `not (n${n}, ${n === 0 ? 'a' : `n${n - 1}`});`,
    ).reverse();
    const { value } = readVerilog(
      `module m (a, n19999); input a; output n19999; ${gates.join('\n')} endmodule`,
    );
    expect(value?.network.size).toBe(20_000);
  });
});

/** Deadlines can make a system impossible, and are not what is asked about here. */
function withoutDeadlines(system: System): System {
  return { ...system, outputs: system.outputs.map((output) => ({ ...output, by: null })) };
}
