// From the text of a stimulus to changes of the inputs of a circuit. All faults come back at once.

import { quote } from '../../grammar/quote.ts';
import {
  MOST_TICKS,
  parseStimulus,
  type StimulusName,
  type StimulusSetting,
  type StimulusStatement,
} from '../../grammar/stimulus.ts';
import { nearestName } from '../equations/nearest-name.ts';
import { Random } from '../search/random.ts';
import type { Diagnostic, Reading, Span } from '../source/diagnostic.ts';
import type { Circuit, Pattern } from './circuit.ts';
import { type InputChange, slowestPath } from './history.ts';

export interface Stimulus {
  readonly start: Pattern;
  readonly changes: readonly InputChange[];
  /** The last tick to show. */
  readonly until: number;
}

/** Steps of a sequence that does not say how many. */
const USUAL_STEPS = 256;
/** More changes than this are a slip of the pen. */
const MOST_CHANGES = 1_000_000;

/** Reads a stimulus for the inputs of a circuit. An empty text changes nothing. */
export function readStimulus(circuit: Circuit, text: string): Reading<Stimulus> {
  const { statements, faults } = parseStimulus(text);
  const diagnostics: Diagnostic[] = faults.map(({ message, hint, start, end }) => ({
    severity: 'error',
    code: 'stimulus-syntax',
    message,
    at: { start, end },
    hint,
  }));
  const reader = new Reader(circuit, diagnostics);
  for (const statement of statements) reader.take(statement);
  diagnostics.sort((a, b) => (a.at?.start ?? 0) - (b.at?.start ?? 0));
  const value = diagnostics.some(({ severity }) => severity === 'error') ? null : reader.stimulus();
  return { value, diagnostics };
}

class Reader {
  private readonly circuit: Circuit;
  private readonly diagnostics: Diagnostic[];
  private readonly inputOf: ReadonlyMap<string, number>;
  private readonly start: Pattern;
  private readonly changes: InputChange[] = [];
  /** Values that the inputs have after the changes so far, in the order of the text. */
  private readonly now: Pattern;
  private tick = 0;
  private until: number | null = null;

  constructor(circuit: Circuit, diagnostics: Diagnostic[]) {
    this.circuit = circuit;
    this.diagnostics = diagnostics;
    this.inputOf = new Map(circuit.inputs.map(({ name }, i) => [name, i]));
    this.start = new Uint8Array(circuit.inputs.length);
    this.now = new Uint8Array(circuit.inputs.length);
  }

  stimulus(): Stimulus {
    const last = this.changes.reduce((latest, { tick }) => Math.max(latest, tick), 0);
    const until = this.until ?? last + slowestPath(this.circuit) + 1;
    return { start: this.start, changes: this.changes, until };
  }

  take(statement: StimulusStatement): void {
    switch (statement.kind) {
      case 'until':
        this.until = statement.tick;
        return;
      case 'start':
        if (this.changes.length > 0) {
          const at = statement.settings[0].name;
          this.fault('stimulus-order', 'start stands behind a change', at, 'write start first');
        }
        for (const setting of statement.settings) {
          for (const { input, value } of this.valuesOf(setting)) {
            this.start[input] = value;
            this.now[input] = value;
          }
        }
        return;
      case 'change':
        this.tick = statement.from === 'zero' ? statement.tick : this.tick + statement.tick;
        for (const setting of statement.settings) {
          for (const { input, value } of this.valuesOf(setting)) this.change(input, value);
        }
        return;
      case 'sequence':
        this.sequence(statement);
    }
  }

  private change(input: number, value: 0 | 1): void {
    this.changes.push({ tick: this.tick, input, value });
    this.now[input] = value;
  }

