// From texts to the systems of a batch. A file of equations is one system, or several with lines of dashes between them;
// a JSON Lines file has one on every line. What cannot be read is an item too: it becomes a failed row in its place.

import { createHash } from 'node:crypto';
import type { Diagnostic } from '../source/diagnostic.ts';
import { type JsonValue, type PlacedJson, readJson } from '../source/json-text.ts';
import { shapeFaults } from '../target/schema-words.ts';
import type { SystemRow } from './row-file.ts';
import { rowFaults } from './row-file-check.ts';

/** A text with its name, or why there is none. */
export type BatchSource =
  | { readonly name: string; readonly text: string }
  | { readonly name: string; readonly fault: Diagnostic };

/** A fault that was found while the systems were told apart, with its line and column in the file. */
export interface PlacedFault {
  readonly diagnostic: Diagnostic;
  readonly line: number | null;
  readonly column: number | null;
}

export interface Item {
  /** Its place among all systems of the batch, from 0: the order of the results. */
  readonly position: number;
  readonly name: string;
  /** Equations; empty when there are faults. */
  readonly text: string;
  /** Line and column of the file where the text begins; a system in a JSON row stands on one line, whatever it holds. */
  readonly line: number;
  readonly column: number;
  readonly inOneLine: boolean;
  readonly faults: readonly PlacedFault[];
}

type Draft = Omit<Item, 'position'>;

/** Three dashes or more on a line of their own part two systems; words behind them name the second one. */
const PARTING = /^[ \t]*-{3,}[ \t]*(?<name>[^\r\n]*?)[ \t]*$/;
const LONGEST_NAME = 200;
const FIELDS = { '': ['name', 'equations', 'inputs', 'tables'] };

/** All systems of all sources, in their order. */
export function itemsOf(sources: readonly BatchSource[]): Item[] {
  return sources
    .flatMap((source): Draft[] => {
      if ('fault' in source) {
        const faults = [{ diagnostic: source.fault, line: null, column: null }];
        return [{ name: source.name, text: '', line: 1, column: 1, inOneLine: false, faults }];
      }
      return /\.jsonl$/i.test(source.name)
        ? rowsOf(source.name, source.text)
        : partsOf(source.name, source.text);
    })
    .map((draft, position) => ({ position, ...draft }));
}

/** What tells whether an item is still the same. */
export function digestOf({ name, text, line, faults }: Item): string {
  const told = JSON.stringify([name, line, text, faults.map(({ diagnostic }) => diagnostic.message)]);
  return createHash('sha256').update(told).digest('hex').slice(0, 32);
}

function partsOf(file: string, text: string): Draft[] {
  const drafts: Draft[] = [];
  let name = '';
  let first = 1;
  let gathered: string[] = [];
  const end = (): void => {
    if (gathered.some((line) => line.trim() !== '')) {
      const number = `${file}#${drafts.length + 1}`;
      const shown = name === '' ? number : `${file}: ${name.slice(0, LONGEST_NAME)}`;
      drafts.push({
        ...{ name: shown, text: gathered.join('\n'), line: first, column: 1 },
        ...{ inOneLine: false, faults: [] },
      });
    }
    gathered = [];
  };
  text.split('\n').forEach((line, at) => {
    const parting = PARTING.exec(line.replace(/\r$/, ''));
    if (parting === null) {
      gathered.push(line);
      return;
    }
    end();
    name = parting.groups?.name ?? '';
    first = at + 2;
  });
  end();
  const [only] = drafts;
  if (only === undefined) return [{ name: file, text, line: 1, column: 1, inOneLine: false, faults: [] }];
  return drafts.length === 1 && name === '' ? [{ ...only, name: file }] : drafts;
}

function rowsOf(file: string, text: string): Draft[] {
  return text.split('\n').flatMap((line, at): Draft[] => {
    if (line.trim() === '') return [];
    return [rowOf(`${file}:${at + 1}`, line.replace(/\r$/, ''), at + 1)];
  });
}

