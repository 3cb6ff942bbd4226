// From the tokens of one statement to the statement. The parser reads what a definition has in its plain form, `name =
// expression`; what stands around that in the other forms is taken apart here: several right sides, left sides with
// complements and lists, tables, `free name: expression`.

import type { IToken } from 'chevrotain';
import { rangeFault, writtenName } from './bit-names.ts';
import type { StatementTokens } from './block-stack.ts';
import { explainStop } from './explain-stop.ts';
import { equalsOutside, type LeftSide, readLeftSide } from './left-side.ts';
import { DEPTH_LIMIT, STATEMENT_WORDS } from './operators.ts';
import { StatementParser } from './parser.ts';
import { numberFault } from './prose.ts';
import type { DeclaredName, Definition, Node, PlainStatement, Side, SyntaxFault } from './syntax.ts';
import { depthOf } from './syntax.ts';
import { isTable, readTable, spelledSignFault, unlistedFault } from './table.ts';
import * as t from './tokens.ts';
import { placeOf, tooDeepFault } from './wording.ts';

export interface ReadStatement {
  /** Null when not even a name can be relied on, and for the line `letters`, which is read before. */
  readonly statement: PlainStatement | null;
  readonly faults: readonly SyntaxFault[];
}

/** Building the parser takes some milliseconds, so it is built once, and only when something is to be read. */
let parser: StatementParser | null = null;

export function readStatement({ tokens, faults }: StatementTokens): ReadStatement {
  if (faults.length > 0) return { statement: rescue(tokens), faults };
  if (isLettersLine(tokens)) return { statement: null, faults };
  if (tokens[2]?.tokenType === t.Colon) return readFreedom(tokens);
  const equals = equalsOutside(tokens);
  const first = equals[0];
  if (first === undefined) return parse(tokens);
  const plain = first === 1 && tokens[0]!.tokenType === t.Name && equals.length === 1;
  if (plain && !isTable(tokens.slice(2, 5), false)) return parse(tokens);
  const left = readLeftSide(tokens.slice(0, first));
  return left === null ? parse(tokens) : readDefinition(tokens, left, equals);
}

/** The line `letters`, alone. */
export function isLettersLine(tokens: readonly IToken[]): boolean {
  return (
    tokens.length === 1 &&
    tokens[0]!.tokenType === t.Name &&
    tokens[0]!.image.toLowerCase() === STATEMENT_WORDS.letters
  );
}

/** A statement in the plain form. */
function parse(tokens: IToken[]): ReadStatement {
  const number = numberFault(tokens);
  if (number !== null && isError(number)) return { statement: rescue(tokens), faults: [number] };
  parser ??= new StatementParser(true);
  const read = parser.read(tokens);
  if (read.stop !== null) {
    return { statement: rescue(tokens), faults: [...read.faults, explainStop(tokens, read.stop)] };
  }
  const { value, faults } = read;
  if (number !== null) faults.push(number);
  if (value.kind === 'definition' && value.last !== null) faults.push(rangeFault(tokens[0]!));
  if (faults.some(isError)) return { statement: rescue(tokens), faults };
  // The tree leaves brackets at the end out.
  return {
    statement: value.kind === 'definition' ? { ...value, extent: wholeOf(tokens) } : value,
    faults,
  };
}

