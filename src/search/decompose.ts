// Decomposition: equations made anew from the functions alone, so that it does not matter how the reader wrote them.
//
// Idea. Take an output f and two of its inputs, e1 and e2. If all four functions that remain when e1 and e2 are fixed
// are 0, 1, one function x, or its complement, then f = h(e1, e2, x), and x has two inputs fewer. (One input instead of
// two will do as well, where no pair is found, or where f is a product with a parity: the product comes off first.) Going
// on with x, an adder comes apart into sums and carries lane by lane, a comparator into verdicts bit by bit, a parity into
// pairs, whether it was given as a ripple, as look-ahead or as a table of all rows. Functions that are met again, or their
// complements, are made once: that is what makes the carries of all outputs one chain.
//
// Correctness. Each step is an identity of the tables, on all rows. Where rows are free or forbidden nothing is made.
//
// Cost. (functions) x (pairs of inputs) x 4 x (words of a table). What does not come apart down to small functions is
// left to the equations as written. After R. L. Ashenhurst (1957), for a fixed small set of bound inputs.

import type { Definition, Expression, System } from '../equations/system.ts';
import type { SystemTables } from '../truth/system-tables.ts';
import {
  and,
  countRows,
  equal,
  flipInput,
  inputTable,
  isEmpty,
  not,
  or,
  support,
  type Table,
} from '../truth/table.ts';

import { complement, mentioned } from './substitute.ts';

/** Functions of so few inputs are written down by their rows when they do not come apart. */
const SMALL = 4;
/** More functions than so many are not worth it: the system does not come apart well. */
const MOST_FUNCTIONS = 200;

/** The same system with definitions made from its tables; null when its outputs do not come apart. */
export function decomposed(system: System, tables: SystemTables): System | null {
  const rows = 2 ** tables.inputs;
  if (tables.inputs !== system.inputs.length || countRows(tables.care) < rows || tables.free.size > 0) {
    return null;
  }
  return new Decomposition(system, tables).run();
}

/** A function f = h(bound, x). */
interface Split {
  readonly bound: readonly number[];
  readonly x: Table;
  /** Rows of the bound inputs where f is 1, x, its complement. */
  readonly ones: readonly number[];
  readonly straight: readonly number[];
  readonly crossed: readonly number[];
}

/** h takes x, its complement and a constant: a product with a parity, of which the product had better come off first. */
function isMixed({ bound, straight, crossed }: Split): boolean {
  return straight.length > 0 && crossed.length > 0 && straight.length + crossed.length < 2 ** bound.length;
}

class Decomposition {
  private readonly system: System;
  private readonly tables: SystemTables;
  private readonly inputs: number;
  private readonly signals: string[];
  private readonly definitions: Definition[] = [];
  /** Expressions of functions that are made, by their words. */
  private readonly known = new Map<string, Expression>();

  constructor(system: System, tables: SystemTables) {
    this.system = system;
    this.tables = tables;
    this.inputs = tables.inputs;
    this.signals = [...system.signals];
    system.inputs.forEach(({ signal }, i) => {
      this.remember(inputTable(this.inputs, i), { kind: 'signal', signal });
    });
  }

  run(): System | null {
    const { system, tables } = this;
    const inputs = new Set(system.inputs.map(({ signal }) => signal));
    const outputs = [...new Set(system.outputs.map(({ signal }) => signal))].filter((y) => !inputs.has(y));
    // Those of many inputs first: what comes off them is what the others are made of.
    const size = new Map(outputs.map((y) => [y, support(tables.signals[y], this.inputs).length]));
    const ordered = [...outputs].sort((a, b) => (size.get(b) ?? 0) - (size.get(a) ?? 0));
    for (const y of ordered) {
      const expression = this.made(tables.signals[y]);
      if (expression === null || this.definitions.length > MOST_FUNCTIONS) return null;
      this.definitions.push({ signal: y, expression, at: null });
      if (expression.kind !== 'signal') this.remember(tables.signals[y], { kind: 'signal', signal: y });
    }
    return {
      ...system,
      signals: this.signals,
      definitions: this.flattened(),
      never: [],
      free: [],
      claims: [],
    };
  }

