// Hazards on the screen: a table of what some delays may show and what this circuit shows, and the remedy.

import { visible } from '../../grammar/quote.ts';
import type { Circuit } from '../timing/circuit.ts';
import { HAZARD_KINDS, type Hazard, type HazardKind } from '../timing/hazards.ts';
import type { Painter } from './painter.ts';
import { counted, paragraph, prose } from './paragraph.ts';
import { outputName } from './settling-text.ts';

const INDENT = '  ';
/** Lines of hazards of single inputs; further ones are counted. */
const MOST_LINES = 40;

/** What the network without static hazards costs. */
export interface RemedyReport {
  readonly circuit: Circuit;
  readonly inverters: number;
  readonly ticks: number;
  /** Of the network that was given. */
  readonly before: { readonly inverters: number; readonly ticks: number };
  /** How it came about, in words. */
  readonly way: string;
  readonly proof: string;
}

/** The lines of one source. `mostFlips` says up to how many inputs flip at once. */
export function hazardLines(
  circuit: Circuit,
  hazards: readonly Hazard[],
  mostFlips: number,
  painter: Painter,
): string[] {
  const single = hazards.filter(({ flipped }) => flipped.length === 1);
  const several = hazards.filter(({ flipped }) => flipped.length > 1);
  return [
    '',
    painter.strong('Hazards when one input flips'),
    ...(single.length === 0
      ? prose('None: whatever the delays, no output shows a pulse.', INDENT)
      : singleLines(circuit, single, painter)),
    ...(mostFlips > 1 ? severalLines(circuit, several, mostFlips, painter) : []),
  ];
}

function singleLines(circuit: Circuit, hazards: readonly Hazard[], painter: Painter): string[] {
  const names = hazards.map(({ output }) => outputName(circuit, output));
  const inputs = hazards.map(({ flipped }) => visible(circuit.inputs[flipped[0]].name));
  const [wide, broad] = [
    Math.max(6, ...names.map((n) => n.length)),
    Math.max(5, ...inputs.map((n) => n.length)),
  ];
  const line = (cells: readonly string[]): string =>
    `${INDENT}${cells[0].padEnd(wide)}  ${cells[1].padEnd(8)}  ${cells[2].padEnd(broad)}  ${cells
      .slice(3, 6)
      .map((cell) => cell.padStart(8))
      .join('')}  ${cells[6]}`.trimEnd();
  const rows = hazards
    .slice(0, MOST_LINES)
    .map((hazard, at) =>
      line([
        names[at],
        hazard.kind,
        inputs[at],
        String(hazard.possible),
        String(hazard.happens),
        hazard.widest === 0 ? '-' : String(hazard.widest),
        settingOf(circuit, hazard),
      ]),
    );
  const left = hazards.length - rows.length;
  return [
    ...faint(
      'Static-1: stays 1, static-0: stays 0, dynamic: changes once. Possible: flips after which some delays of ' +
        'inverters and wires show a pulse. Happens: flips after which this network does. Widest: ticks of the widest ' +
        'pulse that happens.',
      painter,
    ),
    painter.faint(line(['output', 'kind', 'flips', 'possible', 'happens', 'widest', 'for example with'])),
    ...rows,
    ...(left > 0 ? [`${INDENT}and ${left} more`] : []),
  ];
}

/** Where the other inputs are in the example, and which way the flipped one goes. */
function settingOf(circuit: Circuit, { flipped, example }: Hazard): string {
  const others = circuit.inputs.flatMap(({ name }, i) =>
    flipped.includes(i) ? [] : [`${visible(name)}=${example.from[i]}`],
  );
  const room = 24;
  const words: string[] = [];
  for (const word of others) {
    if (words.join(' ').length + word.length > room) return `${words.join(' ')} ...`;
    words.push(word);
  }
  return words.join(' ');
}

function severalLines(
  circuit: Circuit,
  hazards: readonly Hazard[],
  mostFlips: number,
  painter: Painter,
): string[] {
  const sums = circuit.outputs.flatMap((_, output) =>
    HAZARD_KINDS.flatMap((kind) => {
      const here = hazards.filter((hazard) => hazard.output === output && hazard.kind === kind);
      return here.length === 0 ? [] : [{ output, kind, here }];
    }),
  );
  const title = `Hazards when ${mostFlips > 2 ? `2 to ${mostFlips}` : 2} inputs flip at once`;
  if (sums.length === 0) return ['', painter.strong(title), ...prose('None.', INDENT)];
  const wide = Math.max(6, ...circuit.outputs.map((_, y) => outputName(circuit, y).length));
  const line = (cells: readonly string[]): string =>
    `${INDENT}${cells[0].padEnd(wide)}  ${cells[1].padEnd(8)}${cells
      .slice(2)
      .map((cell) => cell.padStart(10))
      .join('')}`;
  const total = (here: readonly Hazard[], of: (hazard: Hazard) => number): number =>
    here.reduce((sum, hazard) => sum + of(hazard), 0);
  const rows = sums.map(({ output, kind, here }): string => {
    const possible = total(here, (hazard) => hazard.possible);
    const own = total(here, (hazard) => hazard.ofFunction);
    const cells: readonly (string | number)[] = [
      outputName(circuit, output),
      kind satisfies HazardKind,
      own,
      possible - own,
      total(here, (hazard) => hazard.happens),
      Math.max(...here.map((hazard) => hazard.widest)) || '-',
    ];
    return line(cells.map(String));
  });
  return [
    '',
    painter.strong(title),
    ...faint(
      'Numbers of transitions. Function: the function itself may go back and forth while one input after the other ' +
        'arrives; no network can help it. Logic: it does not, and the network still may.',
      painter,
    ),
    painter.faint(line(['output', 'kind', 'function', 'logic', 'happens', 'widest'])),
    ...rows,
  ];
}

/** The lines about the network without static hazards. */
export function remedyLines(remedy: RemedyReport, painter: Painter): string[] {
  const { circuit, inverters, ticks, before, way, proof } = remedy;
  const extra = inverters - before.inverters;
  const more = extra > 0 ? `${counted(extra, 'part')} more` : extra < 0 ? `${-extra} fewer` : 'no part more';
  const legs = (wire: number): string[] =>
    Array.from(circuit.legs.subarray(circuit.legStart[wire], circuit.legStart[wire + 1]), (leg) =>
      visible(circuit.names[leg]),
    );
  const wide = Math.max(4, ...circuit.names.map((name) => visible(name).length));
  return [
    '',
    painter.strong('Without static hazards when one input flips'),
    ...prose(
      `${counted(inverters, 'inverter')}, ${counted(ticks, 'tick')}: ${more} than the network above (${before.inverters}, ${counted(before.ticks, 'tick')}). ${way} ${proof}`,
      INDENT,
    ),
    painter.faint(`${INDENT}${'wire'.padEnd(wide)}  legs`),
    ...circuit.names.flatMap((name, wire) =>
      circuit.kinds[wire] === 'inverter'
        ? paragraph(legs(wire), `${INDENT}${visible(name).padEnd(wide)}  `)
        : [],
    ),
    painter.faint(`${INDENT}${'output'.padEnd(wide)}  join of`),
    ...circuit.outputs.flatMap(({ wire }, y) =>
      paragraph(
        circuit.kinds[wire] === 'join' ? legs(wire) : [visible(circuit.names[wire])],
        `${INDENT}${outputName(circuit, y).padEnd(wide)}  `,
      ),
    ),
  ];
}

function faint(text: string, painter: Painter): string[] {
  return prose(text, INDENT).map((line) => painter.faint(line));
}
