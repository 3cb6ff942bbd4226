// The help, and the tables of the README, both from the tables of options, exit codes and targets.

import { paragraph, prose } from '../report/paragraph.ts';
import { SHIPPED_TARGETS } from '../target/shipped-targets.ts';
import { EXIT_MEANINGS } from './exit-codes.ts';
import { OPTIONS, type OptionRow, rangeOf, typed } from './options.ts';

const EXAMPLES: readonly (readonly [string, string])[] = [
  ["tickwright 'c1 = g0 + p0 c0'", 'one equation, every wire active-high'],
  ["tickwright 'g = a b' 's = a ^ b' --explain", 'two equations, one network, and why it works'],
  ["tickwright 'c1 = g0 + p0 c0' --either g0,p0,c0", 'let the search choose the rails'],
  ['tickwright crates.logic --ticks 3 --json', 'a file, three ticks at most, for a program'],
  ['cat crates.logic | tickwright - --target nor-gates', 'standard input, plain NOR gates'],
];

const MARGIN = 28;

function twoColumns(left: string, text: string): string[] {
  const head = `  ${left}`;
  if (head.length < MARGIN) return prose(text, head.padEnd(MARGIN));
  return [head, ...prose(text, ' '.repeat(MARGIN))];
}

/** Purpose, range and default in one sentence. */
function about(row: OptionRow): string {
  const range = rangeOf(row);
  const fallback = row.fallback === null ? '' : ` (default ${row.fallback})`;
  return `${row.purpose}${range === null ? '' : `; ${range}`}${fallback}`;
}

function optionLines(row: OptionRow): string[] {
  return twoColumns(row.letter === undefined ? typed(row) : `-${row.letter}, ${typed(row)}`, about(row));
}

/** What `--help` prints. */
export function helpText(version: string): string {
  const inputs =
    'An argument that holds = is equations; all of these together are one system. Any other argument is a file; ' +
    '- is standard input. Each file is a system of its own.';
  return [
    `tickwright ${version}`,
    ...prose(
      'Turns Boolean equations into the fastest network of inverters and joined wires, and proves it equal.',
      '',
    ),
    '',
    'Usage',
    '  tickwright [optimize] EQUATIONS|FILE|- ... [options]',
    '',
    ...prose(inputs, '  '),
    '',
    'Options',
    ...OPTIONS.flatMap(optionLines),
    '',
    'Targets',
    ...SHIPPED_TARGETS.flatMap((target) => twoColumns(target.name, target.summary)),
    '',
    'Examples',
    ...EXAMPLES.flatMap(([command, purpose]) => [`  ${command}`, ...prose(purpose, '      ')]),
    '',
    'Exit codes',
    ...EXIT_MEANINGS.flatMap(([code, meaning]) =>
      paragraph(meaning.split(' '), `  ${String(code).padEnd(5)}`),
    ),
    '',
  ].join('\n');
}

function tableRow(cells: readonly string[]): string {
  return `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
}

/** The table of options for the README, in Markdown. */
export function optionsMarkdown(): string {
  const rows = OPTIONS.map((row) => [
    `\`${typed(row)}\``,
    row.purpose,
    rangeOf(row) ?? '',
    row.fallback === null ? '' : `\`${row.fallback}\``,
  ]);
  const head = [
    ['option', 'purpose', 'range', 'default'],
    ['---', '---', '---', '---'],
  ];
  return [...head, ...rows].map(tableRow).join('\n');
}

/** The table of exit codes for the README, in Markdown. */
export function exitCodesMarkdown(): string {
  const rows = EXIT_MEANINGS.map(([code, meaning]) => [String(code), meaning]);
  return [['code', 'meaning'], ['---', '---'], ...rows].map(tableRow).join('\n');
}
