// Random built blocks: a fault of level is reported exactly when the electrical simulation says so, faults of structure
// are counted, and every way out holds.

import { describe, expect, test } from 'vitest';
import { readBuiltText } from '../../src/equations/read-built.ts';
import { builtLegs } from '../../src/network/built-network.ts';
import { driversOf, layBuilt } from '../../src/network/lay-built.ts';
import { findConflicts, hasLevelFault } from '../../src/polarity/find-conflicts.ts';
import { survey } from '../../src/polarity/survey.ts';
import { readWishes } from '../../src/polarity/wishes.ts';
import { findAllConflicts } from '../../src/report/conflicts.ts';
import { JOINED_OR, shippedTarget } from '../../src/target/shipped-targets.ts';
import type { Target } from '../../src/target/target.ts';
import { levelFaultBySimulation } from '../support/built-judge.ts';
import { randomBuilt } from '../support/random-built.ts';
import { wayFaults } from '../support/way-faults.ts';

const BLOCKS = 1500;

function surveyed(seed: number, target: Target = JOINED_OR) {
  const { block, text } = randomBuilt(seed);
  const built = layBuilt(block, target);
  const { value } = readWishes(block, built, null);
  if (value === null) throw new Error(text);
  return { block, text, built, found: survey(block, built, target, value) };
}

test(`a fault of level is reported exactly when the simulation shows one: ${BLOCKS} blocks from seed 1`, () => {
  let faulty = 0;
  for (let seed = 1; seed <= BLOCKS; seed++) {
    const { block, text, found } = surveyed(seed);
    const findings = findConflicts(found);
    const judged = levelFaultBySimulation(block);
    if (judged !== null) faulty++;
    expect(hasLevelFault(findings), `seed ${seed}\n${text}${JSON.stringify(judged)}`).toBe(judged !== null);
  }
  expect(faulty).toBeGreaterThan(BLOCKS / 5);
  expect(faulty).toBeLessThan((BLOCKS * 4) / 5);
});

describe('faults of structure are counted', () => {
  test('legs over the limit', () => {
    const target: Target = {
      ...JOINED_OR,
      name: 'two',
      join: { ...JOINED_OR.join, maxLegs: 2 },
      inverter: { ...JOINED_OR.inverter, maxLegs: 2 },
    };
    let counted = 0;
    for (let seed = 1; seed <= 400; seed++) {
      const { block, built, found } = surveyed(seed, target);
      const reads = new Set(
        block.elements.flatMap(({ gate, legs, delay }) =>
          gate === 'join' || gate === 'separate' || (gate === 'wire' && delay === 0) ? [] : legs,
        ),
      );
      for (const { wire } of block.outputs) reads.add(wire);
      /** What drives a wire, by name, from the words alone. */
      const drivers = (name: string): string[] => {
        const element = block.elements.find((other) => other.name === name);
        if (element === undefined) return [name];
        const { gate, legs, delay } = element;
        if (gate === 'join' || gate === 'separate' || (gate === 'wire' && delay === 0))
          return legs.flatMap(drivers);
        if (gate === 'nand' && legs.length > 1) return legs.map((leg) => `${name} ${leg}`);
        return [name];
      };
      const over = block.elements.filter(({ name, gate, legs }) => {
        const count = new Set(legs.flatMap(drivers)).size;
        if (gate === 'nor' || gate === 'not') return count > 2;
        if (gate === 'join') return count > 2 && reads.has(name);
        if (gate === 'nand') {
          const each = legs.some((leg) => new Set(drivers(leg)).size > 2);
          return each || (legs.length > 2 && reads.has(name));
        }
        if (gate === 'and') return legs.length > 2 || legs.some((leg) => new Set(drivers(leg)).size > 2);
        return false;
      });
      const told = findConflicts(found).filter(({ kind }) => kind === 'too-many-legs');
      const names = new Set(told.map(({ wire }) => block.elements[built.element[wire]].name));
      expect([...names].sort(), `seed ${seed}`).toEqual(over.map(({ name }) => name).sort());
      counted += names.size;
    }
    expect(counted).toBeGreaterThan(100);
  });

  test('joins where the target has none', () => {
    const target = shippedTarget('nor-gates') as Target;
    for (let seed = 1; seed <= 200; seed++) {
      const { built, found } = surveyed(seed, target);
      const told = findConflicts(found).filter(({ kind }) => kind === 'join-place');
      const joins = built.kinds.flatMap((kind, wire) =>
        kind === 'join' && builtLegs(built, wire).length > 1 && driversOf(built, wire).length > 1
          ? [wire]
          : [],
      );
      expect(told.map(({ wire }) => wire)).toEqual(joins);
    }
  });
});

test('every way out is proved, costs what it says, and is right in the simulation: blocks from seed 1', () => {
  let ways = 0;
  for (let seed = 1; seed <= 60; seed++) {
    const { text } = randomBuilt(seed);
    const { report } = findAllConflicts('random', text, JOINED_OR);
    if (report === null) throw new Error(text);
    for (const { conflicts } of report.blocks) {
      for (const conflict of conflicts) {
        for (const way of conflict.waysOut) {
          ways++;
          expect(wayFaults(way, JOINED_OR), `seed ${seed}\n${text}${conflict.message}\n${way.what}`).toEqual(
            [],
          );
        }
      }
    }
  }
  expect(ways).toBeGreaterThan(60);
  expect(readBuiltText('built { n = not(a) }').value).not.toBeNull();
});
