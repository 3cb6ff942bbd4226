// The target that `--target` names, for every command that has this option.

import { quote } from '../../grammar/quote.ts';
import { renderDiagnostics } from '../source/render-diagnostics.ts';
import { SourceText } from '../source/source-text.ts';
import { readTarget } from '../target/read-target.ts';
import { SHIPPED_TARGETS, shippedTarget } from '../target/shipped-targets.ts';
import type { Target } from '../target/target.ts';
import { diagnosticPainter } from './colours.ts';
import type { Printed, UsageFault } from './command.ts';
import { EXIT } from './exit-codes.ts';
import type { Host } from './host.ts';
import { readSource } from './sources.ts';

/** The target, or what to return instead of an answer. */
export type FoundTarget =
  | { readonly target: Target }
  | { readonly instead: Printed | { readonly fault: UsageFault } };

/** Looks up a shipped target or reads a profile from a file. */
export function findTarget(name: string, host: Host): FoundTarget {
  const shipped = shippedTarget(name);
  if (shipped) return { target: shipped };
  if (!/\.json$|[/\\]/i.test(name)) {
    const known = SHIPPED_TARGETS.map((target) => target.name).join(', ');
    const hint = `there are ${known}, and files ending in .json`;
    return { instead: { fault: { message: `there is no target ${quote(name)}`, hint } } };
  }
  const source = readSource(name, host);
  const { value, diagnostics } =
    'fault' in source ? { value: null, diagnostics: [source.fault] } : readTarget(source.text);
  if (value) return { target: value };
  const text = new SourceText(name, 'fault' in source ? '' : source.text);
  const paint = diagnosticPainter(host.colour.err);
  const err = `${renderDiagnostics(diagnostics, text, { paint })}\n`;
  return { instead: { out: '', err, code: EXIT.faults } };
}
