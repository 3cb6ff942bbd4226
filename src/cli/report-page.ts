// The report page of one answer: gathers what the page shows.

import { settledLevels, slowestTransition } from '../report/levels.ts';
import { type PageSection, reportPage as page } from '../report/page.ts';
import { PLAIN } from '../report/painter.ts';
import { networkOfResult } from '../report/result-network.ts';
import { schematicOf } from '../report/schematic.ts';
import { settlingLines } from '../report/settling-text.ts';
import { sheetOf } from '../report/sheet.ts';
import { waveformPicture } from '../report/waveforms.ts';
import { circuitOfNetwork } from '../timing/circuit-of-network.ts';
import { type Answer, wiringLimits } from './answers.ts';
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

/** What the commands about timing say of the network; nothing behind a netlist. */
function timingSection({ system, point, target }: Answer, request: Request): PageSection[] {
  if (system === null) return [];
  const network = networkOfResult(point.network, system);
  const deadlines = network.outputs.map(
    ({ signal }) => system.outputs.find((output) => output.signal === signal)?.by ?? null,
  );
  const circuit = circuitOfNetwork(network, system.signals, system.inputs, target, deadlines);
  const report = settlingOf({ system, circuit, held: [] }, request);
  const lines = settlingLines(report, { wires: false, bench: true }, PLAIN);
  const paragraphs = [
    'When every output settles, how its slowest changes come about, and how to see them on a bench.',
  ];
  return [{ id: 'timing', title: 'Timing and bench plan', paragraphs, listing: lines.join('\n').trim() }];
}

/** The page as text. */
export async function reportPage(answer: Answer, request: Request): Promise<string> {
  const { result, point, target, text } = answer;
  const limits = wiringLimits(target);
  const logic = result.join ?? 'or';
  const transition = slowestTransition(point.network, logic);
  const steps =
    transition === null ? [] : [settledLevels(point.network, transition.from, logic), ...transition.steps];
  const dominant = logic === 'or' ? 1 : 0;
  const levels = (drivers: readonly string[]): string =>
    steps.map((at) => (drivers.some((wire) => at.get(wire) === dominant) ? dominant : 1 - dominant)).join('');
  const schematic = await schematicOf(result, point, await layoutLibrary(), {
    limits,
    prefix: 's-',
    ...(transition === null ? {} : { levels }),
  });
  return page({
    result,
    point,
    text,
    schematic: schematic.frame,
    sheet: sheetOf(result, point, limits),
    waveforms: transition === null ? null : { frame: waveformPicture(result, point, transition), transition },
    sections: timingSection(answer, request),
    command: commandLine(request),
  });
}