  /** Products of products, and sums of sums, made one where the inner one has no other reader: they are built at once. */
  private flattened(): Definition[] {
    const readers = new Map<number, number>();
    for (const { expression } of this.definitions) {
      for (const signal of mentioned(expression)) readers.set(signal, (readers.get(signal) ?? 0) + 1);
    }
    const kept = new Map<number, Definition>();
    const named = this.system.signals.length;
    for (const definition of this.definitions) {
      const { expression } = definition;
      if (expression.kind !== 'and' && expression.kind !== 'or') {
        kept.set(definition.signal, definition);
        continue;
      }
      const args = expression.args.flatMap((arg): readonly Expression[] => {
        if (arg.kind !== 'signal' || arg.signal < named || readers.get(arg.signal) !== 1) return [arg];
        const inner = kept.get(arg.signal)?.expression;
        if (inner === undefined || inner.kind !== expression.kind) return [arg];
        kept.delete(arg.signal);
        return inner.args;
      });
      kept.set(definition.signal, { ...definition, expression: { kind: expression.kind, args } });
    }
    return [...kept.values()];
  }

  private remember(table: Table, expression: Expression): void {
    this.known.set(table.join(' '), expression);
    this.known.set(not(table, this.inputs).join(' '), complement(expression));
  }

  /** A signal, or its complement, that carries the function; a new one where there is none. */
  private signalOf(table: Table): Expression | null {
    const known = this.known.get(table.join(' '));
    if (known !== undefined) return known;
    const expression = this.made(table);
    if (expression === null || isLiteral(expression)) return expression;
    const signal = this.signals.length;
    this.signals.push(`part ${signal}`);
    this.definitions.push({ signal, expression, at: null });
    this.remember(table, { kind: 'signal', signal });
    return { kind: 'signal', signal };
  }

  /** The function in terms of signals of fewer inputs; null when it does not come apart. */
  private made(table: Table): Expression | null {
    const known = this.known.get(table.join(' '));
    if (known !== undefined) return known;
    const inputs = support(table, this.inputs);
    if (inputs.length === 0) return { kind: 'constant', value: isEmpty(table) ? 0 : 1 };
    if (inputs.length <= 2) return this.byRows(table, inputs);
    const single = inputs.map((input) => [input]);
    const pairs = inputs.flatMap((input, m) => inputs.slice(0, m).map((other) => [other, input]));
    const mixed: Split[] = [];
    for (const bound of [...pairs, ...single]) {
      const split = this.split(table, bound);
      if (split === null) continue;
      if (isMixed(split)) {
        mixed.push(split);
        continue;
      }
      const expression = this.joined(split);
      if (expression !== null) return expression;
    }
    for (const split of mixed) {
      const expression = this.joined(split);
      if (expression !== null) return expression;
    }
    return inputs.length <= SMALL ? this.byRows(table, inputs) : null;
  }

  /** f as h(bound, x), or null. */
  private split(table: Table, bound: readonly number[]): Split | null {
    const parts = this.parts(table, bound);
    const x = parts.find((part) => !this.isConstant(part));
    if (x === undefined) return null;
    const inverse = not(x, this.inputs);
    const [ones, straight, crossed]: [number[], number[], number[]] = [[], [], []];
    for (let row = 0; row < parts.length; row++) {
      const part = parts[row];
      if (this.isConstant(part)) {
        if (!isEmpty(part)) ones.push(row);
      } else if (equal(part, x)) straight.push(row);
      else if (equal(part, inverse)) crossed.push(row);
      else return null;
    }
    return { bound, x, ones, straight, crossed };
  }

