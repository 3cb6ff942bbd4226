// Which freedom may really be used. A free row is one choice, and every other equation sees the signal that was built.
// A signal that nothing else mentions can be built either way without further ado; one that others mention keeps to its
// definition, so that they see what they see in the text. So does one that is wanted on two wires, which must agree.

import type { Expression, System } from './system.ts';

/** By signal: where it may be built as 0 or as 1, a list of expressions of which any being 1 is enough. */
export function usableFreedom(system: System): ReadonlyMap<number, readonly Expression[]> {
  const freedom = new Map<number, Expression[]>();
  if (system.free === undefined) return freedom;
  const mentioned = new Uint8Array(system.signals.length);
  for (const { expression } of system.definitions) markMentions(expression, mentioned);
  for (const { expression } of system.free) markMentions(expression, mentioned);
  for (const { signal, expression } of system.claims ?? []) {
    // A claim about a signal is not asked where that signal is free, so it may mention it.
    const before = mentioned[signal];
    markMentions(expression, mentioned);
    mentioned[signal] = before;
  }
  for (const expression of system.never) markMentions(expression, mentioned);
  for (const { signal, rail } of system.outputs) if (rail === 'both') mentioned[signal] = 1;
  for (const { signal, expression } of system.free) {
    if (mentioned[signal] === 1) continue;
    const known = freedom.get(signal);
    if (known === undefined) freedom.set(signal, [expression]);
    else known.push(expression);
  }
  return freedom;
}

function markMentions(e: Expression, mentioned: Uint8Array): void {
  switch (e.kind) {
    case 'constant':
      return;
    case 'signal':
      mentioned[e.signal] = 1;
      return;
    case 'not':
      markMentions(e.argument, mentioned);
      return;
    case 'implies':
    case 'equals':
      markMentions(e.left, mentioned);
      markMentions(e.right, mentioned);
      return;
    case 'mux':
      markMentions(e.select, mentioned);
      markMentions(e.when0, mentioned);
      markMentions(e.when1, mentioned);
      return;
    default:
      for (const arg of e.args) markMentions(arg, mentioned);
  }
}
