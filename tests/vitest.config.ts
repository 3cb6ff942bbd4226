// Run by `npm test`. With TICKWRIGHT_TEST_REPORT set to a file, the counts are also written there as JSON.

import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const report = process.env.TICKWRIGHT_TEST_REPORT;

export default defineConfig({
  test: {
    root: fileURLToPath(new URL('..', import.meta.url)),
    include: ['tests/**/*.test.ts'],
    testTimeout: 60_000,
    reporters: report ? ['default', ['json', { outputFile: report }]] : ['default'],
  },
});