function readDefinition(tokens: IToken[], left: LeftSide, equals: readonly number[]): ReadStatement {
  const faults: SyntaxFault[] = [];
  const { name, inverted, list } = left;
  if (writtenName(name).last !== null) faults.push(rangeFault(name));
  const sides: Side[] = [];
  equals.forEach((at, index) => {
    const side = tokens.slice(at + 1, equals[index + 1] ?? tokens.length);
    if (isTable(side, list !== null)) {
      const table = list === null ? null : readTable(side, inverted, faults);
      if (list === null) faults.push(unlistedFault(side));
      else if (table !== null) sides.push({ expression: null, table, start: table.start, end: table.end });
      return;
    }
    const spelled = list === null ? null : spelledSignFault(side);
    if (spelled !== null) {
      faults.push(spelled);
      return;
    }
    const read = parse([name, tokens[at]!, ...side]);
    faults.push(...read.faults);
    const found = read.statement?.kind === 'definition' ? read.statement.sides[0] : undefined;
    if (found === undefined) return;
    const { expression, start, end } = found;
    sides.push({
      expression: inverted ? complement(expression!, faults) : expression,
      table: null,
      start,
      end,
    });
  });
  if (faults.some(isError))
    return { statement: { ...bareDefinition(name), extent: wholeOf(tokens) }, faults };
  const listed = list?.map((token) => ({ ...writtenName(token), ...placeOf(token) })) ?? null;
  const statement = { ...bareDefinition(name), list: listed, sides, extent: wholeOf(tokens), whole: true };
  return { statement, faults };
}

function readFreedom(tokens: IToken[]): ReadStatement {
  const name = tokens[1]!;
  const equals = { ...tokens[2]!, tokenType: t.Equals, tokenTypeIdx: t.Equals.tokenTypeIdx! };
  const { statement, faults } = parse([name, equals, ...tokens.slice(3)]);
  const expression = statement?.kind === 'definition' ? (statement.sides[0]?.expression ?? null) : null;
  const whole = expression !== null;
  return {
    statement: {
      kind: 'free',
      ...writtenName(name),
      nameAt: placeOf(name),
      expression,
      extent: wholeOf(tokens),
      whole,
    },
    faults,
  };
}

function complement(argument: Node, faults: SyntaxFault[]): Node {
  const { start, end } = argument;
  const depth = depthOf(argument);
  if (depth === DEPTH_LIMIT) faults.push(tooDeepFault(start, end));
  return { kind: 'not', argument, start, end, depth: depth + 1 };
}

/** What can be relied on in a statement with a fault: the names it brings, so that their use is no second fault. */
export function rescue(tokens: readonly IToken[]): PlainStatement | null {
  const first = tokens[0];
  if (first === undefined) return null;
  if (first.tokenType === t.Never) {
    return { kind: 'never', expression: null, at: placeOf(first), whole: false };
  }
  const extent = wholeOf(tokens);
  if (first.tokenType === t.Input || first.tokenType === t.Output) {
    const names = tokens.filter((token) => token.tokenType === t.Name).map(bareName);
    return { kind: first.tokenType === t.Input ? 'input' : 'output', names, extent, whole: false };
  }
  const equals = tokens.findIndex((token) => token.tokenType === t.Equals);
  if (equals < 0) return null;
  const name = readLeftSide(tokens.slice(0, equals))?.name ?? first;
  return name.tokenType === t.Name ? { ...bareDefinition(name), extent } : null;
}

/** What can be relied on in a statement when the indices in it cannot be worked out. */
export function bareStatement(statement: PlainStatement): PlainStatement {
  switch (statement.kind) {
    case 'input':
    case 'output':
      return { ...statement, names: [], whole: false };
    case 'definition': {
      const bare = { ...statement, first: null, last: null, list: null, sides: [], whole: false };
      return statement.first === null ? bare : { ...bare, unsure: true };
    }
    default:
      return { ...statement, expression: null, whole: false };
  }
}

function bareDefinition(name: IToken): Definition {
  return {
    kind: 'definition',
    ...writtenName(name),
    nameAt: placeOf(name),
    list: null,
    sides: [],
    extent: placeOf(name),
    whole: false,
  };
}

function bareName(token: IToken): DeclaredName {
  return { ...writtenName(token), start: token.startOffset, end: t.endOf(token), rail: null, tick: null };
}

function wholeOf(tokens: readonly IToken[]): { start: number; end: number } {
  return { start: tokens[0]!.startOffset, end: t.endOf(tokens.at(-1)!) };
}

function isError({ severity }: SyntaxFault): boolean {
  return severity === 'error';
}
