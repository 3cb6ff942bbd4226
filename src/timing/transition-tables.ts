// All transitions with the same flipped inputs at once: the level of every wire at every tick, one bit for each pattern
// that the transition starts from.
//
// Idea. A transition is a starting pattern A and a set D of inputs that flip. For a fixed D the starting patterns are
// the rows of a truth table: an input outside D has its own table all the time, an input of D has it until its tick and
// the complement from then on. Wires that depend on no input of D keep their tables. For the others the window in which
// they can change is known (arrivals.ts, for D alone), and one table is kept for each tick of the window; before it the
// table is that of the old pattern, after it that of the new one. 32 transitions cost one word operation.
//
// The sets D are walked by their number of inputs, so the first transition that is found to be the slowest flips the
// fewest inputs. With n inputs there are 2^n sets of 2^n rows.
//
// The tables of old levels are made once. All others live in a pool that is used again for the next D.

import { constantTable, flipInput, inputTable, type Table, wordsFor } from '../truth/table.ts';
import { type Arrivals, arrivalsOf, earliestChange, latestChange, NEVER } from './arrivals.ts';
import { type Circuit, legsOfWire } from './circuit.ts';

/** The levels of all wires during all transitions that flip the same inputs. */
export class TransitionTables {
  readonly circuit: Circuit;
  readonly words: number;
  /** By wire: its settled level, by pattern. */
  readonly old: readonly Table[];
  /** Flipped inputs of the transitions at hand, bit by bit. */
  flipped = 0;
  /** Windows of the transitions at hand: wire `w` changes at ticks `first[w]` to `last[w]`, NEVER if it does not. */
  readonly first: Int32Array;
  readonly last: Int32Array;
  /** Word operations so far. */
  work = 0;

  private readonly rowBits: number;
  private readonly order: Int32Array;
  /** By wire: the table of tick `first[w] + i` at index i. */
  private readonly levels: Table[][];
  private readonly pool: Table[] = [];
  private inUse = 0;

  constructor(circuit: Circuit) {
    if (circuit.order === null) throw new Error('a circuit that feeds back into itself has no tables');
    this.circuit = circuit;
    this.order = circuit.order;
    this.rowBits = circuit.inputs.length;
    this.words = wordsFor(this.rowBits);
    this.first = new Int32Array(circuit.names.length).fill(NEVER);
    this.last = new Int32Array(circuit.names.length).fill(NEVER);
    this.levels = circuit.names.map(() => []);
    const old: Table[] = [];
    for (const wire of this.order) old[wire] = this.settledTable(wire, old);
    this.old = old;
  }

  /** Table of a wire at a tick. Not to be kept: the next call of `flip` overwrites it. */
  at(wire: number, tick: number): Table {
    if (this.first[wire] === NEVER || tick < this.first[wire]) return this.old[wire];
    return this.levels[wire][Math.min(tick, this.last[wire]) - this.first[wire]];
  }

  /** Table of a wire once everything has settled again. */
  settled(wire: number): Table {
    return this.at(wire, this.last[wire]);
  }

  /**
   * Takes up the transitions that flip the inputs of `mask`. `wanted` sees their arrivals first; when it says no, nothing
   * is computed and the answer is false.
   */
  flip(mask: number, wanted: (arrivals: Arrivals) => boolean = () => true): boolean {
    const { circuit, first, last, levels } = this;
    const moving = circuit.inputs.map((_, i) => (mask >>> i) & 1);
    const arrivals = arrivalsOf(circuit, moving);
    if (!wanted(arrivals)) return false;
    this.flipped = mask;
    this.inUse = 0;
    for (const wire of this.order) {
      first[wire] = earliestChange(arrivals, wire);
      last[wire] = latestChange(arrivals, wire);
      if (first[wire] === NEVER) continue;
      if (circuit.kinds[wire] === 'input') levels[wire] = [this.complement(this.old[wire])];
      else this.fill(wire);
    }
    return true;
  }

  private fill(wire: number): void {
    const { circuit } = this;
    const on = circuit.ticksOn[wire];
    const off = circuit.ticksOff[wire];
    const count = this.last[wire] - this.first[wire] + 1;
    const tables: Table[] = [];
    this.levels[wire] = tables;
    if (on === off) {
      for (let i = 0; i < count; i++) tables.push(this.said(wire, this.first[wire] + i - on));
      return;
    }
    // What the legs say, from the earliest tick that any window reaches to the last; then the windows over it.
    const start = this.first[wire] - Math.max(on, off);
    const end = this.last[wire] - Math.min(on, off);
    const said: Table[] = [];
    for (let tick = start; tick <= end; tick++) said.push(this.said(wire, tick));
    for (let i = 0; i < count; i++) {
      const tick = this.first[wire] + i;
      const table = this.fresh();
      table.set(said[tick - Math.max(on, off) - start]);
      for (let back = Math.max(on, off) - 1; back >= Math.min(on, off); back--) {
        const other = said[tick - back - start];
        if (off > on) for (let w = 0; w < table.length; w++) table[w] |= other[w];
        else for (let w = 0; w < table.length; w++) table[w] &= other[w];
        this.work += table.length;
      }
      tables.push(table);
    }
  }

  /** What the legs of a wire say at a tick, in a table of the pool. */
  private said(wire: number, tick: number): Table {
    const { circuit } = this;
    const legs = legsOfWire(circuit, wire);
    const table = this.fresh();
    table.set(this.at(legs[0], tick));
    for (let l = 1; l < legs.length; l++) {
      const leg = this.at(legs[l], tick);
      if (circuit.logic === 'or') for (let w = 0; w < table.length; w++) table[w] |= leg[w];
      else for (let w = 0; w < table.length; w++) table[w] &= leg[w];
    }
    if (circuit.kinds[wire] === 'inverter') this.invert(table);
    this.work += table.length * (legs.length + 1);
    return table;
  }

  private settledTable(wire: number, old: readonly Table[]): Table {
    const { circuit, rowBits } = this;
    const source = circuit.source[wire];
    if (circuit.kinds[wire] === 'constant') return constantTable(rowBits, source === 1 ? 1 : 0);
    if (circuit.kinds[wire] === 'input') {
      const table = inputTable(rowBits, source);
      return circuit.inverted[wire] === 1 ? flipInput(table, source) : table;
    }
    const legs = legsOfWire(circuit, wire);
    const table = new Uint32Array(old[legs[0]]);
    for (let l = 1; l < legs.length; l++) {
      const leg = old[legs[l]];
      if (circuit.logic === 'or') for (let w = 0; w < table.length; w++) table[w] |= leg[w];
      else for (let w = 0; w < table.length; w++) table[w] &= leg[w];
    }
    if (circuit.kinds[wire] === 'inverter') this.invert(table);
    return table;
  }

  private complement(table: Table): Table {
    const copy = this.fresh();
    copy.set(table);
    this.invert(copy);
    return copy;
  }

  private invert(table: Table): void {
    for (let w = 0; w < table.length; w++) table[w] = ~table[w];
    if (this.rowBits < 5) table[0] &= (1 << (1 << this.rowBits)) - 1;
  }

  private fresh(): Table {
    if (this.inUse === this.pool.length) this.pool.push(new Uint32Array(this.words));
    return this.pool[this.inUse++];
  }
}
