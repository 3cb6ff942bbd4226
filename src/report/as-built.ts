// A netlist that was read, as a result that the printers can show: no equations stand behind it, so nothing is proved
// and no rails are known but those of its ports.

import { countLegs, legsOf, outputLegsOf } from '../network/build-network.ts';
import { networkTicks, outputTicks, wireTicks } from '../network/levels.ts';
import { FIRST_INPUT, firstInverter } from '../network/network.ts';
import type { AsBuilt } from '../network/read-verilog.ts';
import { wireNames } from '../network/wire-names.ts';
import { emptyResult, type StatedOptions } from './assemble.ts';
import type { Result } from './result.ts';

/** Why such a result ended: there was nothing to search. */
export const READ_FROM_NETLIST = 'read from a netlist';

/** The result of one netlist. Inverters keep the names of their nets. */
export function asBuiltResult(
  source: string,
  { network, signals, nets }: AsBuilt,
  options: StatedOptions,
): Result {
  const { target } = options;
  const costs = { joinTicks: target.join.ticks, inverterTicks: target.inverter.ticks };
  const ticks = wireTicks(network, costs);
  const first = firstInverter(network);
  const names = wireNames(network, [...signals, ...nets.filter((net) => net !== null)]);
  const taken = new Set([...signals, ...names]);
  nets.forEach((net, at) => {
    if (net === null || signals.includes(net)) return;
    if (names[first + at] !== net && !taken.has(net)) names[first + at] = net;
    taken.add(net);
  });
  const named = (legs: Int32Array): string[] => Array.from(legs, (leg) => names[leg]);
  const outputs = outputTicks(network, costs, ticks);
  return {
    ...emptyResult(source, options),
    stop: READ_FROM_NETLIST,
    points: [
      {
        ticks: networkTicks(network, costs),
        parts: network.size * target.inverter.parts,
        copies: 0,
        legs: countLegs(network),
        ticksProved: false,
        partsProved: false,
        network: {
          inputs: network.inputs.map(({ signal, rail, tick }, at) => ({
            name: signals[signal],
            rail,
            wire: names[FIRST_INPUT + at],
            tick,
          })),
          inverters: Array.from({ length: network.size }, (_, at) => ({
            wire: names[first + at],
            legs: named(legsOf(network, at)),
            tick: ticks[first + at],
          })),
          outputs: network.outputs.map(({ signal, rail }, at) => ({
            name: signals[signal],
            rail,
            legs: named(outputLegsOf(network, at)),
            tick: outputs[at],
          })),
        },
        proof: { verdict: 'undecided', method: 'patterns' },
        rails: [],
      },
    ],
  };
}
