// Characters and groups of characters that are not in the language but that people bring along from elsewhere, with
// what to write instead.

const DOTS = 'write every term out: nobody can know what the dots stand for';

const ADVICE: ReadonlyMap<string, string> = new Map([
  ['/', "write !a or a' for NOT a; a comment begins with # or //"],
  ['\\', 'write !a for NOT, a + b for OR and a b for AND'],
  ['-', "write !a or a' for NOT a, a -> b for implication; ticks are whole numbers from 0"],
  ['"', "write a'' for a complement of a complement"],
  ['`', "write a' for NOT a"],
  ['%', 'a remainder can only be taken in an index'],
  // These two are strangers only in a text with LaTeX in it.
  ['^', 'in LaTeX "^" raises what follows; write \\oplus for XOR'],
  ['~', 'in LaTeX "~" is a blank; write \\lnot for NOT'],
  ['?', 'write mux(select, when0, when1) for a choice'],
  [':', 'write mux(select, when0, when1) for a choice, name = expression for a definition'],
  ['<', 'write a <-> b for equivalence, !a b for "less than"'],
  ['>', 'write a -> b for implication, a !b for "greater than"'],
  ['∩', 'write a b or a & b for AND'],
  ['∪', 'write a + b for OR'],
  ['⊻', 'write a ^ b for XOR'],
  ['⊗', 'write a xnor b for XNOR'],
  ['⊼', 'write a nand b or nand(a, b, c)'],
  ['⊽', 'write a nor b or nor(a, b, c)'],
  ['↑', 'write a nand b or nand(a, b, c)'],
  ['↓', 'write a nor b or nor(a, b, c)'],
  ['⇒', 'write a -> b for implication'],
  ['⊃', 'write a -> b for implication'],
  ['⇔', 'write a <-> b for equivalence'],
  ['↔', 'write a <-> b for equivalence'],
  ['≠', 'write a ^ b for "differs from"'],
  ['⊤', 'write 1'],
  ['⊥', 'write 0'],
  ['==', 'write a <-> b for "is equal to", name = expression for a definition'],
  ['!=', 'write a ^ b for "differs from"'],
  [':=', 'write name = expression for a definition'],
  ['<=', 'write name = expression for a definition, a -> b for implication'],
  ['>=', 'write a + !b for "at least"'],
  ['=>', 'write a -> b for implication'],
  ['<=>', 'write a <-> b for equivalence'],
  ['←', 'write name = expression for a definition'],
  ['¯', "write a' for NOT a, (a b)' for the complement of a group"],
  ['‾', "write a' for NOT a, (a b)' for the complement of a group"],
  ['…', DOTS],
  ['⋯', DOTS],
  ['\\cdots', DOTS],
  ['\\ldots', DOTS],
  ['\\dots', DOTS],
  ['\\implies', 'write a -> b for implication'],
  ['\\Rightarrow', 'write a -> b for implication'],
  ['\\iff', 'write a <-> b for equivalence'],
  ['\\Leftrightarrow', 'write a <-> b for equivalence'],
  ['\\mid', 'write a + b for OR'],
  ['/*', 'begin a comment with # or //; it ends with its line'],
]);

/** What to write instead of `image`, a group of characters that is in no token; never null. */
export function adviceFor(image: string): string {
  const known = ADVICE.get(image) ?? ADVICE.get(image.slice(0, 2));
  if (known !== undefined) return known;
  if (/^\\[A-Za-z]/.test(image))
    return 'of LaTeX the signs of logic are known, \\overline{a}, a_{1} and \\text{name}';
  if (/^[0-9]+'/.test(image)) return 'write 0 or 1';
  if (/^[₀-₉]+/.test(image)) return 'a subscript belongs behind a name: c4';
  if (/^[\u0304\u0305]/.test(image)) return "write (a b)' for the complement of a group";
  if (/^\p{L}/u.test(image)) return 'names are made of the letters A-Z and a-z, digits and _';
  return ADVICE.get([...image][0] ?? '') ?? 'take it out';
}
