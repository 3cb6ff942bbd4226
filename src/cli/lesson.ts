// The command `lesson`: why wires of different rails must not be joined, on the reader's own names.

import { quote } from '../../grammar/quote.ts';
import { readEquations } from '../equations/read-equations.ts';
import { type LessonSignal, lessonOn, MOST_SIGNALS } from '../polarity/lesson.ts';
import { judgeFor } from '../report/conflicts.ts';
import { lessonText } from '../report/lesson-text.ts';
import { screenPainter } from './colours.ts';
import type { Run, UsageFault } from './command.ts';
import { EXIT } from './exit-codes.ts';
import type { Request } from './request.ts';
import { findTarget } from './target-option.ts';

const DEFAULT_NAMES = ['carry1', 'carry2'];

/** Runs the command. */
export const runLesson: Run = async (request, _version, host) => {
  const found = findTarget(request.text('target') ?? '', host);
  if ('instead' in found) return found.instead;
  const signals = signalsOf(request);
  if ('message' in signals) return { fault: signals };
  const lesson = lessonOn(signals, found.target, judgeFor(found.target));
  const out = request.flag('json')
    ? `${JSON.stringify(lesson, null, 2)}\n`
    : lessonText(lesson, screenPainter(host.colour.out));
  return { out, err: '', code: EXIT.done };
};

/** The operands and the names behind the options; the first is active-low when no option says anything. */
function signalsOf(request: Request): LessonSignal[] | UsageFault {
  const low = request.names('low') ?? [];
  const high = request.names('high') ?? [];
  const given = [...new Set([...request.operands, ...low, ...high])];
  const names = given.length === 0 ? DEFAULT_NAMES : given;
  const strange = names.find(
    (name) => name.length > 24 || readEquations(`lesson_ = ${name} lesson__`).value === null,
  );
  if (strange !== undefined || names.some((name) => !/^[A-Za-z_]\w*$/.test(name))) {
    const wrong = strange ?? names.find((name) => !/^[A-Za-z_]\w*$/.test(name)) ?? '';
    return {
      message: `${quote(wrong)} is no name for a signal`,
      hint: 'write tickwright lesson door1 door2 --low door1',
    };
  }
  if (names.length < 2 || names.length > MOST_SIGNALS) {
    return {
      message: `the lesson is on two to ${MOST_SIGNALS} signals, and here ${names.length === 1 ? 'is 1' : `are ${names.length}`}`,
      hint: 'write tickwright lesson door1 door2 --low door1',
    };
  }
  const isSaid = low.length > 0 || high.length > 0;
  return names.map((name, i) => ({
    name,
    rail: low.includes(name) || (!isSaid && i === 0) ? 'low' : 'high',
  }));
}
