// Finds the words for the place where the grammar stops holding. The toolkit knows which tokens it expected, but people
// are better served by what stands on both sides of the place: an operand is missing after "+", a second "=", a comma
// that was left out. Every branch looks at the token before, the token here and the kind of statement, nothing else.

import type { IRecognitionException, IToken } from 'chevrotain';
import { FUNCTION_BY_NAME, STATEMENT_WORDS } from './operators.ts';
import { quote } from './quote.ts';
import type { Place, SyntaxFault } from './syntax.ts';
import * as t from './tokens.ts';
import { constantFault, fault, placeOf } from './wording.ts';

/** Words for the place where the grammar stops holding in `tokens`, a statement with matched brackets. */
export function explainStop(tokens: readonly IToken[], exception: IRecognitionException): SyntaxFault {
  const found = tokens.indexOf(exception.token);
  const index = found < 0 ? tokens.length : found;
  const site: Site = { tokens, index, before: tokens[index - 1], here: tokens[index] };
  const first = tokens[0]!.tokenType;
  if (isReservedName(site)) return reservedFault(site.here!);
  if (first === t.Input || first === t.Output) return declarationFault(site);
  const equals = tokens.findIndex((token) => token.tokenType === t.Equals);
  if (first !== t.Never && (equals < 0 || index < equals || index === 0)) return headFault(site, equals);
  return expressionFault(site);
}

interface Site {
  readonly tokens: readonly IToken[];
  /** Number of the token that does not fit; the number of tokens when the statement ends too early. */
  readonly index: number;
  readonly before: IToken | undefined;
  readonly here: IToken | undefined;
}

/** Where the token stands that does not fit; at the end of the statement the place behind the last token. */
function placeOfSite({ tokens, here }: Site): Place {
  if (here !== undefined) return placeOf(here);
  const end = t.endOf(tokens.at(-1)!);
  return { start: end, end };
}

/** A word of the language where only a name can be meant. */
function isReservedName({ tokens, index, here }: Site): boolean {
  const type = here?.tokenType;
  if (type === undefined || !/^[a-z]/i.test(here!.image)) return false;
  if (type === t.Name || type === t.Digits) return false;
  if (index === 0 && tokens[1]?.tokenType === t.Equals) return true;
  const declares = tokens[0]!.tokenType === t.Input || tokens[0]!.tokenType === t.Output;
  if (declares) return index === 1 || tokens[index - 1]!.tokenType === t.Comma;
  return type === t.RailName || type === t.By || type === t.Input || type === t.Output || type === t.Never;
}

function reservedFault(word: IToken): SyntaxFault {
  return fault(
    'reserved-word',
    placeOf(word),
    `${quote(word.image)} is a word of the equation language and cannot be a name`,
    `choose another name, ${word.image}_1 say`,
  );
}

function declarationFault(site: Site): SyntaxFault {
  const { tokens, index, before, here } = site;
  const at = placeOfSite(site);
  const word = tokens[0]!.image.toLowerCase();
  const type = here?.tokenType;
  const last = before!;
  if (index === 1 || last.tokenType === t.Comma) {
    if (type === t.Digits) return constantFault(here!);
    return fault(
      'missing-name',
      at,
      `a name is missing after ${quote(last.image)}`,
      `write the names with commas between them, as in "${word} a, b"`,
    );
  }
  if (last.tokenType === t.At || last.tokenType === t.By) {
    return fault(
      'wrong-tick',
      at,
      here === undefined
        ? `the tick is missing after ${quote(last.image)}`
        : `${quote(here.image)} is not a tick`,
      `write a whole number, as in "${word === 'input' ? '@ 2' : 'by 5'}"`,
    );
  }
  if (type === t.Name) {
    return fault(
      'missing-comma',
      at,
      `a comma is missing before ${quote(here!.image)}`,
      `write "${word} a, b"; attributes are high, low, either, both and "${word === 'input' ? '@ 2' : 'by 5'}"`,
    );
  }
  if (type === t.Equals) {
    return fault(
      'wrong-declaration',
      at,
      `an "${word}" line only lists names`,
      `write the definition in a statement of its own, without "${word}"`,
    );
  }
  if (type === t.Digits) {
    return fault(
      'wrong-declaration',
      at,
      `nothing says what the number ${quote(here!.image)} is`,
      `write "${word === 'input' ? '@' : 'by'} ${here!.image}" for a tick`,
    );
  }
  if (last.tokenType === t.Digits && type === t.Infix && here!.image === '.') {
    return fault('wrong-tick', at, 'ticks are whole numbers', 'leave out the point and what follows it');
  }
  return fault(
    'wrong-declaration',
    at,
    `${quote(here!.image)} does not belong in an "${word}" line`,
    `write names with commas between them, as in "${word} a, b low ${word === 'input' ? '@ 2' : 'by 5'}"`,
  );
}

