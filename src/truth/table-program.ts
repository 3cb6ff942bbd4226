// The equations of a system as a list of steps on rows of bits, so that tables of all signals can be computed again and
// again without walking through the expressions. A step takes one or two places and writes one; places are the signals,
// in the order of their numbers, then what `never` and freedoms come to, then room for what operators hand to others.
//
// Tables stand one after the other in one array. Steps run over a block of words at a time, so that a block of all
// signals stays in the cache of the processor. Cost: about one word operation for every operand and word. Lost: a fresh
// table for every operator; its rows cost less than its making where a sample is a few hundred rows long.

import type { Expression, System } from '../equations/system.ts';
import { lastMask, type Table, wordsFor } from './table.ts';

const AND = 0;
const OR = 1;
const XOR = 2;
const NOT = 3;
const COPY = 4;
const ZERO = 5;
/** Numbers of a step: what to do, where to write, and what to read. */
const STEP = 4;

/** Words of all places together that a block may have. */
const BLOCK = 1 << 18;

export class TableProgram {
  private readonly inputs: readonly number[];
  private readonly results: number;
  private places: number;
  private readonly steps: number[] = [];

  /** Steps for all definitions of a system, and for further expressions over its signals. */
  constructor(system: System, further: readonly Expression[]) {
    this.inputs = system.inputs.map(({ signal }) => signal);
    const { length } = system.signals;
    this.results = length + further.length;
    this.places = this.results;
    for (const { signal, expression } of system.definitions) this.write(expression, signal, this.results);
    further.forEach((expression, n) => {
      this.write(expression, length + n, this.results);
    });
  }

  /** The tables of all signals, and behind them those of the further expressions; `columns` are those of the inputs. */
  run(columns: readonly Table[], rowBits: number): Table[] {
    const words = wordsFor(rowBits);
    const kept = new Uint32Array(this.results * words);
    columns.forEach((column, i) => {
      kept.set(column, this.inputs[i] * words);
    });
    let block = words;
    while (block > 16 && block * this.places > BLOCK) block >>= 1;
    const room = new Uint32Array((this.places - this.results) * block);
    for (let from = 0; from < words; from += block) this.runBlock(kept, room, words, from, block);
    if (rowBits < 5) {
      const mask = lastMask(rowBits);
      for (let place = 0; place < kept.length; place++) kept[place] &= mask;
    }
    return Array.from({ length: this.results }, (_, n) => kept.subarray(n * words, (n + 1) * words));
  }

  private runBlock(kept: Table, room: Table, words: number, from: number, block: number): void {
    const { steps, results } = this;
    const start = (place: number): number =>
      place < results ? place * words + from : (place - results) * block;
    for (let at = 0; at < steps.length; at += STEP) {
      const [to, a, b] = [steps[at + 1], steps[at + 2], steps[at + 3]];
      const target = to < results ? kept : room;
      const left = a < results ? kept : room;
      const right = b < results ? kept : room;
      const first = start(to);
      const end = first + block;
      let i = start(a);
      let j = start(b);
      switch (steps[at]) {
        case AND:
          for (let w = first; w < end; w++) target[w] = left[i++] & right[j++];
          break;
        case OR:
          for (let w = first; w < end; w++) target[w] = left[i++] | right[j++];
          break;
        case XOR:
          for (let w = first; w < end; w++) target[w] = left[i++] ^ right[j++];
          break;
        case NOT:
          for (let w = first; w < end; w++) target[w] = ~left[i++];
          break;
        case COPY:
          for (let w = first; w < end; w++) target[w] = left[i++];
          break;
        default:
          target.fill(0, first, end);
      }
    }
  }

  private step(operation: number, to: number, a = 0, b = 0): void {
    this.steps.push(operation, to, a, b);
  }

  /** Where an expression is to be found: a signal in its own place, others in a free one, written by new steps. */
  private place(e: Expression, free: number): number {
    if (e.kind === 'signal') return e.signal;
    this.places = Math.max(this.places, free + 1);
    this.write(e, free, free + 1);
    return free;
  }

  /** Steps that write an expression into a place, with those from `free` on to work in. */
  private write(e: Expression, to: number, free: number): void {
    switch (e.kind) {
      case 'constant':
        this.step(ZERO, to);
        if (e.value === 1) this.step(NOT, to, to);
        return;
      case 'signal':
        this.step(COPY, to, e.signal);
        return;
      case 'not':
        this.step(NOT, to, this.place(e.argument, free));
        return;
      case 'and':
      case 'nand':
        this.chain(AND, e.args, to, free);
        if (e.kind === 'nand') this.step(NOT, to, to);
        return;
      case 'or':
      case 'nor':
        this.chain(OR, e.args, to, free);
        if (e.kind === 'nor') this.step(NOT, to, to);
        return;
      case 'xor':
      case 'xnor':
        this.chain(XOR, e.args, to, free);
        if (e.kind === 'xnor') this.step(NOT, to, to);
        return;
      case 'equals':
        this.chain(XOR, [e.left, e.right], to, free);
        this.step(NOT, to, to);
        return;
      case 'implies':
        this.chain(OR, [{ kind: 'not', argument: e.left }, e.right], to, free);
        return;
      case 'mux': {
        const room = new Room(free);
        const [when0, when1, select] = [e.when0, e.when1, e.select].map((arg) => this.placeIn(arg, room));
        // Either way they agree, or they do not and the select chooses.
        const change = this.roomAt(room.next);
        this.step(XOR, change, when0, when1);
        this.step(AND, change, change, select);
        this.step(XOR, to, when0, change);
        return;
      }
      case 'maj': {
        const room = new Room(free);
        const [a, b, c] = e.args.map((arg) => this.placeIn(arg, room));
        const both = this.roomAt(room.next);
        const any = this.roomAt(room.next + 1);
        this.step(AND, both, a, b);
        this.step(OR, any, a, b);
        this.step(AND, any, any, c);
        this.step(OR, to, both, any);
      }
    }
  }

  private chain(operation: number, args: readonly Expression[], to: number, free: number): void {
    let sum = this.place(args[0], free);
    if (args.length === 1) this.step(COPY, to, sum);
    for (let i = 1; i < args.length; i++) {
      const other = this.place(args[i], sum === free ? free + 1 : free);
      // The place to write may be read by what is still to come, so only the last step writes there.
      const target = i + 1 < args.length ? this.roomAt(free) : to;
      this.step(operation, target, sum, other);
      sum = target;
    }
  }

  private placeIn(e: Expression, room: Room): number {
    const place = this.place(e, room.next);
    if (place === room.next) room.next++;
    return place;
  }

  private roomAt(place: number): number {
    this.places = Math.max(this.places, place + 1);
    return place;
  }
}

/** The next free place. */
class Room {
  next: number;

  constructor(next: number) {
    this.next = next;
  }
}
