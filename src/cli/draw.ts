// The command `draw`: one source, one picture.

import { frontierPlot } from '../report/frontier-plot.ts';
import { slowestTransition } from '../report/levels.ts';
import { pictureFile } from '../report/picture.ts';
import { schematicFile, schematicOf } from '../report/schematic.ts';
import { waveformPicture } from '../report/waveforms.ts';
import { type Answer, answerFor, costsOf, wiringLimits } from './answers.ts';
import type { Run } from './command.ts';
import { deliver, filesAsked, refusal } from './deliver.ts';
import { layoutLibrary } from './layout-library.ts';
import type { Request } from './request.ts';

/** The schematic of an answer as a file. */
export async function drawnSchematic(
  { result, point, target, marks }: Answer,
  meanings: boolean,
): Promise<string> {
  const library = await layoutLibrary();
  const options = { limits: wiringLimits(target), conflicts: marks, meanings };
  return schematicFile(await schematicOf(result, point, library, options));
}

async function pictureOf(answer: Answer, request: Request): Promise<string | null> {
  const { result, point, target } = answer;
  switch (request.text('picture')) {
    case 'frontier': {
      const frame = frontierPlot(result);
      return frame === null ? null : pictureFile(frame);
    }
    case 'waveforms': {
      const found = slowestTransition(point.network, result.join ?? 'or', costsOf(target));
      return found === null ? null : pictureFile(waveformPicture(result, point, found));
    }
    default:
      return drawnSchematic(answer, request.flag('explain'));
  }
}

/** Runs the command. */
export const runDraw: Run = async (request, version, host) => {
  const files = filesAsked(request, ['out']);
  const overwrite = request.flag('force');
  const refused = refusal(files, overwrite, host);
  if (refused !== null) return refused;
  const answered = await answerFor(request, version, host, request.text('picture') === 'frontier');
  if ('instead' in answered) return answered.instead;
  const { answer } = answered;
  const picture = await pictureOf(answer, request);
  if (picture === null)
    return { fault: { message: 'there is nothing to draw: no input can change', hint: null } };
  const printed = { out: files.length === 0 ? picture : '', err: answer.notices, code: answer.code };
  return deliver(
    printed,
    files.map((file) => ({ file, text: picture })),
    overwrite,
    host,
  );
};
