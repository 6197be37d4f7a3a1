import { defineConfig } from '@playwright/test';
import { findBrowser } from './bin/find-browser.js';
import './tests/support/inline-fonts.ts';

const asRoot = process.getuid?.() === 0;

/** Tests of the built page in a real browser. No frame rate is asserted: the drawing may be done in software. */
export default defineConfig({
  testDir: 'tests/e2e',
  outputDir: `test-results/${process.env.RIMWARD_TEST_TRACES ?? 'browser'}`,
  timeout: 120_000,
  workers: 1,
  forbidOnly: process.env.CI !== undefined,
  // A busy machine may starve a browser; what passes only the second time is counted by name in the last lines.
  retries: process.env.CI === undefined ? 0 : 1,
  use: {
    viewport: { width: 1280, height: 800 },
    launchOptions: {
      executablePath: findBrowser() ?? undefined,
      args: [
        ...(asRoot ? ['--no-sandbox'] : []),
        '--disable-quic',
        '--no-first-run',
        '--disable-background-networking',
        '--disable-component-update',
        '--disable-sync',
      ],
    },
    trace: 'retain-on-failure',
  },
});
