// From text to the circuits that are described in it. A text may hold equations and `built` blocks side by side: the
// equations say what signals are, the blocks what stands. Both are read here; each fault has its place in the text.

import { cutBlocks, isBlank, type TextBlock } from '../../grammar/blocks.ts';
import {
  type BuiltStatement,
  type BuiltStatements,
  readBuiltStatements,
  type WrittenLeg,
} from '../../grammar/built-statements.ts';
import { evaluateIndex } from '../../grammar/index-form.ts';
import { quote } from '../../grammar/quote.ts';
import type { DeclaredName } from '../../grammar/syntax.ts';
import type { Diagnostic, Reading, Span } from '../source/diagnostic.ts';
import type { BuiltBlock, BuiltElement, BuiltInput, BuiltMeaning, BuiltOutput } from './built.ts';
import { nearestName } from './nearest-name.ts';
import { orderDefinitions } from './order-definitions.ts';
import { readEquations } from './read-equations.ts';
import type { System } from './system.ts';

export interface BuiltText {
  /** What stands outside of all blocks; null when nothing does. */
  readonly equations: System | null;
  readonly blocks: readonly BuiltBlock[];
}

type Wire = Extract<BuiltStatement, { kind: 'wire' }>;

/**
 * Reads equations and `built` blocks. `value` is null exactly when a diagnostic is an error; places are offsets into
 * `text`. Blocks of equations (`block name { ... }`) are no part of this and are passed over. Never throws for bad text.
 */
export function readBuiltText(text: string): Reading<BuiltText> {
  const { rest, blocks, faults } = cutBlocks(text);
  const diagnostics: Diagnostic[] = [...faults];
  const around = isBlank(rest) ? { value: null, diagnostics: [] } : readEquations(rest);
  diagnostics.push(...around.diagnostics);
  const built = blocks.filter((block) => block.kind === 'built');
  const names = new Map<string, TextBlock>();
  for (const block of built) {
    const first = names.get(block.name);
    if (first === undefined) names.set(block.name, block);
    else diagnostics.push(twice(`built ${block.name}`.trim(), block.nameAt, first.nameAt));
  }
  const read = built.map((block) => new BlockReader(block, diagnostics).block());
  diagnostics.sort((a, b) => (a.at?.start ?? 0) - (b.at?.start ?? 0));
  const isFaulty = diagnostics.some(({ severity }) => severity === 'error');
  return { value: isFaulty ? null : { equations: around.value, blocks: read }, diagnostics };
}

class BlockReader {
  private readonly source: TextBlock;
  private readonly diagnostics: Diagnostic[];
  private readonly statements: BuiltStatements;
  private readonly wires = new Map<string, Wire>();
  private readonly inputs = new Map<string, BuiltInput>();

  constructor(source: TextBlock, diagnostics: Diagnostic[]) {
    this.source = source;
    this.diagnostics = diagnostics;
    this.statements = readBuiltStatements(source.inside);
    diagnostics.push(...this.statements.faults);
  }

  block(): BuiltBlock {
    const { statements } = this.statements;
    const declaresInputs = statements.some(({ kind }) => kind === 'input');
    for (const statement of statements)
      if (statement.kind === 'input') statement.names.forEach(this.takeInput);
    for (const statement of statements) if (statement.kind === 'wire') this.takeWire(statement);
    for (const { legs } of this.wires.values()) {
      for (const leg of legs) if (!this.isKnown(leg.name)) this.unknown(leg, declaresInputs);
    }
    const { name, nameAt } = this.source;
    return {
      name: name === '' ? 'built' : name,
      nameAt,
      inputs: [...this.inputs.values()],
      elements: this.ordered(),
      meanings: this.meanings(),
      keep: statements.flatMap((statement) =>
        statement.kind === 'keep' ? statement.wires.filter(this.exists).map((wire) => wire.name) : [],
      ),
      outputs: this.outputs(),
    };
  }

  private isKnown(name: string): boolean {
    return name === '0' || name === '1' || this.wires.has(name) || this.inputs.has(name);
  }

  private readonly takeInput = (declared: DeclaredName): void => {
    const { rail, tick, start, end } = declared;
    const at = { start, end };
    if (rail === 'either') {
      const message = 'in a built block every wire is on a known rail';
      this.error('built-rail', at, message, 'write high, low, or both for two wires');
      return;
    }
    for (const signal of bitsOf(declared)) {
      const first = this.inputs.get(signal);
      if (first !== undefined) {
        this.diagnostics.push(twice(signal, at, first.at ?? at));
        continue;
      }
      const wire = { signal, tick: tick ?? 0, at };
      this.inputs.set(signal, { name: signal, rail: rail === 'low' ? 'low' : 'high', ...wire });
      if (rail === 'both') this.inputs.set(`${signal}_low`, { name: `${signal}_low`, rail: 'low', ...wire });
    }
  };

  private takeWire(wire: Wire): void {
    const first = this.wires.get(wire.name)?.nameAt ?? this.inputs.get(wire.name)?.at;
    if (first) this.diagnostics.push(twice(wire.name, wire.nameAt, first));
    else this.wires.set(wire.name, wire);
  }

