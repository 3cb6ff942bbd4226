// Ways out of a conflict. Every way is a changed block: it is laid, its ticks and parts are counted on what was laid, and
// it is proved, as tied, against what the outputs were meant to be; what cannot be proved is not offered.
//
// Where the ways come from. A join that is not what was meant: every choice of legs to turn over, joined or under one
// inverter, that comes to what was meant; a leg is turned over by an inverter, or by taking the signal where its other
// rail exists already, which moves an inversion when the wire that did it goes. A shared wire: a separate output, a copy
// of the driver, two inverters between, or the legs of the join at the inputs of its readers, where nothing is tied.
// Counted faults: legs gathered under a pair of inverters, joins spread into their readers. Besides, for all of them,
// the part behind is made anew by the search (remake.ts): from the repaired wire on, and, as a way of its own, from the
// legs, so that whoever reads the wire absorbs its pieces.
//
// Other conflicts of the same block are left as they are, except that shared wires get separate outputs: they would
// falsify every proof. Order: ticks and parts after making anew, then as it stands.

import type { BuiltBlock, BuiltElement } from '../equations/built.ts';
import {
  elementOf,
  freshName,
  printBuilt,
  printElement,
  withElements,
  withoutDead,
} from '../equations/edit-built.ts';
import type { Expression } from '../equations/system.ts';
import { builtCosts } from '../network/built-costs.ts';
import { builtWire } from '../network/built-network.ts';
import { layBuilt } from '../network/lay-built.ts';
import { not, type Table } from '../truth/table.ts';
import { consumerWords } from './consumer-words.ts';
import { agree, type Finding, turnedLegs } from './find-conflicts.ts';
import { type Judge, networkFor, referenceSystem } from './reference.ts';
import { partBehind, type Remade, remake, separateShared } from './remake.ts';
import { type Survey, survey } from './survey.ts';
import { readWishes } from './wishes.ts';

export interface Standing {
  readonly ticks: number;
  readonly parts: number;
  /** Tick of each output. */
  readonly outputs: readonly { readonly wire: string; readonly tick: number }[];
  /** The whole block as text. */
  readonly block: string;
  /** The lines that are new or different. */
  readonly lines: readonly string[];
}

export type WayKind =
  | 'invert-leg'
  | 'move-inversion'
  | 'other-rail'
  | 'nand'
  | 'nor'
  | 'and'
  | 'absorb'
  | 'rebuild'
  | 'separate'
  | 'copy'
  | 'isolate'
  | 'spread'
  | 'gather'
  | 'invert'
  | 'state-rail';

export interface WayOut {
  readonly kind: WayKind;
  /** What to do, one sentence without a full stop. */
  readonly what: string;
  /** With everything else left alone; null where the readers have to change. */
  readonly stands: Standing | null;
  /** With the readers of the wire made anew; null where there are none or nothing came of it. */
  readonly remade: Standing | null;
  /** What the readers compute, in the reader's names; null where nobody changes. */
  readonly consumer: string | null;
}

interface Draft {
  readonly kind: WayKind;
  readonly what: string;
  readonly block: BuiltBlock;
  /** From which wire on the readers may be made anew. */
  readonly from: string | null;
}

/** Joins wider than this are not turned leg by leg. */
const MOST_TURNED = 6;

/** All ways out of one finding, best first. */
export function waysOut(whole: Survey, finding: Finding, equations: EquationsOf, judge: Judge): WayOut[] {
  return new WayFinder(whole, finding, equations, judge).ways();
}

type EquationsOf = Parameters<typeof readWishes>[2];

class WayFinder {
  private readonly base: Survey;
  private readonly finding: Finding;
  private readonly judge: Judge;
  private readonly name: string;
  /** Names of the wires and of the joins of a shared wire. */
  private readonly shared: readonly string[];
  private readonly joins: readonly string[];
  private readonly ways_: WayOut[] = [];
  private readonly seen = new Set<string>();
  private readonly equations: EquationsOf;
  private readonly isMeant: boolean;

