// The report page of one answer: gathers what the page shows.

import { findAllConflicts } from '../report/conflicts.ts';
import { conflictsText } from '../report/conflicts-text.ts';
import {
  type Pattern,
  settledLevels,
  slowestTransition,
  type Transition,
  transition,
} from '../report/levels.ts';
import { type PageSection, reportPage as page } from '../report/page.ts';
import { PLAIN } from '../report/painter.ts';
import { networkOfResult } from '../report/result-network.ts';
import { schematicOf } from '../report/schematic.ts';
import { type SettlingReport, settlingLines } from '../report/settling-text.ts';
import { sheetOf } from '../report/sheet.ts';
import { waveformPicture } from '../report/waveforms.ts';
import { SourceText } from '../source/source-text.ts';
import { circuitOfNetwork } from '../timing/circuit-of-network.ts';
import type { Slowest } from '../timing/settle.ts';
import { type Answer, costsOf, wiringLimits } from './answers.ts';
import { layoutLibrary } from './layout-library.ts';
import type { Request } from './request.ts';
import { settlingOf } from './settle.ts';

/** A word as a shell reads it back. */
function shellWord(word: string): string {
  return /^[\w./,:=@+-]+$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`;
}

/** A command line that does the same again. */
function commandLine(request: Request): string {
  const words = ['tickwright', request.command.name, ...request.operands.map(shellWord)];
  for (const { name, value, kind } of request.command.options) {
    if (!request.wasGiven(name)) continue;
    words.push(`--${name}`);
    if (value === null) continue;
    const given =
      kind === 'names'
        ? request.names(name)?.join(',')
        : kind === 'count'
          ? String(request.count(name))
          : request.text(name);
    words.push(shellWord(given ?? ''));
  }
  return words.join(' ');
}

/** What the commands about timing know of the network; null behind a netlist. */
function settlingReport({ system, point, target }: Answer, request: Request): SettlingReport | null {
  if (system === null) return null;
  const network = networkOfResult(point.network, system);
  const deadlines = network.outputs.map(
    ({ signal }) => system.outputs.find((output) => output.signal === signal)?.by ?? null,
  );
  const circuit = circuitOfNetwork(network, system.signals, system.inputs, target, deadlines);
  return settlingOf({ made: { system, network }, circuit, held: [] }, request);
}

function timingSection(report: SettlingReport): PageSection {
  const listing = settlingLines(report, { wires: false, bench: true }, PLAIN).join('\n').trim();
  const paragraphs = [
    'When every output settles, how its slowest changes come about, and how to see them on a bench.',
  ];
  return { id: 'timing', title: 'Timing and bench plan', paragraphs, listing };
}

/** ORs of the equations that cannot be tied as they are written, with every way out; null when there are none. */
function conflictsSection({ result, target, text }: Answer, request: Request): PageSection | null {
  const { report } = findAllConflicts(result.source, text, target, request.rails);
  if (report === null || report.blocks.every(({ conflicts }) => conflicts.length === 0)) return null;
  const listing = conflictsText(report, new SourceText(result.source, text), PLAIN).trim();
  const paragraphs = [
    'Wires that must not be tied as the equations are written, with what the join would really carry and every way out. ' +
      'The network above does not tie them.',
  ];
  return { id: 'conflicts', title: 'Conflicts and ways out', paragraphs, listing };
}

/** The slowest transition of all outputs. */
function slowestOf(
  { settling }: SettlingReport,
  { system, point, result, target }: Answer,
): Transition | null {
  const found = settling.outputs
    .flatMap(({ slowest }) => [slowest.single, slowest.any].flatMap((edges) => Object.values(edges)))
    .map(({ settles }) => settles)
    .reduce<Slowest | null>(
      (best, one) => (one.transition !== null && one.tick > (best?.tick ?? -1) ? one : best),
      null,
    );
  if (found === null || found.transition === null || system === null) return null;
  const names = system.inputs.map(({ signal }) => system.signals[signal]);
  const pattern = (levels: ArrayLike<number>): Pattern =>
    Object.fromEntries(names.map((name, at) => [name, levels[at] === 1 ? 1 : 0]));
  const { from, to } = found.transition;
  return transition(point.network, pattern(from), pattern(to), result.join ?? 'or', costsOf(target));
}

/** The page as text. */
export async function reportPage(answer: Answer, request: Request): Promise<string> {
  const { result, point, target, text } = answer;
  const limits = wiringLimits(target);
  const logic = result.join ?? 'or';
  const report = settlingReport(answer, request);
  const slowest =
    (report === null ? null : slowestOf(report, answer)) ??
    slowestTransition(point.network, logic, costsOf(target));
  const steps = slowest === null ? [] : [settledLevels(point.network, slowest.from, logic), ...slowest.steps];
  const dominant = logic === 'or' ? 1 : 0;
  const levels = (drivers: readonly string[]): string =>
    steps.map((at) => (drivers.some((wire) => at.get(wire) === dominant) ? dominant : 1 - dominant)).join('');
  const schematic = await schematicOf(result, point, await layoutLibrary(), {
    limits,
    prefix: 's-',
    ...(slowest === null ? {} : { levels }),
  });
  return page({
    result,
    point,
    text,
    schematic: schematic.frame,
    sheet: sheetOf(result, point, limits),
    waveforms:
      slowest === null ? null : { frame: waveformPicture(result, point, slowest), transition: slowest },
    sections: [conflictsSection(answer, request), report === null ? null : timingSection(report)].filter(
      (section) => section !== null,
    ),
    command: commandLine(request),
  });
}
