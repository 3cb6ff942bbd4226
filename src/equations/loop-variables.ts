// Every variable in an index must be counted by a loop around it. Where it is not, a formula for every bit was written
// down as books do, and the message shows the loop; or a signal was used as an index, or square brackets as a bracket.
//
// The other way round, a variable of a loop outside of all indices is a signal that happens to have its name. That is
// allowed, for there is nothing else it could be, but hardly ever meant: it gets a warning.

import { variablesOf } from '../../grammar/index-form.ts';
import { quote } from '../../grammar/quote.ts';
import type { IndexForm, IndexVariable, Node, Place, Statement } from '../../grammar/syntax.ts';
import type { Diagnostic } from '../source/diagnostic.ts';

/** A longer statement is not shown again in the message. */
const LONGEST_SHOWN = 60;

/** The statements (loops among them) that mention a variable that no loop counts; a fault for each of them. */
export function unknownIndices(
  statements: readonly Statement[],
  text: string,
  diagnostics: Diagnostic[],
): Set<Statement> {
  const unknown = new Set<Statement>();
  const scope: string[] = [];
  const check = (statement: Statement): void => {
    const variables: IndexVariable[] = [];
    forEachIndex(statement, (form) => variables.push(...variablesOf(form)));
    const missing = variables.find(({ variable }) => !scope.includes(variable));
    if (missing !== undefined) {
      unknown.add(statement);
      diagnostics.push(
        statement.kind === 'loop'
          ? endFault(missing)
          : unknownFault(missing, scope, shownOf(statement, text)),
      );
    } else if (scope.length > 0) {
      const signal = variableAsSignal(statement, scope);
      if (signal !== null) diagnostics.push(signalWarning(signal));
    }
    if (statement.kind !== 'loop') return;
    if (scope.includes(statement.variable)) {
      unknown.add(statement);
      diagnostics.push(countedTwiceFault(statement.variable, statement.variableAt));
    }
    scope.push(statement.variable);
    statement.body.forEach(check);
    scope.pop();
  };
  statements.forEach(check);
  return unknown;
}

/** Calls `visit` with every index of a statement; of a loop with its range and not with its body. */
function forEachIndex(statement: Statement, visit: (form: IndexForm) => void): void {
  const ofName = ({ first, last }: { first: IndexForm | null; last: IndexForm | null }): void => {
    if (first !== null) visit(first);
    if (last !== null) visit(last);
  };
  if (statement.kind === 'loop') {
    visit(statement.from);
    visit(statement.to);
  } else if (statement.kind === 'input' || statement.kind === 'output') statement.names.forEach(ofName);
  else if (statement.kind === 'definition' || statement.kind === 'free') ofName(statement);
  if (statement.kind === 'definition') statement.list?.forEach(ofName);
  for (const expression of expressionsOf(statement)) {
    forEachName(expression, ({ index }) => {
      if (index !== undefined) visit(index);
    });
  }
}

type NameNode = Extract<Node, { kind: 'name' }>;

function expressionsOf(statement: Statement): Node[] {
  const { kind } = statement;
  const found =
    kind === 'definition'
      ? statement.sides.map(({ expression }) => expression)
      : kind === 'free' || kind === 'never'
        ? [statement.expression]
        : [];
  return found.filter((expression) => expression !== null);
}

function forEachName(node: Node, visit: (name: NameNode) => void): void {
  if (node.kind === 'name') visit(node);
  else if (node.kind === 'not') forEachName(node.argument, visit);
  else if (node.kind === 'infix' || node.kind === 'call') {
    for (const argument of node.args) forEachName(argument, visit);
  }
}

/** The first name in the expressions of `statement` that is that of a variable around it. */
function variableAsSignal(statement: Statement, scope: readonly string[]): NameNode | null {
  let found: NameNode | null = null;
  for (const expression of expressionsOf(statement)) {
    forEachName(expression, (node) => {
      if (node.index === undefined && scope.includes(node.name)) found ??= node;
    });
  }
  return found;
}

/** The statement as it stands in the text, when it is a short line. */
function shownOf(statement: Statement, text: string): string | null {
  if (statement.kind !== 'definition') return null;
  const shown = text.slice(statement.extent.start, statement.extent.end);
  return shown.length <= LONGEST_SHOWN && !/[\n\r\u2028\u2029]/.test(shown) ? shown : null;
}

function unknownFault(
  { variable, at }: IndexVariable,
  scope: readonly string[],
  shown: string | null,
): Diagnostic {
  if (scope.length > 0) {
    return {
      severity: 'error',
      code: 'unknown-index',
      message: `${quote(variable)} in an index is counted by no loop`,
      at,
      hint: `the loops around it count ${scope.join(', ')}; another one can stand inside`,
    };
  }
  if (/^[a-z]$/.test(variable)) {
    const body = shown ?? `c[${variable}+1] = g[${variable}] + p[${variable}] c[${variable}]`;
    return {
      severity: 'error',
      code: 'general-formula',
      message: `this is a formula for every ${variable}, and no loop says which numbers that are`,
      at,
      hint: `write the loop, for ${variable} in 0..7: ${body}`,
    };
  }
  return {
    severity: 'error',
    code: 'unknown-index',
    message: `${quote(variable)} is not a number: an index is a whole number or the variable of a loop`,
    at,
    hint: 'choose by signals with mux(select, when0, when1); write a product with a group in round brackets',
  };
}

function endFault({ variable, at }: IndexVariable): Diagnostic {
  return {
    severity: 'error',
    code: 'unknown-index',
    message: `${quote(variable)} is not a number: the ends of a loop are whole numbers`,
    at,
    hint: 'write the numbers, as in "for i in 0..7: ..."; inside of another loop its variable will do too',
  };
}

function signalWarning({ name, start, end }: NameNode): Diagnostic {
  return {
    severity: 'warning',
    code: 'variable-as-signal',
    message: `${quote(name)} is read as a signal here; the variable of the loop counts only in an index`,
    at: { start, end },
    hint: `give the loop another letter if the signal ${quote(name)} is meant`,
  };
}

function countedTwiceFault(variable: string, at: Place): Diagnostic {
  return {
    severity: 'error',
    code: 'loop-variable',
    message: `${quote(variable)} is counted by a loop around this one already`,
    at,
    hint: 'give one of the two loops another letter',
  };
}
