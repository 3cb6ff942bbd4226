// Back-feeding: what happens when a join ties its wires for good and nothing keeps them apart. Every wire that stands in
// a join then IS the join, wherever else it goes, so all readers of any of these wires read the join of all of them.
//
// A group of tied wires gets one join with everything that drives it as its legs; every other reader reads the group.
// A tap reads what drives it and not the group. An inverter that reads itself in this way makes a circle, which
// simulation can bear.

import { type Circuit, legsOfWire, makeCircuit, type WirePlan } from './circuit.ts';

/** The circuit with all wires of a join taken as one. Legs of inverters are separate inputs and tie nothing. */
export function tiedTogether(circuit: Circuit): Circuit {
  const { kinds, names } = circuit;
  const group = Int32Array.from(names, (_, wire) => wire);
  const root = (wire: number): number => {
    let at = wire;
    while (group[at] !== at) at = group[at];
    return at;
  };
  kinds.forEach((kind, wire) => {
    if (kind !== 'join') return;
    for (const leg of legsOfWire(circuit, wire)) {
      // A constant is not a wire that others feed: it holds its level.
      if (kinds[leg] !== 'constant') group[root(leg)] = root(wire);
    }
  });
  const members = new Map<number, number[]>();
  names.forEach((_, wire) => {
    const list = members.get(root(wire)) ?? [];
    list.push(wire);
    members.set(root(wire), list);
  });
  const isTied = (wire: number): boolean => (members.get(root(wire)) ?? []).length > 1;
  // Drivers keep their number under a name of their own; the join of the group stands where one of its joins did.
  const joinOf = new Map<number, number>();
  for (const [top, list] of members) {
    const join = list.find((wire) => kinds[wire] === 'join');
    if (list.length > 1 && join !== undefined) joinOf.set(top, join);
  }
  const seen = (wire: number): number => (isTied(wire) ? (joinOf.get(root(wire)) ?? wire) : wire);
  const wires = names.map((name, wire): WirePlan => {
    const { source, inverted, ticksOn, ticksOff } = circuit;
    const plan = {
      name: isTied(wire) && seen(wire) !== wire ? `${name}_driver` : name,
      kind: kinds[wire],
      source: source[wire],
      inverted: inverted[wire] === 1,
      ticksOn: ticksOn[wire],
      ticksOff: ticksOff[wire],
    };
    if (seen(wire) === wire && isTied(wire)) {
      const list = members.get(root(wire)) ?? [];
      const drivers = list.filter((member) => kinds[member] !== 'join');
      const constants = list
        .filter((member) => kinds[member] === 'join')
        .flatMap((member) => [...legsOfWire(circuit, member)].filter((leg) => kinds[leg] === 'constant'));
      return { ...plan, legs: [...new Set([...drivers, ...constants])] };
    }
    const legs = Array.from(legsOfWire(circuit, wire));
    return { ...plan, legs: kinds[wire] === 'tap' ? legs : [...new Set(legs.map(seen))] };
  });
  const outputs = circuit.outputs.map((output) => ({ ...output, wire: seen(output.wire) }));
  return makeCircuit(circuit.logic, circuit.inputs, wires, outputs, circuit.endurance);
}
