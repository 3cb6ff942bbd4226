// All commands, each exactly once. The reader of command lines, the help and the table in the README derive from these
// rows. The first row runs when no command is named; the others stand in the order of the alphabet.

import { BATCH, MERGE } from './batch-commands.ts';
import type { Command } from './command.ts';
import {
  BUDGET,
  EFFORT,
  EXPLAIN,
  FORCE,
  FRONTIER,
  HELP,
  HTML,
  JSON_OUT,
  LETTERS,
  type OptionRow,
  OUT,
  PARTS,
  RAILS,
  SEED,
  SHARE,
  SHEET,
  SVG,
  TARGET,
  TICKS,
  VERSION,
  WIRE_NAMES,
  WORKERS,
} from './options.ts';
import { DRAW, EXPORT } from './picture-commands.ts';
import { ABOUT_SOURCES, SOURCES } from './source-words.ts';
import { HAZARDS, SETTLE, TRIAL } from './timing-commands.ts';

export const OPTIMIZE: Command = {
  name: 'optimize',
  summary: 'find the fastest network for equations, with few parts, and prove it equal',
  operands: SOURCES,
  about: [
    ABOUT_SOURCES,
    'The answer is the fastest network within the budget: it takes at most twice the parts of the smallest one found. ' +
      'The fastest possible is stated beside it. --ticks, --parts and --budget ask for another answer, --frontier for ' +
      'all of them. Ctrl-C ends the search with the best that was found so far.',
  ],
  options: [
    TARGET,
    ...RAILS,
    TICKS,
    PARTS,
    BUDGET,
    FRONTIER,
    SHARE,
    EFFORT,
    SEED,
    WORKERS,
    EXPLAIN,
    WIRE_NAMES,
    LETTERS,
    JSON_OUT,
    SHEET,
    SVG,
    HTML,
    OUT,
    FORCE,
  ],
  examples: [
    ["tickwright 'c1 = g0 + p0 c0'", 'one equation, every wire active-high'],
    ["tickwright 'g = a b' 's = a ^ b' --explain", 'two equations, one network, and why it works'],
    ["tickwright 'c1 = g0 + p0 c0' --either g0,p0,c0", 'let the search choose the rails'],
    ['tickwright adder.logic --frontier', 'the fewest parts at every number of ticks'],
    ['tickwright crates.logic --ticks 3 --json', 'a file, three ticks at most, for a program'],
    ['cat crates.logic | tickwright - --target nor-gates', 'standard input, plain NOR gates'],
  ],
  nothing: {
    message: 'there is nothing to optimize',
    hint: "give equations or a file, as in tickwright 'x = a b'; tickwright --help says more",
  },
  load: async () => (await import('./optimize.ts')).runOptimize,
};

export const CATALOGUE: Command = {
  name: 'catalogue',
  summary: 'show the fewest parts of a function of up to four inputs at every number of ticks, proved',
  operands: 'EQUATIONS|TABLE|FILE|- ...',
  about: [
    ABOUT_SOURCES,
    'A table is one, two or four hexadecimal digits: the lowest bit is the row where all inputs are 0, the next one that ' +
      'where only the first input is 1. Every output that depends on at most four inputs is looked up by itself. The ' +
      'target is joined-or, with all wires active-high and there at tick 0.',
  ],
  options: [LETTERS, { ...JSON_OUT, purpose: 'print an array for programs (format tickwright.catalogue/1)' }],
  examples: [
    ["tickwright catalogue 's = a ^ b ^ c'", 'the sum of a full adder'],
    ['tickwright catalogue 6996', 'parity of four inputs, by its truth table'],
  ],
  nothing: {
    message: 'there is nothing to look up',
    hint: "give an equation or a truth table, as in tickwright catalogue 'x = a ^ b' or tickwright catalogue 6996",
  },
  load: async () => (await import('./catalogue.ts')).runCatalogue,
};
export { ABOUT_SOURCES, SOURCES };

/** What `check` compares with. */
const AGAINST: OptionRow = {
  name: 'against',
  value: 'FILE|EQUATIONS',
  kind: 'text',
  fallback: null,
  purpose: 'the equations to compare with; without it those that stand beside the block',
};