  constructor(whole: Survey, finding: Finding, equations: EquationsOf, judge: Judge) {
    this.finding = finding;
    this.judge = judge;
    this.equations = equations;
    this.name = namedWire(whole, finding.wire);
    const isShared = finding.kind === 'shared-leg' || finding.kind === 'unsettled';
    const others = new Set([...whole.block.inputs, ...whole.block.elements].map(({ name }) => name));
    this.shared = finding.wires.map((wire) => namedWire(whole, wire));
    this.joins = finding.joins.map((wire) => namedWire(whole, wire));
    if (isShared) for (const name of this.shared) others.delete(name);
    this.base = resurvey(whole, separateShared(whole.block, others), equations);
    this.isMeant = ['join-mixed', 'join-low-as-or', 'join-pieces', 'wrong-rail', 'wrong-signal'].includes(
      finding.kind,
    );
  }

  ways(): WayOut[] {
    switch (this.finding.kind) {
      case 'join-mixed':
      case 'join-low-as-or':
      case 'join-pieces':
        this.atJoin();
        break;
      case 'wrong-rail':
      case 'wrong-signal':
        this.atWire();
        break;
      case 'shared-leg':
      case 'unsettled':
      case 'shared-leg-harmless':
        this.atSharedWire();
        break;
      case 'too-many-legs':
        this.gather(this.finding.most);
        break;
      case 'join-place':
        this.spread(this.name);
        this.underInverters();
        break;
      case 'input-wires':
      case 'join-is-and':
        return [];
    }
    return this.ways_.sort(compareWays);
  }

  private element(name: string): BuiltElement | undefined {
    return this.base.block.elements.find((element) => element.name === name);
  }

  private level(name: string): Table {
    return this.base.drawn[builtWire(this.base.built, name)];
  }

  private fresh(base: string): string {
    return freshName(this.base.block, base);
  }

  /** The join with the legs that make it what was meant. */
  private atJoin(): void {
    const { base, finding } = this;
    const join = this.element(this.name);
    if (join === undefined) return;
    if (join.legs.length > MOST_TURNED) {
      this.rebuild();
      return;
    }
    const wish = base.wished[builtWire(base.built, this.name)];
    const isOr = base.built.logic === 'or';
    for (let set = 0; set < 2 ** join.legs.length; set++) {
      const isTurned = (n: number): boolean => ((set >> n) & 1) === 1;
      const levels = join.legs.map((leg, n) =>
        isTurned(n) ? not(this.level(leg), base.rowBits) : this.level(leg),
      );
      const joined = combined(levels, isOr);
      const turned = join.legs.filter((_, n) => isTurned(n));
      if (agree(base, joined, wish)) this.turnedJoin(join, turned, false);
      if (agree(base, not(joined, base.rowBits), wish)) this.turnedJoin(join, turned, true);
    }
    this.absorb(join, turnedLegs(base, finding.wire));
  }

  /** One choice of legs to turn over, by inverters and, where it exists, by the other rail. */
  private turnedJoin(join: BuiltElement, turned: readonly string[], isUnder: boolean): void {
    const { base } = this;
    const isAll = turned.length === join.legs.length;
    const opposite = base.built.logic === 'or' ? 'nor' : 'nand';
    const inverted = base.built.logic === 'or' ? 'nand' : 'nor';
    const legs = list(turned);
    const all = list(join.legs);
    if (isAll && !isUnder && turned.length > 1) {
      const what = `build ${inverted.toUpperCase()} of ${all} instead of joining them`;
      this.offerChange(
        'nand',
        what,
        elementOf({ name: join.name, gate: inverted, legs: join.legs }, join),
        [],
      );
    } else if (turned.length === 0 && isUnder) {
      const what = `build ${opposite.toUpperCase()} of ${all} instead of joining them`;
      this.offerChange(
        'nor',
        what,
        elementOf({ name: join.name, gate: opposite, legs: join.legs }, join),
        [],
      );
    } else if (isAll && isUnder && base.built.logic === 'or') {
      const what = `build AND of ${all} instead of joining them`;
      this.offerChange('and', what, elementOf({ name: join.name, gate: 'and', legs: join.legs }, join), []);
    } else if (turned.length > 0) {
      const added: BuiltElement[] = [];
      const taken = new Set<string>();
      const now = join.legs.map((leg) => {
        if (!turned.includes(leg)) return leg;
        const name = freshName(base.block, `${leg}_not`, taken);
        taken.add(name);
        added.push(elementOf({ name, gate: 'not', legs: [leg] }));
        return name;
      });
      const gate = isUnder ? opposite : 'join';
      const under = isUnder ? `, and put an inverter over the join` : '';
      const what = `invert ${turned.length > 1 ? 'the legs' : 'the leg'} ${legs}${under}`;
      this.offerChange('invert-leg', what, elementOf({ name: join.name, gate, legs: now }, join), added);
    }
    if (turned.length > 0 && !isUnder) this.byOtherRails(join, turned);
  }

