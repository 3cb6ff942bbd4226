// From the words of the command line to a request, or to one sentence about what is wrong with them. The argument
// parser splits; the wording and the checks of values are ours and come from the tables of commands and options.
//
// The command is the first word that is neither an option nor the value of one, if it is the name of a command. So a
// file that is called like a command is one as soon as anything else stands first: its folder, the name of the command
// meant, or `--`.

import { Command as ArgumentParser, CommanderError } from 'commander';
import { quote } from '../../grammar/quote.ts';
import type { Command, UsageFault } from './command.ts';
import { COMMANDS, commandNamed, OPTIMIZE, optionsOf } from './commands.ts';
import { type OptionRow, rangeOf, typed } from './options.ts';
import { Request, type Value } from './request.ts';

export type Understood = { readonly request: Request } | { readonly fault: UsageFault };

/** Leaves this file as a value, never as an exception. */
class WrongUse extends Error {
  readonly hint: string | null;

  constructor(message: string, hint: string | null) {
    super(message);
    this.hint = hint;
  }
}

type Found = Readonly<Record<string, string | string[] | boolean | undefined>>;

function takesValue(word: string): boolean {
  const isIt = (row: OptionRow): boolean => word === `--${row.name}` || word === `-${row.letter}`;
  return COMMANDS.some((command) => optionsOf(command).some((row) => isIt(row) && row.value !== null));
}

/** The command that is meant, and the other words. */
function splitOff(argv: readonly string[]): { command: Command; named: boolean; words: readonly string[] } {
  let at = 0;
  while (at < argv.length && argv[at] !== '--' && /^-./.test(argv[at])) at += takesValue(argv[at]) ? 2 : 1;
  const command = commandNamed(argv[at]);
  return command === undefined
    ? { command: OPTIMIZE, named: false, words: argv }
    : { command, named: true, words: argv.filter((_, other) => other !== at) };
}

function parserOf(command: Command, found: (operands: string[], values: Found) => void): ArgumentParser {
  const parser = new ArgumentParser('tickwright');
  // A caller may ask for --help in any company; nothing is printed from in there.
  parser.exitOverride().helpOption(false).helpCommand(false);
  parser.configureOutput({ writeOut: () => {}, writeErr: () => {}, outputError: () => {} });
  parser.argument('[operands...]').action(found);
  for (const row of optionsOf(command)) {
    const letter = row.letter === undefined ? '' : `-${row.letter}, `;
    const value = row.value === null ? '' : ` <${row.value}>`;
    if (row.kind !== 'names') parser.option(`${letter}--${row.name}${value}`);
    else {
      const collect = (text: string, before: string[] | undefined): string[] => [
        ...(before ?? []),
        ...namesOf(row, text),
      ];
      parser.option(`${letter}--${row.name}${value}`, '', collect);
    }
  }
  return parser;
}

function namesOf(row: OptionRow, text: string): string[] {
  const names = text.split(',').map((name) => name.trim());
  if (names.includes('')) {
    throw new WrongUse(`a name is missing in --${row.name} ${quote(text)}`, `write --${row.name} a,b,c`);
  }
  return names;
}

/** The text after the checks that its row asks for. */
function checked(row: OptionRow, text: string): string {
  const refuse = (verb: string): never => {
    throw new WrongUse(`--${row.name} does not ${verb} ${quote(text)}`, `it takes ${rangeOf(row)}`);
  };
  if (row.kind === 'choice' && !row.choices?.includes(text)) refuse('know');
  if (row.form !== undefined && !row.form.pattern.test(text)) refuse('take');
  if (row.kind === 'count') {
    const isCount = /^[0-9]{1,15}$/.test(text) && Number(text) >= (row.from ?? 0);
    if (!isCount || Number(text) > (row.to ?? Number.MAX_SAFE_INTEGER)) refuse('take');
  }
  return text;
}

/** What was given for an option; the argument parser writes names of two words its own way. */
function givenIn(found: Found, row: OptionRow): Found[string] {
  return found[row.name.replace(/-(.)/g, (_, letter: string) => letter.toUpperCase())];
}

/** The values of all options that were given or have a fallback. */
function valuesOf(command: Command, found: Found): ReadonlyMap<OptionRow, Value> {
  const values = new Map<OptionRow, Value>();
  for (const row of optionsOf(command)) {
    const value = givenIn(found, row) ?? row.fallback;
    if (value !== null) values.set(row, typeof value === 'string' ? checked(row, value) : value);
  }
  return values;
}

/** What the argument parser found wrong, in our words. */
function reworded(error: CommanderError, command: Command): UsageFault {
  const name = /'(-[^' <]*)/.exec(error.message)?.[1] ?? '';
  const named = (row: OptionRow): boolean => name.split(/[ ,]/).includes(`--${row.name}`);
  const row = optionsOf(command).find(named);
  if (error.code === 'commander.optionMissingArgument') {
    return { message: `${name} needs a value`, hint: row ? `write ${typed(row)}` : null };
  }
  const elsewhere = COMMANDS.filter((other) => optionsOf(other).some(named));
  if (elsewhere.length > 0) {
    const names = elsewhere.map((other) => other.name).join(', ');
    return { message: `${command.name} has no option ${quote(name)}`, hint: `it is one of ${names}` };
  }
  const near = /Did you mean (?:one of )?([^?]*)\?/.exec(error.message)?.[1];
  const help = command === OPTIMIZE ? 'tickwright --help' : `tickwright ${command.name} --help`;
  const hint = near === undefined ? `${help} shows those there are` : `did you mean ${near}?`;
  return { message: `there is no option ${quote(name)}`, hint };
}

/**
 * Understands a command line.
 *
 * @param argv the words after the name of the program.
 */
export function understand(argv: readonly string[]): Understood {
  const { command, named, words } = splitOff(argv);
  const found: Request[] = [];
  try {
    parserOf(command, (operands, values) => {
      const rows = optionsOf(command).filter((row) => givenIn(values, row) !== undefined);
      const typed = new Set(rows.map((row) => row.name));
      found.push(new Request(command, named, operands, valuesOf(command, values), typed));
    }).parse(words, { from: 'user' });
  } catch (error) {
    if (error instanceof CommanderError) return { fault: reworded(error, command) };
    if (error instanceof WrongUse) return { fault: { message: error.message, hint: error.hint } };
    throw error;
  }
  const [request] = found;
  if (request === undefined) throw new Error('the argument parser ended without a command');
  const { nothing } = command;
  if (request.flag('help') || request.flag('version')) return { request };
  return request.operands.length === 0 && nothing !== null ? { fault: nothing } : { request };
}
