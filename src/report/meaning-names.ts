// Which named signals may be parts of the meaning of a wire: the inputs, and what other definitions are made of. The
// outputs of flat equations are not among them, and for one wire only signals that depend on fewer inputs than the
// wire itself: a part is not explained by the whole.

import type { Expression, System } from '../equations/system.ts';
import type { SystemTables } from '../truth/system-tables.ts';
import { support } from '../truth/table.ts';
import type { Named } from './meaning-forms.ts';

export interface Part {
  readonly named: Named;
  /** The inputs it depends on, by number, ascending. */
  readonly needs: readonly number[];
}

/** All parts, in the order of the signals. */
export function partsOf(system: System, tables: SystemTables): Part[] {
  const signals = new Set(system.inputs.map(({ signal }) => signal));
  for (const { expression } of system.definitions) addMentioned(expression, signals);
  return [...signals]
    .sort((a, b) => a - b)
    .map((signal) => ({
      named: { name: system.signals[signal], table: tables.signals[signal] },
      needs: support(tables.signals[signal], tables.inputs),
    }));
}

/** The parts that may explain a wire which depends on the inputs `needs`, without the signal named `own`. */
export function partsFor(parts: readonly Part[], needs: readonly number[], own: string): Named[] {
  return parts
    .filter(({ named, needs: theirs }) => {
      const isSmaller = theirs.length < needs.length && theirs.every((input) => needs.includes(input));
      return isSmaller && named.name !== own;
    })
    .map(({ named }) => named);
}

function addMentioned(e: Expression, signals: Set<number>): void {
  switch (e.kind) {
    case 'constant':
      return;
    case 'signal':
      signals.add(e.signal);
      return;
    case 'not':
      addMentioned(e.argument, signals);
      return;
    case 'implies':
    case 'equals':
      addMentioned(e.left, signals);
      addMentioned(e.right, signals);
      return;
    case 'mux':
      for (const part of [e.select, e.when0, e.when1]) addMentioned(part, signals);
      return;
    default:
      for (const arg of e.args) addMentioned(arg, signals);
  }
}
