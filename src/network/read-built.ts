// The short way from a text to what stands: equations and `built` blocks are read, every block is laid under a target.

import type { BuiltBlock } from '../equations/built.ts';
import { readBuiltText } from '../equations/read-built.ts';
import type { System } from '../equations/system.ts';
import type { Reading } from '../source/diagnostic.ts';
import type { Target } from '../target/target.ts';
import type { BuiltNetwork } from './built-network.ts';
import { layBuilt } from './lay-built.ts';

export interface Built {
  /** What stands outside of all blocks; null when nothing does. */
  readonly equations: System | null;
  /** Each block of the text in its order, in words and as a network. */
  readonly blocks: readonly { readonly block: BuiltBlock; readonly network: BuiltNetwork }[];
}

/** Reads all that stands in `text`. `value` is null exactly when a diagnostic is an error; never throws for bad text. */
export function readBuilt(text: string, target: Target): Reading<Built> {
  const { value, diagnostics } = readBuiltText(text);
  if (value === null) return { value, diagnostics };
  const blocks = value.blocks.map((block) => ({ block, network: layBuilt(block, target) }));
  return { value: { equations: value.equations, blocks }, diagnostics };
}
