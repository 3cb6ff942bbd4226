// The command `export`: one source, one file for another program.

import { frontierCsv, networkCsv, sheetCsv } from '../report/csv.ts';
import { dotGraph } from '../report/dot.ts';
import { jsonReport } from '../report/json.ts';
import { sheetOf } from '../report/sheet.ts';
import { sheetMarkdown } from '../report/sheet-markdown.ts';
import { sheetText } from '../report/sheet-text.ts';
import { verilogModule } from '../report/verilog.ts';
import { verilogBench } from '../report/verilog-bench.ts';
import { type Answer, answerFor, wiringLimits } from './answers.ts';
import type { Run, UsageFault } from './command.ts';
import { deliver, filesAsked, refusal } from './deliver.ts';

/** The text in the form that was asked for. */
function textOf(form: string | null, { result, point, target, system }: Answer): string | UsageFault {
  const delay = target.inverter.ticks;
  const sheet = sheetOf(result, point, wiringLimits(target));
  switch (form) {
    case 'bench': {
      const message = 'a test bench compares with equations, and a netlist has none';
      if (system === null) return { message, hint: 'name the equations instead' };
      return `${verilogModule(result, point, delay)}\n${verilogBench(system, result, point, delay)}`;
    }
    case 'dot':
      return dotGraph(result.source, point);
    case 'csv':
      return networkCsv(point);
    case 'frontier-csv':
      return frontierCsv(result);
    case 'sheet':
      return sheetText(sheet);
    case 'sheet-markdown':
      return sheetMarkdown(sheet);
    case 'sheet-csv':
      return sheetCsv(sheet);
    case 'json':
      return jsonReport([result]);
    default:
      return verilogModule(result, point, delay);
  }
}

/** Runs the command. */
export const runExport: Run = async (request, version, host) => {
  const files = filesAsked(request, ['out']);
  const overwrite = request.flag('force');
  const refused = refusal(files, overwrite, host);
  if (refused !== null) return refused;
  const form = request.text('as');
  const answered = await answerFor(request, version, host, form === 'frontier-csv');
  if ('instead' in answered) return answered.instead;
  const { answer } = answered;
  const text = textOf(form, answer);
  if (typeof text !== 'string') return { fault: text };
  const printed = { out: files.length === 0 ? text : '', err: answer.notices, code: answer.code };
  return deliver(
    printed,
    files.map((file) => ({ file, text })),
    overwrite,
    host,
  );
};
