// Hazards: the published example, the published theorems on random two-level networks, and the remedy.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { packNetwork } from '../../src/network/build-network.ts';
import type { Network } from '../../src/network/network.ts';
import { prove } from '../../src/proof/prove.ts';
import type { Circuit } from '../../src/timing/circuit.ts';
import { circuitOfNetwork } from '../../src/timing/circuit-of-network.ts';
import { hasStaticHazard, hazardFreeNetwork, primeCubes } from '../../src/timing/hazard-free.ts';
import { hazardsOf } from '../../src/timing/hazards.ts';
import { TransitionTables } from '../../src/timing/transition-tables.ts';
import { wholeScope } from '../../src/timing/walk-transitions.ts';
import { NaiveTimer } from '../support/naive-timing.ts';
import { systemArbitrary } from '../support/random-system.ts';
import { search, targetOf } from '../support/system-of.ts';
import { foundCircuit, writtenCircuit } from '../support/timed-circuit.ts';

const SEED = 619;

/** A product of literals: 1 for the input itself, 0 for its complement, null where the input does not matter. */
type Product = readonly (0 | 1 | null)[];

/** A sum of products laid in two levels: an inverter for each input, one for each product. */
function twoLevels(inputs: number, products: readonly Product[]): Circuit {
  const signals = [...Array.from({ length: inputs }, (_, i) => `x${i + 1}`), 'f'];
  const wires = signals.slice(0, inputs).map((_, signal) => ({ signal, rail: 'high' as const, tick: 0 }));
  const inverters: number[][] = wires.map((_, i) => [2 + i]);
  const join = products.map((product) => {
    const legs = product.flatMap((value, i) =>
      value === null ? [] : [value === 1 ? 2 + inputs + i : 2 + i],
    );
    inverters.push(legs.sort((a, b) => a - b));
    return 1 + inputs + inverters.length;
  });
  const network = packNetwork(wires, [{ signal: inputs, rail: 'high' }], inverters, [join]);
  return circuitOfNetwork(
    network,
    signals,
    wires.map(({ signal }) => ({ signal, tick: 0 })),
    targetOf('joined-or'),
  );
}

describe("the published example: x1 x2 + x1' x3 (Eichelberger 1965, McCluskey; from memory)", () => {
  const plain: Product[] = [
    [1, 1, null],
    [0, null, 1],
  ];

  test('has a static-1 hazard on x1 at x2 = x3 = 1 and no other', () => {
    const [hazard, ...others] = hazardsOf(twoLevels(3, plain));
    expect(others).toEqual([]);
    expect(hazard).toMatchObject({ kind: 'static-1', flipped: [0], possible: 2, ofFunction: 0 });
    expect([...hazard.example.from].slice(1)).toEqual([1, 1]);
  });

  test('is seen in the simulation one tick wide, when x1 goes on', () => {
    const [hazard] = hazardsOf(twoLevels(3, plain));
    expect(hazard).toMatchObject({ happens: 1, widest: 1 });
    expect([...hazard.example.from, ...hazard.example.to]).toEqual([0, 1, 1, 1, 1, 1]);
  });

  test('is cured by x2 x3', () => {
    expect(hazardsOf(twoLevels(3, [...plain, [null, 1, 1]]))).toEqual([]);
  });

  test("the remedy finds x2 (x1 + x3) + x1' x3: one part more", () => {
    const { outcome, system } = search("f = x1 x2 + x1' x3", { ticks: 2 });
    const network = outcome.answer?.network as Network;
    const task = {
      network,
      signals: system.signals,
      inputs: system.inputs,
      target: targetOf('joined-or'),
      allowed: null,
    };
    expect(hasStaticHazard(task)).toBe(true);
    const cured = hazardFreeNetwork(task);
    expect(cured).toMatchObject({ ticks: 2 });
    expect(hasStaticHazard(task, cured?.network)).toBe(false);
    expect(prove(system, cured?.network as Network, 'or').verdict).toBe('equal');
    expect([network.size, cured?.inverters]).toEqual([4, 5]);
  });
});

/** Random sums of products over 2 to 4 inputs, no product with an input and its complement. */
const sums = fc.integer({ min: 2, max: 4 }).chain((inputs) =>
  fc.record({
    inputs: fc.constant(inputs),
    products: fc.array(
      fc
        .array(fc.constantFrom(0 as const, 1 as const, null), { minLength: inputs, maxLength: inputs })
        .filter((product) => product.some((value) => value !== null)),
      { minLength: 1, maxLength: 6 },
    ),
  }),
);

const holds = (product: Product, row: number): boolean =>
  product.every((value, i) => value === null || value === ((row >> i) & 1));
const value = (products: readonly Product[], row: number): boolean => products.some((p) => holds(p, row));

/** Static hazards that are not the function's own, for changes of so many inputs at most. */
function staticLogicHazards(circuit: Circuit, mostFlips: number): number {
  return hazardsOf(circuit, { scope: wholeScope(circuit), mostFlips })
    .filter(({ kind }) => kind !== 'dynamic')
    .reduce((sum, { possible, ofFunction }) => sum + possible - ofFunction, 0);
}

