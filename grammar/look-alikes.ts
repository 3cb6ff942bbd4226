// Characters that look like signs of the language and come in with pasted text, each with the character it is read as.
// Every replacement is as long as what it replaces, so that places in the text stay what they are.

export const LOOK_ALIKES: ReadonlyMap<string, string> = new Map([
  // Dots and crosses of multiplication.
  ...[...'⋅∙•×✕⨯∗・･'].map((sign) => [sign, '·'] as const),
  ['⋀', '∧'],
  ['⋁', '∨'],
  ['⨁', '⊕'],
  ['⨀', '⊙'],
  // Apostrophes, accents and primes.
  ...[...'‘‛ʹʼʻˈ´'].map((sign) => [sign, "'"] as const),
  // Dashes and minus signs, in the numbers of an index.
  ...[...'−‐‑‒–—'].map((sign) => [sign, '-'] as const),
  ['∕', '/'],
  ['∼', '~'],
  ['˜', '~'],
  ['ˆ', '^'],
  ['∣', '|'],
  ['￢', '¬'],
  ['￤', '|'],
  ['∶', ':'],
  ['₌', '='],
  ['⇾', '→'],
  ['⟶', '→'],
]);

const FULL_WIDTH_GAP = 0xff01 - 0x21;
const FOREIGN = new RegExp(`[${[...LOOK_ALIKES.keys()].join('')}\\uff01-\\uff5e]`, 'gu');

/** `text` with every look-alike and every full-width form replaced. */
export function withoutLookAlikes(text: string): string {
  return text.replace(FOREIGN, (character) => {
    return LOOK_ALIKES.get(character) ?? String.fromCharCode(character.charCodeAt(0) - FULL_WIDTH_GAP);
  });
}
