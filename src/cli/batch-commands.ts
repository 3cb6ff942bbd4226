// The rows of the commands for many systems.

import type { Command } from './command.ts';
import { EFFORT, type OptionRow, SEED, TARGET, WORKERS } from './options.ts';

const FOLDER: OptionRow = {
  name: 'into',
  value: 'FOLDER',
  kind: 'text',
  fallback: null,
  purpose: 'the folder for the results; it is made when it is not there',
};

const PLAN_FILE: OptionRow = {
  name: 'plan',
  value: 'FILE.json',
  kind: 'text',
  fallback: null,
  purpose:
    'what is done with every system: target, effort, seeds, ticks, frontier, limits; options go before it',
};

const RESUME: OptionRow = {
  name: 'resume',
  value: null,
  kind: 'flag',
  fallback: null,
  purpose: 'go on with a run that was ended, however that came about',
};

const SHARD: OptionRow = {
  name: 'shard',
  value: 'K/N',
  kind: 'text',
  form: { pattern: /^[1-9][0-9]{0,4}\/[1-9][0-9]{0,4}$/, words: 'a part of all, such as 3/8' },
  fallback: null,
  purpose: 'search only every N-th system, beginning with the K-th; tickwright merge joins the parts',
};

export const BATCH: Command = {
  name: 'batch',
  summary: 'optimize many systems, one after the other or at once, and lose nothing when the run is ended',
  operands: 'FILE|FOLDER|PATTERN|- ...',
  about: [
    'A file is one system, or several with lines of three or more dashes between them; words behind the dashes name the ' +
      'next one. A folder stands for all .logic and .jsonl files in it and below it. A pattern in quotes, such as ' +
      '"halls/**/*.logic", stands for the files that fit. - reads a list of these from standard input, one a line.',
    'A .jsonl file has a system on every line: {"name": "any", "equations": "any = a + b"}, or its truth tables, row 0 ' +
      'first, where the first input is the lowest bit of a row: {"inputs": ["a", "b"], "tables": {"any": "0111"}}; a dash ' +
      'is a free row.',
    'results.jsonl gets a row for every system, in their order. What is broken becomes a failed row with its line and ' +
      'column. Results do not depend on the number of workers, nor on how often the run was ended.',
  ],
  options: [
    FOLDER,
    RESUME,
    PLAN_FILE,
    TARGET,
    EFFORT,
    SEED,
    { ...WORKERS, purpose: 'systems that are searched at the same time; the results do not depend on it' },
    SHARD,
  ],
  examples: [
    ['tickwright batch halls --into results', 'every .logic and .jsonl file of a folder'],
    ['tickwright batch halls --into results --resume', 'go on after a power cut'],
    ['tickwright batch halls --into part3 --shard 3/8', 'the third of eight machines'],
  ],
  nothing: {
    message: 'there is nothing to do',
    hint: 'give files or folders; tickwright batch --help says more',
  },
  load: async () => (await import('./batch.ts')).runBatchCommand,
};

export const MERGE: Command = {
  name: 'merge',
  summary: 'join the parts of a batch that ran on several machines',
  operands: 'FOLDER ...',
  about: [
    'Each folder is what tickwright batch --shard has written. All parts of one batch must be there, complete, each once; ' +
      'the results are then the same bytes as those of a run without shards.',
  ],
  options: [FOLDER],
  examples: [['tickwright merge part1 part2 part3 --into all', 'three parts of one batch']],
  nothing: {
    message: 'there is nothing to join',
    hint: 'give the folders of the parts, as in tickwright merge part1 part2 --into all',
  },
  load: async () => (await import('./batch.ts')).runMergeCommand,
};
