// A part of a built block made anew: the consumer of a wire, from what stands before it.
//
// Idea. The part is a set of elements of which none depends on anything outside that depends on the part again (long
// runs and wires to be kept are its borders). What the part reads are its sources; they become the inputs of a small
// system, each at the tick at which it settles and, where the other rail of one exists somewhere, with that wire as well.
// What others read of the part are its outputs. The search of the tool does the rest. Patterns of the sources that never
// occur together are free, because what stands before them is known.
//
// Correct because the caller proves the whole block again. Cost: one quick search; parts with more sources than
// `MOST_SOURCES` are left alone.

import type { BuiltBlock, BuiltElement, GateWord } from '../equations/built.ts';
import { elementOf, freshName, withElements, withoutDead } from '../equations/edit-built.ts';
import type { Expression, System } from '../equations/system.ts';
import { legsOf, outputLegsOf } from '../network/build-network.ts';
import { builtCosts } from '../network/built-costs.ts';
import { builtWire } from '../network/built-network.ts';
import { FIRST_INPUT, firstInverter, type Network } from '../network/network.ts';
import { runSearch } from '../search/run-search.ts';
import { makeTask } from '../search/task.ts';
import { systemTables } from '../truth/system-tables.ts';
import { countRows, hasRow, not, setRow, type Table } from '../truth/table.ts';
import { agree } from './find-conflicts.ts';
import type { Survey } from './survey.ts';

const MOST_SOURCES = 11;

export interface Remade {
  readonly block: BuiltBlock;
  /** The elements that are new or different. */
  readonly lines: readonly BuiltElement[];
}

/** Elements that depend on `start`, up to the borders; `start` itself is among them when it is an element. */
export function partBehind(block: BuiltBlock, start: string): Set<string> {
  const keep = new Set(block.keep);
  const inside = new Set([start]);
  const beyond = new Set<string>();
  for (const { name, gate, legs, delay } of block.elements) {
    if (legs.some((leg) => beyond.has(leg))) beyond.add(name);
    else if (name !== start && legs.some((leg) => inside.has(leg))) {
      if ((gate === 'wire' && delay > 0) || keep.has(name)) beyond.add(name);
      else inside.add(name);
    }
  }
  return inside;
}

/**
 * Makes the elements of `part` anew. `wished` says what an element is to be where that is not what it is made of:
 * an expression over its legs.
 *
 * @returns null when there is nothing to make, or it is too wide for a quick search.
 */
export function remake(
  found: Survey,
  part: ReadonlySet<string>,
  wished: ReadonlyMap<string, (legs: readonly Expression[]) => Expression>,
  more: readonly string[] = [],
): Remade | null {
  const { block, target } = found;
  const inside = block.elements.filter(({ name }) => part.has(name));
  const outside = block.elements.filter(({ name }) => !part.has(name));
  const isOutput = new Set(block.outputs.map(({ wire }) => wire));
  const readOutside = new Set(outside.flatMap(({ legs }) => legs));
  const needed = inside.filter(({ name }) => isOutput.has(name) || readOutside.has(name));
  if (needed.length === 0) return null;
  const sources = sourcesOf(found, inside, part, more);
  if (sources.length > MOST_SOURCES) return null;
  const system = systemOf(found, inside, needed, sources, wished);
  const tables = systemTables(system);
  const care = reachable(found, sources) ?? tables.care;
  const task = makeTask(system, { ...tables, care }, target);
  const { answer } = runSearch(system, task, target, { ticks: null, effort: 'quick', seed: 1 });
  if (answer === null) return null;
  return composed(found, outside, needed, sources, answer.network);
}

/** What the part reads, and wires of the other rail of these. */
function sourcesOf(
  found: Survey,
  inside: readonly BuiltElement[],
  part: ReadonlySet<string>,
  more: readonly string[],
): string[] {
  const { block, built, drawn, rowBits } = found;
  const read = inside
    .flatMap(({ legs }) => legs)
    .filter((leg) => !part.has(leg) && leg !== '0' && leg !== '1');
  const sources = [...new Set([...read, ...more])];
  const behind = new Set(part);
  for (const { name, legs } of block.elements) if (legs.some((leg) => behind.has(leg))) behind.add(name);
  const candidates = [...block.inputs, ...block.elements].map(({ name }) => name);
  for (const source of [...sources]) {
    const other = not(drawn[builtWire(built, source)], rowBits);
    for (const name of candidates) {
      if (behind.has(name) || sources.includes(name) || sources.length >= MOST_SOURCES) continue;
      if (agree(found, drawn[builtWire(built, name)], other)) sources.push(name);
    }
  }
  return sources;
}

function systemOf(
  found: Survey,
  inside: readonly BuiltElement[],
  needed: readonly BuiltElement[],
  sources: readonly string[],
  wished: ReadonlyMap<string, (legs: readonly Expression[]) => Expression>,
): System {
  const { wireTicks } = builtCosts(found.built, found.target);
  const signals = [...sources, ...inside.map(({ name }) => name)];
  const numberOf = new Map(signals.map((name, number) => [name, number]));
  const expressionOf = (leg: string): Expression =>
    leg === '0' || leg === '1'
      ? { kind: 'constant', value: leg === '1' ? 1 : 0 }
      : { kind: 'signal', signal: numberOf.get(leg) ?? 0 };
  return {
    signals,
    inputs: sources.map((name, signal) => ({
      signal,
      rail: 'high',
      tick: wireTicks[builtWire(found.built, name)],
    })),
    outputs: needed.map(({ name }) => ({ signal: numberOf.get(name) ?? 0, rail: 'high', by: null })),
    definitions: inside.map(({ name, gate, legs }) => {
      const args = legs.map(expressionOf);
      const expression = wished.get(name)?.(args) ?? gateExpression(gate, args, found.built.logic);
      return { signal: numberOf.get(name) ?? 0, expression, at: null };
    }),
    never: [],
  };
}

