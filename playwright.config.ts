import { defineConfig } from '@playwright/test';

export default defineConfig({
  testDir: 'tests/window',
  timeout: 90_000,
  workers: 1,
  fullyParallel: false,
  // Real time on a machine that may be busy: once more, and the closing line says how many needed it.
  retries: 1,
  outputDir: 'out/window-tests',
});
