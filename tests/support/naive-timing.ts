// The plainest simulator of transitions, written apart from src: one transition at a time, forward in time, a list of
// levels for each tick. It knows a network and a target, not the circuits of src/timing.

import type { Network } from '../../src/network/network.ts';
import type { Target } from '../../src/target/target.ts';
import { inverterLegs, joinLegs } from './naive-evaluator.ts';

export interface NaiveFigures {
  /** Tick of the last change that ends on, and that ends off; -1 for none. */
  readonly on: number;
  readonly off: number;
  /** The same over transitions that change the output for good. */
  readonly changeOn: number;
  readonly changeOff: number;
}

/** What is the same for all transitions of a network. */
export class NaiveTimer {
  private readonly inverters: number[][];
  private readonly outputs: number[][];
  private readonly network: Network;
  private readonly target: Target;
  private readonly signals: readonly number[];

  /** `signals[i]` is the signal of input i of the equations. */
  constructor(network: Network, target: Target, signals: readonly number[]) {
    this.network = network;
    this.target = target;
    this.signals = signals;
    this.inverters = Array.from({ length: network.size }, (_, i) => inverterLegs(network, i));
    this.outputs = network.outputs.map((_, y) => joinLegs(network, y));
  }

  /** Levels of all outputs at ticks -1 to `until`; index 0 is tick -1. */
  run(before: readonly boolean[], after: readonly boolean[], until: number): boolean[][] {
    return this.all(before, after, until).outputs;
  }

  /** The same for all inverters. */
  inverterLevels(before: readonly boolean[], after: readonly boolean[], until: number): boolean[][] {
    const first = 2 + this.network.inputs.length;
    return this.all(before, after, until).wires.map((levels) => levels.slice(first));
  }

  private all(
    before: readonly boolean[],
    after: readonly boolean[],
    until: number,
  ): { wires: boolean[][]; outputs: boolean[][] } {
    const { network, inverters } = this;
    const { ticksOn, ticksOff } = this.target.inverter;
    const or = this.target.join.logic === 'or';
    const joinTicks = this.target.join.ticks;
    const first = 2 + network.inputs.length;
    const wireValue = (i: number, values: readonly boolean[]): boolean => {
      const { signal, rail } = network.inputs[i];
      return values[this.signals.indexOf(signal)] === (rail === 'high');
    };
    const joined = (legs: readonly number[], levels: readonly boolean[]): boolean => {
      for (const leg of legs) if (levels[leg] === or) return or;
      return !or;
    };
    const settled: boolean[] = [false, true];
    for (let i = 0; i < network.inputs.length; i++) settled.push(wireValue(i, before));
    for (let i = 0; i < network.size; i++) settled[first + i] = !joined(inverters[i], settled);
    const wires: boolean[][] = [settled];
    const at = (tick: number): boolean[] => (tick < 0 ? settled : wires[tick + 1]);
    const near = Math.min(ticksOn, ticksOff);
    const far = Math.max(ticksOn, ticksOff);
    for (let tick = 0; tick <= until; tick++) {
      const levels: boolean[] = [false, true];
      for (let i = 0; i < network.inputs.length; i++) {
        levels.push(wireValue(i, tick >= network.inputs[i].tick ? after : before));
      }
      for (let i = 0; i < network.size; i++) {
        const legs = inverters[i];
        const wait = legs.length > 1 ? joinTicks : 0;
        let some = false;
        let every = true;
        for (let back = near; back <= far; back++) {
          if (joined(legs, at(tick - back - wait))) every = false;
          else some = true;
        }
        levels.push(ticksOff > ticksOn ? some : every);
      }
      wires.push(levels);
    }
    const outputs: boolean[][] = [];
    for (let tick = -1; tick <= until; tick++) {
      outputs.push(this.outputs.map((legs) => joined(legs, at(legs.length > 1 ? tick - joinTicks : tick))));
    }
    return { wires, outputs };
  }
}

/** The figures of every output over the given transitions, by trying each of them. */
export function naiveSettling(
  timer: NaiveTimer,
  outputs: number,
  transitions: Iterable<readonly [readonly boolean[], readonly boolean[]]>,
  until: number,
): NaiveFigures[] {
  const figures = Array.from({ length: outputs }, () => ({ on: -1, off: -1, changeOn: -1, changeOff: -1 }));
  for (const [before, after] of transitions) {
    const levels = timer.run(before, after, until);
    figures.forEach((figure, y) => {
      let last = -1;
      for (let tick = 0; tick <= until; tick++) if (levels[tick + 1][y] !== levels[tick][y]) last = tick;
      if (last < 0) return;
      const ends = levels[until + 1][y];
      const good = levels[0][y] !== ends;
      if (ends) {
        figure.on = Math.max(figure.on, last);
        if (good) figure.changeOn = Math.max(figure.changeOn, last);
      } else {
        figure.off = Math.max(figure.off, last);
        if (good) figure.changeOff = Math.max(figure.changeOff, last);
      }
    });
  }
  return figures;
}

/** All pairs of different patterns, or all pairs that differ in one input. */
export function* transitionsOf(
  inputs: number,
  flips: 'single' | 'any',
): Generator<readonly [boolean[], boolean[]]> {
  const pattern = (row: number): boolean[] =>
    Array.from({ length: inputs }, (_, i) => ((row >> i) & 1) === 1);
  for (let from = 0; from < 2 ** inputs; from++) {
    for (let to = 0; to < 2 ** inputs; to++) {
      const changed = from ^ to;
      if (changed === 0 || (flips === 'single' && (changed & (changed - 1)) !== 0)) continue;
      yield [pattern(from), pattern(to)];
    }
  }
}
