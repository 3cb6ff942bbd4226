// A network as it was built, from a netlist of gates (grammar/gate-netlist.ts).
//
// An inverter here is any gate that computes NOT of an OR: `not` and `nor`. `or`, `buf` and nets declared `wor` are joins
// and cost nothing; they are expanded into the legs of whoever reads them, so that what comes out is a network like any
// other. The remaining gates are laid in inverters as they would have to be built: NAND is an inverter on each input,
// joined; AND is one more; XOR of two is three. Gates may stand in any order; a circle of gates is refused, and so is a
// plain net that two gates drive.
//
// Names of signals, rails and arrivals come from the attributes of the ports where there are any; else a port is an
// active-high signal of its own name that is there at tick 0.

import {
  type Netlist,
  type NetlistBit,
  type NetlistGate,
  type NetlistName,
  readNetlist,
} from '../../grammar/gate-netlist.ts';
import { quote } from '../../grammar/quote.ts';
import type { Diagnostic, Reading } from '../source/diagnostic.ts';
import { packNetwork } from './build-network.ts';
import {
  FIRST_INPUT,
  type InputWire,
  type Network,
  ONE,
  type OutputWire,
  type WireRail,
  ZERO,
} from './network.ts';

/** What was built, with the names of its signals. */
export interface AsBuilt {
  readonly module: string;
  /** Names of signals, by the numbers that the network uses. */
  readonly signals: readonly string[];
  readonly network: Network;
  /** By inverter: the net that it drives, null for one that stands inside a gate of another kind. */
  readonly nets: readonly (string | null)[];
}

class Fault extends Error {
  readonly diagnostic: Diagnostic;

  constructor(
    code: string,
    message: string,
    hint: string | null,
    { start, end }: { start: number; end: number },
  ) {
    super(message);
    this.diagnostic = { severity: 'error', code, message, at: { start, end }, hint };
  }
}

/**
 * Reads a netlist.
 *
 * @param known names of signals that keep their numbers; others are numbered behind them. With these the network can be
 *   compared with a system of equations.
 */
export function readVerilog(text: string, known: readonly string[] = []): Reading<AsBuilt> {
  const { netlist, faults } = readNetlist(text);
  if (netlist === null) {
    const diagnostics = faults.map(
      ({ code, message, hint, at }): Diagnostic => ({
        severity: 'error',
        code,
        message,
        hint,
        at: { start: at.start, end: at.end },
      }),
    );
    return { value: null, diagnostics };
  }
  try {
    return { value: new Builder(netlist, known).build(), diagnostics: [] };
  } catch (error) {
    if (error instanceof Fault) return { value: null, diagnostics: [error.diagnostic] };
    throw error;
  }
}

/** Legs that an OR of them stands for. */
type Join = readonly number[];

class Builder {
  private readonly netlist: Netlist;
  private readonly drivers = new Map<string, NetlistGate[]>();
  private readonly joins = new Map<string, Join>();
  private readonly inverters: number[][] = [];
  private readonly nets: (string | null)[] = [];
  private readonly signals: string[];
  private readonly first: number;

  constructor(netlist: Netlist, known: readonly string[]) {
    this.netlist = netlist;
    this.signals = [...known];
    this.first = FIRST_INPUT + netlist.inputs.length;
    const ports = new Map(netlist.inputs.map((input) => [input.name, input]));
    for (const gate of netlist.gates) {
      const { name, constant } = gate.output;
      if (constant !== null)
        throw new Fault(
          'netlist-output',
          'a constant cannot be driven',
          'its output stands first',
          gate.output,
        );
      if (ports.has(name))
        throw new Fault(
          'netlist-driven',
          `${quote(name)} is an input and cannot be driven`,
          null,
          gate.output,
        );
      const before = this.drivers.get(name) ?? [];
      const kind = netlist.joined.get(name);
      if (before.length > 0 && kind === undefined) {
        throw new Fault(
          'netlist-driven-twice',
          `two gates drive ${quote(name)}`,
          'if the wires are joined, declare the net as wor',
          gate.output,
        );
      }
      if (kind === 'wand')
        throw new Fault(
          'netlist-wand',
          `${quote(name)} is joined as AND`,
          'here joined wires are OR: wor',
          gate.output,
        );
      this.drivers.set(name, [...before, gate]);
    }
  }

  private signalOf(name: string): number {
    const at = this.signals.indexOf(name);
    return at >= 0 ? at : this.signals.push(name) - 1;
  }

