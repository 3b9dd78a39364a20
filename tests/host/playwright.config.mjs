import { defineConfig } from '@playwright/test';

export default defineConfig({
  testDir: 'ui',
  outputDir: '../../out/ui',
  testMatch: '*.spec.mjs',
  // One server and one browser: two cores are busy with one window.
  workers: 1,
  timeout: 120_000,
  expect: { timeout: 20_000 },
  retries: 0,
  reporter: [['list'], ['json', { outputFile: '../../out/ui.json' }]],
});
