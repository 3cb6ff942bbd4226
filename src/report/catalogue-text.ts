// What the catalogue knows, for people.

import { visible } from '../../grammar/quote.ts';
import type { CatalogueFunction, CataloguePoint, NotInCatalogue } from './catalogue-report.ts';
import type { Painter } from './painter.ts';
import { counted, paragraph, prose } from './paragraph.ts';

const INDENT = '  ';

/** The answer about one output; lines of at most 80 columns, ending in a line feed. */
export function catalogueText(found: CatalogueFunction | NotInCatalogue, painter: Painter): string {
  const lines = 'reason' in found ? missing(found) : known(found, painter);
  return `${lines.join('\n')}\n`;
}

function missing({ output, reason }: NotInCatalogue): string[] {
  return prose(`${visible(output)} ${reason}.`, '');
}

function known(found: CatalogueFunction, painter: Painter): string[] {
  const { output, inputs, table, curve, others } = found;
  const head = inputs.length === 0 ? 'is constant' : `depends on ${inputs.map(visible).join(', ')}`;
  const number = `class ${found.class} under renaming of inputs, with smallest table ${found.representative}`;
  const lines = [
    painter.strong(`${visible(output)} ${head}; truth table ${table}`),
    ...prose(`It is of ${number}.`, INDENT).map((line) => painter.faint(line)),
    '',
    painter.faint(`${INDENT}ticks  parts`),
  ];
  curve.forEach((point, at) => {
    lines.push(pointLine(point, curve[at + 1]));
  });
  lines.push('', ...prose(whatIsProved(curve), INDENT).map((line) => painter.faint(line)));
  for (const point of curve) lines.push(...networkLines(point, painter));
  if (others.length > 0) lines.push('', ...lateLines(inputs, others, painter));
  return lines;
}

function pointLine(
  { ticks, parts, ticksProved, partsProved }: CataloguePoint,
  next?: CataloguePoint,
): string {
  const until = next === undefined ? 'or more' : next.ticks - 1 > ticks ? `to ${next.ticks - 1}` : '';
  const remark = [ticksProved ? 'fastest possible' : '', next === undefined ? 'smallest possible' : ''];
  const said = partsProved ? remark.filter((words) => words !== '').join(', ') : 'best found';
  return `${INDENT}${String(ticks).padStart(5)}  ${String(parts).padStart(5)}  ${until.padEnd(8)} ${said}`.trimEnd();
}

function whatIsProved(curve: readonly CataloguePoint[]): string {
  const isProved = curve.every(({ partsProved }) => partsProved);
  const all = isProved ? 'Proved: no' : 'Where it does not say best found it is proved: no';
  return `${all} network has fewer parts at these ticks, and more ticks than the last save none.`;
}

/** Networks for late inputs, a row each: there can be dozens. */
function lateLines(inputs: readonly string[], others: readonly CataloguePoint[], painter: Painter): string[] {
  const names = inputs.map(visible);
  const head = `${INDENT}ticks  parts   inverters from ${names.join('  ')}`;
  const margin = `${INDENT}ticks  parts   inverters from `.length;
  const rows = others.map(({ ticks, parts, delays, partsProved }) => {
    const numbers = `${INDENT}${String(ticks).padStart(5)}  ${String(parts).padStart(5)}`.padEnd(margin);
    const cells = inputs.map((input, i) => String(delays[input] ?? '-').padStart(names[i].length));
    return `${numbers}${cells.join('  ')}${partsProved ? '' : '  best found'}`;
  });
  const what = 'For inputs that arrive late: networks that pass some of them through fewer inverters.';
  return [
    painter.strong('Late inputs'),
    ...prose(`${what} --json shows them whole.`, INDENT).map((line) => painter.faint(line)),
    painter.faint(head),
    ...rows,
  ];
}

function networkLines({ ticks, parts, network, delays, proof }: CataloguePoint, painter: Painter): string[] {
  const ways = Object.entries(delays).map(([name, delay]) => `${visible(name)} ${delay}`);
  const title = `${counted(ticks, 'tick')}, ${counted(parts, 'part')}`;
  const lines = ['', painter.strong(title)];
  const width = Math.max(...network.inverters.map(({ wire }) => wire.length), network.outputs[0].name.length);
  for (const { wire, legs, tick } of network.inverters) {
    lines.push(...paragraph(['not (', ...legs.map(visible), ')'], row(tick, wire, width)));
  }
  for (const { name, legs, tick } of network.outputs) {
    lines.push(
      ...paragraph(
        legs.flatMap((leg, i) => (i > 0 ? ['+', visible(leg)] : [visible(leg)])),
        row(tick, visible(name), width),
      ),
    );
  }
  if (ways.length > 0)
    lines.push(...paragraph(ways, `${INDENT}inverters from `).map((line) => painter.faint(line)));
  if (proof.verdict !== 'equal')
    lines.push(painter.bad(`${INDENT}NOT EQUAL to the function: this is a fault of the program.`));
  return lines;
}

function row(tick: number, wire: string, width: number): string {
  return `${INDENT}${String(tick).padStart(2)}  ${wire.padEnd(width)} = `;
}
