// The command `trial`: a stimulus on a network, tick by tick, as a table, a waveform in text, or a value change dump.

import { trialLines } from '../report/trial-text.ts';
import { valueChangeDump } from '../report/vcd.ts';
import { watchedWires } from '../report/watched-wires.ts';
import { renderDiagnostics } from '../source/render-diagnostics.ts';
import { SourceText } from '../source/source-text.ts';
import type { Circuit } from '../timing/circuit.ts';
import { type History, MOST_LEVELS, simulate } from '../timing/history.ts';
import { readStimulus } from '../timing/read-stimulus.ts';
import { tiedTogether } from '../timing/tie-joins.ts';
import { diagnosticPainter, screenPainter } from './colours.ts';
import type { Printed, Run } from './command.ts';
import { EXIT, gravest } from './exit-codes.ts';
import type { Host } from './host.ts';
import type { Request } from './request.ts';
import { readSource } from './sources.ts';
import { printScreens, type SubjectOutcome, subjectLine, subjectsOf } from './timing-subject.ts';

/** What the argument of --stimulus means: a text when it cannot be the name of a file. */
function stimulusSource(request: Request, host: Host): SourceText | Printed {
  const given = request.text('stimulus') ?? '';
  if (/[\s=;]/.test(given) || given === '') return new SourceText('stimulus', given);
  const read = readSource(given, host);
  if (!('fault' in read)) return new SourceText(given, read.text);
  const paint = diagnosticPainter(host.colour.err);
  const hint = 'give a file, or a text such as "start a=1; at 0: b=1"';
  const fault = { ...read.fault, hint: read.fault.code === 'file-missing' ? hint : read.fault.hint };
  const err = `${renderDiagnostics([fault], new SourceText(given, ''), { paint })}\n`;
  return { out: '', err, code: EXIT.faults };
}

function runOn(circuit: Circuit, source: SourceText, host: Host): History | string {
  const { value, diagnostics } = readStimulus(circuit, source.text);
  const paint = diagnosticPainter(host.colour.err);
  if (value === null) return `${renderDiagnostics(diagnostics, source, { paint })}\n`;
  if ((value.until + 1) * circuit.names.length > MOST_LEVELS) {
    const most = Math.floor(MOST_LEVELS / circuit.names.length);
    const message = `${value.until} ticks are too many for this network`;
    const hint = `it can be shown for ${most} ticks`;
    const fault = { severity: 'error', code: 'stimulus-too-long', message, at: null, hint } as const;
    return `${renderDiagnostics([fault], source, { paint })}\n`;
  }
  return simulate(circuit, value.start, value.changes, value.until);
}

/** Runs the command. */
export const runTrial: Run = async (request, version, host) => {
  const stimulus = stimulusSource(request, host);
  if (!(stimulus instanceof SourceText)) return stimulus;
  const found = await subjectsOf(request, version, host);
  if ('instead' in found) return found.instead;
  const view = request.text('view') ?? 'table';
  if (view === 'vcd' && found.subjects.length > 1) {
    const hint = 'give one source, or ask for another view';
    return { fault: { message: 'a value change dump holds one network only', hint } };
  }
  const painter = screenPainter(host.colour.out);
  const screens = new Map<SubjectOutcome, readonly string[]>();
  let [dump, faults] = ['', ''];
  const codes = found.subjects.map((outcome) => outcome.code);
  for (const outcome of found.subjects) {
    const { subject } = outcome;
    if (subject === null) continue;
    const circuit = request.flag('back-feed') ? tiedTogether(subject.circuit) : subject.circuit;
    const history = runOn(circuit, stimulus, host);
    if (typeof history === 'string') {
      faults += history;
      codes.push(EXIT.faults);
      continue;
    }
    const wires = watchedWires(circuit, request.flag('inside'));
    const { secondsPerTick } = subject.target;
    if (view === 'vcd') dump = valueChangeDump(history, wires, { version, secondsPerTick });
    else {
      const lines = trialLines(history, wires, view === 'wave' ? 'wave' : 'table', painter);
      screens.set(outcome, [painter.strong(subjectLine(subject, outcome.which)), ...lines]);
    }
  }
  const shown = found.subjects.filter((outcome) => outcome.subject === null || screens.has(outcome));
  const printed = printScreens(shown, screens, gravest(codes), host);
  return { ...printed, out: view === 'vcd' ? dump : printed.out, err: printed.err + faults };
};
