// Growing and shrinking: the search that improves a whole network under tick bounds, all outputs together.
//
// Idea. Shrink: for each inverter, in random order, give every user of it other legs, one user after the other, each
// under the exact freedom it has at that moment (recover.ts); if all users can do without, the inverter goes, and with
// it whatever only it needed. When nothing can go any more, grow: give some inverters other legs at the same price, give
// them legs that change their level only on rows where it does not matter, put a new inverter in place of an old one,
// add one that takes over one leg of one user, or force an inverter out with as many new ones as that takes; then
// shrink again. What comes out is kept when it is no larger; a little larger is kept now and then, so that the search
// does not stall; the best is remembered.
//
// Why legs that nobody needs. Two inverters NOT a and NOT b are often both free to be NOR(a, b), but only together: no
// user can change over to the other before that one has the second leg, and that leg alone saves nothing. Such legs are
// what brings inverters together. Forcing out is what leaves a valley that no small step leaves.
//
// Correctness. Every single change is right for the network as it stands (see workbench.ts), so every state is.
//
// Control. Where the rows are a sample, a second, much larger one may stand by: the moves are found on the small one,
// which is quick, and each that succeeds is made on the large one too and taken back if an output goes wrong there. The
// rows where that happened are handed back, so that the small sample can learn them.
//
// Limits on legs. A draft may come in that has more legs somewhere than the target allows: then every leg too many costs
// as much as `EXCESS` inverters, no user that has too many gets more, and growing also takes several legs of such a user
// together, by a new inverter that serves in their place or by two in a row where there is time. So a network that was
// found without limits comes within them, mostly at little cost.
//
// Cost. Counted in words of tables read; one shrink pass is about (inverters) x (users) x (cone) x (words).
//
// Lost. Plain annealing over single leg changes stalls far above; accepting only what is better stalls a little later.
// Without needless legs and forcing out, eighteen to thirty-six times the rounds found nothing on nine networks of 18 to
// 33 inverters, of which five can lose one to four.

import { ZERO } from '../network/network.ts';
import { wordLoops } from '../truth/word-loops.ts';
import type { Draft } from './draft.ts';
import type { Random } from './random.ts';
import { Recovery, type User } from './recover.ts';
import type { Task } from './task.ts';
import { type BenchState, Workbench } from './workbench.ts';

export interface Improvement {
  readonly draft: Draft;
  readonly size: number;
  /** Legs beyond the limits of the target; 0 unless the draft came with such. */
  readonly excess: number;
  readonly rounds: number;
  /** Words spent. */
  readonly work: number;
  /** Rows of the control on which a move turned out wrong. */
  readonly learned: readonly number[];
}

/** Improves a draft under tick bounds until `work` words have been spent; never returns a larger one. */
export function growAndShrink(
  task: Task,
  draft: Draft,
  bounds: readonly number[],
  random: Random,
  work: number,
  control: Task | null = null,
): Improvement {
  const loops = wordLoops();
  const mark = loops.mark();
  try {
    return new GrowAndShrink(task, draft, bounds, random, control).run(work);
  } finally {
    loops.release(mark);
  }
}

/** Most growing moves between two shrinkings. */
const MOVES = 24;
/** Once in so many rounds shrinking tries every inverter, else those touched and one in `OTHERS` of the rest. */
const FULL_EVERY = 8;
const OTHERS = 6;
/** Once in so many rounds a network one inverter larger is kept. */
const SLACK_EVERY = 4;
/** But never so many inverters more than the best. */
const MOST_SLACK = 3;
/** In one round of so many an inverter or two are forced out. */
const FORCE_EVERY = 2;
const MOST_FORCED = 2;
/** New inverters for one user of an inverter that is forced out. */
const MOST_PARTS = 8;
/** So many rounds for each inverter without anything better end the search: with small networks that is soon. */
const STALE = 25;
/** With more words than so many the end comes later, as their square root. */
const STALE_WORK = 6e7;
/** What a leg too many costs, in inverters. */
const EXCESS = 3;

class GrowAndShrink {
  private readonly bench: Workbench;
  private readonly random: Random;
  private readonly recovery: Recovery;
  /** Changes since a move began, with what was there before. */
  private journal: { user: User; legs: readonly number[] }[] = [];
  /** Number of the network when the move began; -1 when what it has made since stays. */
  private before = -1;
  /** By inverter slot: the last round in which its legs or users have changed. */
  private readonly touched: number[] = [];
  private round = 0;

  /** The same network on the rows of the control. */
  private readonly shadow: Workbench | null;
  private readonly learned: number[] = [];

  constructor(task: Task, draft: Draft, bounds: readonly number[], random: Random, control: Task | null) {
    this.bench = new Workbench(task, draft, bounds);
    this.shadow = control === null ? null : new Workbench(control, draft, bounds);
    this.random = random;
    this.recovery = new Recovery(this.bench, random);
  }

