// What an expression mentions, and whether its functions are called as they should be. This walk comes before names
// have numbers: it finds the names that are inputs because nobody defines them, and what must be defined first.

import { FUNCTION_BY_NAME, FUNCTION_ROWS } from '../../grammar/operators.ts';
import { quote } from '../../grammar/quote.ts';
import type { Node } from '../../grammar/syntax.ts';
import type { Diagnostic, Span } from '../source/diagnostic.ts';
import { nearestName } from './nearest-name.ts';

/** Names in the order of their first mention, each with the place of that mention. */
export type Mentions = Map<string, Span>;

/** Collects the mentions of one expression; faults of calls are added to `diagnostics`. */
export function mentionsOf(expression: Node, diagnostics: Diagnostic[]): Mentions {
  const mentions: Mentions = new Map();
  const walk = (node: Node): void => {
    switch (node.kind) {
      case 'name':
        if (!mentions.has(node.name)) mentions.set(node.name, { start: node.start, end: node.end });
        return;
      case 'constant':
        return;
      case 'not':
        walk(node.argument);
        return;
      case 'call': {
        const fault = callFault(node);
        if (fault !== null) diagnostics.push(fault);
        node.args.forEach(walk);
        return;
      }
      case 'infix':
        node.args.forEach(walk);
    }
  };
  walk(expression);
  return mentions;
}

function callFault(call: Extract<Node, { kind: 'call' }>): Diagnostic | null {
  const row = FUNCTION_BY_NAME.get(call.name.toLowerCase());
  if (row === undefined) {
    const near = nearestName(call.name, FUNCTION_BY_NAME.keys());
    const all = FUNCTION_ROWS.map((known) => known.name).join(', ');
    return {
      severity: 'error',
      code: 'unknown-function',
      message: `there is no function ${quote(call.name)}`,
      at: call.nameAt,
      hint: near === null ? `the functions are ${all}` : `did you mean ${FUNCTION_BY_NAME.get(near)!.shown}?`,
    };
  }
  const given = call.args.length;
  if (given >= row.least && given <= row.most) return null;
  return {
    severity: 'error',
    code: 'wrong-arguments',
    message: `${quote(call.name)} takes ${row.least} arguments, and here ${given === 1 ? 'is 1' : `are ${given}`}`,
    at: { start: call.start, end: call.end },
    hint: `write ${row.shown}`,
  };
}
