// The network as a structural module of IEEE 1364: gates `nor`, `not` and `or` (`nand`, `not` and `and` where joined
// wires are AND), one for each inverter and one for each output. Wires carry levels. What a level means stands in an
// attribute of each port, `(* signal = "p3", rail = "low", tick = 0 *)`, which programs that do not know it skip; the
// reader in src/network/read-verilog.ts takes names and rails back from there.

import type { Point, Result, WireRail } from './result.ts';
import { comment, Identifiers, literal, written } from './verilog-names.ts';

export interface PortName {
  readonly signal: string;
  readonly rail: WireRail;
  readonly tick: number;
  /** Identifier, not yet escaped. */
  readonly identifier: string;
}

/** Identifiers of everything in the module. */
export interface ModuleNames {
  readonly module: string;
  readonly inputs: readonly PortName[];
  readonly outputs: readonly PortName[];
  /** By name of wire: input wires and inverters. */
  readonly wires: ReadonlyMap<string, string>;
}

/** Names for one point; ports come first, so that they keep the names of the reader. */
export function moduleNames(point: Point, taken: Identifiers = new Identifiers()): ModuleNames {
  const { inputs, inverters, outputs } = point.network;
  const wires = new Map<string, string>();
  const inputPorts = inputs.map(({ name, rail, wire, tick }): PortName => {
    const identifier = taken.take(wire);
    wires.set(wire, identifier);
    return { signal: name, rail, tick, identifier };
  });
  const twice = (name: string): boolean => outputs.filter((output) => output.name === name).length > 1;
  const outputPorts = outputs.map(({ name, rail, tick }): PortName => {
    const identifier = taken.take(rail === 'low' && twice(name) ? `${name}_low` : name);
    return { signal: name, rail, tick, identifier };
  });
  for (const { wire } of inverters) wires.set(wire, taken.take(wire));
  return { module: 'network', inputs: inputPorts, outputs: outputPorts, wires };
}

function port(direction: string, { signal, rail, tick, identifier }: PortName): string {
  const attributes = `(* signal = ${literal(signal)}, rail = "${rail}", tick = ${tick} *)`;
  return `  ${attributes} ${direction} ${written(identifier)};`;
}

/** Lines of comment about what this is. */
export function provenance(result: Result, point: Point): string[] {
  const { verdict } = point.proof;
  const proof = verdict === 'equal' ? 'proved equal to its equations' : `proof: ${verdict}`;
  return [
    `// ${comment(result.source)}: tickwright ${result.version}, target ${comment(result.target)}, effort ${result.effort}, seed ${result.seed}`,
    `// ${point.ticks} ticks, ${point.parts} parts; ${proof}`,
  ];
}

/** One module that holds the network. `delay` is the ticks of an inverter. */
export function verilogModule(result: Result, point: Point, delay = 1): string {
  const names = moduleNames(point);
  const isOr = (result.join ?? 'or') === 'or';
  const [many, join] = isOr ? ['nor', 'or'] : ['nand', 'and'];
  const wire = (name: string): string =>
    name === '0' || name === '1' ? `1'b${name}` : written(names.wires.get(name) ?? name);
  const ports = [...names.inputs, ...names.outputs].map(({ identifier }) => written(identifier));
  const { inverters, outputs } = point.network;
  const gate = (kind: string, time: string, output: string, legs: readonly string[]): string =>
    `  ${kind}${time} (${[output, ...legs.map(wire)].join(', ')});`;
  const gates: string[] = [];
  let tick = -1;
  for (const inverter of [...inverters].sort((a, b) => a.tick - b.tick)) {
    if (inverter.tick !== tick) {
      tick = inverter.tick;
      gates.push('', `  // tick ${tick}`);
    }
    const kind = inverter.legs.length > 1 ? many : 'not';
    const meaning = inverter.meaning === undefined ? '' : `  // ${comment(inverter.meaning)}`;
    gates.push(gate(kind, ` #${delay}`, wire(inverter.wire), inverter.legs) + meaning);
  }
  const joins = outputs.map(({ legs }, at) => gate(join, '', written(names.outputs[at].identifier), legs));
  return [
    ...provenance(result, point),
    `module ${names.module} (${ports.join(', ')});`,
    ...names.inputs.map((input) => port('input', input)),
    ...names.outputs.map((output) => port('output', output)),
    ...inverters.map((inverter) => `  wire ${wire(inverter.wire)};`),
    ...gates,
    '',
    '  // joins',
    ...joins,
    'endmodule',
    '',
  ].join('\n');
}
