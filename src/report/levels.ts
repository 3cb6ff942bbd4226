// Levels of the wires of a result: once everything has settled, and tick by tick after the inputs have changed. An
// inverter shows what its legs were as many ticks before as it takes.

import type { TickCosts } from '../network/levels.ts';
import type { WireNetwork } from './result.ts';

export type Levels = ReadonlyMap<string, 0 | 1>;
/** Level of every input signal by name. */
export type Pattern = Readonly<Record<string, 0 | 1>>;

type Logic = 'or' | 'and';

/** An inverter takes a tick, a join none. */
const UNIT: TickCosts = { inverterTicks: 1, joinTicks: 0 };

function joined(legs: readonly string[], levels: Levels, logic: Logic): 0 | 1 {
  const dominant = logic === 'or' ? 1 : 0;
  return legs.some((leg) => levels.get(leg) === dominant) ? dominant : dominant === 1 ? 0 : 1;
}

function inputLevels(network: WireNetwork, pattern: Pattern): Map<string, 0 | 1> {
  const levels = new Map<string, 0 | 1>([
    ['0', 0],
    ['1', 1],
  ]);
  for (const { name, rail, wire } of network.inputs) {
    const signal = Object.hasOwn(pattern, name) ? pattern[name] : 0;
    levels.set(wire, rail === 'high' ? signal : signal === 1 ? 0 : 1);
  }
  return levels;
}

/** Level of every wire when all has settled. */
export function settledLevels(network: WireNetwork, pattern: Pattern, logic: Logic): Levels {
  const levels = inputLevels(network, pattern);
  for (const { wire, legs } of network.inverters) levels.set(wire, joined(legs, levels, logic) === 1 ? 0 : 1);
  return levels;
}

/** Level of a join, or of an output, given the levels of its legs. */
export function joinLevel(legs: readonly string[], levels: Levels, logic: Logic): 0 | 1 {
  return joined(legs, levels, logic);
}

/** A change from one pattern to another. */
export interface Transition {
  readonly from: Pattern;
  readonly to: Pattern;
  /** Level of every wire at tick 0, 1, 2 and so on, until nothing changes any more. */
  readonly steps: readonly Levels[];
}

/** What every wire does after all inputs have changed at their ticks. */
export function transition(
  network: WireNetwork,
  from: Pattern,
  to: Pattern,
  logic: Logic,
  costs: TickCosts = UNIT,
): Transition {
  const before = settledLevels(network, from, logic);
  const goal = inputLevels(network, to);
  const arrival = new Map(network.inputs.map(({ wire, tick }) => [wire, tick]));
  const latest = Math.max(
    0,
    ...network.inputs.map(({ tick }) => tick),
    ...network.inverters.map(({ tick }) => tick),
  );
  const steps: Levels[] = [];
  const at = (tick: number): Levels => (tick < 0 ? before : steps[tick]);
  for (let tick = 0; tick <= latest; tick++) {
    const now = new Map<string, 0 | 1>();
    for (const [wire, level] of goal)
      now.set(wire, tick >= (arrival.get(wire) ?? 0) ? level : (before.get(wire) ?? level));
    for (const { wire, legs } of network.inverters) {
      const delay = costs.inverterTicks + (legs.length > 1 ? costs.joinTicks : 0);
      now.set(wire, joined(legs, delay === 0 ? now : at(tick - delay), logic) === 1 ? 0 : 1);
    }
    steps.push(now);
  }
  return { from, to, steps };
}

/** Signals of the inputs, each once. */
export function inputSignals(network: WireNetwork): string[] {
  return [...new Set(network.inputs.map(({ name }) => name))];
}

/** Patterns to try: all of few inputs; of many all zeros, all ones, each input alone and a fixed sequence. */
export function trialPatterns(signals: readonly string[]): Pattern[] {
  const pattern = (level: (at: number) => boolean): Pattern =>
    Object.fromEntries(signals.map((name, at) => [name, level(at) ? 1 : 0]));
  if (signals.length <= 6)
    return Array.from({ length: 2 ** signals.length }, (_, row) => pattern((at) => ((row >> at) & 1) === 1));
  let state = 1;
  const random = (): boolean => {
    state = (Math.imul(state, 1103515245) + 12345) >>> 0;
    return (state >>> 16) % 2 === 1;
  };
  return [
    pattern(() => false),
    pattern(() => true),
    ...signals.map((_, one) => pattern((at) => at === one)),
    ...signals.map((_, one) => pattern((at) => at <= one)),
    ...Array.from({ length: 60 }, () => pattern(random)),
  ];
}

/** The transition, among those tried, after which something still changes latest; of equals the one that changes most. */
export function slowestTransition(
  network: WireNetwork,
  logic: Logic,
  costs: TickCosts = UNIT,
): Transition | null {
  const patterns = trialPatterns(inputSignals(network)).slice(0, 96);
  let best: { found: Transition; last: number; changes: number } | null = null;
  for (const from of patterns) {
    for (const to of patterns) {
      if (from === to) continue;
      const found = transition(network, from, to, logic, costs);
      let [last, changes] = [0, 0];
      for (let tick = 1; tick < found.steps.length; tick++) {
        for (const [wire, level] of found.steps[tick]) {
          if (found.steps[tick - 1].get(wire) === level) continue;
          changes++;
          last = tick;
        }
      }
      const seen = outputChange(network, found, logic);
      const late = seen * 1000 + last;
      if (best === null || late > best.last || (late === best.last && changes < best.changes))
        best = { found, last: late, changes };
    }
  }
  return best?.found ?? null;
}

/** Last tick at which any output changes. */
function outputChange({ outputs }: WireNetwork, { steps }: Transition, logic: Logic): number {
  for (let tick = steps.length - 1; tick > 0; tick--)
    if (outputs.some(({ legs }) => joined(legs, steps[tick], logic) !== joined(legs, steps[tick - 1], logic)))
      return tick;
  return 0;
}
