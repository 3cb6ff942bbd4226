// A test bench of IEEE 1364 for the module: it goes through the patterns of the inputs (all of them when there are few,
// else a fixed sequence), lets the network settle, and compares every output with the equations, which stand in the bench
// as expressions. It prints `N patterns, M mismatches` and ends. Patterns that `never` excludes are passed over, and an
// output is not compared where it is free.

import { usableFreedom } from '../equations/free-signals.ts';
import type { Expression, System } from '../equations/system.ts';
import type { Point, Result } from './result.ts';
import { moduleNames, provenance } from './verilog.ts';
import { Identifiers, literal, written } from './verilog-names.ts';

/** Up to so many inputs all patterns are tried. */
const ALL_UP_TO = 12;
/** How many otherwise: all zeros, all ones, each input alone, and then a fixed sequence. */
const SAMPLES = 4096;

/** The expression in operators of the language. */
export function verilogExpression(expression: Expression, nameOf: (signal: number) => string): string {
  const print = (inner: Expression): string => {
    switch (inner.kind) {
      case 'constant':
        return `1'b${inner.value}`;
      case 'signal':
        return nameOf(inner.signal);
      case 'not':
        return `~${print(inner.argument)}`;
      case 'and':
        return chain(inner.args, ' & ');
      case 'or':
        return chain(inner.args, ' | ');
      case 'xor':
        return chain(inner.args, ' ^ ');
      case 'nand':
        return `~${chain(inner.args, ' & ')}`;
      case 'nor':
        return `~${chain(inner.args, ' | ')}`;
      case 'xnor':
        return `~${chain(inner.args, ' ^ ')}`;
      case 'implies':
        return `(~${print(inner.left)} | ${print(inner.right)})`;
      case 'equals':
        return `~(${print(inner.left)} ^ ${print(inner.right)})`;
      case 'mux':
        return `(${print(inner.select)} ? ${print(inner.when1)} : ${print(inner.when0)})`;
      case 'maj': {
        const [a, b, c] = inner.args.map(print);
        return `(${a} & ${b} | ${a} & ${c} | ${b} & ${c})`;
      }
    }
  };
  const chain = (args: readonly Expression[], operator: string): string =>
    args.length === 1 ? `(${print(args[0])})` : `(${args.map(print).join(operator)})`;
  return print(expression);
}

/** The bench; the module it drives is printed by `verilogModule`. `delay` is the ticks of an inverter. */
export function verilogBench(system: System, result: Result, point: Point, delay = 1): string {
  const names = moduleNames(point);
  const own = new Identifiers();
  const [pattern, at, mismatches, tried, wrong, dut] = [
    'pattern',
    'at',
    'mismatches',
    'tried',
    'wrong',
    'dut',
  ].map((name) => own.take(name));
  const signals = system.signals.map((name) => own.take(name));
  const nameOf = (signal: number): string => written(signals[signal]);
  const got = names.outputs.map(({ identifier }) => own.take(`got_${identifier}`));
  const possible = own.take('possible');
  const count = system.inputs.length;
  const isAll = count <= ALL_UP_TO;
  const runs = isAll ? 2 ** count : SAMPLES;
  const inputOf = (signal: string): number =>
    system.inputs.findIndex((input) => system.signals[input.signal] === signal);
  const free = new Map(
    [...usableFreedom(system)].map(([signal, expressions]) => [
      signal,
      expressions.map((expression) => verilogExpression(expression, nameOf)).join(' | '),
    ]),
  );
  const definitions = system.definitions.map(
    ({ signal, expression }) => `  wire ${nameOf(signal)} = ${verilogExpression(expression, nameOf)};`,
  );
  const excluded = system.never.map((expression) => verilogExpression(expression, nameOf));
  const width = Math.max(1, count);
  const settle = (Math.max(1, point.ticks) + 1) * Math.max(1, delay) + 1;
  const connections = [
    ...names.inputs.map(({ identifier, signal, rail }) => {
      const level = `${written(pattern)}[${inputOf(signal)}]`;
      return `.${written(identifier)}(${rail === 'high' ? level : `~${level}`})`;
    }),
    ...names.outputs.map(({ identifier }, n) => `.${written(identifier)}(${written(got[n])})`),
  ];
  const comparisons = names.outputs.flatMap(({ signal, rail }, n) => {
    const wanted = nameOf(system.signals.indexOf(signal));
    const level = rail === 'high' ? wanted : `~${wanted}`;
    const freedom = free.get(system.signals.indexOf(signal));
    const unless = freedom === undefined ? '' : `if (~(${freedom})) `;
    return [
      `      ${unless}if (${written(got[n])} !== (${level})) begin`,
      `        ${wrong} = 1;`,
      `        if (${mismatches} < 10) $display(${literal(`${signal}, active-${rail}`).slice(0, -1).replaceAll('%', '%%')}: pattern %b gives %b, wanted %b", ${pattern}, ${written(got[n])}, ${level});`,
      '      end',
    ];
  });
  return [
    ...provenance(result, point),
    'module bench;',
    `  reg [${width - 1}:0] ${pattern};`,
    `  integer ${at}, ${tried}, ${mismatches}, ${wrong};`,
    ...system.inputs.map(({ signal }, bit) => `  wire ${nameOf(signal)} = ${pattern}[${bit}];`),
    ...got.map((identifier) => `  wire ${written(identifier)};`),
    `  ${names.module} ${dut} (${connections.join(', ')});`,
    '',
    '  // the equations',
    ...definitions,
    `  wire ${possible} = ${excluded.length === 0 ? "1'b1" : `~(${excluded.join(' | ')})`};`,
    '',
    '  initial begin',
    `    ${tried} = 0;`,
    `    ${mismatches} = 0;`,
    `    ${pattern} = 0;`,
    `    for (${at} = 0; ${at} < ${runs}; ${at} = ${at} + 1) begin`,
    ...(isAll
      ? [`      ${pattern} = ${at};`]
      : [
          `      if (${at} == 0) ${pattern} = ${width}'b${'0'.repeat(width)};`,
          `      else if (${at} == 1) ${pattern} = ${width}'b${'1'.repeat(width)};`,
          `      else if (${at} == 2) ${pattern} = ${width}'b${'1'.padStart(width, '0')};`,
          `      else if (${at} <= ${count + 1}) ${pattern} = {${pattern}[${width - 2}:0], 1'b0};`,
          `      else if (${at} == ${count + 2}) ${pattern} = ${width}'b${sequenceStart(width)};`,
          `      else ${pattern} = {${pattern}[${width - 2}:0], ${taps(width)
            .map((bit) => `${pattern}[${bit}]`)
            .join(' ^ ')} ^ ${at}[0] ^ ${at}[3]};`,
        ]),
    `      #${settle};`,
    `      if (${possible}) begin`,
    `      ${tried} = ${tried} + 1;`,
    `      ${wrong} = 0;`,
    ...comparisons,
    `      ${mismatches} = ${mismatches} + ${wrong};`,
    '      end',
    '    end',
    `    $display("%0d patterns, %0d mismatches", ${tried}, ${mismatches});`,
    '    $finish;',
    '  end',
    'endmodule',
    '',
  ].join('\n');
}

function sequenceStart(width: number): string {
  return Array.from({ length: width }, (_, bit) => ((bit * bit + bit) % 3 === 0 ? '1' : '0')).join('');
}

/** Bits that are fed back into the sequence. */
function taps(width: number): number[] {
  return [...new Set([width - 1, Math.floor((width * 2) / 3), Math.floor(width / 2), 0])];
}
