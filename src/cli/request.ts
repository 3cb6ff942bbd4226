// What a command line asks of a command: operands and the values of its options, already checked.

import { RAIL_WORDS } from '../../grammar/operators.ts';
import type { RailNames } from '../equations/override-rails.ts';
import type { Command } from './command.ts';
import { EFFORTS, type Effort, type OptionRow } from './options.ts';

export type Value = string | boolean | readonly string[];

export class Request {
  readonly command: Command;
  /** The name of the command was typed. */
  readonly named: boolean;
  readonly operands: readonly string[];
  private readonly values: ReadonlyMap<OptionRow, Value>;
  private readonly typed: ReadonlySet<string>;

  /**
   * @param values for each option of the command that was given, or has a fallback, what its row asks for.
   * @param typed names of the options that were given.
   */
  constructor(
    command: Command,
    named: boolean,
    operands: readonly string[],
    values: ReadonlyMap<OptionRow, Value>,
    typed: ReadonlySet<string>,
  ) {
    this.typed = typed;
    this.command = command;
    this.named = named;
    this.operands = operands;
    this.values = values;
  }

  private value(name: string, kinds: readonly OptionRow['kind'][]): Value | undefined {
    for (const [row, value] of this.values) if (row.name === name && kinds.includes(row.kind)) return value;
    return undefined;
  }

  /** Whether an option was given; one that was not may have a value all the same, its fallback. */
  wasGiven(name: string): boolean {
    return this.typed.has(name);
  }

  /** Whether a flag was given. */
  flag(name: string): boolean {
    return this.value(name, ['flag']) === true;
  }

  /** The value of an option of kind `text` or `choice`; null when it was not given and has no fallback. */
  text(name: string): string | null {
    const value = this.value(name, ['text', 'choice']);
    return typeof value === 'string' ? value : null;
  }

  /** The value of an option of kind `count`; null when it was not given and has no fallback. */
  count(name: string): number | null {
    const value = this.value(name, ['count']);
    return typeof value === 'string' ? Number(value) : null;
  }

  /** The names that an option of kind `names` was given, however often it stood; null when it was not given. */
  names(name: string): readonly string[] | null {
    const value = this.value(name, ['names']);
    return Array.isArray(value) ? value : null;
  }

  /** Names by the rail they were given; a rail nobody gave is absent. */
  get rails(): RailNames {
    const given = RAIL_WORDS.filter((rail) => this.names(rail) !== null);
    return Object.fromEntries(given.map((rail) => [rail, this.names(rail) ?? []]));
  }

  get effort(): Effort {
    return EFFORTS.find((effort) => effort === this.text('effort')) ?? 'normal';
  }

  get seed(): number {
    return this.count('seed') ?? 1;
  }
}
