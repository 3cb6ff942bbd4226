// Blocks of equations put together: which signals run between them, on which rails, and what each block comes to. Every
// block is proved against its own equations.

import { cutBlocks, isBlank } from '../../grammar/blocks.ts';
import { quote } from '../../grammar/quote.ts';
import { orderDefinitions } from '../equations/order-definitions.ts';
import { readEquations } from '../equations/read-equations.ts';
import type { Expression, System } from '../equations/system.ts';
import {
  inputNames,
  outputNames,
  type Plan,
  type PlanBlock,
  type PlannedRail,
  type PlanOptions,
  type PlanSignal,
  planRails,
} from '../polarity/plan.ts';
import { prove } from '../proof/prove.ts';
import type { Diagnostic } from '../source/diagnostic.ts';
import { MAX_INPUTS } from '../truth/table.ts';
import type { Painter } from './painter.ts';
import { counted, prose } from './paragraph.ts';

export interface PlanSource {
  readonly name: string;
  readonly text: string;
}

export interface PlanReport {
  readonly format: 'tickwright.plan/1';
  readonly target: string;
  readonly signals: readonly PlanSignal[];
  readonly blocks: readonly {
    readonly name: string;
    readonly parts: number;
    readonly outputs: Plan['blocks'][number]['outputs'];
    readonly proof: 'equal' | 'different' | 'undecided';
  }[];
  readonly ticks: number;
  readonly parts: number;
  readonly priced: number;
  readonly choices: number;
}

export interface Planned {
  readonly report: PlanReport | null;
  /** Diagnostics of each source, in their order; null where a fault is of all of them together. */
  readonly diagnostics: readonly { readonly source: PlanSource | null; readonly diagnostic: Diagnostic }[];
}

/** Reads all blocks of all sources and plans the rails between them. */
export function planBlocks(
  sources: readonly PlanSource[],
  given: ReadonlyMap<string, PlannedRail>,
  options: PlanOptions,
): Planned {
  const diagnostics: { source: PlanSource | null; diagnostic: Diagnostic }[] = [];
  const read: (PlanBlock & { readonly declares: boolean })[] = [];
  for (const source of sources) {
    const { rest, blocks, faults } = cutBlocks(source.text);
    for (const diagnostic of faults) diagnostics.push({ source, diagnostic });
    const texts = blocks
      .filter(({ kind }) => kind === 'block')
      .map(({ name, inside }) => ({ name, text: inside }));
    if (!isBlank(rest)) texts.push({ name: source.name, text: rest });
    for (const { name, text } of texts) {
      const { value, diagnostics: found } = readEquations(text);
      for (const diagnostic of found) diagnostics.push({ source, diagnostic });
      const label = name === '' ? `block ${read.length + 1}` : name;
      if (value !== null) read.push({ name: label, system: value, declares: /\boutput\b/i.test(text) });
    }
  }
  const fail = (): Planned => ({ report: null, diagnostics });
  const whole = (code: string, message: string, hint: string): Planned => {
    diagnostics.push({ source: null, diagnostic: { severity: 'error', code, message, at: null, hint } });
    return fail();
  };
  if (diagnostics.some(({ diagnostic }) => diagnostic.severity === 'error')) return fail();
  if (read.length < 2) {
    return whole(
      'no-blocks',
      'there are no two blocks here',
      'write block name { equations }, or give several files',
    );
  }
  const makers = new Map<string, string>();
  for (const { name, system } of read) {
    for (const output of outputNames(system)) {
      const other = makers.get(output);
      if (other !== undefined) {
        const message = `${quote(output)} is made by ${other} and by ${name}`;
        return whole(
          'made-twice',
          message,
          'give one of them another name, or list outputs in an "output" line',
        );
      }
      makers.set(output, name);
    }
  }
  const taken = new Set(read.flatMap(({ system }) => inputNames(system)));
  const trimmed = read.map(({ name, system, declares }) => ({
    name,
    system: declares ? system : withoutInner(system, taken),
  }));
  const wide = trimmed.find(({ system }) => system.inputs.length > MAX_INPUTS);
  if (wide !== undefined) {
    return whole('too-wide', `${wide.name} has more than ${MAX_INPUTS} inputs`, 'cut it into smaller blocks');
  }
  const needs = trimmed.map(({ system }) =>
    trimmed.flatMap((maker, n) =>
      outputNames(maker.system).some((name) => inputNames(system).includes(name)) ? [n] : [],
    ),
  );
  const { order, circles } = orderDefinitions(needs.map((list, n) => list.filter((other) => other !== n)));
  if (circles.length > 0) {
    const names = circles[0].map((n) => trimmed[n].name).join(', ');
    return whole('circular', `these blocks feed each other in a circle: ${names}`, 'there is no memory here');
  }
  const blocks = order.map((n) => trimmed[n]);
  const plan = planRails(blocks, givenRails(blocks, given), options);
  if (plan === null)
    return whole('deadline-missed', 'no network of a block keeps its deadline', 'leave out "by"');
  const report: PlanReport = {
    format: 'tickwright.plan/1',
    target: options.target.name,
    signals: plan.signals,
    blocks: plan.blocks.map(({ name, parts, outputs, system, network }) => ({
      name,
      parts,
      outputs,
      proof: prove(system, network, options.target.join.logic).verdict,
    })),
    ticks: plan.ticks,
    parts: plan.parts,
    priced: plan.priced,
    choices: plan.choices,
  };
  return { report, diagnostics };
}

