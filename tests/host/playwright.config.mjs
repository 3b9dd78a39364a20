import { defineConfig } from '@playwright/test';

export default defineConfig({
  testDir: 'ui',
  outputDir: '../../out/ui',
  testMatch: '*.spec.mjs',
  // One server and one browser: two cores are busy with one window.
  workers: 1,
  timeout: 120_000,
  expect: { timeout: 20_000 },
  // A window on a busy machine may lose a key. What passes only then is told as flaky.
  retries: 1,
  reporter: [['list'], ['json', { outputFile: '../../out/ui.json' }]],
});
