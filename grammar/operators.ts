// The signs and words of the equation language, each exactly once. The lexer, the parser, the wording of faults, the
// printer and the tests that keep README.md and equations.ebnf in step all read these tables.

/** Operators that stand between two operands. */
export type InfixOperator = 'and' | 'nand' | 'xor' | 'xnor' | 'or' | 'nor' | 'implies' | 'equals';

/** Functions: `name(argument, ...)`. `not` is a prefix sign whose operand happens to stand in brackets. */
export type FunctionName = 'and' | 'or' | 'nand' | 'nor' | 'xor' | 'xnor' | 'mux' | 'maj';

export type RailWord = 'high' | 'low' | 'either' | 'both';

export interface InfixRow {
  readonly operator: InfixOperator;
  /** Larger binds tighter. */
  readonly strength: number;
  /** From which side a chain is read; `alone` may not be chained or mixed without brackets. */
  readonly chain: 'left' | 'right' | 'alone';
  readonly spellings: readonly string[];
}

/** Strengths from here on are those of AND, XOR and OR, where NAND and NOR do not mix. */
export const SUM_STRENGTH = 3;

export const INFIX_ROWS: readonly InfixRow[] = [
  { operator: 'and', strength: 5, chain: 'left', spellings: ['&', '&&', '*', '·', '∧', '.', 'and'] },
  { operator: 'nand', strength: 5, chain: 'alone', spellings: ['nand'] },
  { operator: 'xor', strength: 4, chain: 'left', spellings: ['^', '⊕', 'xor'] },
  { operator: 'xnor', strength: 4, chain: 'left', spellings: ['⊙', '~^', '^~', 'xnor'] },
  { operator: 'or', strength: 3, chain: 'left', spellings: ['+', '|', '||', '∨', 'or'] },
  { operator: 'nor', strength: 3, chain: 'alone', spellings: ['nor'] },
  { operator: 'implies', strength: 2, chain: 'right', spellings: ['->', '→'] },
  { operator: 'equals', strength: 1, chain: 'left', spellings: ['<->', '≡'] },
];

export const PREFIX_SPELLINGS: readonly string[] = ['!', '~', '¬', 'not'];
export const POSTFIX_SPELLINGS: readonly string[] = ["'", '′', '’'];

export const CONSTANTS: ReadonlyMap<string, 0 | 1> = new Map([
  ['0', 0],
  ['1', 1],
  ['false', 0],
  ['true', 1],
]);

/** Every function with its arguments as they are shown to people, and how many it takes at least and at most. */
export interface FunctionRow {
  readonly name: FunctionName;
  readonly shown: string;
  readonly least: number;
  readonly most: number;
}

export const FUNCTION_ROWS: readonly FunctionRow[] = [
  { name: 'and', shown: 'and(a, b, ...)', least: 1, most: Number.POSITIVE_INFINITY },
  { name: 'or', shown: 'or(a, b, ...)', least: 1, most: Number.POSITIVE_INFINITY },
  { name: 'nand', shown: 'nand(a, b, ...)', least: 1, most: Number.POSITIVE_INFINITY },
  { name: 'nor', shown: 'nor(a, b, ...)', least: 1, most: Number.POSITIVE_INFINITY },
  { name: 'xor', shown: 'xor(a, b, ...)', least: 1, most: Number.POSITIVE_INFINITY },
  { name: 'xnor', shown: 'xnor(a, b, ...)', least: 1, most: Number.POSITIVE_INFINITY },
  { name: 'mux', shown: 'mux(select, when0, when1)', least: 3, most: 3 },
  { name: 'maj', shown: 'maj(a, b, c)', least: 3, most: 3 },
];

export const RAIL_WORDS: readonly RailWord[] = ['high', 'low', 'either', 'both'];

/** Brackets, function calls and operators may nest this deep; what is deeper is refused. */
export const DEPTH_LIMIT = 500;

/** Ticks are whole numbers from 0 to this one. */
export const TICK_LIMIT = 999_999;

/** More faults of syntax than this are reported as one: a file of junk must not become a list of millions. */
export const FAULT_LIMIT = 1000;

/** What a word of the language is, by its spelling in small letters. */
export type WordRole =
  | 'infix'
  | 'prefix'
  | 'constant'
  | 'function'
  | 'rail'
  | 'by'
  | 'input'
  | 'output'
  | 'never';

/** Every word that cannot be a name. An infix word is a function where an operand is expected. */
export const WORDS: ReadonlyMap<string, WordRole> = new Map<string, WordRole>([
  ...INFIX_ROWS.flatMap((row) => row.spellings.filter(isWord).map((word) => [word, 'infix'] as const)),
  ...PREFIX_SPELLINGS.filter(isWord).map((word) => [word, 'prefix'] as const),
  ...[...CONSTANTS.keys()].filter(isWord).map((word) => [word, 'constant'] as const),
  ['mux', 'function'],
  ['maj', 'function'],
  ...RAIL_WORDS.map((word) => [word, 'rail'] as const),
  ['by', 'by'],
  ['input', 'input'],
  ['output', 'output'],
  ['never', 'never'],
]);

/** The row of an infix sign or word, by its spelling in small letters. */
export const INFIX_BY_SPELLING: ReadonlyMap<string, InfixRow> = new Map(
  INFIX_ROWS.flatMap((row) => row.spellings.map((spelling) => [spelling, row] as const)),
);

export const FUNCTION_BY_NAME: ReadonlyMap<string, FunctionRow> = new Map(
  FUNCTION_ROWS.map((row) => [row.name as string, row] as const),
);

function isWord(spelling: string): boolean {
  return /^[a-z]/.test(spelling);
}
