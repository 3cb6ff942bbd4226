// As written: the network a careful builder gets by laying every operator as the gate it names, one after another.
// It is the baseline that every answer is compared with, and a starting point of the search.
//
// Rules. A chain of one AND, OR, NAND or NOR is one gate with all its operands. XOR and XNOR are gates of two operands
// from the left; what such a gate takes in a target is asked of the exact search, fewest ticks first. NOT over an AND,
// OR or XOR makes one NAND, NOR or XNOR. `a -> b` is a' + b; mux and maj are their sums of products. Nothing is shared
// but named signals: a complement needed twice is built twice. A rail that exists anyway (an input declared low) is
// used where the gate wants it. Over a leg limit a gate becomes a balanced tree.
//
// A gate is made of the two parts of the target only: OR is a join, NOR an inverter with all operands as legs, NAND
// the join of the complements, AND an inverter over the complements. Where joins stand at inverter inputs only, a value
// must be one wire, so OR is NOR and an inverter more, and so on: no gate cost is written down anywhere.
//
// For joins that compute AND every operator and constant is replaced by its dual: see task.ts.

import type { Expression, System } from '../equations/system.ts';
import { packNetwork } from '../network/build-network.ts';
import { FIRST_INPUT, type Network, ONE, ZERO } from '../network/network.ts';
import type { Draft } from './draft.ts';
import type { Task } from './task.ts';
import { twoOperandGate } from './two-operand-gate.ts';

/** A logical value on one rail or both: each rail is a join of legs, or null where nothing carries it yet. */
export interface Value {
  high: readonly number[] | null;
  low: readonly number[] | null;
}

/** The draft of the system as written. Wires of undecided input rails are taken active-high. */
export function asWrittenDraft(system: System, task: Task): Draft {
  return new Writer(system, task).draft();
}

/** The network as written: nothing merged, only what no output needs is left out. */
export function asWrittenNetwork(task: Task, draft: Draft): Network {
  const first = FIRST_INPUT + task.wires.length;
  const used = new Uint8Array(first + draft.inverters.length);
  for (const legs of draft.outputs) for (const leg of legs) used[leg] = 1;
  for (let i = draft.inverters.length - 1; i >= 0; i--) {
    if (used[first + i] === 1) for (const leg of draft.inverters[i]) used[leg] = 1;
  }
  const number: number[] = task.mirrored ? [ONE, ZERO] : [ZERO, ONE];
  const inputs = task.wires.filter((_, s) => draft.chosen[s]);
  let next = FIRST_INPUT;
  task.wires.forEach((_, s) => {
    number.push(draft.chosen[s] ? next++ : -1);
  });
  const kept = draft.inverters.filter((legs, i) => {
    void legs;
    number.push(used[first + i] === 1 ? next++ : -1);
    return used[first + i] === 1;
  });
  const rename = (legs: readonly number[]): number[] => legs.map((leg) => number[leg]).sort((a, b) => a - b);
  return packNetwork(
    inputs.map(({ signal, rail, tick }) => ({ signal, rail, tick })),
    task.outputs.map(({ signal, rail }, y) => ({
      signal,
      rail: rail === 'either' ? (draft.low[y] ? 'low' : 'high') : rail,
    })),
    kept.map(rename),
    draft.outputs.map(rename),
  );
}

/** Lays definitions one after another; those with a preset are taken from it instead. */
export class Writer {
  private readonly system: System;
  private readonly task: Task;
  private readonly inverters: number[][] = [];
  private readonly values: Value[];
  private readonly presets: ReadonlyMap<number, () => Value>;

  constructor(system: System, task: Task, presets: ReadonlyMap<number, () => Value> = new Map()) {
    this.presets = presets;
    this.system = system;
    this.task = task;
    this.values = system.signals.map(() => ({ high: null, low: null }));
    task.wires.forEach((wire, s) => {
      if (wire.rival >= 0 && wire.rail === 'low') return;
      this.values[wire.signal][wire.rail] = [FIRST_INPUT + s];
    });
  }

  draft(): Draft {
    const { system, task } = this;
    for (const { signal, expression } of system.definitions) {
      this.values[signal] = this.presets.get(signal)?.() ?? this.value(expression);
    }
    const low: boolean[] = [];
    const outputs = task.outputs.map(({ signal, rail }) => {
      const value = this.values[signal];
      const isLow = rail === 'low' || (rail === 'either' && value.high === null);
      low.push(isLow);
      return this.fit([isLow ? this.low(value) : this.high(value)], task.rules.outputLegs);
    });
    return {
      chosen: task.wires.map((wire) => wire.rival < 0 || wire.rail === 'high'),
      low,
      inverters: this.inverters,
      outputs,
    };
  }

  /** What has been laid for a signal so far. */
  valueOf(signal: number): Value {
    return this.values[signal];
  }

  value(e: Expression): Value {
    switch (e.kind) {
      case 'constant':
        return this.constant(e.value);
      case 'signal':
        return this.values[e.signal];
      case 'not':
        return this.complement(e.argument);
      case 'and':
      case 'or':
        return this.gate(e.kind, false, e.args);
      case 'nand':
        return this.gate('and', true, e.args);
      case 'nor':
        return this.gate('or', true, e.args);
      case 'xor':
        return this.parity(e.args, false);
      case 'xnor':
        return this.parity(e.args, true);
      case 'equals':
        return this.parity([e.left, e.right], true);
      case 'implies':
        return this.gate('or', false, [not(e.left), e.right]);
      case 'mux':
        return this.gate('or', false, [
          { kind: 'and', args: [not(e.select), e.when0] },
          { kind: 'and', args: [e.select, e.when1] },
        ]);
      case 'maj': {
        const [a, b, c] = e.args;
        return this.gate('or', false, [
          { kind: 'and', args: [a, b] },
          { kind: 'and', args: [a, c] },
          { kind: 'and', args: [b, c] },
        ]);
      }
    }
  }

