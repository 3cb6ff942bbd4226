// Products without blanks, as books print them: `C4 = G3 + P3G2`, `F = AB' + A'B`. In this language a name may have many
// letters, so `AB` is one name; read so in a text that meant `A B`, it would give an answer to another question. Three
// outcomes:
//
// - The text says that each letter with its digits is a name (a line `letters`, or the option): it is read so.
// - It shows that it must be meant: names of the form letter-digits-letter-digits, a bar over part of a name, LaTeX, or
//   names that fall apart into declared ones where whole they are unknown. It is read so, and a notice says it.
// - Only letters stand together and their pattern is that of products: the text is read as it stands, with a warning
//   that offers the other reading.
//
// Names that are declared or defined stay whole in every case, the longest first: `BCin` is `B Cin` after `input Cin`.
// Where a text that shows products has names that look like words, no reading is safe, and it is only offered.

import type { IToken } from 'chevrotain';
import { baseOf } from './bit-names.ts';
import type { StatementTokens } from './block-stack.ts';
import {
  firstUsed,
  type Names,
  type ProductClues,
  piecesOf,
  type Survey,
  surveyOf,
} from './product-survey.ts';
import { quote } from './quote.ts';
import type { SyntaxFault } from './syntax.ts';
import * as t from './tokens.ts';
import { fault, placeOf } from './wording.ts';

/** Nothing but letters with their digits; a letter without may stand at an end, in front only a capital. */
const PLAINLY_NUMBERED = /^[A-Z]?(?:[A-Za-z]_?[0-9]+){2,}[A-Za-z]?$/;

/** Takes names apart where they are products, in the tokens of `statements`; returns what there is to say of it. */
export function readProducts(statements: readonly StatementTokens[], clues: ProductClues): SyntaxFault[] {
  const survey = surveyOf(statements, clues);
  const said = clues.letters || survey.lettersLine;
  if (survey.products.size === 0) return [];
  const evidence = said ? null : evidenceOf(survey, clues);
  if (!said && evidence === null) return offer(survey);
  for (const statement of statements) takeApart(statement, survey, clues);
  const words = wordWarnings(survey, said || survey.latex || survey.declares);
  return evidence === null ? words : [readNotice(evidence, survey), ...words];
}

/** A name that shows that products are written without blanks; null when none does, or when it would not be safe. */
function evidenceOf(survey: Survey, clues: ProductClues): IToken | null {
  const { products, kept, declares, latex } = survey;
  const names = [...products.keys()];
  const [first] = products.values();
  const known = (name: string): boolean =>
    (piecesOf(name, kept, latex) ?? ['?']).every((piece) => kept.has(piece));
  if (declares && names.every(known)) return first!;
  if (!names.every((name) => isTame(name, survey))) return null;
  const numbered = names.find((name) => PLAINLY_NUMBERED.test(name));
  if (numbered !== undefined) return products.get(numbered)!;
  // Upright words are marked in LaTeX; where they are not, a name of letters may be one as well.
  const words = [...kept].some((name) => /^[A-Za-z]{4,}$/.test(name) && !clues.wholeNames.has(name));
  return clues.barredPart ?? (latex && !words ? first! : null);
}

/** Letter, digits, letter, digits, somewhere in the name. */
function isNumbered(name: string): boolean {
  return (name.match(/[A-Za-z]_?[0-9]+/g) ?? []).length > 1;
}

/** Whether letters that stand together look like names of one letter and not like a word. */
function isTame(name: string, { kept, single, latex }: Survey): boolean {
  const pieces = piecesOf(name, kept, latex)!;
  const letters = pieces
    .map((piece) => (kept.has(piece) ? '-' : /[0-9_]/.test(piece) ? '-' : piece))
    .join('');
  return (letters.match(/[A-Za-z]{2,}/g) ?? []).every(
    (run) => isAscending(run) || [...run].every((letter) => single.has(letter)),
  );
}

/** All in one case and in the order of the alphabet, without repetition. */
function isAscending(run: string): boolean {
  if (run.length > 6 || (run !== run.toUpperCase() && run !== run.toLowerCase())) return false;
  return [...run].every((letter, index) => index === 0 || run[index - 1]! < letter);
}

function takeApart(statement: StatementTokens, survey: Survey, clues: ProductClues): void {
  const { tokens, faults } = statement;
  const start = firstUsed(tokens);
  const taken: IToken[] = [];
  for (let index = 0; index < tokens.length; index++) {
    const token = tokens[index]!;
    const base = token.tokenType === t.Name && index >= start ? baseOf(token) : '';
    const pieces = survey.products.has(base) ? piecesOf(base, survey.kept, survey.latex)! : [];
    if (pieces.length < 2) {
      taken.push(token);
      continue;
    }
    if (clues.barredRuns.has(token)) faults.push(barFault(token, pieces));
    const exact = t.endOf(token) - token.startOffset === token.image.length;
    let offset = 0;
    pieces.forEach((piece, number) => {
      const at = exact ? token.startOffset + offset : token.startOffset;
      offset += piece.length;
      if (number === pieces.length - 1) {
        // The index, if there is one, belongs to the last.
        const rest = token.image.slice(base.length);
        const last = t.tokenOf(t.Name, piece + rest, at, t.endOf(token));
        if (token.payload !== undefined) last.payload = { ...token.payload, name: piece };
        taken.push(last);
      } else taken.push(t.tokenOf(t.Name, piece, at, exact ? at + piece.length : t.endOf(token)));
    });
  }
  tokens.length = 0;
  for (const token of taken) tokens.push(token);
}

