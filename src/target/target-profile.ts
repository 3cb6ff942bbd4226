// Generated from target.schema.json by `npm run types`; do not edit.
// A target profile as its author writes it.

/**
 * What the parts of a place where networks are built can do. Every field but the name may be left out; the defaults are those of the target joined-or.
 */
export interface TargetProfile {
  /**
   * Where this schema lies, for editors. Not read.
   */
  $schema?: string;
  /**
   * Name of the target: letters, digits, dots, dashes and underscores, at most 64, a letter or digit first.
   */
  name: string;
  /**
   * One line about the target. Default: empty.
   */
  summary?: string;
  /**
   * Wires tied together.
   */
  join?: {
    /**
     * What joined wires compute from the levels of their legs. Default: or.
     */
    logic?: 'or' | 'and';
    /**
     * Ticks from the latest leg to the joined wire. Default: 0.
     */
    ticks?: number;
    /**
     * Where wires may be joined. inverter-inputs: legs meet at the input of an inverter only, and an output is one wire. Default: anywhere.
     */
    where?: 'anywhere' | 'inverter-inputs';
    /**
     * Most legs of a join that is an output; null for any number. Default: null.
     */
    maxLegs?: number | null;
  };
  /**
   * The one part there is.
   */
  inverter?: {
    /**
     * Ticks from the latest leg to the level of the inverter. Default: the larger of ticksOn and ticksOff, or 1 when none of them is given.
     */
    ticks?: number;
    /**
     * Ticks until the inverter is at level 1. Default: ticks.
     */
    ticksOn?: number;
    /**
     * Ticks until the inverter is at level 0. Default: ticks.
     */
    ticksOff?: number;
    /**
     * Parts that one inverter counts. Default: 1.
     */
    parts?: number;
    /**
     * Most legs of an inverter; null for any number. Default: null.
     */
    maxLegs?: number | null;
    /**
     * How many separate wires one inverter can feed; null for any number. Default: null.
     */
    outputs?: number | null;
    /**
     * Shortest pulse, in ticks, that an inverter passes on; 0 for every pulse. Default: 0.
     */
    minPulse?: number;
    /**
     * How often an inverter may change; null for any number of times. Default: null.
     */
    wear?: {
      /**
       * Most changes of level within the window.
       */
      changes: number;
      /**
       * Length of the window in ticks.
       */
      window: number;
    } | null;
  };
  /**
   * Wires that come from outside.
   */
  input?: {
    /**
     * How many separate wires one input can feed; null for any number. Default: null.
     */
    outputs?: number | null;
  };
  /**
   * Length of a tick in seconds, for reports; null when it is not known. Default: null.
   */
  secondsPerTick?: number | null;
}
