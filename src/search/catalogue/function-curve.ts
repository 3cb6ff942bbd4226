// What the catalogue says about one function, with networks over the inputs of that function.

import { packNetwork } from '../../network/build-network.ts';
import {
  FIRST_INPUT,
  type InputWire,
  type Network,
  ONE,
  type OutputWire,
  ZERO,
} from '../../network/network.ts';
import { support, type Table } from '../../truth/table.ts';
import type { Catalogue, CatalogueNetwork } from './catalogue.ts';
import { renameInputs, type SmallNetwork } from './lay.ts';

const MOST = 4;

export interface CurvePoint {
  readonly ticks: number;
  readonly parts: number;
  /** None has fewer parts at this number of ticks, nor at more until the next point. */
  readonly proved: boolean;
  /** By input of the function, in the order of `inputs`: most inverters on a way from it to the output; -1: no way. */
  readonly delays: readonly number[];
  readonly network: Network;
}

export interface FunctionCurve {
  /** Numbers of the inputs it depends on; at most four. */
  readonly inputs: readonly number[];
  /** Its table over these inputs: row m is bit m, bit i of m is `inputs[i]`. */
  readonly table: number;
  /** Class, 0 to 3983, and the smallest table of the class, over four inputs. */
  readonly number: number;
  readonly representative: number;
  /** Input `i` of the representative is input `order[i]` of this function; numbers beyond `inputs` stand for none. */
  readonly order: readonly number[];
  /** The fewest parts at every number of ticks, fastest first; a point only where more ticks save parts. */
  readonly curve: readonly CurvePoint[];
  /** Networks that pass some input through fewer inverters, for inputs that arrive late. */
  readonly others: readonly CurvePoint[];
}

/**
 * Looks up a function given by its table over any number of inputs; null when it depends on more than four of them.
 *
 * @param wires the wire of each input, on the high rail.
 * @param output the wire of the result, on the high rail.
 */
export function functionCurve(
  catalogue: Catalogue,
  table: Table,
  wires: readonly InputWire[],
  output: OutputWire,
): FunctionCurve | null {
  const inputs = support(table, wires.length);
  if (inputs.length > MOST) return null;
  const rows = (count: number): number => {
    let packed = 0;
    for (let m = 0; m < 2 ** count; m++) {
      let row = 0;
      for (let i = 0; i < inputs.length; i++) if ((m >> i) & 1) row |= 1 << inputs[i];
      if ((table[row >> 5] >>> (row & 31)) & 1) packed |= 1 << m;
    }
    return packed;
  };
  const { entry, order } = catalogue.lookUp(rows(MOST));
  const pointOf = ({ ticks, parts, proved, delays, network }: CatalogueNetwork): CurvePoint => ({
    ticks,
    parts,
    proved,
    delays: inputs.map((_, i) => delays[order.indexOf(i)]),
    network: widened(renameInputs(network, order), inputs, wires, output),
  });
  return {
    inputs,
    table: rows(inputs.length),
    number: entry.number,
    representative: entry.table,
    order,
    curve: entry.curve.map(pointOf),
    others: entry.others.map(pointOf),
  };
}

/** A small network as a network over all wires; its input `i` is wire `inputs[i]`, beyond these it has no legs. */
function widened(
  small: SmallNetwork,
  inputs: readonly number[],
  wires: readonly InputWire[],
  output: OutputWire,
): Network {
  const legs = (mask: number): number[] => {
    const list: number[] = [];
    for (let w = 0; w < MOST + small.legs.length; w++) {
      if ((mask >> w) & 1) list.push(FIRST_INPUT + (w < MOST ? inputs[w] : w - MOST + wires.length));
    }
    return list.sort((a, b) => a - b);
  };
  const join = small.output === null ? [ONE] : small.output === 0 ? [ZERO] : legs(small.output);
  return packNetwork(wires, [output], small.legs.map(legs), [join]);
}
