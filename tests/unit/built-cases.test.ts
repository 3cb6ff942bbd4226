// Whole screens of `tickwright conflicts` for built blocks, one case a file in tests/cases/built:
//
//     why: what the case is for
//     target: joined-or-single     (optional)
//     --- text
//     equations and built blocks, to the line before the next mark
//     --- expected
//     what is shown
//
// TICKWRIGHT_REFRESH=1 writes the expected part anew. Every way out in every case is judged again by simulation.

import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { type FoundConflicts, findAllConflicts } from '../../src/report/conflicts.ts';
import { conflictsText } from '../../src/report/conflicts-text.ts';
import { PLAIN } from '../../src/report/painter.ts';
import { renderDiagnostics } from '../../src/source/render-diagnostics.ts';
import { SourceText } from '../../src/source/source-text.ts';
import { shippedTarget } from '../../src/target/shipped-targets.ts';
import type { Target } from '../../src/target/target.ts';
import { REFRESH } from '../support/golden.ts';
import { wayFaults } from '../support/way-faults.ts';

const FOLDER = new URL('../cases/built/', import.meta.url);
const NAME = 'hall.built';

interface Case {
  readonly head: string;
  readonly text: string;
  readonly expected: string;
  readonly target: Target;
  readonly found: FoundConflicts;
}

function readCase(file: string): Case {
  const whole = readFileSync(new URL(file, FOLDER), 'utf8');
  const parts = /^([\s\S]*?--- text\n)([\s\S]*?)--- expected\n([\s\S]*)$/.exec(whole);
  if (parts === null) throw new Error(`${file} has not the three parts of a case`);
  const [, head, text, expected] = parts;
  const target = shippedTarget(/^target: (.*)$/m.exec(head)?.[1] ?? 'joined-or') as Target;
  return { head, text, expected, target, found: findAllConflicts(NAME, text, target) };
}

function shown({ text, found }: Case): string {
  const source = new SourceText(NAME, text);
  const faults = renderDiagnostics(found.diagnostics, source);
  const screen = found.report === null ? '' : conflictsText(found.report, source, PLAIN);
  return (faults === '' ? '' : `${faults}\n`) + screen;
}

const files = readdirSync(FOLDER).sort();
const KINDS = [
  ...['join-mixed', 'join-low-as-or', 'join-pieces', 'wrong-rail', 'wrong-signal', 'shared-leg', 'unsettled'],
  ...['join-is-and', 'shared-leg-harmless', 'too-many-legs', 'join-place', 'input-wires'],
];

describe('built blocks', () => {
  const kinds = new Set<string>();

  test('there are cases', () => {
    expect(files.length).toBeGreaterThanOrEqual(25);
  });

  test.each(files)('%s', (file) => {
    const read = readCase(file);
    expect(read.head).toMatch(/^why: \S/);
    const screen = shown(read);
    if (REFRESH) writeFileSync(new URL(file, FOLDER), `${read.head}${read.text}--- expected\n${screen}`);
    expect(screen).toBe(REFRESH ? screen : read.expected);
    for (const line of screen.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
    const conflicts = (read.found.report?.blocks ?? []).flatMap((block) => block.conflicts);
    for (const { kind, severity, message, waysOut } of conflicts) {
      kinds.add(kind);
      if (severity === 'error') expect(waysOut, message).not.toEqual([]);
      for (const way of waysOut) expect(wayFaults(way, read.target), way.what).toEqual([]);
    }
  });

  test('every kind of conflict has a case', () => {
    expect([...kinds].sort()).toEqual([...KINDS].filter((kind) => kind !== 'input-wires').sort());
  });
});
