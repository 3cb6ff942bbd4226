// The language of stimuli: which input changes at which tick. Described for people in stimulus.md. This file knows words
// and places only; what a name means, and whether there is such an input, is decided in src/timing/read-stimulus.ts.
//
// Every statement stands on a line of its own or after `;`. A fault ends one statement only, so all faults of a text are
// found at once.

import { quote } from './quote.ts';

/** A name, with the index or the range of indices behind it: `a`, `a[3]`, `a[3:0]`. */
export interface StimulusName {
  readonly base: string;
  /** `[first:last]`; both are the same for one index; null when none stands there. */
  readonly range: { readonly first: number; readonly last: number } | null;
  readonly start: number;
  readonly end: number;
}

/** `name = value` or `flip name`. */
export interface StimulusSetting {
  readonly name: StimulusName;
  /** Null: the opposite of what it was. */
  readonly value: number | null;
  /** Where the value stands; where the name does for a flip. */
  readonly valueAt: { readonly start: number; readonly end: number };
}

export type StimulusStatement =
  | { readonly kind: 'start'; readonly settings: readonly StimulusSetting[] }
  | {
      readonly kind: 'change';
      readonly tick: number;
      /** `at` counts from tick 0, `after` from the statement before. */
      readonly from: 'zero' | 'before';
      readonly settings: readonly StimulusSetting[];
      readonly start: number;
      readonly end: number;
    }
  | {
      readonly kind: 'sequence';
      readonly order: 'count' | 'random';
      /** Inputs that change; empty for all. */
      readonly names: readonly StimulusName[];
      readonly every: number;
      readonly times: number | null;
      readonly seed: number;
      readonly start: number;
      readonly end: number;
    }
  | { readonly kind: 'until'; readonly tick: number };

export interface StimulusFault {
  readonly message: string;
  readonly hint: string | null;
  readonly start: number;
  readonly end: number;
}

export interface StimulusText {
  readonly statements: readonly StimulusStatement[];
  readonly faults: readonly StimulusFault[];
}

/** Words that begin a statement. */
export const STIMULUS_WORDS = ['start', 'at', 'after', 'count', 'random', 'until'] as const;

/** Ticks beyond this are a slip of the pen. */
export const MOST_TICKS = 1_000_000;