  /** Legs are turned over by taking the signal elsewhere, where its other rail is; inverters where it is nowhere. */
  private byOtherRails(join: BuiltElement, turned: readonly string[]): void {
    const { base } = this;
    const added: BuiltElement[] = [];
    const taken = new Set<string>();
    const from: string[] = [];
    const gone: string[] = [];
    const inverted: string[] = [];
    const legs = join.legs.flatMap((leg) => {
      if (!turned.includes(leg)) return [leg];
      const other = this.otherRail(leg);
      if (other !== null) {
        from.push(...other);
        gone.push(leg);
        return other;
      }
      const name = freshName(base.block, `${leg}_not`, taken);
      taken.add(name);
      added.push(elementOf({ name, gate: 'not', legs: [leg] }));
      inverted.push(leg);
      return [name];
    });
    if (from.length === 0) return;
    const isMove = inverted.length > 0;
    const what = isMove
      ? `move the inversion from ${list(gone)} to ${list(inverted)}`
      : `take ${list([...new Set(from)])} instead of ${list(gone)}: there is the other rail`;
    const changed = elementOf({ name: join.name, gate: 'join', legs: [...new Set(legs)] }, join);
    this.offerChange(isMove ? 'move-inversion' : 'other-rail', what, changed, added);
  }

  /** Wires that exist already and, joined, are the complement of one; the earliest. */
  private otherRail(leg: string): string[] | null {
    const { base } = this;
    const { wireTicks } = builtCosts(base.built, base.target);
    const wanted = not(this.level(leg), base.rowBits);
    const behind = partBehind({ ...base.block, keep: [] }, this.name);
    const names = [...base.block.inputs, ...base.block.elements].map(({ name }) => name);
    const exact = names.filter(
      (name) =>
        name !== leg && !behind.has(name) && !this.isBehind(name) && agree(base, this.level(name), wanted),
    );
    exact.sort((a, b) => wireTicks[builtWire(base.built, a)] - wireTicks[builtWire(base.built, b)]);
    if (exact.length > 0) return exact.slice(0, 1);
    const maker = this.element(leg);
    const isOr = base.built.logic === 'or';
    return maker !== undefined && maker.gate === (isOr ? 'nor' : 'nand') ? [...maker.legs] : null;
  }

  private isBehind(name: string): boolean {
    const reach = new Set([this.name]);
    for (const element of this.base.block.elements) {
      if (element.legs.some((leg) => reach.has(leg))) reach.add(element.name);
    }
    return reach.has(name);
  }

  /** The readers take the legs as they are. */
  private absorb(join: BuiltElement, turned: readonly number[] | null): void {
    const { base } = this;
    const part = partBehind(base.block, join.name);
    if (base.block.keep.includes(join.name)) return;
    const meant = this.meantOver(join, turned);
    if (meant === null) return;
    const isAlone = part.size === 1;
    const remade = remake(base, part, new Map([[join.name, meant]]));
    const standing = this.proved(remade);
    if (standing === null) return;
    const isBeaten = this.ways_.some(
      ({ stands }) =>
        stands !== null && (stands.ticks - standing.ticks || stands.parts - standing.parts) <= 0,
    );
    if (isAlone && isBeaten) return;
    const what = isAlone
      ? `build ${join.name} from ${list(join.legs)} as the search does`
      : `keep ${list(join.legs)} apart and let what reads ${join.name} absorb them`;
    this.add({
      kind: isAlone ? 'rebuild' : 'absorb',
      what,
      stands: null,
      remade: standing,
      consumer: isAlone ? null : consumerWords(base, part, join.name),
    });
  }

  /** Whether another way that changes wires is no worse as it stands. */
  private isBeaten({ ticks, parts }: Standing): boolean {
    return this.ways_.some(
      ({ kind, stands }) =>
        kind !== 'state-rail' && stands !== null && (stands.ticks - ticks || stands.parts - parts) <= 0,
    );
  }

