import { defineConfig } from '@playwright/test';

export default defineConfig({
  testDir: 'tests/window',
  timeout: 90_000,
  workers: 1,
  fullyParallel: false,
  retries: 0,
  outputDir: 'out/window-tests',
});
