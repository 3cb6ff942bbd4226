// From a flat list `a + b c ^ d` to a tree. The parser reads operands and signs in one loop; here the strengths of the
// table of operators decide what belongs together, one strength after the other, the tightest first. Every pass is
// linear in the list, so a sum of a million names costs five walks and no recursion.

import {
  DEPTH_LIMIT,
  INFIX_BY_SPELLING,
  INFIX_ROWS,
  type InfixOperator,
  type InfixRow,
  SUM_STRENGTH,
} from './operators.ts';
import { depthOf, type Node, type Place, type SyntaxFault } from './syntax.ts';
import { lonelyFault, tooDeepFault, xnorChainWarning } from './wording.ts';

/** A sign between two operands. Of a juxtaposition the place is the start of the second operand, with no width. */
export interface Sign {
  readonly row: InfixRow;
  readonly at: Place;
}

const STRENGTHS: readonly number[] = [...new Set(INFIX_ROWS.map((row) => row.strength))].sort(
  (a, b) => b - a,
);
export const JUXTAPOSITION: InfixRow = INFIX_BY_SPELLING.get('and')!;

/** `operands` has one element more than `signs`. Faults (and warnings) are added to `faults`. */
export function foldOperators(operands: Node[], signs: Sign[], faults: SyntaxFault[]): Node {
  if (signs.length === 0) return operands[0]!;
  checkLonely(signs, faults);
  let nodes = operands;
  let between = signs;
  for (const strength of STRENGTHS) {
    if (!between.some((sign) => sign.row.strength === strength)) continue;
    const nextNodes: Node[] = [];
    const nextBetween: Sign[] = [];
    for (let first = 0; first < nodes.length; ) {
      let last = first;
      while (last < between.length && between[last]!.row.strength === strength) last++;
      nextNodes.push(foldChain(nodes, between, first, last, faults));
      if (last < between.length) nextBetween.push(between[last]!);
      first = last + 1;
    }
    nodes = nextNodes;
    between = nextBetween;
  }
  return nodes[0]!;
}

/** Folds the operands `first..last`, between which all signs have one strength. */
function foldChain(
  nodes: readonly Node[],
  signs: readonly Sign[],
  first: number,
  last: number,
  faults: SyntaxFault[],
): Node {
  if (first === last) return nodes[first]!;
  if (signs[first]!.row.chain === 'right') {
    let right = nodes[last]!;
    for (let index = last - 1; index >= first; index--) {
      right = infix(signs[index]!.row.operator, [nodes[index]!, right], faults);
    }
    return right;
  }
  let left = nodes[first]!;
  let xnors = 0;
  for (let index = first; index < last; ) {
    const { operator } = signs[index]!.row;
    const args = [left];
    if (operator === 'and' || operator === 'or' || operator === 'xor') {
      while (index < last && signs[index]!.row.operator === operator) args.push(nodes[++index]!);
    } else {
      args.push(nodes[++index]!);
      if (operator === 'xnor') xnors++;
    }
    left = infix(operator, args, faults);
  }
  if (xnors > 0 && last - first > 1) faults.push(xnorChainWarning(signs.slice(first, last)));
  return left;
}

function infix(operator: InfixOperator, args: readonly Node[], faults: SyntaxFault[]): Node {
  let depth = 0;
  for (const arg of args) depth = Math.max(depth, depthOf(arg));
  const { start } = args[0]!;
  const { end } = args.at(-1)!;
  if (depth === DEPTH_LIMIT) faults.push(tooDeepFault(start, end));
  return { kind: 'infix', operator, args, start, end, depth: depth + 1 };
}

/** NAND and NOR have no agreed meaning in a row of three, so each must be the only sign of its group. */
function checkLonely(signs: readonly Sign[], faults: SyntaxFault[]): void {
  for (let first = 0; first < signs.length; ) {
    let last = first;
    while (last < signs.length && signs[last]!.row.strength >= SUM_STRENGTH) last++;
    const lonely =
      last - first > 1 ? signs.slice(first, last).findIndex((sign) => sign.row.chain === 'alone') : -1;
    if (lonely >= 0) faults.push(lonelyFault(signs.slice(first, last), lonely));
    first = last + 1;
  }
}
