// Settling on the screen: the table of all outputs, the slowest transitions with every wire on the way, why off is
// slower than on, false paths, arrivals of every wire, the bench plan.

import { visible } from '../../grammar/quote.ts';
import {
  type Arrivals,
  EDGES,
  type Edge,
  longestPaths,
  NEVER,
  type Path,
  requirementsOf,
} from '../timing/arrivals.ts';
import { type BenchTest, benchPlan } from '../timing/bench-plan.ts';
import type { Circuit, Pattern } from '../timing/circuit.ts';
import { type Pulse, strainOf, type Wear } from '../timing/endurance.ts';
import type { FalsePath } from '../timing/false-paths.ts';
import type { Flips, OutputSettling, Settling } from '../timing/settle.ts';
import type { Candidate } from '../timing/settle-by-input.ts';
import type { Transition } from '../timing/settle-exact.ts';
import type { Painter } from './painter.ts';
import { counted, paragraph, prose } from './paragraph.ts';

const INDENT = '  ';

export interface SettlingReport {
  readonly circuit: Circuit;
  readonly arrivals: Arrivals;
  readonly settling: Settling;
  readonly falsePaths: readonly FalsePath[];
  /** Over all transitions that were simulated; null when the target asks for neither or they are too many. */
  readonly endurance: {
    readonly flips: Flips;
    readonly wear: readonly Wear[];
    readonly pulses: readonly Pulse[];
  } | null;
  /** The slowest flip of each input; null when they were too many. */
  readonly candidates: readonly Candidate[] | null;
  /** Number of patterns that can happen; null when they cannot be counted. */
  readonly patterns: number | null;
}

export interface SettlingWishes {
  readonly wires: boolean;
  readonly bench: boolean;
}

/** The lines of one source. */
export function settlingLines(report: SettlingReport, wishes: SettlingWishes, painter: Painter): string[] {
  return [
    ...section('Settling', settlingTable(report, painter), painter),
    ...section('On the way', wayLines(report), painter),
    ...section('On and off', edgeLines(report), painter),
    ...section('False paths', falsePathLines(report), painter),
    ...(wishes.wires ? section('Wires', wireLines(report, painter), painter) : []),
    ...(wishes.wires ? section('Critical paths', criticalLines(report), painter) : []),
    ...(wishes.wires ? section('Input by input', candidateLines(report, painter), painter) : []),
    ...section('Endurance', enduranceLines(report), painter),
    ...(wishes.bench ? section('Bench plan', benchLines(report, painter), painter) : []),
  ];
}

function section(heading: string, lines: readonly string[], painter: Painter): string[] {
  return lines.length === 0 ? [] : ['', painter.strong(heading), ...lines];
}

function settlingTable({ circuit, settling, patterns }: SettlingReport, painter: Painter): string[] {
  const names = circuit.outputs.map((_, y) => outputName(circuit, y));
  const width = Math.max(6, ...names.map((name) => name.length));
  const marks = new Set<string>();
  const cell = (settled: OutputSettling, flips: Flips, edge: Edge): string => {
    const { settles, changes } = settled.slowest[flips][edge];
    if (settles.tick === NEVER) return settles.claim === 'found' ? '?' : '-';
    let mark = ' ';
    if (settles.claim === 'found') mark = '?';
    else if (changes.tick < settles.tick) mark = '~';
    marks.add(mark);
    return settles.tick + mark;
  };
  const rows = settling.outputs.map((settled) => [
    names[settled.output],
    ...(['single', 'any'] as const).flatMap((flips) => EDGES.map((edge) => cell(settled, flips, edge))),
    ...EDGES.map((edge) => (settled.bound[edge] === NEVER ? '-' : String(settled.bound[edge]))),
  ]);
  const line = (cells: readonly string[]): string =>
    (
      INDENT +
      cells[0].padEnd(width) +
      cells
        .slice(1)
        .map(
          (text, at) =>
            (at % 2 === 0 ? '    ' : '') + (at < 4 && !/[~? ]$/.test(text) ? `${text} ` : text).padStart(6),
        )
        .join('')
    ).trimEnd();
  const head = `${INDENT}${''.padEnd(width)}    ${'one input'.padEnd(12)}    ${'any change'.padEnd(12)}    bound`;
  return [
    ...faint(
      'The tick at which an output changes for the last time, in the slowest case: when one input flips, when ' +
        'any inputs change at once, and the bound that follows from arrivals alone. On is to level 1.',
      painter,
    ),
    painter.faint(head.trimEnd()),
    painter.faint(line(['output', 'on ', 'off ', 'on ', 'off ', 'on', 'off'])),
    ...rows.map(line),
    ...(marks.has('~') ? prose('~ the end of a pulse; a change that lasts is never so slow.', INDENT) : []),
    ...(marks.has('?')
      ? prose('? the slowest that was found; that there is none slower is not proved.', INDENT)
      : []),
    '',
    ...prose(claimSentence(circuit, settling, patterns), INDENT),
  ];
}