  private wire(port: NetlistName): { signal: number; rail: WireRail; tick: number } {
    const name = (port.attributes.get('signal') ?? port.name).replace(
      /\$u([0-9a-f]{1,6})\$/g,
      (whole, digits: string) => {
        const point = Number.parseInt(digits, 16);
        return point <= 0x10ffff ? String.fromCodePoint(point) : whole;
      },
    );
    const rail = port.attributes.get('rail') === 'low' ? 'low' : 'high';
    const tick = Number(port.attributes.get('tick') ?? 0);
    return { signal: this.signalOf(name), rail, tick: Number.isSafeInteger(tick) && tick >= 0 ? tick : 0 };
  }

  build(): AsBuilt {
    const { module, inputs, outputs } = this.netlist;
    const inputWires = inputs.map((port): InputWire => this.wire(port));
    inputs.forEach(({ name }, at) => {
      this.joins.set(name, [FIRST_INPUT + at]);
    });
    const outputWires = outputs.map((port): OutputWire => {
      const { signal, rail } = this.wire(port);
      return { signal, rail };
    });
    // In the order of the text as far as it goes; what no output needs is built all the same.
    for (const { output } of this.netlist.gates) this.joinOf(output);
    const joined = outputs.map((port) => this.joinOf({ ...port, constant: null }));
    const outputJoins = joined.map((legs) =>
      legs.length === 0 ? [ZERO] : legs.includes(ONE) ? [ONE] : [...legs],
    );
    const network = packNetwork(inputWires, outputWires, this.inverters, outputJoins);
    return { module, signals: this.signals, network, nets: this.nets };
  }

  private addInverter(legs: Join, net: string | null): number {
    this.inverters.push([...legs]);
    this.nets.push(net);
    return this.first + this.inverters.length - 1;
  }

  private union(joins: readonly Join[]): number[] {
    return [...new Set(joins.flat())].filter((leg) => leg !== ZERO).sort((a, b) => a - b);
  }

  /** The legs of a net; works through what drives it without recursion, because chains of gates can be long. */
  private joinOf(wanted: NetlistBit): Join {
    const waiting: NetlistBit[] = [wanted];
    const open = new Set<string>();
    while (waiting.length > 0) {
      const bit = waiting[waiting.length - 1];
      if (bit.constant !== null || this.joins.has(bit.name)) {
        waiting.pop();
        continue;
      }
      const gates = this.drivers.get(bit.name);
      if (gates === undefined) {
        throw new Fault(
          'netlist-undriven',
          `nothing drives ${quote(bit.name)}`,
          'is a gate missing, or the name misspelled?',
          bit,
        );
      }
      const missing = gates
        .flatMap(({ inputs }) => inputs)
        .filter((input) => input.constant === null && !this.joins.has(input.name));
      if (missing.length === 0) {
        this.joins.set(bit.name, this.union(gates.map((gate) => this.laid(gate))));
        waiting.pop();
      } else {
        if (open.has(bit.name) || missing.some(({ name }) => name === bit.name)) {
          throw new Fault(
            'netlist-circle',
            `${quote(bit.name)} depends on itself`,
            'a network here has no circles',
            gates[0],
          );
        }
        open.add(bit.name);
        waiting.push(...missing.reverse());
      }
    }
    return this.known(wanted);
  }

  private known({ name, constant }: NetlistBit): Join {
    if (constant !== null) return constant === 1 ? [ONE] : [];
    return this.joins.get(name) ?? [];
  }

  /** NOT of the OR of legs. Constants are folded: an inverter of nothing is 1. */
  private inverted(legs: Join, net: string | null): Join {
    if (legs.includes(ONE)) return [];
    return legs.length === 0 ? [ONE] : [this.addInverter(legs, net)];
  }

  private laid({ kind, output, inputs }: NetlistGate): Join {
    const joins = inputs.map((input) => this.known(input));
    const either = this.union(joins);
    switch (kind) {
      case 'buf':
      case 'or':
        return either;
      case 'not':
      case 'nor':
        return this.inverted(either, output.name);
      case 'nand':
        return this.union(joins.map((legs) => this.inverted(legs, null)));
      case 'and':
        return this.inverted(this.union(joins.map((legs) => this.inverted(legs, null))), output.name);
      default: {
        const parity = joins.reduce((a, b) => this.exclusive(a, b));
        return kind === 'xor' ? parity : this.inverted(parity, output.name);
      }
    }
  }

  /** XOR of two joins in three inverters: n = NOR(a, b), NOR(a, n) joined with NOR(b, n). */
  private exclusive(a: Join, b: Join): Join {
    const neither = this.inverted(this.union([a, b]), null);
    return this.union([
      this.inverted(this.union([a, neither]), null),
      this.inverted(this.union([b, neither]), null),
    ]);
  }
}
