/** How the words of the languages sit in the page: nothing broken over lines, cut off without a sign, or drawn as boxes. */
import type { Page } from '@playwright/test';
import { type Carried, carry, expect, onlyCarriedBy, test } from '../support/carried.ts';
import { goTo } from '../support/page-checks.ts';

let site: Carried;

test.setTimeout(300_000);
test.beforeEach(async () => {
  onlyCarriedBy('browser', 'the same page, its words and style sheets are looked at');
  site = await carry();
});
test.afterEach(async () => {
  await site?.close();
});

async function look(page: Page, language: string, theme: string): Promise<void> {
  await page.getByTestId('settings').click();
  await page.getByTestId(`language-${language}`).check();
  await page.getByTestId(`look-${theme}`).check();
  await page.keyboard.press('Escape');
  await expect(page.locator('dialog[open]')).toHaveCount(0);
}

/** Lines over which the text of an element is broken. */
const linesOf = (page: Page, testid: string): Promise<number> =>
  page.getByTestId(testid).evaluate((element) => {
    const range = document.createRange();
    range.selectNodeContents(element);
    return new Set([...range.getClientRects()].map(({ top }) => Math.round(top))).size;
  });

test('the name of Hindi in the list of languages is drawn with letters of its own, by whoever has none', async ({
  page,
}) => {
  await site.open(page);
  await page.getByTestId('settings').click();
  const name = page.locator('label:has([data-testid="language-hi"]) span');
  await expect(name).toHaveText('हिन्दी');
  const devtools = await page.context().newCDPSession(page);
  await devtools.send('DOM.enable');
  await devtools.send('CSS.enable');
  const { root } = await devtools.send('DOM.getDocument', { depth: -1 });
  const selector = 'label:has([data-testid="language-hi"]) span';
  const { nodeId } = await devtools.send('DOM.querySelector', { nodeId: root.nodeId, selector });
  const { fonts } = await devtools.send('CSS.getPlatformFontsForNode', { nodeId });
  // a system that has letters of its own may draw with those
  expect(fonts.map(({ familyName }) => familyName).join()).toMatch(/devanagari|nirmala|mangal|kohinoor|lohit/i);
});

test('the number of the board stands on one line, beside both buttons', async ({ page }) => {
  await site.open(page, '#lecture');
  await goTo(page, 'lecture');
  for (const theme of ['room', 'projector'])
    for (const language of ['es', 'hi', 'en']) {
      await look(page, language, theme);
      for (const width of [1024, 1280, 1366, 1536, 1920]) {
        await page.setViewportSize({ width, height: 800 });
        expect(await linesOf(page, 'board-number'), `${language} ${theme} ${width}`).toBe(1);
        const over = await page.locator('.boards-way').evaluate((row) => row.scrollWidth - row.clientWidth);
        expect(over, `${language} ${theme} ${width}`).toBeLessThanOrEqual(0);
      }
    }
});

test('a long name of an eye ends before the arrow and is whole in the tooltip', async ({ page }) => {
  await page.setViewportSize({ width: 1280, height: 800 });
  await site.open(page);
  await goTo(page, 'bench');
  await look(page, 'es', 'projector');
  const chooser = page.getByTestId('scenario');
  await chooser.selectOption('pair-dyed');
  await expect(chooser).toHaveCSS('text-overflow', 'ellipsis');
  await expect(chooser).toHaveAttribute('title', 'El mismo ojo de 4 años, cápsula teñida');
});