  /** What a join was meant to be, over its legs; null when its legs do not decide it. */
  private meantOver(
    join: BuiltElement,
    turned: readonly number[] | null,
  ): ((legs: readonly Expression[]) => Expression) | null {
    const { base } = this;
    if (turned === null) return null;
    const names = turned.map((wire) => base.built.names[wire]);
    const isOr = base.built.logic === 'or';
    const levels = join.legs.map((leg) =>
      names.includes(leg) ? not(this.level(leg), base.rowBits) : this.level(leg),
    );
    const wish = base.wished[builtWire(base.built, join.name)];
    const isStraight = agree(base, combined(levels, isOr), wish);
    return (legs) => {
      const args = legs.map(
        (leg, n): Expression => (names.includes(join.legs[n]) ? { kind: 'not', argument: leg } : leg),
      );
      const joined: Expression = { kind: isOr ? 'or' : 'and', args };
      return isStraight ? joined : { kind: 'not', argument: joined };
    };
  }

  /** A wire on the wrong rail, or that is something else altogether. */
  private atWire(): void {
    const { base, finding } = this;
    const element = this.element(this.name);
    const wire = builtWire(base.built, this.name);
    if (element === undefined) return;
    if (finding.kind === 'wrong-rail') {
      this.stateOtherRail();
      const raw = this.fresh(`${this.name}_raw`);
      this.offerChange(
        'invert',
        `put an inverter behind ${this.name}`,
        elementOf({ name: this.name, gate: 'not', legs: [raw] }, element),
        [{ ...element, name: raw }],
      );
      const other = OPPOSITE[element.gate];
      if (other !== null) {
        const what = `build ${other === 'separate' ? 'no inverter' : other.toUpperCase()} of ${list(element.legs)} instead of ${element.gate.toUpperCase()}`;
        const kind =
          other === 'nor' ? 'nor' : other === 'nand' ? 'nand' : other === 'and' ? 'and' : 'other-rail';
        this.offerChange(
          kind,
          what,
          elementOf({ name: this.name, gate: other, legs: element.legs }, element),
          [],
        );
      }
    }
    const wish = base.wished[wire];
    const reach = partBehind({ ...base.block, keep: [] }, this.name);
    const names = [...base.block.inputs, ...base.block.elements].map(({ name }) => name);
    const right = names.find(
      (name) => !reach.has(name) && !this.isBehind(name) && agree(base, this.level(name), wish),
    );
    if (right !== undefined) {
      const what = `take ${right} for it: there the signal is on that rail`;
      this.offerChange(
        'other-rail',
        what,
        elementOf({ name: this.name, gate: 'separate', legs: [right] }, element),
        [],
      );
    }
    this.rebuild();
  }

  /** The wire stays, the words about it change; proved by comparing what it carries with what is said then. */
  private stateOtherRail(): void {
    const { base } = this;
    const meaning = base.block.meanings.find(({ wire }) => wire === this.name);
    const wish = base.wishes.byWire[builtWire(base.built, this.name)];
    if (wish === null || (wish.stated !== 'is' && wish.stated !== 'output')) return;
    const rail = wish.rail === 'high' ? 'low' : 'high';
    const block: BuiltBlock =
      meaning === undefined
        ? {
            ...base.block,
            outputs: base.block.outputs.map((output) =>
              output.wire === this.name ? { ...output, rail } : output,
            ),
          }
        : {
            ...base.block,
            meanings: base.block.meanings.map((other) => (other === meaning ? { ...other, rail } : other)),
            outputs: base.block.outputs.map((output) =>
              output.wire === this.name && output.rail !== null ? { ...output, rail } : output,
            ),
          };
    const system = referenceSystem(base.built, base.wishes, new Set());
    const network = networkFor(block, base.target, system);
    if (network === null || this.judge(system, network) !== 'equal') return;
    const again = resurvey(base, block, this.equations);
    const wire = builtWire(again.built, this.name);
    const says = wish.part ? again.drawn[wire] : again.wished[wire];
    if (!agree(again, again.drawn[wire], says)) return;
    const what = `say that ${this.name} is active-${rail === 'low' ? 'low' : 'high'}, if that is what its readers expect`;
    this.add({ kind: 'state-rail', what, stands: this.standing(block), remade: null, consumer: null });
  }

