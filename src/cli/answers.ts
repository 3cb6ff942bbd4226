// One source and its answer, for the commands that make something of an answer: the network found for equations, or the
// network that a netlist holds.

import { cutBlocks } from '../../grammar/blocks.ts';
import { overrideRails } from '../equations/override-rails.ts';
import { readEquations } from '../equations/read-equations.ts';
import type { System } from '../equations/system.ts';
import type { TickCosts } from '../network/levels.ts';
import { readBuilt } from '../network/read-built.ts';
import { readVerilog } from '../network/read-verilog.ts';
import { asBuiltResult } from '../report/as-built.ts';
import type { StatedOptions } from '../report/assemble.ts';
import { findAllConflicts } from '../report/conflicts.ts';
import { drawnBlock, type MarkedWire } from '../report/drawn-block.ts';
import type { Point, Result } from '../report/result.ts';
import type { WiringLimits } from '../report/wiring.ts';
import { renderDiagnostics } from '../source/render-diagnostics.ts';
import { SourceText } from '../source/source-text.ts';
import type { Target } from '../target/target.ts';
import { diagnosticPainter } from './colours.ts';
import type { Printed, UsageFault } from './command.ts';
import { commonOptions } from './common-options.ts';
import { EXIT, type ExitCode } from './exit-codes.ts';
import type { Host } from './host.ts';
import { contradiction, optionsFrom, outcomesOf } from './optimize.ts';
import type { Request } from './request.ts';
import { readSources } from './sources.ts';
import { findTarget } from './target-option.ts';

export interface Answer {
  readonly result: Result;
  /** The answer among the points. */
  readonly point: Point;
  readonly target: Target;
  /** Text of the source. */
  readonly text: string;
  /** What `conflicts` finds in a built block, at the wires where it shows. */
  readonly marks: readonly MarkedWire[];
  /** The equations; null behind a netlist and a built block. */
  readonly system: System | null;
  /** Warnings and notices, as they are printed. */
  readonly notices: string;
  readonly code: ExitCode;
}

export type Answered =
  | { readonly answer: Answer }
  | { readonly instead: Printed | { readonly fault: UsageFault } };

/** The wiring that a target allows. */
export function wiringLimits({ join, inverter, input }: Target): WiringLimits {
  return {
    joins: join.where === 'anywhere',
    inverterLeads: inverter.outputs,
    inputLeads: input.outputs,
    maxLegs: join.maxLegs,
  };
}

/** Ticks of an inverter and of a join. */
export function costsOf({ join, inverter }: Target): TickCosts {
  return { joinTicks: join.ticks, inverterTicks: inverter.ticks };
}

/** The point that a result is about. */
export function answerOf({ points, chosen }: Result): Point | undefined {
  return points[chosen ?? 0];
}

/** The equations of a text, on the rails that the request gives. */
export function systemOf(text: string, request: Request): System | null {
  const { value } = readEquations(text, { letters: request.flag('letters') });
  return value === null ? null : overrideRails(value, request.rails).value;
}

/** Reads the only source of the request and finds its network. */
export async function answerFor(
  request: Request,
  version: string,
  host: Host,
  frontier: boolean,
): Promise<Answered> {
  const wrong = contradiction(request);
  if (wrong !== null) return { instead: { fault: wrong } };
  const found = findTarget(request.text('target') ?? '', host);
  if ('instead' in found) return { instead: found.instead };
  const { target } = found;
  const sources = await readSources(request.operands, host);
  if (sources.length > 1) {
    const message = `${request.command.name} takes one source at a time, and here are ${sources.length}`;
    return { instead: { fault: { message, hint: 'run it once for each' } } };
  }
  const options = { ...optionsFrom(request, target, commonOptions(version, host)), frontier, explain: true };
  const [source] = sources;
  if ('text' in source && /\.v$/i.test(source.name)) {
    const { value, diagnostics } = readVerilog(source.text);
    if (value === null) {
      const paint = diagnosticPainter(host.colour.err);
      const err = `${renderDiagnostics(diagnostics, new SourceText(source.name, source.text), { paint })}\n`;
      return { instead: { out: '', err, code: EXIT.faults } };
    }
    const result = asBuiltResult(source.name, value, options);
    return {
      answer: {
        result,
        point: result.points[0],
        target,
        text: source.text,
        system: null,
        marks: [],
        notices: '',
        code: EXIT.done,
      },
    };
  }
  if ('text' in source && cutBlocks(source.text).blocks.some(({ kind }) => kind === 'built')) {
    return blockAnswer(source, request, options, host);
  }
  const [outcome] = await outcomesOf(sources, request, options, host);
  const paint = diagnosticPainter(host.colour.err);
  const rendered = renderDiagnostics(outcome.diagnostics, outcome.source, { paint });
  const notices = rendered === '' ? '' : `${rendered}\n`;
  const point = answerOf(outcome.result);
  if (point === undefined) return { instead: { out: '', err: notices, code: outcome.code } };
  const text = 'text' in source ? source.text : '';
  return {
    answer: {
      result: outcome.result,
      point,
      target,
      text,
      system: systemOf(text, request),
      marks: [],
      notices,
      code: outcome.code,
    },
  };
}

/** The only built block of a source, as it stands. */
function blockAnswer(
  { name, text }: { readonly name: string; readonly text: string },
  request: Request,
  options: StatedOptions,
  host: Host,
): Answered {
  const { target } = options;
  const { value } = readBuilt(text, target);
  const { report, diagnostics } = findAllConflicts(name, text, target, request.rails);
  const paint = diagnosticPainter(host.colour.err);
  const rendered = renderDiagnostics(diagnostics, new SourceText(name, text), { paint });
  const notices = rendered === '' ? '' : `${rendered}\n`;
  if (value === null || report === null) return { instead: { out: '', err: notices, code: EXIT.faults } };
  if (value.blocks.length > 1) {
    const message = `${request.command.name} takes one built block at a time, and ${name} holds ${value.blocks.length}`;
    return { instead: { fault: { message, hint: 'put each in a file of its own' } } };
  }
  const [{ network }] = value.blocks;
  const { result, marks } = drawnBlock(name, network, report.blocks[0] ?? null, options);
  return {
    answer: { result, point: result.points[0], target, text, system: null, marks, notices, code: EXIT.done },
  };
}
