// Colour is the business of the edge: printers only say what a piece of text is. Every screen reads the same without.

export interface Painter {
  /** The answer itself and headings. */
  strong(text: string): string;
  /** Explanations that a practised reader skips. */
  faint(text: string): string;
  /** What is proved. */
  good(text: string): string;
  /** What must not be overlooked. */
  bad(text: string): string;
}

const same = (text: string): string => text;

/** Leaves every text as it is. */
export const PLAIN: Painter = { strong: same, faint: same, good: same, bad: same };