function claimSentence(circuit: Circuit, settling: Settling, patterns: number | null): string {
  const { method } = settling;
  const grouped = (count: number): string => String(count).replace(/\B(?=(?:\d{3})+$)/g, ',');
  if (method.any === 'simulated') {
    const pairs = patterns === null ? '' : ` (${grouped(patterns * patterns)})`;
    return `Exact: all pairs of patterns${pairs} were simulated; nothing is slower.`;
  }
  const claims = settling.outputs.flatMap(({ slowest }) =>
    EDGES.map((edge) => slowest.any[edge].settles.claim),
  );
  const count = (claim: string): number => claims.filter((other) => other === claim).length;
  const parts: string[] = [];
  if (count('bound') > 0) parts.push(`${count('bound')} proved slowest by the bound`);
  if (count('refuted') > 0) parts.push(`${count('refuted')} proved slowest by the solver`);
  if (count('found') > 0) parts.push(`${count('found')} slowest found`);
  const single =
    method.single === 'simulated'
      ? `One input: exact, all flips of the ${circuit.inputs.length} inputs were simulated.`
      : 'One input: by the solver.';
  return `${single} Any change, of ${claims.length} figures: ${parts.join(', ')}.`;
}

function wayLines({ circuit, settling }: SettlingReport): string[] {
  return benchPlan(circuit, settling).flatMap((test) => {
    const name = outputName(circuit, test.output);
    const head = `${name} ${test.edge}${test.flips === 'any' ? ' (any change)' : ''}`;
    return [
      ...paragraph([`${head}, tick ${test.tick}:`, ...transitionWords(circuit, test.transition)], INDENT),
      ...paragraph(pathWords(circuit, test.path, test.output), `${INDENT}${INDENT}`),
    ];
  });
}

/** `c0 to 1` and where the other inputs are. */
function transitionWords(circuit: Circuit, { from, to }: Transition): string[] {
  const changed = circuit.inputs.flatMap(({ name }, i) =>
    from[i] === to[i] ? [] : [`${visible(name)} to ${to[i]}`],
  );
  const others = circuit.inputs.flatMap(({ name }, i) => (from[i] !== to[i] ? [] : [{ name, value: to[i] }]));
  const ones = others.filter(({ value }) => value === 1).map(({ name }) => visible(name));
  const zeros = others.filter(({ value }) => value === 0).map(({ name }) => visible(name));
  const words = [changed.join(', ')];
  if (others.length > 0) {
    const [fewer, level, rest] = ones.length <= zeros.length ? [ones, 1, 0] : [zeros, 0, 1];
    words.push(
      fewer.length === 0
        ? `with all others at ${rest}`
        : fewer.length === others.length
          ? `with ${fewer.join(' ')} at ${level}`
          : `with ${fewer.join(' ')} at ${level}, all others at ${rest}`,
    );
  }
  return words.join(' ').split(' ');
}

