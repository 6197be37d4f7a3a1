/**
 * Drawing of both eyes of the Lecture by the built page in a headless browser while a guided hand tears, printed as lines of
 * JSON: once as the page draws by itself, once held at full resolution. Each has the share of the full resolution along each side
 * (at the beginning and the end), pictures and steps a second, and processor time of a picture by process; the last line has the
 * page's heap after each tear.
 *
 *     node tests/bench/window-drawing.ts [--seconds 10] [--heap-minutes 0]
 *
 * Pictures a second tell only on a machine that does nothing else; processor time tells anywhere. The load is that of the
 * machine just before. `--heap-minutes 10` goes on tearing for so long.
 */
import { loadavg } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { type Browser, chromium, type Page } from 'playwright';
import { findBrowser } from '../../bin/find-browser.js';
import '../support/inline-fonts.ts';
import {
  openTearingPair,
  pageHeap_MB,
  pairPictures,
  pairReaches,
  pairStep,
  tearAnew,
} from '../support/tearing-pair.ts';

// after the font loader: the program's reports carry a font
const { startLoopback } = await import('../../src-main/loopback/server.ts');

const root = join(import.meta.dirname, '..', '..');
const { values } = parseArgs({
  options: { seconds: { type: 'string', default: '10' }, 'heap-minutes': { type: 'string', default: '0' } },
});
/** Steps of each tear while the heap is followed. */
const STEPS = 600;

async function processorTimes(browser: Browser): Promise<() => Promise<Record<string, number>>> {
  const session = await browser.newBrowserCDPSession();
  return async () => {
    const { processInfo } = await session.send('SystemInfo.getProcessInfo');
    const sum: Record<string, number> = {};
    for (const { type, cpuTime } of processInfo) sum[type] = (sum[type] ?? 0) + 1000 * cpuTime;
    return sum;
  };
}

const shareDrawn = (page: Page): Promise<number> =>
  page.getByTestId('twin-left').evaluate((stage: HTMLElement) => Number(stage.dataset.share));

async function drawing(browser: Browser, page: Page) {
  const times = await processorTimes(browser);
  const load = loadavg()[0];
  await pairReaches(page, 60);
  const shareAtFirst = await shareDrawn(page);
  const [began_ms, before, step, pictures] = [
    performance.now(),
    await times(),
    await pairStep(page),
    await pairPictures(page),
  ];
  await page.waitForTimeout(1000 * Number(values.seconds));
  const after = await times();
  const [drawn, stepped] = [(await pairPictures(page)) - pictures, (await pairStep(page)) - step];
  const passed_s = (performance.now() - began_ms) / 1000;
  return {
    load,
    shareAtFirst,
    share: await shareDrawn(page),
    picturesPerSecond: drawn / passed_s,
    stepsPerSecond: stepped / passed_s,
    processor_msPerPicture: Object.fromEntries(
      Object.entries(after).map(([type, ms]) => [type, (ms - (before[type] ?? 0)) / Math.max(1, drawn)]),
    ),
    canvas: await page.evaluate(() => {
      const canvas = document.querySelector<HTMLCanvasElement>('.twin-stage .stage-moves');
      return canvas === null ? '' : `${canvas.width}x${canvas.height} of ${canvas.clientWidth}x${canvas.clientHeight}`;
    }),
  };
}

async function heaps_MB(page: Page): Promise<readonly number[]> {
  const session = await page.context().newCDPSession(page);
  const until = performance.now() + 60_000 * Number(values['heap-minutes']);
  const heaps: number[] = [];
  while (performance.now() < until) {
    await tearAnew(page);
    heaps.push(await pageHeap_MB(session));
    await pairReaches(page, STEPS);
  }
  return heaps;
}

const site = await startLoopback({
  pageFolder: join(root, 'dist', 'renderer'),
  pageHostFile: join(root, 'dist', 'page-host', 'page-host.js'),
  services: {},
});
const sandbox = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
const browser = await chromium.launch({
  executablePath: findBrowser() ?? undefined,
  args: [
    ...sandbox,
    '--disable-quic',
    '--no-first-run',
    '--disable-background-networking',
    '--disable-component-update',
  ],
});

// one for all: the address lets in once
const context = await browser.newContext({ viewport: { width: 1280, height: 720 } });

/** A page of its own with both eyes tearing. @param full held at full resolution */
async function tearingPage(full: boolean): Promise<Page> {
  const page = await context.newPage();
  if (full) await page.addInitScript(() => sessionStorage.setItem('rimward.drawing', 'full'));
  await page.goto(site.address);
  await openTearingPair(page);
  return page;
}

try {
  for (const full of [false, true]) {
    const page = await tearingPage(full);
    console.log(JSON.stringify({ drawn: full ? 'in full' : 'by itself', ...(await drawing(browser, page)) }));
    await page.close();
  }
  if (Number(values['heap-minutes']) > 0) {
    console.log(JSON.stringify({ heaps_MB: await heaps_MB(await tearingPage(false)) }));
  }
} finally {
  await browser.close();
  await site.close();
}
