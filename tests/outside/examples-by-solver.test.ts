// Every example once more, judged by a solver from the package registry alone: the clauses are made here from the text
// and from the network, and share nothing with the prover. Where an answer claims the fewest parts of one function of up
// to four inputs, that solver is also asked for a network of one inverter fewer.

import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { Expression, System } from '../../src/equations/system.ts';
import type { Network } from '../../src/network/network.ts';
import { inverterLegs, joinLegs } from '../support/naive-evaluator.ts';
import { existsNetwork } from '../support/network-question.ts';
import { RegistrySolver } from '../support/registry-solver.ts';
import { seededRandom } from '../support/seeded-random.ts';
import { foundNetwork, search, systemOf, tableSystem } from '../support/system-of.ts';

const EXAMPLES = new URL('../../examples/', import.meta.url);

/** Clauses over variables from 1 on; a wire is a variable, its complement the negative. */
class Encoder {
  readonly clauses: number[][] = [];
  variables = 1;

  constructor() {
    this.clauses.push([1]);
  }

  fresh(): number {
    return ++this.variables;
  }

  any(parts: readonly number[]): number {
    const out = this.fresh();
    for (const part of parts) this.clauses.push([-part, out]);
    this.clauses.push([-out, ...parts]);
    return out;
  }

  all(parts: readonly number[]): number {
    return -this.any(parts.map((part) => -part));
  }

  differ(a: number, b: number): number {
    return this.any([this.all([a, -b]), this.all([-a, b])]);
  }

  expression(e: Expression, signals: readonly number[]): number {
    const of = (part: Expression): number => this.expression(part, signals);
    switch (e.kind) {
      case 'constant':
        return e.value === 1 ? 1 : -1;
      case 'signal':
        return signals[e.signal];
      case 'not':
        return -of(e.argument);
      case 'and':
        return this.all(e.args.map(of));
      case 'nand':
        return -this.all(e.args.map(of));
      case 'or':
        return this.any(e.args.map(of));
      case 'nor':
        return -this.any(e.args.map(of));
      case 'xor':
        return e.args.map(of).reduce((a, b) => this.differ(a, b));
      case 'xnor':
        return -e.args.map(of).reduce((a, b) => this.differ(a, b));
      case 'equals':
        return -this.differ(of(e.left), of(e.right));
      case 'implies':
        return this.any([-of(e.left), of(e.right)]);
      case 'mux':
        return this.any([this.all([of(e.select), of(e.when1)]), this.all([-of(e.select), of(e.when0)])]);
      case 'maj': {
        const [a, b, c] = e.args.map(of);
        return this.any([this.all([a, b]), this.all([a, c]), this.all([b, c])]);
      }
    }
  }
}

/** Is there a pattern, among those that count, on which some output of the network is not its signal? */
function differs(system: System, network: Network): boolean {
  const encoder = new Encoder();
  const signals: number[] = [];
  for (const { signal } of system.inputs) signals[signal] = encoder.fresh();
  for (const { signal, expression } of system.definitions) {
    signals[signal] = encoder.expression(expression, signals);
  }
  const wires = [-1, 1];
  for (const { signal, rail } of network.inputs)
    wires.push(rail === 'high' ? signals[signal] : -signals[signal]);
  for (let i = 0; i < network.size; i++) {
    wires.push(-encoder.any(inverterLegs(network, i).map((leg) => wires[leg])));
  }
  const faults = network.outputs.map(({ signal, rail }, y) => {
    const level = encoder.any(joinLegs(network, y).map((leg) => wires[leg]));
    const wrong = encoder.differ(level, rail === 'high' ? signals[signal] : -signals[signal]);
    const free = (system.free ?? [])
      .filter((freedom) => freedom.signal === signal)
      .map(({ expression }) => -encoder.expression(expression, signals));
    return encoder.all([wrong, ...free]);
  });
  encoder.clauses.push(faults);
  for (const never of system.never ?? []) encoder.clauses.push([-encoder.expression(never, signals)]);
  return new RegistrySolver().model({ variables: encoder.variables, clauses: encoder.clauses }) !== null;
}

const files = readdirSync(EXAMPLES)
  .filter((file) => file.endsWith('.logic'))
  .sort();

test.each(files)('%s: equal, and a damaged network is not', { timeout: 120_000 }, (file) => {
  const system = systemOf(readFileSync(new URL(file, EXAMPLES), 'utf8'));
  const network = foundNetwork(search(system, { effort: 'quick' }));
  expect(differs(system, network)).toBe(false);
  // The same check must see a fault: the legs of the first output become those of an inverter of no legs, the constant.
  const outputLegs = network.outputLegs.slice();
  outputLegs.fill(1, 0, network.outputStart[1]);
  expect(differs(system, { ...network, outputLegs })).toBe(true);
});

const random = seededRandom(8);
const sample = Array.from({ length: 16 }, () => 1 + Math.floor(random() * 65534));

test.each(sample)('function %i of four inputs: the fewest parts are there, one fewer is not', (table) => {
  const searched = search(tableSystem(4, table));
  const { answer } = searched.outcome;
  expect(answer?.sizeProved).toBe(true);
  const [ticks, size] = [answer?.ticks ?? 0, foundNetwork(searched).size];
  const exists = (parts: number): boolean =>
    existsNetwork({ table, size: parts, delays: new Array(4).fill(Math.min(ticks, parts)) });
  expect([exists(size), size > 0 && exists(size - 1)]).toEqual([true, false]);
});
