// Seeded randomness: the only kind there is here. A 32-bit xorshift generator (G. Marsaglia, "Xorshift RNGs", 2003,
// from memory), good enough to choose moves and the same on every machine.

export class Random {
  private state: number;

  constructor(seed: number) {
    this.state = (Math.imul(seed | 0, 0x9e3779b1) ^ 0x5bd1e995) | 0 || 1;
    for (let i = 0; i < 8; i++) this.next();
  }

  /** 32 random bits, as a signed number. */
  next(): number {
    let x = this.state;
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    this.state = x;
    return x;
  }

  /** A whole number from 0 to `count - 1`. */
  below(count: number): number {
    return Math.floor(((this.next() >>> 0) / 4294967296) * count);
  }

  /** True once in `count` times on average. */
  oneIn(count: number): boolean {
    return this.below(count) === 0;
  }

  /** Puts the items in a random order, in place. */
  shuffle<T>(items: T[]): T[] {
    for (let i = items.length - 1; i > 0; i--) {
      const j = this.below(i + 1);
      const swap = items[i];
      items[i] = items[j];
      items[j] = swap;
    }
    return items;
  }
}
