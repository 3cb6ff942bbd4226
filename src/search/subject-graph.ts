// A system as a graph of ANDs of two operands, each plain or complemented: what covering (cover.ts) looks at.
//
// Literals are numbers: twice the node, one more for its complement. Node 0 is the constant 0, then one node for each
// input of the system, then ANDs, each after its operands. An AND of the same two literals is made once. What has many
// operands is made from those that are least deep upwards, so that what is deep stands near the end.

import type { Expression, System } from '../equations/system.ts';
import type { Task } from './task.ts';

/** Literals of the constants. */
const FALSE = 0;
const TRUE = 1;

export interface SubjectGraph {
  /** The constant and the inputs: nodes below this number are no ANDs. */
  readonly firstAnd: number;
  readonly size: number;
  /** Operands of AND `n`, as literals, at `2 n` and `2 n + 1`. */
  readonly operands: readonly number[];
  /**
   * By output of the task: the literal that its wire is to carry. For an output that may be on either rail it is the
   * literal of the high one.
   */
  readonly outputs: readonly number[];
}

/** The graph of a system. Levels are those of the search: mirrored where joins compute AND. */
export function graphOfSystem(system: System, task: Task): SubjectGraph {
  const made = new Maker(system.inputs.length);
  const literals: number[] = system.signals.map(() => FALSE);
  system.inputs.forEach(({ signal }, i) => {
    literals[signal] = made.input(i);
  });
  for (const { signal, expression } of system.definitions) {
    literals[signal] = made.expression(expression, literals);
  }
  const outputs = task.outputs.map(({ signal, rail }) => {
    const isLow = (rail === 'low') !== task.mirrored;
    return isLow ? literals[signal] ^ 1 : literals[signal];
  });
  return made.graph(outputs);
}

class Maker {
  private readonly firstAnd: number;
  private readonly operands: number[] = [];
  private readonly depths: number[] = [];
  private readonly known = new Map<number, number>();

  constructor(inputs: number) {
    this.firstAnd = 1 + inputs;
    for (let n = 0; n < this.firstAnd; n++) {
      this.operands.push(FALSE, FALSE);
      this.depths.push(0);
    }
  }

  input(number: number): number {
    return 2 * (1 + number);
  }

  graph(outputs: readonly number[]): SubjectGraph {
    return { firstAnd: this.firstAnd, size: this.depths.length, operands: this.operands, outputs };
  }

  /** The AND of any number of literals. */
  and(literals: readonly number[]): number {
    const rest = [...new Set(literals)].filter((literal) => literal !== TRUE);
    if (rest.includes(FALSE) || rest.some((literal) => rest.includes(literal ^ 1))) return FALSE;
    if (rest.length === 0) return TRUE;
    // Ascending by depth; the two least deep are joined and the result takes its place.
    const depthOf = (literal: number): number => this.depths[literal >> 1];
    rest.sort((a, b) => depthOf(a) - depthOf(b) || a - b);
    while (rest.length > 1) {
      const [a, b] = rest.splice(0, 2);
      const both = this.pair(a, b);
      let at = 0;
      while (at < rest.length && depthOf(rest[at]) <= depthOf(both)) at++;
      rest.splice(at, 0, both);
    }
    return rest[0];
  }

  private or(literals: readonly number[]): number {
    return this.and(literals.map((literal) => literal ^ 1)) ^ 1;
  }

  private xor(a: number, b: number): number {
    return this.and([this.and([a, b]) ^ 1, this.and([a ^ 1, b ^ 1]) ^ 1]);
  }

  private pair(a: number, b: number): number {
    if (a === b || b === TRUE) return a;
    if (a === TRUE) return b;
    if (a === (b ^ 1) || a === FALSE || b === FALSE) return FALSE;
    const [low, high] = a < b ? [a, b] : [b, a];
    const key = low * 2 ** 26 + high;
    let node = this.known.get(key);
    if (node === undefined) {
      node = this.depths.length;
      this.operands.push(low, high);
      this.depths.push(1 + Math.max(this.depths[low >> 1], this.depths[high >> 1]));
      this.known.set(key, node);
    }
    return 2 * node;
  }

  expression(e: Expression, literals: readonly number[]): number {
    const made = (other: Expression): number => this.expression(other, literals);
    switch (e.kind) {
      case 'constant':
        return e.value === 1 ? TRUE : FALSE;
      case 'signal':
        return literals[e.signal];
      case 'not':
        return made(e.argument) ^ 1;
      case 'and':
        return this.and(e.args.map(made));
      case 'nand':
        return this.and(e.args.map(made)) ^ 1;
      case 'or':
        return this.or(e.args.map(made));
      case 'nor':
        return this.or(e.args.map(made)) ^ 1;
      case 'xor':
        return this.parity(e.args.map(made));
      case 'xnor':
        return this.parity(e.args.map(made)) ^ 1;
      case 'equals':
        return this.xor(made(e.left), made(e.right)) ^ 1;
      case 'implies':
        return this.or([made(e.left) ^ 1, made(e.right)]);
      case 'mux': {
        const select = made(e.select);
        return this.or([this.and([select ^ 1, made(e.when0)]), this.and([select, made(e.when1)])]);
      }
      case 'maj': {
        const [a, b, c] = e.args.map(made);
        return this.or([this.and([a, b]), this.and([c, this.or([a, b])])]);
      }
    }
  }

  /** As a tree, the least deep operands first. */
  private parity(literals: readonly number[]): number {
    const rest = [...literals].sort((a, b) => this.depths[a >> 1] - this.depths[b >> 1]);
    while (rest.length > 1) {
      const [a, b] = rest.splice(0, 2);
      const both = this.xor(a, b);
      let at = 0;
      while (at < rest.length && this.depths[rest[at] >> 1] <= this.depths[both >> 1]) at++;
      rest.splice(at, 0, both);
    }
    return rest[0] ?? FALSE;
  }
}
