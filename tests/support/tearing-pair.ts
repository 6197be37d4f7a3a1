import type { CDPSession, Page } from '@playwright/test';

/** The third board, which is made to run a whole tear: both eyes at real time, tension map and lines on. */
const BOARD = 'twice-along-the-edge';

const left = (page: Page) => page.getByTestId('twin-left');

/** Last step drawn of both eyes. */
export const pairStep = async (page: Page): Promise<number> =>
  Number((await left(page).getAttribute('data-step')) ?? -1);

/** Pictures drawn of the pair so far. */
export const pairPictures = async (page: Page): Promise<number> =>
  Number((await left(page).getAttribute('data-frames')) ?? 0);

/** Waits until the pair has been drawn at a step or a later one. */
export async function pairReaches(page: Page, step: number): Promise<void> {
  await page.waitForFunction(
    (asked) => Number(document.querySelector<HTMLElement>('[data-testid=twin-left]')?.dataset.step ?? -1) >= asked,
    step,
    { timeout: 120_000, polling: 100 },
  );
}

/**
 * Opens the Lecture and has a guided hand tear an infant's capsule in it, under an adult's, from a flap. Buttons are
 * told of a click: a page that draws without pause on a busy machine stands still for no pointer.
 */
export async function openTearingPair(page: Page): Promise<void> {
  await page.getByTestId('place-lecture').dispatchEvent('click');
  await pairReaches(page, 0);
  await page.getByTestId('board-next').dispatchEvent('click');
  await page.getByTestId('board-next').dispatchEvent('click');
  await page.getByTestId('all-boards').dispatchEvent('click');
  await page.getByTestId(`edit-${BOARD}`).dispatchEvent('click');
  await page.getByTestId('board-scenario').selectOption('infant-thick-fluid');
  await page.getByTestId('board-hand').selectOption('infant-thick-holding');
  await page.getByTestId('board-save').dispatchEvent('click');
  await page.getByTestId('boards-close').dispatchEvent('click');
  await tearAnew(page);
}

/** The same tear from its beginning. */
export async function tearAnew(page: Page): Promise<void> {
  await page.getByTestId('board-again').dispatchEvent('click');
  await page.waitForFunction(
    () => Number(document.querySelector<HTMLElement>('[data-testid=twin-left]')?.dataset.step ?? 1e9) < 20,
    undefined,
    { timeout: 60_000, polling: 20 },
  );
}

/** Objects and typed arrays of the page after a collection, MB. */
export async function pageHeap_MB(session: CDPSession): Promise<number> {
  await session.send('HeapProfiler.collectGarbage');
  const usage = (await session.send('Runtime.getHeapUsage')) as { usedSize: number; backingStorageSize?: number };
  return (usage.usedSize + (usage.backingStorageSize ?? 0)) / 2 ** 20;
}
