// What the wires of a `built` block are meant to carry, as a system of equations that the tables and the judge can read.
//
// Signals. The inputs of the block come first; a signal that the block takes from outside is an input here even where
// the equations define it. Then come the other inputs and the definitions of the equations. Then every wire of the block
// has a signal for its level as drawn (`wire n1`, a name no reader can write). Last come signals that only the block
// knows: one that no equation defines is the OR of what is declared to be a part of it, or, where nothing is, what the
// first wire that is declared to carry it carries; a name of a wire is what that wire carries.
//
// Where a wish comes from, by precedence: the line `wire is ...`; the rail on the `output` line; the name, when the wire
// is called like a signal of the equations. A join without any of these, all of whose legs are known to carry a signal
// and not all on the same rail, can only be meant as their OR.

import { quote } from '../../grammar/quote.ts';
import type { BuiltBlock, BuiltMeaning } from '../equations/built.ts';
import { mentionsOf } from '../equations/mentions.ts';
import { nearestName } from '../equations/nearest-name.ts';
import { printExpression } from '../equations/print-system.ts';
import { resolveExpression } from '../equations/resolve-expression.ts';
import type { Definition, Expression, InputDeclaration, System } from '../equations/system.ts';
import { type BuiltNetwork, builtLegs, builtWire } from '../network/built-network.ts';
import { FIRST_INPUT } from '../network/network.ts';
import type { Diagnostic, Reading, Span } from '../source/diagnostic.ts';

export interface Wish {
  /** The signal, over the signals of the system. */
  readonly expression: Expression;
  readonly rail: 'high' | 'low';
  /** The wire carries a piece: it is true only where the signal is. */
  readonly part: boolean;
  /** The signal in the words of the reader. */
  readonly shown: string;
  readonly stated: 'input' | 'is' | 'output' | 'name' | 'legs';
  readonly at: Span | null;
}

export interface Wishes {
  /** Its outputs are the levels of the outputs as drawn. */
  readonly system: System;
  /** By wire: the signal of its level as drawn. */
  readonly levelOf: readonly number[];
  /** By wire; null for a wire of which nothing is said. Input wires have one. */
  readonly byWire: readonly (Wish | null)[];
}

/** `equations` are those around the block, or those it is held against; null without any. */
export function readWishes(
  block: BuiltBlock,
  built: BuiltNetwork,
  equations: System | null,
): Reading<Wishes> {
  const reader = new WishReader(block, built, equations);
  const value = reader.wishes();
  const isFaulty = reader.diagnostics.some(({ severity }) => severity === 'error');
  return { value: isFaulty ? null : value, diagnostics: reader.diagnostics };
}

/** The level that a wish asks for. */
export function wishedLevel({ expression, rail }: Wish): Expression {
  return rail === 'high' ? expression : { kind: 'not', argument: expression };
}

/** What a wire is as drawn, over the levels of its legs. */
export function drawnExpression(
  built: BuiltNetwork,
  wire: number,
  levelOf: (wire: number) => Expression,
): Expression {
  const kind = built.kinds[wire];
  if (kind === 'constant') return { kind: 'constant', value: wire === 1 ? 1 : 0 };
  const args = [...builtLegs(built, wire)].map(levelOf);
  const isOr = built.logic === 'or';
  if (kind === 'inverter') return { kind: isOr ? 'nor' : 'nand', args };
  return args.length === 1 ? args[0] : { kind: isOr ? 'or' : 'and', args };
}

class WishReader {
  readonly diagnostics: Diagnostic[] = [];
  private readonly block: BuiltBlock;
  private readonly built: BuiltNetwork;
  private readonly equations: System | null;
  private readonly signals: string[] = [];
  private readonly numberOf = new Map<string, number>();
  private readonly inputs: InputDeclaration[] = [];
  private readonly definitions: Definition[] = [];
  private readonly levels: number[] = [];

  constructor(block: BuiltBlock, built: BuiltNetwork, equations: System | null) {
    this.block = block;
    this.built = built;
    this.equations = equations;
  }