  /** What is split, in terms of a signal for x; null when x does not come apart. */
  private joined({ bound, x, ones, straight, crossed }: Split): Expression | null {
    const inner = this.signalOf(x);
    if (inner === null) return null;
    if (straight.length + crossed.length === 2 ** bound.length && crossed.length > 0) {
      return { kind: 'xor', args: [this.ofRows(crossed, bound), inner] };
    }
    // Where f is 1 anyway it may as well be 1 or x: that makes the factor of x simpler.
    const terms: Expression[] = ones.length > 0 ? [this.ofRows(ones, bound)] : [];
    const passed = (rows: readonly number[], other: Expression): void => {
      if (rows.length === 0) return;
      const factor = this.ofRows(
        crossed.length === 0 || straight.length === 0 ? [...ones, ...rows] : rows,
        bound,
      );
      terms.push(
        factor.kind === 'constant' && factor.value === 1 ? other : { kind: 'and', args: [factor, other] },
      );
    };
    passed(straight, inner);
    passed(crossed, complement(inner));
    return terms.length === 1 ? terms[0] : { kind: 'or', args: terms };
  }

  /** What remains of f for each row of the bound inputs; the first is the lowest bit. */
  private parts(table: Table, bound: readonly number[]): Table[] {
    let parts = [table];
    for (const input of [...bound].reverse()) {
      parts = parts.flatMap((part) => [0, 1].map((value) => this.cofactor(part, input, value)));
    }
    return parts;
  }

  private cofactor(table: Table, input: number, value: number): Table {
    const column = inputTable(this.inputs, input);
    const half = and(table, value === 1 ? column : not(column, this.inputs));
    return or(half, flipInput(half, input));
  }

  private isConstant(table: Table): boolean {
    return isEmpty(table) || isEmpty(not(table, this.inputs));
  }

  private byRows(table: Table, inputs: readonly number[]): Expression {
    const rows: number[] = [];
    this.parts(table, inputs).forEach((part, row) => {
      if (!isEmpty(part)) rows.push(row);
    });
    return this.ofRows(rows, inputs);
  }

  /** The function of a few inputs that is 1 on these rows. */
  private ofRows(rows: readonly number[], inputs: readonly number[]): Expression {
    const literal = (n: number, value: number): Expression => {
      const signal: Expression = { kind: 'signal', signal: this.system.inputs[inputs[n]].signal };
      return value === 1 ? signal : complement(signal);
    };
    const set = [...new Set(rows)].sort((a, b) => a - b);
    const all = 2 ** inputs.length;
    if (set.length === 0 || set.length === all) return { kind: 'constant', value: set.length === 0 ? 0 : 1 };
    for (let n = 0; n < inputs.length; n++) {
      for (const value of [0, 1]) {
        const half = Array.from({ length: all }, (_, row) => row).filter((row) => ((row >> n) & 1) === value);
        if (half.length === set.length && half.every((row) => set.includes(row))) return literal(n, value);
      }
    }
    if (inputs.length === 2 && set.length === 2) {
      const both: Expression = { kind: 'xor', args: [literal(0, 1), literal(1, 1)] };
      return set[0] === 1 ? both : complement(both);
    }
    const product = (row: number): Expression => {
      const args = inputs.map((_, n) => literal(n, (row >> n) & 1));
      return args.length === 1 ? args[0] : { kind: 'and', args };
    };
    if (inputs.length === 2 && set.length === 3) {
      const missing = [0, 1, 2, 3].find((row) => !set.includes(row)) ?? 0;
      return { kind: 'or', args: inputs.map((_, n) => literal(n, 1 - ((missing >> n) & 1))) };
    }
    return set.length === 1 ? product(set[0]) : { kind: 'or', args: set.map(product) };
  }
}

function isLiteral(e: Expression): boolean {
  return e.kind === 'signal' || (e.kind === 'not' && e.argument.kind === 'signal') || e.kind === 'constant';
}
