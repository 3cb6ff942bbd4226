// The colours of screens and of diagnostics; every text reads the same without them.

import { createColors } from 'picocolors';
import type { Painter } from '../report/painter.ts';
import type { Painter as DiagnosticPainter, Role } from '../source/render-diagnostics.ts';

/** The painter of answers. */
export function screenPainter(wanted: boolean): Painter {
  const { bold, dim, green, red } = createColors(wanted);
  return { strong: bold, faint: dim, good: green, bad: red };
}

/** The painter of faults and notices. */
export function diagnosticPainter(wanted: boolean): DiagnosticPainter {
  const { bold, dim, green, red, yellow, cyan } = createColors(wanted);
  const colours: Readonly<Record<Role, (text: string) => string>> = {
    error: (text) => bold(red(text)),
    warning: (text) => bold(yellow(text)),
    notice: (text) => bold(cyan(text)),
    place: bold,
    margin: dim,
    caret: red,
    related: cyan,
    help: green,
  };
  return (role, text) => colours[role](text);
}
