// What the wires of a found network mean: for every inverter and every output a short product or sum of inputs and
// named signals, with its rail. This is where the reader learns why the network works.
//
// Idea. `p3, active-low` says: the level is the complement of p3. For every wire several forms are gathered and the one
// with least to read is taken:
// - a named signal that it equals, or whose complement it is;
// - what its legs say. An inverter is 1 only while all its legs are 0, so it is the product of what its active-low legs
//   mean (active-high), or the low rail of the sum of what its active-high legs mean. This form shows how the network
//   works, so it may have a little more to read than the others;
// - forms that do not look at the network: exclusive ORs, covers by named signals, sums of products over few inputs.
// What would be too long refers to wires by name instead, `p3 n4'`, at the worst `NOT (n3 + n4)`; there a name of a wire
// stands for its level.
//
// Correctness. Every form is evaluated and compared with the level of its wire on all rows that can happen before it
// is taken, so whatever is printed is true; a mistake in a rule costs a form, not the truth.
//
// An output is never explained by itself, and named signals that nothing else is defined by (the outputs of flat
// equations) are used alone but not as parts of other forms: a part is not explained by the whole.

import type { System } from '../equations/system.ts';
import { legsOf, outputLegsOf } from '../network/build-network.ts';
import { FIRST_INPUT, firstInverter, type Network, type WireRail } from '../network/network.ts';
import { wireTables } from '../polarity/wire-tables.ts';
import type { JoinLogic } from '../target/target.ts';
import type { SystemTables } from '../truth/system-tables.ts';
import { and, andInto, isEmpty, orInto, support, type Table, without } from '../truth/table.ts';
import {
  complement,
  constant,
  type Form,
  formTable,
  mentions,
  type Named,
  printForm,
  product,
  sum,
  symbol,
} from './meaning-forms.ts';
import { type Part, partsFor, partsOf } from './meaning-names.ts';
import {
  cheapest,
  isBetween,
  LONGEST,
  type Meaning,
  type Reading,
  readingOf,
  shown,
  swapped,
} from './meaning-readings.ts';
import { coversByNames, exclusiveOrs, sumsOfProducts, type Wanted } from './meaning-search.ts';

/** What the reading cost of a form that follows the legs is multiplied by. */
const LEGS_PREFERRED = 0.75;
/** Forms that do not look at the network are not searched for in tables of more words than this (17 inputs). */
const MOST_WORDS = 4096;

export interface Meanings {
  /** By inverter: what is shown. */
  readonly inverters: readonly string[];
  /** By output wire. */
  readonly outputs: readonly string[];
}

/**
 * The meaning of every inverter and every output as text. `tables` must have been made from the same system, `names`
 * are those of the wires by wire number (see wire-names.ts).
 */
export function meaningsOf(
  system: System,
  tables: SystemTables,
  network: Network,
  logic: JoinLogic,
  names: readonly string[],
): Meanings {
  const { inverters, outputs } = explainNetwork(system, tables, network, logic, names);
  return { inverters: inverters.map(({ text }) => text), outputs: outputs.map(({ text }) => text) };
}

/** The same with expression and rail apart. */
export function explainNetwork(
  system: System,
  tables: SystemTables,
  network: Network,
  logic: JoinLogic,
  names: readonly string[],
): { readonly inverters: readonly Meaning[]; readonly outputs: readonly Meaning[] } {
  return new Explainer(system, tables, network, logic, names).explain();
}

class Explainer {
  private readonly network: Network;
  private readonly isAnd: boolean;
  private readonly names: readonly string[];
  private readonly tables: SystemTables;
  private readonly levels: readonly Table[];
  private readonly signals: readonly Named[];
  private readonly inputs: readonly Named[];
  /** Signals that may be parts of forms, with the inputs they depend on. */
  private readonly parts: readonly Part[];
  /** By wire: what it means; null where only names of wires would do. */
  private readonly chosen: (Reading | null)[] = [];
  private readonly unnamed = new Map<number, Reading | null>();