  private constant(value: 0 | 1): Value {
    return (value === 1) !== this.task.mirrored ? { high: [ONE], low: [ZERO] } : { high: [ZERO], low: [ONE] };
  }

  private complement(e: Expression): Value {
    if (e.kind === 'and' || e.kind === 'or') return this.gate(e.kind, true, e.args);
    if (e.kind === 'xor' || e.kind === 'xnor') return this.parity(e.args, e.kind === 'xor');
    const value = this.value(e);
    if (value.low !== null) return { high: value.low, low: value.high };
    return { high: [this.inverter(this.high(value))], low: value.high };
  }

  private gate(kind: 'and' | 'or', inverted: boolean, args: readonly Expression[]): Value {
    const asOr = (kind === 'or') !== this.task.mirrored;
    const operands: (readonly number[])[] = [];
    for (const arg of args) {
      const value = this.value(arg);
      const legs = asOr ? this.high(value) : this.low(value);
      if (legs.includes(ONE)) {
        const level = asOr !== inverted;
        return level ? { high: [ONE], low: [ZERO] } : { high: [ZERO], low: [ONE] };
      }
      if (!legs.includes(ZERO)) operands.push(legs);
    }
    if (operands.length === 0) {
      const level = asOr === inverted;
      return level ? { high: [ONE], low: [ZERO] } : { high: [ZERO], low: [ONE] };
    }
    // OR and NAND are joins of their operands, NOR and AND inverters over them.
    return asOr !== inverted ? { high: this.join(operands), low: null } : this.wire(this.nor(operands));
  }

  private parity(args: readonly Expression[], inverted: boolean): Value {
    let flip = inverted !== (this.task.mirrored && args.length % 2 === 0);
    const operands: Value[] = [];
    for (const arg of args) {
      const value = this.value(arg);
      if (value.high?.[0] === ONE) flip = !flip;
      else if (value.high?.[0] !== ZERO) operands.push(value);
    }
    if (operands.length === 0) return flip ? { high: [ONE], low: [ZERO] } : { high: [ZERO], low: [ONE] };
    let result = operands[0];
    for (let i = 1; i < operands.length; i++) {
      const last = i === operands.length - 1;
      result = this.parityGate(result, operands[i], last && flip);
    }
    if (operands.length > 1 || !flip) return result;
    if (result.low !== null) return { high: result.low, low: result.high };
    return this.wire(this.inverter(this.high(result)));
  }

  private parityGate(a: Value, b: Value, inverted: boolean): Value {
    const gate = twoOperandGate(this.task.rules, inverted);
    const limit = this.task.rules.inverterLegs;
    const operand = (value: Value): readonly number[] => {
      const legs = this.high(value);
      return legs.length > 1 && limit !== Number.POSITIVE_INFINITY ? [this.asOneWire(legs)] : legs;
    };
    const wires: (readonly number[])[] = [[ZERO], [ONE], operand(a), operand(b)];
    for (const legs of gate.inverters) wires.push([this.inverter(legs.flatMap((leg) => wires[leg]))]);
    return { high: gate.output.flatMap((leg) => wires[leg]), low: null };
  }

  /** The high rail; built once and kept, since it is the wire of the value itself. */
  private high(value: Value): readonly number[] {
    if (value.high === null) value.high = [this.inverter(value.low as readonly number[])];
    return value.high;
  }

  /** The low rail; built anew for every use unless it exists anyway. */
  private low(value: Value): readonly number[] {
    return value.low ?? [this.inverter(value.high as readonly number[])];
  }

  private wire(wire: number): Value {
    return { high: [wire], low: null };
  }

  private join(operands: readonly (readonly number[])[]): readonly number[] {
    if (operands.length === 1) return operands[0];
    if (this.task.rules.outputLegs === 1) return [this.inverter([this.nor(operands)])];
    return this.fit(operands, this.task.rules.outputLegs);
  }

  private nor(operands: readonly (readonly number[])[]): number {
    return this.inverter(this.fit(operands, this.task.rules.inverterLegs));
  }

  inverter(legs: readonly number[]): number {
    this.inverters.push([...new Set(this.fit([legs], this.task.rules.inverterLegs))]);
    return FIRST_INPUT + this.task.wires.length + this.inverters.length - 1;
  }

  private asOneWire(legs: readonly number[]): number {
    return legs.length === 1 ? legs[0] : this.inverter([this.inverter(legs)]);
  }

  /** The OR of all operands in at most `limit` legs: a balanced tree when there are more. */
  private fit(operands: readonly (readonly number[])[], limit: number): readonly number[] {
    const legs = [...new Set(operands.flat())];
    if (legs.length <= limit) return legs;
    const groups = Math.min(limit, Math.ceil(legs.length / this.task.rules.inverterLegs));
    const result: number[] = [];
    for (let g = 0; g < groups; g++) {
      const from = Math.floor((g * legs.length) / groups);
      const to = Math.floor(((g + 1) * legs.length) / groups);
      const part = this.fit([legs.slice(from, to)], this.task.rules.inverterLegs);
      result.push(this.asOneWire(part));
    }
    return result;
  }
}

function not(argument: Expression): Expression {
  return { kind: 'not', argument };
}
