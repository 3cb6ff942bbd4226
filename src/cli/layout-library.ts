// The layered-graph library, loaded only when something is drawn.

import type { ELK } from 'elkjs/lib/elk-api.js';

/** A library that lays out graphs in this thread. */
export async function layoutLibrary(): Promise<ELK> {
  const { default: Library } = await import('elkjs/lib/elk.bundled.js');
  // Its types and its module form do not agree on where the class stands.
  const Class = ('default' in Library ? Library.default : Library) as unknown as new () => ELK;
  return new Class();
}
