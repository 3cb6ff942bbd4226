// Handbook functions with the rails of their data sheets: what leaves the search is compared with the sheet pin by pin,
// in levels, so that a wrong rail cannot hide.
//
// Published: the '182 carry generator (Fairchild DM74S182, Hitachi HD74HC182), the '138 decoder (Fairchild 74F138), the
// '148 priority encoder (Fairchild 74F148). Ticks and parts are our own.

import { describe, expect, test } from 'vitest';
import type { System } from '../../src/equations/system.ts';
import { outputTicks } from '../../src/network/levels.ts';
import type { Network } from '../../src/network/network.ts';
import { prove } from '../../src/proof/prove.ts';
import { rulesOf } from '../../src/search/task.ts';
import { networkLevels } from '../support/pin-levels.ts';
import { foundNetwork, search, systemOf } from '../support/system-of.ts';

type Pins = Readonly<Record<string, boolean>>;

/** Searches, proves, and compares every pin on every pattern with the sheet; HIGH is true. */
function compare(
  text: string,
  sheet: (pins: Pins) => Pins,
): { network: Network; system: System; patterns: number } {
  const searched = search(text, { effort: 'quick' });
  const { system } = searched;
  const network = foundNetwork(searched);
  expect(prove(system, network, 'or').verdict).toBe('equal');
  const names = system.inputs.map(({ signal }) => system.signals[signal]);
  const patterns = 2 ** names.length;
  for (let row = 0; row < patterns; row++) {
    const pins = Object.fromEntries(names.map((name, i) => [name, ((row >> i) & 1) === 1]));
    const levels = networkLevels(system, network, pins);
    expect(levels, JSON.stringify(pins)).toEqual(sheet(pins));
  }
  return { network, system, patterns };
}

const LANES = [0, 1, 2, 3];

describe("the '182 carry generator", () => {
  const outputs = ['Cx', 'Cy', 'Cz', 'G', 'P'];
  const text = `${LANES.map((i) => `input G${i} low, P${i} low`).join('\n')}
    input C
    output Cx, Cy, Cz, G low, P low
    Cx = G0 + P0 C
    Cy = G1 + P1 G0 + P1 P0 C
    Cz = G2 + P2 G1 + P2 P1 G0 + P2 P1 P0 C
    G = G3 + P3 G2 + P3 P2 G1 + P3 P2 P1 G0
    P = P3 P2 P1 P0`;

  /** The second printed form: what leaves, from the levels of the pins Y (generate) and X (propagate). */
  const pinForm = `${LANES.map((i) => `input Y${i}, X${i}`).join('\n')}
    input C
    output Cx, Cy, Cz, G, P
    Cx' = Y0 (X0 + C')
    Cy' = Y1 (X1 + Y0 (X0 + C'))
    Cz' = Y2 (X2 + Y1 (X1 + Y0 (X0 + C')))
    G = Y3 (X3 + Y2)(X3 + X2 + Y1)(X3 + X2 + X1 + Y0)
    P = X3 + X2 + X1 + X0`;

  test('with its rails, optimized, is proved against both printed forms', () => {
    const searched = search(text, { effort: 'quick' });
    const network = foundNetwork(searched);
    expect(prove(searched.system, network, 'or')).toMatchObject({ verdict: 'equal', patterns: 512 });
    // The same wires, read as the levels of pins: every rail is high then, whatever it stood for.
    const pins = systemOf(pinForm);
    const pinOf = (name: string): number =>
      pins.signals.indexOf(name.replace(/^G(?=\d)/, 'Y').replace(/^P(?=\d)/, 'X'));
    const asPins: Network = {
      ...network,
      inputs: network.inputs.map((input) => ({
        ...input,
        signal: pinOf(searched.system.signals[input.signal]),
        rail: 'high',
      })),
      outputs: network.outputs.map(({ signal }) => ({
        signal: pins.signals.indexOf(searched.system.signals[signal]),
        rail: 'high',
      })),
    };
    expect(prove(pins, asPins, 'or')).toMatchObject({ verdict: 'equal', patterns: 512 });
    expect(network.outputs.map(({ signal, rail }) => `${searched.system.signals[signal]} ${rail}`)).toEqual(
      outputs.map((name) => `${name} ${name === 'G' || name === 'P' ? 'low' : 'high'}`),
    );
    expect(Math.max(...outputTicks(network, rulesOf(searched.target)))).toBe(2);
    expect(network.size).toBeLessThanOrEqual(15);
  });
});

test("the '138 decoder: an output is LOW while E1 = L, E2 = L, E3 = H and the address is its own", () => {
  const minterm = (i: number): string =>
    [0, 1, 2].map((bit) => `A${bit}${(i >> bit) & 1 ? '' : "'"}`).join(' ');
  const lines = Array.from({ length: 8 }, (_, i) => `O${i} = E1 E2 E3 ${minterm(i)}`);
  const text = `input A0, A1, A2, E1 low, E2 low, E3
    output ${lines.map((_, i) => `O${i} low`).join(', ')}
    ${lines.join('\n')}`;
  const { network, patterns } = compare(text, ({ A0, A1, A2, E1, E2, E3 }) => {
    const address = Number(A0) + 2 * Number(A1) + 4 * Number(A2);
    const enabled = !E1 && !E2 && E3;
    return Object.fromEntries(lines.map((_, i) => [`O${i}`, !(enabled && i === address)]));
  });
  expect(patterns).toBe(64);
  // Low outputs are joins of what forbids them: one inverter for each input that must be 1.
  expect(network.size).toBe(4);
});

test("the '148 priority encoder, all pins active-low, input 7 highest", () => {
  const inputs = Array.from({ length: 8 }, (_, i) => `I${i}`);
  const highest = (i: number): string =>
    [`I${i}`, ...inputs.slice(i + 1).map((name) => `${name}'`)].join(' ');
  const code = (bit: number): string =>
    inputs
      .flatMap((_, i) => ((i >> bit) & 1 ? [highest(i)] : []))
      .map((term) => `EI ${term}`)
      .join(' + ');
  const text = `input ${inputs.map((name) => `${name} low`).join(', ')}, EI low
    output A2 low, A1 low, A0 low, GS low, EO low
    A2 = ${code(2)}
    A1 = ${code(1)}
    A0 = ${code(0)}
    GS = EI (${inputs.join(' + ')})
    EO = EI ${inputs.map((name) => `${name}'`).join(' ')}`;
  const { network, patterns } = compare(text, (pins) => {
    if (pins.EI) return { A2: true, A1: true, A0: true, GS: true, EO: true };
    const k = [7, 6, 5, 4, 3, 2, 1, 0].find((i) => !pins[`I${i}`]);
    if (k === undefined) return { A2: true, A1: true, A0: true, GS: true, EO: false };
    // A is the complement of k: input 7 gives LLL.
    return { A2: (k & 4) === 0, A1: (k & 2) === 0, A0: (k & 1) === 0, GS: false, EO: true };
  });
  expect(patterns).toBe(512);
  expect(network.size).toBeLessThanOrEqual(20);
});