  private unknown({ name, start, end }: WrittenLeg, declaresInputs: boolean): void {
    if (!declaresInputs) {
      this.inputs.set(name, { name, signal: name, rail: 'high', tick: 0, at: null });
      return;
    }
    if (this.statements.unsure.includes(name)) return;
    const near = nearestName(name, [...this.inputs.keys(), ...this.wires.keys()]);
    this.error(
      'unknown-name',
      { start, end },
      `${quote(name)} is neither an input nor a wire of this block`,
      near === null
        ? 'add it to the "input" line, or say what it is made of'
        : `did you mean ${quote(near)}?`,
    );
  }

  private ordered(): BuiltElement[] {
    const wires = [...this.wires.values()];
    const indexOf = new Map(wires.map(({ name }, index) => [name, index]));
    const needs = wires.map(({ legs }) =>
      legs.map(({ name }) => indexOf.get(name)).filter((index) => index !== undefined),
    );
    const { order, circles } = orderDefinitions(needs);
    for (const circle of circles) {
      const names = circle.map((index) => wires[index].name);
      this.error(
        'circular',
        wires[circle[0]].nameAt,
        `${quote(names[0])} is a leg of itself${names.length > 1 ? `, by way of ${names.slice(1).join(', ')}` : ''}`,
        'a circle of wires is a memory, which this language does not describe: cut it and make one end an input',
      );
    }
    return order.map((index): BuiltElement => {
      const { name, gate, legs, delay, at, nameAt } = wires[index];
      const legsAt = legs.map(({ start, end }) => ({ start, end }));
      return { name, gate, legs: legs.map((leg) => leg.name), delay, at, nameAt, legsAt };
    });
  }

  private readonly exists = ({ name, start, end }: WrittenLeg): boolean => {
    if (this.isKnown(name)) return true;
    if (this.statements.unsure.includes(name)) return false;
    const near = nearestName(name, [...this.wires.keys(), ...this.inputs.keys()]);
    const hint = near === null ? 'name a wire of this block' : `did you mean ${quote(near)}?`;
    this.error('unknown-name', { start, end }, `there is no wire ${quote(name)} in this block`, hint);
    return false;
  };

  private meanings(): BuiltMeaning[] {
    const seen = new Map<string, Span>();
    return this.statements.statements.flatMap((statement): BuiltMeaning[] => {
      if (statement.kind !== 'meaning' || !this.exists(statement.wire)) return [];
      const { wire, expression, expressionAt, low, part, at } = statement;
      const first = seen.get(wire.name);
      if (first !== undefined) this.diagnostics.push(twice(`${wire.name} is`, at, first));
      seen.set(wire.name, at);
      return [{ wire: wire.name, expression, rail: low ? 'low' : 'high', part, at, expressionAt }];
    });
  }

  private outputs(): BuiltOutput[] {
    const declared = this.statements.statements.flatMap((statement) =>
      statement.kind === 'output' ? statement.names : [],
    );
    if (declared.length === 0) {
      const used = new Set([...this.wires.values()].flatMap(({ legs }) => legs.map(({ name }) => name)));
      const ends = [...this.wires.values()].filter(({ name }) => !used.has(name));
      if (ends.length === 0 && this.statements.faults.length === 0) {
        const hint = 'write a wire a line, as in n1 = nor(a, b)';
        this.error('no-wires', this.source.nameAt, 'there are no wires in this block', hint);
      }
      return ends.map(({ name, nameAt }) => ({ wire: name, rail: null, by: null, at: nameAt }));
    }
    const seen = new Map<string, Span>();
    return declared.flatMap((name) =>
      bitsOf(name).flatMap((wire): BuiltOutput[] => {
        const at = { start: name.start, end: name.end };
        if (!this.exists({ name: wire, ...at })) return [];
        const first = seen.get(wire);
        if (first !== undefined) this.diagnostics.push(twice(wire, at, first));
        seen.set(wire, at);
        if (name.rail === 'either' || name.rail === 'both') {
          const message = 'an output of a built block is one wire on a known rail';
          this.error('built-rail', at, message, 'write high or low');
        }
        const rail = name.rail === 'high' || name.rail === 'low' ? name.rail : null;
        return [{ wire, rail, by: name.tick, at }];
      }),
    );
  }

  private error(code: string, at: Span, message: string, hint: string): void {
    this.diagnostics.push({ severity: 'error', code, message, at, hint });
  }
}

/** The bits of a declared name: itself, or those of its range, first to last. */
function bitsOf({ name, first, last }: DeclaredName): string[] {
  if (first === null) return [name];
  const from = evaluateIndex(first, () => 0);
  const to = last === null ? from : evaluateIndex(last, () => 0);
  if (typeof from !== 'number' || typeof to !== 'number') return [name];
  const step = from <= to ? 1 : -1;
  const count = Math.min(Math.abs(to - from), 1023) + 1;
  return Array.from({ length: count }, (_, n) => `${name}[${from + n * step}]`);
}

function twice(name: string, at: Span, first: Span): Diagnostic {
  return {
    severity: 'error',
    code: 'defined-twice',
    message: `${quote(name)} stands here a second time`,
    at,
    hint: 'a wire has one maker and one name',
    related: [{ at: first, note: 'first here' }],
  };
}
