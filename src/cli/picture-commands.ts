// The rows of the commands that make something to build from: pictures and files.

import type { Command } from './command.ts';
import {
  BUDGET,
  EFFORT,
  EXPLAIN,
  FORCE,
  LETTERS,
  type OptionRow,
  OUT,
  PARTS,
  RAILS,
  SEED,
  SHARE,
  TARGET,
  TICKS,
  WIRE_NAMES,
  WORKERS,
} from './options.ts';
import { ABOUT_SOURCES, SOURCES } from './source-words.ts';

/** What decides which network is found. */
const SEARCH: readonly OptionRow[] = [
  TARGET,
  ...RAILS,
  TICKS,
  PARTS,
  BUDGET,
  SHARE,
  EFFORT,
  SEED,
  WORKERS,
  LETTERS,
];

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
      'of gates and is drawn as it is; so is a built block, with the conflicts marked. The picture goes to standard output, or with -o into a file.',
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
    WIRE_NAMES,
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
    WIRE_NAMES,
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
