// Systems cut into smaller ones: some outputs with all that they need and nothing else.
//
// What an output needs is read off the equations: the definitions it mentions, directly or through others, the
// expressions that say where they are free, and every `never` that has an input in common with what is needed already.
// A `never` brings its own inputs with it, since it couples them. Freedom is judged in the whole system: a signal that
// is mentioned outside the part is not free inside it either, or the two would see different signals.
//
// Cost: every expression is walked once for all parts together; a part costs what it holds.

import { usableFreedom } from '../equations/free-signals.ts';
import type { Definition, Expression, Freedom, System } from '../equations/system.ts';
import { mentioned } from './substitute.ts';

/** A part of a system as a system of its own. */
export interface Part {
  readonly system: System;
  /** Number in the whole of every signal of the part. */
  readonly signals: readonly number[];
  /** Positions in the whole of its outputs. */
  readonly outputs: readonly number[];
}

export class SystemParts {
  private readonly system: System;
  private readonly inputOf: ReadonlyMap<number, number>;
  private readonly definitionOf: ReadonlyMap<number, Definition>;
  private readonly freedom: ReadonlyMap<number, readonly Expression[]>;
  /** By signal: what stands in its definition and in the expressions that free it. */
  private readonly mentions = new Map<number, readonly number[]>();
  /** By signal: whether its value hangs on any input. Constants couple nothing. */
  private readonly varies: Uint8Array;
  private readonly neverMentions: readonly (readonly number[])[];
  /** By input signal: the `never` lines that hang on it. */
  private readonly neversOf = new Map<number, number[]>();

  constructor(system: System) {
    this.system = system;
    this.inputOf = new Map(system.inputs.map(({ signal }, i) => [signal, i]));
    this.definitionOf = new Map(system.definitions.map((definition) => [definition.signal, definition]));
    this.freedom = usableFreedom(system);
    this.varies = new Uint8Array(system.signals.length);
    for (const { signal } of system.inputs) this.varies[signal] = 1;
    for (const { signal, expression } of system.definitions) {
      const all = new Set(mentioned(expression));
      for (const free of this.freedom.get(signal) ?? []) for (const other of mentioned(free)) all.add(other);
      this.mentions.set(signal, [...all]);
      if ([...all].some((other) => this.varies[other] === 1)) this.varies[signal] = 1;
    }
    this.neverMentions = system.never.map((expression) => [...mentioned(expression)]);
    if (system.never.length > 0) this.findNevers();
  }

  /** The inputs that each output hangs on, by position in the system; those that only a `never` brings are left out. */
  inputsOfOutputs(): Set<number>[] {
    return this.system.outputs.map(({ signal }) => this.inputsOf([signal]));
  }

  /**
   * Outputs by position, in sets that have no input in common, directly or through a `never`; a constant is a set of its
   * own. Sets stand in the order of their first output.
   */
  independent(): number[][] {
    const { system, varies } = this;
    const leader = Int32Array.from(system.signals, (_, signal) => signal);
    const find = (signal: number): number => {
      let at = signal;
      while (leader[at] !== at) {
        leader[at] = leader[leader[at]];
        at = leader[at];
      }
      return at;
    };
    const unite = (all: readonly number[]): void => {
      const varying = all.filter((signal) => varies[signal] === 1);
      for (const signal of varying) leader[find(signal)] = find(varying[0]);
    };
    const needed = this.closure([
      ...system.outputs.map(({ signal }) => signal),
      ...this.neverMentions.flat(),
    ]);
    for (const signal of needed) unite([signal, ...(this.mentions.get(signal) ?? [])]);
    for (const coupled of this.neverMentions) unite(coupled);
    const sets = new Map<number, number[]>();
    system.outputs.forEach(({ signal }, y) => {
      const known = sets.get(find(signal));
      if (known === undefined) sets.set(find(signal), [y]);
      else known.push(y);
    });
    return [...sets.values()];
  }

  /** The inputs that an output hangs on, and those that a `never` couples to them, by position in the system. */
  inputsCoupledTo(output: number): Set<number> {
    const found = new Set<number>();
    for (const signal of this.needs([output]).needed) {
      const input = this.inputOf.get(signal);
      if (input !== undefined) found.add(input);
    }
    return found;
  }

