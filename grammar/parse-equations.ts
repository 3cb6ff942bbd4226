// The entry to the grammar: text in, statements and faults out. It never throws for bad text, and a fault in one
// statement does not hide those of the others.

import type { LoopTokens, SplitItem, StatementTokens } from './block-stack.ts';
import { findGeneralFormulas } from './general-formula.ts';
import { FAULT_LIMIT } from './operators.ts';
import { isPasted, type PastedTokens, tokenizePasted } from './pasted.ts';
import { readProducts } from './products.ts';
import { commentWarnings, letterForOr, sentenceWarnings } from './prose.ts';
import { bareStatement, readStatement, rescue } from './read-statement.ts';
import { splitStatements } from './split-statements.ts';
import type { ParsedText, PlainStatement, Statement, SyntaxFault } from './syntax.ts';
import * as t from './tokens.ts';

const NONE: ReadonlySet<never> = new Set();

export interface ParseOptions {
  /** Read each letter with its digits as a name, so that `AB'` is `A B'`; as the line `letters` does. */
  readonly letters?: boolean;
}

/** Reads `text` to statements in the order of the text. */
export function parseEquations(text: string, options: ParseOptions = {}): ParsedText {
  const junk = junkFault(text);
  if (junk !== null) return { statements: [], faults: [junk], indexed: false };
  const pasted: PastedTokens = isPasted(text)
    ? tokenizePasted(text)
    : { tokens: t.tokenize(text), latex: false, barredPart: null, barredRuns: NONE, wholeNames: NONE };
  const items = splitStatements(pasted.tokens, pasted.latex);
  const statements = statementsIn(items);
  const general = findGeneralFormulas(statements, text);
  const ofProse = [...commentWarnings(text), ...sentenceWarnings(statements), ...letterForOr(statements)];
  const ofProducts = readProducts(
    statements.filter((statement) => !general.has(statement)),
    { ...pasted, letters: options.letters ?? false },
  );
  const reader = new Reader(general, [...ofProse, ...ofProducts]);
  return {
    statements: reader.read(items),
    faults: reader.faults,
    indexed: pasted.tokens.some((token) => token.payload !== undefined),
  };
}

class Reader {
  readonly faults: SyntaxFault[];
  private readonly general: ReadonlyMap<StatementTokens, SyntaxFault>;

  constructor(general: ReadonlyMap<StatementTokens, SyntaxFault>, faults: SyntaxFault[]) {
    this.general = general;
    this.faults = faults;
  }

  read(items: readonly SplitItem[]): Statement[] {
    const statements: Statement[] = [];
    for (const item of items) {
      if (this.faults.length > FAULT_LIMIT) break;
      if ('body' in item) statements.push(...this.readLoop(item));
      else {
        const general = this.general.get(item);
        const read =
          general === undefined ? readStatement(item) : { statement: rescue(item.tokens), faults: [general] };
        if (read.statement !== null) statements.push(read.statement);
        this.add(read.faults);
      }
    }
    return statements;
  }

  /** A loop whose head has a fault brings nothing but its faults and the names that it defines. */
  private readLoop({ head, body, faults }: LoopTokens): Statement[] {
    this.add(faults);
    const inside = this.read(body);
    return head === null ? inside.flatMap(bareStatements) : [{ kind: 'loop', ...head, body: inside }];
  }

  private add(found: readonly SyntaxFault[]): void {
    if (this.faults.length > FAULT_LIMIT) return;
    for (const fault of found) this.faults.push(fault);
    if (this.faults.length <= FAULT_LIMIT) return;
    const { at } = this.faults[FAULT_LIMIT]!;
    this.faults.length = FAULT_LIMIT;
    this.faults.push(tooManyFault(at.start));
  }
}

function bareStatements(statement: Statement): PlainStatement[] {
  return statement.kind === 'loop' ? statement.body.flatMap(bareStatements) : [bareStatement(statement)];
}

/** All statements, those in loops too. */
function statementsIn(items: readonly SplitItem[]): StatementTokens[] {
  const found: StatementTokens[] = [];
  const walk = (item: SplitItem): void => {
    if ('body' in item) item.body.forEach(walk);
    else found.push(item);
  };
  items.forEach(walk);
  return found;
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