/**
 * Warns of words that were taken apart, as in `Cin`. Unless the text says more clearly what it means, any letters that
 * are not seen as names elsewhere may be a word, as `en` may.
 */
function wordWarnings({ products, kept, single, latex }: Survey, clear: boolean): SyntaxFault[] {
  const warnings: SyntaxFault[] = [];
  const seen = new Set<string>();
  for (const [name, token] of products) {
    const pieces = piecesOf(name, kept, latex)!;
    const free = pieces.map((piece) => (kept.has(piece) ? ' ' : piece)).join('');
    const unseen = (run: string): boolean => [...run].some((letter) => !single.has(letter));
    const word =
      /[A-Z][a-z]{1,}|[a-z]{4,}/.exec(free)?.[0] ??
      (clear ? undefined : free.match(/[A-Za-z]{2,}(?![0-9_])/g)?.find(unseen));
    if (word === undefined || seen.has(word)) continue;
    seen.add(word);
    warnings.push({
      ...fault(
        'word-taken-apart',
        placeOf(token),
        `${quote(word)} is read as the product ${[...word].join(' ')}`,
        `to keep it whole, declare all inputs: "input ..., ${word}"`,
      ),
      severity: 'warning',
    });
  }
  return warnings;
}

function readNotice(token: IToken, survey: Survey): SyntaxFault {
  const base = baseOf(token);
  const pieces = piecesOf(base, survey.kept, survey.latex) ?? [base];
  const example = pieces.length > 1 ? `, so that ${quote(base)} is ${pieces.join(' ')}` : '';
  return {
    ...fault(
      'letters-read',
      placeOf(token),
      `each letter with its digits is read as a name in the whole text${example}`,
      'a line "letters" says the same without this notice; names on an "input" line stay whole',
    ),
    severity: 'notice',
  };
}

/** Warns of names that look like products of letters. */
function offer(survey: Survey): SyntaxFault[] {
  if (survey.declares) return [];
  const suspects = [...survey.products].filter(([name]) => isSuspect(name, survey));
  const [first] = suspects;
  if (first === undefined) return [];
  const [name, token] = first;
  const others = suspects.slice(1, 4).map(([other]) => quote(other));
  const more = suspects.length > 4 ? ` and ${suspects.length - 4} more` : '';
  const so = others.length === 0 ? '' : `, and likewise ${others.join(', ')}${more}`;
  const product = (usedPieces(name, survey) ?? piecesOf(name, survey.kept, survey.latex)!).join(' ');
  return [
    {
      ...fault(
        'letters-offered',
        placeOf(token),
        `${quote(name)} is read as one name, not as the product ${product}${so}`,
        'for products put a line "letters" on top (or call with --letters); to keep the names whole, declare them with "input"',
      ),
      severity: 'warning',
    },
  ];
}

/** The other names of the text that `name` falls into: `BCin` where there are `B` and `Cin`; null when it does not. */
function usedPieces(name: string, { used, latex }: Survey): string[] | null {
  const others: Names = { has: (other) => other !== name && used.has(other) };
  const pieces = piecesOf(name, others, latex);
  return pieces?.every((piece) => others.has(piece)) ? pieces : null;
}

function isSuspect(name: string, survey: Survey): boolean {
  const { single, products, close, spaced, kept, latex } = survey;
  // In LaTeX letters side by side are a product, unless they are plainly a word.
  if (isNumbered(name) || (latex && (isTame(name, survey) || !/[a-z]{5,}/.test(name)))) return true;
  if (usedPieces(name, survey) !== null) return true;
  const pieces = piecesOf(name, kept, latex)!;
  if (new Set(pieces).size < pieces.length || pieces.length > 6) return false;
  if (close) return true;
  if (spaced) return false;
  if (/^[A-Za-z][0-9]+[A-Za-z]$/.test(name)) return true;
  const all = [...products.keys(), ...[...single].filter((letter) => !kept.has(letter))];
  const ordered = all.every((other) => /^[A-Za-z]+$/.test(other) && isAscending(other));
  const capitals = all.every((other) => /^[A-Z]{1,4}$/.test(other));
  if (!ordered && !capitals && !all.every((other) => /^[a-z]{1,4}$/.test(other))) return false;
  const letters = all.join('');
  const distinct = [...new Set(letters)].sort();
  const consecutive = distinct.every(
    (letter, index) => index === 0 || letter.charCodeAt(0) === distinct[index - 1]!.charCodeAt(0) + 1,
  );
  const enough = distinct.length > 2 || letters === letters.toUpperCase();
  const repeated = distinct.length < letters.length && (ordered || capitals);
  return repeated || (consecutive && enough);
}

function barFault(token: IToken, pieces: readonly string[]): SyntaxFault {
  return fault(
    'unclear-overline',
    placeOf(token),
    `the bars over ${quote(baseOf(token))} may be one bar over the product or one over each letter`,
    `write (${pieces.join(' ')})' or ${pieces.map((piece) => `${piece}'`).join(' ')}`,
  );
}
