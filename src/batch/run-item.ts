// One system of a batch: searched with every seed of the plan, the best answer kept, put into a row of the results.

import { readEquations } from '../equations/read-equations.ts';
import { sizeOf } from '../equations/system-size.ts';
import { noticeOf } from '../report/notices.ts';
import type { Notice, Point, Result } from '../report/result.ts';
import { SourceText } from '../source/source-text.ts';
import { type CommonOptions, optimize } from '../tickwright.ts';
import type { Item } from './items.ts';
import type { Plan } from './plan.ts';

/** The figures of one network. */
export interface Figures {
  readonly ticks: number;
  readonly parts: number;
  readonly copies: number;
  readonly legs: number;
  readonly ticksProved: boolean;
  readonly partsProved: boolean;
  readonly proof: 'equal' | 'different' | 'undecided';
}

/** A line of the results (format `tickwright.row/1`). */
export interface Row {
  readonly position: number;
  readonly name: string;
  readonly status: 'done' | 'failed';
  /** The seed that led to the answer; null without one. */
  readonly seed: number | null;
  readonly asWritten: { readonly ticks: number; readonly parts: number } | null;
  readonly fastest: { readonly ticks: number; readonly proved: boolean } | null;
  readonly answer: Figures | null;
  /** All points of the frontier, when the plan asks for it. */
  readonly frontier?: readonly Figures[];
  /** Lines and columns are those of the file. */
  readonly notices: readonly Notice[];
  /** The whole result (format `tickwright.result/1`), when the plan keeps networks. */
  readonly result?: Result;
}

/** Searches one system. Never throws for what stands in it. */
export function runItem(item: Item, plan: Plan, common: CommonOptions): Row {
  const { position, name } = item;
  const failed = (notices: readonly Notice[]): Row => ({
    ...{
      position,
      name,
      status: 'failed',
      seed: null,
      asWritten: null,
      fastest: null,
      answer: null,
      notices,
    },
  });
  if (item.faults.length > 0) {
    return failed(
      item.faults.map(({ diagnostic, line, column }) => ({
        ...noticeOf({ ...diagnostic, at: null }, new SourceText(name, '')),
        line,
        column,
      })),
    );
  }
  const beyond = beyondLimits(item, plan);
  if (beyond !== null) return failed([beyond]);
  let best: { readonly seed: number; readonly result: Result; readonly answer: Point | null } | null = null;
  for (const seed of plan.seeds) {
    const { result } = optimize(name, item.text, {}, optionsOf(plan, seed, common));
    const answer = answerOf(result, plan);
    if (best === null || isBetter(answer, best.answer)) best = { seed, result, answer };
    // What is proved, or cannot be read, is the same with every seed.
    if (answer === null || (answer.partsProved && !plan.frontier)) break;
  }
  if (best === null) throw new Error('a plan has at least one seed');
  const { result, answer } = best;
  const notices = result.notices.map((notice) => placed(notice, item));
  if (answer === null) {
    const why: Notice = {
      ...{ severity: 'error', code: 'no-answer', line: null, column: null },
      message: 'no network was found that meets the plan',
      hint: 'allow more ticks or more parts',
    };
    return failed(notices.some(({ severity }) => severity === 'error') ? notices : [...notices, why]);
  }
  const isEqual = result.points.every(({ proof }) => proof.verdict === 'equal');
  return {
    ...{ position, name, status: isEqual ? 'done' : 'failed', seed: best.seed },
    asWritten: result.asWritten === null ? null : { ...result.asWritten },
    fastest: result.fastest === null ? null : { ticks: result.fastest.ticks, proved: result.fastest.proved },
    answer: figuresOf(answer),
    ...(plan.frontier ? { frontier: result.points.map(figuresOf) } : {}),
    notices,
    ...(plan.keep === 'networks' ? { result: { ...result, notices } } : {}),
  };
}

function optionsOf(plan: Plan, seed: number, common: CommonOptions) {
  const { target, effort, ticks, parts, frontier, budget } = plan;
  const wish = { target, effort, seed, ticks, parts, frontier, explain: false, ...common };
  return budget === null ? wish : { ...wish, budget: { factor: budget } };
}

/** The answer among the points: the one alone, or of a frontier the fastest within twice the smallest. */
function answerOf({ points }: Result, { budget, frontier }: Plan): Point | null {
  if (!frontier) return points[0] ?? null;
  const smallest = Math.min(...points.map(({ parts }) => parts));
  return points.find(({ parts }) => parts <= (budget ?? 2) * smallest) ?? null;
}

function isBetter(one: Point | null, other: Point | null): boolean {
  if (one === null || other === null) return one !== null;
  return one.ticks !== other.ticks ? one.ticks < other.ticks : one.parts < other.parts;
}

function figuresOf({ ticks, parts, copies, legs, ticksProved, partsProved, proof }: Point): Figures {
  return { ticks, parts, copies, legs, ticksProved, partsProved, proof: proof.verdict };
}

/** A notice with its place in the file. */
function placed(notice: Notice, { line, column, inOneLine }: Item): Notice {
  if (notice.line === null || notice.column === null) return { ...notice, line, column };
  if (!inOneLine) return { ...notice, line: line + notice.line - 1 };
  return { ...notice, line, column: notice.line === 1 ? column + notice.column - 1 : column };
}

function beyondLimits(item: Item, { limits }: Plan): Notice | null {
  if (Object.keys(limits).length === 0) return null;
  const { value } = readEquations(item.text, { letters: false });
  if (value === null) return null;
  const size = sizeOf(value);
  for (const what of ['inputs', 'outputs', 'operators'] as const) {
    const most = limits[what];
    if (most === undefined || size[what] <= most) continue;
    return {
      ...{ severity: 'error', code: 'beyond-plan', line: item.line, column: item.column },
      message: `this system has ${size[what]} ${what}, and the plan allows ${most}`,
      hint: 'raise the limit in the plan, or leave the system out',
    };
  }
  return null;
}
