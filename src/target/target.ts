// A target with every default filled in. The profile that a reader writes is checked against target.schema.json;
// `readTarget` turns it into this.

/** What joined wires compute. */
export type JoinLogic = 'or' | 'and';

export interface Target {
  readonly name: string;
  readonly summary: string;
  readonly join: {
    readonly logic: JoinLogic;
    /** Ticks from the latest leg to the joined wire. */
    readonly ticks: number;
    /** `inverter-inputs`: an output must be one wire; legs can only meet at an inverter. */
    readonly where: 'anywhere' | 'inverter-inputs';
    /** Most legs of a join that is an output, null for any number. */
    readonly maxLegs: number | null;
  };
  readonly inverter: {
    /** Ticks from the latest leg to the level of the inverter, the larger of on and off. */
    readonly ticks: number;
    readonly ticksOn: number;
    readonly ticksOff: number;
    /** Parts that one inverter counts. */
    readonly parts: number;
    /** Most legs of an inverter, null for any number. */
    readonly maxLegs: number | null;
    /** Separate wires one inverter can feed, null for any number. */
    readonly outputs: number | null;
    readonly minPulse: number;
    readonly wear: { readonly changes: number; readonly window: number } | null;
  };
  readonly input: {
    /** Separate wires one input can feed, null for any number. */
    readonly outputs: number | null;
  };
  readonly secondsPerTick: number | null;
}
