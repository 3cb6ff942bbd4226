// The words of the faults that are found beside the grammar: strange characters, brackets, numbers, depth, and groups
// that are unclear. The words for a place where the grammar itself does not hold are found in explain-stop.ts.
//
// Manner: the message says what is wrong in terms of the text, the hint says what to write. No message names a token
// class or a rule, and every piece of the user's text in it is quoted and made visible.

import type { IToken } from 'chevrotain';
import type { Sign } from './fold-operators.ts';
import { DEPTH_LIMIT, TICK_LIMIT } from './operators.ts';
import { quote } from './quote.ts';
import { adviceFor } from './strangers.ts';
import type { Place, SyntaxFault } from './syntax.ts';
import * as t from './tokens.ts';

/** An error with all its parts. */
export function fault(code: string, at: Place, message: string, hint: string | null): SyntaxFault {
  return { severity: 'error', code, message, at, hint };
}

export function placeOf(token: IToken): Place {
  return { start: token.startOffset, end: t.endOf(token) };
}

export function strangerFault(image: string, start: number): SyntaxFault {
  if (image.startsWith('/*')) {
    const at = { start, end: start + image.length };
    return fault('unknown-character', at, 'comments in "/* */" are not known here', adviceFor('/*'));
  }
  const what = [...image].length > 1 ? 'are characters' : 'is a character';
  return fault(
    'unknown-character',
    { start, end: start + image.length },
    `${quote(image)} ${what} the equation language does not know`,
    adviceFor(image),
  );
}

export function unclosedFault(bracket: IToken, count: number): SyntaxFault {
  const others = count > 1 ? `, and ${count - 1} more before it` : '';
  return fault(
    'missing-bracket',
    placeOf(bracket),
    `this bracket is never closed${others}`,
    `write "${CLOSING[bracket.image]}" where the group ends`,
  );
}

const CLOSING: Readonly<Record<string, string>> = { '(': ')', '[': ']', '{': '}' };
const OPENING: Readonly<Record<string, string>> = { ')': '(', ']': '[', '}': '{' };

export function otherBracketFault(opener: IToken, closer: IToken): SyntaxFault {
  return fault(
    'other-bracket',
    placeOf(closer),
    `${quote(closer.image)} closes a group that ${quote(opener.image)} began`,
    `write "${CLOSING[opener.image]}", or begin the group with "${OPENING[closer.image]}"`,
  );
}

/** A square bracket or a brace behind an operand that is no name. */
export function strayBracketFault(bracket: IToken): SyntaxFault {
  const square = bracket.image === '[';
  return fault(
    'stray-bracket',
    placeOf(bracket),
    square
      ? 'square brackets behind an operand are the index of a name, and no name stands before them'
      : 'a brace behind an operand means nothing here',
    "write round brackets ( ) for a product with a group, as in a'(b + c)",
  );
}

export function twoIndicesFault(bracket: IToken): SyntaxFault {
  return fault(
    'wrong-index',
    placeOf(bracket),
    'a name has one index, and this is a second one',
    'number the bits in one row, as in x[4*i + j]',
  );
}

/** Something on the line behind the `}` of a loop. */
export function behindBlockFault(token: IToken): SyntaxFault {
  return fault(
    'missing-separator',
    placeOf(token),
    `nothing parts ${quote(token.image)} from the loop before it`,
    'begin the next statement on a line of its own or after ";"',
  );
}

export function rowRangeFault(sign: IToken): SyntaxFault {
  return fault(
    'wrong-row',
    placeOf(sign),
    '"-" behind a number means nothing here',
    'write 5..7 for a range of rows of a table',
  );
}

export function extraBracketFault(bracket: IToken): SyntaxFault {
  return fault(
    'extra-bracket',
    placeOf(bracket),
    'this bracket closes nothing',
    `take it out, or write "${OPENING[bracket.image]}" where the group begins`,
  );
}

export function commaFault(comma: IToken, afterNot: boolean): SyntaxFault {
  if (afterNot) {
    return fault(
      'wrong-arguments',
      placeOf(comma),
      'NOT takes one argument',
      'write nor(a, b) for "none of them", nand(a, b) for "not all of them"',
    );
  }
  return fault(
    'misplaced-comma',
    placeOf(comma),
    'a comma in brackets separates the arguments of a function, but no function stands before the bracket',
    'write a + b for OR, a b for AND, or name the function, as in maj(a, b, c)',
  );
}

