// Run by `npm test`. With TICKWRIGHT_TEST_REPORT set to a file, the counts are also written there as JSON.

import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { BranchCoverage } from './support/branch-coverage.ts';

const report = process.env.TICKWRIGHT_TEST_REPORT;

export default defineConfig({
  test: {
    root: fileURLToPath(new URL('..', import.meta.url)),
    include: ['tests/**/*.test.ts'],
    // Two files at a time, on a machine of two processors as well; no test is about how long it takes.
    maxWorkers: 2,
    testTimeout: 240_000,
    reporters: report
      ? ['default', ['json', { outputFile: report }], new BranchCoverage()]
      : ['default', new BranchCoverage()],
    // With --coverage, as `npm test` asks. What runs in processes of its own is not seen.
    coverage: {
      provider: 'v8',
      include: ['src/**/*.ts', 'grammar/**/*.ts'],
      exclude: ['**/*-check.ts'],
      reporter: [],
      reportsDirectory: fileURLToPath(new URL('../node_modules/.coverage', import.meta.url)),
    },
  },
});
