// The statements of a `built` block: one wire a line, what it is meant to carry, what is to be kept. They are taken from
// the same tokens as equations, so names, indices, comments and line ends are what they are there; `input` and `output`
// lines and the expressions behind `is` are read by the same reader. built.ebnf describes all of it.

import type { IToken } from 'chevrotain';
import type { StatementTokens } from './block-stack.ts';
import { quote } from './quote.ts';
import { readStatement } from './read-statement.ts';
import { splitStatements } from './split-statements.ts';
import type { DeclaredName, Node, Place, SyntaxFault } from './syntax.ts';
import * as t from './tokens.ts';
import { fault, placeOf } from './wording.ts';

/** What a line can make a wire of, in the order in which they are shown. */
export const GATE_WORDS = ['join', 'nor', 'nand', 'and', 'not', 'wire', 'separate'] as const;
export type GateWord = (typeof GATE_WORDS)[number];

export interface WrittenLeg extends Place {
  /** A name, or the constant `0` or `1`. */
  readonly name: string;
}

export type BuiltStatement =
  | {
      readonly kind: 'wire';
      readonly name: string;
      readonly nameAt: Place;
      readonly gate: GateWord;
      readonly legs: readonly WrittenLeg[];
      /** Ticks of a run, `wire(x) + 2`. */
      readonly delay: number;
      readonly at: Place;
    }
  | {
      readonly kind: 'meaning';
      readonly wire: WrittenLeg;
      readonly expression: Node;
      readonly expressionAt: Place;
      readonly low: boolean;
      /** The wire carries a piece of the signal. */
      readonly part: boolean;
      readonly at: Place;
    }
  | { readonly kind: 'keep'; readonly wires: readonly WrittenLeg[] }
  | { readonly kind: 'input' | 'output'; readonly names: readonly DeclaredName[] };

export interface BuiltStatements {
  readonly statements: readonly BuiltStatement[];
  readonly faults: readonly SyntaxFault[];
  /** Names that a faulty line would have defined: their use is no second fault. */
  readonly unsure: readonly string[];
}

const FORMS = 'join(a, b), nor(a, b), nand(a, b), and(a, b), not(a), wire(a) + 2, separate(a)';

/** Reads the inside of a block, as `cutBlocks` leaves it. Never throws for bad text. */
export function readBuiltStatements(inside: string): BuiltStatements {
  const reader = new BuiltReader();
  for (const item of splitStatements(t.tokenize(inside), false)) {
    if ('body' in item) reader.refuseLoop(item.faults, item.head === null ? null : item.head.variableAt);
    else reader.read(item);
  }
  return reader;
}

class BuiltReader implements BuiltStatements {
  readonly statements: BuiltStatement[] = [];
  readonly faults: SyntaxFault[] = [];
  readonly unsure: string[] = [];

  refuseLoop(faults: readonly SyntaxFault[], at: Place | null): void {
    this.faults.push(...faults);
    if (at === null) return;
    const hint = 'name every wire by itself; loops are for equations';
    this.faults.push(fault('built-loop', at, 'a built block has no loops', hint));
  }

  read({ tokens, faults }: StatementTokens): void {
    const [first, second] = tokens;
    if (first === undefined || faults.length > 0) {
      this.faults.push(...faults);
      if (first !== undefined) this.unsure.push(first.image);
      return;
    }
    if (first.tokenType === t.Input || first.tokenType === t.Output) this.declaration(tokens);
    else if (second?.tokenType === t.Equals) this.wire(tokens);
    else if (isWord(second, 'is')) this.meaning(tokens);
    else if (isWord(first, 'keep')) this.keep(tokens);
    else {
      const hint = `write name = ${FORMS}; or "name is signal low", "keep name", "input", "output"`;
      this.faults.push(fault('built-line', wholeOf(tokens), 'this is no line of a built block', hint));
    }
  }

  private declaration(tokens: IToken[]): void {
    const { statement, faults } = readStatement({ tokens, faults: [] });
    this.faults.push(...faults);
    if (statement === null || (statement.kind !== 'input' && statement.kind !== 'output')) return;
    this.statements.push({ kind: statement.kind, names: statement.names });
  }

  private keep(tokens: readonly IToken[]): void {
    const names = tokens.slice(1).filter((token) => token.tokenType !== t.Comma);
    const strange = names.find((token) => token.tokenType !== t.Name);
    if (names.length === 0 || strange !== undefined) {
      const at = placeOf(strange ?? tokens[0]);
      this.faults.push(fault('built-line', at, 'names of wires stand behind "keep"', 'write keep n1, n2'));
      return;
    }
    this.statements.push({ kind: 'keep', wires: names.map(legOf) });
  }

