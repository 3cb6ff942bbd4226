// From the text of a profile to a target with every default filled in. The shape is judged by the validator generated
// from target.schema.json, its findings are put into words by schema-words.ts, and what a schema cannot say is checked
// here.

import type { Diagnostic, Reading, Span } from '../source/diagnostic.ts';
import { type PlacedJson, readJson } from '../source/json-text.ts';
import { type FileWords, shapeFaults } from './schema-words.ts';
import { JOINED_OR } from './shipped-targets.ts';
import type { Target } from './target.ts';
import type { TargetProfile } from './target-profile.ts';
import { targetProfileFaults } from './target-profile-check.ts';

const PROFILE_WORDS: FileWords = {
  kind: 'target',
  fields: {
    '': Object.keys(JOINED_OR),
    '/join': Object.keys(JOINED_OR.join),
    '/inverter': Object.keys(JOINED_OR.inverter),
    '/inverter/wear': ['changes', 'window'],
    '/input': Object.keys(JOINED_OR.input),
  },
  examples: { name: '"my-target"' },
};

function error(code: string, message: string, at: Span | undefined, hint: string | null): Diagnostic {
  return { severity: 'error', code, message, at: at ?? null, hint };
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
    return { value: null, diagnostics: shapeFaults(shape, json, text, PROFILE_WORDS) };
  }
  const profile = json.value as unknown as TargetProfile;
  const faults = durationFaults(profile, json);
  return { value: faults.length > 0 ? null : withDefaults(profile), diagnostics: faults };
}
