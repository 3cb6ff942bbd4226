// From the tree of the text to the expression of a system: names become numbers, spellings become kinds. The tree has
// been checked (mentions.ts) and is not deeper than the reader allows, so this cannot fail.

import type { Node } from '../../grammar/syntax.ts';
import type { Expression } from './system.ts';

export function resolveExpression(node: Node, numberOf: ReadonlyMap<string, number>): Expression {
  switch (node.kind) {
    case 'constant':
      return node.value === 1 ? ONE : ZERO;
    case 'name':
      return { kind: 'signal', signal: numberOf.get(node.name)! };
    case 'not':
      return { kind: 'not', argument: resolveExpression(node.argument, numberOf) };
    case 'infix':
      return build(node.operator, node.args, numberOf);
    case 'call':
      return build(node.name.toLowerCase(), node.args, numberOf);
  }
}

const ZERO: Expression = { kind: 'constant', value: 0 };
const ONE: Expression = { kind: 'constant', value: 1 };

function build(operator: string, nodes: readonly Node[], numberOf: ReadonlyMap<string, number>): Expression {
  const args = nodes.map((node) => resolveExpression(node, numberOf));
  switch (operator) {
    case 'and':
    case 'or':
    case 'nand':
    case 'nor':
    case 'xor':
    case 'xnor':
      return { kind: operator, args };
    case 'implies':
    case 'equals':
      return { kind: operator, left: args[0]!, right: args[1]! };
    case 'mux':
      return { kind: 'mux', select: args[0]!, when0: args[1]!, when1: args[2]! };
    case 'maj':
      return { kind: 'maj', args: [args[0]!, args[1]!, args[2]!] };
    default:
      throw new Error(`operator without a meaning: ${operator}`);
  }
}