  run(work: number): Improvement {
    const { bench, random } = this;
    this.shrink(work);
    let best = bench.save();
    let bestCost = this.cost();
    let bestSize = bench.size;
    let current: BenchState = best;
    let currentCost = bestCost;
    let rounds = 0;
    let last = 0;
    const stale = STALE * Math.max(1, Math.sqrt(work / STALE_WORK));
    while (bench.work < work && rounds - last < stale * (1 + bestSize)) {
      rounds++;
      const moves = 1 + random.below(MOVES);
      this.round = rounds;
      for (let n = 0; n < moves; n++) this.grow();
      if (random.oneIn(FORCE_EVERY)) {
        for (let n = 1 + random.below(MOST_FORCED); n > 0; n--) {
          const i = this.anyInverter();
          if (i >= 0) this.forceOut(i);
        }
      }
      this.shrink(work, random.oneIn(FULL_EVERY));
      const slack = random.oneIn(SLACK_EVERY) ? 1 : 0;
      const cost = this.cost();
      if (cost <= currentCost + slack && cost <= bestCost + MOST_SLACK) {
        current = bench.save();
        currentCost = cost;
        if (cost < bestCost) {
          last = rounds;
          best = current;
          bestCost = cost;
          bestSize = bench.size;
        }
      } else {
        bench.load(current);
        this.shadow?.load(current);
      }
    }
    bench.load(best);
    const excess = (bestCost - bestSize) / EXCESS;
    return {
      draft: bench.toDraft(),
      size: bestSize,
      excess,
      rounds,
      work: bench.work,
      learned: this.learned,
    };
  }

  private cost(): number {
    return this.bench.size + EXCESS * this.bench.excess();
  }

  /** Lets go of what can go: of everything, or of what was touched and a random part of the rest. */
  private shrink(work: number, full = true): void {
    const { bench, random } = this;
    let again = true;
    while (again && bench.work < work) {
      again = false;
      const slots: number[] = [];
      for (let i = 0; i < bench.legs.length; i++) {
        if (bench.legs[i].length === 0) continue;
        if (full || this.touched[i] === this.round || random.oneIn(OTHERS)) slots.push(i);
      }
      random.shuffle(slots);
      for (const i of slots) {
        if (bench.legs[i].length > 0 && this.remove(i)) again = true;
        if (bench.work >= work) return;
      }
    }
  }

  /** Lets go of inverter `i` if all its users can do without, or with one new inverter where that is allowed. */
  private remove(i: number, mayReplace = false): boolean {
    const { bench, recovery } = this;
    const wire = bench.first + i;
    let spare = mayReplace;
    this.begin();
    // Outputs first: their freedom is known without asking.
    for (const user of [...bench.uses[wire]].sort((a, b) => a - b)) {
      recovery.aim(user);
      let legs = recovery.cover(user, wire);
      if (legs === null && spare) {
        spare = false;
        const fresh = recovery.newLeg(user, [wire]);
        if (fresh !== null) legs = [...this.legsWithout(user, wire), this.newInverter(fresh)];
      }
      if (legs === null) {
        this.undo();
        if (mayReplace) this.clear();
        return false;
      }
      this.apply(user, legs);
    }
    if (!this.controlled()) return false;
    this.clear();
    return true;
  }

  /** Lets go of inverter `i` whatever it takes: new inverters stand in where the others cannot. */
  private forceOut(i: number): void {
    const { bench, recovery } = this;
    const wire = bench.first + i;
    this.begin();
    for (const user of [...bench.uses[wire]].sort((a, b) => a - b)) {
      recovery.aim(user);
      const legs = this.legsWithout(user, wire);
      recovery.coverPartly(legs, wire);
      for (let n = 0; n < MOST_PARTS && !recovery.isCovered(legs); n++) {
        const part = recovery.partLeg(legs, wire);
        if (part === null) break;
        legs.push(this.newInverter(part));
      }
      const thinned = recovery.isCovered(legs) ? recovery.thin(legs, user) : null;
      if (thinned === null) {
        this.undo();
        this.clear();
        return;
      }
      this.apply(user, thinned.length === 0 ? [ZERO] : thinned);
    }
    this.controlled();
    this.clear();
  }

  private grow(): void {
    const { bench, random } = this;
    const crowded = bench.isLimited && random.oneIn(2) ? this.crowdedUser() : null;
    if (crowded !== null) {
      this.gather(crowded);
      return;
    }
    const kind = random.below(20);
    if (kind < 10) this.connect();
    else if (kind < 12) this.replace();
    else this.changeLegs(kind);
  }

  /** One leg more for an inverter, that changes its level only where it does not matter. */
  private connect(): void {
    const { bench, recovery } = this;
    const i = this.anyInverter();
    if (i < 0) return;
    this.begin();
    recovery.aim(i);
    const wire = recovery.connectable(i);
    if (wire < 0) return;
    this.apply(i, [...bench.legs[i], wire]);
    this.controlled();
  }

  /** A new inverter in place of an old one. */
  private replace(): void {
    const i = this.anyInverter();
    if (i >= 0) this.remove(i, true);
  }

