// Spells out what a text says in short: loops become their statements, once for each number, and `a[7:0]` becomes eight
// names. The statements are counted before the first is made, so that a slip such as 0..10^12 is refused at once; the
// count is exact, and costs no more steps than there may be statements. Texts without either pass unchanged.
//
// A fault inside a loop would come back in every pass; the caller shows one for each place.

import { indexValue } from '../../grammar/bit-names.ts';
import { INDEX_LIMIT } from '../../grammar/operators.ts';
import { quote } from '../../grammar/quote.ts';
import { bareStatement } from '../../grammar/read-statement.ts';
import type {
  Definition,
  IndexForm,
  Loop,
  Node,
  ParsedText,
  Place,
  PlainStatement,
  Side,
  Statement,
  WrittenName,
} from '../../grammar/syntax.ts';
import type { Diagnostic } from '../source/diagnostic.ts';
import { unknownIndices } from './loop-variables.ts';
import type { FlatName, FlatStatement } from './statements.ts';

/** Loops make at most this many statements in all, and a text declares at most this many bits. */
export const STATEMENT_LIMIT = 200_000;

/** Faults are added to `diagnostics`. `text` is shown where a loop is missing. */
export function unrollLoops(parsed: ParsedText, text: string, diagnostics: Diagnostic[]): FlatStatement[] {
  const { statements, indexed } = parsed;
  if (!indexed && statements.every((statement) => statement.kind !== 'loop')) {
    return statements as readonly PlainStatement[] as FlatStatement[];
  }
  const unknown = unknownIndices(statements, text, diagnostics);
  const unroller = new Unroller(unknown, diagnostics);
  const loop = unroller.tooMany(statements);
  if (loop !== null) {
    diagnostics.push(tooManyFault(loop.variableAt));
    return [];
  }
  for (const statement of statements) unroller.unroll(statement);
  return unroller.flat;
}

class Unroller {
  readonly flat: FlatStatement[] = [];
  private readonly values = new Map<string, number>();
  private readonly unknown: ReadonlySet<Statement>;
  private readonly diagnostics: Diagnostic[];
  private bits = 0;

  constructor(unknown: ReadonlySet<Statement>, diagnostics: Diagnostic[]) {
    this.unknown = unknown;
    this.diagnostics = diagnostics;
  }

  /** The loop with which the statements become too many; null when all is well. */
  tooMany(statements: readonly Statement[]): Loop | null {
    let total = 0;
    for (const statement of statements) {
      if (statement.kind !== 'loop') continue;
      total += this.count(statement, STATEMENT_LIMIT - total);
      if (total > STATEMENT_LIMIT) return statement;
    }
    return null;
  }

  unroll(statement: Statement): void {
    if (statement.kind !== 'loop') {
      if (this.unknown.has(statement)) this.flat.push(bareStatement(statement) as FlatStatement);
      else this.flat.push(this.settled(statement));
      return;
    }
    if (this.unknown.has(statement)) {
      this.bareBody(statement);
      return;
    }
    const from = this.end(statement.from);
    const to = this.end(statement.to);
    if (from === null || to === null) return;
    if (from > to && this.values.size === 0) this.diagnostics.push(emptyWarning(statement, from, to));
    for (let value = from; value <= to; value++) {
      this.values.set(statement.variable, value);
      for (const inner of statement.body) this.unroll(inner);
    }
    this.values.delete(statement.variable);
  }

  /** Passes and statements of a loop; stops counting beyond `most`. */
  private count(loop: Loop, most: number): number {
    if (this.unknown.has(loop)) return 0;
    const from = indexValue(loop.from, '', this.numberOf);
    const to = indexValue(loop.to, '', this.numberOf);
    if (typeof from !== 'number' || typeof to !== 'number' || to < from) return 0;
    const inner = loop.body.filter((statement) => statement.kind === 'loop');
    if (inner.length === 0) return (to - from + 1) * Math.max(1, loop.body.length);
    let total = 0;
    for (let value = from; value <= to && total <= most; value++) {
      this.values.set(loop.variable, value);
      total += Math.max(1, loop.body.length - inner.length);
      for (const nested of inner) {
        if (total <= most) total += this.count(nested, most - total);
      }
    }
    this.values.delete(loop.variable);
    return total;
  }

  private readonly numberOf = (variable: string): number => this.values.get(variable)!;

