// Whole-number arithmetic in the square brackets behind a name and in the range of a loop: `+ - * / %`, brackets and
// the variables of loops. It is turned at once into the steps of a stack machine (numbers and variables are pushed, an
// operator takes what lies on top), so that neither reading nor working out needs recursion.

import type { IToken } from 'chevrotain';
import { quote } from './quote.ts';
import type { IndexForm, IndexOperator, IndexStep, Place, SyntaxFault } from './syntax.ts';
import * as t from './tokens.ts';
import { fault, placeOf } from './wording.ts';

const STRENGTH: Readonly<Record<IndexOperator | '(', number>> = {
  '(': 0,
  '+': 1,
  '-': 1,
  '*': 2,
  '/': 2,
  '%': 2,
  negate: 3,
};

/** Operators between two operands by their spelling; `·` stands for all the dots and crosses of multiplication. */
const BETWEEN: ReadonlyMap<string, IndexOperator> = new Map<string, IndexOperator>([
  ['+', '+'],
  ['-', '-'],
  ['*', '*'],
  ['·', '*'],
  ['/', '/'],
  ['%', '%'],
]);

/** Reads `tokens`, all of them one number; `at` is the place to blame when there are none. */
export function readArithmetic(tokens: readonly IToken[], at: Place): IndexForm | SyntaxFault {
  const steps: IndexStep[] = [];
  const waiting: (IndexOperator | '(')[] = [];
  let operandNext = true;
  const settle = (strength: number): void => {
    while (waiting.length > 0 && STRENGTH[waiting.at(-1)!] >= strength) {
      steps.push(waiting.pop() as IndexOperator);
    }
  };
  for (const token of tokens) {
    const type = token.tokenType;
    const between = BETWEEN.get(token.image);
    if (operandNext && type === t.Digits && /^[0-9]+$/.test(token.image)) {
      steps.push(Number(token.image));
      operandNext = false;
    } else if (operandNext && type === t.Name && token.payload === undefined && !token.image.endsWith(']')) {
      steps.push({ variable: token.image, at: placeOf(token) });
      operandNext = false;
    } else if (operandNext && type === t.Open && token.image === '(') {
      waiting.push('(');
    } else if (operandNext && token.image === '-') {
      waiting.push('negate');
    } else if (!operandNext && type === t.Close && token.image === ')' && waiting.includes('(')) {
      settle(1);
      waiting.pop();
    } else if (!operandNext && between !== undefined) {
      settle(STRENGTH[between]);
      waiting.push(between);
      operandNext = true;
    } else {
      return strangeFault(token, operandNext);
    }
  }
  const last = tokens.at(-1);
  if (operandNext || last === undefined || waiting.includes('(')) return missingFault(last, at, operandNext);
  settle(1);
  return { steps, start: tokens[0]!.startOffset, end: t.endOf(last) };
}

export function isIndexForm(read: IndexForm | SyntaxFault): read is IndexForm {
  return 'steps' in read;
}

/** Names of loop variables in `form`. */
export function variablesOf(form: IndexForm): { variable: string; at: Place }[] {
  return form.steps.filter((step) => typeof step === 'object');
}

/** The number, or what is wrong with it in a few words. A quotient is rounded down, so a remainder is never negative. */
export function evaluateIndex(form: IndexForm, numberOf: (variable: string) => number): number | string {
  const stack: number[] = [];
  for (const step of form.steps) {
    if (typeof step === 'number') stack.push(step);
    else if (typeof step === 'object') stack.push(numberOf(step.variable));
    else if (step === 'negate') stack.push(-stack.pop()!);
    else {
      const right = stack.pop()!;
      const left = stack.pop()!;
      if (right === 0 && (step === '/' || step === '%')) return 'it divides by 0';
      stack.push(applied(step, left, right));
    }
    if (!Number.isSafeInteger(stack.at(-1))) return 'it goes beyond all numbers that can be counted here';
  }
  return stack[0]! + 0;
}

function applied(operator: IndexOperator, left: number, right: number): number {
  if (operator === '+') return left + right;
  if (operator === '-') return left - right;
  if (operator === '*') return left * right;
  const quotient = Math.floor(left / right);
  return operator === '/' ? quotient : left - quotient * right;
}

function strangeFault(token: IToken, operandNext: boolean): SyntaxFault {
  const mixed = operandNext ? /^([0-9]+)([A-Za-z]\w*)$/.exec(token.image) : null;
  if (mixed !== null) {
    return fault(
      'wrong-index',
      placeOf(token),
      `${quote(token.image)} is neither a number nor a variable`,
      `write ${mixed[1]}*${mixed[2]} for the product`,
    );
  }
  if (token.tokenType === t.Comma) {
    const hint = 'number the bits in one row, as in x[4*i + j]';
    return fault(
      'wrong-index',
      placeOf(token),
      'a name has one index, and a comma begins a second one',
      hint,
    );
  }
  return fault(
    'wrong-index',
    placeOf(token),
    operandNext
      ? `${quote(token.image)} stands where a number is expected`
      : `${quote(token.image)} does not belong in whole-number arithmetic`,
    'an index is a whole number, or a loop variable with + - * / % and round brackets, as in c[i + 1]',
  );
}

function missingFault(last: IToken | undefined, at: Place, operandNext: boolean): SyntaxFault {
  const place = last === undefined ? at : placeOf(last);
  const message =
    last === undefined
      ? 'a number is missing here'
      : operandNext
        ? `a number is missing after ${quote(last.image)}`
        : 'a round bracket is not closed in this number';
  return fault(
    'wrong-index',
    place,
    message,
    'write a whole number or a loop variable, as in a[3] or c[i + 1]',
  );
}