  /** Other legs for a user, or a new inverter that takes over one of its legs. */
  private changeLegs(kind: number): void {
    const { bench, random, recovery } = this;
    const user = this.anyUser();
    const legs = recovery.legsOf(user);
    const leg = legs[random.below(legs.length)];
    recovery.aim(user);
    this.begin();
    if (kind < 17) {
      // The same user, other legs.
      const other = kind < 16 ? recovery.exchange(user) : recovery.cover(user, leg);
      if (other !== null) this.apply(user, other);
    } else {
      const fresh = recovery.newLeg(user, [leg]);
      if (fresh !== null) {
        const wire = this.newInverter(fresh);
        // The new inverter first, the old leg goes; what became needless goes too.
        this.apply(user, [...this.legsWithout(user, leg), wire]);
        if (bench.uses[wire].length === 0) this.setLegs(wire - bench.first, []);
      }
    }
    this.controlled();
    this.clear();
  }

  /** One inverter, or two in a row, in place of several legs of a user that has too many. */
  private gather(user: User): void {
    const { bench, random, recovery } = this;
    const legs = [...recovery.legsOf(user)];
    const most = Math.min(bench.task.rules.inverterLegs, legs.length);
    if (most < 2) return;
    const { inverterTicks, joinTicks } = bench.task.rules;
    recovery.aim(user);
    this.begin();
    const count = 2 + random.below(most - 1);
    const group = random.shuffle(legs).slice(0, count);
    const rest = legs.slice(count);
    const fresh = recovery.newLeg(user, group);
    const twice = recovery.latestLeg - 2 * (inverterTicks + joinTicks);
    if (fresh !== null) {
      this.apply(user, [...rest, this.newInverter(fresh)]);
    } else if (group.every((leg) => bench.tick[leg] <= twice)) {
      const inner = this.newInverter(group);
      this.apply(user, [...rest, this.newInverter([inner])]);
    }
    this.controlled();
    this.clear();
  }

  private begin(): void {
    this.journal = [];
    this.before = this.bench.current;
  }

  private newInverter(legs: readonly number[]): number {
    const { bench } = this;
    this.before = -1;
    const slot = bench.freeSlot();
    this.shadow?.freeSlot();
    this.setLegs(slot, legs);
    return bench.first + slot;
  }

  /** A random user among those that have too many legs. */
  private crowdedUser(): User | null {
    const users = this.bench.crowded();
    return users.length === 0 ? null : users[this.random.below(users.length)];
  }

  private legsWithout(user: User, wire: number): number[] {
    return this.recovery.legsOf(user).filter((leg) => leg !== wire);
  }

  /** A random slot that holds an inverter, or -1 where an empty one is met. */
  private anyInverter(): number {
    const { bench, random } = this;
    const slots = bench.legs.length;
    const i = random.below(slots);
    return i < slots && bench.legs[i].length > 0 ? i : -1;
  }

  private anyUser(): User {
    const { bench, random } = this;
    for (;;) {
      const n = random.below(bench.legs.length + bench.outputs.length);
      if (n >= bench.legs.length) return -1 - (n - bench.legs.length);
      if (bench.legs[n].length > 0) return n;
    }
  }

  private apply(user: User, legs: readonly number[]): void {
    const { bench } = this;
    const before = [...this.recovery.legsOf(user)];
    this.journal.push({ user, legs: before });
    if (user >= 0) this.touch(user);
    for (const leg of before) this.touch(leg - bench.first);
    for (const leg of legs) this.touch(leg - bench.first);
    this.setLegs(user, legs);
    bench.relax();
  }

  private touch(slot: number): void {
    if (slot < 0) return;
    while (this.touched.length <= slot) this.touched.push(-1);
    this.touched[slot] = this.round;
  }

  /** Is the move right on the control? If not it is taken back. */
  private controlled(): boolean {
    const { bench, shadow } = this;
    if (shadow === null || this.journal.length === 0) return true;
    const row = shadow.wrongRow();
    bench.work += shadow.work;
    shadow.work = 0;
    if (row < 0) return true;
    this.learned.push(row);
    this.undo();
    return false;
  }

  private setLegs(user: User, legs: readonly number[]): void {
    for (const bench of [this.bench, this.shadow]) {
      if (user >= 0) bench?.setLegs(user, legs);
      else bench?.setOutput(-1 - user, legs);
    }
  }

  private undo(): void {
    const { bench } = this;
    if (this.journal.length === 0) return;
    for (let n = this.journal.length - 1; n >= 0; n--) {
      const { user, legs } = this.journal[n];
      this.setLegs(user, legs);
    }
    if (this.before >= 0) bench.isBackAt(this.before);
    this.journal = [];
    bench.relax();
  }

  /** Lets go of everything that no longer has a user. */
  private clear(): void {
    const { bench } = this;
    let changed = false;
    for (let i = 0; i < bench.legs.length; i++) {
      if (bench.legs[i].length > 0 && bench.uses[bench.first + i].length === 0) {
        bench.sweep(i);
        this.shadow?.sweep(i);
        changed = true;
      }
    }
    if (changed) bench.relax();
  }
}
