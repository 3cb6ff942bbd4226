// What free patterns mean for the proof. A definition that is not fixed on some patterns may be built there either way;
// it is one choice, and every other equation sees the signal that was built. So the proof has to know what was built:
//
// - A free signal that the network delivers shows it: its own output wire has the level that was chosen. Wherever the
//   signal is free, the other equations are read with that level, and a second wire of the signal must agree with it.
// - A free signal that is no output leaves no trace. The network is right on a pattern when there is any choice of such
//   signals under which all outputs are right. So every combination of choices is tried, as long as these are few
//   (`MOST_HIDDEN`); further ones keep to their definition, and then a difference is no proof of one.
//
// `never` is about what happens outside. Whether a pattern can happen does not depend on what is built, so `never` is read
// with the definitions as they stand, and only the freedom that reaches an output counts here.

import type { Expression, System } from '../equations/system.ts';
import type { Network } from '../network/network.ts';

/** Hidden signals whose choices are tried, 2^so many combinations. */
const MOST_HIDDEN = 4;

/** Why a difference is then not told. */
export const TOO_MANY_CHOICES = 'free signals that are no outputs leave too many choices to try them all';

export interface FreeChoices {
  /** Patterns on which a signal is free, by signal: any of the expressions is 1. */
  readonly free: ReadonlyMap<number, readonly Expression[]>;
  /** The output wire that shows what was built of a free signal, by signal. */
  readonly shownBy: ReadonlyMap<number, number>;
  /** The combinations to try: what is built of every hidden free signal. One empty combination when there is none. */
  readonly combinations: readonly ReadonlyMap<number, 0 | 1>[];
  /** Every choice that matters is tried, so a difference is one indeed. */
  readonly complete: boolean;
  /** Signals whose value depends on what was built, by signal number. */
  readonly dependent: Uint8Array;
}

/** The choices that a network leaves open. The network must have passed `deliveryFault`. */
export function freeChoices(system: System, network: Network): FreeChoices {
  const free = new Map<number, Expression[]>();
  const dependent = new Uint8Array(system.signals.length);
  const reaching = signalsThatReach(system);
  for (const { signal, expression } of system.free ?? []) {
    if (reaching[signal] === 0) continue;
    dependent[signal] = 1;
    free.set(signal, [...(free.get(signal) ?? []), expression]);
  }
  const shownBy = new Map<number, number>();
  network.outputs.forEach(({ signal }, y) => {
    if (free.has(signal) && !shownBy.has(signal)) shownBy.set(signal, y);
  });
  const hidden = [...free.keys()].filter((signal) => !shownBy.has(signal));
  for (const signal of hidden.slice(MOST_HIDDEN)) free.delete(signal);
  for (const { signal, expression } of system.definitions) {
    const parts = [expression, ...(free.get(signal) ?? [])];
    if (parts.some((part) => mentions(part, (other) => dependent[other] === 1))) dependent[signal] = 1;
  }
  const open = hidden.slice(0, MOST_HIDDEN);
  const combinations = Array.from(
    { length: 2 ** open.length },
    (_, n) => new Map(open.map((signal, i): [number, 0 | 1] => [signal, ((n >> i) & 1) as 0 | 1])),
  );
  return { free, shownBy, combinations, complete: hidden.length <= MOST_HIDDEN, dependent };
}

/** By signal number: 1 for outputs and for what their definitions and free patterns need. */
function signalsThatReach(system: System): Uint8Array {
  const reaching = new Uint8Array(system.signals.length);
  for (const { signal } of system.outputs) reaching[signal] = 1;
  const mark = (signal: number): boolean => {
    reaching[signal] = 1;
    return false;
  };
  for (let i = system.definitions.length - 1; i >= 0; i--) {
    const { signal, expression } = system.definitions[i];
    if (reaching[signal] === 0) continue;
    mentions(expression, mark);
    for (const freedom of system.free ?? [])
      if (freedom.signal === signal) mentions(freedom.expression, mark);
  }
  return reaching;
}

/** Is any signal that the expression mentions one that is asked for? */
function mentions(e: Expression, asked: (signal: number) => boolean): boolean {
  switch (e.kind) {
    case 'constant':
      return false;
    case 'signal':
      return asked(e.signal);
    case 'not':
      return mentions(e.argument, asked);
    case 'implies':
    case 'equals':
      return [e.left, e.right].some((part) => mentions(part, asked));
    case 'mux':
      return [e.select, e.when0, e.when1].some((part) => mentions(part, asked));
    default:
      return e.args.some((part) => mentions(part, asked));
  }
}
