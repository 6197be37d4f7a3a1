/**
 * Figures of the built page in a headless browser, printed as one line of JSON for `rimward bench`: start, time between pictures
 * while the world runs, pictures from hand to instrument, and heaps of page and worker. `--short` begins fewer attempts anew.
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { chromium, type Page } from 'playwright';
import { findBrowser } from '../../bin/find-browser.js';
import '../support/inline-fonts.ts';
import { attachToWorker, isModule } from '../support/worker-session.ts';

// after the font loader: the program's reports carry a font
const { startLoopback } = await import('../../src-main/loopback/server.ts');

const root = join(import.meta.dirname, '..', '..');
const pageFolder = join(root, 'dist', 'renderer');
const short = process.argv.includes('--short');
const ATTEMPTS = short ? 10 : 50;
const RUN_ms = short ? 4_000 : 10_000;
const MOVES = short ? 6 : 15;
const MB = 1024 * 1024;

/** What the page keeps for us between calls; put there before the page's own script runs. */
interface Notes {
  ready_ms: number;
  frames_ms: number[];
  latencies: number[];
  moved: boolean;
}

declare global {
  interface Window {
    benchNotes: Notes;
  }
}

/** Runs in the page: notes when the stage was first drawn, the time between pictures, and how late the instrument follows. */
function takeNotes(): void {
  const notes: Notes = { ready_ms: 0, frames_ms: [], latencies: [], moved: false };
  window.benchNotes = notes;
  let last = 0;
  let frame = 0;
  let asked: { readonly frame: number; readonly at: string | undefined } | null = null;
  const stage = () => document.querySelector<HTMLElement>('[data-testid=stage]')?.dataset;
  window.addEventListener('pointermove', () => {
    if (notes.moved) return;
    notes.moved = true;
    asked = { frame, at: stage()?.instrumentPx };
  });
  const tick = (now: number): void => {
    frame += 1;
    if (last > 0) notes.frames_ms.push(now - last);
    last = now;
    const seen = stage();
    if (notes.ready_ms === 0 && seen?.step !== undefined) notes.ready_ms = performance.now();
    if (asked && seen?.instrumentPx !== asked.at) {
      notes.latencies.push(frame - asked.frame);
      asked = null;
    }
    requestAnimationFrame(tick);
  };
  requestAnimationFrame(tick);
}

const stepOf = (page: Page) =>
  page.evaluate(() => Number(document.querySelector<HTMLElement>('[data-testid=stage]')?.dataset.step ?? Number.NaN));

async function middleOf(page: Page): Promise<readonly [number, number]> {
  const text = await page.evaluate(
    () => document.querySelector<HTMLElement>('[data-testid=stage]')?.dataset.centrePx ?? '0,0',
  );
  const [x, y] = text.split(',').map(Number);
  return [x, y];
}

/** Moves the mouse about for a while, so that the world runs. */
async function stir(page: Page, for_ms: number): Promise<void> {
  const [x, y] = await middleOf(page);
  const until = performance.now() + for_ms;
  for (let k = 0; performance.now() < until; k++) {
    await page.mouse.move(x + 40 * Math.cos(k / 5), y + 40 * Math.sin(k / 5));
    await page.waitForTimeout(20);
  }
}

async function framesWhileRunning(page: Page): Promise<readonly number[]> {
  await stir(page, 1_000);
  await page.evaluate(() => {
    window.benchNotes.frames_ms.length = 0;
  });
  await stir(page, RUN_ms);
  return page.evaluate(() => window.benchNotes.frames_ms.slice());
}

async function latencies(page: Page): Promise<readonly number[]> {
  const [x, y] = await middleOf(page);
  await page.evaluate(() => {
    window.benchNotes.latencies.length = 0;
  });
  for (let k = 0; k < MOVES; k++) {
    // the instrument must be at rest, or it would seem to answer at once
    await page.waitForTimeout(700);
    await page.evaluate(() => {
      window.benchNotes.moved = false;
    });
    await page.mouse.move(x + 60 * (k % 2 === 0 ? 1 : -1), y + 10 * k);
  }
  await page.waitForTimeout(700);
  return page.evaluate(() => window.benchNotes.latencies.slice());
}

interface HeapUsage {
  readonly usedSize: number;
  readonly backingStorageSize?: number;
}

/** Objects and typed arrays after a collection, MB. */
async function heap_MB(ask: (method: string) => Promise<unknown>): Promise<number> {
  await ask('HeapProfiler.collectGarbage');
  const { usedSize, backingStorageSize = 0 } = (await ask('Runtime.getHeapUsage')) as HeapUsage;
  return (usedSize + backingStorageSize) / MB;
}

async function beginAnew(page: Page): Promise<void> {
  await page.keyboard.press('r');
  await page.waitForFunction(
    () => Number(document.querySelector<HTMLElement>('[data-testid=stage]')?.dataset.step) === 0,
  );
  while (!((await stepOf(page)) > 3)) await stir(page, 60);
}

const quantile = (values: readonly number[], share: number): number => {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
};

async function figures(page: Page, address: string, version: string) {
  await page.addInitScript(takeNotes);
  await page.goto(address);
  await page.waitForFunction(() => window.benchNotes.ready_ms > 0);
  const start_ms = await page.evaluate(() => window.benchNotes.ready_ms);
  const frames = await framesWhileRunning(page);
  const late = await latencies(page);
  const session = await page.context().newCDPSession(page);
  const ofPage = (method: string) => session.send(method as 'HeapProfiler.collectGarbage');
  const worker = await attachToWorker(session);
  await worker?.ask('Debugger.enable');
  await beginAnew(page);
  const before = [await heap_MB(ofPage), worker ? await heap_MB(worker.ask) : Number.NaN];
  for (let attempt = 0; attempt < ATTEMPTS; attempt++) await beginAnew(page);
  const after = [await heap_MB(ofPage), worker ? await heap_MB(worker.ask) : Number.NaN];
  return {
    browser: version,
    start_ms,
    medianFrame_ms: quantile(frames, 0.5),
    frame95_ms: quantile(frames, 0.95),
    inputToFrame_frames: quantile(late, 0.5),
    attemptsBegun: ATTEMPTS,
    kernelInWorker: worker?.compiled.some(isModule) ?? false,
    pageHeap_MB: [before[0], after[0]],
    workerHeap_MB: worker ? [before[1], after[1]] : null,
  };
}

async function run(): Promise<unknown> {
  const executablePath = findBrowser();
  if (executablePath === null) return { leftOut: 'no Chrome, Chromium or Edge was found' };
  if (!existsSync(join(pageFolder, 'index.html'))) return { leftOut: 'the page is not built: npm run build' };
  const site = await startLoopback({
    pageFolder,
    pageHostFile: join(root, 'dist', 'page-host', 'page-host.js'),
    services: {},
  });
  const args = ['--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update'];
  if (process.getuid?.() === 0) args.push('--no-sandbox');
  const browser = await chromium.launch({ executablePath, args: [...args, '--disable-sync'] });
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    return await figures(page, site.address, browser.version());
  } finally {
    await browser.close();
    await site.close();
  }
}

console.log(JSON.stringify(await run()));
