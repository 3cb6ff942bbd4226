// Formulas for every bit at once, as books give them: `Gi = AiBi`, `S_i = A_i ⊕ B_i`, `Ci+1 = Gi + PiCi`. Read letter by
// letter they would define one signal with a strange name, so they are refused, and the message shows the loop that
// says what was meant. Formulas whose index is written as a subscript are found later, as an index without a loop.
//
// A definition is one of these when its left side is a name with an index letter behind it (or that and a number, which
// no left side can be) and its right side holds nothing but such names and single letters. A text that declares its
// inputs says itself what its names are, and is left alone.

import type { StatementTokens } from './block-stack.ts';
import type { SyntaxFault } from './syntax.ts';
import * as t from './tokens.ts';

/** A longer statement is not shown again in the message. */
const LONGEST_SHOWN = 60;

export function findGeneralFormulas(
  statements: readonly StatementTokens[],
  text: string,
): Map<StatementTokens, SyntaxFault> {
  const found = new Map<StatementTokens, SyntaxFault>();
  if (statements.some(({ tokens }) => tokens[0]?.tokenType === t.Input)) return found;
  for (const statement of statements) {
    const { tokens } = statement;
    if (tokens.length < 3 || !/[ijkn]$/.test(tokens[0]!.image)) continue;
    const start = tokens[0]!.startOffset;
    const end = t.endOf(tokens.at(-1)!);
    if (end - start > 1000) continue;
    const formula = text.slice(start, end);
    const letter = indexLetter(formula);
    if (letter !== null) found.set(statement, generalFault(formula, letter, { start, end }));
  }
  return found;
}

/** The letter that stands for every number; null when the formula is an ordinary one. */
function indexLetter(formula: string): string | null {
  const equals = formula.indexOf('=');
  const left = /^([A-Za-z]+)(_?)([ijkn])(\s*[+-]\s*[0-9]+|\s*\(\s*[ijkn]\s*[+-]\s*[0-9]+\s*\))?\s*$/.exec(
    formula.slice(0, equals),
  );
  if (left === null) return null;
  const [, base, underscore, letter, offset] = left;
  const names = formula.slice(equals + 1).match(/[A-Za-z_][A-Za-z0-9_]*/g) ?? [];
  const pairs = new RegExp(`^(?:[A-Za-z]_?${letter})+$|^[A-Za-z]+_${letter}$`);
  const ofPairs = names.filter((name) => pairs.test(name));
  if (offset !== undefined) return ofPairs.length > 0 ? letter! : null;
  // A last letter n mostly marks an active-low signal.
  if (letter === 'n' || !names.every((name) => pairs.test(name) || name.length === 1)) return null;
  if (underscore === '' && base!.length > 1) return null;
  const bits = ofPairs.reduce((sum, name) => sum + (name.includes('_') ? 1 : name.length / 2), 0);
  return bits >= (underscore !== '' || /[A-Z]/.test(base!) ? 1 : 2) ? letter! : null;
}

function generalFault(
  formula: string,
  letter: string,
  at: { readonly start: number; readonly end: number },
): SyntaxFault {
  return {
    severity: 'error',
    code: 'general-formula',
    message: `this is a formula for every ${letter}, and an index stands in square brackets behind the name`,
    at,
    hint: `write a loop with the numbers you need, for ${letter} in 0..7: ${asLoopBody(formula, letter)}`,
  };
}

/** The formula with `[i]` behind every name. */
function asLoopBody(formula: string, letter: string): string {
  const piece = new RegExp(
    `([A-Za-z]\\w*_|[A-Za-z])${letter}(?![a-z])((?:\\s?[+-]\\s?[0-9]+(?=\\s*=))|[+-][0-9]+)?`,
    'g',
  );
  const body = formula
    .replace(piece, (_, base: string, offset: string | undefined) => {
      return `${base.replace(/_$/, '')}[${letter}${(offset ?? '').replaceAll(' ', '')}] `;
    })
    .replace(/\] +(?=$|['’′)])/g, ']')
    .replace(/\s+/g, ' ');
  const usable = body.length <= LONGEST_SHOWN && new RegExp(`\\[${letter}`).test(body);
  return usable ? body : `C[${letter}+1] = G[${letter}] + P[${letter}] C[${letter}]`;
}
