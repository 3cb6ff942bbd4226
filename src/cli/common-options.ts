// What every search gets from where the program stands: its version, and the catalogue.

import type { CommonOptions } from '../tickwright.ts';
import type { Host } from './host.ts';

/** Without a catalogue that can be read the search has fewer networks to begin with. */
export function commonOptions(version: string, host: Host): CommonOptions {
  const outcome = host.readCatalogue?.();
  return outcome === undefined || 'fault' in outcome ? { version } : { version, catalogue: outcome.bytes };
}
