// Judges a way out by its text alone: it reads back, its ticks and parts are counted again by hand, and as tied it is
// what it is as drawn on every pattern, so that nothing in it feeds back.

import type { BuiltBlock } from '../../src/equations/built.ts';
import { readBuiltText } from '../../src/equations/read-built.ts';
import type { Standing, WayOut } from '../../src/polarity/ways-out.ts';
import type { Target } from '../../src/target/target.ts';
import { drawnByHand } from './built-judge.ts';
import { electricalModel, patternOf } from './electrical-simulation.ts';

/** The block that a text describes. */
export function blockOf(text: string): BuiltBlock {
  const { value, diagnostics } = readBuiltText(text);
  if (value === null) throw new Error(`${text}${diagnostics.map(({ message }) => message).join('\n')}`);
  return value.blocks[0];
}

/** Ticks and parts counted from the words, where joins are OR and inverters take one tick. */
export function countedByHand(block: BuiltBlock, target: Target): { ticks: number; parts: number } {
  const tick = new Map<string, number>([
    ['0', 0],
    ['1', 0],
  ]);
  for (const input of block.inputs) tick.set(input.name, input.tick);
  /** Inverters that drive a wire; the number of separate wires of each. */
  const drivers = new Map<string, string[]>();
  const wires = new Map<string, number>();
  const inverter = (name: string): string => {
    wires.set(name, 1);
    return name;
  };
  for (const { name, gate, legs, delay } of block.elements) {
    const each = [...new Set(legs)];
    const latest = Math.max(...each.map((leg) => tick.get(leg) ?? 0));
    const steps = { nor: 1, not: 1, nand: 1, and: 2, join: 0, separate: 0, wire: delay }[gate];
    tick.set(name, latest + steps);
    const from = each.flatMap((leg) => drivers.get(leg) ?? []);
    if (gate === 'nor' || gate === 'not') drivers.set(name, [inverter(name)]);
    else if (gate === 'nand')
      drivers.set(
        name,
        each.map((leg) => inverter(`${name} ${leg}`)),
      );
    else if (gate === 'and') {
      for (const leg of each) inverter(`${name} ${leg}`);
      drivers.set(name, [inverter(name)]);
    } else if (gate === 'wire' && delay > 0) drivers.set(name, []);
    else drivers.set(name, [...new Set(from)]);
    if (gate === 'separate')
      for (const driver of new Set(from)) wires.set(driver, (wires.get(driver) ?? 1) + 1);
  }
  const outputs = target.inverter.outputs ?? Number.POSITIVE_INFINITY;
  const copies = [...wires.values()].map((count) => Math.max(0, Math.ceil(count / outputs) - 1));
  const parts = wires.size + copies.reduce((sum, count) => sum + count, 0);
  return {
    ticks: Math.max(...block.outputs.map(({ wire }) => tick.get(wire) ?? 0)),
    parts: parts * target.inverter.parts,
  };
}

function standingFaults(standing: Standing, target: Target): string[] {
  const block = blockOf(standing.block);
  const faults: string[] = [];
  const { ticks, parts } = countedByHand(block, target);
  if (ticks !== standing.ticks) faults.push(`${standing.ticks} ticks are said, and it has ${ticks}`);
  if (parts !== standing.parts) faults.push(`${standing.parts} parts are said, and it has ${parts}`);
  const model = electricalModel(block);
  const signals = [...new Set(block.inputs.map(({ signal }) => signal))];
  for (let row = 0; row < 2 ** signals.length; row++) {
    const values = patternOf(signals, row);
    const { levels } = model.settle(values);
    const drawn = drawnByHand(block, values);
    for (const { wire } of block.outputs) {
      if (levels === null || levels.get(wire) !== drawn.get(wire))
        faults.push(`${wire} is wrong as tied, row ${row}`);
    }
  }
  return faults;
}

/** What is wrong with a way out, one sentence each. */
export function wayFaults({ stands, remade }: WayOut, target: Target): string[] {
  // What a gate takes by hand, and the simulation, are for joins that are OR.
  if (target.join.logic === 'and') return [];
  const all = [stands, remade].filter((standing) => standing !== null);
  if (all.length === 0) return ['it leads nowhere'];
  return all.flatMap((standing) => standingFaults(standing, target));
}
