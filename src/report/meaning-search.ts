// Short expressions for one table, found without looking at the network: sums of products over the few inputs that it
// depends on, exclusive ORs, and short covers by named signals (g2 + p2 c2). Every form that is returned equals the
// table on the rows that can happen.
//
// Sums of products: all cubes over at most six inputs are tried (3^6), those without a row that must be 0 and not
// inside another such cube are prime; they are chosen greedily, the one that covers most first. Covers by names: the
// literals inside the table and the products of two of them, chosen greedily, at most three.
//
// Cost: 3^k cubes for k inputs; (names)^2 comparisons, nearly all of which end at the first word. Lost: a full minimal
// cover, which for six inputs never gave a shorter text in the trials.

import { countBits, dependsOn, PATTERNS, type Table } from '../truth/table.ts';
import { complement, exclusive, type Form, type Named, product, sum, symbol } from './meaning-forms.ts';

const MOST_SUPPORT = 6;
const MOST_TERMS = 3;
/** Rows are walked one by one up to this many inputs; above, sums of products are not looked for. */
const MOST_INPUTS = 14;
/** Covers by names are not looked for when there are more words of terms than this. */
const MOST_WORK = 1_000_000;

/** A function as far as it matters: rows that must be 1 and rows that must be 0; disjoint. */
export interface Wanted {
  readonly on: Table;
  readonly off: Table;
}

/** Sums of products over at most six of the inputs; `inputs` are all symbols of the inputs in order. */
export function sumsOfProducts(wanted: Wanted, inputs: readonly Named[]): Form[] {
  if (inputs.length > MOST_INPUTS) return [];
  const support = neededInputs(wanted, inputs.length);
  if (support === null || support.length > MOST_SUPPORT) return [];
  const rows = 1 << support.length;
  const on = new Uint8Array(rows);
  const off = new Uint8Array(rows);
  for (let row = 0; row < 1 << inputs.length; row++) {
    const isOn = (wanted.on[row >> 5] >>> (row & 31)) & 1;
    const isOff = (wanted.off[row >> 5] >>> (row & 31)) & 1;
    if (isOn + isOff === 0) continue;
    let small = 0;
    support.forEach((input, i) => {
      small |= ((row >> input) & 1) << i;
    });
    if (isOn === 1) on[small] = 1;
    else off[small] = 1;
  }
  const literals = support.map((input) => symbol(inputs[input]));
  const terms = chosenCubes(on, off, support.length).map(({ fixed, value }) =>
    product(
      literals.flatMap((literal, i) =>
        ((fixed >> i) & 1) === 0 ? [] : [((value >> i) & 1) === 1 ? literal : complement(literal)],
      ),
    ),
  );
  return terms.length > 0 ? [sum(terms)] : [];
}

/** `a ^ b` for two symbols, or the parity of three to five inputs. */
export function exclusiveOrs(wanted: Wanted, symbols: readonly Named[], inputs: readonly Named[]): Form[] {
  for (let i = 0; i < symbols.length; i++) {
    for (let j = i + 1; j < symbols.length; j++) {
      if (isParity(wanted, [symbols[i], symbols[j]]))
        return [exclusive([symbols[i], symbols[j]].map(symbol))];
    }
  }
  if (inputs.length > MOST_INPUTS) return [];
  const support = inputs.filter((_, i) => dependsOn(wanted.on, i));
  const fits = support.length >= 3 && support.length <= 5 && isParity(wanted, support);
  return fits ? [exclusive(support.map(symbol))] : [];
}

/** Sums of at most three terms, each a literal or a product of two over the symbols. */
export function coversByNames(wanted: Wanted, symbols: readonly Named[]): Form[] {
  const literals = symbols.flatMap((one) => [
    { table: one.table, flip: 0, form: symbol(one) },
    { table: one.table, flip: -1, form: complement(symbol(one)) },
  ]);
  const words = wanted.on.length;
  type Literal = (typeof literals)[number];
  const at = ({ table, flip }: Literal, w: number): number => table[w] ^ flip;
  const inside = (a: Literal, b: Literal): boolean => {
    for (let w = 0; w < words; w++) if ((at(a, w) & at(b, w) & wanted.off[w]) !== 0) return false;
    return true;
  };
  const useful = literals.map((literal) => inside(literal, literal));
  const terms: { readonly a: Literal; readonly b: Literal; readonly form: Form }[] = [];
  literals.forEach((a, i) => {
    if (useful[i]) terms.push({ a, b: a, form: a.form });
    else {
      for (let j = i + 1; j < literals.length; j++) {
        const b = literals[j];
        if (!useful[j] && a.table !== b.table && inside(a, b))
          terms.push({ a, b, form: product([a.form, b.form]) });
      }
    }
  });
  if (terms.length * words > MOST_WORK) return [];
  const open = wanted.on.slice();
  const chosen: Form[] = [];
  while (open.some((word) => word !== 0)) {
    if (chosen.length === MOST_TERMS) return [];
    let best = -1;
    let most = 0;
    terms.forEach(({ a, b }, t) => {
      let covered = 0;
      for (let w = 0; w < words; w++) covered += countBits(at(a, w) & at(b, w) & open[w]);
      const worth = a === b ? covered * 1.5 : covered;
      if (worth > most) {
        most = worth;
        best = t;
      }
    });
    if (best < 0) return [];
    const { a, b, form } = terms[best];
    chosen.push(form);
    for (let w = 0; w < words; w++) open[w] &= ~(at(a, w) & at(b, w));
  }
  return chosen.length > 0 ? [sum(chosen)] : [];
}

