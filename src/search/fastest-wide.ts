// The fewest ticks that are possible, for systems whose tables are too long: the cube test of fastest.ts put to the
// solver.
//
// Idea. An output can be 1 at a pattern m by an inverter iff no pattern where it must be 0 agrees with m on all literals
// that can arrive. Two copies of the system, m in one and the other pattern in the other: output 1 here, 0 there, and for
// every input a clause for each of its literals that can arrive, "if it holds here, it holds there", switched on by an
// assumption. Unsatisfiable means that the tick is enough. An input wire that has arrived may be joined directly if it is
// never 1 where the output is 0, which is one more question to the second copy; m is then one where such wires are 0.
// Patterns on which an output is free are neither such an m nor such a pattern. One solver serves all outputs and ticks,
// so that what it learns stays. Most questions about one copy are whether two literals can ever hold together, one for
// every output and input; a few hundred patterns drawn at random answer nearly all of them with a pattern where they do,
// and the solver is asked about the rest.
//
// Exact for joins of 0 ticks without leg limits and without rails left to the search; a rail left open counts as both
// rails present, which makes the figure a lower bound. A question that runs into the limit counts as "enough", likewise.

import type { System } from '../equations/system.ts';
import { Solver } from '../solver/solver.ts';
import { evaluateSystem, type SystemTables } from '../truth/system-tables.ts';
import type { Table } from '../truth/table.ts';
import type { Fastest } from './fastest.ts';
import { Random } from './random.ts';
import { SystemParts } from './subsystem.ts';
import { addSystem, type SystemClauses } from './system-clauses.ts';
import type { Task } from './task.ts';

/** Row bits of the patterns that are looked at before the solver is asked. */
const WITNESS_BITS = 8;

/**
 * Fewest ticks; `conflicts` is the limit of each question, `questions` that of all. The task may be a sample: its tables
 * are not looked at.
 */
export function fastestWide(
  system: System,
  task: Task,
  conflicts: number,
  questions = Number.POSITIVE_INFINITY,
): Fastest {
  return new WideQuestions(system, task, conflicts, questions).answer();
}

class WideQuestions {
  private readonly system: System;
  private readonly task: Task;
  private readonly limit: number;
  private readonly solver = new Solver();
  private readonly here: SystemClauses;
  private readonly there: SystemClauses;
  /** By input: switches "1 here means 1 there" and "0 here means 0 there" on. */
  private readonly holdsOne: number[] = [];
  private readonly holdsZero: number[] = [];
  private complete = true;
  /** By output: the inputs that it hangs on. Others cannot help it, so no question is about them. */
  private readonly inputsOf: ReadonlyMap<number, ReadonlySet<number>>;

  private questions: number;

  /** All signals on patterns drawn at random. */
  private readonly witnesses: SystemTables;
  /** What the solver has said of a level and an output, so that it is asked once and not at every tick. */
  private readonly answered = new Map<string, boolean>();

  constructor(system: System, task: Task, limit: number, questions: number) {
    this.system = system;
    this.task = task;
    this.limit = limit;
    this.questions = questions;
    const parts = new SystemParts(system);
    this.inputsOf = new Map(system.outputs.map(({ signal }, y) => [signal, parts.inputsCoupledTo(y)]));
    this.here = addSystem(this.solver, system);
    this.there = addSystem(this.solver, system);
    for (const { signal } of system.inputs) {
      const one = this.solver.newVariable();
      const zero = this.solver.newVariable();
      this.solver.addClause([-one, -this.here.signals[signal], this.there.signals[signal]]);
      this.solver.addClause([-zero, this.here.signals[signal], -this.there.signals[signal]]);
      this.holdsOne.push(one);
      this.holdsZero.push(zero);
    }
    const random = new Random(1);
    const columns = system.inputs.map(() =>
      Uint32Array.from({ length: (2 ** WITNESS_BITS) >> 5 }, () => random.next()),
    );
    this.witnesses = evaluateSystem(system, columns, WITNESS_BITS);
  }

  answer(): Fastest {
    const { task } = this;
    const { rules } = task;
    const each = task.outputs.map((_, y) => this.earliest(y));
    const open = each.filter((_, y) => task.outputs[y].by === null);
    const met = each.every((tick, y) => tick <= (task.outputs[y].by ?? Number.POSITIVE_INFINITY));
    const exact =
      this.complete &&
      rules.joinTicks === 0 &&
      rules.inverterLegs === Number.POSITIVE_INFINITY &&
      (rules.outputLegs === Number.POSITIVE_INFINITY || rules.outputLegs === 1) &&
      task.wires.every((wire) => wire.rival < 0);
    return {
      ticks: Math.max(0, ...each),
      withDeadlines: met ? Math.max(0, ...open) : null,
      each,
      exact,
    };
  }

