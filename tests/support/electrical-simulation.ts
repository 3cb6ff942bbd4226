// The judge of what joined wires do: a simulation of a `built` block from its text alone, pattern by pattern, that knows
// nothing of src/network or src/polarity beyond the words of the block.
//
// Everything tied is one node. Nodes are merged by union-find; every part drives its node, and a node is 1 while any
// part drives it to 1. Starting from rest (nothing driven) every part answers to what its legs were one step before,
// until nothing changes or a state comes back; then the same from everything driven. A pattern is settled when both end
// in the same levels.

import type { BuiltBlock } from '../../src/equations/built.ts';

export interface Settled {
  /** Level of every wire by name; null when it does not settle, or not to one level from every start. */
  readonly levels: ReadonlyMap<string, 0 | 1> | null;
}

interface Part {
  /** Node that it drives. */
  readonly node: string;
  readonly legs: readonly string[];
  /** NOT (OR of legs), else OR of legs. */
  readonly inverts: boolean;
}

class UnionFind {
  private readonly parent = new Map<string, string>();

  find(name: string): string {
    const parent = this.parent.get(name) ?? name;
    if (parent === name) return name;
    const root = this.find(parent);
    this.parent.set(name, root);
    return root;
  }

  union(a: string, b: string): void {
    this.parent.set(this.find(a), this.find(b));
  }
}

export interface ElectricalModel {
  /** Levels for given input signals. */
  settle(values: Readonly<Record<string, 0 | 1>>): Settled;
  readonly parts: number;
}

/** Joins compute OR. */
export function electricalModel(block: BuiltBlock): ElectricalModel {
  const nodes = new UnionFind();
  const parts: Part[] = [];
  /** What a wire is driven by, for `separate`: parts by index, or an input wire. */
  const drivers = new Map<string, (() => Part)[]>();
  let inverters = 0;
  const inputs = block.inputs;
  for (const { name } of inputs)
    drivers.set(name, [() => ({ node: '', legs: [`input ${name}`], inverts: false })]);
  const drive = (name: string, part: Part): void => {
    parts.push(part);
    drivers.set(name, [...(drivers.get(name) ?? []), () => part]);
  };
  const sourceOf = (leg: string): (() => Part)[] =>
    leg === '0' || leg === '1'
      ? [() => ({ node: '', legs: [leg], inverts: false })]
      : (drivers.get(leg) ?? []);
  for (const { name, gate, legs, delay } of block.elements) {
    if (gate === 'nor' || gate === 'not') {
      inverters++;
      drive(name, { node: name, legs, inverts: true });
    } else if (gate === 'nand') {
      for (const leg of new Set(legs)) {
        inverters++;
        drive(name, { node: name, legs: [leg], inverts: true });
      }
    } else if (gate === 'and') {
      const inner = [...new Set(legs)].map((leg, n) => {
        inverters++;
        parts.push({ node: `${name} inner ${n}`, legs: [leg], inverts: true });
        return `${name} inner ${n}`;
      });
      inverters++;
      drive(name, { node: name, legs: inner, inverts: true });
    } else if (gate === 'join' || (gate === 'wire' && delay === 0)) {
      drivers.set(name, legs.flatMap(sourceOf));
      for (const leg of legs) {
        if (leg === '0' || leg === '1') parts.push({ node: name, legs: [leg], inverts: false });
        else nodes.union(name, leg);
      }
    } else if (gate === 'wire') {
      drive(name, { node: name, legs, inverts: false });
    } else {
      const from = sourceOf(legs[0]);
      drivers.set(name, from);
      for (const source of from) parts.push({ ...source(), node: name });
    }
  }
  return {
    parts: inverters,
    settle(values) {
      const given = new Map<string, 0 | 1>([
        ['0', 0],
        ['1', 1],
      ]);
      for (const { name, signal, rail } of inputs) {
        given.set(`input ${name}`, rail === 'high' ? values[signal] : values[signal] === 1 ? 0 : 1);
      }
      const all: Part[] = [
        ...parts,
        ...inputs.map(({ name }) => ({ node: name, legs: [`input ${name}`], inverts: false })),
      ];
      const run = (start: 0 | 1): Map<string, 0 | 1> | null => {
        let driven: (0 | 1)[] = all.map(() => start);
        const seen = new Set<string>();
        for (;;) {
          const level = new Map<string, 0 | 1>();
          all.forEach(({ node }, p) => {
            if (driven[p] === 1) level.set(nodes.find(node), 1);
          });
          const at = (leg: string): 0 | 1 => given.get(leg) ?? level.get(nodes.find(leg)) ?? 0;
          const next = all.map(({ legs, inverts }): 0 | 1 =>
            legs.some((leg) => at(leg) === 1) !== inverts ? 1 : 0,
          );
          if (next.every((bit, p) => bit === driven[p])) {
            const names = [...inputs, ...block.elements].map(({ name }) => name);
            return new Map(names.map((name) => [name, level.get(nodes.find(name)) ?? 0]));
          }
          const state = next.join('');
          if (seen.has(state)) return null;
          seen.add(state);
          driven = next;
        }
      };
      const [rest, full] = [run(0), run(1)];
      if (rest === null || full === null) return { levels: null };
      for (const [name, level] of rest) if (full.get(name) !== level) return { levels: null };
      return { levels: rest };
    },
  };
}

/** Values of all signals for a pattern number; the first signal is bit 0. */
export function patternOf(signals: readonly string[], row: number): Record<string, 0 | 1> {
  return Object.fromEntries(signals.map((signal, i) => [signal, ((row >> i) & 1) === 1 ? 1 : 0]));
}
