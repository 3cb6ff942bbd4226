// The networks of the catalogue for a function, over the inputs of that function, kept for those asked for.

import type { Catalogue } from './catalogue/catalogue.ts';
import { renameInputs, type SmallNetwork } from './catalogue/lay.ts';

export interface Match {
  /** Inverters. */
  readonly parts: number;
  /** By input of the function: most inverters on a way from it to the output; -1: there is no way. */
  readonly delays: readonly number[];
  readonly network: SmallNetwork;
}

/** What the catalogue has for a function. */
export interface MatchList {
  /** Those with fewest inverters first. */
  readonly matches: readonly Match[];
  /** By input: the fewest inverters on the way from it of any of these networks; -1: there is no way. */
  readonly leastDelays: readonly number[];
}

const FUNCTIONS = 65536;

export class Matches {
  private readonly catalogue: Catalogue;
  private readonly known: (MatchList | undefined)[] = new Array(FUNCTIONS);

  constructor(catalogue: Catalogue) {
    this.catalogue = catalogue;
  }

  /** All networks for a function of four inputs, given as a 16-bit table. */
  of(table: number): MatchList {
    return this.known[table] ?? this.make(table);
  }

  private make(table: number): MatchList {
    const { entry, order } = this.catalogue.lookUp(table);
    const matches = [...entry.curve, ...entry.others]
      .map(({ parts, delays, network }) => ({
        parts,
        delays: [0, 1, 2, 3].map((input) => delays[order.indexOf(input)]),
        network: renameInputs(network, order),
      }))
      .sort((a, b) => a.parts - b.parts);
    const leastDelays = [0, 1, 2, 3].map((i) => Math.min(...matches.map(({ delays }) => delays[i])));
    const list = { matches, leastDelays };
    this.known[table] = list;
    return list;
  }
}
