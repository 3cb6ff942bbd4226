// Formulas of several shapes for putting the same question to two solvers. A formula is a list of clauses of signed
// variable numbers. Every shape comes in satisfiable and in contradictory ones, and each formula is disguised: variables
// renamed and complemented, clauses and literals shuffled, so that no order of the makers helps a solver.

import type { System } from '../../src/equations/system.ts';
import type { Network } from '../../src/network/network.ts';
import { translate } from '../../src/proof/gate-graph.ts';
import { damaged, plainNetwork, prefixAdder, randomSystem, rippleAdder } from '../unit/proof-samples.ts';

export interface Formula {
  readonly variables: number;
  readonly clauses: readonly (readonly number[])[];
}

/** Whole numbers from 0 to `below` - 1. */
export type Draw = (below: number) => number;

/** Clauses of three different variables, as many as leave about half of such formulas satisfiable. */
export function threshold(draw: Draw): Formula {
  const variables = 10 + draw(71);
  const count = Math.round(variables * (4.26 + (draw(7) - 3) / 20) + 6 / variables);
  const clauses = Array.from({ length: count }, () => {
    const picked = new Set<number>();
    while (picked.size < 3) picked.add(1 + draw(variables));
    return [...picked].map((variable) => (draw(2) === 0 ? variable : -variable));
  });
  return { variables, clauses };
}

/** Clauses around a hidden solution; in every other formula so many short ones that it is the only one, and forbidden. */
export function planted(draw: Draw): Formula {
  const variables = 5 + draw(60);
  const forbidden = draw(2) === 0;
  const hidden = Array.from({ length: variables + 1 }, () => draw(2) === 1);
  const clauses = Array.from({ length: variables * (forbidden ? 14 : 2 + draw(4)) }, () => {
    const width = forbidden ? 2 + draw(2) : 1 + draw(6);
    const clause = Array.from({ length: width }, () => (1 + draw(variables)) * (draw(2) === 0 ? 1 : -1));
    const at = draw(width);
    const variable = Math.abs(clause[at]);
    clause[at] = hidden[variable] ? variable : -variable;
    return clause;
  });
  if (forbidden) clauses.push(hidden.flatMap((is, v) => (v === 0 ? [] : [is ? -v : v])));
  return { variables, clauses };
}

/** The parity of the same variables, chained in two orders; the ends agree or, contradictory, differ. */
export function parities(draw: Draw): Formula {
  const width = 3 + draw(9);
  const clauses: number[][] = [];
  let variables = width;
  const chain = (): number => {
    const order = shuffled(
      Array.from({ length: width }, (_, i) => i + 1),
      draw,
    );
    return order.reduce((a, b) => {
      const sum = ++variables;
      clauses.push([-sum, a, b], [-sum, -a, -b], [sum, -a, b], [sum, a, -b]);
      return sum;
    });
  };
  const [a, b] = [chain(), chain()];
  const differ = draw(3) > 0;
  clauses.push(differ ? [a, b] : [a, -b], differ ? [-a, -b] : [-a, b]);
  return { variables, clauses };
}

/** Birds in holes, none of which takes two; often there is one hole too few. */
export function pigeonholes(draw: Draw): Formula {
  const birds = 2 + draw(6);
  const holes = Math.max(1, birds - (draw(3) === 0 ? 0 : 1));
  const at = (bird: number, hole: number): number => bird * holes + hole + 1;
  const clauses: number[][] = [];
  for (let b = 0; b < birds; b++) {
    clauses.push(Array.from({ length: holes }, (_, h) => at(b, h)));
    for (let c = 0; c < b; c++) for (let h = 0; h < holes; h++) clauses.push([-at(b, h), -at(c, h)]);
  }
  return { variables: birds * holes, clauses };
}

/** Ripple equations against a network of prefixes, every other one with a leg laid wrong. */
export function adders(draw: Draw): Formula {
  const bits = 1 + draw(8);
  const system = rippleAdder(bits);
  const network = prefixAdder(system, bits);
  return unequal(system, draw(2) === 0 ? network : damaged(network, draw));
}

/** Random equations against their plain network, every other one with a leg laid wrong. */
export function gates(draw: Draw): Formula {
  const system = randomSystem(draw, 2 + draw(10), 1 + draw(5), { never: draw(2) === 0 });
  const network = plainNetwork(system);
  return unequal(system, draw(2) === 0 ? network : damaged(network, draw));
}

export const SHAPES: readonly ((draw: Draw) => Formula)[] = [
  threshold,
  planted,
  parities,
  pigeonholes,
  adders,
  gates,
];

/** Is there an allowed pattern on which an output of the network is wrong? */
export function unequal(system: System, network: Network): Formula {
  const { graph, never, outputs } = translate(system, network, 'or');
  const signed = (literal: number): number => ((literal >> 1) + 1) * ((literal & 1) === 1 ? -1 : 1);
  const clauses: number[][] = [[-1]];
  for (let node = 1; node < graph.size; node++) {
    const own = node + 1;
    const args = graph.args.slice(graph.start[node], graph.start[node + 1]).map(signed);
    if (graph.xor[node] === 1) {
      const [a, b] = args;
      clauses.push([-own, a, b], [-own, -a, -b], [own, -a, b], [own, a, -b]);
    } else if (args.length > 0) {
      clauses.push(...args.map((arg) => [-own, arg]), [own, ...args.map((arg) => -arg)]);
    }
  }
  clauses.push(...never.map((literal) => [-signed(literal)]));
  let variables = graph.size;
  const differing = outputs.map(({ level, wanted }) => {
    const differs = ++variables;
    const [a, b] = [signed(level), signed(wanted)];
    clauses.push([-differs, a, b], [-differs, -a, -b]);
    return differs;
  });
  clauses.push(differing);
  return { variables, clauses };
}

/** The same formula in another dress. */
export function disguised({ variables, clauses }: Formula, draw: Draw): Formula {
  const names = shuffled(
    Array.from({ length: variables }, (_, i) => i + 1),
    draw,
  );
  const flips = names.map(() => (draw(2) === 0 ? 1 : -1));
  const renamed = (literal: number): number =>
    Math.sign(literal) * names[Math.abs(literal) - 1] * flips[Math.abs(literal) - 1];
  return { variables, clauses: shuffled(clauses, draw).map((clause) => shuffled(clause.map(renamed), draw)) };
}

export function holds({ clauses }: Formula, isTrue: (variable: number) => boolean): boolean {
  return clauses.every((clause) => clause.some((literal) => isTrue(Math.abs(literal)) === literal > 0));
}

function shuffled<T>(list: readonly T[], draw: Draw): T[] {
  const result = [...list];
  for (let i = result.length - 1; i > 0; i--) {
    const j = draw(i + 1);
    [result[i], result[j]] = [result[j], result[i]];
  }
  return result;
}
