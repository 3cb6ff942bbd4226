// Checks of names: what is neither an input nor defined, outputs that nobody defines, and what nobody uses.

import { quote } from '../../grammar/quote.ts';
import type { Diagnostic } from '../source/diagnostic.ts';
import { type Buses, unknownBit } from './check-buses.ts';
import type { Collected } from './collect-statements.ts';
import type { Mentions } from './mentions.ts';
import { nearestName } from './nearest-name.ts';
import { type FlatName, splitName } from './statements.ts';

/** Nearest names are searched for this many unknown names; the rest get no suggestion. */
const SUGGESTION_LIMIT = 40;

/** With `input` lines every name must be declared or defined. */
export function checkKnown(
  collected: Collected,
  mentioned: Mentions,
  buses: Buses,
  diagnostics: Diagnostic[],
): void {
  const known = [...new Set([...collected.inputs.keys(), ...collected.definitions.keys()])];
  const isKnown = new Set(known);
  let suggestions = 0;
  for (const [name, at] of mentioned) {
    if (isKnown.has(name) || isDoubtful(name, collected)) continue;
    const ofBus = unknownBit(name, at, buses, collected.inputs);
    if (ofBus !== null) {
      diagnostics.push(ofBus);
      continue;
    }
    const pieces = productOf(name, isKnown);
    const near = suggestions++ < SUGGESTION_LIMIT ? nearestName(name, known) : null;
    diagnostics.push({
      severity: 'error',
      code: 'unknown-name',
      message: `${quote(name)} is neither an input nor defined`,
      at,
      hint:
        pieces !== null
          ? `for the product write ${pieces}, or put a line "letters" on top`
          : near === null
            ? `add it to an "input" line, or define it`
            : `did you mean ${quote(near)}?`,
    });
  }
}

/** Whether a statement with a fault may be the one that brings `name`. */
function isDoubtful(name: string, { unsure, inputs }: Collected): boolean {
  const base = splitName(name)?.base;
  return base !== undefined && (unsure.has(base) || inputs.get(base)?.unsure === true);
}

/** The known names of one letter with its digits that `name` falls into; null when it does not. */
function productOf(name: string, known: ReadonlySet<string>): string | null {
  const pieces = /^(?:[A-Za-z][0-9]*){2,30}$/.test(name) ? name.match(/[A-Za-z][0-9]*/g)! : [];
  return pieces.length > 0 && pieces.every((piece) => known.has(piece)) ? pieces.join(' ') : null;
}

/** A definition with names behind it depends on these and on defined signals alone. `mentions` goes by definition. */
export function checkListed(
  { definitions }: Collected,
  mentions: readonly Mentions[],
  diagnostics: Diagnostic[],
): void {
  [...definitions.values()].forEach(({ name, list }, index) => {
    if (list === null) return;
    const known = new Set(list.map((listed) => listed.name));
    for (const [mentioned, at] of mentions[index]!) {
      if (known.has(mentioned) || definitions.has(mentioned)) continue;
      const shown = list.map((listed) => listed.name).join(', ');
      const product = productOf(mentioned, known);
      diagnostics.push({
        severity: 'error',
        code: 'unlisted-name',
        message: `${quote(mentioned)} is not among the names of ${quote(`${name}(${shown})`)}`,
        at,
        hint:
          product === null
            ? 'name all that the function depends on, or leave out the brackets behind its name'
            : `for the product write ${product}, or put a line "letters" on top`,
      });
    }
  });
}

export function checkOutputs(collected: Collected, mentioned: Mentions, diagnostics: Diagnostic[]): void {
  let suggestions = 0;
  for (const { name, start, end } of collected.outputs.values()) {
    if (collected.definitions.has(name) || isDoubtful(name, collected)) continue;
    const isInput = collected.declaresInputs ? collected.inputs.has(name) : mentioned.has(name);
    const near = suggestions++ < SUGGESTION_LIMIT ? nearestName(name, collected.definitions.keys()) : null;
    diagnostics.push({
      severity: 'error',
      code: 'output-undefined',
      message: `the output ${quote(name)} is never defined`,
      at: { start, end },
      hint: isInput
        ? `${quote(name)} is an input; to lead it out give it a second name, ${name}_out = ${name}`
        : near === null
          ? `write ${name} = expression`
          : `did you mean ${quote(near)}?`,
    });
  }
}

/** Only what is declared can be unused by mistake; without declarations everything there is, is used. */
export function checkUnused(collected: Collected, mentioned: Mentions, diagnostics: Diagnostic[]): void {
  // The bits of one range have one place, and so one warning.
  const unused = new Map<number, FlatName[]>();
  for (const input of collected.inputs.values()) {
    if (mentioned.has(input.name)) continue;
    const others = unused.get(input.start);
    if (others === undefined) unused.set(input.start, [input]);
    else others.push(input);
  }
  for (const inputs of unused.values()) {
    const shown = inputs.slice(0, 4).map(({ name }) => quote(name));
    const more = inputs.length > 4 ? ` and ${inputs.length - 4} more` : '';
    const [{ start, end }] = inputs as [FlatName];
    diagnostics.push({
      severity: 'warning',
      code: 'unused-input',
      message:
        inputs.length === 1
          ? `the input ${shown[0]} is not used`
          : `the inputs ${shown.join(', ')}${more} are not used`,
      at: { start, end },
      hint: 'take it out of the "input" line if this is meant',
    });
  }
  if (!collected.declaresOutputs) return;
  for (const { name, at } of collected.definitions.values()) {
    if (mentioned.has(name) || collected.outputs.has(name)) continue;
    diagnostics.push({
      severity: 'warning',
      code: 'unused-definition',
      message: `${quote(name)} is defined but neither used nor an output`,
      at,
      hint: `add it to an "output" line, or take the definition out`,
    });
  }
}
