import { defineConfig } from '@playwright/test';
import { launchOptions } from './tests/e2e/browser.ts';

export default defineConfig({
  testDir: 'tests/e2e',
  testMatch: '*.spec.ts',
  outputDir: 'tests/.out/e2e',
  forbidOnly: true,
  retries: 0,
  workers: 2,
  // A busy machine is no fault of the book: none of these asserts a time.
  timeout: 120_000,
  expect: { timeout: 20_000 },
  reporter: [['list'], ['json', { outputFile: 'tests/.out/e2e.json' }]],
  use: {
    // Set by the server's own address line, which `wait` below reads: the port is whichever was free.
    baseURL: `http://localhost:${process.env.LAYERBOOK_PORT}`,
    launchOptions: launchOptions(),
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    locale: 'en-US',
    timezoneId: 'America/Chicago',
    actionTimeout: 60_000,
    screenshot: 'only-on-failure',
  },
  webServer: {
    command: `"${process.execPath}" src/cli/start.mjs`,
    env: { PORT: '0' },
    wait: { stdout: /http:\/\/localhost:(?<layerbook_port>\d+)/ },
    timeout: 120_000,
    gracefulShutdown: { signal: 'SIGTERM', timeout: 2_000 },
  },
});
