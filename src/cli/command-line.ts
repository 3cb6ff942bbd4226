// From the words of the command line to a request, or to one sentence about what is wrong with them. The argument
// parser splits; the wording and the checks of values are ours and come from the table of options.

import { Command, CommanderError } from 'commander';
import { RAIL_WORDS } from '../../grammar/operators.ts';
import { quote } from '../../grammar/quote.ts';
import type { RailNames } from '../equations/override-rails.ts';
import { EFFORTS, OPTIONS, type OptionRow, rangeOf, typed } from './options.ts';

export type Effort = (typeof EFFORTS)[number];

export interface Request {
  readonly inputs: readonly string[];
  /** A shipped name or a file, as typed. */
  readonly target: string;
  /** Names by the rail they were given; a rail nobody gave is absent. */
  readonly rails: RailNames;
  readonly ticks: number | null;
  readonly effort: Effort;
  readonly seed: number;
  readonly explain: boolean;
  readonly letters: boolean;
  readonly json: boolean;
  readonly help: boolean;
  readonly version: boolean;
}

/** Wrong use: what is wrong and what to do instead. */
export interface UsageFault {
  readonly message: string;
  readonly hint: string | null;
}

export type Understood = { readonly request: Request } | { readonly fault: UsageFault };

const COMMAND = 'optimize';

/** Leaves this file as a value, never as an exception. */
class WrongUse extends Error {
  readonly hint: string | null;

  constructor(message: string, hint: string | null) {
    super(message);
    this.hint = hint;
  }
}

type Values = Readonly<Record<string, string | string[] | boolean | undefined>>;

function commandWithOptions(found: (inputs: string[], values: Values) => void): Command {
  const quiet = { writeOut: () => {}, writeErr: () => {}, outputError: () => {} };
  const program = new Command('tickwright');
  // A caller may ask for --help in any company; nothing is printed from in there.
  for (const command of [program, program.command(COMMAND, { isDefault: true })]) {
    command.exitOverride().configureOutput(quiet).helpOption(false).helpCommand(false);
  }
  const optimize = program.commands[0] as Command;
  optimize.argument('[inputs...]').action((inputs: string[], values: Values) => found(inputs, values));
  for (const row of OPTIONS) {
    const letter = row.letter === undefined ? '' : `-${row.letter}, `;
    const value = row.value === null ? '' : ` <${row.value}>`;
    if (row.kind !== 'names') optimize.option(`${letter}--${row.name}${value}`);
    else {
      const collect = (text: string, before: string[] | undefined): string[] => [
        ...(before ?? []),
        ...namesOf(row, text),
      ];
      optimize.option(`--${row.name}${value}`, '', collect);
    }
  }
  return program;
}

function namesOf(row: OptionRow, text: string): string[] {
  const names = text.split(',').map((name) => name.trim());
  if (names.includes('')) {
    throw new WrongUse(`a name is missing in --${row.name} ${quote(text)}`, `write --${row.name} a,b,c`);
  }
  return names;
}

/** The value of an option after the checks that its row asks for; null when it was not given and has no fallback. */
function checked(row: OptionRow, values: Values): string | null {
  const value = values[row.name];
  const text = typeof value === 'string' ? value : row.fallback;
  if (text === null) return null;
  if (row.kind === 'choice' && !row.choices?.includes(text)) {
    throw new WrongUse(`--${row.name} does not know ${quote(text)}`, `it takes ${rangeOf(row)}`);
  }
  if (row.kind === 'count') {
    const isCount = /^[0-9]{1,15}$/.test(text) && Number(text) >= (row.from ?? 0);
    if (!isCount || Number(text) > (row.to ?? Number.MAX_SAFE_INTEGER)) {
      throw new WrongUse(`--${row.name} does not take ${quote(text)}`, `it takes ${rangeOf(row)}`);
    }
  }
  return text;
}

function railsOf(values: Values): RailNames {
  const given = RAIL_WORDS.filter((rail) => Array.isArray(values[rail]));
  return Object.fromEntries(given.map((rail) => [rail, values[rail] as string[]]));
}

function requestFrom(inputs: readonly string[], values: Values): Request {
  const value = (name: string): string | null => {
    const row = OPTIONS.find((option) => option.name === name);
    return row === undefined ? null : checked(row, values);
  };
  const ticks = value('ticks');
  return {
    inputs,
    target: value('target') ?? '',
    rails: railsOf(values),
    ticks: ticks === null ? null : Number(ticks),
    effort: EFFORTS.find((effort) => effort === value('effort')) ?? 'normal',
    seed: Number(value('seed')),
    explain: values.explain === true,
    letters: values.letters === true,
    json: values.json === true,
    help: values.help === true,
    version: values.version === true,
  };
}

/** What the argument parser found wrong, in our words. */
function reworded(error: CommanderError): UsageFault {
  const name = /'(-[^' <]*)/.exec(error.message)?.[1] ?? '';
  const row = OPTIONS.find((option) => name.split(/[ ,]/).includes(`--${option.name}`));
  if (error.code === 'commander.optionMissingArgument') {
    return { message: `${name} needs a value`, hint: row ? `write ${typed(row)}` : null };
  }
  const near = /Did you mean (?:one of )?([^?]*)\?/.exec(error.message)?.[1];
  const hint = near === undefined ? 'tickwright --help shows those there are' : `did you mean ${near}?`;
  return { message: `there is no option ${quote(name)}`, hint };
}

/**
 * Understands a command line.
 *
 * @param argv the words after the name of the program.
 */
export function understand(argv: readonly string[]): Understood {
  const found: Request[] = [];
  try {
    commandWithOptions((inputs, values) => {
      // Options before the name of the command keep the argument parser from seeing it.
      const named = argv[0] !== COMMAND && inputs[0] === COMMAND;
      found.push(requestFrom(named ? inputs.slice(1) : inputs, values));
    }).parse(argv, { from: 'user' });
  } catch (error) {
    if (error instanceof CommanderError) return { fault: reworded(error) };
    if (error instanceof WrongUse) return { fault: { message: error.message, hint: error.hint } };
    throw error;
  }
  const [request] = found;
  if (request === undefined) throw new Error('the argument parser ended without a command');
  if (request.inputs.length > 0 || request.help || request.version) return { request };
  const hint = "give equations or a file, as in tickwright 'x = a b'; tickwright --help says more";
  return { fault: { message: 'there is nothing to optimize', hint } };
}
