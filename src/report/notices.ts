// Diagnostics as the notices of a result: places become lines and columns.

import type { Diagnostic } from '../source/diagnostic.ts';
import type { SourceText } from '../source/source-text.ts';
import type { Notice } from './result.ts';

/** The notice for a diagnostic of `text`. */
export function noticeOf(diagnostic: Diagnostic, text: SourceText): Notice {
  const { severity, code, message, hint, at } = diagnostic;
  const place = at === null ? { line: null, column: null } : text.positionOf(at.start);
  return {
    severity,
    code,
    message,
    ...(hint === null ? {} : { hint }),
    line: place.line,
    column: place.column,
  };
}
