// Tables that programs write, as JSON: `{"inputs": 3, "table": "97"}`, or an array of such objects, one for each output.
//
// `table` is a number in base 16 whose lowest bit is row 0; the first input is the highest bit of the number of a row.
// `inputs` is how many there are, `x[2]`, `x[1]`, `x[0]`, so that the index is the bit of the row, or their names. `free`
// is written like `table` and has a 1 for each row on which the function is free. Functions of one array share the inputs
// that have one name.

import { TABLE_INPUT_LIMIT, WORDS } from '../../grammar/operators.ts';
import { visible } from '../../grammar/quote.ts';
import type { Diagnostic, Reading, Span } from '../source/diagnostic.ts';
import { type JsonValue, type PlacedJson, pointerStep, readJson } from '../source/json-text.ts';
import type { Expression, System } from './system.ts';
import { FREE, ON, type Rows, rowsExpression } from './table-rows.ts';

const FIELDS = ['inputs', 'table', 'free', 'name'];
const NAME = /^[A-Za-z_][A-Za-z0-9_]*(?:\[(?:0|-?[1-9][0-9]{0,5})\])?$/;
/** Longest piece of a wrong value that a message repeats. */
const QUOTED = 40;

interface ReadTable {
  readonly name: string;
  readonly inputs: readonly string[];
  readonly rows: Rows;
  readonly at: Span | null;
}

