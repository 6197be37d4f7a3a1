/**
 * Who carries the page that an end-to-end test looks at: a browser over the loopback host, the window's built bundles over
 * the stand-in for Electron, or Electron itself. A test asks for the page with `carry` and does not know which it is.
 */
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test as base, type Page } from '@playwright/test';
import { build } from 'vite';
import { keptData } from '../../src-main/files/kept-data.ts';
import type { RimwardHost } from '../../src-main/ipc/contract.ts';
import { Store } from '../../src-main/store/store.ts';
import { storeServices } from '../../src-main/store/store-services.ts';
import { byBrowser } from './carried-by-browser.ts';
import { byDouble } from './carried-by-double.ts';
import { byElectron, closeElectron, launchElectron } from './carried-by-electron.ts';

export { expect } from '@playwright/test';

export const CARRIERS = ['browser', 'double', 'electron'] as const;
export type Carrier = (typeof CARRIERS)[number];

const ROOT = join(import.meta.dirname, '..', '..');

/** Who carries the page in the test that runs. */
export const carrierNow = (): Carrier => base.info().project.name as Carrier;

/** Within a test: says why it stays with one carrier. By the others it is skipped with that reason. */
export function onlyCarriedBy(carrier: Carrier, why: string): void {
  base.skip(carrierNow() !== carrier, `stays with the ${carrier}: ${why}`);
}

/** A file for the page to take in, by its path or by what is in it. */
export type GivenFile = string | { readonly name: string; readonly body: string };

export interface SavedFile<T> {
  /** As the page suggested it. */
  readonly name: string;
  readonly path: string;
  /** What came of the deed that saved it. */
  readonly value: T;
}

/** What a carrier does for a test. */
export interface Shell {
  /** Opens the page in `page`, or opens it anew, at a place (`#logbook`). */
  open(page: Page, place: string): Promise<void>;
  /** Does what makes the page save a file, and gives the file. */
  saved<T>(page: Page, deed: () => Promise<T>): Promise<SavedFile<T>>;
  /** Does what makes the page ask for a file, and gives it that one. */
  given<T>(page: Page, file: GivenFile, deed: () => Promise<T>): Promise<T>;
  /** Calls the program as its page would; null while no program runs. */
  readonly call: ((method: keyof RimwardHost, args: readonly unknown[]) => Promise<unknown>) | null;
  /** Refuses a call of the page from now on, as on a full disk; `why` null: answers it again. */
  refuse(method: keyof RimwardHost, why: string | null): void;
  close(): Promise<void>;
}

export interface Setting {
  /** Folder that holds the `dist` to run. */
  readonly program: string;
  /** The data folder, of this setting alone. */
  readonly data: string;
  /** Files that were saved or are given. */
  readonly files: string;
  /** What is in the data folder while no program runs; closed before one starts. */
  readonly store: Store;
}

export interface Carried extends Pick<Shell, 'saved' | 'given' | 'refuse' | 'close'> {
  readonly folder: string;
  /** What its program offers the page, asked of the program while it runs; else what is kept, asked of the store. */
  readonly host: RimwardHost;
  open(page: Page, place?: string): Promise<void>;
}

const SHELLS: Readonly<Record<Carrier, (setting: Setting) => Shell | Promise<Shell>>> = {
  browser: byBrowser,
  double: byDouble,
  electron: byElectron,
};

/** Builds the program with the page over the drawn stand-in: the same page and shells, a world without mechanics. */
async function buildDrawn(): Promise<string> {
  const folder = join(ROOT, 'test-results', `drawn-${carrierNow()}`);
  await build({
    root: ROOT,
    configFile: join(ROOT, 'tests', 'support', 'view-fixture.vite.ts'),
    logLevel: 'error',
    build: { outDir: join(folder, 'dist', 'renderer') },
  });
  for (const part of ['package.json', 'dist/electron', 'dist/preload', 'dist/page-host']) {
    cpSync(join(ROOT, part), join(folder, part), { recursive: true });
  }
  return folder;
}

let drawnProgram: Promise<string> | null = null;
let latest: Setting | null = null;

export interface CarriedPage {
  /** The page over the drawn stand-in for the mechanics instead of the one that ships. */
  readonly drawn?: boolean;
  /** Whether the tour was not offered yet, as at the very first start. */
  readonly toursOffer?: boolean;
}

/** The page over a data folder of its own, to be opened with `open`. Before the test's page where both are made in hooks. */
export async function carry({ drawn = false, toursOffer = false }: CarriedPage = {}): Promise<Carried> {
  if (drawn) drawnProgram ??= buildDrawn();
  const program = (drawn ? await drawnProgram : null) ?? ROOT;
  const data = mkdtempSync(join(tmpdir(), 'data-'));
  const store = new Store(data);
  const kept: Partial<RimwardHost> = { ...keptData(data), ...storeServices(store) };
  if (!toursOffer) await kept.savePreference?.('tour.offered', true);
  const setting: Setting = { program, data, store, files: mkdtempSync(join(tmpdir(), 'files-')) };
  const shell = await SHELLS[carrierNow()](setting);
  latest = setting;
  const host = new Proxy({} as RimwardHost, {
    get:
      (_target, method: keyof RimwardHost) =>
      (...args: unknown[]) =>
        shell.call === null ? (kept[method] as (...some: unknown[]) => unknown)(...args) : shell.call(method, args),
  });
  return {
    folder: data,
    host,
    open: (shown, place = '') => shell.open(shown, place),
    saved: (shown, deed) => shell.saved(shown, deed),
    given: (shown, file, deed) => shell.given(shown, file, deed),
    refuse: (method, why) => shell.refuse(method, why),
    close: async () => {
      await shell.close();
      store.close();
      for (const folder of [data, setting.files]) rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** As Playwright's own; where Electron carries the page, `page` is that of its window, over what `carry` made last. */
export const test = base.extend({
  page: async ({ page, viewport, hasTouch }, use) => {
    if (carrierNow() !== 'electron') return use(page);
    if (latest === null) throw new Error('nothing is carried yet: `carry` comes before the page');
    await use(await launchElectron(latest, viewport, hasTouch));
    await closeElectron();
  },
});
