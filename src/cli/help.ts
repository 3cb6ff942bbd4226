// The help, and the tables of the README, both from the tables of commands, options, exit codes and targets.

import { paragraph, prose } from '../report/paragraph.ts';
import { SHIPPED_TARGETS } from '../target/shipped-targets.ts';
import type { Command } from './command.ts';
import { COMMANDS, OPTIMIZE, optionsOf } from './commands.ts';
import { EXIT_MEANINGS } from './exit-codes.ts';
import { type OptionRow, rangeOf, TARGET, typed } from './options.ts';

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

/** Examples with an empty line before them; nothing when there are none. */
function exampleLines(examples: Command['examples']): string[] {
  if (examples.length === 0) return [];
  const lines = examples.flatMap(([command, purpose]) => [`  ${command}`, ...prose(purpose, '      ')]);
  return ['', 'Examples', ...lines];
}

function usage({ name, operands }: Command): string {
  const shown = name === OPTIMIZE.name ? `[${name}]` : name;
  return ['  tickwright', shown, ...(operands === '' ? [] : [operands]), '[options]'].join(' ');
}

/** What `tickwright --help` prints. */
export function generalHelp(version: string): string {
  return [
    `tickwright ${version}`,
    ...prose(
      'Turns Boolean equations into the fastest network of inverters and joined wires, and proves it equal.',
      '',
    ),
    '',
    'Usage',
    '  tickwright COMMAND ... [options]',
    usage(OPTIMIZE),
    '',
    'Commands',
    ...COMMANDS.flatMap(({ name, summary }) => twoColumns(name, summary)),
    '',
    ...prose(
      `When no command is named, it is ${OPTIMIZE.name}. tickwright COMMAND --help tells all about a command. ` +
        `A file that is called like a command: tickwright ./${OPTIMIZE.name}, or the name of the command before it.`,
      '  ',
    ),
    ...exampleLines(COMMANDS.flatMap((row) => row.examples.slice(0, row === OPTIMIZE ? 2 : 1))),
    '',
    'Exit codes',
    ...EXIT_MEANINGS.flatMap(([code, meaning]) =>
      paragraph(meaning.split(' '), `  ${String(code).padEnd(5)}`),
    ),
    '',
  ].join('\n');
}

/** What `tickwright COMMAND --help` prints. */
export function commandHelp(command: Command, version: string): string {
  const { name, summary, about, options, examples } = command;
  const targets = SHIPPED_TARGETS.flatMap((target) => twoColumns(target.name, target.summary));
  return [
    `tickwright ${version}, ${name}`,
    ...prose(`${summary.slice(0, 1).toUpperCase()}${summary.slice(1)}.`, ''),
    '',
    'Usage',
    usage(command),
    ...about.flatMap((text) => ['', ...prose(text, '  ')]),
    '',
    'Options',
    ...optionsOf(command).flatMap(optionLines),
    ...(options.includes(TARGET) ? ['', 'Targets', ...targets] : []),
    ...exampleLines(examples),
    '',
  ].join('\n');
}

function tableRow(cells: readonly string[]): string {
  return `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
}

/** The table of commands for the README, in Markdown. */
export function commandsMarkdown(): string {
  const rows = COMMANDS.map(({ name, summary }) => [`\`${name}\``, summary]);
  return [['command', 'what it does'], ['---', '---'], ...rows].map(tableRow).join('\n');
}

/** The table of the options of a command for the README, in Markdown. */
export function optionsMarkdown(command: Command = OPTIMIZE): string {
  const rows = optionsOf(command).map((row) => [
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
