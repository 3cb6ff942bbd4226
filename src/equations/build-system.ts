// Puts a checked text together as a system: numbers the inputs first, then the defined signals in the order of evaluation.

import type { Side } from '../../grammar/syntax.ts';
import type { Collected, CollectedDefinition } from './collect-statements.ts';
import type { Mentions } from './mentions.ts';
import { resolveExpression } from './resolve-expression.ts';
import type {
  Claim,
  Definition,
  Expression,
  Freedom,
  InputDeclaration,
  OutputDeclaration,
  System,
} from './system.ts';
import { FREE, ON, type Rows, rowsExpression } from './table-rows.ts';

/** `order` is that of evaluation, `rows` belongs to the sides that are tables. Nothing here can fail. */
export function buildSystem(
  collected: Collected,
  mentioned: Mentions,
  order: readonly number[],
  rows: ReadonlyMap<Side, Rows>,
): System {
  const all = [...collected.definitions.values()];
  const ordered = order.map((index) => all[index]!);
  const inputNames = collected.declaresInputs
    ? [...collected.inputs.keys()]
    : [...mentioned.keys()].filter((name) => !collected.definitions.has(name));
  const signals = [...inputNames, ...ordered.map(({ name }) => name)];
  const numberOf = new Map(signals.map((name, number) => [name, number]));
  const inputs = inputNames.map((name, signal): InputDeclaration => {
    const declared = collected.inputs.get(name);
    return { signal, rail: declared?.rail ?? 'high', tick: declared?.tick ?? 0 };
  });
  const outputNames = collected.declaresOutputs ? collected.outputs.keys() : collected.definitions.keys();
  const outputs = [...outputNames].map((name): OutputDeclaration => {
    const declared = collected.outputs.get(name);
    return { signal: numberOf.get(name)!, rail: declared?.rail ?? 'high', by: declared?.tick ?? null };
  });
  const builder = new SideBuilder(numberOf, rows);
  const free = freedomsOf(collected, ordered, builder);
  const claims = ordered.flatMap((definition) => builder.claims(definition));
  return {
    signals,
    inputs,
    outputs,
    definitions: ordered.map(
      (definition): Definition => ({
        signal: numberOf.get(definition.name)!,
        expression: builder.expression(definition, definition.sides[0]!),
        at: definition.at,
      }),
    ),
    never: collected.never.map(({ expression }) => resolveExpression(expression, numberOf)),
    neverAt: collected.never.map(({ at }) => at),
    ...(free.length > 0 ? { free } : {}),
    ...(claims.length > 0 ? { claims } : {}),
  };
}

/** In the order of the definitions: the free rows of its table, then what the text says besides. */
function freedomsOf(
  collected: Collected,
  ordered: readonly CollectedDefinition[],
  builder: SideBuilder,
): Freedom[] {
  const said = new Map<string, Freedom[]>();
  for (const { name, at, expression } of collected.free) {
    const signal = builder.numberOf.get(name)!;
    const freedom = { signal, expression: resolveExpression(expression, builder.numberOf), at };
    const before = said.get(name);
    if (before === undefined) said.set(name, [freedom]);
    else before.push(freedom);
  }
  return ordered.flatMap((definition) => {
    const ofTable = builder.freeRows(definition, definition.sides[0]!);
    const signal = builder.numberOf.get(definition.name)!;
    const rows = ofTable === null ? [] : [{ signal, expression: ofTable, at: definition.at }];
    return [...rows, ...(said.get(definition.name) ?? [])];
  });
}

class SideBuilder {
  readonly numberOf: ReadonlyMap<string, number>;
  private readonly rows: ReadonlyMap<Side, Rows>;

  constructor(numberOf: ReadonlyMap<string, number>, rows: ReadonlyMap<Side, Rows>) {
    this.numberOf = numberOf;
    this.rows = rows;
  }

  expression({ list }: CollectedDefinition, side: Side): Expression {
    if (side.expression !== null) return resolveExpression(side.expression, this.numberOf);
    return rowsExpression(this.signalsOf(list), this.rows.get(side)!, ON);
  }

  /** 1 on the free rows; null when there are none. */
  freeRows({ list }: CollectedDefinition, side: Side): Expression | null {
    const rows = this.rows.get(side);
    return rows?.includes(FREE) ? rowsExpression(this.signalsOf(list), rows, FREE) : null;
  }

  claims(definition: CollectedDefinition): Claim[] {
    const signal = this.numberOf.get(definition.name)!;
    return definition.sides.slice(1).map((side): Claim => {
      const value = this.expression(definition, side);
      const free = this.freeRows(definition, side);
      // On a free row of its own a table claims no more than that the signal is what it is.
      const kept: Expression | null =
        free === null ? null : { kind: 'and', args: [free, { kind: 'signal', signal }] };
      const expression: Expression = kept === null ? value : { kind: 'or', args: [value, kept] };
      return { signal, expression, at: { start: side.start, end: side.end } };
    });
  }

  private signalsOf(list: CollectedDefinition['list']): number[] {
    return list!.map(({ name }) => this.numberOf.get(name)!);
  }
}
