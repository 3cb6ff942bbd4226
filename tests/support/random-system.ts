// Random systems of equations for properties. They are sound (systemFaults finds nothing) and numbered as the reader
// numbers them, inputs first and then definitions in order, so that printing and reading gives back the same system.

import fc from 'fast-check';
import type {
  Claim,
  Definition,
  Expression,
  Freedom,
  InputDeclaration,
  OutputDeclaration,
  Rail,
  System,
} from '../../src/equations/system.ts';

export interface RandomSystemOptions {
  /** 1 to 6 unless said otherwise. */
  readonly mostInputs?: number;
  /** 1 to 4 unless said otherwise. */
  readonly mostOutputs?: number;
  /** Internal signals, at most 3 unless said otherwise. */
  readonly mostInternal?: number;
  /** Rails of inputs and outputs; all high unless said otherwise. */
  readonly rails?: readonly Rail[];
  /** Arrivals from 0 to this one and deadlines from a little later on; none unless said otherwise. */
  readonly latestTick?: number;
  /** Whether some systems have a `never`; none unless said otherwise. */
  readonly never?: boolean;
  /** Whether some names have an index; none unless said otherwise. */
  readonly buses?: boolean;
  /** Whether some definitions are free on some patterns; none unless said otherwise. */
  readonly free?: boolean;
  /** Whether some definitions have further right sides (which need not be true); none unless said otherwise. */
  readonly claims?: boolean;
  /** Levels of operators in one expression, 4 unless said otherwise. */
  readonly depth?: number;
}

/** Names as people give them, and some that must not trip a program up. */
const NAMES = [
  ...[
    'g0',
    'p0',
    'c0',
    'gate1',
    'gate2',
    'belt',
    'lamp',
    'Horn',
    'crate_full',
    '_x',
    'a',
    'b',
    'A',
    'x1',
    'x10',
  ],
  ...['__proto__', 'constructor', 'toString', 'inputs', 'nota', 'for', 'e', 'o'],
];

const BITS = ['a[0]', 'a[1]', 'c[-1]', 'c[10]', 'low_[7]', '__proto__[2]', 'for[0]', 'free[1]'];
const STATEMENT_NAMES = ['in', 'letters', 'free', 'minterms', 'm', 'd', 'M', 'P3G2', 'AB'];

/** An expression whose signals are numbers below `signals`. */
export function expressionArbitrary(signals: number, depth: number): fc.Arbitrary<Expression> {
  const constant = fc.record({
    kind: fc.constant('constant' as const),
    value: fc.constantFrom(0 as const, 1 as const),
  });
  const signal = fc.record({ kind: fc.constant('signal' as const), signal: fc.nat(signals - 1) });
  const leaf: fc.Arbitrary<Expression> =
    signals === 0 ? constant : fc.oneof({ arbitrary: signal, weight: 9 }, { arbitrary: constant, weight: 1 });
  if (depth <= 0) return leaf;
  const inner = expressionArbitrary(signals, depth - 1);
  const args = fc.array(inner, { minLength: 1, maxLength: 4 });
  const chain = fc.record({
    kind: fc.constantFrom(
      'and' as const,
      'or' as const,
      'nand' as const,
      'nor' as const,
      'xor' as const,
      'xnor' as const,
    ),
    args,
  });
  const pair = fc.record({
    kind: fc.constantFrom('implies' as const, 'equals' as const),
    left: inner,
    right: inner,
  });
  const mux = fc.record({ kind: fc.constant('mux' as const), select: inner, when0: inner, when1: inner });
  const maj = fc.record({ kind: fc.constant('maj' as const), args: fc.tuple(inner, inner, inner) });
  const not = fc.record({ kind: fc.constant('not' as const), argument: inner });
  return fc.oneof(
    { arbitrary: leaf, weight: 4 },
    { arbitrary: chain, weight: 6 },
    { arbitrary: not, weight: 3 },
    { arbitrary: pair, weight: 1 },
    { arbitrary: mux, weight: 1 },
    { arbitrary: maj, weight: 1 },
  );
}

/** Systems for `fc.property`; they shrink. */
export function systemArbitrary(options: RandomSystemOptions = {}): fc.Arbitrary<System> {
  const { mostInputs = 6, mostOutputs = 4, mostInternal = 3 } = options;
  return fc
    .record({
      inputs: fc.integer({ min: 1, max: mostInputs }),
      outputs: fc.integer({ min: 1, max: mostOutputs }),
      internal: fc.integer({ min: 0, max: mostInternal }),
    })
    .chain((sizes) => ofSizes(sizes.inputs, sizes.outputs, sizes.internal, options));
}

/** One system, always the same for the same seed and options. */
export function randomSystem(seed: number, options: RandomSystemOptions = {}): System {
  return fc.sample(systemArbitrary(options), { seed, numRuns: 1 })[0]!;
}

function ofSizes(
  inputs: number,
  outputs: number,
  internal: number,
  options: RandomSystemOptions,
): fc.Arbitrary<System> {
  const { rails = ['high'], latestTick = 0, depth = 4 } = options;
  const defined = outputs + internal;
  const total = inputs + defined;
  const rail = fc.constantFrom(...rails);
  const expressions = Array.from({ length: defined }, (_, index) =>
    expressionArbitrary(inputs + index, depth),
  );
  return fc
    .record({
      signals: fc.shuffledSubarray(options.buses ? [...NAMES, ...BITS, ...STATEMENT_NAMES] : NAMES, {
        minLength: total,
        maxLength: total,
      }),
      inputs: fc.array(fc.record({ rail, tick: fc.nat(latestTick) }), {
        minLength: inputs,
        maxLength: inputs,
      }),
      outputs: fc.shuffledSubarray(
        Array.from({ length: defined }, (_, index) => inputs + index),
        { minLength: outputs, maxLength: outputs },
      ),
      attributes: fc.array(
        fc.record({ rail, by: latestTick > 0 ? fc.option(fc.nat(latestTick + 8)) : fc.constant(null) }),
        {
          minLength: outputs,
          maxLength: outputs,
        },
      ),
      expressions: fc.tuple(...expressions),
      never: options.never ? fc.array(expressionArbitrary(total, 2), { maxLength: 2 }) : fc.constant([]),
      free: options.free
        ? fc.tuple(...expressions.map((_, index) => fc.option(expressionArbitrary(inputs + index, 2))))
        : fc.constant<readonly (Expression | null)[]>([]),
      claims: options.claims
        ? fc.tuple(...expressions.map(() => fc.array(expressionArbitrary(total, 2), { maxLength: 2 })))
        : fc.constant<readonly Expression[][]>([]),
    })
    .map((drawn): System => {
      const definitions = drawn.expressions.map(
        (expression, index): Definition => ({ signal: inputs + index, expression, at: null }),
      );
      const free = drawn.free.flatMap((expression, index): Freedom[] =>
        expression === null ? [] : [{ signal: inputs + index, expression, at: null }],
      );
      const claims = drawn.claims.flatMap((sides, index): Claim[] =>
        sides.map((expression) => ({ signal: inputs + index, expression, at: null })),
      );
      return {
        signals: drawn.signals,
        inputs: drawn.inputs.map((attributes, signal): InputDeclaration => ({ signal, ...attributes })),
        outputs: drawn.outputs.map(
          (signal, index): OutputDeclaration => ({ signal, ...drawn.attributes[index]! }),
        ),
        definitions,
        never: drawn.never,
        ...(free.length > 0 ? { free } : {}),
        ...(claims.length > 0 ? { claims } : {}),
      };
    });
}
