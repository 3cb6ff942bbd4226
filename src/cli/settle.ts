// The command `settle`: the slowest changes of every output, how they come about, and the plan to see them on a bench.

import { noticeOf } from '../report/notices.ts';
import { type SettlingReport, settlingLines } from '../report/settling-text.ts';
import { faultyJson, SETTLING_FORMAT, settlingJson, timingJsonText } from '../report/timing-json.ts';
import { patternMaker, scopeOf } from '../timing/allowed-patterns.ts';
import { arrivalsOf } from '../timing/arrivals.ts';
import { EnduranceOfTransitions } from '../timing/endurance.ts';
import { exerciseOf } from '../timing/exercise.ts';
import { falsePaths } from '../timing/false-paths.ts';
import { isAffordable, SETTLE_LIMITS, type SettleOptions, settle } from '../timing/settle.ts';
import { candidatesOf } from '../timing/settle-by-input.ts';
import { walkTransitions } from '../timing/walk-transitions.ts';
import { countRows } from '../truth/table.ts';
import { screenPainter } from './colours.ts';
import type { Run } from './command.ts';
import { gravest } from './exit-codes.ts';
import type { Request } from './request.ts';
import {
  printScreens,
  type Subject,
  type SubjectOutcome,
  subjectLine,
  subjectsOf,
} from './timing-subject.ts';

/** Conflicts of the solver for one question. */
const CONFLICTS = { quick: 4_000, normal: SETTLE_LIMITS.conflicts, deep: 400_000 } as const;

/** What is known about the settling of one network. */
export function settlingOf(
  { made, circuit, held }: Pick<Subject, 'made' | 'circuit' | 'held'>,
  request: Request,
): SettlingReport {
  const system = made?.system ?? null;
  const scope = scopeOf(circuit, system, held);
  const options: SettleOptions = {
    ...SETTLE_LIMITS,
    scope,
    pattern: patternMaker(circuit, system, held),
    conflicts: CONFLICTS[request.effort],
  };
  const moving = circuit.inputs.map((_, i) => (scope.moving.includes(i) ? 1 : 0));
  const arrivals = arrivalsOf(circuit, moving);
  const settling = settle(circuit, options);
  const named = falsePaths(circuit, arrivals, settling, () => exerciseOf(circuit, options));
  const asked = request.flag('wires') || request.flag('json');
  const whole = scope.moving.length === circuit.inputs.length;
  const patterns =
    scope.allowed !== null ? countRows(scope.allowed) : whole ? 2 ** circuit.inputs.length : null;
  return {
    circuit,
    arrivals,
    settling,
    falsePaths: named,
    endurance: enduranceOf(circuit, options),
    candidates: asked ? candidatesOf(circuit, options) : null,
    patterns,
  };
}

function enduranceOf(circuit: Subject['circuit'], options: SettleOptions): SettlingReport['endurance'] {
  const { wear, minPulse } = circuit.endurance;
  if (wear === null && minPulse === 0) return null;
  const { scope } = options;
  const flips = isAffordable(circuit, scope.moving.length, options) ? 'any' : 'single';
  if (flips === 'single' && !isAffordable(circuit, 1, options)) return null;
  const endurance = new EnduranceOfTransitions(circuit);
  walkTransitions(circuit, scope, flips === 'any' ? scope.moving.length : 1, endurance);
  return { flips, wear: endurance.wear, pulses: endurance.pulses };
}

/** Runs the command. */
export const runSettle: Run = async (request, version, host) => {
  const found = await subjectsOf(request, version, host);
  if ('instead' in found) return found.instead;
  const { subjects } = found;
  const code = gravest(subjects.map((outcome) => outcome.code));
  if (request.flag('json')) {
    const objects = subjects.map(({ name, target, which, source, subject, diagnostics }) => {
      const notices = diagnostics.map((diagnostic) => noticeOf(diagnostic, source));
      const stated = { version, source: name, target: target.name, network: which, notices };
      return subject === null
        ? faultyJson(SETTLING_FORMAT, stated)
        : settlingJson(settlingOf(subject, request), stated);
    });
    return { out: timingJsonText(objects), err: '', code };
  }
  const painter = screenPainter(host.colour.out);
  const wishes = { wires: request.flag('wires'), bench: request.flag('bench') };
  const screens = new Map<SubjectOutcome, readonly string[]>();
  for (const outcome of subjects) {
    if (outcome.subject === null) continue;
    const lines = settlingLines(settlingOf(outcome.subject, request), wishes, painter);
    screens.set(outcome, [painter.strong(subjectLine(outcome.subject, outcome.which)), ...lines]);
  }
  return printScreens(subjects, screens, code, host);
};
