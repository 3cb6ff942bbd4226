// The invariants of a system as something that can be run. Tests call it on everything they build, and whoever makes
// a system by program can call it before handing the system on.

import type { Expression, System } from './system.ts';

const RAILS: readonly string[] = ['high', 'low', 'either', 'both'];

/** What is wrong with `system`, one sentence each; empty when it is sound. Walks every expression once. */
export function systemFaults(system: System): string[] {
  const faults: string[] = [];
  const { signals } = system;
  if (new Set(signals).size !== signals.length) faults.push('two signals have one name');
  if (signals.some((name) => name === '')) faults.push('a signal has no name');

  const known = new Uint8Array(signals.length);
  for (const { signal, rail, tick } of system.inputs) {
    if (!(signal in signals)) faults.push(`input: there is no signal ${signal}`);
    else if (known[signal] === 1) faults.push(`input: "${signals[signal]}" is declared twice`);
    known[signal] = 1;
    if (!RAILS.includes(rail)) faults.push(`input: "${signals[signal]}" has no such rail as "${rail}"`);
    if (!isTick(tick)) faults.push(`input: "${signals[signal]}" arrives at ${tick}, not a tick`);
  }
  const defined = new Set<number>();
  const freeOf = freedomsBySignal(system);
  for (const { signal, expression } of system.definitions) {
    const where = `definition of "${signals[signal]}"`;
    if (!(signal in signals)) faults.push(`definition: there is no signal ${signal}`);
    else if (known[signal] === 1) faults.push(`${where}: an input, or defined before`);
    checkExpression(expression, known, where, faults);
    for (const free of freeOf.get(signal) ?? []) {
      checkExpression(free, known, `free patterns of "${signals[signal]}"`, faults);
    }
    known[signal] = 1;
    defined.add(signal);
  }
  signals.forEach((name, signal) => {
    if (known[signal] === 0) faults.push(`"${name}" is neither an input nor defined`);
  });
  const outputs = new Set<number>();
  for (const { signal, rail, by } of system.outputs) {
    if (!defined.has(signal)) faults.push(`output: "${signals[signal]}" is not defined`);
    if (outputs.has(signal)) faults.push(`output: "${signals[signal]}" stands twice`);
    outputs.add(signal);
    if (!RAILS.includes(rail)) faults.push(`output: "${signals[signal]}" has no such rail as "${rail}"`);
    if (by !== null && !isTick(by))
      faults.push(`output: "${signals[signal]}" is wanted by ${by}, not a tick`);
  }
  system.never.forEach((expression, index) => {
    checkExpression(expression, known, `never number ${index}`, faults);
  });
  for (const { signal, expression } of system.claims ?? []) {
    checkExpression(expression, known, `claim about "${signals[signal]}"`, faults);
  }
  checkOrder('free', system.free ?? [], system, faults);
  checkOrder('claims', system.claims ?? [], system, faults);
  if (system.neverAt !== undefined && system.neverAt.length !== system.never.length) {
    faults.push('neverAt has not the length of never');
  }
  return faults;
}

function freedomsBySignal({ free = [] }: System): Map<number, Expression[]> {
  const bySignal = new Map<number, Expression[]>();
  for (const { signal, expression } of free) {
    const before = bySignal.get(signal);
    if (before === undefined) bySignal.set(signal, [expression]);
    else before.push(expression);
  }
  return bySignal;
}

/** Entries stand in the order of the definitions, and each belongs to one. */
function checkOrder(
  what: string,
  entries: readonly { readonly signal: number }[],
  { definitions, signals }: System,
  faults: string[],
): void {
  const place = new Map(definitions.map(({ signal }, index) => [signal, index]));
  let last = 0;
  for (const { signal } of entries) {
    const at = place.get(signal);
    if (at === undefined) faults.push(`${what}: "${signals[signal]}" is not defined`);
    else if (at < last) faults.push(`${what}: "${signals[signal]}" stands out of order`);
    else last = at;
  }
}

function isTick(value: number): boolean {
  return Number.isInteger(value) && value >= 0;
}

function checkExpression(expression: Expression, known: Uint8Array, where: string, faults: string[]): void {
  const check = (argument: Expression): void => checkExpression(argument, known, where, faults);
  switch (expression.kind) {
    case 'constant':
      if (expression.value !== 0 && expression.value !== 1)
        faults.push(`${where}: a constant that is not 0 or 1`);
      return;
    case 'signal':
      if (known[expression.signal] !== 1)
        faults.push(`${where}: mentions signal ${expression.signal} too early`);
      return;
    case 'not':
      check(expression.argument);
      return;
    case 'implies':
    case 'equals':
      check(expression.left);
      check(expression.right);
      return;
    case 'mux':
      check(expression.select);
      check(expression.when0);
      check(expression.when1);
      return;
    default:
      if (expression.args.length === 0) faults.push(`${where}: ${expression.kind} without arguments`);
      if (expression.kind === 'maj' && (expression.args as readonly Expression[]).length !== 3) {
        faults.push(`${where}: maj has not three arguments`);
      }
      expression.args.forEach(check);
  }
}
