// One four-bit adder with a carry-in in three ways of writing.

const BITS = 4;
const LANES = Array.from({ length: BITS }, (_, i) => i);

const NAMES = {
  inputs: [...LANES.map((i) => `a${i}`), ...LANES.map((i) => `b${i}`), 'c0'],
  outputs: [...LANES.map((i) => `s${i}`), `c${BITS}`],
};
const DECLARED = `input ${NAMES.inputs.join(', ')}\noutput ${NAMES.outputs.join(', ')}\n`;
const HALVES = LANES.map((i) => `p${i} = a${i} ^ b${i}\ng${i} = a${i} b${i}\n`).join('');
const SUMS = LANES.map((i) => `s${i} = p${i} ^ c${i}\n`).join('');

const RIPPLE = `${DECLARED}${HALVES}${SUMS}${LANES.map((i) => `c${i + 1} = g${i} + p${i} c${i}\n`).join('')}`;

const LOOK_AHEAD = `${DECLARED}${HALVES}${SUMS}${LANES.map((i) => {
  const products = [];
  for (let from = i; from >= -1; from--) {
    const passed = LANES.slice(from + 1, i + 1).map((lane) => `p${lane}`);
    products.push([...passed, from < 0 ? 'c0' : `g${from}`].join(' '));
  }
  return `c${i + 1} = ${products.join(' + ')}\n`;
}).join('')}`;

/** All 512 rows of each output; the first name is the most significant bit of a row. */
function table(): string {
  const value = (row: number): number => {
    const bit = (name: string): number => (row >> (NAMES.inputs.length - 1 - NAMES.inputs.indexOf(name))) & 1;
    return LANES.reduce((sum, i) => sum + 2 ** i * (bit(`a${i}`) + bit(`b${i}`)), bit('c0'));
  };
  const rows = Array.from({ length: 2 ** NAMES.inputs.length }, (_, row) => row);
  return NAMES.outputs
    .map((name, i) => {
      const ones = rows.filter((row) => ((value(row) >> i) & 1) === 1);
      return `${name}(${NAMES.inputs.join(', ')}) = minterms(${ones.join(', ')})\n`;
    })
    .join('');
}

/** Equations of the same nine inputs and five outputs, by the way in which they are written. */
export const WAYS_OF_WRITING: readonly (readonly [way: string, text: string])[] = [
  ['ripple', RIPPLE],
  ['look-ahead', LOOK_AHEAD],
  ['table of 512 rows', table()],
];
