// What the generated validators report. The validators themselves are written by `bin/types.js` from the schemas.

/** One place where a value breaks its schema. */
export interface SchemaFault {
  /** Where the value stands, as a JSON pointer: `/inverter/ticks`, empty for the whole. */
  readonly instancePath: string;
  /** Which rule of the schema is broken: `type`, `enum`, `required`, ... */
  readonly keyword: string;
  /** What the rule asks for, by keyword. */
  readonly params: Readonly<Record<string, unknown>>;
}
