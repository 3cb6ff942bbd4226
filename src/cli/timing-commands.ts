// The rows of the commands about timing.

import type { Command } from './command.ts';
import { EFFORT, JSON_OUT, LETTERS, type OptionRow, RAILS, SEED, TARGET, TICKS } from './options.ts';
import { ABOUT_SOURCES, SOURCES } from './source-words.ts';
import { HOLD, NETWORK } from './timing-options.ts';

const FLAG = { value: null, kind: 'flag', fallback: null } as const;

/** How the network comes about. */
const MAKING: readonly OptionRow[] = [TARGET, NETWORK, ...RAILS, TICKS, EFFORT, SEED, LETTERS];

const WHICH_NETWORK =
  'The network is the one that optimize finds, or with --network written the equations laid operator by operator.';

export const HAZARDS: Command = {
  name: 'hazards',
  summary: 'find where outputs may pulse on the way to their level, and cure it',
  operands: SOURCES,
  about: [
    `${ABOUT_SOURCES} ${WHICH_NETWORK}`,
    'Two answers for every flip of an input: whether some delays of inverters and wires make an output pulse, and ' +
      'whether this network does. With several inputs at once, hazards of the function are told from those of the ' +
      'network. Exit code 5 says that the network has hazards of its own.',
  ],
  options: [
    ...MAKING,
    HOLD,
    {
      ...FLAG,
      name: 'hazard-free',
      purpose: 'show a network without static hazards when one input flips, and what it costs',
    },
    { ...JSON_OUT, purpose: 'print an array for programs (format tickwright.hazards/1)' },
  ],
  examples: [
    ["tickwright hazards 'lamp = gate crate + gate\\' spare'", 'the classical example'],
    ["tickwright hazards 'lamp = gate crate + gate\\' spare' --hazard-free", 'and its cure'],
  ],
  nothing: { message: 'there is nothing to look at', hint: "give equations or a file, as in 'x = a b + c'" },
  load: async () => (await import('./hazards.ts')).runHazards,
};

export const SETTLE: Command = {
  name: 'settle',
  summary: 'find the slowest change on and off of every output, and the flip that causes it',
  operands: SOURCES,
  about: [
    `${ABOUT_SOURCES} ${WHICH_NETWORK}`,
    'Where all pairs of patterns can be simulated, they are; otherwise a solver goes down from the bound that follows ' +
      'from arrivals. What is not proved slowest is marked. Paths that no transition exercises are named.',
  ],
  options: [
    ...MAKING,
    HOLD,
    { ...FLAG, name: 'bench', purpose: 'print the slowest transitions as steps for a bench' },
    {
      ...FLAG,
      name: 'wires',
      purpose: 'print arrival, required tick and slack of every wire, and critical paths',
    },
    { ...JSON_OUT, purpose: 'print an array for programs (format tickwright.settling/1)' },
  ],
  examples: [
    ['tickwright settle adder.logic --bench', 'what to set, what to flip, what to expect at which tick'],
    ['tickwright settle adder.logic --network written --wires', 'as written, with the slack of every wire'],
  ],
  nothing: { message: 'there is nothing to settle', hint: "give equations or a file, as in 'x = a b + c'" },
  load: async () => (await import('./settle.ts')).runSettle,
};

export const TRIAL: Command = {
  name: 'trial',
  summary: 'simulate a network tick by tick under a stimulus',
  operands: SOURCES,
  about: [
    `${ABOUT_SOURCES} ${WHICH_NETWORK}`,
    'A stimulus names inputs and ticks, as in "start a=1; at 0: b=1; at 9: flip b", or "count every 8", or "random every ' +
      '8 times 20 seed 3". The language is described in grammar/stimulus.md.',
  ],
  options: [
    ...MAKING,
    {
      name: 'stimulus',
      value: 'TEXT|FILE',
      kind: 'text',
      fallback: 'count every 10',
      purpose: 'what happens to the inputs: a text, or the file that holds it',
    },
    {
      name: 'view',
      value: 'HOW',
      kind: 'choice',
      choices: ['table', 'wave', 'vcd'],
      fallback: 'table',
      purpose: 'a table by tick, a waveform in text, or a value change dump (IEEE 1364)',
    },
    { ...FLAG, name: 'inside', purpose: 'show every inverter as well' },
    {
      ...FLAG,
      name: 'back-feed',
      purpose: 'take all wires of a join as one wire, as if nothing kept them apart',
    },
  ],
  examples: [
    ["tickwright trial 's = a ^ b' --stimulus 'at 0: a=1; at 5: flip b' --view wave", 'two flips, drawn'],
    [
      'tickwright trial adder.logic --view vcd > adder.vcd',
      'all patterns one after the other, for another program',
    ],
  ],
  nothing: { message: 'there is nothing to simulate', hint: "give equations or a file, as in 'x = a b + c'" },
  load: async () => (await import('./trial.ts')).runTrial,
};
