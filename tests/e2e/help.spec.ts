import { type Carried, carry, expect, test } from '../support/carried.ts';
import { goTo, PLACES } from '../support/page-checks.ts';

let site: Carried;

test.setTimeout(240_000);

test.beforeAll(async () => {
  site = await carry();
});

test.afterAll(async () => {
  await site?.close();
});

test('F1 opens the help of the place that is shown, with its caution, and from there what the numbers mean and the keys', async ({
  page,
}) => {
  await site.open(page, '#logbook');
  const texts = new Set<string>();
  for (const place of PLACES) {
    await goTo(page, place);
    await page.keyboard.press('F1');
    const help = page.getByTestId('help-place');
    await expect(help).toBeVisible();
    const text = (await help.textContent()) ?? '';
    expect(text.split(/\s+/).length, place).toBeGreaterThan(120);
    expect(text, place).toContain('not for planning surgery');
    texts.add(text);
    await page.keyboard.press('Escape');
    await expect(page.getByTestId('help-dialog')).toHaveCount(0);
  }
  expect(texts.size, 'each place has its own').toBe(PLACES.length);

  await page.getByTestId('help').click();
  await page.getByTestId('help-to-numbers').click();
  await expect(page.getByTestId('help-number-tearResistance_mN')).toContainText('Assumed');
  await page.getByTestId('help-to-keys').click();
  await expect(page.getByTestId('help-keys')).toContainText('Page Up');
});

test('a number says what it is on hover and on focus, stays under the pointer, and goes on Escape', async ({
  page,
}) => {
  await site.open(page, '#bench');
  await goTo(page, 'bench');
  const label = page.getByRole('complementary', { name: 'Tear tip' }).locator('[data-number="netPressure"]');
  const explanation = page.getByRole('tooltip');
  await expect(label).toBeVisible({ timeout: 60_000 });

  await label.hover();
  await expect(explanation).toContainText('What pushes the capsule outward', { timeout: 30_000 });
  await expect(explanation).toContainText('Where it comes from: Computed by the model');
  await explanation.hover();
  await expect(explanation).toBeVisible();
  await page.mouse.move(640, 400);
  await expect(explanation).toHaveCount(0);

  // reached by keyboard, from the stage on
  await page.getByTestId('stage').focus();
  const reached = () => label.evaluate((element) => element === document.activeElement);
  for (let k = 0; k < 40 && !(await reached()); k++) await page.keyboard.press('Tab');
  await expect(label).toBeFocused();
  await expect(explanation).toBeVisible();
  const id = await explanation.getAttribute('id');
  await expect(label).toHaveAttribute('aria-describedby', id ?? 'none');
  await page.keyboard.press('Escape');
  await expect(explanation).toHaveCount(0);
  await expect(label).toBeFocused();
});

test('every number on the cards of the bench explains itself', async ({ page }) => {
  await site.open(page, '#bench');
  await goTo(page, 'bench');
  await expect(page.getByTestId('driving-force')).toContainText('mN', { timeout: 60_000 });
  const bare = await page.evaluate(() =>
    [...document.querySelectorAll('.card .line')]
      .filter((line) => /\d/.test(line.querySelector('dd')?.textContent ?? ''))
      .filter((line) => line.querySelector('.explained') === null)
      .map((line) => line.textContent),
  );
  expect(bare).toEqual([]);
});

test('the tour begins from the help', async ({ page }) => {
  await site.open(page, '#logbook');
  await goTo(page, 'logbook');
  await page.keyboard.press('F1');
  await page.getByTestId('help-tour').click();
  await expect(page.getByTestId('place-bench')).toHaveAttribute('aria-current', 'page');
  await expect(page.getByTestId('tour')).toBeVisible({ timeout: 60_000 });
});
