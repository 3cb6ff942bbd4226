// The command `catalogue`: what is known for certain about functions of up to four inputs.

import { quote } from '../../grammar/quote.ts';
import { readEquations } from '../equations/read-equations.ts';
import { type CatalogueFunction, catalogueReport, type NotInCatalogue } from '../report/catalogue-report.ts';
import { catalogueText } from '../report/catalogue-text.ts';
import { noticeOf } from '../report/notices.ts';
import { Catalogue } from '../search/catalogue/catalogue.ts';
import type { Diagnostic } from '../source/diagnostic.ts';
import { renderDiagnostics } from '../source/render-diagnostics.ts';
import { SourceText } from '../source/source-text.ts';
import { diagnosticPainter, screenPainter } from './colours.ts';
import type { Run } from './command.ts';
import { EXIT, type ExitCode } from './exit-codes.ts';
import type { Host } from './host.ts';
import { readSources, type Source } from './sources.ts';

const INPUT_NAMES = ['a', 'b', 'c', 'd'];
/** One, two or four hexadecimal digits: the table of a function of two, three or four inputs. */
const TABLE = /^(?:0x)?([0-9a-f]|[0-9a-f]{2}|[0-9a-f]{4})$/i;

interface Answer {
  readonly source: SourceText;
  readonly diagnostics: readonly Diagnostic[];
  readonly functions: readonly (CatalogueFunction | NotInCatalogue)[];
}

/** The equation of a table: the sum of its rows, the first input is the lowest bit of the row. */
function tableEquation(digits: string): string {
  const table = Number.parseInt(digits, 16);
  const inputs = INPUT_NAMES.slice(0, Math.log2(4 * digits.length));
  const rows = Array.from({ length: 2 ** inputs.length }, (_, row) => row).filter(
    (row) => (table >> row) & 1,
  );
  if (rows.length === 0) return 'f = 0';
  const product = (row: number): string =>
    inputs.map((name, i) => ((row >> i) & 1 ? name : `${name}'`)).join(' ');
  return `f = ${rows.map(product).join(' + ')}`;
}

function answerTo(read: Source, catalogue: Catalogue, letters: boolean): Answer {
  if ('fault' in read)
    return { source: new SourceText(read.name, ''), diagnostics: [read.fault], functions: [] };
  const source = new SourceText(read.name, read.text);
  const { value, diagnostics } = readEquations(read.text, { letters });
  if (value === null) return { source, diagnostics, functions: [] };
  return { source, diagnostics, functions: catalogueReport(catalogue, value) };
}

function loadCatalogue(host: Host): Catalogue | string {
  const outcome = host.readCatalogue?.() ?? { fault: { kind: 'missing' } };
  if ('fault' in outcome) return 'the data file of the catalogue cannot be read';
  try {
    return new Catalogue(outcome.bytes);
  } catch (error) {
    if (error instanceof RangeError) return error.message;
    throw error;
  }
}

/** Runs the command. */
export const runCatalogue: Run = async (request, version, host) => {
  const catalogue = loadCatalogue(host);
  if (typeof catalogue === 'string') {
    return { fault: { message: catalogue, hint: 'npm run catalogue -- --ship writes it anew' } };
  }
  const tables = request.operands.filter((operand) => TABLE.test(operand));
  const others = request.operands.filter((operand) => !TABLE.test(operand));
  const sources: Source[] = tables.map((operand) => ({
    name: `table ${quote(operand)}`,
    text: tableEquation(TABLE.exec(operand)?.[1] ?? ''),
  }));
  sources.push(...(others.length > 0 ? await readSources(others, host) : []));
  const answers = sources.map((read) => answerTo(read, catalogue, request.flag('letters')));
  const isFaulty = answers.some(({ diagnostics }) =>
    diagnostics.some(({ severity }) => severity === 'error'),
  );
  const isMissing = answers.some(({ functions }) => functions.some((found) => 'reason' in found));
  const code: ExitCode = isFaulty || isMissing ? EXIT.faults : EXIT.done;
  if (request.flag('json')) {
    const results = answers.map(({ source, diagnostics, functions }) => ({
      format: 'tickwright.catalogue/1',
      version,
      source: source.name,
      functions,
      notices: diagnostics.map((diagnostic) => noticeOf(diagnostic, source)),
    }));
    return { out: `${JSON.stringify(results, null, 2)}\n`, err: '', code };
  }
  const paint = diagnosticPainter(host.colour.err);
  const faults = answers.map(({ source, diagnostics }) => renderDiagnostics(diagnostics, source, { paint }));
  const painter = screenPainter(host.colour.out);
  const texts = answers.flatMap(({ functions }) => functions.map((found) => catalogueText(found, painter)));
  const err = faults.filter((text) => text !== '').join('\n');
  return { out: texts.join(`\n${'-'.repeat(80)}\n\n`), err: err === '' ? '' : `${err}\n`, code };
};
