// Everything that reads what somebody else has written, one row each, and what must hold whatever is fed to it: a
// reader returns, with a value or with faults; every fault has its place inside the text and can be shown, shortly; and
// the same text is read the same twice.

import { readdirSync, readFileSync } from 'node:fs';
import { itemsOf } from '../../src/batch/items.ts';
import { readPlan } from '../../src/batch/plan.ts';
import { understand } from '../../src/cli/command-line.ts';
import { readEquations } from '../../src/equations/read-equations.ts';
import { readBuilt } from '../../src/network/read-built.ts';
import { readVerilog } from '../../src/network/read-verilog.ts';
import type { Diagnostic } from '../../src/source/diagnostic.ts';
import { renderDiagnostics } from '../../src/source/render-diagnostics.ts';
import { SourceText } from '../../src/source/source-text.ts';
import { readTarget } from '../../src/target/read-target.ts';
import { SHIPPED_TARGETS, shippedTarget } from '../../src/target/shipped-targets.ts';
import { circuitOfBuilt } from '../../src/timing/circuit-of-built.ts';
import { readStimulus } from '../../src/timing/read-stimulus.ts';

export interface Reader {
  readonly name: string;
  /** Reads; what it tells of the text, and something to compare two readings by. */
  readonly read: (text: string) => { readonly diagnostics: readonly Diagnostic[]; readonly value: unknown };
  /** Valid texts, to be mutated. */
  readonly valid: readonly string[];
  /** Pieces of its language. */
  readonly pieces: readonly string[];
}

const root = new URL('../../', import.meta.url);

function textsIn(folder: string, ending: RegExp): string[] {
  return readdirSync(new URL(folder, root), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && ending.test(entry.name))
    .map((entry) => `${entry.parentPath}/${entry.name}`)
    .sort()
    .map((file) => readFileSync(file, 'utf8'))
    .filter((text) => text.length < 3000);
}

const joinedOr = shippedTarget('joined-or') ?? SHIPPED_TARGETS[0];
if (joinedOr === undefined) throw new Error('there is no target');

const EQUATIONS = [
  ...textsIn('examples/', /\.logic$/),
  ...textsIn('tests/cases/', /\.(?:logic|txt|md|tex)$/),
];
const BUILT = `input a, b, k
built lane {
  ab = NOR(a, b)
  c = join(ab, k)
  d = NOT(c)
  d is full
}
full = (a + b) k'
`;
const CIRCUIT = `built hall {
  n = NOR(gate, crate)
  m = NOR(n, belt)
  m is lamp
}
lamp = (gate + crate) belt'
`;
const VERILOG = `// a lane of the hall
module lane(input a, input b, output y);
  wire n1, n2;
  nor #1 g1(n1, a, b);
  not g2(n2, n1);
  or g3(y, n2, 1'b0);
endmodule
`;
const STIMULUS = `start gate = 1, crate = 0        # before tick 0
at 0: belt = 1
at 10: gate = 0, crate = 1
after 5: flip belt
count every 8
random gate, crate every 6 times 50 seed 7
at 900: flip gate; at 920: flip crate
until 1000
`;
const NAMES = [
  'a',
  'b',
  'x[3:0]',
  'x[i]',
  '__proto__',
  'constructor',
  'toString',
  'hasOwnProperty',
  'é',
  '𝑎',
  'a\u0301',
];
const NUMBERS = ['0', '1', '7', '-1', '1e9', '1000000000000', '9'.repeat(40), '0x', "4'b10x1", '١'];
const WORDS_OF_EQUATIONS = [
  ...[
    '=',
    '+',
    '&',
    '|',
    '^',
    '!',
    '~',
    "'",
    '*',
    '(',
    ')',
    '[',
    ']',
    '{',
    '}',
    ',',
    ':',
    ';',
    '\n',
    ' ',
    '..',
    '->',
    '<->',
  ],
  ...[
    '?',
    '⊕',
    '·',
    '¬',
    '∨',
    '∧',
    '\u0305',
    '"',
    '\\',
    '\\frac{',
    '\\overline{',
    '\\sum_{i=0}^{',
    '_{',
    '^{',
    '$$',
    '%',
  ],
  ...[
    'input',
    'output',
    'low',
    'high',
    'either',
    'both',
    'never',
    'free',
    'for',
    'in',
    'if',
    'then',
    'else',
    'maj',
    'mux',
  ],
  ...[
    'xnor',
    'nand',
    'nor',
    'and',
    'or',
    'xor',
    'not',
    'minterms(',
    'maxterms(',
    'by',
    'at',
    'table',
    'letters',
    '#',
    '--',
    '/*',
  ],
];