export function outsideCommaFault(comma: IToken): SyntaxFault {
  return fault(
    'misplaced-comma',
    placeOf(comma),
    'a comma outside the brackets of a function',
    'begin the next definition on a line of its own or after ";"; for OR write a + b, for AND a b',
  );
}

export function tooDeepFault(start: number, end: number): SyntaxFault {
  return fault(
    'nesting-too-deep',
    { start, end },
    `the expression nests deeper than ${DEPTH_LIMIT} levels`,
    'give a name to an inner part and use the name',
  );
}

export function constantFault(token: IToken): SyntaxFault {
  const isNumber = /^[0-9]+$/.test(token.image);
  return fault(
    isNumber ? 'wrong-constant' : 'wrong-name',
    placeOf(token),
    isNumber
      ? `${quote(token.image)} is not a level; the only constants are 0 and 1`
      : `${quote(token.image)} begins with a digit, so it is not a name`,
    isNumber
      ? 'write 0, 1 or a name'
      : 'begin a name with a letter or _; for a product write the 1 or 0 apart',
  );
}

/** `A 1`, as a subscript looks when it comes out of a printed page. */
export function constantBesideWarning(name: string, start: number, constant: IToken): SyntaxFault {
  const { image } = constant;
  return {
    severity: 'warning',
    code: 'constant-beside-name',
    message: `${quote(`${name} ${image}`)} is read as the product of ${quote(name)} and the constant ${image}`,
    at: { start, end: t.endOf(constant) },
    hint: `write ${name}${image} for a name with a subscript, ${name} & ${image} for the product`,
  };
}

export function attributeWordFault(kind: 'input' | 'output', word: IToken): SyntaxFault {
  return fault(
    'wrong-declaration',
    placeOf(word),
    kind === 'input' ? '"by" is the deadline of an output' : '"@" is the arrival of an input',
    kind === 'input' ? 'write "@" and the tick at which the input settles' : 'write "by" and the latest tick',
  );
}

export function twiceFault(what: 'rail' | 'tick', first: IToken, second: IToken): SyntaxFault {
  return fault(
    'wrong-declaration',
    placeOf(second),
    `a second ${what} for one name, after ${quote(first.image)}`,
    'keep one of the two; attributes belong to the one name before them',
  );
}

export function tickFault(token: IToken): SyntaxFault {
  return fault(
    'wrong-tick',
    placeOf(token),
    `${quote(token.image)} is not a tick; ticks are whole numbers from 0 to ${TICK_LIMIT}`,
    'write a whole number, as in "@ 2" or "by 5"',
  );
}

/** `signs` are those of one group; number `lonely` is the first NAND or NOR of it. */
export function lonelyFault(signs: readonly Sign[], lonely: number): SyntaxFault {
  const { row, at } = signs[lonely]!;
  const word = row.operator;
  if (signs.every((sign) => sign.row === row)) {
    return fault(
      'unclear-group',
      at,
      `a chain of "${word}" is unclear: (a ${word} b) ${word} c and a ${word} (b ${word} c) differ`,
      `write ${word}(a, b, c) for one gate of three inputs, or set brackets`,
    );
  }
  const other = signs[lonely === 0 ? 1 : lonely - 1]!.row.operator;
  const mark = other === 'and' ? '&' : other === 'or' ? '+' : other === 'xor' ? '^' : other;
  return fault(
    'unclear-group',
    at,
    `"${word}" beside ${other.toUpperCase()} without brackets is unclear: how far would its NOT reach?`,
    `set brackets, as in (a ${word} b) ${mark} c`,
  );
}

/** `signs` are those of one chain of XOR and XNOR, at least one XNOR among them. */
export function xnorChainWarning(signs: readonly Sign[]): SyntaxFault {
  const mixed = signs.some((sign) => sign.row.operator === 'xor');
  const first = signs.find((sign) => sign.row.operator === 'xnor')!;
  return {
    severity: 'warning',
    code: 'xnor-chain',
    message: mixed
      ? 'a chain that mixes XOR and XNOR is read in pairs from the left, like (a ^ b) xnor c'
      : 'a chain of XNOR is read in pairs from the left, (a xnor b) xnor c, which is a ^ b ^ c',
    at: first.at,
    hint: 'set brackets if this is meant; xnor(a, b, c) is NOT (a ^ b ^ c)',
  };
}
