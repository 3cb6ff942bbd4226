// From text to a system: the entry of this folder. Every fault of the text is found in one reading, those of syntax
// first (grammar/), then loops and ranges, then what is said twice, then names, functions, circles and outputs; a
// statement with a fault still counts as defining its name, so that one fault does not bring others after it.

import { cutBlocks } from '../../grammar/blocks.ts';
import { type ParseOptions, parseEquations } from '../../grammar/parse-equations.ts';
import { quote } from '../../grammar/quote.ts';
import type { Node, Side } from '../../grammar/syntax.ts';
import type { Diagnostic, Reading, Span } from '../source/diagnostic.ts';
import { buildSystem } from './build-system.ts';
import { besideBuses, busesOf } from './check-buses.ts';
import { checkKnown, checkListed, checkOutputs, checkUnused } from './check-names.ts';
import {
  type Collected,
  type CollectedDefinition,
  collectStatements,
  type ListedName,
} from './collect-statements.ts';
import { type Mentions, mentionsOf } from './mentions.ts';
import { orderDefinitions } from './order-definitions.ts';
import { looksLikeTables, readTables } from './read-tables.ts';
import type { System } from './system.ts';
import { type Rows, readRows } from './table-rows.ts';
import { unrollLoops } from './unroll-loops.ts';

export type { ParseOptions } from '../../grammar/parse-equations.ts';

/**
 * Reads equations and their declarations, or tables for programs when `text` is JSON (read-tables.ts). `value` is null
 * exactly when a diagnostic is an error. Diagnostics stand in the order of the text, places are offsets into `text`.
 * Never throws for bad text.
 */
export function readEquations(text: string, options: ParseOptions = {}): Reading<System> {
  if (looksLikeTables(text)) return readTables(text);
  const { rest, blocks } = cutBlocks(text);
  const parsed = parseEquations(rest, options);
  const diagnostics: Diagnostic[] = [...parsed.faults];
  const collected = collectStatements(unrollLoops(parsed, rest, diagnostics), diagnostics);
  const names = [...collected.definitions.values()];
  const indexOf = new Map(names.map(({ name }, index) => [name, index]));
  const mentions = names.map(({ list, sides }) => {
    const found = mentionsOfList(list);
    addMentions(found, sides[0]?.expression ?? null, diagnostics);
    return found;
  });
  const withClaims = names.map(({ sides }, index) => {
    if (sides.length < 2) return mentions[index]!;
    const found: Mentions = new Map(mentions[index]);
    for (const { expression } of sides.slice(1)) addMentions(found, expression, diagnostics);
    return found;
  });
  const free = collected.free.map(({ expression }) => addMentions(new Map(), expression, diagnostics));
  const never = collected.never.map(({ expression }) => addMentions(new Map(), expression, diagnostics));
  const mentioned: Mentions = new Map();
  for (const found of [...withClaims, ...free, ...never]) {
    for (const [name, at] of found) if (!mentioned.has(name)) mentioned.set(name, at);
  }
  const buses = busesOf([...collected.inputs.keys(), ...collected.definitions.keys()]);
  if (collected.declaresInputs) checkKnown(collected, mentioned, buses, diagnostics);
  checkListed(collected, withClaims, diagnostics);
  checkOutputs(collected, mentioned, diagnostics);
  const rows = readAllRows(names, diagnostics);

  const needs = mentions.map((mention) => indicesOf(mention, indexOf));
  collected.free.forEach(({ name, at }, index) => {
    const owner = indexOf.get(name);
    if (owner === undefined) diagnostics.push(freeUndefined(name, at));
    else for (const need of indicesOf(free[index]!, indexOf)) needs[owner]!.push(need);
  });
  const { order, circles } = orderDefinitions(needs);
  for (const circle of circles) diagnostics.push(circular(circle.map((index) => names[index]!)));

  if (!hasError(diagnostics) && names.length === 0) diagnostics.push(nothingDefined(blocks.length > 0));
  if (hasError(diagnostics)) return { value: null, diagnostics: inTextOrder(diagnostics) };
  checkUnused(collected, mentioned, diagnostics);
  if (buses.size > 0 || busesOf(mentioned.keys()).size > 0) {
    diagnostics.push(...besideBuses(allNames(collected, mentioned)));
  }
  return { value: buildSystem(collected, mentioned, order, rows), diagnostics: inTextOrder(diagnostics) };
}

