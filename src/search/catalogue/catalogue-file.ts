// The data file of the catalogue.
//
//   bytes 0 to 6   "tickcat"
//   byte  7        version of the format, 1
//   then bits, the highest of a byte first, for each class of functions of four inputs, in the order of their smallest
//   tables (which are not stored):
//     4 bits       number of points of the curve, then that many networks, the fastest first
//     8 bits       number of further networks: fewer inverters on the way of some input, for more parts
//   a network:
//     1 bit        proved: no network has fewer inverters from its ticks on up to those of the next point
//     4 bits       number of inverters n; 15 means constant 1, and nothing follows
//     4, 5, ... 3 + n bits: legs of each inverter in turn, one bit for each of the four inputs and of the inverters before
//                  it, the first input being the lowest bit
//     4 + n bits   legs of the output, likewise; none of them: constant 0
//   zeros up to a whole byte
//
// Ticks and tables follow from the networks and are not stored. The reader only notes where each class begins; its
// networks are unpacked when they are asked for.

import type { SmallNetwork } from './lay.ts';

export interface FiledNetwork {
  readonly proved: boolean;
  readonly network: SmallNetwork;
}

export interface FiledClass {
  /** Fastest first; inverters fall. */
  readonly curve: readonly FiledNetwork[];
  readonly others: readonly FiledNetwork[];
}

const MAGIC = 'tickcat';
const VERSION = 1;
const HEADER = MAGIC.length + 1;
const INPUTS = 4;
const CONSTANT_ONE = 15;

/** Packs all classes, in order. */
export function packCatalogue(classes: readonly FiledClass[]): Uint8Array {
  const bytes: number[] = [...MAGIC].map((letter) => letter.charCodeAt(0));
  bytes.push(VERSION);
  let byte = 0;
  let filled = 0;
  const put = (value: number, bits: number): void => {
    for (let bit = bits - 1; bit >= 0; bit--) {
      byte = (byte << 1) | ((value >> bit) & 1);
      if (++filled % 8 === 0) {
        bytes.push(byte);
        byte = 0;
      }
    }
  };
  const putNetwork = ({ proved, network }: FiledNetwork): void => {
    put(proved ? 1 : 0, 1);
    put(network.output === null ? CONSTANT_ONE : network.legs.length, 4);
    if (network.output === null) return;
    network.legs.forEach((legs, i) => {
      put(legs, INPUTS + i);
    });
    put(network.output, INPUTS + network.legs.length);
  };
  for (const { curve, others } of classes) {
    put(curve.length, 4);
    curve.forEach(putNetwork);
    put(others.length, 8);
    others.forEach(putNetwork);
  }
  while (filled % 8 !== 0) put(0, 1);
  return Uint8Array.from(bytes);
}

/** Reads a packed catalogue of `count` classes. */
export class CatalogueFile {
  private readonly bytes: Uint8Array;
  /** Bit where each class begins. */
  private readonly start: Uint32Array;
  private at = 8 * HEADER;

  /** Throws a RangeError when the bytes are not a whole catalogue of this version. */
  constructor(bytes: Uint8Array, count: number) {
    this.bytes = bytes;
    const head = String.fromCharCode(...bytes.subarray(0, MAGIC.length));
    if (head !== MAGIC || bytes[MAGIC.length] !== VERSION) {
      throw new RangeError(`not a catalogue of format ${VERSION}: rebuild it with npm run catalogue`);
    }
    this.start = new Uint32Array(count);
    for (let c = 0; c < count; c++) {
      this.start[c] = this.at;
      for (const bits of [4, 8]) for (let left = this.take(bits); left > 0; left--) this.skipNetwork();
    }
    if (this.at > 8 * bytes.length || this.at + 8 <= 8 * bytes.length) {
      throw new RangeError('the catalogue is not whole: rebuild it with npm run catalogue');
    }
  }

  read(c: number): FiledClass {
    this.at = this.start[c];
    const networks = (count: number): FiledNetwork[] =>
      Array.from({ length: count }, () => this.takeNetwork());
    const curve = networks(this.take(4));
    return { curve, others: networks(this.take(8)) };
  }

  private take(bits: number): number {
    let value = 0;
    for (let end = this.at + bits; this.at < end; this.at++) {
      value = (value << 1) | ((this.bytes[this.at >> 3] >> (7 - (this.at & 7))) & 1);
    }
    return value;
  }

  private skipNetwork(): void {
    this.at++;
    const n = this.take(4);
    if (n !== CONSTANT_ONE) this.at += (n * (2 * INPUTS + n - 1)) / 2 + INPUTS + n;
  }

  private takeNetwork(): FiledNetwork {
    const proved = this.take(1) === 1;
    const n = this.take(4);
    if (n === CONSTANT_ONE) return { proved, network: { legs: [], output: null } };
    const legs = Array.from({ length: n }, (_, i) => this.take(INPUTS + i));
    return { proved, network: { legs, output: this.take(INPUTS + n) } };
  }
}
