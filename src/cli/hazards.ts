// The command `hazards`: pulses that some delays may show, pulses that this network shows, and with --hazard-free a
// network without the static ones.

import { countCopies } from '../network/copies.ts';
import { networkTicks } from '../network/levels.ts';
import { prove } from '../proof/prove.ts';
import { hazardLines, type RemedyReport, remedyLines } from '../report/hazards-text.ts';
import { noticeOf } from '../report/notices.ts';
import {
  circuitJson,
  faultyJson,
  HAZARDS_FORMAT,
  hazardsJson,
  type RemedyJson,
  timingJsonText,
} from '../report/timing-json.ts';
import { scopeOf } from '../timing/allowed-patterns.ts';
import { circuitOfNetwork } from '../timing/circuit-of-network.ts';
import { type HazardFreeWay, hazardFreeNetwork, MOST_HAZARD_FREE_INPUTS } from '../timing/hazard-free.ts';
import { type Hazard, hazardsOf } from '../timing/hazards.ts';
import { MAX_INPUTS } from '../truth/table.ts';
import { screenPainter } from './colours.ts';
import type { Run } from './command.ts';
import { EXIT, type ExitCode, gravest } from './exit-codes.ts';
import type { Request } from './request.ts';
import {
  printScreens,
  type Subject,
  type SubjectOutcome,
  subjectLine,
  subjectsOf,
} from './timing-subject.ts';

/** With more inputs only flips of one input are looked through; beyond MAX_INPUTS there are no tables at all. */
const MOST_FOR_SEVERAL = 10;

const WAYS: Readonly<Record<HazardFreeWay, string>> = {
  given: 'It is that very network.',
  joined: 'Products that cover both ends of a flip are joined to the outputs.',
  products: 'Every output is a join of products such that both ends of every flip share one.',
  sums: 'Every output is the complement of such a join, made for the complement.',
};

interface Answer {
  readonly hazards: readonly Hazard[];
  readonly mostFlips: number;
  readonly remedy: RemedyReport | null;
  readonly code: ExitCode;
}

function answerOf(subject: Subject, request: Request): Answer {
  const { circuit, made, target, held } = subject;
  const scope = scopeOf(circuit, made?.system ?? null, held);
  const most = scope.moving.length;
  const mostFlips = circuit.inputs.length <= MOST_FOR_SEVERAL ? most : 1;
  const hazards = hazardsOf(circuit, { scope, mostFlips });
  if (!request.flag('hazard-free')) {
    // What the function itself does is no fault of the network.
    const own = hazards.some(({ possible, ofFunction }) => possible > ofFunction);
    return { hazards, mostFlips, remedy: null, code: own ? EXIT.conflicts : EXIT.done };
  }
  if (made === null) return { hazards, mostFlips, remedy: null, code: EXIT.conflicts };
  const { system, network } = made;
  const cured = hazardFreeNetwork({
    network,
    signals: system.signals,
    inputs: system.inputs,
    target,
    allowed: scope.allowed,
  });
  if (cured === null) return { hazards, mostFlips, remedy: null, code: EXIT.conflicts };
  const { verdict } = prove(system, cured.network, target.join.logic);
  const costs = { joinTicks: target.join.ticks, inverterTicks: target.inverter.ticks };
  const remedy: RemedyReport = {
    circuit: circuitOfNetwork(cured.network, system.signals, system.inputs, target),
    inverters: cured.inverters,
    ticks: cured.ticks,
    before: {
      inverters: network.size + countCopies(network, target.inverter.outputs),
      ticks: networkTicks(network, costs),
    },
    way: WAYS[cured.way],
    proof: verdict === 'equal' ? 'Proved equal to the equations.' : 'NOT proved equal to the equations.',
  };
  return { hazards, mostFlips, remedy, code: verdict === 'equal' ? EXIT.done : EXIT.notProved };
}

function tooWide({ circuit }: Subject): boolean {
  return circuit.inputs.length > MAX_INPUTS;
}

function remedyOfJson(remedy: RemedyReport | null): RemedyJson | null {
  if (remedy === null) return null;
  const { circuit, inverters, ticks, before, proof } = remedy;
  return {
    inverters,
    ticks,
    extra: inverters - before.inverters,
    proved: !proof.startsWith('NOT'),
    network: circuitJson(circuit),
  };
}

const NO_REMEDY = [
  '',
  `  No network without static hazards was found: it is looked for with up to ${MOST_HAZARD_FREE_INPUTS} inputs, for`,
  '  equations, and the target must leave room for the legs it takes.',
];

/** Runs the command. */
export const runHazards: Run = async (request, version, host) => {
  const found = await subjectsOf(request, version, host);
  if ('instead' in found) return found.instead;
  const subjects = found.subjects.map((outcome): SubjectOutcome => {
    if (outcome.subject === null || !tooWide(outcome.subject)) return outcome;
    const message = `hazards are looked for with up to ${MAX_INPUTS} inputs, and there are ${outcome.subject.circuit.inputs.length}`;
    const fault = { severity: 'error', code: 'too-many-inputs', message, at: null, hint: null } as const;
    return { ...outcome, subject: null, diagnostics: [...outcome.diagnostics, fault], code: EXIT.faults };
  });
  const answers = new Map<SubjectOutcome, Answer>();
  for (const outcome of subjects) {
    if (outcome.subject !== null) answers.set(outcome, answerOf(outcome.subject, request));
  }
  const code = gravest(subjects.map((outcome) => answers.get(outcome)?.code ?? outcome.code));
  if (request.flag('json')) {
    const objects = subjects.map((outcome) => {
      const { name, target, which, source, subject, diagnostics } = outcome;
      const notices = diagnostics.map((diagnostic) => noticeOf(diagnostic, source));
      const stated = { version, source: name, target: target.name, network: which, notices };
      const answer = answers.get(outcome);
      if (subject === null || answer === undefined) return faultyJson(HAZARDS_FORMAT, stated);
      const { hazards, mostFlips, remedy } = answer;
      return hazardsJson(subject.circuit, hazards, mostFlips, remedyOfJson(remedy), stated);
    });
    return { out: timingJsonText(objects), err: '', code };
  }
  const painter = screenPainter(host.colour.out);
  const screens = new Map<SubjectOutcome, readonly string[]>();
  for (const [outcome, { hazards, mostFlips, remedy }] of answers) {
    const subject = outcome.subject as Subject;
    screens.set(outcome, [
      painter.strong(subjectLine(subject, outcome.which)),
      ...hazardLines(subject.circuit, hazards, mostFlips, painter),
      ...(request.flag('hazard-free') ? (remedy === null ? NO_REMEDY : remedyLines(remedy, painter)) : []),
    ]);
  }
  return printScreens(subjects, screens, code, host);
};