function pathWords(circuit: Circuit, { steps }: Path, output: number): string[] {
  return steps.map(({ wire, tick, edge }, at) => {
    const isLast = at === steps.length - 1;
    const name = isLast ? outputName(circuit, output) : visible(circuit.names[wire]);
    return `${name} ${edge} ${tick}${isLast ? '' : ' >'}`;
  });
}

function edgeLines(report: SettlingReport): string[] {
  const { circuit, settling } = report;
  return settling.outputs.flatMap(({ output, slowest }) => {
    const { on, off } = slowest.any;
    const [a, b] = [on.settles, off.settles];
    if (a.transition === null || b.transition === null || a.tick === b.tick) return [];
    const tests = benchPlan(circuit, { ...settling, outputs: [settling.outputs[output]] });
    const slow = a.tick > b.tick ? 'on' : 'off';
    const fast = slow === 'on' ? 'off' : 'on';
    const ways = (edge: Edge): string => {
      const test = tests.filter((other) => other.edge === edge).at(-1) as BenchTest;
      return wayCount(circuit, test.path);
    };
    const late = Math.abs(a.tick - b.tick);
    const sentence =
      `${outputName(circuit, output)} switches ${slow} ${counted(late, 'tick')} later than ${fast}. ` +
      `Its slowest way ${slow} is ${ways(slow)}; its slowest way ${fast} is ${ways(fast)}.`;
    return prose(sentence, INDENT);
  });
}

/** How many inverters go on and off on a path, and what that takes. */
function wayCount(circuit: Circuit, { steps }: Path): string {
  const inverters = steps.filter(({ wire }) => circuit.kinds[wire] === 'inverter');
  const parts = EDGES.flatMap((edge) => {
    const group = inverters.filter((step) => step.edge === edge);
    if (group.length === 0) return [];
    const ticks = group.map(({ wire }) => (edge === 'on' ? circuit.ticksOn[wire] : circuit.ticksOff[wire]));
    const each = ticks.every((tick) => tick === ticks[0])
      ? `${counted(ticks[0], 'tick')}${group.length > 1 ? ' each' : ''}`
      : `${ticks.reduce((sum, tick) => sum + tick, 0)} ticks together`;
    return [`${counted(group.length, 'inverter')} going ${edge} (${each})`];
  });
  const start = steps[0]?.tick ?? 0;
  const arrival = start > 0 ? [`an input that arrives at tick ${start}`] : [];
  return [...arrival, ...parts].join(' and ') || 'a wire without inverters';
}

function falsePathLines({ circuit, falsePaths }: SettlingReport): string[] {
  return falsePaths.flatMap(({ output, edge, bound, settles, path, stuck, pulse }, at) => {
    const name = outputName(circuit, output);
    const isFirst = falsePaths.findIndex((other) => other.output === output && other.edge === edge) === at;
    const never = settles === NEVER ? `never settles ${edge}` : `settles ${edge} by tick ${settles}`;
    const lines = isFirst ? prose(`${name} ${never}, the bound is ${bound}:`, INDENT) : [];
    const words = pathWords(circuit, path, output);
    const step = stuck === null ? null : path.steps[stuck];
    const why =
      step === null
        ? pulse
          ? 'only for a pulse that ends later'
          : 'whether it is exercised was not decided'
        : `${stuck === path.steps.length - 1 ? name : visible(circuit.names[step.wire])} never goes ${step.edge} at tick ${step.tick}`;
    const last = words.pop();
    return [...lines, ...paragraph([...words, `${last}:`, ...why.split(' ')], `${INDENT}${INDENT}`)];
  });
}

