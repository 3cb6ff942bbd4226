// Every single mistake in a sound built block is reported: the rail of an input or of a meaning, the kind of an element, a
// leg put elsewhere, added or left out, if the electrical simulation then shows a wire with another level than was
// wished; and no fault of level is reported where it shows none. The numbers are printed.

import { expect, test } from 'vitest';
import type { BuiltBlock, BuiltElement, GateWord } from '../../src/equations/built.ts';
import { layBuilt } from '../../src/network/lay-built.ts';
import { findConflicts, hasLevelFault } from '../../src/polarity/find-conflicts.ts';
import { survey } from '../../src/polarity/survey.ts';
import { readWishes } from '../../src/polarity/wishes.ts';
import { JOINED_OR } from '../../src/target/shipped-targets.ts';
import { levelFaultBySimulation } from '../support/built-judge.ts';
import { randomBuilt } from '../support/random-built.ts';

const BLOCKS = 600;
const OTHER_GATES: Readonly<Partial<Record<GateWord, readonly GateWord[]>>> = {
  nor: ['nand', 'join'],
  not: ['wire'],
  nand: ['nor', 'and'],
  and: ['nand', 'join'],
  join: ['nor', 'and'],
  wire: ['not'],
  separate: ['not'],
};

const other = (rail: 'high' | 'low' | 'either' | 'both') => (rail === 'high' ? 'low' : 'high');

function* mistakes(block: BuiltBlock): Generator<{ readonly what: string; readonly block: BuiltBlock }> {
  const { inputs, elements, meanings } = block;
  for (const [n, input] of inputs.entries()) {
    const changed = inputs.map((one, m) => (m === n ? { ...one, rail: other(one.rail) } : one));
    yield { what: `rail of input ${input.name}`, block: { ...block, inputs: changed as typeof inputs } };
  }
  for (const [n, meaning] of meanings.entries()) {
    const changed = meanings.map((one, m) => (m === n ? { ...one, rail: other(one.rail) } : one));
    yield { what: `rail of ${meaning.wire}`, block: { ...block, meanings: changed as typeof meanings } };
  }
  const before = inputs.map(({ name }) => name);
  for (const [n, element] of elements.entries()) {
    const { name, gate, legs } = element;
    const put = (change: Partial<BuiltElement>): BuiltBlock => ({
      ...block,
      elements: elements.map((one, m) => (m === n ? { ...one, ...change } : one)),
    });
    const leggings = (next: readonly string[]): BuiltBlock =>
      put({ legs: next, legsAt: next.map(() => ({ start: 0, end: 0 })) });
    for (const kind of OTHER_GATES[gate] ?? []) {
      if (legs.length > 1 && kind === 'not') continue;
      yield { what: `${name} as ${kind}`, block: put({ gate: kind, delay: 0 }) };
    }
    for (const [m, leg] of legs.entries()) {
      if (legs.length > 1)
        yield { what: `${name} without ${leg}`, block: leggings(legs.filter((one) => one !== leg)) };
      for (const wire of before) {
        if (legs.includes(wire)) continue;
        yield {
          what: `${name}, ${wire} for ${leg}`,
          block: leggings(legs.map((one, k) => (k === m ? wire : one))),
        };
      }
    }
    if (!['not', 'wire', 'separate'].includes(gate)) {
      for (const wire of before) {
        if (!legs.includes(wire)) yield { what: `${name} and ${wire}`, block: leggings([...legs, wire]) };
      }
    }
    before.push(name);
  }
}

function isReported(block: BuiltBlock): boolean {
  const built = layBuilt(block, JOINED_OR);
  const { value } = readWishes(block, built, null);
  if (value === null) return true;
  return hasLevelFault(findConflicts(survey(block, built, JOINED_OR, value)));
}

test(`mistakes in sound blocks of ${BLOCKS} from seed 1`, () => {
  const counts = { made: 0, changing: 0, caught: 0 };
  for (let seed = 1; seed <= BLOCKS; seed++) {
    const { block, text } = randomBuilt(seed);
    if (levelFaultBySimulation(block) !== null) continue;
    for (const { what, block: mutant } of mistakes(block)) {
      const isWrong = levelFaultBySimulation(mutant) !== null;
      const found = isReported(mutant);
      counts.made++;
      if (isWrong) counts.changing++;
      if (isWrong && found) counts.caught++;
      expect(found, `seed ${seed}, ${what}\n${text}`).toBe(isWrong);
    }
  }
  // biome-ignore lint/suspicious/noConsole: the numbers are what this test is asked for
  console.info(
    `Mistakes in blocks: ${counts.made} made, ${counts.changing} change a level, ${counts.caught} of these reported.`,
  );
  expect(counts.changing).toBeGreaterThan(100);
  expect(counts.caught).toBe(counts.changing);
});