  wishes(): Wishes | null {
    const rest = this.takeSignals();
    this.takeLevels();
    if (!this.takeOwnSignals()) return null;
    const byWire: (Wish | null)[] = this.built.names.map((_, wire) => this.inputWish(wire));
    for (const meaning of this.block.meanings) {
      byWire[builtWire(this.built, meaning.wire)] = this.statedWish(meaning);
    }
    for (const { wire: name, rail, at } of this.block.outputs) {
      const wire = builtWire(this.built, name);
      const signal = this.numberOf.get(name);
      if (byWire[wire] === null && signal !== undefined) {
        const expression: Expression = { kind: 'signal', signal };
        byWire[wire] = { expression, rail: rail ?? 'high', part: false, shown: name, stated: 'output', at };
      } else if (rail !== null && byWire[wire]?.stated === 'is' && byWire[wire].rail !== rail) {
        this.diagnostics.push({
          severity: 'error',
          code: 'rails-differ',
          message: `${quote(name)} is ${rail} here and ${byWire[wire].rail} where its signal is told`,
          at,
          hint: 'leave the rail out here',
          ...(byWire[wire].at === null ? {} : { related: [{ at: byWire[wire].at, note: 'told here' }] }),
        });
      }
    }
    for (const { name, nameAt } of this.block.elements) {
      const wire = builtWire(this.built, name);
      const signal = this.equations?.signals.includes(name) ? this.numberOf.get(name) : undefined;
      if (byWire[wire] !== null || signal === undefined) continue;
      const expression: Expression = { kind: 'signal', signal };
      byWire[wire] = { expression, rail: 'high', part: false, shown: name, stated: 'name', at: nameAt };
    }
    this.built.kinds.forEach((kind, wire) => {
      if (kind === 'join' && byWire[wire] === null) byWire[wire] = this.legsWish(wire, byWire);
    });
    const system: System = {
      signals: this.signals,
      inputs: this.inputs,
      outputs: this.built.outputs.map(({ wire }) => ({ signal: this.levels[wire], rail: 'high', by: null })),
      definitions: this.definitions,
      never: rest.never,
      neverAt: rest.never.map(() => null),
    };
    return { system, levelOf: this.levels, byWire };
  }

  private add(name: string): number {
    this.signals.push(name);
    this.numberOf.set(name, this.signals.length - 1);
    return this.signals.length - 1;
  }

  private define(name: string, expression: Expression): number {
    const signal = this.add(name);
    this.definitions.push({ signal, expression, at: null });
    return signal;
  }

  /** Inputs and equations. */
  private takeSignals(): { never: Expression[] } {
    for (const { signal, rail, tick } of this.built.inputs) {
      if (!this.numberOf.has(signal)) this.inputs.push({ signal: this.add(signal), rail, tick });
      else {
        const number = this.numberOf.get(signal);
        const index = this.inputs.findIndex((input) => input.signal === number);
        this.inputs[index] = { ...this.inputs[index], rail: 'both' };
      }
    }
    const { equations } = this;
    if (equations === null) return { never: [] };
    for (const { signal, rail, tick } of equations.inputs) {
      const name = equations.signals[signal];
      if (!this.numberOf.has(name)) this.inputs.push({ signal: this.add(name), rail, tick });
    }
    const now = new Map<number, number>();
    equations.signals.forEach((name, signal) => {
      const number = this.numberOf.get(name);
      if (number !== undefined) now.set(signal, number);
    });
    for (const { signal, expression } of equations.definitions) {
      if (now.has(signal)) continue;
      now.set(signal, this.define(equations.signals[signal], renumbered(expression, now)));
    }
    return { never: equations.never.map((expression) => renumbered(expression, now)) };
  }

  private takeLevels(): void {
    const { built } = this;
    const level = (wire: number): Expression => ({ kind: 'signal', signal: this.levels[wire] });
    built.kinds.forEach((kind, wire) => {
      const expression = kind === 'input' ? this.inputLevel(wire) : drawnExpression(built, wire, level);
      this.levels.push(this.define(`wire ${built.names[wire]}`, expression));
    });
  }

  private inputLevel(wire: number): Expression {
    const { signal, rail } = this.built.inputs[wire - FIRST_INPUT];
    const argument: Expression = { kind: 'signal', signal: this.numberOf.get(signal) ?? 0 };
    return rail === 'high' ? argument : { kind: 'not', argument };
  }

