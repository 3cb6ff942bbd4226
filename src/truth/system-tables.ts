// The truth tables of all signals of a system, and the rows that can happen. The definitions are computed in their order
// by a program made once (table-program.ts); the cost is (operators) x (words of a table).

import { usableFreedom } from '../equations/free-signals.ts';
import type { Expression, System } from '../equations/system.ts';
import { operatorCount } from '../equations/system-size.ts';
import {
  and,
  constantTable,
  inputTable,
  MAX_INPUTS,
  not,
  or,
  orInto,
  type Table,
  withoutInto,
  xor,
} from './table.ts';
import { TableProgram } from './table-program.ts';

export interface SystemTables {
  /**
   * Tables have 2^inputs rows. For whole truth tables that is the number of inputs, and rows are numbered by their
   * values, the first input is bit 0.
   */
  readonly inputs: number;
  /** Table of every signal, by signal number. */
  readonly signals: readonly Table[];
  /** Rows that no `never` forbids. */
  readonly care: Table;
  /** By signal: rows where it may be built as 0 or as 1. */
  readonly free: ReadonlyMap<number, Table>;
}

/** Words that all tables of a system, and of a network for it, may hold together: half a gigabyte. */
const MOST_WORDS = 2 ** 27;

/** Whether whole tables of a system are at hand: it has at most MAX_INPUTS inputs, and not too many signals for them. */
export function fitsTables(system: System): boolean {
  const inputs = system.inputs.length;
  if (inputs > MAX_INPUTS) return false;
  const words = 2 ** Math.max(0, inputs - 5);
  // A look-out for tables of wires: as written, an operator is a few inverters, of which most go soon.
  return (system.signals.length + operatorCount(system)) * words <= MOST_WORDS;
}

/** Tables of every signal. The system must have at most MAX_INPUTS inputs. */
export function systemTables(system: System): SystemTables {
  const inputs = system.inputs.length;
  return evaluateSystem(
    system,
    system.inputs.map((_, index) => inputTable(inputs, index)),
    inputs,
  );
}

/**
 * Tables of every signal over any rows: `columns[i]` holds the values of input `i`, 2^rowBits of them. With a column
 * for every pattern these are truth tables, otherwise a sample.
 */
export function evaluateSystem(system: System, columns: readonly Table[], rowBits: number): SystemTables {
  const { program, freedom } = programOf(system);
  const results = program.run(columns, rowBits);
  const { length } = system.signals;
  const care = constantTable(rowBits, 1);
  for (let n = 0; n < system.never.length; n++) withoutInto(care, results[length + n]);
  const free = new Map<number, Table>();
  let at = length + system.never.length;
  for (const [signal, count] of freedom) {
    const rows = results[at];
    for (let n = 1; n < count; n++) orInto(rows, results[at + n]);
    free.set(signal, rows);
    at += count;
  }
  return { inputs: rowBits, signals: results.slice(0, length), care, free };
}

interface SystemProgram {
  readonly program: TableProgram;
  /** Signals that are free somewhere, with the number of expressions that say where. */
  readonly freedom: readonly (readonly [signal: number, count: number])[];
}

const programs = new WeakMap<System, SystemProgram>();

/** The steps for a system; behind its signals come its `never` and its freedoms. */
function programOf(system: System): SystemProgram {
  let found = programs.get(system);
  if (found === undefined) {
    const freedom = [...usableFreedom(system)];
    const further = [...system.never, ...freedom.flatMap(([, expressions]) => expressions)];
    found = {
      program: new TableProgram(system, further),
      freedom: freedom.map(([signal, expressions]) => [signal, expressions.length]),
    };
    programs.set(system, found);
  }
  return found;
}

/** Table of one expression over signals whose tables are known. */
export function expressionTable(expression: Expression, signals: readonly Table[], inputs: number): Table {
  const of = (e: Expression): Table => expressionTable(e, signals, inputs);
  const fold = (args: readonly Expression[], combine: (a: Table, b: Table) => Table): Table => {
    let result = of(args[0]);
    for (let i = 1; i < args.length; i++) result = combine(result, of(args[i]));
    return result;
  };
  const complement = (a: Table): Table => not(a, inputs);
  switch (expression.kind) {
    case 'constant':
      return constantTable(inputs, expression.value);
    case 'signal':
      return signals[expression.signal];
    case 'not':
      return complement(of(expression.argument));
    case 'and':
      return fold(expression.args, and);
    case 'or':
      return fold(expression.args, or);
    case 'nand':
      return complement(fold(expression.args, and));
    case 'nor':
      return complement(fold(expression.args, or));
    case 'xor':
      return fold(expression.args, xor);
    case 'xnor':
      return complement(fold(expression.args, xor));
    case 'implies':
      return or(complement(of(expression.left)), of(expression.right));
    case 'equals':
      return complement(xor(of(expression.left), of(expression.right)));
    case 'mux': {
      const select = of(expression.select);
      return or(and(complement(select), of(expression.when0)), and(select, of(expression.when1)));
    }
    case 'maj': {
      const [a, b, c] = expression.args.map(of);
      return or(and(a, b), and(c, or(a, b)));
    }
  }
}