  constructor(
    system: System,
    tables: SystemTables,
    network: Network,
    logic: JoinLogic,
    names: readonly string[],
  ) {
    this.network = network;
    this.isAnd = logic === 'and';
    this.names = names;
    this.tables = tables;
    this.levels = wireTables(system, network, logic);
    this.signals = system.signals.map((name, signal) => ({ name, table: tables.signals[signal] }));
    this.inputs = system.inputs.map(({ signal }) => this.signals[signal]);
    this.parts = tables.care.length <= MOST_WORDS ? partsOf(system, tables) : [];
  }

  explain(): { readonly inverters: readonly Meaning[]; readonly outputs: readonly Meaning[] } {
    const { network, chosen } = this;
    for (const value of [0, 1] as const) chosen.push({ form: constant(value), rail: 'high', cost: 1 });
    for (const { signal, rail } of network.inputs) {
      chosen.push({ form: symbol(this.signals[signal]), rail, cost: 2 });
    }
    const inverters = Array.from({ length: network.size }, (_, i) => this.inverter(i));
    const outputs = network.outputs.map((_, y) => this.output(y));
    return { inverters, outputs };
  }

  private inverter(index: number): Meaning {
    const legs = [...legsOf(this.network, index)];
    const level = this.wanted(this.levels[firstInverter(this.network) + index]);
    const chosen = cheapest(this.named(level, '')) ?? this.unnamedOf(firstInverter(this.network) + index);
    this.chosen.push(chosen);
    return chosen !== null ? shown(chosen) : this.inWires(legs, true, level, null, '');
  }

  /** The best reading of a wire that is more than the name of a signal; looked for when it is first asked for. */
  private unnamedOf(wire: number): Reading | null {
    const known = this.unnamed.get(wire);
    if (known !== undefined) return known;
    const index = wire - firstInverter(this.network);
    if (index < 0) return this.chosen[wire];
    const level = this.wanted(this.levels[wire]);
    const readings = [
      ...this.byLegs([...legsOf(this.network, index)], true, ''),
      ...this.searched(level, ''),
    ];
    const best = cheapest(readings.filter((reading) => this.holds(reading, level)));
    this.unnamed.set(wire, best);
    return best;
  }

  private output(index: number): Meaning {
    const { signal, rail } = this.network.outputs[index];
    const own = this.signals[signal].name;
    const legs = [...outputLegsOf(this.network, index)];
    const [first, ...others] = legs.map((leg) => this.levels[leg]);
    const joined = first.slice();
    for (const other of others) {
      if (this.isAnd) andInto(joined, other);
      else orInto(joined, other);
    }
    const level = this.wanted(joined);
    const readings = [
      ...this.named(level, own),
      ...this.byLegs(legs, false, own),
      ...this.searched(level, own),
    ];
    const fitting = readings.filter((r) => r.rail === rail && !mentions(r.form, own) && this.holds(r, level));
    const chosen = cheapest(fitting);
    return chosen !== null ? shown(chosen) : this.inWires(legs, false, level, rail, own);
  }

  /** Named signals that the level equals, or whose complement it is; `own` is not among them. */
  private named(level: Wanted, own: string): Reading[] {
    for (const value of [0, 1] as const) {
      if (!isEmpty(value === 0 ? level.on : level.off)) continue;
      return [
        { form: constant(value), rail: 'high', cost: 0 },
        { form: complement(constant(value)), rail: 'low', cost: 0 },
      ];
    }
    return this.signals.flatMap((named): Reading[] => {
      if (named.name === own) return [];
      if (isBetween(named.table, level)) return [{ form: symbol(named), rail: 'high', cost: 2 }];
      return isBetween(named.table, swapped(level)) ? [{ form: symbol(named), rail: 'low', cost: 2.5 }] : [];
    });
  }

  /** The reading of an inverter over the legs or of their join, as a product and as a sum. */
  private byLegs(legs: readonly number[], inverted: boolean, own: string): Reading[] {
    const forms: Form[] = [];
    for (const leg of legs) {
      const form = this.levelForm(leg, own);
      if (form === null) return [];
      forms.push(form);
    }
    return this.combined(forms, inverted).map(({ form, rail }) => readingOf(form, rail, LEGS_PREFERRED));
  }

