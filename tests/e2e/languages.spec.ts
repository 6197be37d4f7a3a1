import type { Page } from '@playwright/test';
import { type Carried, carry, expect, test } from '../support/carried.ts';
import { bareKeys, goTo, PLACES } from '../support/page-checks.ts';

let site: Carried;

test.setTimeout(300_000);

test.beforeEach(async () => {
  site = await carry();
});

test.afterEach(async () => {
  await site?.close();
});

async function choose(page: Page, language: string): Promise<void> {
  await page.getByTestId('settings').click();
  await page.getByTestId(`language-${language}`).check();
  await expect(page.locator('html')).toHaveAttribute('lang', language, { timeout: 30_000 });
  await page.keyboard.press('Escape');
  await expect(page.locator('dialog[open]')).toHaveCount(0);
}

const stepOf = async (page: Page): Promise<number> => Number(await page.getByTestId('stage').getAttribute('data-step'));

test('changing the language in the middle of an attempt keeps the attempt, and is kept over a new start', async ({
  page,
}) => {
  await site.open(page);
  await goTo(page, 'bench');
  await expect(page.getByTestId('stage')).toHaveAttribute('data-step', /^\d+$/, { timeout: 60_000 });
  await page.getByTestId('stage').focus();
  await page.keyboard.down('ArrowUp');
  await expect.poll(() => stepOf(page), { timeout: 60_000 }).toBeGreaterThan(5);
  await page.keyboard.up('ArrowUp');
  await page.keyboard.press('Space');
  await expect(page.getByTestId('pause')).toHaveAttribute('aria-pressed', 'true');
  const before = await stepOf(page);
  await choose(page, 'es');
  await expect(page.getByTestId('place-bench')).toContainText('Mesa');
  await expect(page.getByTestId('net-pressure').first()).toHaveText(/^−?\d+,\d\u00a0mmHg$/);
  await expect(page.getByTestId('caution')).toContainText('no sirve para planificar');
  await page.getByTestId('pause').click();
  await expect.poll(() => stepOf(page), { timeout: 60_000 }).toBeGreaterThan(before);

  await expect.poll(async () => (await site.host.loadPreferences())['view.language'], { timeout: 30_000 }).toBe('es');
  await site.open(page, '#logbook');
  await expect(page.locator('html')).toHaveAttribute('lang', 'es', { timeout: 30_000 });
  await expect(page.getByTestId('place-logbook')).toContainText('Registro');
});

test('no place shows the name of a message instead of its words, in any language', async ({ page }) => {
  await site.open(page, '#logbook');
  await goTo(page, 'logbook');
  for (const language of ['es', 'hi']) {
    await choose(page, language);
    for (const place of PLACES) {
      await goTo(page, place);
      expect.soft(await bareKeys(page), `${place} in ${language}`).toEqual([]);
    }
    await page.getByTestId('help').click();
    for (const part of ['place', 'numbers', 'keys']) {
      await page.getByTestId(`help-to-${part}`).click();
      await expect(page.getByTestId(`help-${part}`)).toBeVisible();
      expect.soft(await bareKeys(page), `help, ${part}, in ${language}`).toEqual([]);
    }
    await page.keyboard.press('Escape');
  }
  await page.evaluate(() => document.querySelector('.brand')?.setAttribute('title', 'common.no.such'));
  expect(await bareKeys(page)).toEqual(['common.no.such']);
});
