// Reads and runs test benches of IEEE 1364: one module of gates and one bench of the plain kind, written from the
// standard and apart from the printer and the importer of the program. Values are whole numbers of so many bits, or
// null where a net has no level yet. Gates and continuous assignments are put in order once; at every delay all of them
// are worked out, which is what an event-driven simulation comes to when the delay is longer than the longest path.

type Value = bigint | null;

interface Scope {
  readonly values: Map<string, Value>;
  readonly widths: Map<string, number>;
}

type Eval = (scope: Scope) => Value;

interface Expr {
  readonly run: Eval;
  /** Nets that it reads. */
  readonly reads: readonly string[];
  readonly width: number;
}

interface Driven {
  readonly target: string;
  readonly expr: Expr;
}

interface Instance {
  readonly module: string;
  readonly connections: readonly {
    readonly port: string;
    readonly expr: Expr;
    readonly net: string | null;
  }[];
}

type Statement = (scope: Scope, machine: Machine) => void;

interface Module {
  readonly ports: string[];
  readonly inputs: Set<string>;
  readonly widths: Map<string, number>;
  readonly driven: Driven[];
  readonly instances: Instance[];
  readonly initial: Statement[];
}

export interface BenchRun {
  /** What the bench printed, line by line. */
  readonly lines: readonly string[];
  readonly finished: boolean;
  /** Gates by kind, in the modules that the bench drives. */
  readonly gates: Readonly<Record<string, number>>;
}

class Finish extends Error {}

class Machine {
  readonly lines: string[] = [];
  private readonly order: readonly Driven[];

  constructor(order: readonly Driven[]) {
    this.order = order;
  }

  settle(scope: Scope): void {
    for (const { target, expr } of this.order)
      scope.values.set(target, cut(expr.run(scope), scope.widths.get(target) ?? 1));
  }
}

const cut = (value: Value, width: number): Value => (value === null ? null : BigInt.asUintN(width, value));

