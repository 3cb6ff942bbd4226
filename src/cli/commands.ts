// All commands, each exactly once. The reader of command lines, the help and the table in the README derive from these
// rows. The first row runs when no command is named; the others stand in the order of the alphabet.

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

export { ABOUT_SOURCES, SOURCES };

export const COMMANDS: readonly Command[] = [OPTIMIZE, DRAW, EXPORT, HAZARDS, SETTLE, TRIAL];

/** The command of that name. */
export function commandNamed(name: string | undefined): Command | undefined {
  return COMMANDS.find((command) => command.name === name);
}

/** All options that a command takes. */
export function optionsOf({ options }: Command): readonly OptionRow[] {
  return [...options, HELP, VERSION];
}
