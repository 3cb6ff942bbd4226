// Structural netlists of primitive gates in the language of IEEE 1364: its tokens and its shape, no meaning. What is
// read: one module with scalar or ranged ports, in the old or the new style of heading; `wire`, `tri`, `wor` and `wand`
// declarations; the gates and, nand, or, nor, xor, xnor, not, buf with or without delay and name; `assign` of a single
// bit; comments, directives and attributes. Whatever else the language has is refused by name.

import { quote } from './quote.ts';
import type { Place } from './syntax.ts';

export const GATE_KINDS = ['and', 'nand', 'or', 'nor', 'xor', 'xnor', 'not', 'buf'] as const;
export type GateKind = (typeof GATE_KINDS)[number];
export type NetKind = 'wire' | 'wor' | 'wand';

/** A bit: a name with its index as part of it (`n[3]`), or a constant. */
export interface NetlistBit extends Place {
  readonly name: string;
  readonly constant: 0 | 1 | null;
}

export interface NetlistGate extends Place {
  readonly kind: GateKind;
  readonly output: NetlistBit;
  readonly inputs: readonly NetlistBit[];
}

export interface NetlistName extends Place {
  readonly name: string;
  /** Attributes that stand before the declaration, texts without their quotes. */
  readonly attributes: ReadonlyMap<string, string>;
}

export interface Netlist {
  readonly module: string;
  readonly inputs: readonly NetlistName[];
  readonly outputs: readonly NetlistName[];
  /** Nets that join what drives them. */
  readonly joined: ReadonlyMap<string, 'wor' | 'wand'>;
  readonly declared: ReadonlySet<string>;
  readonly gates: readonly NetlistGate[];
}

export interface NetlistFault {
  readonly code: string;
  readonly message: string;
  readonly hint: string | null;
  readonly at: Place;
}

export interface ReadNetlist {
  /** Null when there are faults. */
  readonly netlist: Netlist | null;
  readonly faults: readonly NetlistFault[];
}

type TokenKind = 'name' | 'escaped' | 'number' | 'string' | 'sign' | 'end';

interface Token extends Place {
  readonly kind: TokenKind;
  readonly text: string;
}

/** Leaves the reader at the first fault; never leaves this file. */
class Stop extends Error {
  readonly fault: NetlistFault;

  constructor(code: string, message: string, hint: string | null, at: Place) {
    super(message);
    this.fault = { code, message, hint, at };
  }
}

