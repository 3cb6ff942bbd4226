// The '182 look-ahead carry generator, a handbook function: four pairs of generate and propagate come in active-low,
// the carry active-high; three carries leave active-high, group generate and group propagate active-low.
//
// Published: data sheets of Fairchild DM74S182 and Hitachi HD74HC182, which print it in both forms below.

import { describe, expect, test } from 'vitest';
import { allPatterns, signalValue } from '../support/naive-evaluator.ts';
import { brokenLaws } from '../support/network-laws.ts';
import { foundNetwork, search, systemOf, targetOf } from '../support/system-of.ts';

/** As logic: what every output is in terms of the signals. */
const LOGIC = {
  Cx: 'G0 + P0 C',
  Cy: 'G1 + P1 G0 + P1 P0 C',
  Cz: 'G2 + P2 G1 + P2 P1 G0 + P2 P1 P0 C',
  G: 'G3 + P3 G2 + P3 P2 G1 + P3 P2 P1 G0',
  P: 'P3 P2 P1 P0',
};

/** As levels of pins: Y is the level of a generate pin, X of a propagate pin; what leaves is again the level of a pin. */
const PINS = {
  Cx: "(Y0 (X0 + C'))'",
  Cy: "(Y1 (X1 + Y0 (X0 + C')))'",
  Cz: "(Y2 (X2 + Y1 (X1 + Y0 (X0 + C'))))'",
  G: 'Y3 (X3 + Y2)(X3 + X2 + Y1)(X3 + X2 + X1 + Y0)',
  P: 'X3 + X2 + X1 + X0',
};

type Output = keyof typeof LOGIC;
const OUTPUTS = Object.keys(LOGIC) as Output[];
const ACTIVE_LOW: readonly Output[] = ['G', 'P'];
const LANES = [0, 1, 2, 3];

function equations(form: Readonly<Record<Output, string>>, outputs: readonly Output[]): string {
  return outputs.map((name) => `${name} = ${form[name]}`).join('\n');
}

/** The generator by its signals, with the rails of the data sheet. */
function bySignals(outputs: readonly Output[]): string {
  const declared = [
    ...LANES.flatMap((i) => [`input G${i} low`, `input P${i} low`]),
    'input C',
    ...outputs.map((name) => `output ${name}${ACTIVE_LOW.includes(name) ? ' low' : ''}`),
  ];
  return `${declared.join('\n')}\n${equations(LOGIC, outputs)}`;
}

describe("the '182 carry generator", () => {
  test('both printed forms agree on all 512 patterns', () => {
    const logic = systemOf(bySignals(OUTPUTS));
    const pins = systemOf(
      `${LANES.map((i) => `input Y${i}, X${i}`).join('\n')}\ninput C\n${equations(PINS, OUTPUTS)}`,
    );
    let compared = 0;
    for (const levels of allPatterns(9)) {
      const values = levels.map((level, i) => (i < 8 ? !level : level));
      for (const name of OUTPUTS) {
        const value = signalValue(logic, logic.signals.indexOf(name), values);
        const level = signalValue(pins, pins.signals.indexOf(name), levels);
        expect(level, `${name} on ${levels}`).toBe(ACTIVE_LOW.includes(name) ? !value : value);
      }
      compared++;
    }
    expect(compared).toBe(512);
  });

  // Own: ticks and parts, proved. That active-low wires joined give the low rail of an AND is common practice.
  test.each([
    ['Cx', 2, 3],
    ['Cy', 2, 4],
    ['Cz', 2, 5],
    ['G', 2, 5],
    ['P', 0, 0],
  ] as const)(
    '%s by itself takes %i ticks and %i parts with the rails of the sheet',
    (name, ticks, parts) => {
      const searched = search(bySignals([name]));
      const network = foundNetwork(searched);
      expect(brokenLaws(searched.system, network, searched.target)).toEqual([]);
      expect(network.inputs.every(({ rail }, i) => rail === (i < 8 ? 'low' : 'high'))).toBe(true);
      expect(searched.outcome.answer).toMatchObject({ ticks, ticksProved: true, sizeProved: true });
      expect(network.size).toBe(parts);
    },
  );

  test('all five outputs together are right, and share parts', () => {
    const searched = search(bySignals(OUTPUTS), { effort: 'quick' });
    const network = foundNetwork(searched);
    expect(brokenLaws(searched.system, network, searched.target)).toEqual([]);
    expect(searched.outcome.answer).toMatchObject({ ticks: 2, ticksProved: true });
    expect(network.size).toBeLessThan(3 + 4 + 5 + 5);
  });

  test.each(['joined-and', 'nor-gates', 'joined-or-4'])('the longest carry is right for %s', (name) => {
    const target = targetOf(name);
    const searched = search(bySignals(['Cz']), { target, effort: 'quick' });
    expect(brokenLaws(searched.system, foundNetwork(searched), target)).toEqual([]);
  });
});