/** Without an `output` line only what other blocks take, and what the block itself does not use, leaves it. */
function withoutInner(system: System, taken: ReadonlySet<string>): System {
  const used = new Set<number>();
  const mark = (e: Expression): void => {
    if (e.kind === 'signal') used.add(e.signal);
    else if (e.kind === 'not') mark(e.argument);
    else if (e.kind === 'implies' || e.kind === 'equals') [e.left, e.right].forEach(mark);
    else if (e.kind === 'mux') [e.select, e.when0, e.when1].forEach(mark);
    else if (e.kind !== 'constant') e.args.forEach(mark);
  };
  for (const { expression } of system.definitions) mark(expression);
  const outputs = system.outputs.filter(
    ({ signal }) => !used.has(signal) || taken.has(system.signals[signal]),
  );
  return { ...system, outputs };
}

/** Rails from the command line, and those that a block declares to be active-low. */
function givenRails(
  blocks: readonly PlanBlock[],
  given: ReadonlyMap<string, PlannedRail>,
): Map<string, PlannedRail> {
  const rails = new Map<string, PlannedRail>();
  for (const { system } of blocks) {
    for (const { signal, rail } of [...system.inputs, ...system.outputs]) {
      if (rail === 'low') rails.set(system.signals[signal], 'low');
    }
  }
  for (const [name, rail] of given) rails.set(name, rail);
  return rails;
}

/** The plan on a screen; ends with a line feed. */
export function planText(report: PlanReport, painter: Painter): string {
  const { signals, blocks, ticks, parts, priced, choices } = report;
  const head = `${counted(blocks.length, 'block')}, target ${report.target}`;
  const all =
    priced >= choices
      ? `all ${choices} choices of rails searched`
      : `${priced} of ${choices} choices of rails searched`;
  const lines = [
    head,
    '',
    painter.strong(`Together ${counted(ticks, 'tick')} and ${counted(parts, 'part')}; ${all}.`),
    '',
    'Signals between blocks',
  ];
  if (signals.length === 0) lines.push('  none: no block makes what another takes');
  const wide = Math.max(6, ...signals.map(({ name }) => name.length));
  if (signals.length > 0) {
    lines.push(painter.faint(`  tick  ${'signal'.padEnd(wide)}  rail         the other rail`));
  }
  for (const { name, rail, tick, from, to, other, isGiven } of signals) {
    const why = isGiven ? 'given' : other === null ? 'finds nothing' : otherWords(other, ticks, parts);
    const lead = `  ${String(tick).padStart(4)}  ${name.padEnd(wide)}  ${`active-${rail}`.padEnd(11)}  `;
    lines.push(...prose(`${why} (${from} to ${to.join(', ')})`, lead));
  }
  lines.push('', 'Blocks');
  for (const { name, parts: own, outputs, proof } of blocks) {
    const shown = outputs.map(
      (output) => `${output.name}${output.rail === 'low' ? ' active-low' : ''} at ${output.tick}`,
    );
    const proved = proof === 'equal' ? 'proved' : painter.bad(`not proved: ${proof}`);
    lines.push(...prose(`${counted(own, 'part')}, ${proved}; ${shown.join(', ')}`, `  ${name}  `));
  }
  return `${lines.join('\n')}\n`;
}

function otherWords(other: NonNullable<PlanSignal['other']>, ticks: number, parts: number): string {
  const more = other.parts - parts;
  if (other.ticks > ticks) return `costs ${counted(other.ticks - ticks, 'tick')} more, ${other.parts} parts`;
  if (more > 0) return `costs ${counted(more, 'part')} more`;
  return other.ticks < ticks || more < 0
    ? `is better, ${other.ticks} ticks, ${other.parts} parts`
    : 'costs the same';
}