  /** The wire is made anew from the inputs of the block. */
  private rebuild(): void {
    const { base } = this;
    const wire = builtWire(base.built, this.name);
    const wish = base.wishes.byWire[wire];
    const element = this.element(this.name);
    if (wish === null || wish.part || element === undefined) return;
    const inputs = base.block.inputs.map(({ name }) => name);
    const terms = expressionOver(base, base.wished[wire], inputs);
    if (terms === null) return;
    const stub: BuiltElement = elementOf({ name: this.name, gate: 'nor', legs: inputs }, element);
    const block = withElements(
      base.block,
      base.block.elements.map((other) => (other === element ? stub : other)),
    );
    const again = resurvey(base, block, this.equations);
    const standing = this.proved(remake(again, new Set([this.name]), new Map([[this.name, terms]])));
    if (standing === null || this.isBeaten(standing)) return;
    const what = `build ${this.name} anew from the inputs`;
    this.add({ kind: 'rebuild', what, stands: standing, remade: null, consumer: null });
  }

  private atSharedWire(): void {
    const { base, shared } = this;
    const { block } = base;
    const parted = separateShared(block, new Set(shared));
    const old = new Set(block.elements.map(({ name }) => name));
    const added = parted.elements.filter(({ name }) => !old.has(name));
    if (added.length === 0) return;
    const names = new Set(added.map(({ name }) => name));
    const into = list(
      parted.elements
        .filter(({ name, legs }) => old.has(name) && legs.some((leg) => names.has(leg)))
        .map(({ name }) => name),
    );
    const who = list(shared);
    const several = shared.length > 1;
    this.offer({
      kind: 'separate',
      what: several
        ? `lead separate wires from the drivers of ${who} into ${into}`
        : `lead a separate wire from the driver of ${who} into ${into}`,
      block: parted,
      from: null,
    });
    /** The block with something else in place of each separate wire. */
    const swap = (make: (tap: BuiltElement) => readonly BuiltElement[]): BuiltBlock =>
      withElements(
        block,
        parted.elements.flatMap((element) => (names.has(element.name) ? make(element) : [element])),
      );
    const makers = shared.map((name) => this.element(name));
    if (makers.every((maker) => maker !== undefined && !['join', 'separate', 'wire'].includes(maker.gate))) {
      this.offer({
        kind: 'copy',
        what: `copy the ${several ? 'drivers' : 'driver'} of ${who}: one for ${into}, one for the rest`,
        block: swap((tap) => [{ ...(this.element(tap.legs[0]) ?? tap), name: tap.name }]),
        from: null,
      });
    }
    const taken = new Set(names);
    const made = new Map<string, string>();
    this.offer({
      kind: 'isolate',
      what: `put two inverters between ${who} and ${into}: nothing comes back through them`,
      block: swap(({ name, legs: [leg] }) => {
        const known = made.get(leg);
        const first = known ?? freshName(block, `${leg}_not`, taken);
        taken.add(first);
        made.set(leg, first);
        const under = known === undefined ? [elementOf({ name: first, gate: 'not', legs: [leg] })] : [];
        return [...under, elementOf({ name, gate: 'not', legs: [first] })];
      }),
      from: null,
    });
    for (const join of this.joins) this.spread(join);
  }

  /** The legs of a join at the inputs of its readers, where nothing is tied. */
  private spread(name: string): void {
    const { base } = this;
    const join = this.element(name);
    const isOr = base.built.logic === 'or';
    const gate = isOr ? 'nor' : 'nand';
    if (join === undefined || join.gate !== 'join' || base.block.keep.includes(name)) return;
    if (base.block.outputs.some(({ wire }) => wire === name)) return;
    const readers = base.block.elements.filter(({ legs }) => legs.includes(name));
    if (readers.length === 0 || readers.some((reader) => reader.gate !== gate && reader.gate !== 'not'))
      return;
    const elements = base.block.elements.flatMap((element): BuiltElement[] => {
      if (element === join) return [];
      if (!element.legs.includes(name)) return [element];
      const legs = [...new Set(element.legs.flatMap((leg) => (leg === name ? join.legs : [leg])))];
      return [elementOf({ name: element.name, gate: legs.length > 1 ? gate : 'not', legs }, element)];
    });
    const what = `lead ${list(join.legs)} apart into ${list(readers.map((reader) => reader.name))}: the legs of an inverter tie nothing`;
    this.offer({ kind: 'spread', what, block: withElements(base.block, elements), from: null });
  }

