// The plan of a batch: what is done with every system, read from a file and completed with defaults.

import type { Reading } from '../source/diagnostic.ts';
import { readJson } from '../source/json-text.ts';
import { shapeFaults } from '../target/schema-words.ts';
import type { Target } from '../target/target.ts';
import type { Effort } from '../tickwright.ts';
import type { BatchPlanFile } from './plan-file.ts';
import { planFaults } from './plan-file-check.ts';

export interface Plan {
  readonly target: Target;
  readonly effort: Effort;
  /** At least one. */
  readonly seeds: readonly number[];
  readonly ticks: number | null;
  readonly parts: number | null;
  /** So many times the parts of the smallest network; null for the usual. */
  readonly budget: number | null;
  readonly frontier: boolean;
  readonly keep: 'figures' | 'networks';
  readonly limits: { readonly inputs?: number; readonly outputs?: number; readonly operators?: number };
}

const FIELDS = ['target', 'effort', 'seeds', 'ticks', 'parts', 'budget', 'frontier', 'keep', 'limits'];

/**
 * Reads a plan file.
 *
 * @param text JSON.
 * @returns the fields that it has, or its faults with places in the text.
 */
export function readPlan(text: string): Reading<BatchPlanFile> {
  const { value: json, diagnostics } = readJson(text);
  if (json === null) return { value: null, diagnostics };
  const shape = planFaults(json.value);
  if (shape.length > 0) {
    const words = {
      kind: 'plan',
      fields: { '': FIELDS, '/limits': ['inputs', 'outputs', 'operators'] },
      examples: {},
    };
    return { value: null, diagnostics: shapeFaults(shape, json, text, words) };
  }
  const plan = json.value as BatchPlanFile;
  const wishes = (['ticks', 'parts', 'budget', 'frontier'] as const).filter((field) =>
    field === 'frontier' ? plan.frontier === true : plan[field] !== undefined,
  );
  const [first, second] = wishes;
  if (first === undefined || second === undefined || first === 'budget' || second === 'frontier')
    return { value: plan, diagnostics: [] };
  const message = `the plan asks for ${first} and for ${second}, and only one of them can be met`;
  const at = json.namePlaces.get(`/${second}`) ?? null;
  return {
    value: null,
    diagnostics: [{ severity: 'error', code: 'plan-wishes', message, at, hint: 'leave one of them out' }],
  };
}

/** A plan with every default filled in. */
export function completePlan(file: BatchPlanFile, target: Target): Plan {
  return {
    target,
    effort: file.effort ?? 'normal',
    seeds: file.seeds ?? [1],
    ticks: file.ticks ?? null,
    parts: file.parts ?? null,
    budget: file.budget ?? null,
    frontier: file.frontier ?? false,
    keep: file.keep ?? 'networks',
    limits: file.limits ?? {},
  };
}
