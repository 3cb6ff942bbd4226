// From the text of a profile to a target with every default filled in. The shape is judged by the validator generated
// from target.schema.json; here its findings are put into words, each with the JSON path of the field, and what a
// schema cannot say is checked.

import { visible } from '../../grammar/quote.ts';
import type { Diagnostic, Reading, Span } from '../source/diagnostic.ts';
import { type JsonValue, type PlacedJson, pointerStep, readJson } from '../source/json-text.ts';
import type { SchemaFault } from './schema-fault.ts';
import { JOINED_OR } from './shipped-targets.ts';
import type { Target } from './target.ts';
import type { TargetProfile } from './target-profile.ts';
import { targetProfileFaults } from './target-profile-check.ts';

/** Names of the fields of each object of a profile, by JSON pointer. */
const FIELDS: Readonly<Record<string, readonly string[]>> = {
  '': Object.keys(JOINED_OR),
  '/join': Object.keys(JOINED_OR.join),
  '/inverter': Object.keys(JOINED_OR.inverter),
  '/inverter/wear': ['changes', 'window'],
  '/input': Object.keys(JOINED_OR.input),
};

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

function error(code: string, message: string, at: Span | undefined, hint: string | null): Diagnostic {
  return { severity: 'error', code, message, at: at ?? null, hint };
}

function shapeFault(fault: SchemaFault, json: PlacedJson, text: string): Diagnostic {
  const pointer = fault.instancePath;
  if (fault.keyword === 'required') {
    const name = String(fault.params.missingProperty);
    const whole = json.places.get(pointer);
    const at = whole && { start: whole.start, end: whole.start + 1 };
    const example = name === 'name' ? '"name": "my-target"' : `"${name}": 4`;
    const path = jsonPath(pointer + pointerStep(name));
    return error('target-field-missing', `${path} is missing`, at, `add ${example} there`);
  }
  if (fault.keyword === 'additionalProperties') {
    const inner = pointer + pointerStep(String(fault.params.additionalProperty));
    const known = FIELDS[pointer];
    const hint = known ? `the fields there are ${known.join(', ')}` : null;
    const message = `${jsonPath(inner)} is not a field of a target`;
    return error('target-field-unknown', message, json.namePlaces.get(inner), hint);
  }
  const place = json.places.get(pointer);
  const message = `${jsonPath(pointer)} must be ${demand(fault)}, not ${quoted(text, place)}`;
  return error('target-field-value', message, place, null);
}

/** The three durations of an inverter, each filled from the others; `ticks` is the larger of on and off. */
function durations(inverter: NonNullable<TargetProfile['inverter']>) {
  const { ticks, ticksOn, ticksOff } = inverter;
  const whole = ticks ?? Math.max(ticksOn ?? 1, ticksOff ?? 1);
  return { ticks: whole, ticksOn: ticksOn ?? whole, ticksOff: ticksOff ?? whole };
}

function durationFaults(profile: TargetProfile, json: PlacedJson): Diagnostic[] {
  if (profile.inverter?.ticks === undefined) return [];
  const { ticks, ticksOn, ticksOff } = durations(profile.inverter);
  const larger = Math.max(ticksOn, ticksOff);
  if (larger === ticks) return [];
  const message = `$.inverter.ticks must be the larger of ticksOn and ticksOff, ${larger}, not ${ticks}`;
  return [error('target-ticks-differ', message, json.places.get('/inverter/ticks'), 'leave ticks out')];
}

function withDefaults(profile: TargetProfile): Target {
  const inverter = profile.inverter ?? {};
  return {
    name: profile.name,
    summary: profile.summary ?? '',
    join: { ...JOINED_OR.join, ...profile.join },
    inverter: { ...JOINED_OR.inverter, ...inverter, ...durations(inverter) },
    input: { ...JOINED_OR.input, ...profile.input },
    secondsPerTick: profile.secondsPerTick ?? null,
  };
}

/**
 * Reads a target profile.
 *
 * @param text the JSON text.
 * @returns the target with every default filled in, or the faults: of the JSON itself (`json-syntax`, only the first), or
 *   of its fields, all at once, each with its JSON path. All have places in the text.
 */
export function readTarget(text: string): Reading<Target> {
  const read = readJson(text);
  const json = read.value;
  if (json === null) return { value: null, diagnostics: read.diagnostics };
  const shape = targetProfileFaults(json.value);
  if (shape.length > 0) {
    const faults = shape.map((fault) => shapeFault(fault, json, text));
    faults.sort((a, b) => (a.at?.start ?? 0) - (b.at?.start ?? 0));
    return { value: null, diagnostics: faults };
  }
  const profile = json.value as unknown as TargetProfile;
  const faults = durationFaults(profile, json);
  return { value: faults.length > 0 ? null : withDefaults(profile), diagnostics: faults };
}
