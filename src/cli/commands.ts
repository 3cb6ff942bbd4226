// All commands, each exactly once. The reader of command lines, the help and the table in the README derive from these
// rows. The first row runs when no command is named; the others stand in the order of the alphabet.

import type { Command } from './command.ts';
import {
  BUDGET,
  EFFORT,
  EXPLAIN,
  FRONTIER,
  HELP,
  JSON_OUT,
  LETTERS,
  type OptionRow,
  PARTS,
  RAILS,
  SEED,
  TARGET,
  TICKS,
  VERSION,
  WORKERS,
} from './options.ts';
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
    EFFORT,
    SEED,
    WORKERS,
    EXPLAIN,
    LETTERS,
    JSON_OUT,
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

export const COMMANDS: readonly Command[] = [OPTIMIZE, CHECK, CONFLICTS, HAZARDS, LESSON, SETTLE, TRIAL];

/** The command of that name. */
export function commandNamed(name: string | undefined): Command | undefined {
  return COMMANDS.find((command) => command.name === name);
}

/** All options that a command takes. */
export function optionsOf({ options }: Command): readonly OptionRow[] {
  return [...options, HELP, VERSION];
}