/** The circuit that stimuli are for. */
function hall() {
  const { value } = readBuilt(CIRCUIT, joinedOr as (typeof SHIPPED_TARGETS)[number]);
  const block = value?.blocks[0];
  if (block === undefined) throw new Error('the block of the hall is wrong');
  return circuitOfBuilt(block.network, joinedOr as (typeof SHIPPED_TARGETS)[number]);
}

export const READERS: readonly Reader[] = [
  {
    name: 'equations',
    read: (text) => readEquations(text, { letters: false }),
    valid: EQUATIONS,
    pieces: [...NAMES, ...NUMBERS, ...WORDS_OF_EQUATIONS],
  },
  {
    name: 'equations-in-letters',
    read: (text) => readEquations(text, { letters: true }),
    valid: EQUATIONS,
    pieces: [...NAMES, ...NUMBERS, ...WORDS_OF_EQUATIONS],
  },
  {
    name: 'built-blocks',
    read: (text) => readBuilt(text, joinedOr),
    valid: [BUILT, CIRCUIT, ...textsIn('tests/cases/built/', /./)],
    pieces: [
      ...NAMES,
      ...NUMBERS,
      ...WORDS_OF_EQUATIONS,
      'built',
      'is',
      'join(',
      'NOR(',
      'NOT(',
      'OR(',
      'NAND(',
      'wire',
    ],
  },
  {
    name: 'targets',
    read: readTarget,
    valid: SHIPPED_TARGETS.map((target) => JSON.stringify(target, null, 2)),
    pieces: jsonPieces([
      'name',
      'join',
      'inverter',
      'ticks',
      'maxLegs',
      'wear',
      'outputs',
      'input',
      'secondsPerTick',
    ]),
  },
  {
    name: 'plans',
    read: readPlan,
    valid: [
      '{"target": "joined-or", "effort": "quick", "seeds": [1, 2], "frontier": true, "limits": {"inputs": 8}}',
    ],
    pieces: jsonPieces([
      'target',
      'effort',
      'seeds',
      'ticks',
      'parts',
      'budget',
      'frontier',
      'keep',
      'limits',
      'inputs',
    ]),
  },
  {
    name: 'batch-rows',
    read: (text) => {
      const value = itemsOf([{ name: 'rows.jsonl', text }]);
      for (const { faults } of value) {
        for (const { line, column } of faults) {
          if (line === null || column === null || line < 1 || column < 1)
            throw new Error('a fault without its place');
        }
      }
      return { value, diagnostics: [] };
    },
    valid: [
      '{"name": "any", "inputs": ["a", "b"], "tables": {"any": "0111", "first": "-1-1"}}\n{"equations": "y = a b"}\n',
    ],
    pieces: jsonPieces(['name', 'equations', 'inputs', 'tables', '0111', '01-1']),
  },
  {
    name: 'stimuli',
    read: (text) => readStimulus(hall(), text),
    valid: [STIMULUS],
    pieces: [
      ...NAMES,
      ...NUMBERS,
      ...[
        'start',
        'at',
        'after',
        'count',
        'random',
        'until',
        'flip',
        'every',
        'times',
        'seed',
        'gate',
        'crate',
        'belt',
      ],
      ...['=', ':', ',', ';', '\\n', ' ', 'x', '#', '//', '0b0101', '0x5', '0b', '1000000', '1000001'],
    ],
  },
  {
    name: 'verilog',
    read: (text) => readVerilog(text),
    valid: [VERILOG],
    pieces: [
      ...NAMES,
      ...NUMBERS,
      ...[
        'module',
        'endmodule',
        'input',
        'output',
        'wire',
        'nor',
        'not',
        'or',
        'and',
        'assign',
        '(',
        ')',
        ';',
        ',',
        '#',
        '\\esc ',
      ],
      ...[
        '/*',
        '*/',
        '//',
        '\n',
        ' ',
        '`define',
        '.',
        '[',
        ']',
        ':',
        "1'b0",
        "1'b1",
        "1'bx",
        '"',
        '=',
        '~',
        '|',
      ],
    ],
  },
  {
    name: 'command-lines',
    read: (text) => {
      const understood = understand(text.split('\u0020'));
      return {
        value: 'fault' in understood ? understood.fault : understood.request.operands,
        diagnostics: [],
      };
    },
    valid: [
      'x=a+b --ticks 3 --effort quick',
      'batch halls --into out --shard 3/8',
      'settle lane.logic --network written',
    ],
    pieces: [
      ...NUMBERS,
      ...[
        'batch',
        'merge',
        'check',
        'trial',
        'rails',
        'x=a',
        '-',
        '--',
        '--ticks',
        '--parts',
        '--seed',
        '--budget',
        '2x',
        '1e9x',
      ],
      ...[
        '--shard',
        '3/8',
        '8/3',
        '--either',
        'a,,b',
        '--target',
        '--effort',
        '--json',
        '-o',
        '--help',
        ' ',
        '=',
        '--__proto__',
      ],
    ],
  },
];

