// From a text, or from a list of rows, to a system, and through the search: the short way that tests take.

import { overrideRails, type RailNames } from '../../src/equations/override-rails.ts';
import { readEquations } from '../../src/equations/read-equations.ts';
import type { Expression, Rail, System } from '../../src/equations/system.ts';
import { outputTicks } from '../../src/network/levels.ts';
import type { Network } from '../../src/network/network.ts';
import type { Effort } from '../../src/search/limits.ts';
import { type Outcome, runSearch } from '../../src/search/run-search.ts';
import { makeTask, type Task } from '../../src/search/task.ts';
import { shippedTarget } from '../../src/target/shipped-targets.ts';
import type { Target } from '../../src/target/target.ts';
import { systemTables } from '../../src/truth/system-tables.ts';

/** The system that a text means; throws when the text has faults. */
export function systemOf(text: string, rails: RailNames = {}): System {
  const read = readEquations(text);
  if (read.value === null) throw new Error(read.diagnostics.map(({ message }) => message).join('\n'));
  const overridden = overrideRails(read.value, rails);
  if (overridden.value === null)
    throw new Error(overridden.diagnostics.map(({ message }) => message).join('\n'));
  return overridden.value;
}

export interface TableWishes {
  /** Rows where the function is free (bit `m` for row `m`). */
  readonly free?: number;
  readonly rails?: readonly Rail[];
  readonly ticks?: readonly number[];
  readonly outputRail?: Rail;
  readonly by?: number | null;
}

/** The system `f(a, b, ...)` with one output that is 1 exactly on the rows in `on`; row bit `i` is input `i`. */
export function tableSystem(inputs: number, on: number, wishes: TableWishes = {}): System {
  const rows = (table: number): Expression => {
    const terms: Expression[] = [];
    for (let row = 0; row < 2 ** inputs; row++) {
      if (((table >>> row) & 1) === 0) continue;
      const literals = Array.from({ length: inputs }, (_, i): Expression => {
        const argument = { kind: 'signal', signal: i } as const;
        return ((row >> i) & 1) === 1 ? argument : { kind: 'not', argument };
      });
      terms.push(literals.length === 0 ? { kind: 'constant', value: 1 } : { kind: 'and', args: literals });
    }
    return terms.length === 0 ? { kind: 'constant', value: 0 } : { kind: 'or', args: terms };
  };
  return {
    signals: [...Array.from({ length: inputs }, (_, i) => 'abcdefgh'[i]), 'f'].map((name, i) =>
      i === inputs ? 'result' : name,
    ),
    inputs: Array.from({ length: inputs }, (_, i) => ({
      signal: i,
      rail: wishes.rails?.[i] ?? 'high',
      tick: wishes.ticks?.[i] ?? 0,
    })),
    outputs: [{ signal: inputs, rail: wishes.outputRail ?? 'high', by: wishes.by ?? null }],
    definitions: [{ signal: inputs, expression: rows(on), at: null }],
    never: wishes.free === undefined || wishes.free === 0 ? [] : [rows(wishes.free)],
  };
}

/** A shipped target by name, with some limits changed. */
export function targetOf(name: string, legs: number | null = null): Target {
  const target = shippedTarget(name);
  if (target === null) throw new Error(`there is no target ${name}`);
  if (legs === null) return target;
  return {
    ...target,
    name: `${name} with ${legs} legs`,
    join: { ...target.join, maxLegs: legs },
    inverter: { ...target.inverter, maxLegs: legs },
  };
}

export function taskOf(system: System, target: Target): Task {
  return makeTask(system, systemTables(system), target);
}

export interface SearchWishes {
  readonly target?: Target;
  readonly ticks?: number | null;
  readonly effort?: Effort;
}

export interface Searched {
  readonly system: System;
  readonly target: Target;
  readonly task: Task;
  readonly outcome: Outcome;
}

/** Runs the search on a text or a system. */
export function search(what: string | System, wishes: SearchWishes = {}): Searched {
  const system = typeof what === 'string' ? systemOf(what) : what;
  const target = wishes.target ?? targetOf('joined-or');
  const task = taskOf(system, target);
  const outcome = runSearch(system, task, target, {
    ticks: wishes.ticks ?? null,
    effort: wishes.effort ?? 'normal',
    seed: 1,
  });
  return { system, target, task, outcome };
}

/** The network that was found; throws when there is none. */
export function foundNetwork({ outcome }: Searched): Network {
  if (outcome.answer === null) throw new Error('no network was found');
  return outcome.answer.network;
}

/** `ticks:parts` of the answer, with a mark behind what was not proved. */
export function figures({ outcome }: Searched): string {
  const { answer } = outcome;
  if (answer === null) return 'none';
  return `${answer.ticks}:${answer.network.size}${answer.sizeProved ? '' : ' (size not proved)'}`;
}

/** `ticks:parts` as written. */
export function writtenFigures({ outcome, task }: Searched): string {
  return `${Math.max(0, ...outputTicks(outcome.asWritten, task.rules))}:${outcome.asWritten.size}`;
}
