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
  /** LaTeX commands for it. */
  readonly latex: readonly string[];
}

/** Strengths from here on are those of AND, XOR and OR, where NAND and NOR do not mix. */
export const SUM_STRENGTH = 3;

export const INFIX_ROWS: readonly InfixRow[] = [
  {
    operator: 'and',
    strength: 5,
    chain: 'left',
    spellings: ['&', '&&', '*', '·', '∧', '.', 'and'],
    latex: ['\\cdot', '\\land', '\\wedge', '\\times', '\\ast', '\\bullet', '\\&'],
  },
  { operator: 'nand', strength: 5, chain: 'alone', spellings: ['nand'], latex: ['\\uparrow', '\\barwedge'] },
  {
    operator: 'xor',
    strength: 4,
    chain: 'left',
    spellings: ['^', '⊕', 'xor'],
    latex: ['\\oplus', '\\veebar'],
  },
  { operator: 'xnor', strength: 4, chain: 'left', spellings: ['⊙', '~^', '^~', 'xnor'], latex: ['\\odot'] },
  {
    operator: 'or',
    strength: 3,
    chain: 'left',
    spellings: ['+', '|', '||', '∨', 'or'],
    latex: ['\\lor', '\\vee'],
  },
  { operator: 'nor', strength: 3, chain: 'alone', spellings: ['nor'], latex: ['\\downarrow'] },
  {
    operator: 'implies',
    strength: 2,
    chain: 'right',
    spellings: ['->', '→'],
    latex: ['\\to', '\\rightarrow'],
  },
  {
    operator: 'equals',
    strength: 1,
    chain: 'left',
    spellings: ['<->', '≡'],
    latex: ['\\leftrightarrow', '\\equiv'],
  },
];

export const PREFIX_SPELLINGS: readonly string[] = ['!', '~', '¬', 'not'];
export const POSTFIX_SPELLINGS: readonly string[] = ["'", '′', '’'];

export const PREFIX_LATEX: readonly string[] = ['\\overline', '\\bar', '\\lnot', '\\neg', '\\sim'];
/** What LaTeX raises behind an operand to mean its complement. */
export const POSTFIX_LATEX: readonly string[] = ['\\prime'];

/** Before the rows of a table: the first two for a sum of minterms, the others for a product of maxterms. */
export const TABLE_SIGNS: readonly string[] = ['Σ', '∑', 'Π', '∏'];

/** What a list of rows says of them: the function is 1 there, it is 0 there, it is free there. */
export type RowKind = 'on' | 'off' | 'free';

/** Words before a list of rows. They are words nowhere else; those of one letter are told apart by their case. */
export const TABLE_WORDS: ReadonlyMap<string, RowKind> = new Map<string, RowKind>([
  ['minterms', 'on'],
  ['maxterms', 'off'],
  ['free', 'free'],
  ['m', 'on'],
  ['M', 'off'],
  ['d', 'free'],
  ['D', 'free'],
]);

/** Words that begin a statement, or stand in the head of a loop, and are names everywhere else. */
export const STATEMENT_WORDS = { loop: 'for', within: 'in', free: 'free', letters: 'letters' } as const;

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

/** Loops may nest this deep. */
export const LOOP_DEPTH_LIMIT = 16;

/** An index is a whole number from minus this one to this one. */
export const INDEX_LIMIT = 999_999;

/** A table has at most this many inputs. */
export const TABLE_INPUT_LIMIT = 16;

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
  INFIX_ROWS.flatMap((row) =>
    [...row.spellings, ...row.latex].map((spelling) => [spelling.toLowerCase(), row] as const),
  ),
);

export const FUNCTION_BY_NAME: ReadonlyMap<string, FunctionRow> = new Map(
  FUNCTION_ROWS.map((row) => [row.name as string, row] as const),
);

function isWord(spelling: string): boolean {
  return /^[a-z]/.test(spelling);
}
