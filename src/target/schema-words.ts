// What the generated validators find, in words: each fault with the JSON path of its field and its place in the text.

import { visible } from '../../grammar/quote.ts';
import type { Diagnostic, Span } from '../source/diagnostic.ts';
import { type JsonValue, type PlacedJson, pointerStep } from '../source/json-text.ts';
import type { SchemaFault } from './schema-fault.ts';

/** What is said of one kind of file. */
export interface FileWords {
  /** What such a file is: `target`. The codes of its faults begin with it. */
  readonly kind: string;
  /** Names of the fields of each object, by JSON pointer. */
  readonly fields: Readonly<Record<string, readonly string[]>>;
  /** A value to show for a field that is missing, by its name. */
  readonly examples: Readonly<Record<string, string>>;
}

const TYPE_WORDS: Readonly<Record<string, string>> = {
  integer: 'a whole number',
  number: 'a number',
  string: 'a text in double quotes',
  object: 'an object in { }',
  null: 'null',
};

/** Longest piece of a wrong value that a message repeats. */
const QUOTED = 40;

/** A place in a JSON value as people write it: `$.inverter.ticks`. */
function jsonPath(pointer: string): string {
  let path = '$';
  for (const step of pointer.split('/').slice(1)) {
    const name = step.replaceAll('~1', '/').replaceAll('~0', '~');
    path += /^[A-Za-z_$][A-Za-z0-9_$]*$/.test(name) ? `.${name}` : `[${visible(JSON.stringify(name))}]`;
  }
  return path;
}

/** The wrong value as it stands in the text, on one line and not too long. */
function quoted(text: string, place: Span | undefined): string {
  if (place === undefined) return 'this';
  const value = visible(text.slice(place.start, place.end).replace(/\s+/g, ' '));
  return value.length <= QUOTED ? value : `${value.slice(0, QUOTED - 3)}...`;
}

function anyOf(words: readonly string[]): string {
  return words.length < 2 ? words.join() : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
}

/** What the broken rule asks for, to follow `must be`. */
function demand(fault: SchemaFault): string {
  const { keyword, params } = fault;
  if (keyword === 'type') {
    const types = Array.isArray(params.type) ? params.type : String(params.type).split(',');
    return anyOf(types.map((type) => TYPE_WORDS[String(type)] ?? String(type)));
  }
  if (keyword === 'enum')
    return anyOf((params.allowedValues as JsonValue[]).map((value) => JSON.stringify(value)));
  if (keyword === 'minimum') return `at least ${params.limit}`;
  if (keyword === 'maximum') return `at most ${params.limit}`;
  if (keyword === 'exclusiveMinimum') return `more than ${params.limit}`;
  return 'letters, digits, dots, dashes and underscores, at most 64, a letter or digit first';
}

function shapeFault(
  fault: SchemaFault,
  json: PlacedJson,
  text: string,
  { kind, fields, examples }: FileWords,
): Diagnostic {
  const pointer = fault.instancePath;
  if (fault.keyword === 'required') {
    const name = String(fault.params.missingProperty);
    const whole = json.places.get(pointer);
    const at = whole && { start: whole.start, end: whole.start + 1 };
    const example = `"${name}": ${examples[name] ?? 4}`;
    const path = jsonPath(pointer + pointerStep(name));
    return error(`${kind}-field-missing`, `${path} is missing`, at, `add ${example} there`);
  }
  if (fault.keyword === 'additionalProperties') {
    const inner = pointer + pointerStep(String(fault.params.additionalProperty));
    const known = fields[pointer];
    const hint = known ? `the fields there are ${known.join(', ')}` : null;
    const message = `${jsonPath(inner)} is not a field of a ${kind}`;
    return error(`${kind}-field-unknown`, message, json.namePlaces.get(inner), hint);
  }
  const place = json.places.get(pointer);
  const message = `${jsonPath(pointer)} must be ${demand(fault)}, not ${quoted(text, place)}`;
  return error(`${kind}-field-value`, message, place, null);
}

function error(code: string, message: string, at: Span | undefined, hint: string | null): Diagnostic {
  return { severity: 'error', code, message, at: at ?? null, hint };
}

/** The faults that a validator found in a JSON text, in the order of their places. */
export function shapeFaults(
  faults: readonly SchemaFault[],
  json: PlacedJson,
  text: string,
  words: FileWords,
): Diagnostic[] {
  return faults
    .map((fault) => shapeFault(fault, json, text, words))
    .sort((a, b) => (a.at?.start ?? 0) - (b.at?.start ?? 0));
}