  /** The system of some outputs, given by position. */
  part(outputs: readonly number[]): Part {
    const { system } = this;
    const { needed, nevers } = this.needs(outputs);
    const signals: number[] = [];
    for (const { signal } of system.inputs) if (needed.has(signal)) signals.push(signal);
    for (const { signal } of system.definitions) if (needed.has(signal)) signals.push(signal);
    const local = new Map(signals.map((signal, i) => [signal, i]));
    const inside = (expression: Expression): Expression => renumbered(expression, local);
    const place = (signal: number): number => local.get(signal) as number;
    const kept = [...nevers].sort((a, b) => a - b);
    const free = (system.free ?? []).flatMap(({ signal, expression, at }): Freedom[] =>
      local.has(signal) && this.freedom.has(signal)
        ? [{ signal: place(signal), expression: inside(expression), at }]
        : [],
    );
    return {
      signals,
      outputs,
      system: {
        signals: signals.map((signal) => system.signals[signal]),
        inputs: system.inputs
          .filter(({ signal }) => local.has(signal))
          .map((input) => ({ ...input, signal: place(input.signal) })),
        outputs: outputs
          .map((y) => system.outputs[y])
          .map((output) => ({ ...output, signal: place(output.signal) })),
        definitions: signals.flatMap((signal): Definition[] => {
          const definition = this.definitionOf.get(signal);
          if (definition === undefined) return [];
          const { expression, at } = definition;
          return [{ signal: place(signal), expression: inside(expression), at }];
        }),
        never: kept.map((n) => inside(system.never[n])),
        ...(free.length > 0 ? { free } : {}),
      },
    };
  }

  /** All signals that some outputs need, and the `never` lines that say something about their inputs. */
  private needs(outputs: readonly number[]): { readonly needed: Set<number>; readonly nevers: Set<number> } {
    let needed = this.closure(outputs.map((y) => this.system.outputs[y].signal));
    const nevers = new Set<number>();
    for (let before = -1; nevers.size > before; ) {
      before = nevers.size;
      for (const signal of needed) for (const n of this.neversOf.get(signal) ?? []) nevers.add(n);
      if (nevers.size > before) {
        needed = this.closure([...needed, ...[...nevers].flatMap((n) => this.neverMentions[n])]);
      }
    }
    return { needed, nevers };
  }

  private findNevers(): void {
    this.neverMentions.forEach((coupled, n) => {
      for (const input of this.inputsOf(coupled)) {
        const { signal } = this.system.inputs[input];
        const known = this.neversOf.get(signal);
        if (known === undefined) this.neversOf.set(signal, [n]);
        else known.push(n);
      }
    });
  }

  private inputsOf(signals: readonly number[]): Set<number> {
    const found = new Set<number>();
    for (const signal of this.closure(signals)) {
      const input = this.inputOf.get(signal);
      if (input !== undefined) found.add(input);
    }
    return found;
  }

  /** Some signals and all that they mention, directly or through others. */
  private closure(signals: readonly number[]): Set<number> {
    const found = new Set(signals);
    // A set that grows is walked to its new end.
    for (const signal of found) for (const other of this.mentions.get(signal) ?? []) found.add(other);
    return found;
  }
}

function renumbered(e: Expression, local: ReadonlyMap<number, number>): Expression {
  const inner = (part: Expression): Expression => renumbered(part, local);
  switch (e.kind) {
    case 'constant':
      return e;
    case 'signal':
      return { kind: 'signal', signal: local.get(e.signal) as number };
    case 'not':
      return { kind: 'not', argument: inner(e.argument) };
    case 'implies':
    case 'equals':
      return { kind: e.kind, left: inner(e.left), right: inner(e.right) };
    case 'mux':
      return { kind: 'mux', select: inner(e.select), when0: inner(e.when0), when1: inner(e.when1) };
    case 'maj': {
      const [a, b, c] = e.args.map(inner);
      return { kind: 'maj', args: [a, b, c] };
    }
    default:
      return { kind: e.kind, args: e.args.map(inner) };
  }
}