const LEXEME =
  /\s+|\/\/.*|\/\*[\s\S]*?\*\/|(\\[!-~]+(?=\s)|[A-Za-z_$][\w$]*)|(\d*'[bdh][0-9a-fA-F]+|\d+)|("(?:[^"\\]|\\.)*")|(===|!==|==|!=|<=|>=|<|>|&&|\|\||\(\*|\*\)|[-+?:;,.#=~&|^!(){}[\]])/y;

interface Lexeme {
  readonly kind: 'id' | 'num' | 'str' | 'op' | 'eof';
  readonly text: string;
}

function scan(source: string): Lexeme[] {
  const found: Lexeme[] = [];
  LEXEME.lastIndex = 0;
  while (LEXEME.lastIndex < source.length) {
    const from = LEXEME.lastIndex;
    const match = LEXEME.exec(source);
    if (match === null) throw new Error(`not a lexeme: ${JSON.stringify(source.slice(from, from + 30))}`);
    const [, id, num, str, op] = match;
    // An escaped identifier is the same as the plain one of the same characters.
    if (id !== undefined) found.push({ kind: 'id', text: id.startsWith('\\') ? `\\${id.slice(1)}` : id });
    else if (num !== undefined) found.push({ kind: 'num', text: num });
    else if (str !== undefined) found.push({ kind: 'str', text: str.slice(1, -1).replace(/\\(.)/g, '$1') });
    else if (op !== undefined) found.push({ kind: 'op', text: op });
  }
  found.push({ kind: 'eof', text: '' });
  return found;
}

const GATES: Readonly<Record<string, (inputs: readonly Value[]) => Value>> = {
  or: (inputs) => anyOne(inputs),
  nor: (inputs) => flip(anyOne(inputs)),
  and: (inputs) => flip(anyOne(inputs.map(flip))),
  nand: (inputs) => anyOne(inputs.map(flip)),
  not: ([input]) => flip(input),
};

function flip(value: Value): Value {
  return value === null ? null : value === 0n ? 1n : 0n;
}

function anyOne(values: readonly Value[]): Value {
  if (values.includes(1n)) return 1n;
  return values.includes(null) ? null : 0n;
}

const name = (text: string): string => (text.startsWith('\\') ? text.slice(1) : text);

class Parser {
  private at = 0;
  private readonly lexemes: readonly Lexeme[];
  readonly gates: Record<string, number> = {};

  constructor(source: string) {
    this.lexemes = scan(source);
  }

  private get here(): Lexeme {
    return this.lexemes[this.at];
  }

  private peek(text: string): boolean {
    return this.here.text === text && this.here.kind !== 'str' && !this.here.text.startsWith('\\');
  }

  private eat(text: string): boolean {
    if (!this.peek(text)) return false;
    this.at++;
    return true;
  }

  private need(text: string): void {
    if (!this.eat(text)) throw new Error(`wanted ${text}, found ${this.here.text}`);
  }

  private id(): string {
    if (this.here.kind !== 'id') throw new Error(`wanted a name, found ${this.here.text}`);
    return name(this.lexemes[this.at++].text);
  }

  modules(): Map<string, Module> {
    const found = new Map<string, Module>();
    while (this.here.kind !== 'eof') {
      this.need('module');
      found.set(this.id(), this.module());
    }
    return found;
  }

  private skipAttribute(): void {
    if (!this.eat('(*')) return;
    while (!this.eat('*)')) this.at++;
  }

  private module(): Module {
    const module: Module = {
      ports: [],
      inputs: new Set(),
      widths: new Map(),
      driven: [],
      instances: [],
      initial: [],
    };
    if (this.eat('(')) {
      while (!this.eat(')')) {
        module.ports.push(this.id());
        this.eat(',');
      }
    }
    this.need(';');
    while (!this.eat('endmodule')) this.item(module);
    return module;
  }

  private item(module: Module): void {
    this.skipAttribute();
    const kind = this.here.text;
    if (kind === 'initial') {
      this.at++;
      module.initial.push(this.statement(module));
    } else if (['input', 'output', 'wire', 'reg', 'integer'].includes(kind)) {
      this.at++;
      let width = kind === 'integer' ? 32 : 1;
      if (this.eat('[')) {
        width = Number(this.lexemes[this.at++].text) + 1;
        this.need(':');
        this.need('0');
        this.need(']');
      }
      do {
        const target = this.id();
        module.widths.set(target, width);
        if (kind === 'input') module.inputs.add(target);
        if (this.eat('=')) module.driven.push({ target, expr: this.expression(module) });
      } while (this.eat(','));
      this.need(';');
    } else if (kind in GATES) {
      this.at++;
      this.gates[kind] = (this.gates[kind] ?? 0) + 1;
      if (this.eat('#')) this.at++;
      this.need('(');
      const target = this.id();
      const inputs: Expr[] = [];
      while (this.eat(',')) inputs.push(this.expression(module));
      this.need(')');
      this.need(';');
      const gate = GATES[kind];
      const run: Eval = (scope) => gate(inputs.map((input) => input.run(scope)));
      module.driven.push({ target, expr: { run, reads: inputs.flatMap(({ reads }) => reads), width: 1 } });
    } else {
      const type = this.id();
      this.id();
      this.need('(');
      const connections: Instance['connections'][number][] = [];
      do {
        this.need('.');
        const port = this.id();
        this.need('(');
        const net = this.here.kind === 'id' ? name(this.here.text) : null;
        connections.push({ port, expr: this.expression(module), net });
        this.need(')');
      } while (this.eat(','));
      this.need(')');
      this.need(';');
      module.instances.push({ module: type, connections });
    }
  }

  private statement(module: Module): Statement {
    if (this.eat('begin')) {
      const inside: Statement[] = [];
      while (!this.eat('end')) inside.push(this.statement(module));
      return (scope, machine) => {
        for (const one of inside) one(scope, machine);
      };
    }
    if (this.eat('#')) {
      this.at++;
      this.need(';');
      return (scope, machine) => machine.settle(scope);
    }
    if (this.eat('if')) {
      this.need('(');
      const test = this.expression(module);
      this.need(')');
      const yes = this.statement(module);
      const no = this.eat('else') ? this.statement(module) : null;
      return (scope, machine) => {
        const value = test.run(scope);
        if (value !== null && value !== 0n) yes(scope, machine);
        else no?.(scope, machine);
      };
    }
    if (this.eat('for')) {
      this.need('(');
      const first = this.assignment(module);
      this.need(';');
      const test = this.expression(module);
      this.need(';');
      const step = this.assignment(module);
      this.need(')');
      const body = this.statement(module);
      return (scope, machine) => {
        for (first(scope, machine); test.run(scope) === 1n; step(scope, machine)) body(scope, machine);
      };
    }
    if (this.eat('$finish')) {
      this.need(';');
      return () => {
        throw new Finish();
      };
    }
    if (this.eat('$display')) {
      this.need('(');
      const format = this.lexemes[this.at++].text;
      const args: Expr[] = [];
      while (this.eat(',')) args.push(this.expression(module));
      this.need(')');
      this.need(';');
      return (scope, machine) => machine.lines.push(formatted(format, args, scope));
    }
    const assign = this.assignment(module);
    this.need(';');
    return assign;
  }

  private assignment(module: Module): Statement {
    const target = this.id();
    this.need('=');
    const expr = this.expression(module);
    const width = module.widths.get(target);
    if (width === undefined) throw new Error(`${target} is not declared`);
    return (scope) => {
      scope.values.set(target, cut(expr.run(scope), width));
    };
  }

  expression(module: Module): Expr {
    const test = this.binary(module, 0);
    if (!this.eat('?')) return test;
    const yes = this.expression(module);
    this.need(':');
    const no = this.expression(module);
    return {
      run: (scope) => {
        const value = test.run(scope);
        return value === null ? null : value !== 0n ? yes.run(scope) : no.run(scope);
      },
      reads: [...test.reads, ...yes.reads, ...no.reads],
      width: Math.max(yes.width, no.width),
    };
  }

  private binary(module: Module, level: number): Expr {
    const LEVELS: readonly (readonly string[])[] = [
      ['|'],
      ['^'],
      ['&'],
      ['==', '!=', '===', '!=='],
      ['<', '<=', '>', '>='],
      ['+', '-'],
    ];
    if (level === LEVELS.length) return this.unary(module);
    let left = this.binary(module, level + 1);
    for (;;) {
      const sign = LEVELS[level].find((text) => this.peek(text));
      if (sign === undefined) return left;
      this.at++;
      left = combined(sign, left, this.binary(module, level + 1));
    }
  }

  private unary(module: Module): Expr {
    if (this.eat('~')) {
      const inner = this.unary(module);
      const mask = (1n << BigInt(inner.width)) - 1n;
      return {
        ...inner,
        run: (scope) => {
          const value = inner.run(scope);
          return value === null ? null : value ^ mask;
        },
      };
    }
    if (this.eat('(')) {
      const inner = this.expression(module);
      this.need(')');
      return inner;
    }
    if (this.eat('{')) {
      const parts = [this.expression(module)];
      while (this.eat(',')) parts.push(this.expression(module));
      this.need('}');
      return {
        reads: parts.flatMap(({ reads }) => reads),
        width: parts.reduce((sum, { width }) => sum + width, 0),
        run: (scope) => {
          let sum: Value = 0n;
          for (const { run, width } of parts) {
            const value = run(scope);
            sum = sum === null || value === null ? null : (sum << BigInt(width)) | value;
          }
          return sum;
        },
      };
    }
    if (this.here.kind === 'num') return literalOf(this.lexemes[this.at++].text);
    return this.reference(module);
  }

  private reference(module: Module): Expr {
    const net = this.id();
    const width = module.widths.get(net);
    if (width === undefined) throw new Error(`${net} is not declared`);
    const whole: Eval = (scope) => scope.values.get(net) ?? null;
    if (!this.eat('[')) return { run: whole, reads: [net], width };
    const high = Number(this.lexemes[this.at++].text);
    const low = this.eat(':') ? Number(this.lexemes[this.at++].text) : high;
    this.need(']');
    if (high >= width || low > high) throw new Error(`${net}[${high}:${low}] is not there`);
    return {
      reads: [net],
      width: high - low + 1,
      run: (scope) => {
        const value = whole(scope);
        return value === null ? null : BigInt.asUintN(high - low + 1, value >> BigInt(low));
      },
    };
  }
}

function literalOf(text: string): Expr {
  const [, width, base, digits] = /^(?:(\d+)?'([bdh]))?(\w+)$/.exec(text) ?? [];
  const value = BigInt(base === 'b' ? `0b${digits}` : base === 'h' ? `0x${digits}` : digits);
  return { run: () => value, reads: [], width: Number(width ?? 32) };
}

function combined(sign: string, a: Expr, b: Expr): Expr {
  const bit = (value: boolean): bigint => (value ? 1n : 0n);
  const OPERATORS: Readonly<Record<string, (x: bigint, y: bigint) => bigint>> = {
    '|': (x, y) => x | y,
    '^': (x, y) => x ^ y,
    '&': (x, y) => x & y,
    '==': (x, y) => bit(x === y),
    '!=': (x, y) => bit(x !== y),
    '<': (x, y) => bit(x < y),
    '<=': (x, y) => bit(x <= y),
    '>': (x, y) => bit(x > y),
    '>=': (x, y) => bit(x >= y),
    '+': (x, y) => x + y,
    '-': (x, y) => x - y,
  };
  const isTest = /[=<>!]/.test(sign);
  return {
    reads: [...a.reads, ...b.reads],
    width: isTest ? 1 : Math.max(a.width, b.width),
    run: (scope) => {
      const [x, y] = [a.run(scope), b.run(scope)];
      // Case equality also tells apart what has no level.
      if (sign === '===' || sign === '!==') return bit((x === y) === (sign === '==='));
      return x === null || y === null ? null : OPERATORS[sign](x, y);
    },
  };
}

function formatted(format: string, args: readonly Expr[], scope: Scope): string {
  let next = 0;
  return format.replace(/%(%|0?[bd])/g, (_, code: string) => {
    if (code === '%') return '%';
    const { run, width } = args[next++];
    const value = run(scope);
    if (value === null) return 'x';
    return code.endsWith('b') ? value.toString(2).padStart(width, '0') : value.toString();
  });
}

/** Puts what drives nets in an order in which each reads only what is known; throws when there is none. */
function inOrder(driven: readonly Driven[]): Driven[] {
  const byTarget = new Map<string, Driven>();
  for (const one of driven) {
    if (byTarget.has(one.target)) throw new Error(`${one.target} is driven twice`);
    byTarget.set(one.target, one);
  }
  const state = new Map<string, 'open' | 'done'>();
  const order: Driven[] = [];
  const visit = (one: Driven): void => {
    if (state.get(one.target) === 'done') return;
    if (state.get(one.target) === 'open') throw new Error(`${one.target} depends on itself`);
    state.set(one.target, 'open');
    for (const net of one.expr.reads) {
      const before = byTarget.get(net);
      if (before !== undefined) visit(before);
    }
    state.set(one.target, 'done');
    order.push(one);
  };
  for (const one of driven) visit(one);
  return order;
}

/** Runs the module `bench` of the sources together. Throws where they are not what the standard says. */
export function runBench(...sources: readonly string[]): BenchRun {
  const modules = new Map<string, Module>();
  const gates: Record<string, number> = {};
  for (const source of sources) {
    const parser = new Parser(source);
    for (const [key, module] of parser.modules()) modules.set(key, module);
    for (const [kind, count] of Object.entries(parser.gates)) gates[kind] = (gates[kind] ?? 0) + count;
  }
  const bench = modules.get('bench');
  if (bench === undefined) throw new Error('there is no bench');
  const driven = [...bench.driven];
  const widths = new Map(bench.widths);
  bench.instances.forEach(({ module: type, connections }, n) => {
    const inner = modules.get(type);
    if (inner === undefined) throw new Error(`there is no module ${type}`);
    const inside = (net: string): string => `${n}/${net}`;
    for (const [net, width] of inner.widths) widths.set(inside(net), width);
    const moved = ({ run, reads, width }: Expr): Expr => ({
      reads: reads.map(inside),
      width,
      run: (scope) =>
        run({
          widths: scope.widths,
          values: { get: (net: string) => scope.values.get(inside(net)) } as Map<string, Value>,
        }),
    });
    for (const { target, expr } of inner.driven) driven.push({ target: inside(target), expr: moved(expr) });
    const connected = new Set(connections.map(({ port }) => port));
    for (const port of inner.ports) if (!connected.has(port)) throw new Error(`port ${port} is left open`);
    for (const { port, expr, net } of connections) {
      if (!inner.ports.includes(port)) throw new Error(`there is no port ${port}`);
      if (inner.inputs.has(port)) driven.push({ target: inside(port), expr });
      else {
        if (net === null) throw new Error(`port ${port} drives no net`);
        const run: Eval = (scope) => scope.values.get(inside(port)) ?? null;
        driven.push({ target: net, expr: { run, reads: [inside(port)], width: 1 } });
      }
    }
  });
  const machine = new Machine(inOrder(driven));
  const scope: Scope = { values: new Map(), widths };
  try {
    for (const statement of bench.initial) statement(scope, machine);
  } catch (error) {
    if (error instanceof Finish) return { lines: machine.lines, finished: true, gates };
    throw error;
  }
  return { lines: machine.lines, finished: false, gates };
}
