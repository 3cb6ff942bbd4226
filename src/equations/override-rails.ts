// Rails from outside the text, from the command line say: they take the place of those in the declarations.

import { RAIL_WORDS } from '../../grammar/operators.ts';
import { quote } from '../../grammar/quote.ts';
import type { Diagnostic, Reading } from '../source/diagnostic.ts';
import { nearestName } from './nearest-name.ts';
import { splitName } from './statements.ts';
import type { Rail, System } from './system.ts';

/** For each rail the names of the inputs and outputs that shall have it. */
export type RailNames = { readonly [rail in Rail]?: readonly string[] | undefined };

/**
 * The system with other rails. `a` stands for every bit of a bus, `a[7:0]` for those of a range. Names must be inputs or outputs of it; a name of an internal signal, an unknown name or
 * a name under two rails is an error, and `value` is then null. Diagnostics have no place: no text stands behind them.
 */
export function overrideRails(system: System, names: RailNames): Reading<System> {
  const diagnostics: Diagnostic[] = [];
  const external = new Map<string, number>();
  for (const { signal } of [...system.inputs, ...system.outputs])
    external.set(system.signals[signal]!, signal);
  const internal = new Set(system.signals.filter((name) => !external.has(name)));

  const chosen = new Map<number, Rail>();
  for (const rail of RAIL_WORDS) {
    for (const name of (names[rail] ?? []).flatMap((given) => bitsOf(given, external))) {
      const signal = external.get(name);
      const before = signal === undefined ? undefined : chosen.get(signal);
      if (signal === undefined) diagnostics.push(notExternal(name, rail, internal, [...external.keys()]));
      else if (before !== undefined && before !== rail) diagnostics.push(twoRails(name, before, rail));
      else chosen.set(signal, rail);
    }
  }
  if (diagnostics.length > 0) return { value: null, diagnostics };
  return {
    value: {
      ...system,
      inputs: system.inputs.map((input) => ({ ...input, rail: chosen.get(input.signal) ?? input.rail })),
      outputs: system.outputs.map((output) => ({
        ...output,
        rail: chosen.get(output.signal) ?? output.rail,
      })),
    },
    diagnostics,
  };
}

/** The names that `given` stands for. */
function bitsOf(given: string, external: ReadonlyMap<string, number>): readonly string[] {
  if (external.has(given)) return [given];
  const range = /^([A-Za-z_]\w*)(?:\[\s*(-?[0-9]{1,6})\s*:\s*(-?[0-9]{1,6})\s*\])?$/.exec(given);
  if (range === null) return [given];
  const [, base, from, to] = range;
  const low = from === undefined ? Number.NEGATIVE_INFINITY : Math.min(Number(from), Number(to));
  const high = to === undefined ? Number.POSITIVE_INFINITY : Math.max(Number(from), Number(to));
  const bits = [...external.keys()].filter((name) => {
    const split = splitName(name);
    return split !== null && split.base === base && split.index >= low && split.index <= high;
  });
  // A range must be there as a whole.
  return bits.length === 0 || (to !== undefined && bits.length <= high - low) ? [given] : bits;
}

function notExternal(
  name: string,
  rail: Rail,
  internal: ReadonlySet<string>,
  external: string[],
): Diagnostic {
  if (internal.has(name)) {
    return {
      severity: 'error',
      code: 'internal-rail',
      message: `${quote(name)} cannot be made "${rail}": it is an internal signal, and its rail is for the search to choose`,
      at: null,
      hint: `rails can be set for inputs and outputs: ${listed(external)}`,
    };
  }
  const near = nearestName(name, external);
  return {
    severity: 'error',
    code: 'unknown-name',
    message: `there is no input or output ${quote(name)} to be made "${rail}"`,
    at: null,
    hint: near === null ? `inputs and outputs are ${listed(external)}` : `did you mean ${quote(near)}?`,
  };
}

function twoRails(name: string, first: Rail, second: Rail): Diagnostic {
  return {
    severity: 'error',
    code: 'two-rails',
    message: `${quote(name)} is to be "${first}" and "${second}" at once`,
    at: null,
    hint: 'name it once; for two wires of opposite level say "both"',
  };
}

function listed(names: readonly string[]): string {
  return names.length <= 8
    ? names.join(', ')
    : `${names.slice(0, 8).join(', ')} and ${names.length - 8} more`;
}
