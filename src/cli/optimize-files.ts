// What `optimize` writes beside its screen, or instead of it: the build sheet, the schematic, the report, and with
// `-o` the screen itself. Loaded only when one of them is asked for.

import { sheetOf } from '../report/sheet.ts';
import { sheetText } from '../report/sheet-text.ts';
import type { Target } from '../target/target.ts';
import { type Answer, answerOf, systemOf, wiringLimits } from './answers.ts';
import type { Printed, UsageFault } from './command.ts';
import { type Delivery, deliver } from './deliver.ts';
import { drawnSchematic } from './draw.ts';
import { EXIT } from './exit-codes.ts';
import type { Host } from './host.ts';
import type { Outcome } from './optimize.ts';
import type { Request } from './request.ts';
import type { Source } from './sources.ts';

export interface FilesWanted {
  readonly request: Request;
  readonly sources: readonly Source[];
  readonly outcomes: readonly Outcome[];
  readonly target: Target;
  /** The screen. */
  readonly printed: Printed;
  readonly host: Host;
}

function answersOf({ request, sources, outcomes, target }: FilesWanted): Answer[] {
  return outcomes.flatMap(({ result, code }, at): Answer[] => {
    const point = answerOf(result);
    const source = sources[at];
    const text = 'text' in source ? source.text : '';
    return point === undefined
      ? []
      : [{ result, point, target, text, system: systemOf(text, request), marks: [], notices: '', code }];
  });
}

/** Writes what was asked for. Of sources without an answer nothing is written, and the screen tells why. */
export async function withFiles(wanted: FilesWanted): Promise<Printed | { readonly fault: UsageFault }> {
  const { request, sources, target, host } = wanted;
  let { printed } = wanted;
  const answers = answersOf(wanted);
  const perSource = ['svg', 'html'].filter((name) => request.wasGiven(name));
  if (perSource.length > 0 && sources.length > 1) {
    const message = `--${perSource[0]} writes one file, and here are ${sources.length} sources`;
    return { fault: { message, hint: 'run it once for each' } };
  }
  if (request.flag('sheet') && answers.length > 0) {
    const sheets = answers.map(({ result, point }) =>
      sheetText(sheetOf(result, point, wiringLimits(target))),
    );
    printed = { ...printed, out: sheets.join(`\n${'-'.repeat(80)}\n\n`) };
  }
  const deliveries: Delivery[] = [];
  const [answer] = answers;
  const asked = (name: string): string | null => (answer === undefined ? null : request.text(name));
  const [svg, html, out] = [asked('svg'), asked('html'), request.text('out')];
  const put = (file: string, text: string): void => {
    if (file === '-') printed = { ...printed, out: text };
    else deliveries.push({ file, text });
  };
  if (svg !== null) put(svg, await drawnSchematic(answer, request.flag('explain')));
  if (html !== null) {
    const { reportPage } = await import('./report-page.ts');
    put(html, await reportPage(answer, request));
  }
  if (out !== null && out !== '-' && printed.out !== '' && isAnswered(printed)) {
    deliveries.push({ file: out, text: printed.out });
    printed = { ...printed, out: '' };
  }
  return deliver(printed, deliveries, request.flag('force'), host);
}

/** With faults, or a deadline that cannot be met, what is printed is not what was asked for. */
function isAnswered({ code }: Printed): boolean {
  return code !== EXIT.faults && code !== EXIT.deadline && code !== EXIT.wrongUse;
}
