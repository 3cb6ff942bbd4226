// From the words of a `built` block to inverters and joins, under a target. Nothing is optimized: doubles stay doubles.
//
// What a gate takes where joins are OR: NOR and NOT are one inverter; NAND inverts each leg and joins, AND inverts each
// leg and puts one inverter over them. Where joins are AND the roles change: NAND and NOT are one inverter, NOR inverts
// each leg and joins, AND is an inverter over a NAND.

import type { BuiltBlock, BuiltElement } from '../equations/built.ts';
import type { Target } from '../target/target.ts';
import { type BuiltKind, type BuiltNetwork, builtLegs, builtWire } from './built-network.ts';
import { FIRST_INPUT } from './network.ts';

/** The network that a block describes. */
export function layBuilt(block: BuiltBlock, target: Target): BuiltNetwork {
  const layer = new Layer(block, target);
  for (const [index, element] of block.elements.entries()) layer.lay(element, index);
  return layer.network();
}

interface Laid {
  readonly name: string;
  readonly kind: BuiltKind;
  readonly legs: readonly number[];
  readonly delay: number;
  readonly element: number;
}

class Layer {
  private readonly block: BuiltBlock;
  private readonly target: Target;
  private readonly wires: Laid[] = [];
  private readonly numberOf = new Map<string, number>();

  constructor(block: BuiltBlock, target: Target) {
    this.block = block;
    this.target = target;
    for (const name of ['0', '1']) this.add(name, 'constant', [], -1);
    for (const { name } of block.inputs) this.add(name, 'input', [], -1);
  }

  lay({ name, gate, legs, delay }: BuiltElement, element: number): void {
    const wires = [...new Set(legs.map((leg) => this.numberOf.get(leg) ?? 0))];
    const inverted = (): number[] =>
      wires.map((wire, n) => this.add(`${name}.${n + 1}`, 'inverter', [wire], element));
    const isOr = this.target.join.logic === 'or';
    switch (gate) {
      case 'not':
      case 'nor':
      case 'nand':
        if (wires.length === 1 || (gate === 'nor') === isOr) this.add(name, 'inverter', wires, element);
        else this.add(name, 'join', inverted(), element);
        return;
      case 'and': {
        const under = isOr ? inverted() : [this.add(`${name}.1`, 'inverter', wires, element)];
        this.add(name, 'inverter', under, element);
        return;
      }
      case 'wire':
        this.add(name, 'run', wires, element, delay);
        return;
      case 'separate':
        this.add(name, 'tap', this.driversOf(wires[0]), element);
        return;
      case 'join':
        this.add(name, 'join', wires, element);
    }
  }

  network(): BuiltNetwork {
    const { wires, block } = this;
    const legStart = new Int32Array(wires.length + 1);
    wires.forEach(({ legs }, w) => {
      legStart[w + 1] = legStart[w] + legs.length;
    });
    const meant = new Map(block.meanings.map(({ wire, rail }) => [wire, rail]));
    const names = wires.map(({ name }) => name);
    const wireOf = (name: string): number => builtWire({ names }, name);
    return {
      name: block.name,
      logic: this.target.join.logic,
      inputs: block.inputs.map(({ signal, rail, tick }) => ({ signal, rail, tick })),
      outputs: block.outputs.map(({ wire, rail, by }) => ({
        wire: wireOf(wire),
        rail: rail ?? meant.get(wire) ?? 'high',
        by,
      })),
      names,
      kinds: wires.map(({ kind }) => kind),
      legStart,
      legs: Int32Array.from(wires.flatMap(({ legs }) => legs)),
      delay: Int32Array.from(wires, ({ delay }) => delay),
      element: Int32Array.from(wires, ({ element }) => element),
      keep: block.keep.map(wireOf),
      at: wires.map(({ element }, w) =>
        element >= 0 ? block.elements[element].at : (block.inputs[w - FIRST_INPUT]?.at ?? null),
      ),
    };
  }

  private add(name: string, kind: BuiltKind, legs: readonly number[], element: number, delay = 0): number {
    this.numberOf.set(name, this.wires.length);
    this.wires.push({ name, kind, legs, delay, element });
    return this.wires.length - 1;
  }

  /** What drives a wire: through joins, runs without delay and taps down to inverters, inputs and runs. */
  private driversOf(wire: number): number[] {
    const found = new Set<number>();
    const walk = (at: number): void => {
      const { kind, legs, delay } = this.wires[at];
      if (kind === 'join' || kind === 'tap' || (kind === 'run' && delay === 0)) legs.forEach(walk);
      else found.add(at);
    };
    walk(wire);
    return [...found];
  }
}

/** What a wire is driven by, as drawn: inverters, inputs, constants and runs that take time. Ascending. */
export function driversOf(built: BuiltNetwork, wire: number): number[] {
  const found = new Set<number>();
  const walk = (at: number): void => {
    const kind = built.kinds[at];
    if (kind === 'join' || kind === 'tap' || (kind === 'run' && built.delay[at] === 0)) {
      for (const leg of builtLegs(built, at)) walk(leg);
    } else found.add(at);
  };
  walk(wire);
  return [...found].sort((a, b) => a - b);
}
