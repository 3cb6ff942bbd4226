// Generated from row.schema.json by `npm run types`; do not edit.
// One system on a line of a JSON Lines file.

/**
 * One system on a line of a JSON Lines file: equations, or truth tables with their inputs.
 */
export interface SystemRow {
  /**
   * What the results call it.
   */
  name?: string;
  equations?: string;
  /**
   * Inputs of the tables; the first is the lowest bit of a row.
   *
   * @minItems 1
   * @maxItems 20
   */
  inputs?: string[];
  /**
   * For every output its levels, row 0 first: 0, 1, or - where the row is free.
   */
  tables?: {
    [k: string]: string;
  };
}