function wireLines({ circuit, arrivals }: SettlingReport, painter: Painter): string[] {
  const { required, slack } = requirementsOf(circuit, arrivals);
  const width = Math.max(4, ...circuit.names.map((name) => visible(name).length));
  const tick = (value: number): string => (value === NEVER || !Number.isFinite(value) ? '-' : String(value));
  const line = (cells: readonly string[]): string =>
    INDENT +
    cells[0].padEnd(width) +
    cells
      .slice(1)
      .map((cell) => cell.padStart(10))
      .join('');
  const both = (pair: Readonly<Record<Edge, ArrayLike<number>>>, wire: number): string => {
    const [on, off] = [tick(pair.on[wire]), tick(pair.off[wire])];
    return on === off ? on : `${on}/${off}`;
  };
  return [
    ...faint(
      'The earliest and the latest tick at which a wire can change, the latest at which it may, and the ticks to ' +
        'spare. Where on and off differ, both stand there: on/off.',
      painter,
    ),
    painter.faint(line(['wire', 'earliest', 'latest', 'required', 'slack'])),
    ...circuit.names.flatMap((name, wire) =>
      circuit.kinds[wire] === 'constant'
        ? []
        : [
            line([
              visible(name),
              both(arrivals.earliest, wire),
              both(arrivals.latest, wire),
              both(required, wire),
              tick(slack[wire]),
            ]),
          ],
    ),
  ];
}

function criticalLines({ circuit, arrivals }: SettlingReport): string[] {
  return circuit.outputs.flatMap(({ wire }, output) => {
    const latest = Math.max(...EDGES.map((edge) => arrivals.latest[edge][wire]));
    return EDGES.flatMap((edge) => {
      if (arrivals.latest[edge][wire] !== latest || latest === NEVER) return [];
      return longestPaths(circuit, arrivals, wire, edge, latest - 1, 2).flatMap((path) =>
        paragraph(pathWords(circuit, path, output), INDENT),
      );
    });
  });
}

function candidateLines({ circuit, candidates }: SettlingReport, painter: Painter): string[] {
  if (candidates === null) return [];
  return [
    ...faint('The slowest tick when that input alone flips; on/off where the two differ.', painter),
    ...circuit.outputs.flatMap((_, output) => {
      const here = candidates.filter((candidate) => candidate.output === output);
      const inputs = [...new Set(here.map(({ input }) => input))];
      const words = inputs.map((input) => {
        const tick = (edge: Edge): string =>
          String(here.find((other) => other.input === input && other.edge === edge)?.tick ?? '-');
        const name = visible(circuit.inputs[input].name);
        return `${name} ${tick('on') === tick('off') ? tick('on') : `${tick('on')}/${tick('off')}`},`;
      });
      const last = words.pop();
      if (last === undefined) return [];
      return paragraph([...words, last.slice(0, -1)], `${INDENT}${outputName(circuit, output)}: `);
    }),
  ];
}

function enduranceLines({ circuit, endurance }: SettlingReport): string[] {
  if (endurance === null) return [];
  const { wear, minPulse } = circuit.endurance;
  const lines: string[] = [];
  const worn = endurance.wear.flatMap((entry) => {
    const strain = strainOf(circuit, entry);
    return strain === null ? [] : [{ ...entry, strain }];
  });
  const which = endurance.flips === 'any' ? 'any change of the inputs' : 'a flip of one input';
  if (wear !== null) {
    lines.push(
      ...prose(
        worn.length === 0
          ? `No inverter comes near ${counted(wear.changes, 'change')} in ${counted(wear.window, 'tick')} after ${which}.`
          : `An inverter stands ${counted(wear.changes, 'change')} in ${counted(wear.window, 'tick')}; after ${which}:`,
        INDENT,
      ),
    );
    for (const { wire, changes, strain, transition } of worn) {
      const words = `${visible(circuit.names[wire])} ${strain === 'fails' ? 'fails' : 'comes near'}: ${counted(changes, 'change')}`;
      const how = transition === null ? [] : transitionWords(circuit, transition);
      lines.push(
        ...paragraph(
          [...`${words}, ${how.length > 0 ? 'with' : ''}`.trim().split(' '), ...how],
          `${INDENT}${INDENT}`,
        ),
      );
    }
  }
  if (minPulse > 0) {
    const short = endurance.pulses.filter(({ ticks }) => ticks < minPulse);
    lines.push(
      ...prose(
        short.length === 0
          ? `No wire has a pulse shorter than the ${counted(minPulse, 'tick')} that an inverter follows.`
          : `An inverter follows pulses of ${counted(minPulse, 'tick')}; shorter ones after ${which}:`,
        INDENT,
      ),
    );
    for (const { wire, ticks, transition } of short) {
      const how = transition === null ? [] : transitionWords(circuit, transition);
      lines.push(
        ...paragraph(
          [`${visible(circuit.names[wire])}: ${counted(ticks, 'tick')},`, ...how],
          `${INDENT}${INDENT}`,
        ),
      );
    }
  }
  return lines;
}

