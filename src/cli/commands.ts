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
  WORKERS,
} from './options.ts';

/** What the operands of most commands are. */
export const SOURCES = 'EQUATIONS|FILE|- ...';
export const ABOUT_SOURCES =
  'An argument that holds = is equations; all of these together are one system. Any other argument is a file; ' +
  '- is standard input. Each file is a system of its own.';

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

/** What decides which network is found. */
const SEARCH: readonly OptionRow[] = [TARGET, ...RAILS, TICKS, PARTS, BUDGET, EFFORT, SEED, WORKERS, LETTERS];

export const PICTURES = ['schematic', 'frontier', 'waveforms'] as const;

export const DRAW: Command = {
  name: 'draw',
  summary: 'draw the network as a picture: schematic, frontier or waveforms, in SVG',
  operands: SOURCES,
  about: [
    ABOUT_SOURCES,
    'The schematic has one column for each tick, inputs on the left, outputs on the right. The upper half of a diamond ' +
      'is filled where the wire is active-high, the lower half where it is active-low. A pointer on a wire tells what it ' +
      'means. Networks of many inverters are drawn in one sheet for each output. A file that ends in .v is a netlist ' +
      'of gates and is drawn as it is. The picture goes to standard output, or with -o into a file.',
  ],
  options: [
    ...SEARCH,
    {
      name: 'picture',
      value: 'KIND',
      kind: 'choice',
      choices: PICTURES,
      fallback: PICTURES[0],
      purpose:
        'the schematic, the trade between ticks and parts, or the levels of the slowest transition found',
    },
    EXPLAIN,
    OUT,
    FORCE,
  ],
  examples: [
    ["tickwright draw 'c1 = g0 + p0 c0' -o carry.svg", 'a schematic in a file'],
    ['tickwright draw adder.logic --picture frontier -o adder.svg', 'fewest parts at every number of ticks'],
  ],
  nothing: {
    message: 'there is nothing to draw',
    hint: "give equations or a file, as in tickwright draw 'x = a b' -o x.svg",
  },
  load: async () => (await import('./draw.ts')).runDraw,
};

export const FORMS = [
  'verilog',
  'bench',
  'dot',
  'csv',
  'frontier-csv',
  'sheet',
  'sheet-markdown',
  'sheet-csv',
  'json',
] as const;

export const EXPORT: Command = {
  name: 'export',
  summary: 'hand the network to other programs: Verilog, DOT, CSV, JSON, a build sheet',
  operands: SOURCES,
  about: [
    ABOUT_SOURCES,
    'verilog is a structural module of the gates nor, not and or (IEEE 1364); bench is the same with a test bench that ' +
      'compares it with the equations. dot is a graph, csv a table of all wires, frontier-csv one of ticks and parts. ' +
      'sheet, sheet-markdown and sheet-csv are the build sheet. A file that ends in .v is a netlist of gates and is ' +
      'taken as it is.',
  ],
  options: [
    ...SEARCH,
    {
      name: 'as',
      value: 'FORM',
      kind: 'choice',
      choices: FORMS,
      fallback: FORMS[0],
      purpose: 'the form of the file',
    },
    EXPLAIN,
    OUT,
    FORCE,
  ],
  examples: [
    ["tickwright export 'c1 = g0 + p0 c0' --as bench -o carry.v", 'a module of gates and its test bench'],
    ['tickwright export adder.logic --as sheet-csv -o adder.csv', 'a build sheet for a spreadsheet'],
  ],
  nothing: {
    message: 'there is nothing to export',
    hint: "give equations or a file, as in tickwright export 'x = a b'",
  },
  load: async () => (await import('./export.ts')).runExport,
};

export const COMMANDS: readonly Command[] = [OPTIMIZE, DRAW, EXPORT];

/** The command of that name. */
export function commandNamed(name: string | undefined): Command | undefined {
  return COMMANDS.find((command) => command.name === name);
}

/** All options that a command takes. */
export function optionsOf({ options }: Command): readonly OptionRow[] {
  return [...options, HELP, VERSION];
}