function gateExpression(gate: GateWord, args: readonly Expression[], logic: 'or' | 'and'): Expression {
  if (gate === 'join') return args.length === 1 ? args[0] : { kind: logic, args };
  if (gate === 'wire' || gate === 'separate') return args[0];
  return gate === 'not' ? { kind: 'not', argument: args[0] } : { kind: gate, args };
}

/** Patterns of the sources that occur; null when not all rows are known. */
function reachable(found: Survey, sources: readonly string[]): Table | null {
  if (!found.exhaustive) return null;
  const rows = 2 ** sources.length;
  const table: Table = new Uint32Array(Math.max(1, rows >> 5));
  const levels = sources.map((name) => found.drawn[builtWire(found.built, name)]);
  for (let row = 0; row < 2 ** found.rowBits; row++) {
    if (!hasRow(found.care, row)) continue;
    let pattern = 0;
    levels.forEach((level, s) => {
      if (hasRow(level, row)) pattern |= 1 << s;
    });
    setRow(table, pattern);
  }
  return countRows(table) > 0 ? table : null;
}

/** The found network in words, in place of the part. */
function composed(
  found: Survey,
  outside: readonly BuiltElement[],
  needed: readonly BuiltElement[],
  sources: readonly string[],
  network: Network,
): Remade {
  const { block } = found;
  const first = firstInverter(network);
  const names: string[] = ['0', '1', ...network.inputs.map(({ signal }) => sources[signal])];
  const taken = new Set(outside.map(({ name }) => name));
  const fresh = (base: string): string => {
    const name = freshName(block, base, taken);
    taken.add(name);
    return name;
  };
  const single = needed.map((_, y) => {
    const legs = outputLegsOf(network, y);
    return legs.length === 1 ? legs[0] : -1;
  });
  for (let i = 0; i < network.size; i++) {
    const output = single.indexOf(first + i);
    names.push(output < 0 ? fresh(`m${i + 1}`) : needed[output].name);
  }
  const lines: BuiltElement[] = [];
  for (let i = 0; i < network.size; i++) {
    const legs = [...legsOf(network, i)].map((leg) => names[leg]);
    const isOr = found.built.logic === 'or';
    const gate = legs.length === 1 ? 'not' : isOr ? 'nor' : 'nand';
    lines.push(elementOf({ name: names[first + i], gate, legs }));
  }
  needed.forEach(({ name }, y) => {
    const legs = [...outputLegsOf(network, y)];
    if (legs.length === 1 && names[legs[0]] === name) return;
    if (legs.length === 1 && legs[0] >= FIRST_INPUT) {
      lines.push(elementOf({ name, gate: 'separate', legs: [names[legs[0]]] }));
    } else lines.push(elementOf({ name, gate: 'join', legs: legs.map((leg) => names[leg]) }));
  });
  const whole = withoutDead(withElements(block, [...outside, ...lines]), block);
  const parted = separateShared(whole);
  const old = new Set(outside);
  return { block: parted, lines: parted.elements.filter((element) => !old.has(element)) };
}

/**
 * Gives every join a wire of its own from each leg that is used elsewhere as well. Levels as drawn stay what they are,
 * and afterwards the levels as tied are the same.
 *
 * @param only the wires to look at; all when it is left out.
 */
export function separateShared(block: BuiltBlock, only?: ReadonlySet<string>): BuiltBlock {
  const isTie = ({ gate, delay }: BuiltElement): boolean =>
    gate === 'join' || (gate === 'wire' && delay === 0);
  const alone = new Set(block.outputs.map(({ wire }) => wire));
  const joins = new Map<string, number>();
  for (const element of block.elements) {
    for (const leg of new Set(element.legs)) {
      if (isTie(element)) joins.set(leg, (joins.get(leg) ?? 0) + 1);
      else if (element.gate !== 'separate') alone.add(leg);
    }
  }
  const taken = new Set<string>();
  const taps: BuiltElement[] = [];
  const given = new Set<string>();
  const elements = block.elements.map((element): BuiltElement => {
    if (!isTie(element)) return element;
    const legs = element.legs.map((leg) => {
      const count = joins.get(leg) ?? 0;
      const isShared = alone.has(leg) || count > 1;
      if (!isShared || leg === '0' || leg === '1' || (only !== undefined && !only.has(leg))) return leg;
      if (!alone.has(leg) && !given.has(leg)) {
        given.add(leg);
        return leg;
      }
      const name = freshName(block, `${leg}_2`, taken);
      taken.add(name);
      taps.push(elementOf({ name, gate: 'separate', legs: [leg] }));
      return name;
    });
    return legs.every((leg, n) => leg === element.legs[n]) ? element : { ...element, legs };
  });
  return taps.length === 0 ? block : withElements(block, [...taps, ...elements]);
}
