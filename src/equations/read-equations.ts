// From text to a system: the entry of this folder. Every fault of the text is found in one reading, those of syntax
// first (grammar/), then what is said twice, then names, functions, circles and outputs; a statement with a fault
// still counts as defining its name, so that one fault does not bring others after it.

import { parseEquations } from '../../grammar/parse-equations.ts';
import { quote } from '../../grammar/quote.ts';
import type { Diagnostic, Reading, Span } from '../source/diagnostic.ts';
import { type Collected, collectStatements } from './collect-statements.ts';
import { type Mentions, mentionsOf } from './mentions.ts';
import { nearestName } from './nearest-name.ts';
import { orderDefinitions } from './order-definitions.ts';
import { resolveExpression } from './resolve-expression.ts';
import type { InputDeclaration, OutputDeclaration, System } from './system.ts';

/** Nearest names are searched for this many unknown names; the rest get no suggestion. */
const SUGGESTION_LIMIT = 40;

/**
 * Reads equations and their declarations. `value` is null exactly when a diagnostic is an error. Diagnostics stand in
 * the order of the text, places are offsets into `text`. Never throws for bad text.
 */
export function readEquations(text: string): Reading<System> {
  const parsed = parseEquations(text);
  const diagnostics: Diagnostic[] = [...parsed.faults];
  const collected = collectStatements(parsed.statements, diagnostics);
  const names = [...collected.definitions.values()];
  const mentions = names.map(({ expression }) => mentionsIn(expression, diagnostics));
  const neverMentions = collected.never.map(({ expression }) => mentionsIn(expression, diagnostics));

  const mentioned = new Map<string, Span>();
  for (const mention of [...mentions, ...neverMentions]) {
    for (const [name, at] of mention) if (!mentioned.has(name)) mentioned.set(name, at);
  }
  if (collected.declaresInputs) checkKnown(collected, mentioned, diagnostics);
  checkOutputs(collected, mentioned, diagnostics);

  const indexOf = new Map(names.map(({ name }, index) => [name, index]));
  const needs = mentions.map((mention) =>
    [...mention.keys()].map((name) => indexOf.get(name)).filter((index) => index !== undefined),
  );
  const { order, circles } = orderDefinitions(needs);
  for (const circle of circles) diagnostics.push(circular(circle.map((index) => names[index]!)));

  if (!hasError(diagnostics) && names.length === 0) diagnostics.push(nothingDefined());
  if (hasError(diagnostics)) return { value: null, diagnostics: inTextOrder(diagnostics) };
  checkUnused(collected, mentioned, diagnostics);
  return { value: buildSystem(collected, mentioned, order), diagnostics: inTextOrder(diagnostics) };
}

function mentionsIn(
  expression: Parameters<typeof mentionsOf>[0] | null,
  diagnostics: Diagnostic[],
): Mentions {
  return expression === null ? new Map() : mentionsOf(expression, diagnostics);
}

function hasError(diagnostics: readonly Diagnostic[]): boolean {
  return diagnostics.some((diagnostic) => diagnostic.severity === 'error');
}

function inTextOrder(diagnostics: readonly Diagnostic[]): Diagnostic[] {
  return [...diagnostics].sort((a, b) => (a.at?.start ?? 0) - (b.at?.start ?? 0));
}

/** Numbers the inputs first, then the defined signals in the order of evaluation. */
function buildSystem(collected: Collected, mentioned: Mentions, order: readonly number[]): System {
  const definitions = [...collected.definitions.values()];
  const inputNames = collected.declaresInputs
    ? [...collected.inputs.keys()]
    : [...mentioned.keys()].filter((name) => !collected.definitions.has(name));
  const signals = [...inputNames, ...order.map((index) => definitions[index]!.name)];
  const numberOf = new Map(signals.map((name, number) => [name, number]));
  const inputs = inputNames.map((name, signal): InputDeclaration => {
    const declared = collected.inputs.get(name);
    return { signal, rail: declared?.rail ?? 'high', tick: declared?.tick ?? 0 };
  });
  const outputNames = collected.declaresOutputs ? collected.outputs.keys() : collected.definitions.keys();
  const outputs = [...outputNames].map((name): OutputDeclaration => {
    const declared = collected.outputs.get(name);
    return { signal: numberOf.get(name)!, rail: declared?.rail ?? 'high', by: declared?.tick ?? null };
  });
  return {
    signals,
    inputs,
    outputs,
    definitions: order.map((index) => {
      const { name, at, expression } = definitions[index]!;
      return { signal: numberOf.get(name)!, expression: resolveExpression(expression!, numberOf), at };
    }),
    never: collected.never.map(({ expression }) => resolveExpression(expression, numberOf)),
    neverAt: collected.never.map(({ at }) => at),
  };
}

/** With `input` lines every name must be declared or defined. */
function checkKnown(collected: Collected, mentioned: Mentions, diagnostics: Diagnostic[]): void {
  const known = [...new Set([...collected.inputs.keys(), ...collected.definitions.keys()])];
  const isKnown = new Set(known);
  let suggestions = 0;
  for (const [name, at] of mentioned) {
    if (isKnown.has(name)) continue;
    const near = suggestions++ < SUGGESTION_LIMIT ? nearestName(name, known) : null;
    diagnostics.push({
      severity: 'error',
      code: 'unknown-name',
      message: `${quote(name)} is neither an input nor defined`,
      at,
      hint: near === null ? `add it to an "input" line, or define it` : `did you mean ${quote(near)}?`,
    });
  }
}

function checkOutputs(collected: Collected, mentioned: Mentions, diagnostics: Diagnostic[]): void {
  let suggestions = 0;
  for (const { name, start, end } of collected.outputs.values()) {
    if (collected.definitions.has(name)) continue;
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
function checkUnused(collected: Collected, mentioned: Mentions, diagnostics: Diagnostic[]): void {
  for (const { name, start, end } of collected.inputs.values()) {
    if (mentioned.has(name)) continue;
    diagnostics.push({
      severity: 'warning',
      code: 'unused-input',
      message: `the input ${quote(name)} is not used`,
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

/** Every definition of `circle` needs the next one, the last needs the first. */
function circular(circle: readonly { name: string; at: Span }[]): Diagnostic {
  const [first] = circle;
  const steps = circle.map(({ name }, index) => `${name} needs ${circle[(index + 1) % circle.length]!.name}`);
  const shown =
    steps.length <= 6 ? steps : [...steps.slice(0, 3), `... (${steps.length - 4} more)`, steps.at(-1)];
  return {
    severity: 'error',
    code: 'circular',
    message:
      circle.length === 1
        ? `${quote(first!.name)} is defined by itself`
        : `${quote(first!.name)} is defined by itself: ${shown.join(', ')}`,
    at: first!.at,
    hint: 'there is no memory here: give one of these definitions a right side that needs none of the others',
  };
}

function nothingDefined(): Diagnostic {
  return {
    severity: 'error',
    code: 'no-equations',
    message: 'there is no equation here',
    at: null,
    hint: 'write name = expression, as in c1 = g0 + p0 c0',
  };
}