export const CHECK: Command = {
  name: 'check',
  summary: 'prove what was built against equations, and show the best known beside it',
  operands: 'FILE|- ...',
  about: [
    'Each file holds built blocks, and perhaps equations. A block is equal, or the smallest pattern that differs is ' +
      'shown with the first wire that is wrong on it. Wires that are joined count as one wire everywhere.',
  ],
  options: [AGAINST, TARGET, EFFORT, SEED, JSON_OUT],
  examples: [
    ['tickwright check lane.built', 'against the equations in the same file'],
    ["tickwright check lane.built --against 'sum = a ^ b'", 'against these'],
  ],
  nothing: {
    message: 'there is nothing to check',
    hint: 'give a file with built blocks; tickwright check --help says more',
  },
  load: async () => (await import('./check.ts')).runCheck,
};

export const CONFLICTS: Command = {
  name: 'conflicts',
  summary: 'find joins and shared wires that are not what was meant, with every way out',
  operands: SOURCES,
  about: [
    ABOUT_SOURCES,
    'A built block states wires as they stand: built lane { c = join(g, k); c is carry }. What is wrong is shown with ' +
      'what the wire really carries, a pattern that shows it, and what each way out costs, proved. In equations an OR ' +
      'is shown whose operands are declared on rails that cannot be tied.',
  ],
  options: [TARGET, ...RAILS, JSON_OUT],
  examples: [
    ['tickwright conflicts lane.built', 'what is wrong in what was built'],
    [
      "tickwright conflicts 'any = door1 + door2' --low door1,door2",
      'why two active-low wires joined are not OR',
    ],
  ],
  nothing: {
    message: 'there is nothing to look at',
    hint: 'give a file with built blocks, or equations; tickwright conflicts --help says more',
  },
  load: async () => (await import('./conflicts.ts')).runConflicts,
};

export const LESSON: Command = {
  name: 'lesson',
  summary: 'show why wires on different rails must not be joined, and what to do instead',
  operands: 'NAMES ...',
  about: [
    'In forty lines, on two to four signals: their levels and what they mean, what the join makes of them on every ' +
      'choice of rails, and the ways out. Without names it is about two carries of which the first is active-low.',
  ],
  options: [TARGET, ...RAILS.filter(({ name }) => name === 'high' || name === 'low'), JSON_OUT],
  examples: [
    ['tickwright lesson', 'two carries, one of them active-low'],
    ['tickwright lesson door1 door2 --low door1,door2', 'two doors, both active-low'],
  ],
  nothing: null,
  load: async () => (await import('./lesson.ts')).runLesson,
};

export const PLAN: Command = {
  name: 'plan',
  summary: 'choose the rails of signals between blocks for the fewest ticks overall',
  operands: SOURCES,
  about: [
    'A file holds several blocks, block name { equations }, or each file is one. What one block makes and another takes ' +
      'runs between them on one wire. Each block is laid apart and proved; shown is the rail of every signal between, ' +
      'and what the other rail would cost. --high and --low fix rails.',
  ],
  options: [TARGET, ...RAILS.filter(({ name }) => name === 'high' || name === 'low'), EFFORT, SEED, JSON_OUT],
  examples: [['tickwright plan half.logic carry.logic', 'two blocks in two files']],
  nothing: {
    message: 'there are no blocks',
    hint: 'give a file with block name { equations }, or several files',
  },
  load: async () => (await import('./plan.ts')).runPlan,
};

export const RAILS_PRICED: Command = {
  name: 'rails',
  summary: 'choose the rails that were left free, and show what every other choice costs',
  operands: SOURCES,
  about: [
    ABOUT_SOURCES,
    'Inputs and outputs that are declared either are put on the rails that the search takes. Beside that stands the ' +
      'fewest parts at every number of ticks for all other choices; beyond four names for those that differ in one.',
  ],
  options: [TARGET, ...RAILS, EFFORT, SEED, LETTERS, JSON_OUT],
  examples: [
    [
      "tickwright rails 'sum = a ^ b' 'carry = a b' --either sum,carry",
      'on which rails a half adder is cheapest',
    ],
  ],
  nothing: {
    message: 'there are no equations',
    hint: "give equations or a file, as in tickwright rails 's = a ^ b' --either s",
  },
  load: async () => (await import('./rails.ts')).runRails,
};

export const COMMANDS: readonly Command[] = [
  OPTIMIZE,
  BATCH,
  CATALOGUE,
  CHECK,
  CONFLICTS,
  DRAW,
  EXPORT,
  HAZARDS,
  LESSON,
  MERGE,
  PLAN,
  RAILS_PRICED,
  SETTLE,
  TRIAL,
];

/** The command of that name. */
export function commandNamed(name: string | undefined): Command | undefined {
  return COMMANDS.find((command) => command.name === name);
}

/** All options that a command takes. */
export function optionsOf({ options }: Command): readonly OptionRow[] {
  return [...options, HELP, VERSION];
}