  private earliest(y: number): number {
    const { task } = this;
    const last = Math.max(0, ...task.wires.map((wire) => wire.tick)) + 3 * task.rules.inverterTicks;
    for (let tick = 0; tick < last; tick++) if (this.enough(y, tick)) return tick;
    return last;
  }

  private enough(y: number, tick: number): boolean {
    const { rail, signal } = this.task.outputs[y];
    const rails = rail === 'either' ? [1, -1] : [(rail === 'low') !== this.task.mirrored ? -1 : 1];
    return rails.some((sign) => {
      if (this.task.rules.outputLegs !== 1) return this.asJoin(signal, sign, tick);
      return this.asWire(signal, sign, tick);
    });
  }

  private asWire(signal: number, sign: number, tick: number): boolean {
    if (this.isNever(signal, sign) || this.isNever(signal, -sign)) return true;
    const hangsOn = this.inputsOf.get(signal);
    const direct = this.task.wires.some((wire) => {
      if (wire.tick > tick || !hangsOn?.has(wire.input)) return false;
      const { input, straight } = wire;
      return this.isNever(signal, -sign, input, straight) && this.isNever(signal, sign, input, !straight);
    });
    return direct || this.asJoin(signal, -sign, tick - this.task.rules.inverterTicks);
  }

  private asJoin(signal: number, sign: number, by: number): boolean {
    const { task } = this;
    if (by < 0) return false;
    if (this.isNever(signal, sign) || this.isNever(signal, -sign)) return true;
    const assumptions = [...this.must(signal, sign, this.here), ...this.must(signal, -sign, this.there)];
    const hangsOn = this.inputsOf.get(signal);
    task.wires.forEach((wire) => {
      if (!hangsOn?.has(wire.input)) return;
      if (wire.tick <= by && this.isNever(signal, -sign, wire.input, wire.straight)) {
        assumptions.push(-this.levelOf(wire.input, wire.straight, this.here));
      }
      if (wire.tick + task.rules.inverterTicks <= by) {
        assumptions.push(wire.straight ? this.holdsZero[wire.input] : this.holdsOne[wire.input]);
      }
      if (wire.tick + 2 * task.rules.inverterTicks <= by) {
        assumptions.push(wire.straight ? this.holdsOne[wire.input] : this.holdsZero[wire.input]);
      }
    });
    return this.no(assumptions);
  }

  /** What is so on the patterns where the signal must have the value that `sign` says: it has it, and is not free. */
  private must(signal: number, sign: number, copy: SystemClauses): number[] {
    const free = copy.free.get(signal);
    return [sign * copy.signals[signal], ...(free === undefined ? [] : [-free])];
  }

  private levelOf(input: number, straight: boolean, copy: SystemClauses): number {
    const literal = copy.signals[this.system.inputs[input].signal];
    return straight ? literal : -literal;
  }

  /** Is there no pattern where the signal must have the value that `sign` says, and an input wire, if one is given, is 1? */
  private isNever(signal: number, sign: number, input = -1, straight = true): boolean {
    if (this.isSeen(signal, sign, input, straight)) return false;
    const key = `${signal} ${sign} ${input} ${straight}`;
    let answer = this.answered.get(key);
    if (answer === undefined) {
      const level = input < 0 ? [] : [this.levelOf(input, straight, this.there)];
      answer = this.no([...level, ...this.must(signal, sign, this.there)]);
      this.answered.set(key, answer);
    }
    return answer;
  }

  /** Is one of the patterns at hand such a pattern? */
  private isSeen(signal: number, sign: number, input: number, straight: boolean): boolean {
    const { signals, care, free } = this.witnesses;
    const wire: Table | null = input < 0 ? null : signals[this.system.inputs[input].signal];
    const freeRows = free.get(signal);
    for (let w = 0; w < care.length; w++) {
      let rows = care[w] & (sign > 0 ? signals[signal][w] : ~signals[signal][w]);
      if (freeRows !== undefined) rows &= ~freeRows[w];
      if (wire !== null) rows &= straight ? wire[w] : ~wire[w];
      if (rows !== 0) return true;
    }
    return false;
  }

  /** Can these not all hold? Undecided counts as "they cannot", and makes the figure a bound. */
  private no(assumptions: readonly number[]): boolean {
    const answer = this.questions-- <= 0 ? 'undecided' : this.solver.solve(assumptions, this.limit);
    if (answer === 'undecided') this.complete = false;
    return answer !== 'satisfiable';
  }
}
