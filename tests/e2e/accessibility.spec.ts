import type { Page } from '@playwright/test';
import { type Carried, carry, expect, test } from '../support/carried.ts';
import { accessibilityFaults, goTo, PLACES, sidewaysOverflow_px, unreachable } from '../support/page-checks.ts';

let site: Carried;

// every place in both looks and sizes, on a machine that may be busy with other tests
test.setTimeout(420_000);

test.beforeAll(async () => {
  site = await carry();
});

test.afterAll(async () => {
  await site?.close();
});

/** The page as it opens with what is kept of how this person wants to see it; at the list of attempts, which computes nothing. */
async function open(page: Page, kept: Readonly<Record<string, string | number>>): Promise<void> {
  const usual = { 'view.theme': 'room', 'view.textSize': 1, 'view.motion': 'system', 'view.language': 'en' };
  for (const [key, value] of Object.entries({ ...usual, ...kept })) await site.host.savePreference(key, value);
  await site.open(page, '#logbook');
  const root = page.locator('html');
  const soon = { timeout: 90_000 };
  await expect(root).toHaveAttribute('data-text-size', String(kept['view.textSize'] ?? 1), soon);
  await expect(root).toHaveAttribute('data-theme', String(kept['view.theme'] ?? 'room'), soon);
}

/** How far a page that reads from right to left lies beside the window. */
async function rightToLeft(page: Page): Promise<{ readonly overflow_px: number; readonly barAt_px: number }> {
  const turn = (dir: 'ltr' | 'rtl') =>
    page.evaluate((way) => {
      document.documentElement.dir = way;
    }, dir);
  await turn('rtl');
  const overflow_px = await sidewaysOverflow_px(page);
  const barAt_px = (await page.locator('.bar').boundingBox())?.x ?? 0;
  await turn('ltr');
  return { overflow_px, barAt_px };
}

test('every place keeps to WCAG 2.2 AA by room lights, as do the dialogs, and is no wider than the window from right to left', async ({
  page,
}) => {
  await open(page, {});
  for (const dialog of ['settings', 'help', 'person']) {
    await page.getByTestId(dialog).click();
    await expect(page.locator('dialog[open]')).toBeVisible();
    expect.soft(await accessibilityFaults(page), dialog).toEqual([]);
    await page.keyboard.press('Escape');
    await expect(page.locator('dialog[open]')).toHaveCount(0);
  }
  for (const place of PLACES) {
    await goTo(page, place);
    expect.soft(await accessibilityFaults(page), place).toEqual([]);
    const { overflow_px, barAt_px } = await rightToLeft(page);
    expect.soft(overflow_px, place).toBeLessThanOrEqual(0);
    expect.soft(barAt_px, 'the bar stands at the right').toBeGreaterThan(640);
  }
});

test('every place keeps to WCAG 2.2 AA in the look for a projector', async ({ page }) => {
  await open(page, { 'view.theme': 'projector' });
  for (const place of PLACES) {
    await goTo(page, place);
    expect.soft(await accessibilityFaults(page), place).toEqual([]);
  }
});

test('text at twice its size leaves every control in reach, at every place', async ({ page }) => {
  await open(page, { 'view.textSize': 2 });
  await page.getByTestId('settings').click();
  expect.soft(await unreachable(page), 'settings').toEqual([]);
  await page.keyboard.press('Escape');
  for (const place of PLACES) {
    await goTo(page, place);
    await expect.poll(() => sidewaysOverflow_px(page), { message: place }).toBeLessThanOrEqual(0);
    expect.soft(await unreachable(page), place).toEqual([]);
  }
});

test('nothing moves by itself for who wants less motion, by system or by choice', async ({ page }) => {
  await open(page, {});
  const moving = () => page.evaluate(() => document.getAnimations().length);
  await page.evaluate(() => {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync('@keyframes turn { to { rotate: 1turn } } .brand { animation: turn 5s infinite }');
    document.adoptedStyleSheets = [sheet];
  });
  await expect.poll(moving).toBe(1);
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await expect.poll(moving).toBe(0);
  await page.emulateMedia({ reducedMotion: 'no-preference' });
  await expect.poll(moving).toBe(1);
  await page.getByTestId('settings').click();
  await page.getByTestId('motion-less').check();
  await expect.poll(moving).toBe(0);
});

test('a fault is found where there is one', async ({ page }) => {
  await open(page, {});
  await page.evaluate(() => document.querySelector('main')?.append(document.createElement('button')));
  expect((await accessibilityFaults(page)).join()).toContain('button-name');
  await page.evaluate(() => {
    const cover = document.createElement('div');
    cover.style.cssText = 'position: fixed; inset: 0; z-index: 99';
    document.body.append(cover);
  });
  expect((await unreachable(page)).length).toBeGreaterThan(5);
});
