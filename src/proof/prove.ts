// The judge: does a network compute what the equations say? It shares no code with the search or with the simulation
// that the search uses; it takes the equations, the packed numbers of the network and what a join computes.
//
// First the delivery is checked (the right wires in, the right outputs out), then the function: by all patterns while
// there are few inputs, by a solver whose refutation is replayed when there are many. What cannot be settled within
// the limits is "undecided", never "equal".

import type { System } from '../equations/system.ts';
import type { Network } from '../network/network.ts';
import { deliveryFault } from './check-delivery.ts';
import { compareBySolver } from './compare-by-solver.ts';
import { comparePatterns, type Difference } from './compare-patterns.ts';
import type { Logic } from './evaluate-network.ts';
import { TOO_MANY_CHOICES } from './free-choices.ts';
import { PROOF_LIMITS, type ProofLimits, type Verdict } from './verdict.ts';

/** Patterns are never tried for more inputs than this, whatever the limits say. */
const MOST_PATTERN_INPUTS = 30;

/**
 * Compares a network with the system it was made for. `logic` is what joins compute in its target. Equal means: every
 * output has the level that its rail asks for on every pattern that no `never` forbids and on which it is not free; where
 * it is free, all other equations hold for the signal as it was built. Deterministic; never throws
 * for a wrong network.
 */
export function prove(
  system: System,
  network: Network,
  logic: Logic,
  limits: ProofLimits = PROOF_LIMITS,
): Verdict {
  const byPatterns = system.inputs.length <= Math.min(limits.patternInputs, MOST_PATTERN_INPUTS);
  const method = byPatterns ? 'patterns' : 'solver';
  const fault = deliveryFault(system, network);
  if (fault !== null) {
    const wrong = fault.output === null ? undefined : system.signals[fault.output];
    const { reason } = fault;
    return {
      verdict: 'different',
      method,
      patterns: null,
      reason,
      ...(wrong !== undefined && { wrongOutput: wrong }),
    };
  }
  if (byPatterns) {
    const { patterns, difference, complete } = comparePatterns(system, network, logic);
    if (difference === null) return { verdict: 'equal', method, patterns };
    if (!complete) return { verdict: 'undecided', method, patterns, reason: TOO_MANY_CHOICES };
    return { verdict: 'different', method, patterns, ...shown(system, network, difference) };
  }
  const { answer, difference, reason } = compareBySolver(
    system,
    network,
    logic,
    limits.conflicts,
    limits.replay,
  );
  return {
    verdict: answer,
    method,
    patterns: null,
    ...(difference !== null && shown(system, network, difference)),
    ...(reason !== null && { reason }),
  };
}

function shown(
  system: System,
  network: Network,
  { values, output }: Difference,
): Pick<Verdict, 'counterexample' | 'wrongOutput'> {
  return {
    counterexample: Object.fromEntries(
      system.inputs.map(({ signal }, i) => [system.signals[signal], values[i]]),
    ),
    wrongOutput: system.signals[network.outputs[output].signal],
  };
}