  private wire(tokens: readonly IToken[]): void {
    const [name, , word, open] = tokens;
    const at = wholeOf(tokens);
    if (name.tokenType !== t.Name) {
      const message = `${quote(name.image)} is a word of the language and cannot name a wire`;
      this.faults.push(fault('reserved-word', placeOf(name), message, 'take another name'));
      return;
    }
    const refuse = (place: Place, message: string, hint: string): void => {
      this.unsure.push(name.image);
      this.faults.push(fault('built-gate', place, message, hint));
    };
    const gate = GATE_WORDS.find((known) => known === word?.image.toLowerCase());
    if (gate === undefined || open?.image !== '(') {
      const rest = tokens.slice(2);
      const place = rest.length === 0 ? placeOf(tokens[1]) : wholeOf(rest);
      refuse(
        place,
        'a built block names every wire with what it is made of',
        `write ${name.image} = ${FORMS}`,
      );
      return;
    }
    const legs: WrittenLeg[] = [];
    let index = 4;
    for (; index < tokens.length; index += 2) {
      const leg = tokens[index];
      const isLeg = leg.tokenType === t.Name || leg.image === '0' || leg.image === '1';
      const next = tokens[index + 1];
      if (!isLeg || next?.image === '(') {
        const hint = 'give what stands there a wire of its own, and name that';
        refuse(placeOf(leg), `the legs of ${gate} are names of wires, 0 or 1`, hint);
        return;
      }
      legs.push(legOf(leg));
      if (next?.tokenType === t.Close) break;
      if (next?.tokenType !== t.Comma) {
        refuse(placeOf(next ?? leg), 'commas stand between legs', `write ${gate}(a, b)`);
        return;
      }
    }
    const behind = tokens.slice(index + 2);
    const single = gate === 'not' || gate === 'wire' || gate === 'separate';
    if (legs.length === 0 || (single && legs.length > 1)) {
      const count = single ? 'takes one wire' : 'takes one wire or more';
      refuse(at, `${gate} ${count}`, `write ${gate}(${single ? 'a' : 'a, b'})`);
      return;
    }
    const isRun = gate === 'wire' && behind.length === 2 && behind[0].image === '+';
    const delay = isRun ? ticksOf(behind[1].image) : 0;
    if (delay === null || (behind.length > 0 && !isRun)) {
      const hint = gate === 'wire' ? 'write wire(a) + 2' : 'end the line here';
      refuse(wholeOf(behind), `this cannot stand behind ${gate}(...)`, hint);
      return;
    }
    this.statements.push({
      kind: 'wire',
      name: name.image,
      nameAt: placeOf(name),
      gate,
      legs,
      delay,
      at,
    });
  }

  /** `wire is expression rail`, `wire is part of expression rail`. */
  private meaning(tokens: readonly IToken[]): void {
    const [wire] = tokens;
    let rest = tokens.slice(2);
    const part = isWord(rest[0], 'part') && isWord(rest[1], 'of') && rest.length > 2;
    if (part) rest = rest.slice(2);
    const last = rest.at(-1);
    const rail = last?.tokenType === t.RailName ? last.image.toLowerCase() : null;
    if (rail !== null) rest = rest.slice(0, -1);
    if (rail === 'either' || rail === 'both') {
      const hint = 'write high or low';
      this.faults.push(
        fault('built-rail', placeOf(last as IToken), 'a wire that stands is on one rail', hint),
      );
      return;
    }
    if (rest.length === 0 || wire.tokenType !== t.Name) {
      const hint = 'write s is sum low';
      this.faults.push(fault('built-line', wholeOf(tokens), 'a signal stands behind "is"', hint));
      return;
    }
    const equals = t.tokenOf(t.Equals, '=', tokens[1].startOffset, t.endOf(tokens[1]));
    const { statement, faults } = readStatement({ tokens: [{ ...wire }, equals, ...rest], faults: [] });
    this.faults.push(...faults);
    const side = statement?.kind === 'definition' ? statement.sides[0] : undefined;
    if (side === undefined || side.expression === null) return;
    this.statements.push({
      kind: 'meaning',
      wire: legOf(wire),
      expression: side.expression,
      expressionAt: wholeOf(rest),
      low: rail === 'low',
      part,
      at: wholeOf(tokens),
    });
  }
}

function ticksOf(image: string): number | null {
  return /^[0-9]{1,6}$/.test(image) ? Number(image) : null;
}

function isWord(token: IToken | undefined, word: string): boolean {
  return token?.tokenType === t.Name && token.image.toLowerCase() === word;
}

function legOf(token: IToken): WrittenLeg {
  return { name: token.image, ...placeOf(token) };
}

function wholeOf(tokens: readonly IToken[]): Place {
  return { start: tokens[0].startOffset, end: t.endOf(tokens[tokens.length - 1]) };
}
