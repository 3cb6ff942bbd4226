// The entry to the grammar: text in, statements and faults out. It never throws for bad text, and a fault in one
// statement does not hide those of the others.

import type { IToken } from 'chevrotain';
import { explainStop } from './explain-stop.ts';
import { FAULT_LIMIT } from './operators.ts';
import { StatementParser } from './parser.ts';
import { type StatementTokens, splitStatements } from './split-statements.ts';
import type { DeclaredName, ParsedText, Statement, SyntaxFault } from './syntax.ts';
import * as t from './tokens.ts';

/** Building the parser takes some milliseconds, so it is built once, and only when something is to be read. */
let parser: StatementParser | null = null;

/** Reads `text` to statements in the order of the text. */
export function parseEquations(text: string): ParsedText {
  const junk = junkFault(text);
  if (junk !== null) return { statements: [], faults: [junk] };
  const statements: Statement[] = [];
  const faults: SyntaxFault[] = [];
  for (const split of splitStatements(t.tokenize(text))) {
    const { statement, faults: found } = readStatement(split);
    if (statement !== null) statements.push(statement);
    for (const fault of found) faults.push(fault);
    if (faults.length > FAULT_LIMIT) {
      const { at } = faults[FAULT_LIMIT]!;
      faults.length = FAULT_LIMIT;
      faults.push(tooManyFault(at.start));
      break;
    }
  }
  return { statements, faults };
}

function readStatement(split: StatementTokens): { statement: Statement | null; faults: SyntaxFault[] } {
  const { tokens, faults } = split;
  if (faults.length > 0) return { statement: rescue(tokens), faults };
  parser ??= new StatementParser(true);
  const read = parser.read(tokens);
  if (read.stop !== null) {
    return { statement: rescue(tokens), faults: [...read.faults, explainStop(tokens, read.stop)] };
  }
  if (read.faults.some((fault) => fault.severity === 'error')) {
    return { statement: rescue(tokens), faults: read.faults };
  }
  return { statement: read.value, faults: read.faults };
}

/** What can be relied on in a statement with a fault: the names it brings, so that their use is no second fault. */
function rescue(tokens: readonly IToken[]): Statement | null {
  const first = tokens[0];
  if (first === undefined) return null;
  const place = { start: first.startOffset, end: t.endOf(first) };
  if (first.tokenType === t.Never) return { kind: 'never', expression: null, at: place, whole: false };
  if (first.tokenType === t.Input || first.tokenType === t.Output) {
    const names = tokens.filter((token) => token.tokenType === t.Name).map(bareName);
    return { kind: first.tokenType === t.Input ? 'input' : 'output', names, whole: false };
  }
  const defines = first.tokenType === t.Name && tokens.some((token) => token.tokenType === t.Equals);
  if (!defines) return null;
  return { kind: 'definition', name: first.image, nameAt: place, expression: null, whole: false };
}

function bareName(token: IToken): DeclaredName {
  return { name: token.image, start: token.startOffset, end: t.endOf(token), rail: null, tick: null };
}

/** Text holds no NUL; a file that does is a program, a picture or text of two bytes a character. */
function junkFault(text: string): SyntaxFault | null {
  const start = text.indexOf('\0');
  if (start < 0) return null;
  return {
    severity: 'error',
    code: 'not-text',
    message: 'this is not a text file: it holds a character of value 0',
    at: { start, end: start + 1 },
    hint: 'give a file of equations in UTF-8',
  };
}

function tooManyFault(start: number): SyntaxFault {
  return {
    severity: 'error',
    code: 'too-many-faults',
    message: `more than ${FAULT_LIMIT} faults; the rest of the text was not read`,
    at: { start, end: start },
    hint: 'is this a file of equations?',
  };
}
