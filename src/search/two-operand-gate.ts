// The best gate of two operands for XOR and XNOR under the rules of a target: fewest ticks, then fewest inverters.
// Found by the exact search, so that no gate cost is ever written down.

import { legsOf, outputLegsOf } from '../network/build-network.ts';
import { constantTable, inputTable, not, xor } from '../truth/table.ts';
import { exactNetwork, startingRows } from './exact.ts';
import { fastest } from './fastest.ts';
import type { Rules, Task } from './task.ts';

/** Wires 2 and 3 are the operands, active-high; the inverters follow. */
export interface Gate {
  readonly inverters: readonly (readonly number[])[];
  readonly output: readonly number[];
}

/** No target needs more inverters for two operands than one with two legs a gate and no joins: 5. */
const MOST_INVERTERS = 8;
const MOST_TICKS = 8;

const known = new WeakMap<Rules, [Gate | null, Gate | null]>();

/** The gate for `a XOR b`, or `a XNOR b` when `inverted`, both operands and the result active-high. */
export function twoOperandGate(rules: Rules, inverted: boolean): Gate {
  const cached = known.get(rules) ?? [null, null];
  known.set(rules, cached);
  const slot = inverted ? 1 : 0;
  cached[slot] ??= findGate(gateTask(rules, inverted));
  return cached[slot];
}

function findGate(task: Task): Gate {
  const rows = startingRows(task);
  for (let ticks = fastest(task).ticks; ; ticks++) {
    for (let size = 0; size <= MOST_INVERTERS; size++) {
      const by = ticks >= MOST_TICKS * task.rules.inverterTicks ? Number.POSITIVE_INFINITY : ticks;
      const answer = exactNetwork({ task, size, by: [by], maxConflicts: Number.POSITIVE_INFINITY, rows });
      if (answer.kind !== 'found') continue;
      const { network } = answer;
      return {
        inverters: Array.from({ length: network.size }, (_, i) => [...legsOf(network, i)]),
        output: [...outputLegsOf(network, 0)],
      };
    }
  }
}

function gateTask(rules: Rules, inverted: boolean): Task {
  const a = inputTable(2, 0);
  const b = inputTable(2, 1);
  const on = inverted ? not(xor(a, b), 2) : xor(a, b);
  const wire = { rail: 'high', tick: 0, straight: true, rival: -1 } as const;
  return {
    rowBits: 2,
    exhaustive: true,
    wires: [
      { ...wire, signal: 0, input: 0, table: a },
      { ...wire, signal: 1, input: 1, table: b },
    ],
    outputs: [{ signal: 2, rail: 'high', on, off: not(on, 2), by: null }],
    care: constantTable(2, 1),
    rules,
    mirrored: false,
  };
}
