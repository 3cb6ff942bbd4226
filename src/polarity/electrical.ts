// The levels of what stands, as its wires are really tied, on many patterns at once.
//
// Idea. Nets (src/network/built-nets.ts) are driven by inverters, inputs, constants, runs and taps; a net is 1 while
// anything drives it to 1. Where nets do not feed back into themselves one pass in order is enough. Where they do, every
// driver answers to its legs one step after another, all patterns side by side, from rest (nothing is driven) and once
// more from everything driven, until nothing changes. A pattern is settled when both come to an end and to the same
// levels; what depends on the start is a memory nobody wanted.
//
// Cost: (drivers) x (words) without feedback, times the steps with it. Steps are limited by four for each driver; what
// still moves then is said not to settle. Real circles come to rest or repeat themselves long before.

import { netsOf } from '../network/built-nets.ts';
import { type BuiltNetwork, builtLegs } from '../network/built-network.ts';
import { FIRST_INPUT } from '../network/network.ts';
import { constantTable, equal, isEmpty, not, or, orInto, type Table, xor } from '../truth/table.ts';

export interface ElectricalLevels {
  /** By wire. Where a pattern is not settled the bit says nothing. */
  readonly levels: readonly Table[];
  /** Patterns on which the whole settles; null for all. */
  readonly unsettled: Table | null;
}

/** Level of every wire as drawn: each wire is driven by its own legs alone. `inputs` by input wire. */
export function drawnLevels(built: BuiltNetwork, inputs: readonly Table[], rowBits: number): Table[] {
  const levels: Table[] = [];
  built.kinds.forEach((kind, wire) => {
    if (kind === 'constant') levels.push(constantTable(rowBits, wire === 1 ? 1 : 0));
    else if (kind === 'input') levels.push(inputs[wire - FIRST_INPUT]);
    else {
      const joined = joinedLevel(built, [...builtLegs(built, wire)], levels, rowBits);
      levels.push(kind === 'inverter' ? not(joined, rowBits) : joined);
    }
  });
  return levels;
}

/** Level of every wire as tied. `inputs` by input wire. */
export function electricalLevels(
  built: BuiltNetwork,
  inputs: readonly Table[],
  rowBits: number,
): ElectricalLevels {
  const fromRest = settle(built, inputs, rowBits, 0);
  if (fromRest.inOnePass) return { levels: fromRest.levels, unsettled: null };
  const fromFull = settle(built, inputs, rowBits, 1);
  const unsettled = or(fromRest.moving, fromFull.moving);
  fromRest.levels.forEach((level, wire) => {
    orInto(unsettled, xor(level, fromFull.levels[wire]));
  });
  return { levels: fromRest.levels, unsettled: isEmpty(unsettled) ? null : unsettled };
}

interface Settling {
  readonly levels: readonly Table[];
  readonly moving: Table;
  /** Nothing feeds back. */
  readonly inOnePass: boolean;
}

function settle(built: BuiltNetwork, inputs: readonly Table[], rowBits: number, start: 0 | 1): Settling {
  const { kinds } = built;
  const { netOf, drivers } = netsOf(built);
  const own: Table[] = kinds.map((kind, wire) => {
    if (kind === 'constant') return constantTable(rowBits, wire === 1 ? 1 : 0);
    if (kind === 'input') return inputs[wire - FIRST_INPUT];
    return constantTable(rowBits, start);
  });
  const netLevel = (net: number): Table =>
    net < FIRST_INPUT ? own[net] : joinedLevel(built, drivers[net], own, rowBits);
  const nets = kinds.map((_, wire) => wire).filter((wire) => drivers[wire].length > 0 || wire < FIRST_INPUT);
  const answering = kinds.flatMap((kind, wire) =>
    kind === 'inverter' || (kind === 'run' && built.delay[wire] > 0) ? [wire] : [],
  );
  const level = new Map<number, Table>();
  const order = answeringOrder(built, answering, netOf, drivers);
  const answer = (wire: number): Table => {
    const legs = [...builtLegs(built, wire)].map((leg) => level.get(netOf[leg]) ?? netLevel(netOf[leg]));
    const joined = joinedTables(built, legs, rowBits);
    return kinds[wire] === 'inverter' ? not(joined, rowBits) : joined;
  };
  const finish = (moving: Table): Settling => {
    for (const net of nets) level.set(net, netLevel(net));
    const levels = kinds.map((_, wire) => level.get(netOf[wire]) ?? constantTable(rowBits, 0));
    return { levels, moving, inOnePass: order !== null };
  };
  if (order !== null) {
    for (const wire of order) own[wire] = answer(wire);
    return finish(constantTable(rowBits, 0));
  }
  const steps = 4 * answering.length + 64;
  let moving = constantTable(rowBits, 1);
  for (let step = 0; step < steps && !isEmpty(moving); step++) {
    for (const net of nets) level.set(net, netLevel(net));
    const next = answering.map(answer);
    moving = constantTable(rowBits, 0);
    answering.forEach((wire, n) => {
      if (!equal(next[n], own[wire])) orInto(moving, xor(next[n], own[wire]));
      own[wire] = next[n];
    });
  }
  level.clear();
  return finish(moving);
}

/** Every driver behind what drives the nets of its legs; null in a circle. */
function answeringOrder(
  built: BuiltNetwork,
  answering: readonly number[],
  netOf: Int32Array,
  drivers: readonly (readonly number[])[],
): number[] | null {
  const isAnswering = new Set(answering);
  const state = new Map<number, 'open' | 'done'>();
  const order: number[] = [];
  const visit = (wire: number): boolean => {
    const known = state.get(wire);
    if (known !== undefined) return known === 'done';
    state.set(wire, 'open');
    for (const leg of builtLegs(built, wire)) {
      for (const driver of leg < FIRST_INPUT ? [] : drivers[netOf[leg]]) {
        if (isAnswering.has(driver) && !visit(driver)) return false;
      }
    }
    state.set(wire, 'done');
    order.push(wire);
    return true;
  };
  return answering.every(visit) ? order : null;
}

function joinedLevel(
  built: BuiltNetwork,
  wires: readonly number[],
  levels: readonly Table[],
  rowBits: number,
): Table {
  return joinedTables(
    built,
    wires.map((wire) => levels[wire]),
    rowBits,
  );
}

/** OR, or AND where joins compute that. */
function joinedTables(built: BuiltNetwork, tables: readonly Table[], rowBits: number): Table {
  const isOr = built.logic === 'or';
  const result = constantTable(rowBits, isOr ? 0 : 1);
  for (const table of tables) {
    if (isOr) for (let w = 0; w < result.length; w++) result[w] |= table[w];
    else for (let w = 0; w < result.length; w++) result[w] &= table[w];
  }
  return result;
}
