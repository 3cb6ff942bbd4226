// A small reader of ISO/IEC 14977 grammars: it checks that every name is defined, derives random sentences and says
// whether a sentence belongs to the language. It knows nothing of our parser, which is the point.
//
// Rules behind the comment that begins with "Symbols" describe single symbols: their parts are put together without
// blanks. In all other rules the parts are symbols of their own.

export type Form =
  | { readonly kind: 'terminal'; readonly text: string }
  | { readonly kind: 'rule'; readonly name: string }
  | { readonly kind: 'special'; readonly text: string }
  | { readonly kind: 'choice' | 'sequence'; readonly forms: readonly Form[] }
  | { readonly kind: 'optional' | 'repeat'; readonly form: Form }
  | { readonly kind: 'except'; readonly form: Form; readonly but: Form };

export interface Grammar {
  readonly rules: ReadonlyMap<string, Form>;
  /** Names of the rules for single symbols. */
  readonly symbols: ReadonlySet<string>;
}

/** Reads the text of a grammar; throws where it is not ISO/IEC 14977. */
export function readEbnf(text: string): Grammar {
  const rules = new Map<string, Form>();
  const symbols = new Set<string>();
  const pieces =
    text.match(/\(\*[\s\S]*?\*\)|"[^"]*"|'[^']*'|\?[^?]*\?|[A-Za-z][A-Za-z0-9 \n]*|[0-9]+|\S/g) ?? [];
  let at = 0;
  let inSymbols = false;
  const next = (): string => {
    while (pieces[at]?.startsWith('(*')) {
      if (/^\(\*\s*Symbols/.test(pieces[at]!)) inSymbols = true;
      at++;
    }
    return pieces[at] ?? '';
  };
  const take = (wanted?: string): string => {
    const piece = next();
    if (wanted !== undefined && piece !== wanted)
      throw new Error(`"${wanted}" expected and "${piece}" found`);
    at++;
    return piece;
  };
  const choice = (): Form => {
    const forms = [sequence()];
    while (next() === '|') {
      take();
      forms.push(sequence());
    }
    return forms.length === 1 ? forms[0]! : { kind: 'choice', forms };
  };
  const sequence = (): Form => {
    const forms = [term()];
    while (next() === ',') {
      take();
      forms.push(term());
    }
    return forms.length === 1 ? forms[0]! : { kind: 'sequence', forms };
  };
  const term = (): Form => {
    const form = primary();
    if (next() !== '-') return form;
    take();
    return { kind: 'except', form, but: primary() };
  };
  const bracketed = (close: string): Form => {
    const form = choice();
    take(close);
    return form;
  };
  const primary = (): Form => {
    const piece = take();
    if (/^[0-9]+$/.test(piece)) {
      take('*');
      const form = primary();
      return { kind: 'sequence', forms: Array.from({ length: Number(piece) }, () => form) };
    }
    if (piece === '(') return bracketed(')');
    if (piece === '[') return { kind: 'optional', form: bracketed(']') };
    if (piece === '{') return { kind: 'repeat', form: bracketed('}') };
    if (/^["']/.test(piece)) return { kind: 'terminal', text: piece.slice(1, -1) };
    if (piece.startsWith('?')) return { kind: 'special', text: piece.slice(1, -1).trim() };
    if (/^[A-Za-z]/.test(piece)) return { kind: 'rule', name: piece.trim() };
    throw new Error(`"${piece}" stands where a rule is expected`);
  };
  while (next() !== '') {
    const name = take().trim();
    if (!/^[A-Za-z]/.test(name)) throw new Error(`"${name}" is not the name of a rule`);
    if (rules.has(name)) throw new Error(`"${name}" is defined twice`);
    if (inSymbols) symbols.add(name);
    take('=');
    rules.set(name, choice());
    take(';');
  }
  return { rules, symbols };
}

/** Names that are used and not defined, and rules (but for the first) that are defined and not used. */
export function danglingNames({ rules }: Grammar): { undefined: string[]; unused: string[] } {
  const used = new Set<string>();
  const walk = (form: Form): void => {
    if (form.kind === 'rule') used.add(form.name);
    else if (form.kind === 'choice' || form.kind === 'sequence') form.forms.forEach(walk);
    else if (form.kind === 'optional' || form.kind === 'repeat') walk(form.form);
    else if (form.kind === 'except') [form.form, form.but].forEach(walk);
  };
  for (const form of rules.values()) walk(form);
  const [first] = rules.keys();
  return {
    undefined: [...used].filter((name) => !rules.has(name)),
    unused: [...rules.keys()].filter((name) => name !== first && !used.has(name)),
  };
}

/** Every terminal of the rules that are not symbols. */
export function terminalsOf({ rules, symbols }: Grammar): Set<string> {
  const terminals = new Set<string>();
  const walk = (form: Form): void => {
    if (form.kind === 'terminal') terminals.add(form.text);
    else if (form.kind === 'choice' || form.kind === 'sequence') form.forms.forEach(walk);
    else if (form.kind === 'optional' || form.kind === 'repeat') walk(form.form);
  };
  for (const [name, form] of rules) if (!symbols.has(name)) walk(form);
  return terminals;
}

/**
 * A random sentence of rule `start` as a list of symbols. `random` gives numbers from 0 up to 1; `special` turns a
 * special sequence into text; beyond `depth` rules the shortest way out is taken.
 */
export function derive(
  grammar: Grammar,
  start: string,
  random: () => number,
  special: (text: string) => string,
  depth: number,
): string[] {
  const heights = heightsOf(grammar);
  const go = (form: Form, left: number, inSymbol: boolean): string[] => {
    switch (form.kind) {
      case 'terminal':
        return [!inSymbol && form.text.length > 1 && random() < 0.3 ? form.text.toUpperCase() : form.text];
      case 'special':
        return [special(form.text)];
      case 'sequence':
        return form.forms.flatMap((part) => go(part, left, inSymbol));
      case 'choice': {
        if (left > 0) return go(form.forms[Math.floor(random() * form.forms.length)]!, left, inSymbol);
        const ordered = [...form.forms].sort((a, b) => heightOf(a, heights) - heightOf(b, heights));
        return go(ordered[0]!, left, inSymbol);
      }
      case 'optional':
        return left > 0 && random() < 0.5 ? go(form.form, left, inSymbol) : [];
      case 'repeat': {
        const parts: string[] = [];
        while (left > 0 && random() < 0.4) parts.push(...go(form.form, left, inSymbol));
        return parts;
      }
      case 'except':
        for (;;) {
          const parts = go(form.form, left, inSymbol);
          if (!recognises(grammar, form.but, [...parts.join('').toLowerCase()])) return parts;
        }
      case 'rule': {
        const isSymbol = inSymbol || grammar.symbols.has(form.name);
        const parts = go(grammar.rules.get(form.name)!, left - (isSymbol ? 0 : 1), isSymbol);
        return isSymbol ? [parts.join('')] : parts;
      }
    }
  };
  return go({ kind: 'rule', name: start }, depth, false);
}

/** Fewest rules on the way to symbols, for every rule. */
function heightsOf({ rules }: Grammar): Map<string, number> {
  const heights = new Map([...rules.keys()].map((name) => [name, Number.POSITIVE_INFINITY]));
  for (let changed = true; changed; ) {
    changed = false;
    for (const [name, form] of rules) {
      const height = heightOf(form, heights) + 1;
      if (height < heights.get(name)!) {
        heights.set(name, height);
        changed = true;
      }
    }
  }
  return heights;
}

function heightOf(form: Form, heights: ReadonlyMap<string, number>): number {
  switch (form.kind) {
    case 'rule':
      return heights.get(form.name)!;
    case 'sequence':
      return Math.max(...form.forms.map((part) => heightOf(part, heights)));
    case 'choice':
      return Math.min(...form.forms.map((part) => heightOf(part, heights)));
    case 'except':
      return heightOf(form.form, heights);
    default:
      return 0;
  }
}

/** Whether `symbols` as a whole is a sentence of `start`. Words match in any case, except
 * those of one letter; a special sequence is a line feed. No rule may begin with itself. */
export function recognises(grammar: Grammar, start: Form, symbols: readonly string[]): boolean {
  const memo = new Map<string, Set<number>>();
  const inSymbol = start.kind !== 'rule' || grammar.symbols.has(start.name);
  const terminalEnds = (text: string, from: number): Set<number> => {
    const parts = inSymbol ? [...text] : [text];
    // A word of one letter is told apart from others by its case.
    const fits = parts.every((part, offset) => {
      const symbol = symbols[from + offset];
      return (inSymbol || part.length > 1 ? symbol?.toLowerCase() : symbol) === part;
    });
    return new Set(fits ? [from + parts.length] : []);
  };
  const ends = (form: Form, from: number): Set<number> => {
    switch (form.kind) {
      case 'terminal':
        return terminalEnds(inSymbol || form.text.length > 1 ? form.text.toLowerCase() : form.text, from);
      case 'special':
        return new Set(symbols[from] === '\n' ? [from + 1] : []);
      case 'choice':
        return new Set(form.forms.flatMap((part) => [...ends(part, from)]));
      case 'sequence': {
        let reached = [from];
        for (const part of form.forms) reached = [...new Set(reached.flatMap((at) => [...ends(part, at)]))];
        return new Set(reached);
      }
      case 'optional':
        return new Set([from, ...ends(form.form, from)]);
      case 'repeat': {
        const reached = new Set([from]);
        for (const at of reached) for (const end of ends(form.form, at)) reached.add(end);
        return reached;
      }
      case 'except': {
        const but = ends(form.but, from);
        return new Set([...ends(form.form, from)].filter((end) => !but.has(end)));
      }
      case 'rule': {
        const key = `${form.name}@${from}`;
        let found = memo.get(key);
        if (found === undefined) {
          const rule = grammar.rules.get(form.name)!;
          const isSymbol = !inSymbol && grammar.symbols.has(form.name);
          const symbol = symbols[from];
          if (!isSymbol) found = ends(rule, from);
          else if (symbol === undefined) found = new Set();
          else found = new Set(recognises(grammar, form, [...symbol]) ? [from + 1] : []);
          memo.set(key, found);
        }
        return found;
      }
    }
  };
  return ends(start, 0).has(symbols.length);
}