const SKIPPED = /(?:\s+|\/\/[^\n]*|\/\*[\s\S]*?\*\/|`[^\n]*)+/y;
const TOKEN =
  /([A-Za-z_$][\w$]*)|\\([!-~]+)(?=\s|$)|(\d*\s*'\s*[sS]?[bodhBODH]\s*[\w?]+|\d[\d_.]*)|("(?:[^"\\\n]|\\.)*")|(\(\*|\*\)|[()[\]{},;:#=.@*~&|^?+<>!%/$-])/y;
const WIDEST = 4096;

function tokensOf(text: string): Token[] {
  const tokens: Token[] = [];
  let at = 0;
  for (;;) {
    SKIPPED.lastIndex = at;
    if (SKIPPED.test(text)) at = SKIPPED.lastIndex;
    if (at >= text.length) break;
    if (text.startsWith('/*', at)) {
      const place = { start: at, end: at + 2 };
      throw new Stop('netlist-character', 'this comment is never closed', 'close it with */', place);
    }
    TOKEN.lastIndex = at;
    const match = TOKEN.exec(text);
    if (match === null) {
      const character = String.fromCodePoint(text.codePointAt(at) ?? 0);
      throw new Stop('netlist-character', `${quote(character)} cannot stand here`, null, {
        start: at,
        end: at + character.length,
      });
    }
    const [whole, name, escaped, number, string] = match;
    const kind: TokenKind =
      name !== undefined
        ? 'name'
        : escaped !== undefined
          ? 'escaped'
          : number !== undefined
            ? 'number'
            : string !== undefined
              ? 'string'
              : 'sign';
    // `(*)` is no attribute.
    tokens.push({ kind, text: name ?? escaped ?? whole, start: at, end: at + whole.length });
    at += whole.length;
  }
  tokens.push({ kind: 'end', text: '', start: text.length, end: text.length });
  return tokens;
}

class Reader {
  private at = 0;
  private readonly tokens: readonly Token[];
  private readonly inputs: NetlistName[] = [];
  private readonly outputs: NetlistName[] = [];
  private readonly joined = new Map<string, 'wor' | 'wand'>();
  private readonly declared = new Set<string>();
  private readonly gates: NetlistGate[] = [];
  private heading: string[] = [];

  constructor(tokens: readonly Token[]) {
    this.tokens = tokens;
  }

  private get next(): Token {
    return this.tokens[this.at];
  }

  private is(text: string): boolean {
    return this.next.text === text && (this.next.kind === 'sign' || this.next.kind === 'name');
  }

  private take(text: string): boolean {
    if (!this.is(text)) return false;
    this.at++;
    return true;
  }

  private expect(text: string, where: string): Token {
    if (!this.is(text)) {
      const found = this.next.kind === 'end' ? 'the end of the text' : quote(this.next.text);
      throw new Stop('netlist-shape', `${where} wants "${text}", not ${found}`, null, this.next);
    }
    return this.tokens[this.at++];
  }

  private identifier(what: string): Token {
    const { kind, text } = this.next;
    if (kind !== 'name' && kind !== 'escaped') {
      const found = kind === 'end' ? 'the text ends' : `${quote(text)} stands here`;
      throw new Stop('netlist-name', `${what} is missing: ${found}`, null, this.next);
    }
    return this.tokens[this.at++];
  }

  private attributes(): Map<string, string> {
    const found = new Map<string, string>();
    while (this.take('(*')) {
      do {
        const { text } = this.identifier('the name of an attribute');
        let value = '1';
        if (this.take('=')) {
          const token = this.tokens[this.at++];
          value = token.kind === 'string' ? token.text.slice(1, -1).replace(/\\(.)/g, '$1') : token.text;
        }
        found.set(text, value);
      } while (this.take(','));
      this.expect('*)', 'an attribute');
    }
    return found;
  }

  private whole(what: string): number {
    const { kind, text } = this.next;
    if (kind !== 'number' || !/^\d+$/.test(text))
      throw new Stop('netlist-number', `${what} is a whole number`, null, this.next);
    this.at++;
    return Number(text);
  }

  /** `[3:0]`, as the indices from first to last; null where there is none. */
  private range(): number[] | null {
    const { start } = this.next;
    if (!this.take('[')) return null;
    const from = this.whole('the end of a range');
    this.expect(':', 'a range');
    const to = this.whole('the end of a range');
    const { end } = this.expect(']', 'a range');
    const width = Math.abs(from - to) + 1;
    if (width > WIDEST)
      throw new Stop('netlist-range', `a range of ${width} bits is too wide`, null, { start, end });
    return Array.from({ length: width }, (_, n) => (from <= to ? from + n : from - n));
  }

  private declare(
    kind: 'input' | 'output' | NetKind,
    attributes: Map<string, string>,
    inHeading = false,
  ): void {
    let net = kind;
    for (const word of ['wire', 'tri', 'wor', 'wand', 'signed'])
      if (this.take(word) && (word === 'wor' || word === 'wand')) net = word;
    const range = this.range();
    do {
      if (inHeading && this.startsDeclaration()) return;
      const name = this.identifier('the name of a net');
      const { start, end } = name;
      const bits = range === null ? [name.text] : range.map((index) => `${name.text}[${index}]`);
      for (const bit of bits) {
        this.declared.add(bit);
        if (net === 'wor' || net === 'wand') this.joined.set(bit, net);
        const entry = { name: bit, attributes, start, end };
        if (kind === 'input') this.inputs.push(entry);
        if (kind === 'output') this.outputs.push(entry);
      }
      if (this.is('='))
        throw new Stop(
          'netlist-value',
          'a declaration cannot give a value here',
          'write an assign or a gate',
          this.next,
        );
    } while (this.take(','));
  }

  private startsDeclaration(): boolean {
    return this.is('input') || this.is('output') || this.is('inout') || this.is('(*');
  }

  private ports(): void {
    if (!this.take('(')) return;
    if (this.take(')')) return;
    if (this.startsDeclaration()) {
      while (!this.take(')')) {
        const attributes = this.attributes();
        const kind = this.is('input') ? 'input' : 'output';
        if (!this.take('input')) this.expect('output', 'a port');
        this.declare(kind, attributes, true);
      }
      return;
    }
    do this.heading.push(this.identifier('the name of a port').text);
    while (this.take(','));
    this.expect(')', 'the list of ports');
  }

  private bit(): NetlistBit {
    const { kind, text, start, end } = this.next;
    if (kind === 'number') {
      const value = /^1?'[bdhoBDHO]([01])$/.exec(text.replace(/\s/g, ''))?.[1];
      if (value === undefined)
        throw new Stop('netlist-number', `${quote(text)} is not a level`, "write 1'b0 or 1'b1", this.next);
      this.at++;
      return { name: text, constant: value === '1' ? 1 : 0, start, end };
    }
    const name = this.identifier('a net');
    if (!this.take('[')) return { name: name.text, constant: null, start, end: name.end };
    const index = this.whole('an index');
    const close = this.expect(']', 'an index');
    return { name: `${name.text}[${index}]`, constant: null, start, end: close.end };
  }

  private delay(): void {
    if (!this.take('#')) return;
    if (!this.take('(')) {
      this.at++;
      return;
    }
    while (!this.take(')')) {
      if (this.next.kind === 'end')
        throw new Stop('netlist-shape', 'this delay is never closed', null, this.next);
      this.at++;
    }
  }

  private instances(kind: GateKind): void {
    this.delay();
    do {
      const { start } = this.next;
      if (this.next.kind === 'name' || this.next.kind === 'escaped') {
        this.at++;
        this.range();
      }
      this.expect('(', `a gate ${kind}`);
      const bits = [this.bit()];
      while (this.take(',')) bits.push(this.bit());
      const { end } = this.expect(')', `a gate ${kind}`);
      if (bits.length < 2)
        throw new Stop('netlist-gate', `this ${kind} has no input`, 'its output stands first', {
          start,
          end,
        });
      if ((kind === 'not' || kind === 'buf') && bits.length > 2) {
        // Several outputs, the input last.
        const input = bits[bits.length - 1];
        for (const output of bits.slice(0, -1))
          this.gates.push({ kind, output, inputs: [input], start, end });
      } else this.gates.push({ kind, output: bits[0], inputs: bits.slice(1), start, end });
    } while (this.take(','));
    this.expect(';', `a gate ${kind}`);
  }

  private assign(): void {
    this.delay();
    do {
      const { start } = this.next;
      const output = this.bit();
      this.expect('=', 'an assign');
      const kind: GateKind = this.take('~') ? 'not' : 'buf';
      const input = this.bit();
      if (!this.is(',') && !this.is(';'))
        throw new Stop(
          'netlist-assign',
          'only a single net or its complement can be assigned',
          'write the gates',
          this.next,
        );
      this.gates.push({ kind, output, inputs: [input], start, end: input.end });
    } while (this.take(','));
    this.expect(';', 'an assign');
  }

  private item(): void {
    const attributes = this.attributes();
    const { kind, text } = this.next;
    const gate = GATE_KINDS.find((name) => this.is(name));
    const net = (['input', 'output', 'wire', 'tri', 'wor', 'wand'] as const).find((name) => this.is(name));
    if (gate !== undefined) {
      this.at++;
      this.instances(gate);
    } else if (net !== undefined) {
      this.at++;
      this.declare(net === 'tri' ? 'wire' : net, attributes);
      this.expect(';', 'a declaration');
    } else if (this.take('assign')) this.assign();
    else if (kind === 'end')
      throw new Stop('netlist-shape', 'the module is never closed', 'write endmodule at its end', this.next);
    else {
      const hint = `only gates of ${GATE_KINDS.join(', ')}, nets and assigns of one net can be read`;
      throw new Stop('netlist-item', `${quote(text)} cannot be read here`, hint, this.next);
    }
  }

  read(): Netlist {
    this.attributes();
    this.expect('module', 'a netlist');
    const module = this.identifier('the name of the module').text;
    this.ports();
    this.expect(';', 'the heading of a module');
    while (!this.take('endmodule')) this.item();
    // The bench that comes with an exported module may stand behind it.
    const isBench = this.is('module') && this.tokens[this.at + 1]?.text === 'bench';
    if (this.next.kind !== 'end' && !isBench)
      throw new Stop(
        'netlist-modules',
        'there is more than one module',
        'put the network into one module',
        this.next,
      );
    const place = new Map(this.heading.map((name, at) => [name, at]));
    const order = (list: NetlistName[]): NetlistName[] =>
      this.heading.length === 0
        ? list
        : [...list].sort(
            (a, b) =>
              (place.get(a.name.replace(/\[\d+\]$/, '')) ?? place.get(a.name) ?? 0) -
              (place.get(b.name.replace(/\[\d+\]$/, '')) ?? place.get(b.name) ?? 0),
          );
    return {
      module,
      inputs: order(this.inputs),
      outputs: order(this.outputs),
      joined: this.joined,
      declared: this.declared,
      gates: this.gates,
    };
  }
}

/** Reads one module of gates. */
export function readNetlist(text: string): ReadNetlist {
  try {
    return { netlist: new Reader(tokensOf(text)).read(), faults: [] };
  } catch (error) {
    if (error instanceof Stop) return { netlist: null, faults: [error.fault] };
    throw error;
  }
}
