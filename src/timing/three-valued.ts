// Three-valued simulation of all transitions that flip the same inputs: what can a wire do when nothing is known about
// the delays of inverters and wires?
//
// Method: E. B. Eichelberger, "Hazard Detection in Combinational and Sequential Switching Circuits", 1965 (from memory):
// the changing inputs take a third value, "on its way"; what is not 0 or 1 then may be either for a while. Three tables
// for each wire: the level before, the level after, and `wavers`: the wire may change more than once (or at all, where
// before and after are equal). An inverter or an OR join wavers unless a leg is 1 without wavering all along, in one
// of two cases: a leg wavers; or one leg goes on while another goes off, since whichever comes first decides. Where
// before and after are equal, `wavers` says the same as the third value of the method; where they differ the third
// value cannot tell one change from three, and this can.

import { constantTable, type Table } from '../truth/table.ts';
import { type Circuit, legsOfWire } from './circuit.ts';
import { movedTable } from './walk-transitions.ts';

/** By pattern that the transition starts from. */
export interface WaveringWire {
  readonly before: Table;
  readonly after: Table;
  readonly wavers: Table;
}

/**
 * By wire, for the transitions that flip the inputs of `mask`.
 *
 * @param settled by wire: its level under every pattern (the `old` of TransitionTables).
 */
export function waveringWires(circuit: Circuit, settled: readonly Table[], mask: number): WaveringWire[] {
  const { order, kinds, logic } = circuit;
  if (order === null) throw new Error('a circuit that feeds back into itself has no such tables');
  const inputs = circuit.inputs.length;
  const still = constantTable(inputs, 0);
  const wires: WaveringWire[] = [];
  for (const wire of order) {
    const before = settled[wire];
    const after = movedTable(before, mask, inputs);
    if (kinds[wire] === 'constant' || kinds[wire] === 'input') {
      wires[wire] = { before, after, wavers: still };
      continue;
    }
    const legs = Array.from(legsOfWire(circuit, wire), (leg) => wires[leg]);
    const wavers = new Uint32Array(before.length);
    for (let w = 0; w < wavers.length; w++) {
      let [some, rises, falls, decided] = [0, 0, 0, 0];
      for (const leg of legs) {
        const [from, to, waver] = [leg.before[w], leg.after[w], leg.wavers[w]];
        some |= waver;
        rises |= ~from & to;
        falls |= from & ~to;
        decided |= ~waver & (logic === 'or' ? from & to : ~from & ~to);
      }
      wavers[w] = (some | (rises & falls)) & ~decided;
    }
    if (inputs < 5) wavers[0] &= (1 << (1 << inputs)) - 1;
    wires[wire] = { before, after, wavers };
  }
  return wires;
}
