// Names with an index: which bits of a bus there are, and names that differ from them so little that one of the two is
// probably a slip.

import { quote } from '../../grammar/quote.ts';
import type { Diagnostic, Span } from '../source/diagnostic.ts';
import { type FlatName, splitName } from './statements.ts';

/** Declared and defined bits by the name before the index. */
export type Buses = ReadonlyMap<string, Bus>;

/** The bits of one bus. Their descriptions are made once, for a text may mention many bits that a wide bus lacks. */
export class Bus {
  /** In the order of the text. */
  readonly bits = new Set<number>();
  private readonly base: string;
  private words: string | null = null;
  private ranges: string | null | undefined;

  constructor(base: string) {
    this.base = base;
  }

  /** The bits as a sentence without an end. */
  inWords(): string {
    this.words ??= bitsInWords(this.base, this.bits);
    return this.words;
  }

  /** `a[7:0]`, several with commas between them; null when the bits are not all inputs. */
  asDeclared(inputs: ReadonlyMap<string, FlatName>): string | null {
    if (this.ranges === undefined) this.ranges = declaredRanges(this.base, this.bits, inputs);
    return this.ranges;
  }
}

export function busesOf(names: Iterable<string>): Buses {
  const buses = new Map<string, Bus>();
  for (const name of names) {
    const split = splitName(name);
    if (split === null) continue;
    const bus = buses.get(split.base) ?? new Bus(split.base);
    bus.bits.add(split.index);
    buses.set(split.base, bus);
  }
  return buses;
}

/** What is wrong with the unknown `name`, when it has to do with a bus; null when it has not. */
export function unknownBit(
  name: string,
  at: Span,
  buses: Buses,
  inputs: ReadonlyMap<string, FlatName>,
): Diagnostic | null {
  const split = splitName(name);
  if (split !== null) {
    const bus = buses.get(split.base);
    if (bus === undefined) return null;
    const ranges = bus.asDeclared(inputs);
    return {
      severity: 'error',
      code: 'index-out-of-range',
      message:
        ranges === null
          ? `there is no ${quote(name)}: ${bus.inWords()}`
          : `there is no ${quote(name)}: the input is ${ranges}`,
      at,
      hint: `write an index that exists, or ${ranges === null ? `define ${name}` : 'widen the range'}`,
    };
  }
  const bus = buses.get(name);
  if (bus !== undefined) {
    return {
      severity: 'error',
      code: 'unknown-name',
      message: `${quote(name)} alone is not a signal: ${bus.inWords()}`,
      at,
      hint: `name one bit, ${name}[${firstOf(bus)}], or write an equation for every bit with "for"`,
    };
  }
  const numbered = /^(.*?)_?([0-9]+)$/.exec(name);
  if (numbered === null || !buses.get(numbered[1]!)?.bits.has(Number(numbered[2]))) return null;
  return {
    severity: 'error',
    code: 'unknown-name',
    message: `${quote(name)} is neither an input nor defined`,
    at,
    hint: `did you mean "${numbered[1]}[${Number(numbered[2])}]"?`,
  };
}

/** Warns of `g3` or `g` beside `g[3]`. `names` are all names of the text with the place of one mention. */
export function besideBuses(names: ReadonlyMap<string, Span>): Diagnostic[] {
  const buses = busesOf(names.keys());
  if (buses.size === 0) return [];
  const warnings: Diagnostic[] = [];
  for (const [name, at] of names) {
    const numbered = /^(.*?)_?([0-9]+)$/.exec(name);
    const base = numbered?.[1] ?? name;
    const bus = splitName(name) === null ? buses.get(base) : undefined;
    if (bus === undefined) continue;
    const index = numbered === null ? firstOf(bus) : Number(numbered[2]);
    if (!bus.bits.has(index)) continue;
    const bit = `${base}[${index}]`;
    warnings.push({
      severity: 'warning',
      code: 'name-beside-bus',
      message: `${quote(name)} and ${quote(bit)} are two different signals`,
      at,
      hint: `write ${bit} if that was meant, or choose a name that cannot be mistaken for it`,
      related: [{ at: names.get(bit)!, note: `${bit} here` }],
    });
  }
  return warnings;
}

function firstOf({ bits }: Bus): number {
  const [first] = bits;
  return first!;
}

function declaredRanges(
  base: string,
  bits: ReadonlySet<number>,
  inputs: ReadonlyMap<string, FlatName>,
): string | null {
  const parts = new Set<string>();
  for (const index of bits) {
    const declared = inputs.get(`${base}[${index}]`);
    if (declared === undefined) return null;
    const { range } = declared;
    parts.add(range === undefined ? `${base}[${index}]` : `${base}[${range[0]}:${range[1]}]`);
  }
  return [...parts].slice(0, 4).join(', ');
}

function bitsInWords(base: string, bits: ReadonlySet<number>): string {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const bit of bits) [least, most] = [Math.min(least, bit), Math.max(most, bit)];
  if (least === most) return `there is ${base}[${least}]`;
  const between = most - least + 1 === bits.size ? '' : ', not all of them';
  return `there are ${base}[${least}] to ${base}[${most}]${between}`;
}