/** Whether `text` is meant as JSON: a brace or bracket also begins LaTeX, or a group. */
export function looksLikeTables(text: string): boolean {
  return /^\ufeff?\s*(?:\{\s*(?:["'}]|\w+\s*:)|\[\s*[[{\]])/.test(text);
}

/** Reads tables; `value` is null exactly when there is a fault. Every fault of a value names its place in the JSON. */
export function readTables(text: string): Reading<System> {
  const { value: json, diagnostics } = readJson(text);
  if (json === null) return { value: null, diagnostics };
  const reader = new TableReader(json, text);
  const tables = reader.whole();
  if (reader.faults.length > 0) {
    return {
      value: null,
      diagnostics: reader.faults.sort((a, b) => (a.at?.start ?? 0) - (b.at?.start ?? 0)),
    };
  }
  return { value: systemOf(tables), diagnostics: [] };
}

class TableReader {
  readonly faults: Diagnostic[] = [];
  private readonly json: PlacedJson;
  private readonly text: string;

  constructor(json: PlacedJson, text: string) {
    this.json = json;
    this.text = text;
  }

  whole(): ReadTable[] {
    const { value } = this.json;
    if (!Array.isArray(value)) return this.table('', value, 'f');
    if (value.length === 0)
      this.fault('', 'must hold at least one table', 'write [{"inputs": 3, "table": "97"}]');
    const tables = value.flatMap((each, index) =>
      this.table(pointerStep(index), each, value.length === 1 ? 'f' : `f${index}`),
    );
    this.checkNames(tables);
    return tables;
  }

  /** The table at a JSON pointer; empty when it has a fault. */
  private table(pointer: string, value: JsonValue, name: string): ReadTable[] {
    if (value === null || typeof value !== 'object' || Array.isArray(value)) {
      this.wrong(pointer, 'must be a table', 'write {"inputs": 3, "table": "97"}');
      return [];
    }
    const before = this.faults.length;
    for (const field of Object.keys(value)) {
      if (FIELDS.includes(field)) continue;
      const at = this.json.namePlaces.get(pointer + pointerStep(field)) ?? null;
      const message = `${pathOf(pointer + pointerStep(field))} is not a field of a table`;
      this.faults.push(error(message, at, `the fields are ${FIELDS.join(', ')}`));
    }
    const inputs = this.inputs(`${pointer}/inputs`, value.inputs);
    const given = this.name(`${pointer}/name`, value.name) ?? name;
    if (inputs === null) return [];
    const on = this.bits(`${pointer}/table`, value.table, inputs.length);
    const free = value.free === undefined ? null : this.bits(`${pointer}/free`, value.free, inputs.length);
    if (inputs.includes(given)) {
      const where = value.name === undefined ? '/inputs' : '/name';
      this.fault(pointer + where, `has ${shown(given)} as an input and as the output`, 'choose another name');
    }
    const both = free === null || on === null ? -1 : on.findIndex((bit, row) => bit + free[row]! > 1);
    if (both >= 0) {
      this.fault(
        `${pointer}/free`,
        `frees row ${both}, on which the table has a 1`,
        'write a 0 there in one of the two',
      );
    }
    if (on === null || this.faults.length > before) return [];
    const rows = on.map((bit, row) => (free?.[row] === 1 ? FREE : bit));
    return [{ name: given, inputs, rows, at: this.json.places.get(`${pointer}/table`) ?? null }];
  }

  private inputs(pointer: string, value: JsonValue | undefined): readonly string[] | null {
    const demand = `must be a whole number from 1 to ${TABLE_INPUT_LIMIT} or a list of as many names`;
    const hint = 'the first input is the highest bit of the number of a row';
    const count = Array.isArray(value) ? value.length : value;
    if (typeof count !== 'number' || !Number.isInteger(count) || count < 1 || count > TABLE_INPUT_LIMIT) {
      this.wrong(pointer, demand, hint);
      return null;
    }
    if (!Array.isArray(value)) return Array.from({ length: count }, (_, index) => `x[${count - 1 - index}]`);
    const names = value.map((name, index) => this.name(pointer + pointerStep(index), name));
    const known = names.filter((name) => name !== null);
    if (known.length < names.length) return null;
    const twice = known.findIndex((name, index) => known.indexOf(name) < index);
    if (twice < 0) return known;
    this.fault(
      pointer + pointerStep(twice),
      `is ${shown(known[twice]!)} for the second time`,
      'name each input once',
    );
    return null;
  }

  /** A name of the language; null when it is left out or has a fault. */
  private name(pointer: string, value: JsonValue | undefined): string | null {
    if (value === undefined) return null;
    if (typeof value === 'string' && NAME.test(value) && !WORDS.has(value.toLowerCase())) return value;
    this.wrong(pointer, 'must be a name', 'a name is made of letters, digits and _, as in "carry" or "s[3]"');
    return null;
  }

  /** One bit for each row. */
  private bits(
    pointer: string,
    value: JsonValue | undefined,
    inputs: number,
  ): Uint8Array<ArrayBuffer> | null {
    const rows = 2 ** inputs;
    const digits = Math.ceil(rows / 4);
    const demand = `must be ${digits === 1 ? 'one digit' : `${digits} digits`} of base 16 for ${rows} rows`;
    const hint = 'the lowest bit is row 0, so a function that is 1 on row 0 alone ends with 1';
    const text = typeof value === 'string' ? value.replace(/^0[xX]/, '') : null;
    if (text === null || text.length !== digits || !/^[0-9A-Fa-f]+$/.test(text)) {
      this.wrong(pointer, demand, hint);
      return null;
    }
    if (rows < 4 && Number.parseInt(text, 16) >= 2 ** rows) {
      this.wrong(pointer, `must be less than ${2 ** rows}, for ${rows} rows`, hint);
      return null;
    }
    return Uint8Array.from({ length: rows }, (_, row) => {
      return (Number.parseInt(text[digits - 1 - (row >> 2)]!, 16) >> (row & 3)) & 1;
    });
  }

  private checkNames(tables: readonly ReadTable[]): void {
    const inputs = new Set(tables.flatMap((table) => table.inputs));
    const seen = new Set<string>();
    for (const { name, at } of tables) {
      const message = inputs.has(name)
        ? `the output ${shown(name)} is an input of another table`
        : seen.has(name)
          ? `two tables have the name ${shown(name)}`
          : null;
      if (message !== null) this.faults.push(error(message, at, 'give it another "name"'));
      seen.add(name);
    }
  }

  /** `pointer` has the value that stands there, which is not what it must be. */
  private wrong(pointer: string, demand: string, hint: string): void {
    const at = this.json.places.get(pointer);
    const path = pathOf(pointer);
    if (at === undefined) {
      const whole = this.json.places.get(pointer.slice(0, pointer.lastIndexOf('/')));
      const place = whole === undefined ? null : { start: whole.start, end: whole.start + 1 };
      this.faults.push(error(`${path} is missing: it ${demand}`, place, hint));
      return;
    }
    const value = visible(this.text.slice(at.start, at.end).replace(/\s+/g, ' '));
    const found = value.length <= QUOTED ? value : `${value.slice(0, QUOTED - 3)}...`;
    this.faults.push(error(`${path} ${demand}, not ${found}`, at, hint));
  }

  private fault(pointer: string, message: string, hint: string): void {
    this.faults.push(error(`${pathOf(pointer)} ${message}`, this.json.places.get(pointer) ?? null, hint));
  }
}

function systemOf(tables: readonly ReadTable[]): System {
  const inputs = [...new Set(tables.flatMap((table) => table.inputs))];
  const signals = [...inputs, ...tables.map(({ name }) => name)];
  const numberOf = new Map(signals.map((name, signal) => [name, signal]));
  const expressionOf = (table: ReadTable, value: typeof ON | typeof FREE): Expression =>
    rowsExpression(
      table.inputs.map((name) => numberOf.get(name)!),
      table.rows,
      value,
    );
  const outputs = tables.map(({ name }) => ({
    signal: numberOf.get(name)!,
    rail: 'high' as const,
    by: null,
  }));
  const free = tables.flatMap((table) => {
    if (!table.rows.includes(FREE)) return [];
    return [{ signal: numberOf.get(table.name)!, expression: expressionOf(table, FREE), at: table.at }];
  });
  return {
    signals,
    inputs: inputs.map((_, signal) => ({ signal, rail: 'high' as const, tick: 0 })),
    outputs,
    definitions: tables.map((table) => ({
      signal: numberOf.get(table.name)!,
      expression: expressionOf(table, ON),
      at: table.at,
    })),
    never: [],
    neverAt: [],
    ...(free.length > 0 ? { free } : {}),
  };
}

/** A place in a JSON value as people write it: `$[1].table`. */
function pathOf(pointer: string): string {
  let path = '$';
  for (const step of pointer.split('/').slice(1)) {
    const name = step.replaceAll('~1', '/').replaceAll('~0', '~');
    if (/^[0-9]+$/.test(name)) path += `[${name}]`;
    else path += /^[A-Za-z_$][A-Za-z0-9_$]*$/.test(name) ? `.${name}` : `[${visible(JSON.stringify(name))}]`;
  }
  return path;
}

function shown(name: string): string {
  return `"${visible(name)}"`;
}

function error(message: string, at: Span | null, hint: string): Diagnostic {
  return { severity: 'error', code: 'wrong-table', message, at, hint };
}