function benchLines({ circuit, settling }: SettlingReport, painter: Painter): string[] {
  const tests = benchPlan(circuit, settling);
  return [
    ...faint('Levels of active-low inputs and outputs are those of the wire.', painter).filter(() =>
      hasLowRails(circuit),
    ),
    ...tests.flatMap((test, at) => benchTestLines(circuit, test, at + 1)),
  ];
}

function hasLowRails(circuit: Circuit): boolean {
  return circuit.outputs.some(({ rail }) => rail === 'low') || circuit.inverted.includes(1);
}

/** The wires of an input with their levels under a pattern. */
function inputWords(circuit: Circuit, input: number, pattern: Pattern): string[] {
  return circuit.names.flatMap((name, wire) =>
    circuit.kinds[wire] === 'input' && circuit.source[wire] === input
      ? [`${visible(name)} = ${pattern[input] ^ circuit.inverted[wire]}`]
      : [],
  );
}

function benchTestLines(circuit: Circuit, test: BenchTest, number: number): string[] {
  const { from, to } = test.transition;
  const name = outputName(circuit, test.output);
  const step = (label: string, words: readonly string[]): string[] =>
    paragraph(words, `${INDENT}${INDENT}${label.padEnd(8)}`);
  const listed = (words: readonly string[]): string[] =>
    words.map((word, at) => (at < words.length - 1 ? `${word},` : word));
  const set = circuit.inputs.flatMap((_, i) => inputWords(circuit, i, from));
  const flip = test.changed.flatMap((i) => inputWords(circuit, i, to));
  const late = test.changed.filter((i) => circuit.inputs[i].tick > 0);
  const watch = test.changes.map(({ level, tick }) => `${level} at tick ${tick}`);
  const earlier = watch.length > 1 ? ['on the way', ...listed(watch.slice(0, -1)), 'then'] : [];
  const claim = {
    all: 'nothing is slower',
    bound: 'proved slowest',
    refuted: 'proved slowest',
    found: 'slowest found',
  }[test.claim];
  return [
    `${INDENT}${number}. ${name} ${test.edge}, ${claim}${test.flips === 'any' ? ' of any change' : ''}`,
    ...step('set', listed(set)),
    ...step('wait', [counted(test.wait, 'tick')]),
    ...step('flip', [
      ...listed(flip),
      ...late.map(
        (i) =>
          `(${visible(circuit.inputs[i].name)} arrives ${counted(circuit.inputs[i].tick, 'tick')} later)`,
      ),
    ]),
    ...step('expect', [`${name} = ${test.before},`, ...earlier, `${watch.at(-1)}`]),
  ];
}

function faint(text: string, painter: Painter): string[] {
  return prose(text, INDENT).map((line) => painter.faint(line));
}

/** The name of an output, with its rail where it has two. */
export function outputName(circuit: Circuit, output: number): string {
  const { name, rail } = circuit.outputs[output];
  const twice = circuit.outputs.filter((other) => other.name === name).length > 1;
  return visible(name) + (twice || rail === 'low' ? ` (${rail})` : '');
}