function rowOf(place: string, text: string, line: number): Draft {
  const failed = (diagnostics: readonly Diagnostic[], name = place): Draft => ({
    ...{ name, text: '', line, column: 1, inOneLine: true },
    faults: diagnostics.map((diagnostic) => ({
      diagnostic,
      line,
      column: diagnostic.at === null ? 1 : diagnostic.at.start + 1,
    })),
  });
  const { value: json, diagnostics } = readJson(text);
  if (json === null) return failed(diagnostics);
  const shape = rowFaults(json.value);
  if (shape.length > 0)
    return failed(shapeFaults(shape, json, text, { kind: 'row', fields: FIELDS, examples: {} }));
  const row = json.value as unknown as SystemRow;
  const name =
    row.name === undefined || row.name === '' ? place : `${place}: ${row.name.slice(0, LONGEST_NAME)}`;
  if (row.equations !== undefined && row.inputs === undefined && row.tables === undefined) {
    const start = json.places.get('/equations')?.start ?? 0;
    return { name, text: row.equations, line, column: start + 2, inOneLine: true, faults: [] };
  }
  if (row.equations !== undefined || row.inputs === undefined || row.tables === undefined) {
    const message = 'a row has either equations, or inputs and tables';
    const hint = 'write {"equations": "f = a b"} or {"inputs": ["a", "b"], "tables": {"f": "0001"}}';
    return failed([{ severity: 'error', code: 'row-content', message, at: null, hint }], name);
  }
  const wrong = tableFault(row.inputs, row.tables, json);
  if (wrong !== null) return failed([wrong], name);
  return { name, text: tablesText(row.inputs, row.tables), line, column: 1, inOneLine: true, faults: [] };
}

function tableFault(
  inputs: readonly string[],
  tables: Readonly<Record<string, JsonValue>>,
  json: PlacedJson,
): Diagnostic | null {
  const fault = (pointer: string, message: string, hint: string | null): Diagnostic => ({
    ...{ severity: 'error', code: 'row-table', message, hint },
    at: json.places.get(pointer) ?? null,
  });
  const twice = inputs.findIndex((input, at) => inputs.indexOf(input) < at);
  if (twice >= 0) return fault(`/inputs/${twice}`, `the input ${inputs[twice]} stands there twice`, null);
  const rows = 2 ** inputs.length;
  for (const [output, levels] of Object.entries(tables)) {
    const pointer = `/tables/${output.replaceAll('~', '~0').replaceAll('/', '~1')}`;
    if (!/^[A-Za-z][A-Za-z0-9_]{0,63}$/.test(output) || inputs.includes(output)) {
      const message = inputs.includes(output)
        ? `${output} is an input and an output`
        : 'the name of an output is letters, digits and underscores, at most 64, a letter first';
      return { ...fault(pointer, message, null), at: json.namePlaces.get(pointer) ?? null };
    }
    const count = String(levels).length;
    if (count !== rows) {
      const message = `the table of ${output} has ${count} rows, and ${inputs.length} inputs have ${rows}`;
      return fault(pointer, message, 'one level for each row, row 0 first');
    }
  }
  return null;
}

/** Equations with the rows that are 1, and those that are free; the first name in the brackets is the highest bit. */
function tablesText(inputs: readonly string[], tables: Readonly<Record<string, string>>): string {
  const names = [...inputs].reverse().join(', ');
  const lines = Object.entries(tables).map(([output, levels]) => {
    const rowsWith = (level: string): number[] =>
      [...levels].flatMap((at, row) => (at === level ? [row] : []));
    const [ones, free] = [rowsWith('1'), rowsWith('-')];
    if (ones.length === 0) return `${output} = 0`;
    if (ones.length + free.length === levels.length) return `${output} = 1`;
    const spared = free.length === 0 ? '' : ` + free(${free.join(', ')})`;
    return `${output}(${names}) = minterms(${ones.join(', ')})${spared}`;
  });
  return `input ${inputs.join(', ')}\noutput ${Object.keys(tables).join(', ')}\n${lines.join('\n')}\n`;
}