function jsonPieces(names: readonly string[]): string[] {
  const fields = [...names, '__proto__', 'constructor', 'toString', ''].map((name) => JSON.stringify(name));
  const values = [
    '1',
    '-1',
    '1e400',
    '0.5',
    '9'.repeat(30),
    'null',
    'true',
    '""',
    '"a"',
    '"\\ud800"',
    '[]',
    '{}',
  ];
  return [...fields, ...values, '{', '}', '[', ']', ':', ',', '"', '\\', '\n', ' ', '[[[['];
}

/** The longest that what is shown of one text may be. */
const LONGEST_SHOWN = 40_000;

/** Throws when a reader does not do with a text what every reader must. */
export function judge({ read }: Reader, text: string): void {
  const { diagnostics, value } = read(text);
  for (const { at, message, related = [] } of diagnostics) {
    if (message === '') throw new Error('a fault without words');
    for (const place of [at, ...related.map((other) => other.at)]) {
      if (place === null) continue;
      if (!(place.start >= 0 && place.start <= place.end && place.end <= text.length)) {
        throw new Error(`a fault outside the text: ${place.start} to ${place.end} of ${text.length}`);
      }
    }
  }
  const shown = renderDiagnostics(diagnostics, new SourceText('hostile', text));
  if (shown.length > LONGEST_SHOWN) throw new Error(`${shown.length} characters are shown`);
  // biome-ignore lint/suspicious/noControlCharactersInRegex: no terminal may be told anything by a text
  if (/[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]/.test(shown))
    throw new Error('control characters are shown');
  const again = read(text);
  if (told(again.value) !== told(value) || told(again.diagnostics) !== told(diagnostics)) {
    throw new Error('read again it comes out otherwise');
  }
}

function told(value: unknown): string {
  return JSON.stringify(value, (_, inner) => {
    if (inner instanceof Map || inner instanceof Set) return [...inner];
    return typeof inner === 'bigint' ? String(inner) : inner;
  });
}
