import { defineConfig, type Project } from '@playwright/test';
import { findBrowser } from './bin/find-browser.js';
import { electronHere } from './src-main/start/find-electron.ts';
import './tests/support/inline-fonts.ts';

const found = electronHere();
const asRoot = process.getuid?.() === 0;

/** About the loopback host, or starting a window by themselves: no other carrier would change what they look at. */
const OF_THEIR_OWN = ['start.spec.ts', 'window-double.spec.ts', 'window-electron.spec.ts'];

/** What the stand-in for Electron carries in every run; `RIMWARD_CARRIER=double` lets it carry all. */
const ALWAYS_BY_DOUBLE = ['help.spec.ts', 'store-exchange.spec.ts', 'bench-kept.spec.ts'];

/** Who carries the page (`tests/support/carried.ts`). The whole suite by the one asked for, else as a usual run has it. */
function projects(): Project[] {
  const by = (name: string, rest: Omit<Project, 'name'> = {}): Project => ({ name, testIgnore: OF_THEIR_OWN, ...rest });
  const browser = { name: 'browser' };
  const asked = process.env.RIMWARD_CARRIER;
  if (asked === 'browser') return [browser];
  if (asked === 'double' || asked === 'electron') return [by(asked)];
  if (asked !== undefined) {
    throw new Error(`RIMWARD_CARRIER: found "${asked}", allowed: browser, double, electron`);
  }
  const electron = 'path' in found ? [by('electron')] : [];
  return [browser, by('double', { testMatch: ALWAYS_BY_DOUBLE }), ...electron];
}

/** Tests of the built page in a real browser. No frame rate is asserted: the drawing may be done in software. */
export default defineConfig({
  testDir: 'tests/e2e',
  outputDir: `test-results/${process.env.RIMWARD_TEST_TRACES ?? 'browser'}`,
  timeout: 120_000,
  workers: 1,
  forbidOnly: process.env.CI !== undefined,
  // A busy machine may starve a browser; what passes only the second time is counted by name in the last lines.
  retries: process.env.CI === undefined ? 0 : 1,
  projects: projects(),
  // For the last lines of the run.
  metadata: { withoutElectron: 'why' in found ? [`none carried by electron: ${found.why}`] : [] },
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