  /** Where joins stand at inverters only: an inverter takes the legs, another turns it back. */
  private underInverters(): void {
    const join = this.element(this.name);
    if (join === undefined) return;
    const { base } = this;
    const isOr = base.built.logic === 'or';
    const under = this.fresh(`${this.name}_not`);
    const legs = join.legs;
    const gate = isOr ? 'nor' : 'nand';
    if (join.gate === 'nand' || join.gate === 'nor') {
      const what = `put an inverter over the joined legs of ${this.name} and one behind it`;
      const other = join.gate === 'nand' ? 'and' : 'nor';
      this.offerChange('gather', what, elementOf({ name: this.name, gate: 'not', legs: [under] }, join), [
        elementOf({ name: under, gate: other, legs }),
      ]);
      return;
    }
    this.offerChange(
      'gather',
      `let an inverter take ${list(legs)} and put a second behind it`,
      elementOf({ name: this.name, gate: 'not', legs: [under] }, join),
      [elementOf({ name: under, gate, legs })],
    );
  }

  /** Too many legs: the earliest of them pass through two inverters and come out as one. */
  private gather(most: number): void {
    const { base } = this;
    const element = this.element(this.name);
    const isOr = base.built.logic === 'or';
    if (element === undefined) return;
    if (['join', 'nor', 'nand'].includes(element.gate) && most > 1) {
      const { wireTicks } = builtCosts(base.built, base.target);
      const tick = (leg: string): number => wireTicks[builtWire(base.built, leg)] ?? 0;
      let legs = [...element.legs];
      const added: BuiltElement[] = [];
      const taken = new Set<string>();
      const late = new Set<string>();
      const isOrGate = element.gate === 'join' || (element.gate === 'nor') === isOr;
      while (legs.length > most && isOrGate) {
        const count = Math.min(most, legs.length - most + 1);
        const early = [...legs].sort(
          (a, b) => Number(late.has(a)) - Number(late.has(b)) || tick(a) - tick(b),
        );
        const group = early.slice(0, count);
        const fresh = (suffix: string): string => {
          const name = freshName(base.block, `${this.name}_${suffix}`, taken);
          taken.add(name);
          return name;
        };
        const [under, over] = [fresh('part_not'), fresh('part')];
        added.push(elementOf({ name: under, gate: isOr ? 'nor' : 'nand', legs: group }));
        added.push(elementOf({ name: over, gate: 'not', legs: [under] }));
        late.add(over);
        legs = [...legs.filter((leg) => !group.includes(leg)), over];
      }
      if (added.length > 0) {
        const what = `gather legs of ${this.name} under pairs of inverters`;
        this.offerChange(
          'gather',
          what,
          elementOf({ name: this.name, gate: element.gate, legs }, element),
          added,
        );
      }
    }
    const part = new Set([this.name]);
    const standing = this.proved(remake(base, part, new Map()));
    if (standing === null) return;
    const what = `build ${this.name} from its legs as the search does`;
    this.add({ kind: 'rebuild', what, stands: standing, remade: null, consumer: null });
  }

  private offerChange(
    kind: WayKind,
    what: string,
    changed: BuiltElement,
    added: readonly BuiltElement[],
  ): void {
    const { block } = this.base;
    const elements = block.elements.map((element) => (element.name === changed.name ? changed : element));
    const next = withElements(block, [...added, ...elements]);
    const legs = new Set([...changed.legs, ...added.flatMap((element) => element.legs)]);
    this.offer({ kind, what, block: separateShared(withoutDead(next, block), legs), from: changed.name });
  }

  /** Counts and proves a change, and what becomes of its readers when they are made anew. */
  private offer({ kind, what, block, from }: Draft): void {
    const stands = this.provedBlock(block);
    if (stands === null) return;
    let remade: Standing | null = null;
    let consumer: string | null = null;
    if (from !== null) {
      const part = partBehind(block, from);
      part.delete(from);
      if (part.size > 0) {
        const again = resurvey(this.base, block, this.equations);
        const found = this.proved(remake(again, part, new Map(), [from]));
        const isBetter = found !== null && (found.ticks - stands.ticks || found.parts - stands.parts) < 0;
        remade = isBetter ? found : stands;
        consumer = consumerWords(this.base, part, from);
      }
    }
    this.add({ kind, what, stands, remade, consumer });
  }