  private sequence(statement: StimulusStatement & { kind: 'sequence' }): void {
    const { names, every, order, seed } = statement;
    const all = this.circuit.inputs.map((_, i) => i);
    const inputs = names.length === 0 ? all : names.flatMap((name) => this.inputsOf(name));
    const times = statement.times ?? Math.min(USUAL_STEPS, 2 ** inputs.length);
    if (times * Math.max(1, inputs.length) > MOST_CHANGES || this.tick + times * every > MOST_TICKS) {
      const message = `${times} steps of ${every} ticks are too many`;
      this.fault('stimulus-too-long', message, statement, 'take fewer steps');
      return;
    }
    const random = new Random(seed);
    const isFirst = this.changes.length === 0;
    for (let step = 0; step < times; step++) {
      this.tick += isFirst && step === 0 ? 0 : every;
      let carry = 1;
      for (const input of inputs) {
        const bit = this.now[input];
        const next = order === 'random' ? random.below(2) : bit ^ carry;
        carry &= bit;
        if (next !== bit) this.change(input, next === 1 ? 1 : 0);
      }
    }
  }

  /** The inputs that a setting is about, with their values. */
  private valuesOf({ name, value, valueAt }: StimulusSetting): { input: number; value: 0 | 1 }[] {
    // A word is written from its highest bit, which stands first in a[3:0].
    const bits = this.inputsOf(name).reverse();
    if (bits.length === 0) return [];
    if (value === null) return bits.map((input) => ({ input, value: this.now[input] === 1 ? 0 : 1 }));
    if (value >= 2 ** bits.length) {
      const room = bits.length === 1 ? '0 or 1' : `numbers below ${2 ** bits.length}`;
      this.fault('stimulus-value', `${this.shown(name)} cannot be ${value}`, valueAt, `it takes ${room}`);
      return [];
    }
    return bits.map((input, i) => ({ input, value: Math.floor(value / 2 ** i) % 2 === 1 ? 1 : 0 }));
  }

  /** The inputs of a name, those of a bus from the highest index down or as its range says. */
  private inputsOf(name: StimulusName): number[] {
    const { base, range } = name;
    if (range === null) {
      const input = this.inputOf.get(base);
      if (input !== undefined) return [input];
      const bits = this.circuit.inputs.flatMap((declared, i) => {
        const index = declared.name.startsWith(`${base}[`) ? /\[(-?\d+)\]$/.exec(declared.name) : null;
        return index === null ? [] : [{ i, index: Number(index[1]) }];
      });
      if (bits.length === 0) this.unknown(name, base);
      return bits.sort((a, b) => b.index - a.index).map(({ i }) => i);
    }
    const step = range.first <= range.last ? 1 : -1;
    const inputs: number[] = [];
    if (Math.abs(range.last - range.first) > 1024) {
      this.fault('stimulus-range', `${this.shown(name)} is too wide`, name, 'name fewer bits');
      return [];
    }
    for (let index = range.first; ; index += step) {
      const input = this.inputOf.get(`${base}[${index}]`);
      if (input === undefined) {
        this.unknown(name, `${base}[${index}]`);
        return [];
      }
      inputs.push(input);
      if (index === range.last) return inputs;
    }
  }

  private unknown(at: StimulusName, name: string): void {
    const names = this.circuit.inputs.map((input) => input.name);
    const near = nearestName(name, names);
    const isWire = this.circuit.names.includes(name) || this.circuit.outputs.some((o) => o.name === name);
    const few =
      names.length <= 12 ? `the inputs are ${names.join(', ')}` : `there are ${names.length} inputs`;
    const hint =
      near === null
        ? names.length === 0
          ? 'there are no inputs at all'
          : few
        : `did you mean ${quote(near)}?`;
    const message = isWire
      ? `${quote(name)} is not an input and cannot be set`
      : `there is no input ${quote(name)}`;
    this.fault('stimulus-unknown', message, at, isWire ? few : hint);
  }

  private shown({ base, range }: StimulusName): string {
    if (range === null) return quote(base);
    const { first, last } = range;
    return quote(first === last ? `${base}[${first}]` : `${base}[${first}:${last}]`);
  }

  private fault(code: string, message: string, at: Span, hint: string): void {
    const { start, end } = at;
    this.diagnostics.push({ severity: 'error', code, message, at: { start, end }, hint });
  }
}
