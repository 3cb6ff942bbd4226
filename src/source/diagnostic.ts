// Faults and notices as data. Every reader returns `{ value, diagnostics }`; nothing in the library prints or
// throws for bad input. A place is a half-open range of character offsets into the source text; lines and columns
// are computed only when a diagnostic is shown.

/** A half-open range `[start, end)` of UTF-16 offsets into a source text. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** `error` stops the run (exit code 1), `warning` and `notice` do not. */
export type Severity = 'error' | 'warning' | 'notice';

export interface Diagnostic {
  readonly severity: Severity;
  /** Stable kebab-case identifier of the kind of fault, for programs. */
  readonly code: string;
  /** What is wrong, one sentence, no trailing line feed. */
  readonly message: string;
  /** Where; null when no text stands behind it (a fault of the command line, say). */
  readonly at: Span | null;
  /** What to write instead, one sentence; null when nothing can be said. */
  readonly hint: string | null;
  /** Other places that belong to it, such as the first of two definitions; each is shown with its own excerpt. */
  readonly related?: readonly RelatedPlace[];
}

export interface RelatedPlace {
  readonly at: Span;
  /** A few words that stand beside the caret, such as `first defined here`. */
  readonly note: string;
}

/** What every reader returns: `value` is null when an error made it impossible to build one. */
export interface Reading<T> {
  readonly value: T | null;
  readonly diagnostics: readonly Diagnostic[];
}
