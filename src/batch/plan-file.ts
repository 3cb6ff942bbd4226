// Generated from plan.schema.json by `npm run types`; do not edit.
// The plan of a batch as its author writes it.

/**
 * What a batch does with every system.
 */
export interface BatchPlanFile {
  /**
   * A shipped target, or a file with a profile.
   */
  target?: string;
  effort?: 'quick' | 'normal' | 'deep';
  /**
   * Every system is searched once with each of them; the best answer is kept.
   *
   * @minItems 1
   * @maxItems 64
   */
  seeds?: number[];
  /**
   * Settle within so many ticks.
   */
  ticks?: number;
  /**
   * The fastest with at most so many parts.
   */
  parts?: number;
  /**
   * So many times the parts of the smallest network.
   */
  budget?: number;
  /**
   * Find the fewest parts at every number of ticks.
   */
  frontier?: boolean;
  /**
   * What a row of the results holds: the figures alone, or the networks as well.
   */
  keep?: 'figures' | 'networks';
  /**
   * Systems beyond these are failed rows and are not searched.
   */
  limits?: {
    inputs?: number;
    outputs?: number;
    operators?: number;
  };
}