function headFault(site: Site, equals: number): SyntaxFault {
  const { tokens, index } = site;
  const first = tokens[0]!;
  if (equals < 0) {
    return fault(
      'missing-equals',
      { start: first.startOffset, end: t.endOf(tokens.at(-1)!) },
      'this defines nothing: there is no "=" in it',
      'write name = expression',
    );
  }
  if (equals === 0) {
    return fault('missing-name', placeOf(first), 'no name stands before "="', 'write name = expression');
  }
  if (index === 0 && first.tokenType === t.Digits && equals === 1) return constantFault(first);
  const left = { start: first.startOffset, end: t.endOf(tokens[equals - 1]!) };
  if (first.image.toLowerCase() === STATEMENT_WORDS.loop) {
    return fault(
      'wrong-loop',
      left,
      'this is not the head of a loop',
      'write "for i in 0..7: c[i+1] = g[i]"',
    );
  }
  return fault(
    'wrong-left-side',
    left,
    'the left side of a definition is one name, and here is more',
    'write name = expression; for equivalence write a <-> b',
  );
}

function expressionFault(site: Site): SyntaxFault {
  const { here, before } = site;
  const at = placeOfSite(site);
  const type = here?.tokenType;
  const last = before!;
  if (type === t.Equals && last.tokenType !== t.Equals) {
    return fault(
      'second-equals',
      at,
      'a second "=" in one definition',
      'write a <-> b for equivalence; begin the next definition on a line of its own or after ";"',
    );
  }
  if (last.tokenType === t.FunctionWord) {
    const shown = FUNCTION_BY_NAME.get(last.image.toLowerCase())?.shown ?? `${last.image}(a, b)`;
    return fault(
      'missing-bracket',
      placeOf(last),
      `${quote(last.image)} is a function and needs its arguments in brackets`,
      `write ${shown}`,
    );
  }
  if (type === t.Range || type === t.TableSign) {
    const hint = 'write f(a, b, c) = minterms(1, 3, 5..7) for a table, "for i in 0..7: ..." for a loop';
    return fault(
      'unexpected',
      at,
      `${quote(here!.image)} stands outside of a table and of the head of a loop`,
      hint,
    );
  }
  if (wantsOperand(last)) return operandFault(site, at);
  if (type === t.At) {
    return fault('wrong-declaration', at, '"@" does not belong in an expression', 'write "input a @ 2"');
  }
  return fault('unexpected', at, `${quote(here?.image ?? '')} does not fit here`, null);
}

function wantsOperand(token: IToken): boolean {
  const type = token.tokenType;
  return ![t.Name, t.Digits, t.Truth, t.Close, t.Postfix].includes(type);
}

function operandFault({ here, before, tokens, index }: Site, at: Place): SyntaxFault {
  const last = before!;
  const lastType = last.tokenType;
  const missing = (message: string, hint: string, place = at): SyntaxFault =>
    fault('missing-operand', place, message, hint);
  if (here === undefined || here.tokenType === t.Close) {
    if (lastType === t.Equals)
      return missing('the right side of the definition is missing', 'write name = expression');
    if (lastType === t.Never) return missing('the expression of "never" is missing', 'write never a b');
    if (lastType === t.Open && tokens[index - 2]?.tokenType === t.FunctionWord) {
      const { image } = tokens[index - 2]!;
      return fault(
        'wrong-arguments',
        { start: last.startOffset, end: at.end },
        `${quote(image)} has no arguments`,
        `write ${FUNCTION_BY_NAME.get(image.toLowerCase())?.shown ?? `${image}(a, b)`}`,
      );
    }
    if (lastType === t.Open) {
      return missing(
        'nothing stands between the brackets',
        'write an expression there, or take the brackets out',
        {
          start: last.startOffset,
          end: at.end,
        },
      );
    }
    const sort = lastType === t.Comma ? 'an argument' : 'an operand';
    return missing(
      `${sort} is missing after ${quote(last.image)}`,
      `write it, or take the ${quote(last.image)} out`,
      placeOf(last),
    );
  }
  if (here.tokenType === t.Postfix) {
    return missing('the complement sign follows what it complements', "write a' or !a");
  }
  if (here.tokenType === t.Comma) {
    return missing('an argument is missing before ","', 'write it, or take the "," out');
  }
  if (here.tokenType === t.Equals) {
    return fault('second-equals', at, 'a second "="', 'write name = expression with one "="');
  }
  if (here.tokenType !== t.Infix) {
    return missing(
      `${quote(here.image)} stands where an operand is expected`,
      'write a name, 0, 1 or a bracket',
    );
  }
  const between = lastType === t.Infix || lastType === t.Prefix;
  return missing(
    between
      ? `an operand is missing between ${quote(last.image)} and ${quote(here.image)}`
      : `an operand is missing before ${quote(here.image)}`,
    between
      ? 'write a name there, or take one of the two signs out'
      : `write it, or take the ${quote(here.image)} out`,
  );
}