/** Inputs without which the rows cannot be told apart, or null when there are more than may be. */
function neededInputs({ on, off }: Wanted, inputs: number): number[] | null {
  // Without don't-cares these are the inputs the table depends on. With them, inputs are given up one by one while no
  // row that must be 1 falls on one that must be 0.
  let [ones, zeros] = [on, off];
  const needed: number[] = [];
  for (let i = inputs - 1; i >= 0; i--) {
    const [moreOnes, moreZeros] = [spread(ones, i), spread(zeros, i)];
    if (moreOnes.some((word, w) => (word & moreZeros[w]) !== 0)) {
      needed.unshift(i);
      if (needed.length > MOST_SUPPORT) return null;
    } else [ones, zeros] = [moreOnes, moreZeros];
  }
  return needed;
}

/** The rows of a table and those that differ from one of them in input `index` only. */
function spread(table: Table, index: number): Table {
  const result = table.slice();
  if (index >= 5) {
    const stride = 1 << (index - 5);
    for (let w = 0; w < table.length; w++) result[w] |= table[w ^ stride];
    return result;
  }
  const shift = 1 << index;
  const high = PATTERNS[index];
  for (let w = 0; w < table.length; w++) {
    result[w] |= ((table[w] & high) >>> shift) | ((table[w] & ~high) << shift);
  }
  return result;
}

/** A product over at most six inputs, and the rows it covers as two words. */
interface Cube {
  readonly fixed: number;
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

function chosenCubes(on: Uint8Array, off: Uint8Array, inputs: number): Cube[] {
  const rows = 1 << inputs;
  let [onLow, onHigh] = packed(on);
  const [offLow, offHigh] = packed(off);
  const allowed = new Map<number, Cube>();
  for (let fixed = 0; fixed < rows; fixed++) {
    for (let value = fixed; ; value = (value - 1) & fixed) {
      const cube = cubeOf(fixed, value, inputs);
      if (((cube.low & offLow) | (cube.high & offHigh)) === 0) allowed.set((fixed << 6) | value, cube);
      if (value === 0) break;
    }
  }
  const isPrime = ({ fixed, value }: Cube): boolean => {
    for (let bit = 1; bit < rows; bit <<= 1) {
      if ((fixed & bit) !== 0 && allowed.has(((fixed & ~bit) << 6) | (value & ~bit))) return false;
    }
    return true;
  };
  const primes = [...allowed.values()].filter(isPrime);
  // Rows that one cube alone covers decide first; then the cube that covers most.
  let [onceLow, onceHigh, twiceLow, twiceHigh] = [0, 0, 0, 0];
  for (const { low, high } of primes) {
    twiceLow |= onceLow & low;
    twiceHigh |= onceHigh & high;
    onceLow |= low;
    onceHigh |= high;
  }
  const chosen: Cube[] = [];
  while ((onLow | onHigh) !== 0) {
    let best: Cube | null = null;
    let most = 0;
    for (const cube of primes) {
      const [low, high] = [cube.low & onLow, cube.high & onHigh];
      const count = countBits(low) + countBits(high);
      const alone = ((low & ~twiceLow) | (high & ~twiceHigh)) !== 0;
      const worth = count + (alone ? rows : 0);
      if (count > 0 && worth > most) {
        most = worth;
        best = cube;
      }
    }
    if (best === null) return [];
    chosen.push(best);
    onLow &= ~best.low;
    onHigh &= ~best.high;
  }
  return chosen.sort((a, b) => a.fixed - b.fixed || b.value - a.value);
}

function cubeOf(fixed: number, value: number, inputs: number): Cube {
  let low = inputs < 5 ? 2 ** (1 << inputs) - 1 : -1;
  let high = inputs < 6 ? 0 : -1;
  for (let i = 0; i < inputs; i++) {
    if (((fixed >> i) & 1) === 0) continue;
    const isOne = ((value >> i) & 1) === 1;
    low &= i === 5 ? (isOne ? 0 : -1) : isOne ? PATTERNS[i] : ~PATTERNS[i];
    high &= i === 5 ? (isOne ? -1 : 0) : isOne ? PATTERNS[i] : ~PATTERNS[i];
  }
  return { fixed, value, low, high };
}

function packed(rows: Uint8Array): [number, number] {
  const words: [number, number] = [0, 0];
  rows.forEach((bit, row) => {
    words[row >> 5] |= bit << (row & 31);
  });
  return words;
}

function isParity({ on, off }: Wanted, symbols: readonly Named[]): boolean {
  for (let w = 0; w < on.length; w++) {
    let value = 0;
    for (const { table } of symbols) value ^= table[w];
    if ((on[w] & ~value) !== 0 || (off[w] & value) !== 0) return false;
  }
  return true;
}
