// From lists of rows to the value of a function on every row, and from there to an expression: the sum of the minterms
// of the rows where it is 1, or the complement of that sum over all other rows when these are fewer. Free rows count as
// 0 in the expression, and come back as one of their own.
//
// The first of the names is the most significant bit of the number of a row.

import { TABLE_INPUT_LIMIT } from '../../grammar/operators.ts';
import type { RowRange, Table } from '../../grammar/syntax.ts';
import type { Diagnostic, Span } from '../source/diagnostic.ts';
import type { Expression } from './system.ts';

export const OFF = 0;
export const ON = 1;
export const FREE = 2;

/** `OFF`, `ON` or `FREE` for every row. */
export type Rows = Uint8Array;

/** The rows of `table` over `inputs` names; null when there are faults, which are added to `diagnostics`. */
export function readRows(
  table: Table,
  inputs: number,
  inputsAt: Span,
  diagnostics: Diagnostic[],
): Rows | null {
  const before = diagnostics.length;
  if (inputs > TABLE_INPUT_LIMIT) {
    diagnostics.push(fault('too-many-inputs', inputsAt, `a table has at most ${TABLE_INPUT_LIMIT} inputs`));
    return null;
  }
  const count = 2 ** inputs;
  const UNSAID = 3;
  const rows = new Uint8Array(count).fill(UNSAID);
  const fixed = table.lists.filter(({ kind }) => kind !== 'free');
  const both = fixed.find(({ kind }) => kind !== fixed[0]!.kind);
  if (both !== undefined) {
    const hint = 'keep one of the two: all other rows have the other value';
    diagnostics.push(fault('mixed-table', placeOf(both), 'a table has minterms or maxterms, not both', hint));
    return null;
  }
  for (const { kind, rows: ranges } of table.lists) {
    const value = kind === 'free' ? FREE : kind === 'on' ? ON : OFF;
    for (const range of ranges) {
      const wrong = rangeFault(range, count, inputs);
      if (wrong !== null) {
        diagnostics.push(wrong);
        continue;
      }
      for (let row = range.from; row <= range.to; row++) {
        const said = rows[row]!;
        if (said === UNSAID) rows[row] = value;
        else {
          diagnostics.push(twiceFault(row, range, said === value, value === FREE || said === FREE));
          break;
        }
      }
    }
  }
  if (diagnostics.length > before) return null;
  const other = fixed[0]?.kind === 'off' ? ON : OFF;
  return rows.map((said) => {
    const value = said === UNSAID ? other : said;
    return value === FREE || !table.inverted ? value : 1 - value;
  });
}

/** 1 exactly on the rows of `value`; `signals` are the names of the table, the most significant first. */
export function rowsExpression(
  signals: readonly number[],
  rows: Rows,
  value: typeof ON | typeof FREE,
): Expression {
  const chosen: number[] = [];
  const others: number[] = [];
  for (const [row, said] of rows.entries()) {
    if (said === value) chosen.push(row);
    else others.push(row);
  }
  if (chosen.length === 0) return { kind: 'constant', value: 0 };
  if (others.length === 0) return { kind: 'constant', value: 1 };
  if (chosen.length <= others.length) return sumOf(signals, chosen);
  return { kind: 'not', argument: sumOf(signals, others) };
}

function sumOf(signals: readonly number[], rows: readonly number[]): Expression {
  const high = signals.map((signal): Expression => ({ kind: 'signal', signal }));
  const low = high.map((argument): Expression => ({ kind: 'not', argument }));
  const minterms = rows.map((row): Expression => {
    const args = signals.map((_, index) => {
      const bit = (row >> (signals.length - 1 - index)) & 1;
      return (bit === 1 ? high : low)[index]!;
    });
    return args.length === 1 ? args[0]! : { kind: 'and', args };
  });
  return minterms.length === 1 ? minterms[0]! : { kind: 'or', args: minterms };
}

function rangeFault(range: RowRange, count: number, inputs: number): Diagnostic | null {
  const { from, to } = range;
  const at = placeOf(range);
  if (from > to) {
    const message = `the range ${from}..${to} holds no row: it counts upwards`;
    return fault('no-such-row', at, message, `write ${to}..${from}`);
  }
  if (to < count) return null;
  const row = from >= count ? from : to;
  const names = inputs === 1 ? 'one name' : `${inputs} names`;
  const hint = 'the first name is the most significant bit of the number of a row';
  return fault('no-such-row', at, `there is no row ${row}: ${names} make rows 0 to ${count - 1}`, hint);
}

function twiceFault(row: number, range: RowRange, same: boolean, free: boolean): Diagnostic {
  const message = same
    ? `row ${row} is listed twice`
    : free
      ? `row ${row} is free and has a value as well`
      : `row ${row} has two values`;
  return fault('row-twice', placeOf(range), message, 'list each row once');
}

function placeOf({ start, end }: Span): Span {
  return { start, end };
}

function fault(code: string, at: Span, message: string, hint: string | null = null): Diagnostic {
  return { severity: 'error', code, message, at, hint };
}