  /** Signals that only `is` lines name; false when a name means nothing. */
  private takeOwnSignals(): boolean {
    const declared = new Map<string, BuiltMeaning[]>();
    for (const meaning of this.block.meanings) {
      const { expression } = meaning;
      if (expression.kind !== 'name' || this.numberOf.has(expression.name)) continue;
      const known = declared.get(expression.name);
      if (known === undefined) declared.set(expression.name, [meaning]);
      else known.push(meaning);
    }
    const meant = ({ wire, rail }: BuiltMeaning): Expression => {
      const level: Expression = { kind: 'signal', signal: this.levels[builtWire(this.built, wire)] };
      return rail === 'high' ? level : { kind: 'not', argument: level };
    };
    for (const [name, meanings] of declared) {
      const pieces = meanings.filter(({ part }) => part);
      const [whole] = meanings;
      this.define(name, pieces.length > 0 ? { kind: 'or', args: pieces.map(meant) } : meant(whole));
    }
    const rails = new Map(this.block.meanings.map(({ wire, rail }) => [wire, rail]));
    for (const { expression } of this.block.meanings) {
      for (const [name, at] of mentionsOf(expression, this.diagnostics)) {
        if (this.numberOf.has(name)) continue;
        const wire = builtWire(this.built, name);
        if (wire >= FIRST_INPUT) {
          const level: Expression = { kind: 'signal', signal: this.levels[wire] };
          this.define(name, rails.get(name) === 'low' ? { kind: 'not', argument: level } : level);
          continue;
        }
        const near = nearestName(name, this.numberOf.keys());
        this.diagnostics.push({
          severity: 'error',
          code: 'unknown-name',
          message: `${quote(name)} is no signal: no input, no equation and no wire has that name`,
          at,
          hint:
            near === null || near.startsWith('wire ')
              ? 'write signals that are known'
              : `did you mean ${quote(near)}?`,
        });
      }
    }
    return this.diagnostics.length === 0;
  }

  private inputWish(wire: number): Wish | null {
    const input = this.built.inputs[wire - FIRST_INPUT];
    if (wire < FIRST_INPUT || input === undefined) return null;
    const expression: Expression = { kind: 'signal', signal: this.numberOf.get(input.signal) ?? 0 };
    const at = this.built.at[wire];
    return { expression, rail: input.rail, part: false, shown: input.signal, stated: 'input', at };
  }

  private statedWish({ expression, rail, part, at }: BuiltMeaning): Wish {
    const resolved = resolveExpression(expression, this.numberOf);
    return {
      expression: resolved,
      rail,
      part,
      shown: printExpression(resolved, this.signals),
      stated: 'is',
      at,
    };
  }

  /** A join of wires on different rails, none of them unknown: the OR of what they carry. */
  private legsWish(wire: number, byWire: readonly (Wish | null)[]): Wish | null {
    if (this.built.names[wire].includes('.')) return null;
    const legs = [...builtLegs(this.built, wire)].map((leg) => byWire[leg]);
    const known = legs.filter((leg) => leg !== null);
    if (known.length < legs.length || new Set(known.map(({ rail }) => rail)).size < 2) return null;
    const expression: Expression = { kind: 'or', args: known.map((leg) => leg.expression) };
    const shown = printExpression(expression, this.signals);
    return { expression, rail: 'high', part: false, shown, stated: 'legs', at: null };
  }
}

/** The same expression over other numbers. */
function renumbered(expression: Expression, now: ReadonlyMap<number, number>): Expression {
  const of = (inner: Expression): Expression => renumbered(inner, now);
  switch (expression.kind) {
    case 'constant':
      return expression;
    case 'signal':
      return { kind: 'signal', signal: now.get(expression.signal) ?? 0 };
    case 'not':
      return { kind: 'not', argument: of(expression.argument) };
    case 'implies':
    case 'equals':
      return { kind: expression.kind, left: of(expression.left), right: of(expression.right) };
    case 'mux': {
      const { select, when0, when1 } = expression;
      return { kind: 'mux', select: of(select), when0: of(when0), when1: of(when1) };
    }
    case 'maj': {
      const [a, b, c] = expression.args;
      return { kind: 'maj', args: [of(a), of(b), of(c)] };
    }
    default:
      return { kind: expression.kind, args: expression.args.map(of) };
  }
}