  private add(way: WayOut): void {
    const key = (way.stands ?? way.remade)?.block ?? '';
    if (this.seen.has(key)) return;
    this.seen.add(key);
    this.ways_.push(way);
  }

  private proved(remade: Remade | null): Standing | null {
    return remade === null ? null : this.provedBlock(remade.block);
  }

  private provedBlock(block: BuiltBlock): Standing | null {
    const { base } = this;
    const asMeant = new Set(this.isMeant ? [builtWire(base.built, this.name)] : []);
    const system = referenceSystem(base.built, base.wishes, asMeant);
    const network = networkFor(block, base.target, system);
    return network !== null && this.judge(system, network) === 'equal' ? this.standing(block) : null;
  }

  private standing(block: BuiltBlock): Standing {
    const built = layBuilt(block, this.base.target);
    const costs = builtCosts(built, this.base.target);
    const before = new Set(this.base.block.elements.map(printElement));
    return {
      ticks: costs.ticks,
      parts: costs.parts,
      outputs: block.outputs.map(({ wire }, y) => ({ wire, tick: costs.outputTicks[y] })),
      block: printBuilt(block),
      lines: block.elements.map(printElement).filter((line) => !before.has(line)),
    };
  }
}

const OPPOSITE: Readonly<Record<BuiltElement['gate'], BuiltElement['gate'] | null>> = {
  join: 'nor',
  nor: 'join',
  nand: 'and',
  and: 'nand',
  not: 'separate',
  wire: null,
  separate: 'not',
};

/** The name of the element that a wire belongs to. */
export function namedWire(found: Survey, wire: number): string {
  const element = found.built.element[wire];
  return element < 0 ? found.built.names[wire] : found.block.elements[element].name;
}

function resurvey(found: Survey, block: BuiltBlock, equations: EquationsOf): Survey {
  if (block === found.block) return found;
  const built = layBuilt(block, found.target);
  const { value } = readWishes(block, built, equations);
  if (value === null) throw new Error('a changed block says something unknown');
  return survey(block, built, found.target, value);
}

function combined(levels: readonly Table[], isOr: boolean): Table {
  const result: Table = new Uint32Array(levels[0]);
  for (const level of levels.slice(1)) {
    for (let w = 0; w < result.length; w++) result[w] = isOr ? result[w] | level[w] : result[w] & level[w];
  }
  return result;
}

/** A level as an expression over input wires of a block, row by row; null for more rows than are worth it. */
function expressionOver(
  found: Survey,
  level: Table,
  names: readonly string[],
): ((legs: readonly Expression[]) => Expression) | null {
  if (!found.exhaustive || names.length > 8 || found.wishes.system.inputs.length > 12) return null;
  const columns = names.map((name) => found.drawn[builtWire(found.built, name)]);
  const on = new Set<number>();
  const off = new Set<number>();
  for (let row = 0; row < 2 ** found.rowBits; row++) {
    const bit = (table: Table): number => (table[row >> 5] >>> (row & 31)) & 1;
    if (bit(found.care) === 0) continue;
    const pattern = columns.reduce((sum, column, n) => sum | (bit(column) << n), 0);
    (bit(level) === 1 ? on : off).add(pattern);
  }
  if ([...on].some((pattern) => off.has(pattern))) return null;
  return (legs) => {
    const rows = [...on]
      .sort((a, b) => a - b)
      .map(
        (pattern): Expression => ({
          kind: 'and',
          args: legs.map(
            (leg, n): Expression => (((pattern >> n) & 1) === 1 ? leg : { kind: 'not', argument: leg }),
          ),
        }),
      );
    return rows.length === 0 ? { kind: 'constant', value: 0 } : { kind: 'or', args: rows };
  };
}

function list(names: readonly string[]): string {
  const once = [...new Set(names)];
  return once.length < 2 ? (once[0] ?? '') : `${once.slice(0, -1).join(', ')} and ${once.at(-1)}`;
}

function compareWays(a: WayOut, b: WayOut): number {
  const best = ({ stands, remade }: WayOut): readonly number[] => {
    const end = remade ?? stands;
    const now = stands ?? remade;
    return [end?.ticks ?? 0, end?.parts ?? 0, now?.ticks ?? 0, now?.parts ?? 0];
  };
  const [left, right] = [best(a), best(b)];
  for (let n = 0; n < left.length; n++) if (left[n] !== right[n]) return left[n] - right[n];
  return 0;
}
