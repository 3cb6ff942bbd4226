// A `built` block changed and printed: what a way out of a conflict comes to is a block again, which reads back.

import type { BuiltBlock, BuiltElement } from './built.ts';
import { orderDefinitions } from './order-definitions.ts';

/** What an element is made of; its places are those of the line that it stands for. */
export type NewElement = Pick<BuiltElement, 'name' | 'gate' | 'legs'> & { readonly delay?: number };

const NOWHERE = { start: 0, end: 0 };

/** The element that the words say. */
export function elementOf({ name, gate, legs, delay = 0 }: NewElement, like?: BuiltElement): BuiltElement {
  const at = like?.at ?? NOWHERE;
  return { name, gate, legs, delay, at, nameAt: like?.nameAt ?? at, legsAt: legs.map(() => at) };
}

/** The block with other elements, in an order of evaluation; meanings and keeps of wires that are gone go with them. */
export function withElements(block: BuiltBlock, elements: readonly BuiltElement[]): BuiltBlock {
  const indexOf = new Map(elements.map(({ name }, index) => [name, index]));
  const needs = elements.map(({ legs }) =>
    legs.map((leg) => indexOf.get(leg)).filter((index) => index !== undefined),
  );
  const { order, circles } = orderDefinitions(needs);
  if (circles.length > 0) throw new Error('a change has made a circle of wires');
  const isThere = (name: string): boolean =>
    indexOf.has(name) || block.inputs.some((input) => input.name === name);
  return {
    ...block,
    elements: order.map((index) => elements[index]),
    meanings: block.meanings.filter(({ wire }) => isThere(wire)),
    keep: block.keep.filter(isThere),
  };
}

/** The block without elements that led to an output in `before` and lead to none now; kept wires stay. */
export function withoutDead(block: BuiltBlock, before: BuiltBlock): BuiltBlock {
  const [alive, wasAlive] = [leadingOut(block), leadingOut(before)];
  const old = new Set(before.elements.map(({ name }) => name));
  const stays = block.elements.filter(
    ({ name }) => alive.has(name) || (old.has(name) && !wasAlive.has(name)),
  );
  return stays.length === block.elements.length ? block : withElements(block, stays);
}

/** Elements that an output or a kept wire is made of. */
function leadingOut({ elements, outputs, keep }: BuiltBlock): Set<string> {
  const found = new Set([...outputs.map(({ wire }) => wire), ...keep]);
  for (const { name, legs } of [...elements].reverse()) {
    if (found.has(name)) for (const leg of legs) found.add(leg);
  }
  return found;
}

/** A name that stands nowhere in the block: `base`, else with a number behind it. */
export function freshName(block: BuiltBlock, base: string, taken: ReadonlySet<string> = new Set()): string {
  const names = new Set([...block.inputs, ...block.elements].map(({ name }) => name));
  const isTaken = (name: string): boolean => names.has(name) || taken.has(name);
  const clean = base.replace(/[^A-Za-z0-9_]/g, '_');
  if (!isTaken(clean)) return clean;
  let n = 2;
  while (isTaken(`${clean}_${n}`)) n++;
  return `${clean}_${n}`;
}

/** One line without indent: `n1 = nor(a, b)`. */
export function printElement({ name, gate, legs, delay }: BuiltElement): string {
  return `${name} = ${gate}(${legs.join(', ')})${delay > 0 ? ` + ${delay}` : ''}`;
}

/** The block in one settled form, which reads back to the same block; ends with a line feed. */
export function printBuilt(block: BuiltBlock): string {
  const lines: string[] = [`built ${block.name} {`];
  const both = new Set(
    block.inputs.filter(({ name, signal }) => name !== signal).map(({ signal }) => signal),
  );
  const inputs = block.inputs
    .filter(({ name, signal }) => name === signal)
    .map(({ name, rail, tick }) => {
      const shown = both.has(name) ? ' both' : rail === 'low' ? ' low' : '';
      return `${name}${shown}${tick > 0 ? ` @ ${tick}` : ''}`;
    });
  if (inputs.length > 0) lines.push(`  input ${inputs.join(', ')}`);
  const outputs = block.outputs.map(
    ({ wire, rail, by }) => `${wire}${rail === null ? '' : ` ${rail}`}${by === null ? '' : ` by ${by}`}`,
  );
  if (outputs.length > 0) lines.push(`  output ${outputs.join(', ')}`);
  for (const element of block.elements) lines.push(`  ${printElement(element)}`);
  for (const { wire, text, rail, part } of block.meanings) {
    lines.push(`  ${wire} is ${part ? 'part of ' : ''}${text}${rail === 'low' ? ' low' : ''}`);
  }
  if (block.keep.length > 0) lines.push(`  keep ${block.keep.join(', ')}`);
  return `${[...lines, '}'].join('\n')}\n`;
}