/** Adds what `expression` mentions to `found`, and returns it. */
function addMentions(found: Mentions, expression: Node | null, diagnostics: Diagnostic[]): Mentions {
  if (expression === null) return found;
  for (const [name, at] of mentionsOf(expression, diagnostics)) if (!found.has(name)) found.set(name, at);
  return found;
}

function mentionsOfList(list: readonly ListedName[] | null): Mentions {
  return new Map((list ?? []).map(({ name, start, end }) => [name, { start, end }]));
}

function indicesOf(mentions: Mentions, indexOf: ReadonlyMap<string, number>): number[] {
  return [...mentions.keys()].map((name) => indexOf.get(name)).filter((index) => index !== undefined);
}

/** The rows of every side of every definition that is a table. */
function readAllRows(
  definitions: readonly CollectedDefinition[],
  diagnostics: Diagnostic[],
): ReadonlyMap<Side, Rows> {
  const all = new Map<Side, Rows>();
  for (const { name, at, list, sides } of definitions) {
    if (list === null) continue;
    const names = new Set<string>();
    const twice = list.find((listed) => names.size === names.add(listed.name).size);
    if (twice !== undefined) diagnostics.push(listedTwice(name, twice));
    for (const side of sides) {
      const rows =
        side.table === null || twice !== undefined ? null : readRows(side.table, names.size, at, diagnostics);
      if (rows !== null) all.set(side, rows);
    }
  }
  return all;
}

function allNames(collected: Collected, mentioned: Mentions): Mentions {
  const all: Mentions = new Map(mentioned);
  const places = [...collected.inputs.values(), ...collected.outputs.values()];
  for (const { name, start, end } of places) if (!all.has(name)) all.set(name, { start, end });
  for (const { name, at } of collected.definitions.values()) if (!all.has(name)) all.set(name, at);
  return all;
}

function hasError(diagnostics: readonly Diagnostic[]): boolean {
  return diagnostics.some((diagnostic) => diagnostic.severity === 'error');
}

function inTextOrder(diagnostics: readonly Diagnostic[]): Diagnostic[] {
  // A fault inside a loop comes back in every pass.
  const seen = new Set<string>();
  const first = diagnostics.filter(({ code, at }) => {
    const key = at === null ? '' : `${code} ${at.start} ${at.end}`;
    if (key !== '' && seen.has(key)) return false;
    seen.add(key);
    return true;
  });
  return first.sort((a, b) => (a.at?.start ?? 0) - (b.at?.start ?? 0));
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

function nothingDefined(hasBlocks: boolean): Diagnostic {
  if (hasBlocks) {
    return {
      severity: 'error',
      code: 'no-equations',
      message: 'there are only blocks here, and no equation outside of them',
      at: null,
      hint: 'the commands check and conflicts read built blocks; plan reads blocks of equations',
    };
  }
  return {
    severity: 'error',
    code: 'no-equations',
    message: 'there is no equation here',
    at: null,
    hint: 'write name = expression, as in c1 = g0 + p0 c0',
  };
}

function freeUndefined(name: string, at: Span): Diagnostic {
  return {
    severity: 'error',
    code: 'free-undefined',
    message: `${quote(name)} is to be free, but it is never defined`,
    at,
    hint: 'for patterns of inputs that cannot happen write never expression',
  };
}

function listedTwice(name: string, twice: ListedName): Diagnostic {
  return {
    severity: 'error',
    code: 'declared-twice',
    message: `${quote(twice.name)} stands twice behind ${quote(name)}`,
    at: { start: twice.start, end: twice.end },
    hint: 'name each once; the first is the most significant',
  };
}
