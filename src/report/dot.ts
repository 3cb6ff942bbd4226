// The network as a graph in the DOT language: one rank for each tick, an edge for each leg. Names stand in quoted labels
// only; the nodes are numbered.

import { visible } from '../../grammar/quote.ts';
import type { Point, WireRail } from './result.ts';

/** A quoted string: backslashes and quotes escaped, and nothing in it is taken for an escape of labels. */
function quoted(text: string): string {
  return `"${visible(text).replace(/["\\]/g, (sign) => (sign === '"' ? '\\"' : '\\\\'))}"`;
}

/** Solid lines carry signals that are active-high, dashed ones active-low. */
function styleOf(rail: WireRail | null): string {
  return rail === 'low' ? ' [style=dashed]' : '';
}

/** One graph. */
export function dotGraph(title: string, point: Point): string {
  const { inputs, inverters, outputs } = point.network;
  const id = new Map<string, string>([
    ['0', 'zero'],
    ['1', 'one'],
  ]);
  const rails = new Map<string, WireRail>(inputs.map(({ wire, rail }) => [wire, rail]));
  for (const { rail, wires } of point.rails)
    if (rail === 'high' || rail === 'low') for (const wire of wires) rails.set(wire, rail);
  inputs.forEach(({ wire }, at) => {
    id.set(wire, `input${at}`);
  });
  inverters.forEach(({ wire }, at) => {
    id.set(wire, `inverter${at}`);
  });
  const used = new Set([...inverters, ...outputs].flatMap(({ legs }) => legs));
  const ranks = new Map<number, string[]>();
  const rank = (tick: number, node: string): void => {
    ranks.set(tick, [...(ranks.get(tick) ?? []), node]);
  };
  const lines: string[] = [];
  for (const level of ['0', '1'])
    if (used.has(level)) lines.push(`  ${id.get(level)} [shape=plaintext, label=${quoted(level)}];`);
  inputs.forEach(({ wire, rail, tick }, at) => {
    lines.push(`  input${at} [shape=ellipse, label=${quoted(`${wire}, active-${rail}`)}];`);
    rank(tick, `input${at}`);
  });
  inverters.forEach(({ wire, tick }, at) => {
    lines.push(`  inverter${at} [shape=diamond, label=${quoted(wire)}];`);
    rank(tick, `inverter${at}`);
  });
  outputs.forEach(({ name, rail, tick }, at) => {
    lines.push(
      `  output${at} [shape=ellipse, peripheries=2, label=${quoted(`${name}, active-${rail}, tick ${tick}`)}];`,
    );
  });
  const edge = (leg: string, to: string): string =>
    `  ${id.get(leg) ?? 'zero'} -> ${to}${styleOf(rails.get(leg) ?? null)};`;
  inverters.forEach(({ legs }, at) => {
    lines.push(...legs.map((leg) => edge(leg, `inverter${at}`)));
  });
  outputs.forEach(({ legs }, at) => {
    lines.push(...legs.map((leg) => edge(leg, `output${at}`)));
  });
  return [
    `digraph ${quoted(title)} {`,
    '  rankdir=LR;',
    ...lines,
    ...[...ranks].sort((a, b) => a[0] - b[0]).map(([, nodes]) => `  { rank=same; ${nodes.join('; ')}; }`),
    `  { rank=max; ${outputs.map((_, at) => `output${at}`).join('; ')}; }`,
    '}',
    '',
  ].join('\n');
}
