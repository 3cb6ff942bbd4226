// Generated from result.schema.json by `npm run types`; do not edit.
// The array of results that --json prints.

/**
 * Every operator of the equations a gate of its own, nothing shared but named signals; null when there are faults.
 */
export type AsWritten = {
  ticks: number;
  parts: number;
} | null;
/**
 * The fewest ticks that any network needs; null when there are faults.
 */
export type Fastest = {
  ticks: number;
  /**
   * No network has fewer ticks.
   */
  proved: boolean;
  /**
   * Parts of the smallest network found at these ticks; null when none was built.
   */
  parts: number | null;
} | null;
/**
 * high: the level is the signal (active-high). low: the level is NOT the signal (active-low).
 */
export type WireRail = 'high' | 'low';
/**
 * How many separate wires leave the driver, when there are more than one: one for each join that it stands in and one if it is used alone. They must come from separate outputs, since joined wires are one.
 */
export type SeparateWires = number;
/**
 * Names of wires; never empty.
 *
 * @minItems 1
 */
export type Legs = string[];
/**
 * What --json prints: one object per source. All equation arguments together are one source named `arguments`, each file is one.
 */
export type Results = Result[];

/**
 * The answer for one source.
 */
export interface Result {
  /**
   * Name and version of this contract.
   */
  format: 'tickwright.result/1';
  /**
   * Version of the program.
   */
  version: string;
  /**
   * `arguments`, `standard input` or the file as it was named.
   */
  source: string;
  /**
   * Name of the target.
   */
  target: string;
  /**
   * What joined wires compute under this target. Left out: or.
   */
  join?: 'or' | 'and';
  effort: 'quick' | 'normal' | 'deep';
  seed: number;
  /**
   * Why the search ended: `complete`, all questions were answered; `limit`, a counted limit ended one of them; `cut short`, the caller did; `faults`, it never began.
   */
  stop: string;
  asWritten: AsWritten;
  fastest: Fastest;
  /**
   * With the whole frontier in `points`: the position of the answer under the budget, from 0. Left out: `points` holds the answer alone.
   */
  chosen?: number;
  sharing?: Sharing;
  /**
   * Networks, fewest ticks first: the answer alone, or the whole frontier when it was asked for; empty when there are faults.
   */
  points: Point[];
  /**
   * Faults, warnings and remarks, in the order of the source.
   */
  notices: Notice[];
}
/**
 * What it saves that outputs share inverters; there when that was asked for.
 */
export interface Sharing {
  /**
   * Which outputs may share inverters in the answer: all of them, those of a group, or none.
   */
  way: 'together' | 'grouped' | 'alone';
  /**
   * The outputs in the sets that were searched together, each with the inverters that it is made of.
   */
  groups: SharingGroup[];
  /**
   * Parts at the ticks of the answer when every output is searched alone; null when nothing was found.
   */
  alone: number | null;
  /**
   * The same for groups of outputs that have most of their inputs in common; left out when that was not asked for.
   */
  grouped?: number | null;
  /**
   * The same for all outputs together; never more than the others, which are also networks for all.
   */
  together: number | null;
}
export interface SharingGroup {
  ticks: number;
  parts: number;
  outputs: string[];
}
/**
 * One network with all that is known about it.
 */
export interface Point {
  /**
   * Tick of the latest output.
   */
  ticks: number;
  /**
   * Everything to build, copies included.
   */
  parts: number;
  /**
   * Inverters that are there only because another one feeds too many separate wires.
   */
  copies: number;
  /**
   * Legs of all inverters and outputs together.
   */
  legs: number;
  /**
   * No network of this target has fewer ticks.
   */
  ticksProved: boolean;
  /**
   * No network has fewer parts at this number of ticks.
   */
  partsProved: boolean;
  /**
   * The outputs were searched in so many sets that share nothing, and each is proved to have the fewest parts at this number of ticks. Left out otherwise.
   */
  provedApart?: number;
  network: WireNetwork;
  proof: Proof;
  /**
   * On which rail each named signal is carried, in the order of the source.
   */
  rails: SignalRail[];
}
/**
 * Wires by name. The wires 0 and 1 are the constants of that level. An inverter is NOT (OR of its legs) of levels, whatever the rails mean; an output is the OR of its legs. Where joins are AND, read AND for OR.
 */
export interface WireNetwork {
  /**
   * Wires that come from outside; an input that has both rails has two entries.
   */
  inputs: NetworkInput[];
  /**
   * In topological order, copies included.
   */
  inverters: NetworkInverter[];
  /**
   * Joins that go outside; an output that has both rails has two entries.
   */
  outputs: NetworkOutput[];
}
export interface NetworkInput {
  name: string;
  rail: WireRail;
  wire: string;
  /**
   * When the level settles.
   */
  tick: number;
  separate?: SeparateWires;
}
export interface NetworkInverter {
  wire: string;
  legs: Legs;
  /**
   * When the level settles.
   */
  tick: number;
  separate?: SeparateWires;
  /**
   * The inverter of which this one is a copy, with the same legs.
   */
  copyOf?: string;
  /**
   * With --explain: the signal that the wire carries, as a short product or sum of inputs and named signals, and on which rail.
   */
  meaning?: string;
}
export interface NetworkOutput {
  name: string;
  rail: WireRail;
  legs: Legs;
  /**
   * When the level settles.
   */
  tick: number;
  /**
   * With --explain: the signal that the wire carries, as a short product or sum of inputs and named signals, and on which rail.
   */
  meaning?: string;
}
/**
 * What the independent check of the network against the equations says.
 */
export interface Proof {
  verdict: 'equal' | 'different' | 'undecided';
  method: 'patterns' | 'solver';
  /**
   * By patterns: how many input patterns were compared.
   */
  patterns?: number;
  counterexample?: Counterexample;
}
/**
 * Different: level 0 or 1 of every input signal at which network and equations differ.
 */
export interface Counterexample {
  [k: string]: 0 | 1;
}
/**
 * high or low: on that rail. both: on both rails. absorbed: no wire of its own. split: an active-high piece and an active-low piece whose OR it is (whose AND where joins are AND).
 */
export interface SignalRail {
  signal: string;
  rail: 'high' | 'low' | 'both' | 'absorbed' | 'split';
  wires: string[];
  /**
   * Those of the wires that carry it, or a piece of it, active-low; only for both and split.
   */
  lowWires?: string[];
  /**
   * When the latest of the wires settles; null when there is none.
   */
  tick: number | null;
}
export interface Notice {
  severity: 'error' | 'warning' | 'notice';
  /**
   * Stable name of the kind of notice, for programs.
   */
  code: string;
  message: string;
  /**
   * What to write instead.
   */
  hint?: string;
  /**
   * From 1; null when no text stands behind it.
   */
  line: number | null;
  /**
   * In characters, from 1; null when no text stands behind it.
   */
  column: number | null;
}