  /** The level of an inverter over wires of these levels, or of their join, on both rails. */
  private combined(
    forms: readonly Form[],
    inverted: boolean,
  ): { readonly form: Form; readonly rail: WireRail }[] {
    const [join, dual] = this.isAnd ? [product, sum] : [sum, product];
    return [
      { form: join(forms), rail: inverted ? 'low' : 'high' },
      { form: dual(forms.map(complement)), rail: inverted ? 'high' : 'low' },
    ];
  }

  /** What a leg being 1 says, without the signal `own`. */
  private levelForm(leg: number, own: string): Form | null {
    let reading = this.chosen[leg];
    if (reading !== null && own !== '' && mentions(reading.form, own)) reading = this.unnamedOf(leg);
    if (reading !== null && (own === '' || !mentions(reading.form, own))) {
      return reading.rail === 'high' ? reading.form : complement(reading.form);
    }
    return null;
  }

  /** Forms that do not look at the network. */
  private searched(level: Wanted, own: string): Reading[] {
    if (this.parts.length === 0) return [];
    const needs = support(level.on, this.tables.inputs);
    const parts = partsFor(this.parts, needs, own);
    return (['high', 'low'] as const).flatMap((rail) => {
      const wanted = rail === 'high' ? level : swapped(level);
      const other = rail === 'high' ? 'low' : 'high';
      const sums = sumsOfProducts(wanted, this.inputs);
      const exclusive = exclusiveOrs(wanted, parts, this.inputs);
      // A sum of products of the complement is a product of sums.
      const dual = sums.map((form) =>
        form.kind === 'or' ? product(form.of.map(complement)) : complement(form),
      );
      return [
        ...[...sums, ...exclusive, ...coversByNames(wanted, parts)].map((form) => readingOf(form, rail)),
        ...[...dual, ...exclusive.map(complement)].map((form) => readingOf(form, other)),
      ];
    });
  }

  /** The shortest true text that names wires: those legs whose own meaning is longest. */
  private inWires(
    legs: readonly number[],
    inverted: boolean,
    level: Wanted,
    rail: WireRail | null,
    own: string,
  ): Meaning {
    const byName = (leg: number): Form => symbol({ name: this.names[leg], table: this.levels[leg] });
    const forms = legs.map((leg) => this.levelForm(leg, own) ?? byName(leg));
    const isWire = legs.map((leg) => this.levelForm(leg, own) === null);
    const replaceable = legs
      .map((leg, i) => ({ leg, i, length: printForm(forms[i]).length }))
      .filter(({ leg, i }) => leg >= FIRST_INPUT + this.inputWires && !isWire[i])
      .sort((a, b) => b.length - a.length || a.i - b.i);
    for (let next = 0; ; next++) {
      if (isWire.every((wire) => wire)) break;
      const readings = this.combined(forms, inverted)
        .filter((reading) => rail === null || reading.rail === rail)
        .map((reading) => readingOf(reading.form, reading.rail))
        .filter((reading) => this.holds(reading, level));
      const best = cheapest(readings);
      if (best !== null) return shown(best);
      if (next === replaceable.length) break;
      const { leg, i } = replaceable[next];
      forms[i] = byName(leg);
      isWire[i] = true;
    }
    const wires = legs.map((leg) => this.names[leg]).join(this.isAnd ? ' ' : ' + ');
    if (wires.length <= LONGEST && isWire.every((wire) => wire)) {
      const expression = inverted ? (legs.length > 1 ? `NOT (${wires})` : `NOT ${wires}`) : wires;
      return { expression, rail: null, text: expression };
    }
    const join = `the ${this.isAnd ? 'AND' : 'OR'} of its ${legs.length} legs`;
    return { expression: null, rail: null, text: inverted ? `NOT of ${join}` : join };
  }

  private get inputWires(): number {
    return this.network.inputs.length;
  }

  private wanted(level: Table): Wanted {
    return { on: and(this.tables.care, level), off: without(this.tables.care, level) };
  }

  /** Is the reading short enough, and true on every row that can happen? */
  private holds({ form, rail }: Pick<Reading, 'form' | 'rail'>, level: Wanted): boolean {
    if (printForm(form).length > LONGEST) return false;
    return isBetween(formTable(form, this.tables.inputs), rail === 'high' ? level : swapped(level));
  }
}
