// Texts of about a megabyte that are as unkind as can be, for the command line: each must be refused or answered within
// ten seconds and a gigabyte.

export interface HostileSize {
  readonly name: string;
  /** Name of the file. */
  readonly file: string;
  readonly text: () => string;
  /** Words before the file; `optimize` without them. */
  readonly argv?: readonly string[];
}

const MEGABYTE = 1_000_000;

/** The piece so often that a megabyte comes together. */
const filled = (piece: string): string => piece.repeat(Math.floor(MEGABYTE / piece.length));

const logic = (name: string, text: () => string): HostileSize => ({ name, file: 'hostile.logic', text });

export const HOSTILE_SIZES: readonly HostileSize[] = [
  logic('one line of names', () => `y = ${filled('a ')}`),
  logic('one name', () => `y = ${filled('a')}`),
  logic('empty lines', () => filled('\n')),
  logic('opening brackets', () => `y = ${filled('(')}`),
  logic('brackets one in another', () => `y = ${'('.repeat(MEGABYTE / 2)}a${')'.repeat(MEGABYTE / 2)}`),
  logic('complements', () => `y = ${filled('~')}a`),
  logic('complements behind', () => `y = a${filled("'")}`),
  logic('a sum of one name', () => `y = a${filled(' + a')}`),
  logic('a sum of many names', () => `y = ${Array.from({ length: 130_000 }, (_, n) => `a${n}`).join(' + ')}`),
  logic('many definitions', () => Array.from({ length: 50_000 }, (_, n) => `y${n} = a b + c`).join('\n')),
  logic('definitions in a chain', () =>
    ['y0 = a', ...Array.from({ length: 50_000 }, (_, n) => `y${n + 1} = y${n} ^ b`)].join('\n'),
  ),
  logic('definitions in a circle', () =>
    Array.from({ length: 50_000 }, (_, n) => `y${n} = y${(n + 1) % 50_000} ^ b`).join('\n'),
  ),
  logic('faults on every line', () => filled('y = + ) a\n')),
  logic('faults on one line', () => filled('y = + ) a; ')),
  logic('faults beyond ASCII on one line', () => filled('é = + ) ä; ')),
  logic('the same definition', () => filled('y = a b\n')),
  logic('a loop to 10^12', () => 'for i in 0..1000000000000 { y[i] = a[i] }'),
  logic('loops in loops', () => 'for i in 0..999999 { for j in 0..999999 { y[i*1000000+j] = a } }'),
  logic('many loops', () => filled('for i in 0..999: y[i] = a\n')),
  logic('a bus of 10^9', () => 'input a[999999999:0]\ny = a[0]'),
  logic('many buses', () => filled('input a[9999:0]\n')),
  logic('a table of a megabyte', () => `y(a, b, c) = minterms(${filled('1, ')}1)`),
  logic('a row of 10^30', () => 'y(a, b) = minterms(1000000000000000000000000000000)'),
  logic('fractions from a book', () => `$y = ${filled('\\frac{a}{')}b$`),
  logic('bars from a book', () => `$y = ${filled('\\overline{')}a$`),
  logic('sums from a book', () => `$y = ${filled('\\sum_{i=0}^{9} ')}a_i$`),
  logic('powers of names', () => `y = ${filled('a_{b^{')}`),
  logic('comments never closed', () => filled('/* ')),
  logic('quotation marks', () => filled('"')),
  logic('marks over letters', () => `y = a${filled('\u0305').slice(0, MEGABYTE / 2)}`),
  logic('noughts', () => filled('\u0000')),
  logic('built blocks never closed', () => filled('built b { ')),
  logic(
    'a built block of many wires',
    () => `built b {\n${Array.from({ length: 40_000 }, (_, n) => `  n${n} = NOR(a, b)`).join('\n')}\n}`,
  ),
  {
    name: 'a profile of brackets',
    file: 'hostile.json',
    text: () => filled('['),
    argv: ['y = a b', '--target'],
  },
  {
    name: 'a profile of many fields',
    file: 'hostile.json',
    text: () => `{${Array.from({ length: 60_000 }, (_, n) => `"field${n}": 1`).join(', ')}}`,
    argv: ['y = a b', '--target'],
  },
  {
    name: 'a plan of brackets',
    file: 'hostile.json',
    text: () => filled('{"limits":'),
    argv: ['batch', 'hostile.logic', '--into', 'out', '--plan'],
  },
  {
    name: 'rows of nonsense',
    file: 'hostile.jsonl',
    text: () => filled('{"inputs": [\n'),
    argv: ['batch', '--into', 'out', '--effort', 'quick'],
  },
  {
    name: 'a stimulus of many changes',
    file: 'hostile.stimulus',
    text: () => filled('at 3: a = 1\n'),
    argv: ['trial', 'y = a b', '--stimulus'],
  },
  {
    name: 'a stimulus that never ends',
    file: 'hostile.stimulus',
    text: () => 'random a, b every 1 times 1000000000000 seed 7\nuntil 1000000000000',
    argv: ['trial', 'y = a b', '--stimulus'],
  },
  {
    name: 'Verilog comments never closed',
    file: 'hostile.v',
    text: () => `module m(input a, output y); ${filled('/* ')}`,
    argv: ['draw'],
  },
  {
    name: 'Verilog of many gates',
    file: 'hostile.v',
    text: () =>
      `module m(input a, output y);\n${Array.from({ length: 40_000 }, (_, n) => `nor g${n}(w${n}, a);`).join('\n')}\nendmodule`,
    argv: ['draw'],
  },
];