describe(`two-level networks (published theorems), seed ${SEED}`, () => {
  test('no static logic hazard for any change iff every prime implicant is there', () => {
    fc.assert(
      fc.property(sums, ({ inputs, products }) => {
        const circuit = twoLevels(inputs, products);
        const rows = [...Array(2 ** inputs).keys()];
        // All cubes, by trying every one: an implicant that no single literal may leave is prime.
        const cubes: Product[] = [];
        const grow = (product: Product): void => {
          if (product.length < inputs) for (const v of [0, 1, null] as const) grow([...product, v]);
          else cubes.push(product);
        };
        grow([]);
        const inside = (p: Product): boolean => rows.every((row) => !holds(p, row) || value(products, row));
        const primes = cubes.filter(
          (p) =>
            inside(p) &&
            p.every((v, i) => v === null || !inside(p.map((other, j) => (j === i ? null : other)))),
        );
        const complete = primes.every(
          (prime) =>
            prime.every((v) => v === null) || products.some((p) => p.every((v, i) => v === prime[i])),
        );
        const tautology = primes.some((prime) => prime.every((v) => v === null));
        const free = staticLogicHazards(circuit, inputs) === 0;
        // The constant 1 has an empty product for its only prime implicant, which no inverter can be.
        if (!tautology) expect(free).toBe(complete);
        else expect(free).toBe(false);
        const { old } = new TransitionTables(circuit);
        expect(primeCubes(old[circuit.outputs[0].wire], inputs)).toHaveLength(primes.length);
      }),
      { seed: SEED, numRuns: 300 },
    );
  });

  test('none for single inputs iff every two neighbouring 1-points share a product', () => {
    fc.assert(
      fc.property(sums, ({ inputs, products }) => {
        let shared = true;
        for (let row = 0; row < 2 ** inputs; row++) {
          for (let i = 0; i < inputs; i++) {
            const other = row ^ (1 << i);
            if (!value(products, row) || !value(products, other)) continue;
            if (!products.some((p) => holds(p, row) && holds(p, other))) shared = false;
          }
        }
        expect(staticLogicHazards(twoLevels(inputs, products), 1) === 0).toBe(shared);
      }),
      { seed: SEED, numRuns: 300 },
    );
  });
});

const systems = systemArbitrary({ mostInputs: 4, depth: 3, rails: ['high', 'low', 'both'] });

describe(`random networks, seed ${SEED}`, () => {
  test('what the simulation shows, three-valued simulation allows', () => {
    fc.assert(
      fc.property(systems, fc.constantFrom('or', 'and'), (system, logic) => {
        const made = writtenCircuit(system, targetOf(`joined-${logic}`));
        const { circuit, network, target, signals } = made;
        const count = signals.length;
        const hazards = hazardsOf(circuit, { scope: wholeScope(circuit), mostFlips: count });
        const timer = new NaiveTimer(network, target, signals);
        const happens = hazards.map(() => 0);
        const widest = hazards.map(() => 0);
        for (let from = 0; from < 2 ** count; from++) {
          for (let to = 0; to < 2 ** count; to++) {
            if (from === to) continue;
            const pattern = (row: number): boolean[] => signals.map((_, i) => ((row >> i) & 1) === 1);
            const levels = timer.run(pattern(from), pattern(to), 40);
            network.outputs.forEach((_, y) => {
              const end = levels[41][y];
              const start = levels[0][y];
              const kind = start !== end ? 'dynamic' : end ? 'static-1' : 'static-0';
              // Pulses by their definition: at the wrong level after having been at the right one.
              let [been, run, longest] = [false, 0, 0];
              for (const row of levels) {
                if (row[y] === end) {
                  longest = Math.max(longest, run);
                  been = true;
                  run = 0;
                } else if (been) run++;
              }
              if (longest === 0) return;
              const flipped = signals.flatMap((_, i) => ((((from ^ to) >> i) & 1) === 1 ? [i] : []));
              const at = hazards.findIndex(
                (hazard) =>
                  hazard.output === y && hazard.kind === kind && hazard.flipped.join() === flipped.join(),
              );
              expect(at).toBeGreaterThanOrEqual(0);
              happens[at]++;
              widest[at] = Math.max(widest[at], longest);
            });
          }
        }
        expect(hazards.map((hazard) => hazard.happens)).toEqual(happens);
        expect(hazards.map((hazard) => hazard.widest)).toEqual(widest);
        for (const hazard of hazards) {
          expect(hazard.happens).toBeLessThanOrEqual(hazard.possible);
          if (hazard.flipped.length === 1) expect(hazard.ofFunction).toBe(0);
        }
      }),
      { seed: SEED, numRuns: 60 },
    );
  });

  test('the remedy keeps the functions and leaves no static hazard, under every kind of join', () => {
    const names = ['joined-or', 'joined-and', 'nor-gates', 'joined-or-single'];
    fc.assert(
      fc.property(systemArbitrary({ mostInputs: 4, depth: 3 }), fc.constantFrom(...names), (system, name) => {
        const { network, target } = writtenCircuit(system, targetOf(name));
        const task = { network, signals: system.signals, inputs: system.inputs, target, allowed: null };
        const cured = hazardFreeNetwork(task);
        expect(cured).not.toBeNull();
        if (cured === null) return;
        expect(hasStaticHazard(task, cured.network)).toBe(false);
        expect(prove(system, cured.network, target.join.logic).verdict).toBe('equal');
      }),
      { seed: SEED, numRuns: 40 },
    );
  });
});

describe('hazards of more than one kind', () => {
  test('a function hazard is told from a logic hazard', () => {
    // XOR of two inputs that change together: in any order the function itself goes to 1 and back.
    const { circuit } = foundCircuit('s = a ^ b');
    const hazards = hazardsOf(circuit, { scope: wholeScope(circuit), mostFlips: 2 });
    const both = hazards.filter(({ flipped }) => flipped.length === 2);
    expect(both.length).toBeGreaterThan(0);
    for (const hazard of both) expect(hazard.ofFunction).toBe(hazard.possible);
  });

  test('a dynamic hazard: one leg pulses while another changes', () => {
    const wide = writtenCircuit("x = a b + a' c; f = x (a + d)");
    expect(hazardsOf(wide.circuit).map(({ kind }) => kind)).toContain('dynamic');
  });
});