interface Token {
  readonly kind: 'name' | 'number' | 'sign' | 'strange';
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

const TOKEN =
  /(?<name>[A-Za-z_][A-Za-z0-9_]*)|(?<number>0[xX][0-9A-Fa-f]+|0[bB][01]+|[0-9]+)|(?<sign>[=,:[\]-])|(?<strange>[^\s])/gu;

/** Reads a text. */
export function parseStimulus(text: string): StimulusText {
  const statements: StimulusStatement[] = [];
  const faults: StimulusFault[] = [];
  for (const { code, from } of statementsIn(text)) {
    const tokens = [...code.matchAll(TOKEN)].map((match): Token => {
      const kind = (Object.keys(match.groups ?? {}) as Token['kind'][]).find((name) => match.groups?.[name]);
      const start = from + match.index;
      return { kind: kind ?? 'strange', text: match[0], start, end: start + match[0].length };
    });
    if (tokens.length === 0 || (tokens.length === 1 && tokens[0].text === '\ufeff')) continue;
    if (tokens[0].text === '\ufeff') tokens.shift();
    try {
      statements.push(new StatementReader(tokens).read());
    } catch (fault) {
      if (!(fault instanceof Stop)) throw fault;
      faults.push(fault.fault);
    }
  }
  return { statements, faults };
}

/** Lines without their comments, cut at `;`: a comment ends with its line, so a `;` inside one begins nothing. */
function* statementsIn(text: string): Generator<{ readonly code: string; readonly from: number }> {
  for (const line of text.matchAll(/[^\n\r]+/g)) {
    const end = line[0].search(/#|\/\//);
    const code = end < 0 ? line[0] : line[0].slice(0, end);
    for (const piece of code.matchAll(/[^;]+/g)) yield { code: piece[0], from: line.index + piece.index };
  }
}

class Stop extends Error {
  readonly fault: StimulusFault;

  constructor(fault: StimulusFault) {
    super(fault.message);
    this.fault = fault;
  }
}

class StatementReader {
  private readonly tokens: readonly Token[];
  private at = 0;

  constructor(tokens: readonly Token[]) {
    this.tokens = tokens;
  }

  read(): StimulusStatement {
    const first = this.tokens[0];
    const span = { start: first.start, end: this.tokens[this.tokens.length - 1].end };
    this.at = 1;
    switch (first.text) {
      case 'start':
        this.skip(':');
        return { kind: 'start', settings: this.settings(false) };
      case 'at':
      case 'after': {
        const tick = this.ticks(`the tick after \`${first.text}\``);
        this.skip(':');
        const from = first.text === 'at' ? 'zero' : 'before';
        return { kind: 'change', tick, from, settings: this.settings(true), ...span };
      }
      case 'until': {
        const tick = this.ticks('the last tick after `until`');
        this.finish('`until` stands alone with its tick');
        return { kind: 'until', tick };
      }
      case 'count':
      case 'random':
        return { ...this.sequence(first.text), ...span };
      default:
        return this.stop(
          first,
          `${quote(first.text)} begins no statement`,
          'a statement begins with start, at, after, count, random or until',
        );
    }
  }

  private sequence(
    order: 'count' | 'random',
  ): Omit<StimulusStatement & { kind: 'sequence' }, 'start' | 'end'> {
    const names: StimulusName[] = [];
    const isWord = (): boolean => ['every', 'times', 'seed'].includes(this.peek()?.text ?? '');
    while (this.peek() !== undefined && !isWord()) {
      if (names.length > 0) this.skip(',');
      names.push(this.name());
    }
    let [every, times, seed]: [number | null, number | null, number] = [null, null, 1];
    while (this.peek() !== undefined) {
      const word = this.next();
      if (word.text === 'every') every = this.ticks('the ticks after `every`');
      else if (word.text === 'times') times = this.ticks('the number of steps after `times`');
      else if (word.text === 'seed' && order === 'random') seed = this.number('a number after `seed`');
      else this.stop(word, `${quote(word.text)} cannot stand here`, this.example(order));
    }
    if (every === null || every === 0) {
      const last = this.tokens[this.tokens.length - 1];
      return this.stop(last, `how many ticks are between two steps?`, this.example(order));
    }
    return { kind: 'sequence', order, names, every, times, seed };
  }

  private example(order: 'count' | 'random'): string {
    return order === 'count' ? 'write count every 10' : 'write random every 10 times 20 seed 1';
  }

  private settings(mayFlip: boolean): StimulusSetting[] {
    const settings: StimulusSetting[] = [];
    let flips = false;
    if (this.peek() === undefined) {
      const last = this.tokens[this.tokens.length - 1];
      this.stop(last, 'nothing is set here', `write ${mayFlip ? 'at 5: ' : 'start '}a = 1`);
    }
    while (this.peek() !== undefined) {
      if (settings.length > 0) {
        this.skip(',');
        if (this.peek() === undefined) break;
      }
      if (mayFlip && this.peek()?.text === 'flip' && this.tokens[this.at + 1]?.text !== '=') {
        this.at++;
        flips = true;
      }
      const name = this.name();
      if (this.peek()?.text === '=') {
        this.at++;
        const token = this.peek();
        const value = this.number(`a value for ${quote(name.base)}`);
        settings.push({ name, value, valueAt: { start: token?.start ?? 0, end: token?.end ?? 0 } });
        flips = false;
      } else if (flips) settings.push({ name, value: null, valueAt: name });
      else {
        const hint = mayFlip ? `write ${name.base} = 1, or flip ${name.base}` : `write ${name.base} = 1`;
        this.stop(name, `${quote(name.base)} is given no value`, hint);
      }
    }
    return settings;
  }

  private name(): StimulusName {
    const token = this.next('the name of an input');
    if (token.kind !== 'name') {
      return this.stop(
        token,
        `${quote(token.text)} is not the name of an input`,
        'write a name such as a or a[3]',
      );
    }
    if (this.peek()?.text !== '[') {
      return { base: token.text, range: null, start: token.start, end: token.end };
    }
    this.at++;
    const first = this.index();
    let last = first;
    if (this.peek()?.text === ':') {
      this.at++;
      last = this.index();
    }
    const close = this.next('a closing bracket');
    if (close.text !== ']')
      this.stop(close, `${quote(close.text)} stands where ] should`, 'write a[3] or a[3:0]');
    return { base: token.text, range: { first, last }, start: token.start, end: close.end };
  }

  private index(): number {
    const sign = this.peek()?.text === '-' ? -1 : 1;
    if (sign < 0) this.at++;
    return sign * this.number('an index');
  }

  private ticks(what: string): number {
    const token = this.peek();
    const ticks = this.number(what);
    if (ticks > MOST_TICKS && token !== undefined) {
      this.stop(token, `${token.text} is more than ${MOST_TICKS}`, 'take fewer');
    }
    return ticks;
  }

  private number(what: string): number {
    const token = this.next(what);
    if (token.kind !== 'number') {
      return this.stop(token, `${what} is missing before ${quote(token.text)}`, 'write a whole number');
    }
    const value = Number(token.text);
    if (!Number.isSafeInteger(value))
      this.stop(token, `${quote(token.text)} is too large`, 'take a smaller one');
    return value;
  }

  private peek(): Token | undefined {
    return this.tokens[this.at];
  }

  private skip(sign: string): void {
    if (this.peek()?.text === sign) this.at++;
  }

  private next(what = 'something'): Token {
    const token = this.tokens[this.at++];
    if (token !== undefined) return token;
    const last = this.tokens[this.tokens.length - 1];
    return this.stop(last, `${what} is missing at the end of this statement`, null);
  }

  private finish(rule: string): void {
    const token = this.peek();
    if (token !== undefined) this.stop(token, `${quote(token.text)} is too much`, rule);
  }

  private stop(
    at: { readonly start: number; readonly end: number },
    message: string,
    hint: string | null,
  ): never {
    throw new Stop({ message, hint, start: at.start, end: at.end });
  }
}
