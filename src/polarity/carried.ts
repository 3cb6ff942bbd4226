// What a wire carries, in the reader's own names and on both rails: `carry1' + carry2` active-high, which is
// `carry1 carry2'` active-low. A wire that carries what it is declared to carry is named by its signal; any other is
// spelled out by its legs, as long as that stays short, else it is named itself and stands for its level.

import { builtLegs } from '../network/built-network.ts';
import { FIRST_INPUT } from '../network/network.ts';
import { firstDifference, type Survey } from './survey.ts';

export interface Carried {
  /** The signal of which the wire is the active-high wire. */
  readonly high: string;
  /** The signal of which it is the active-low wire. */
  readonly low: string;
}

type Reading =
  | { readonly kind: 'one'; readonly text: string; readonly isTrue: boolean }
  | { readonly kind: 'all' | 'any'; readonly of: readonly Reading[] };

const LONGEST = 60;
/** So many wires behind the one that is read; further back a wire is only named. */
const DEEPEST = 3;

/** What a wire carries as drawn; `apart` spells the wire itself out even where it is named. */
export function carriedBy(found: Survey, wire: number, apart = true): Carried {
  const reading = readingOf(found, wire, apart, 0);
  const high = printReading(reading);
  const low = printReading(complement(reading));
  return high.length > LONGEST || low.length > LONGEST
    ? { high: found.built.names[wire], low: printReading(one(found.built.names[wire], false)) }
    : { high, low };
}

/** What joined wires come to: the OR of what each is. */
export function carriedTogether(found: Survey, wires: readonly number[]): Carried {
  const reading = group(
    found.built.logic === 'or' ? 'any' : 'all',
    wires.map((wire) => readingOf(found, wire, false, 0)),
  );
  return { high: printReading(reading), low: printReading(complement(reading)) };
}

function one(text: string, isTrue: boolean): Reading {
  return { kind: 'one', text, isTrue };
}

function readingOf(found: Survey, wire: number, apart: boolean, depth: number): Reading {
  const { built, wishes } = found;
  if (wire < FIRST_INPUT) return one(String(wire), true);
  const wish = wishes.byWire[wire];
  const isRight =
    wish !== null && !wish.part && firstDifference(found, found.drawn[wire], found.wished[wire]) < 0;
  if (wish !== null && isRight && (!apart || wish.stated === 'input'))
    return one(wish.shown, wish.rail === 'high');
  if (depth > DEEPEST && !built.names[wire].includes('.')) return one(built.names[wire], true);
  const legs = [...builtLegs(built, wire)];
  const inner = legs.map((leg) => readingOf(found, leg, false, depth + 1));
  const isOr = built.logic === 'or';
  const joined = group(isOr ? 'any' : 'all', inner);
  const reading = built.kinds[wire] === 'inverter' ? complement(joined) : joined;
  if (!apart && printReading(reading).length > LONGEST / 2 && !built.names[wire].includes('.'))
    return one(built.names[wire], true);
  return reading;
}

function group(kind: 'all' | 'any', of: readonly Reading[]): Reading {
  const flat = of.flatMap((inner) => (inner.kind === kind ? inner.of : [inner]));
  const seen = new Set<string>();
  const once = flat.filter((inner) => {
    const text = printReading(inner);
    return seen.size < seen.add(text).size;
  });
  const constant = kind === 'all' ? '0' : '1';
  if (once.some((inner) => printReading(inner) === constant)) return one(constant, true);
  const clash = once.some((inner) => seen.has(printReading(complement(inner))));
  if (clash) return one(constant, true);
  const kept = once.filter((inner) => printReading(inner) !== (kind === 'all' ? '1' : '0'));
  if (kept.length === 0) return one(kind === 'all' ? '1' : '0', true);
  return kept.length === 1 ? kept[0] : { kind, of: kept };
}

function complement(reading: Reading): Reading {
  if (reading.kind !== 'one') {
    return { kind: reading.kind === 'all' ? 'any' : 'all', of: reading.of.map(complement) };
  }
  if (reading.text === '0' || reading.text === '1') return one(reading.text === '0' ? '1' : '0', true);
  return one(reading.text, !reading.isTrue);
}

function printReading(reading: Reading): string {
  if (reading.kind === 'one') {
    if (reading.isTrue) return reading.text;
    return /^[A-Za-z0-9_[\]]+$/.test(reading.text) ? `${reading.text}'` : `(${reading.text})'`;
  }
  if (reading.kind === 'any') return reading.of.map(printReading).join(' + ');
  return reading.of.map((inner) => bracketed(inner)).join(' ');
}

/** A factor of a product. */
function bracketed(reading: Reading): string {
  const text = printReading(reading);
  const isSum = reading.kind === 'any' || (reading.kind === 'one' && reading.isTrue && /[\s]/.test(text));
  return isSum ? `(${text})` : text;
}
