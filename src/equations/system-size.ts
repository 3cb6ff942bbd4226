// How large a system may be. Reading is quick at any size, but tables, networks and proofs grow with inputs, outputs and
// operators; beyond these limits a search would take hours and gigabytes, so it is refused at once and in words.

import type { Diagnostic } from '../source/diagnostic.ts';
import type { Expression, System } from './system.ts';

/** Inputs, outputs and operators of a system that is searched. */
export const MOST_IN_A_SYSTEM = { inputs: 1000, outputs: 1000, operators: 20_000 } as const;

/**
 * Operators of a system, and those that hang together of one with too many inputs for whole tables, that are searched
 * without being asked for; an effort of `deep` takes MOST_IN_A_SYSTEM.
 */
export const MOST_UNASKED = { operators: 8_000, together: 4_000 } as const;

/** Up to so many inputs every operator is quick, as in truth tables of all their rows. */
const FEW_INPUTS = 10;

/** How many inputs, outputs and operators a system has. */
export function sizeOf(system: System): Record<keyof typeof MOST_IN_A_SYSTEM, number> {
  return {
    inputs: system.inputs.length,
    outputs: system.outputs.length,
    operators: operatorCount(system),
  };
}

/** What is too many of a system, or null. */
export function tooLarge(system: System, isDeep: boolean): Diagnostic | null {
  const counts = sizeOf(system);
  for (const what of ['inputs', 'outputs', 'operators'] as const) {
    const most = MOST_IN_A_SYSTEM[what];
    if (counts[what] <= most) continue;
    return refused(
      `these equations have ${counts[what]} ${what}, and at most ${most} can be searched together`,
      'cut them into parts that are searched one by one, each in a file of its own',
    );
  }
  const most = MOST_UNASKED.operators;
  if (isDeep || counts.operators <= most || counts.inputs <= FEW_INPUTS) return null;
  return refused(
    `these equations have ${counts.operators} operators, and at most ${most} are searched without being asked for`,
    ASK,
  );
}

/** The same for operators that hang together, of a system without whole tables. */
export function tooLargeTogether({ inputs }: System, operators: number): Diagnostic {
  const most = MOST_UNASKED.together;
  return refused(
    `these equations have ${operators} operators that hang together over ${inputs.length} inputs, and at most ${most} are searched without being asked for`,
    ASK,
  );
}

const ASK = `cut them into parts, or ask with --effort deep, which takes up to ${MOST_IN_A_SYSTEM.operators} and may take hours`;

function refused(message: string, hint: string): Diagnostic {
  return { severity: 'error', code: 'too-large', message, at: null, hint };
}

/** All operators of a system, those of `never` lines and of free patterns too. */
export function operatorCount({ definitions, never, free = [] }: System): number {
  const expressions = [...definitions, ...free].map(({ expression }) => expression);
  return [...expressions, ...never].reduce((sum, expression) => sum + operatorsOf(expression), 0);
}

/** Operators of an expression; one over n operands counts as n - 1, and at least as one. */
function operatorsOf(expression: Expression): number {
  let count = 0;
  const left = [expression];
  for (let e = left.pop(); e !== undefined; e = left.pop()) {
    switch (e.kind) {
      case 'constant':
      case 'signal':
        break;
      case 'not':
        count++;
        left.push(e.argument);
        break;
      case 'equals':
      case 'implies':
        count++;
        left.push(e.left, e.right);
        break;
      case 'mux':
        count += 3;
        left.push(e.select, e.when0, e.when1);
        break;
      default:
        count += Math.max(1, e.args.length - 1);
        for (const arg of e.args) left.push(arg);
    }
  }
  return count;
}
