// What the catalogue knows about the outputs of a system, as plain data: for each output its class, the proved curve and
// every network of it, judged by the same prover as all others.

import { usableFreedom } from '../equations/free-signals.ts';
import type { System } from '../equations/system.ts';
import type { InputWire, OutputWire } from '../network/network.ts';
import { prove } from '../proof/prove.ts';
import type { Catalogue } from '../search/catalogue/catalogue.ts';
import { type CurvePoint, functionCurve } from '../search/catalogue/function-curve.ts';
import { shippedTarget } from '../target/shipped-targets.ts';
import type { Target } from '../target/target.ts';
import { systemTables } from '../truth/system-tables.ts';
import { MAX_INPUTS } from '../truth/table.ts';
import { pointOf } from './assemble.ts';
import type { Point } from './result.ts';

/** The catalogue is of this target. */
export const CATALOGUE_TARGET = 'joined-or';

export interface CataloguePoint extends Point {
  /** By input: most inverters on a way from it to the output; inputs without a way are left out. */
  readonly delays: Readonly<Record<string, number>>;
}

export interface CatalogueFunction {
  readonly output: string;
  /** The inputs it depends on. */
  readonly inputs: readonly string[];
  /** Truth table in hexadecimal: row m is bit m, and bit i of m is input i. */
  readonly table: string;
  /** Number of its class under renaming of inputs, 0 to 3983. */
  readonly class: number;
  /** The smallest table of the class, over four inputs. */
  readonly representative: string;
  /** Fewest parts at each number of ticks; a point only where more ticks save parts. */
  readonly curve: readonly CataloguePoint[];
  /** Networks that pass some input through fewer inverters than those of the curve with as few parts. */
  readonly others: readonly CataloguePoint[];
}

/** Why an output is not in the catalogue, in words that follow its name. */
export interface NotInCatalogue {
  readonly output: string;
  readonly reason: string;
}

/** What the catalogue says about every output, in the order of the system. */
export function catalogueReport(
  catalogue: Catalogue,
  system: System,
): readonly (CatalogueFunction | NotInCatalogue)[] {
  const target = shippedTarget(CATALOGUE_TARGET) as Target;
  const because = (reason: string): NotInCatalogue[] =>
    system.outputs.map(({ signal }) => ({ output: system.signals[signal], reason }));
  if (system.inputs.length > MAX_INPUTS)
    return because('belongs to a system of too many inputs for truth tables, and so is not looked up');
  const special = [...system.inputs, ...system.outputs].find(({ rail }) => rail !== 'high');
  if (special !== undefined || system.inputs.some(({ tick }) => tick > 0)) {
    return because('is not looked up: the catalogue is for active-high wires that are there at tick 0');
  }
  if (system.never.length > 0 || usableFreedom(system).size > 0) {
    return because('is not looked up: the catalogue is for functions that are fixed on every row');
  }
  const tables = systemTables(system);
  const wires = system.inputs.map(({ signal }): InputWire => ({ signal, rail: 'high', tick: 0 }));
  return system.outputs.map(({ signal, by }) => {
    const output: OutputWire = { signal, rail: 'high' };
    const alone: System = { ...system, outputs: [{ signal, rail: 'high', by }] };
    const found = functionCurve(catalogue, tables.signals[signal], wires, output);
    const name = system.signals[signal];
    if (found === null)
      return { output: name, reason: 'depends on more than four inputs, and so is not in the catalogue' };
    const names = found.inputs.map((input) => system.signals[system.inputs[input].signal]);
    const shown = ({ network, ticks, proved, delays }: CurvePoint): CataloguePoint => ({
      ...pointOf({
        system: alone,
        tables,
        target,
        answer: { network, ticks, ticksProved: ticks === found.curve[0].ticks, sizeProved: proved },
        verdict: prove(alone, network, 'or'),
        explain: false,
      }),
      delays: Object.fromEntries(
        names.map((input, i) => [input, delays[i]]).filter(([, delay]) => Number(delay) >= 0),
      ),
    });
    return {
      output: name,
      inputs: names,
      table: hexTable(found.table, names.length),
      class: found.number,
      representative: hexTable(found.representative, 4),
      curve: found.curve.map(shown),
      others: found.others.map(shown),
    };
  });
}

function hexTable(table: number, inputs: number): string {
  return table.toString(16).padStart(Math.max(1, 2 ** (inputs - 2)), '0');
}
