// Networks laid side by side as one. Nothing is shared between them but input wires: inverters with the same legs stay
// two inverters, so the parts of the whole are those of its pieces. Inverters are numbered as in every network, by tick
// and then by their legs; of two that are the same in both, the one of the piece that stands first comes first.

import { legsOf, outputLegsOf, packNetwork } from './build-network.ts';
import { FIRST_INPUT, firstInverter, type InputWire, type Network, type OutputWire } from './network.ts';

/** Which wires the whole has, and in which order. */
export interface WholeWires {
  /** Input wires in order. Of two that are rivals, one on each rail, a piece says which there is; the first if none does. */
  readonly inputs: readonly (readonly InputWire[])[];
  /** Signal and, where it is fixed, rail of each output, in order. */
  readonly outputs: readonly Pick<OutputWire, 'signal'>[];
}

/** An inverter of a piece on its way into the whole: its legs in wire numbers of its piece. */
interface Laid {
  readonly piece: number;
  readonly wire: number;
  readonly legs: Int32Array;
}

/**
 * The whole. Every output must be an output of exactly one piece, once for each time it stands in `outputs` (active-high
 * first where it stands twice), and pieces must agree on the rails of the inputs they have in common.
 */
export function putTogether({ inputs, outputs }: WholeWires, pieces: readonly Network[]): Network {
  const taken = new Map<number, Set<string>>();
  for (const { inputs: wires } of pieces) {
    for (const { signal, rail } of wires) taken.set(signal, (taken.get(signal) ?? new Set()).add(rail));
  }
  const wholeInputs = inputs.flatMap((candidates): readonly InputWire[] => {
    const rails = taken.get(candidates[0].signal);
    return rails === undefined ? candidates.slice(0, 1) : candidates.filter(({ rail }) => rails.has(rail));
  });
  const inputAt = new Map(wholeInputs.map(({ signal, rail }, i) => [`${signal} ${rail}`, FIRST_INPUT + i]));
  /** By piece: number in the whole of each of its wires. */
  const number = pieces.map((piece) => {
    const numbers = new Int32Array(firstInverter(piece) + piece.size);
    numbers[1] = 1;
    piece.inputs.forEach(({ signal, rail }, i) => {
      numbers[FIRST_INPUT + i] = inputAt.get(`${signal} ${rail}`) as number;
    });
    return numbers;
  });
  const legs: number[][] = [];
  const first = FIRST_INPUT + wholeInputs.length;
  for (const layer of layersOf(pieces)) {
    const renamed = layer.map(({ piece, wire, legs: old }) => ({
      piece,
      wire,
      legs: Array.from(old, (leg) => number[piece][leg]).sort((a, b) => a - b),
    }));
    renamed.sort((a, b) => compareLegs(a.legs, b.legs) || a.piece - b.piece || a.wire - b.wire);
    for (const { piece, wire, legs: now } of renamed) {
      number[piece][wire] = first + legs.length;
      legs.push(now);
    }
  }
  const joins = new Map<number, { readonly wire: OutputWire; readonly legs: number[] }[]>();
  pieces.forEach((piece, n) => {
    piece.outputs.forEach((wire, y) => {
      const join = Array.from(outputLegsOf(piece, y), (leg) => number[n][leg]).sort((a, b) => a - b);
      joins.set(wire.signal, [...(joins.get(wire.signal) ?? []), { wire, legs: join }]);
    });
  });
  const laid = outputs.map(({ signal }) => {
    const next = joins.get(signal)?.shift();
    if (next === undefined) throw new Error(`no piece has the output ${signal}`);
    return next;
  });
  return packNetwork(
    wholeInputs,
    laid.map(({ wire }) => wire),
    legs,
    laid.map((join) => join.legs),
  );
}

/** All inverters by the tick at which they settle when each takes one. */
function layersOf(pieces: readonly Network[]): Laid[][] {
  const layers: Laid[][] = [];
  pieces.forEach((network, piece) => {
    const first = firstInverter(network);
    const depth = new Int32Array(first + network.size);
    network.inputs.forEach(({ tick }, i) => {
      depth[FIRST_INPUT + i] = tick;
    });
    for (let i = 0; i < network.size; i++) {
      const legs = legsOf(network, i);
      let latest = 0;
      for (const leg of legs) latest = Math.max(latest, depth[leg]);
      depth[first + i] = latest + 1;
      layers[latest] ??= [];
      layers[latest].push({ piece, wire: first + i, legs });
    }
  });
  return layers.filter((layer) => layer !== undefined);
}

function compareLegs(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < a.length && i < b.length; i++) if (a[i] !== b[i]) return a[i] - b[i];
  return a.length - b.length;
}
