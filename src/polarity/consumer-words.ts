// What reads a wire, in the reader's names: `sum = x ^ carry`, `go = x AND NOT carry`. Found by comparing levels: each
// output of the part is tried as every operator of two over the wire in question and one other wire; what fits none is
// told by what it is declared to carry.

import type { BuiltBlock } from '../equations/built.ts';
import { builtWire } from '../network/built-network.ts';
import { not, type Table, xor } from '../truth/table.ts';
import { agree } from './find-conflicts.ts';
import type { Survey } from './survey.ts';
import type { Wish } from './wishes.ts';

interface Operator {
  readonly words: (wire: string, other: string) => string;
  readonly level: (wire: number, other: number) => number;
}

const OPERATORS: readonly Operator[] = [
  { words: (a, b) => `${b} ^ ${a}`, level: (a, b) => a ^ b },
  { words: (a, b) => `${b} xnor ${a}`, level: (a, b) => ~(a ^ b) },
  { words: (a, b) => `${b} ${a}`, level: (a, b) => a & b },
  { words: (a, b) => `${b} ${a}'`, level: (a, b) => b & ~a },
  { words: (a, b) => `${b}' ${a}`, level: (a, b) => a & ~b },
  { words: (a, b) => `${b}' ${a}'`, level: (a, b) => ~(a | b) },
  { words: (a, b) => `${b} + ${a}`, level: (a, b) => a | b },
  { words: (a, b) => `${b} + ${a}'`, level: (a, b) => b | ~a },
  { words: (a, b) => `${b}' + ${a}`, level: (a, b) => a | ~b },
  { words: (a, b) => `${b} nand ${a}`, level: (a, b) => ~(a & b) },
];

/** What the outputs of a part compute from the wire `from`, one after the other; null when nothing short fits. */
export function consumerWords(found: Survey, part: ReadonlySet<string>, from: string): string | null {
  const { block, built } = found;
  const wire = builtWire(built, from);
  const ends = endsOf(block, part).filter((name) => name !== from);
  const others = [...block.inputs, ...block.elements]
    .map(({ name }) => name)
    .filter((name) => !part.has(name));
  const words = ends.flatMap((end): string[] => {
    const wish = found.wishes.byWire[builtWire(built, end)];
    const level = meantBehind(found, part, from, end);
    const shown = wish === null || /\s/.test(wish.shown) ? end : wish.shown;
    const whole = signalOf(found, wire);
    const read = wish?.rail === 'low' ? not(level, found.rowBits) : level;
    if (agree(found, whole.table, read)) return [`${shown} = ${whole.name}`];
    if (agree(found, not(whole.table, found.rowBits), read)) return [`${shown} = ${whole.name}'`];
    for (const { words: say, level: compute } of OPERATORS) {
      for (const other of others) {
        const [a, b] = [signalOf(found, wire), signalOf(found, builtWire(built, other))];
        const table: Table = new Uint32Array(a.table.length);
        for (let w = 0; w < table.length; w++) table[w] = compute(a.table[w], b.table[w]);
        if (agree(found, masked(table, found.rowBits), read)) {
          return [`${shown} = ${say(a.name, b.name)}`];
        }
      }
    }
    return wish === null ? [] : [`${end} is ${wish.shown}`];
  });
  return words.length > 0 ? words.join(', ') : null;
}

function endsOf(block: BuiltBlock, part: ReadonlySet<string>): string[] {
  const outside = block.elements.filter(({ name }) => !part.has(name));
  const read = new Set([...block.outputs.map(({ wire }) => wire), ...outside.flatMap(({ legs }) => legs)]);
  return block.elements.map(({ name }) => name).filter((name) => part.has(name) && read.has(name));
}

/** The level of a wire when `from` is what it is meant to be. */
function meantBehind(found: Survey, part: ReadonlySet<string>, from: string, end: string): Table {
  const { built } = found;
  const levels = [...found.drawn];
  const start = builtWire(built, from);
  levels[start] = found.wished[start];
  const isOr = built.logic === 'or';
  built.kinds.forEach((kind, wire) => {
    const element = built.element[wire];
    if (wire === start || element < 0 || !part.has(found.block.elements[element].name)) return;
    if (found.block.elements[element].name === from) return;
    const legs = [...built.legs.subarray(built.legStart[wire], built.legStart[wire + 1])];
    const level: Table = new Uint32Array(found.care.length).fill(isOr ? 0 : 0xffffffff);
    for (const leg of legs) {
      for (let w = 0; w < level.length; w++)
        level[w] = isOr ? level[w] | levels[leg][w] : level[w] & levels[leg][w];
    }
    levels[wire] = kind === 'inverter' ? not(level, found.rowBits) : level;
  });
  return levels[builtWire(built, end)];
}

/** The signal of a wire: what it is meant to carry, else its level under its own name. */
function signalOf(found: Survey, wire: number): { name: string; table: Table } {
  const wish: Wish | null = found.wishes.byWire[wire];
  const level = found.wished[wire];
  if (wish === null || wish.part) return { name: found.built.names[wire], table: level };
  const name = /\s/.test(wish.shown) ? `(${wish.shown})` : wish.shown;
  return { name, table: wish.rail === 'high' ? level : not(level, found.rowBits) };
}

function masked(table: Table, rowBits: number): Table {
  // Complement of the complement: bits beyond the last row go.
  return xor(not(not(table, rowBits), rowBits), new Uint32Array(table.length));
}
