// The catalogue as shipped, read once for each test file.

import { readFileSync } from 'node:fs';
import { Catalogue } from '../../src/search/catalogue/catalogue.ts';

const FILE = new URL('../../src/search/catalogue/four-inputs.catalogue', import.meta.url);

export function catalogueBytes(): Uint8Array {
  return new Uint8Array(readFileSync(FILE));
}

export function shippedCatalogue(): Catalogue {
  return new Catalogue(catalogueBytes());
}
