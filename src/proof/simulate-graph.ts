// Values of all nodes of a gate graph on patterns that are drawn or handed in, 32 at a time, boiled down to a
// fingerprint per node: nodes with the same fingerprint are equal on every allowed pattern seen so far, those that
// are complements of each other have the same fingerprint and opposite `flipped`. Fingerprints only suggest what is
// worth proving; nothing is concluded from them.
//
// Patterns are drawn from a generator with a fixed seed: evenly, sparse (a quarter of the inputs 1), dense (three
// quarters), since evenly drawn patterns rarely set long chains. A pattern of the solver comes with 31 neighbours in
// which a few inputs are flipped: what separates two nodes once, separates many others nearby.

import type { GateGraph, Translation } from './gate-graph.ts';

export class GraphSimulation {
  /** By node: is the value 1 on the first allowed pattern? Fingerprints are those of the value XOR this. */
  readonly flipped: Uint8Array;
  /** Values of the nodes in the last word, and the patterns of it that are allowed. */
  readonly values: Int32Array;
  allowed = 0;
  /** Has an allowed pattern been seen? Until then fingerprints mean nothing. */
  seen = false;

  private readonly graph: GateGraph;
  private readonly translation: Translation;
  private readonly low: Int32Array;
  private readonly high: Int32Array;
  private state = 0x2545f491;

  constructor(translation: Translation) {
    this.translation = translation;
    this.graph = translation.graph;
    this.flipped = new Uint8Array(this.graph.size);
    this.values = new Int32Array(this.graph.size);
    this.low = new Int32Array(this.graph.size);
    this.high = new Int32Array(this.graph.size);
  }

  /** The fingerprint of a node, a whole number. */
  fingerprint(node: number): number {
    return (this.high[node] >>> 0) * 0x100000 + (this.low[node] & 0xfffff);
  }

  /** One word of drawn patterns; `round` chooses how dense they are. */
  drawn(round: number): void {
    this.run(
      this.translation.inputs.map(() => {
        const word = this.random();
        if (round % 4 === 1) return word & this.random();
        return round % 4 === 3 ? word | this.random() : word;
      }),
    );
  }

  /** One word: the pattern (values by input), and neighbours of it. */
  around(pattern: readonly (0 | 1)[]): void {
    const words = pattern.map((bit) => (bit === 1 ? -1 : 0));
    for (let neighbour = 1; neighbour < 32 && words.length > 0; neighbour++) {
      for (let flips = 0; flips <= neighbour % 3; flips++) {
        words[(this.random() >>> 0) % words.length] ^= 1 << neighbour;
      }
    }
    this.run(words);
  }

  /** Pattern `bit` of the last word. */
  pattern(bit: number): (0 | 1)[] {
    return this.translation.inputs.map((literal) =>
      ((this.values[literal >> 1] >>> bit) & 1) === 1 ? 1 : 0,
    );
  }

  /** The value of a literal in the last word. */
  valueOf(literal: number): number {
    return (literal & 1) === 1 ? ~this.values[literal >> 1] : this.values[literal >> 1];
  }

  private run(inputs: readonly number[]): void {
    const { graph, values } = this;
    const { xor, start, args } = graph;
    this.translation.inputs.forEach((literal, i) => {
      values[literal >> 1] = inputs[i];
    });
    const firstGate = 1 + inputs.length;
    for (let node = firstGate; node < graph.size; node++) {
      const isXor = xor[node] === 1;
      let value = isXor ? 0 : -1;
      for (let at = start[node]; at < start[node + 1]; at++) {
        const literal = args[at];
        const arg = values[literal >> 1] ^ -(literal & 1);
        value = isXor ? value ^ arg : value & arg;
      }
      values[node] = value;
    }
    this.allowed = this.translation.never.reduce((allowed, literal) => allowed & ~this.valueOf(literal), -1);
    if (this.allowed !== 0) this.note();
  }

  private note(): void {
    const { values, flipped, low, high, allowed } = this;
    if (!this.seen) {
      const first = 31 - Math.clz32(allowed & -allowed);
      for (let node = 0; node < values.length; node++) flipped[node] = (values[node] >>> first) & 1;
      this.seen = true;
    }
    for (let node = 0; node < values.length; node++) {
      const word = (values[node] ^ -flipped[node]) & allowed;
      low[node] = Math.imul(low[node] ^ word, 0x01000193) + (low[node] >>> 15);
      high[node] = Math.imul(high[node] + word, 0x5bd1e995) ^ (high[node] >>> 13);
    }
  }

  /** A 32-bit word from a xorshift generator. */
  private random(): number {
    this.state ^= this.state << 13;
    this.state ^= this.state >>> 17;
    this.state ^= this.state << 5;
    return this.state;
  }
}