  private number(form: IndexForm, shown: string): number | null {
    const value = indexValue(form, shown, this.numberOf);
    if (typeof value === 'number') return value;
    this.diagnostics.push(value);
    return null;
  }

  /** One end of a loop. */
  private end(form: IndexForm): number | null {
    const value = indexValue(form, 'for', this.numberOf);
    if (typeof value === 'number') return value;
    this.diagnostics.push({
      ...value,
      code: 'loop-range',
      message: `a loop counts whole numbers from -${INDEX_LIMIT} to ${INDEX_LIMIT}, and this is none of them`,
      hint: 'let it run over fewer numbers',
    });
    return null;
  }

  private settled(statement: PlainStatement): FlatStatement {
    switch (statement.kind) {
      case 'input':
      case 'output':
        return { ...statement, names: statement.names.flatMap((name) => this.bitsOf(name)) };
      case 'never':
        return { ...statement, expression: this.settledNode(statement.expression) };
      case 'free':
        return {
          ...statement,
          ...this.settledName(statement),
          expression: this.settledNode(statement.expression),
        };
      case 'definition':
        return this.settledDefinition(statement);
    }
  }

  private settledDefinition(statement: Definition): Definition {
    return {
      ...statement,
      ...this.settledName(statement),
      list: statement.list?.flatMap((name) => this.bitsOf(name)) ?? null,
      sides: statement.sides.map(
        (side): Side => ({ ...side, expression: this.settledNode(side.expression) }),
      ),
    };
  }

  private bareBody({ body }: Loop): void {
    for (const statement of body) {
      if (statement.kind === 'loop') this.bareBody(statement);
      else this.flat.push(bareStatement(statement) as FlatStatement);
    }
  }

  private settledName({ name, first }: WrittenName): WrittenName {
    if (first === null) return { name, first: null, last: null };
    const value = this.number(first, name);
    return { name: `${name}[${value ?? 0}]`, first: null, last: null };
  }

  private settledNode<N extends Node | null>(node: N): N;
  private settledNode(node: Node | null): Node | null {
    if (node === null || node.kind === 'constant') return node;
    switch (node.kind) {
      case 'name': {
        if (node.index === undefined) return node;
        const { name, index: first, start, end } = node;
        return { kind: 'name', name: this.settledName({ name, first, last: null }).name, start, end };
      }
      case 'not':
        return { ...node, argument: this.settledNode(node.argument) };
      case 'infix':
      case 'call':
        return { ...node, args: node.args.map((argument) => this.settledNode(argument)) };
    }
  }

  /** Every signal of a name with a range, in the order in which the range is written. */
  private bitsOf<N extends WrittenName & Place>(declared: N): (N & FlatName)[] {
    const attributes = { rail: null, tick: null, ...declared };
    const { name, first, last } = declared;
    if (first === null || last === null) return [{ ...attributes, ...this.settledName(declared) }];
    const from = this.number(first, name);
    const to = this.number(last, name);
    if (from === null || to === null) return [];
    const count = Math.abs(to - from) + 1;
    this.bits += count;
    if (this.bits > STATEMENT_LIMIT) {
      this.bits -= count;
      this.diagnostics.push(tooWideFault(declared, count));
      return [{ ...attributes, first: null, last: null, unsure: true }];
    }
    const step = to < from ? -1 : 1;
    return Array.from({ length: count }, (_, index) => ({
      ...attributes,
      name: `${name}[${from + step * index}]`,
      first: null,
      last: null,
      range: [from, to],
    }));
  }
}

function tooManyFault(at: Place): Diagnostic {
  return {
    severity: 'error',
    code: 'too-many-statements',
    message: `with this loop the text has more than ${STATEMENT_LIMIT} statements`,
    at,
    hint: 'let it run over fewer numbers',
  };
}

function tooWideFault(declared: WrittenName & Place, count: number): Diagnostic {
  return {
    severity: 'error',
    code: 'too-many-statements',
    message: `${quote(declared.name)} has ${count} bits here; a text may declare at most ${STATEMENT_LIMIT}`,
    at: { start: declared.start, end: declared.end },
    hint: 'write a smaller range',
  };
}

function emptyWarning(loop: Loop, from: number, to: number): Diagnostic {
  return {
    severity: 'warning',
    code: 'empty-loop',
    message: `this loop runs over nothing: it counts upwards, and ${from} is more than ${to}`,
    at: loop.variableAt,
    hint: `write "for ${loop.variable} in ${to}..${from}" if that is meant`,
  };
}
