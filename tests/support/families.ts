// Families of systems for measuring: each text is written here, in the plainest way, and means the same at every size.

import type { Draw } from './formulas.ts';

function lanes(count: number): number[] {
  return Array.from({ length: count }, (_, i) => i);
}

/** Ripple adder with a carry in; `p ^ c` for the sums, `g + p c` for the carries. */
export function rippleAdderText(bits: number): string {
  const top = bits - 1;
  return `input a[${top}:0], b[${top}:0], c[0]
output s[${top}:0], c[${bits}]
for i in 0..${top} {
  p[i] = a[i] ^ b[i]
  g[i] = a[i] b[i]
  s[i] = p[i] ^ c[i]
  c[i+1] = g[i] + p[i] c[i]
}
`;
}

export const FAMILIES: readonly (readonly [name: string, text: string])[] = [
  [
    'parity of 8',
    `y = ${lanes(8)
      .map((i) => `x${i}`)
      .join(' ^ ')}`,
  ],
  [
    'multiplexer of 4',
    "input d[3:0], t[1:0]\ny = t[1]' t[0]' d[0] + t[1]' t[0] d[1] + t[1] t[0]' d[2] + t[1] t[0] d[3]",
  ],
  [
    'multiplexer of 8',
    `input d[7:0], t[2:0]\noutput y\ny = ${lanes(8)
      .map((i) => `${literals('t', 3, i)} d[${i}]`)
      .join(' + ')}`,
  ],
  [
    'decoder of 3',
    `input t[2:0]\n${lanes(8)
      .map((i) => `y${i} = ${literals('t', 3, i)}`)
      .join('\n')}`,
  ],
  [
    'decoder of 4',
    `input t[3:0]\n${lanes(16)
      .map((i) => `y${i} = ${literals('t', 4, i)}`)
      .join('\n')}`,
  ],
  ['comparator of 4', comparator(4)],
  ['comparator of 6', comparator(6)],
  ['multiplier of 2', multiplier(2)],
  ['multiplier of 3', multiplier(3)],
  ['incrementer of 6', incrementer(6)],
  ['incrementer of 8', incrementer(8)],
  ['count of 5', countOnes(5)],
  ['count of 7', countOnes(7)],
];

function literals(name: string, count: number, value: number): string {
  return lanes(count)
    .map((i) => `${name}[${i}]${((value >> i) & 1) === 1 ? '' : "'"}`)
    .join(' ');
}

function comparator(bits: number): string {
  const top = bits - 1;
  return `input a[${top}:0], b[${top}:0]\noutput more, less, same\nm[0] = 0\nl[0] = 0
for i in 0..${top} {
  m[i+1] = a[i] b[i]' + (a[i] xnor b[i]) m[i]
  l[i+1] = a[i]' b[i] + (a[i] xnor b[i]) l[i]
}
more = m[${bits}]\nless = l[${bits}]\nsame = more nor less`;
}

function multiplier(bits: number): string {
  const lines = [`input a[${bits - 1}:0], b[${bits - 1}:0]`, `output y[${2 * bits - 1}:0]`];
  // Row after row is added to the sum so far, each by a ripple.
  let sum = lanes(bits).map((i) => `a[${i}] b[0]`);
  const product: string[] = [sum[0]];
  sum = [...sum.slice(1), '0'];
  for (let row = 1; row < bits; row++) {
    lines.push(`k_${row}[0] = 0`);
    const next: string[] = [];
    for (const i of lanes(bits)) {
      lines.push(`u_${row}[${i}] = ${sum[i]}`, `v_${row}[${i}] = a[${i}] b[${row}]`);
      lines.push(`r_${row}[${i}] = u_${row}[${i}] ^ v_${row}[${i}] ^ k_${row}[${i}]`);
      lines.push(`k_${row}[${i + 1}] = maj(u_${row}[${i}], v_${row}[${i}], k_${row}[${i}])`);
      next.push(`r_${row}[${i}]`);
    }
    next.push(`k_${row}[${bits}]`);
    product.push(next[0]);
    sum = next.slice(1);
  }
  [...product, ...sum].forEach((text, i) => {
    lines.push(`y[${i}] = ${text}`);
  });
  return lines.join('\n');
}

function incrementer(bits: number): string {
  return `input x[${bits - 1}:0], c[0]\noutput y[${bits - 1}:0], c[${bits}]
for i in 0..${bits - 1} { y[i] = x[i] ^ c[i]; c[i+1] = x[i] c[i] }`;
}

/** How many of the inputs are 1, in binary: one input after the other is added. */
function countOnes(inputs: number): string {
  const bits = Math.ceil(Math.log2(inputs + 1));
  const lines = [
    `input ${lanes(inputs)
      .map((i) => `x${i}`)
      .join(', ')}`,
    `output n_${inputs}[${bits - 1}:0]`,
  ];
  lines.push(...lanes(bits).map((i) => `n_0[${i}] = 0`));
  lanes(inputs).forEach((i) => {
    lines.push(`k_${i}[0] = x${i}`);
    for (const bit of lanes(bits)) {
      lines.push(`n_${i + 1}[${bit}] = n_${i}[${bit}] ^ k_${i}[${bit}]`);
      if (bit < bits - 1) lines.push(`k_${i}[${bit + 1}] = n_${i}[${bit}] k_${i}[${bit}]`);
    }
  });
  return lines.join('\n');
}

/** The adder in a seeded disguise, and what was done to it: what a reader might need instead of the plain one. */
export function disguisedAdder(bits: number, draw: Draw): { text: string; what: string } {
  const what: string[] = [];
  const chance = (): boolean => draw(2) === 1;
  const names = lanes(bits).map((i) => {
    const swapped = chance();
    return swapped ? [`y${i}`, `x${i}`] : [`x${i}`, `y${i}`];
  });
  what.push('operands swapped');
  const subtract = draw(4) === 0;
  const fixed = draw(3) === 0;
  const dropped = draw(3) === 0 ? draw(bits) : -1;
  const guarded = draw(3) === 0 ? draw(bits) : -1;
  if (subtract) what.push('a subtractor');
  if (fixed) what.push('carry in fixed');
  if (dropped >= 0) what.push(`sum ${dropped} dropped`);
  if (guarded >= 0) what.push(`an AND on sum ${guarded}`);
  const rails: string[] = [];
  const rail = (name: string): string => {
    if (draw(4) > 0) return name;
    rails.push(name);
    return `${name} low`;
  };
  const inputs = [...lanes(bits).flatMap((i) => [`x${i}`, `y${i}`]), ...(fixed ? [] : ['k0'])];
  if (guarded >= 0) inputs.push('gate');
  const outputs = [
    ...lanes(bits)
      .filter((i) => i !== dropped)
      .map((i) => `z${i}`),
    `k${bits}`,
  ];
  const lines = [`input ${inputs.map(rail).join(', ')}`, `output ${outputs.map(rail).join(', ')}`];
  if (rails.length > 0) what.push(`${rails.length} low rails`);
  if (fixed) lines.push(`k0 = ${subtract ? 1 : 0}`);
  for (const i of lanes(bits)) {
    const [one, other] = names[i];
    const second = subtract ? `${other}'` : other;
    lines.push(`h${i} = ${one} ^ ${second}`, `k${i + 1} = ${one} ${second} + h${i} k${i}`);
    lines.push(`w${i} = h${i} ^ k${i}`);
    if (i !== dropped) lines.push(`z${i} = ${i === guarded ? `w${i} gate` : `w${i}`}`);
  }
  return { text: lines.filter((line) => !line.startsWith(`w${dropped} `)).join('\n'), what: what.join(', ') };
}
