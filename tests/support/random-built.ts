// Small random built blocks, some of them wrong: joins of all kinds, shared wires, declared signals that are right, on
// the other rail, or somebody else's.

import type { BuiltBlock, BuiltElement, GateWord } from '../../src/equations/built.ts';
import { printBuilt } from '../../src/equations/edit-built.ts';
import { readBuiltText } from '../../src/equations/read-built.ts';
import { seededRandom } from './seeded-random.ts';

const NOWHERE = { start: 0, end: 0 };

export interface RandomBuilt {
  readonly text: string;
  readonly block: BuiltBlock;
}

/** The same block for the same seed. */
export function randomBuilt(seed: number): RandomBuilt {
  const random = seededRandom(seed);
  const next = (below: number): number => Math.floor(random() * below);
  const inputs = Array.from({ length: 2 + next(2) }, (_, i) => 'abc'[i]);
  const names = [...inputs];
  const gates: readonly GateWord[] = ['nor', 'nor', 'not', 'nand', 'and', 'join', 'join', 'wire', 'separate'];
  const elements: BuiltElement[] = [];
  const count = 2 + next(5);
  for (let n = 0; n < count; n++) {
    const gate = gates[next(gates.length)];
    const most = gate === 'not' || gate === 'wire' || gate === 'separate' ? 1 : 1 + next(3);
    const pool = [...names];
    const legs = Array.from(
      { length: Math.min(most, pool.length) },
      () => pool.splice(next(pool.length), 1)[0],
    );
    const name = `n${n + 1}`;
    const delay = gate === 'wire' ? next(3) : 0;
    elements.push({ name, gate, legs, delay, at: NOWHERE, nameAt: NOWHERE, legsAt: legs.map(() => NOWHERE) });
    names.push(name);
  }
  const used = new Set(elements.flatMap(({ legs }) => legs));
  const ends = elements.filter(({ name }) => !used.has(name)).map(({ name }) => name);
  const block: BuiltBlock = {
    name: 'random',
    nameAt: NOWHERE,
    inputs: inputs.map((name) => ({
      name,
      signal: name,
      rail: next(3) === 0 ? 'low' : 'high',
      tick: next(2),
      at: null,
    })),
    elements,
    meanings: [],
    keep: [],
    outputs: ends.map((wire) => ({ wire, rail: null, by: null, at: NOWHERE })),
  };
  const meanings = elements.flatMap(({ name }): string[] => {
    if (next(4) !== 0) return [];
    const literals = inputs.map((input) => (next(2) === 0 ? input : `${input}'`));
    const forms = [literals.join(' + '), literals.join(' '), literals.join(' ^ '), literals[0]];
    return [`  ${name} is ${forms[next(forms.length)]}${next(2) === 0 ? ' low' : ''}`];
  });
  const text = printBuilt(block).replace(/\}\n$/, `${[...meanings, '}'].join('\n')}\n`);
  const { value } = readBuiltText(text);
  if (value === null) throw new Error(`a random block does not read back:\n${text}`);
  return { text, block: value.blocks[0] };
}
