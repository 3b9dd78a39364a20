import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/host/**', 'tests/suite/**', '**/node_modules/**'],
    setupFiles: ['tests/house/setup.ts'],
    testTimeout: 120_000,
    hookTimeout: 120_000,
    // Two cores are what CI has.
    maxWorkers: 2,
  },
});
