// Prints how many branches of the code the tests went through, and the files where they went through the fewest.

import { relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Reporter } from 'vitest/reporters';

/** What is used of a coverage map. */
interface CoverageMap {
  files(): string[];
  fileCoverageFor(file: string): { toSummary(): { branches: { total: number; covered: number } } };
}

const root = fileURLToPath(new URL('../..', import.meta.url));
const LEAST = 12;
/** Files with fewer branches say little. */
const FEW = 8;

export class BranchCoverage implements Reporter {
  onCoverage(coverage: unknown): void {
    const map = coverage as CoverageMap;
    const rows = map.files().map((file) => {
      const { total, covered } = map.fileCoverageFor(file).toSummary().branches;
      return { name: relative(root, file), total, covered };
    });
    const sum = (key: 'total' | 'covered'): number => rows.reduce((all, row) => all + row[key], 0);
    const least = rows
      .filter(({ total }) => total >= FEW)
      .sort((a, b) => a.covered / a.total - b.covered / b.total || (a.name < b.name ? -1 : 1))
      .slice(0, LEAST);
    const percent = (covered: number, total: number): string => `${((100 * covered) / total).toFixed(1)} %`;
    const lines = [
      `Branches gone through: ${sum('covered')} of ${sum('total')}, ${percent(sum('covered'), sum('total'))}. The fewest:`,
      ...least.map(
        ({ name, total, covered }) =>
          `  ${percent(covered, total).padStart(8)}  ${name} (${covered} of ${total})`,
      ),
    ];
    process.stdout.write(`\n${lines.join('\n')}\n`);
  }
}
