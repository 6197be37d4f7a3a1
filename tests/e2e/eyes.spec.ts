import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { type Carried, carry, expect, test } from '../support/carried.ts';

/** The editor of scenarios in the page that ships, with a data folder of its own. */
test.describe('the editor of scenarios', () => {
  let site: Carried;
  let complaints: string[];
  test.beforeEach(async () => {
    site = await carry();
  });
  test.afterEach(async () => {
    await site.close();
  });

  async function open(page: Page): Promise<void> {
    complaints = [];
    page.on('console', (message) => {
      if (message.type() === 'error') complaints.push(message.text());
    });
    page.on('pageerror', (fault) => complaints.push(fault.message));
    await site.open(page);
    await toEyes(page);
  }
  async function toEyes(page: Page): Promise<void> {
    await page.getByTestId('place-eyes').click();
    await expect(page.getByTestId('eyes')).toBeVisible();
  }
  const field = (page: Page, place: string) => page.getByTestId(`field-${place}`);
  const saved = (): readonly string[] => {
    const folder = join(site.folder, 'scenarios');
    return readdirSync(folder).filter((name) => name.startsWith('scenario-'));
  };
  const choose = (page: Page, label: string) => page.getByTestId('which').selectOption({ label });

  test('an edit of a shipped scenario makes a copy; it is saved, offered on the bench and still there after a reload', async ({
    page,
  }) => {
    await open(page);
    await choose(page, 'A 65-year-old, full chamber');
    await field(page, 'eye.age_years').fill('4');
    await expect(page.getByTestId('desk-line')).toContainText('copy of your own');
    await page.getByTestId('tab-name').click();
    await field(page, 'title').fill('My four-year-old');
    await page.keyboard.press('Control+s');
    await expect(page.getByTestId('desk-line')).toContainText('Saved');
    expect(saved()).toEqual(['scenario-adult-baseline-mine.json']);
    await page.getByTestId('to-bench').click();
    await expect(page.getByTestId('scenario')).toHaveValue('adult-baseline-mine');
    await expect(page.getByTestId('eye-age')).toHaveText('4 years');
    await site.open(page);
    await toEyes(page);
    await choose(page, 'My four-year-old');
    await expect(field(page, 'eye.age_years')).toHaveValue('4');
    expect(complaints).toEqual([]);
  });

  test('what is typed survives a reload without having been saved, text that is no number included', async ({
    page,
  }) => {
    await open(page);
    await field(page, 'eye.age_years').fill('three');
    await expect(page.getByTestId('wrong-eye.age_years')).toContainText('Found "three"; allowed: a finite number');
    await expect(page.getByTestId('save')).toBeDisabled();
    await expect(page.getByTestId('stale-preview')).toBeVisible();
    const drafts = join(site.folder, 'scenarios', 'eye-drafts.json');
    await expect.poll(() => existsSync(drafts) && readFileSync(drafts, 'utf8')).toContain('three');
    await site.open(page);
    await toEyes(page);
    await expect(field(page, 'eye.age_years')).toHaveValue('three');
    await page.getByTestId('problems').getByRole('button', { name: 'eye.age_years' }).click();
    await expect(field(page, 'eye.age_years')).toBeFocused();
    await page.keyboard.press('Control+a');
    await page.keyboard.type('3');
    await expect(page.getByTestId('sound')).toBeVisible();
    expect(saved()).toEqual([]);
  });

  test('undo and redo, duplicate, and a deletion that asks', async ({ page }) => {
    await open(page);
    await field(page, 'eye.pupilDiameter_mm').fill('5');
    await page.keyboard.press('Tab');
    await field(page, 'eye.age_years').fill('8');
    await page.keyboard.press('Control+z');
    await expect(field(page, 'eye.age_years')).not.toHaveValue('8');
    await expect(field(page, 'eye.pupilDiameter_mm')).toHaveValue('5');
    await page.keyboard.press('Control+y');
    await expect(field(page, 'eye.age_years')).toHaveValue('8');
    await page.getByTestId('save').click();
    await expect.poll(() => saved().length).toBe(1);
    await page.getByTestId('duplicate').click();
    await page.getByTestId('save').click();
    await expect.poll(() => saved().length).toBe(2);
    await page.getByTestId('delete').click();
    await page.getByRole('button', { name: 'Keep it' }).click();
    expect(saved().length).toBe(2);
    await page.getByTestId('delete').click();
    await page.getByTestId('delete-yes').click();
    await expect.poll(() => saved().length).toBe(1);
  });

  test('the line is placed for the opening, and the preview and what follows go along', async ({ page }) => {
    await open(page);
    await page.getByTestId('tab-target').click();
    await field(page, 'target.diameter_mm').fill('4.4');
    await expect(page.getByTestId('line-remark')).toBeVisible();
    await page.getByTestId('place-line').click();
    await expect(page.getByTestId('line-remark')).toHaveCount(0);
    const line = Number(await field(page, 'target.lineDiameter_mm').inputValue());
    expect(line).toBeGreaterThan(3);
    expect(line).toBeLessThan(4.4);
    await expect(page.getByTestId('eye-line')).toHaveAttribute('r', String(line / 2));
    // the line is rounded to a hundredth, so the opening is right within about as much
    const promised = async () => Number.parseFloat((await page.getByTestId('follows-opening').textContent()) ?? '');
    await expect.poll(async () => Math.abs((await promised()) - 4.4)).toBeLessThan(0.02);
    await page.getByTestId('tab-chamber').click();
    await field(page, 'chamber.behindPressure_mmHg').fill('9');
    await field(page, 'chamber.fillPressure_mmHg').fill('4');
    await expect(page.getByTestId('follows-net')).toHaveText(/^5\.0/);
  });

  test('rows of grades and incisions come and go; a grade without a limit is a problem', async ({ page }) => {
    await open(page);
    await page.getByTestId('tab-grades').click();
    await page.getByTestId('add-metric').selectOption('grasps');
    await page.getByTestId('add-tolerance').click();
    const row = page.getByTestId('tolerance-grasps');
    await expect(row).toContainText('Found no limit');
    await row.getByLabel('at most').fill('12');
    await expect(page.getByTestId('sound')).toBeVisible();
    await page.getByTestId('tolerance-axisRatio').getByRole('button').click();
    await expect(page.getByTestId('tolerance-axisRatio')).toHaveCount(0);
    await page.getByTestId('tab-start').click();
    await page.getByTestId('add-incision').click();
    await expect(field(page, 'incisions[2].clock_h')).toHaveValue('2');
    await page.getByTestId('start-two-nicks').check();
    await expect(page.getByTestId('sound')).toBeVisible();
    await expect(page.getByTestId('eye-start')).toHaveAttribute('d', /^M.*M/);
  });

  test('every field tells its range, how well it is known and from where, to a reader and on focus', async ({
    page,
  }) => {
    await open(page);
    for (const tab of ['eye', 'chamber', 'start', 'target', 'rules']) {
      await page.getByTestId(`tab-${tab}`).click();
      const notes = await page.locator('.eyes-field .for-ears').allTextContents();
      expect(notes.length).toBeGreaterThan(2);
      for (const note of notes) expect(note).toMatch(/(measured|derived|assumed)\. \S.{15}/);
    }
    await page.getByTestId('tab-target').click();
    await field(page, 'target.diameter_mm').focus();
    await expect(page.getByTestId('about')).toContainText('Packer 2015');
    await expect(page.getByTestId('about')).toContainText('2 to 9');
    await expect(page.getByTestId('caution')).toContainText('not for planning surgery');
  });

  test('a shared file is taken in again under a free name; a bad one lists its problems and changes nothing', async ({
    page,
  }) => {
    await open(page);
    const { path } = await site.saved(page, () => page.getByTestId('share').click());
    const text = readFileSync(path, 'utf8');
    const take = (name: string, body: string) =>
      site.given(page, { name, body }, () => page.getByTestId('open-scenario').click());
    await take('given.rimward', text);
    await expect(page.getByTestId('desk-line')).toContainText('Opened given.rimward');
    const before = await page.getByTestId('which').locator('option').count();
    await take('bad.rimward', text.replace('"age_years": 0.5', '"age_years": 500'));
    await expect(page.getByTestId('complaints')).toContainText(
      'bad.rimward: eye.age_years: found 500, allowed: at most 95',
    );
    await take('cut.rimward', text.slice(0, 200));
    await expect(page.getByTestId('complaints')).toContainText('not JSON');
    expect(await page.getByTestId('which').locator('option').count()).toBe(before);
  });

  test('speaks another language at once, takes its comma for a number, and goes from part to part by arrow keys', async ({
    page,
  }) => {
    await open(page);
    const speak = async (language: string) => {
      await page.getByTestId('settings').click();
      // its letters may have to come first, so the mark follows the click
      await page.getByTestId(`language-${language}`).click();
      await expect(page.locator('html')).toHaveAttribute('lang', language, { timeout: 30_000 });
      await page.keyboard.press('Escape');
      await expect(page.locator('dialog[open]')).toHaveCount(0);
    };
    await speak('es');
    await field(page, 'eye.age_years').fill('0,25');
    await expect(page.getByTestId('sound')).toContainText('Sin problemas');
    await expect(page.getByTestId('which').locator('option:checked')).toContainText('mi copia');
    await field(page, 'eye.age_years').fill('96,5');
    await expect(page.getByTestId('wrong-eye.age_years')).toHaveText('Encontrado: 96,5; se admite: como máximo 95');
    await expect(page.getByTestId('about')).toContainText('0 a 95');
    await speak('hi');
    await expect(page.getByTestId('tab-eye')).toHaveText(/^आँख/);
    await expect(page.getByTestId('wrong-eye.age_years')).toContainText('अधिक से अधिक 95');
    await page.getByTestId('tab-eye').focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    await expect(page.getByTestId('tab-start')).toBeFocused();
    await expect(page.getByTestId('tab-start')).toHaveAttribute('aria-selected', 'true');
    await page.keyboard.press('End');
    await expect(page.getByTestId('tab-try')).toBeFocused();
    expect(complaints).toEqual([]);
  });

  test('a guided hand tries the scenario as it stands and tells what came of it; it can be stopped', async ({
    page,
  }) => {
    test.setTimeout(300_000);
    await open(page);
    await choose(page, 'A 65-year-old, full chamber');
    await page.getByTestId('tab-try').click();
    await page.getByTestId('try-start').click();
    await expect(page.getByTestId('try-running')).toBeVisible();
    await page.getByTestId('try-cancel').click();
    await expect(page.getByTestId('try-running')).toHaveCount(0);
    await page.getByTestId('try-start').click();
    await page.getByTestId('tab-eye').click();
    await page.getByTestId('tab-try').click();
    const result = page.getByTestId('try-result');
    await expect(result).toBeVisible({ timeout: 240_000 });
    await expect(result).toHaveAttribute('data-ended', 'complete');
    await expect(page.getByTestId('drawn-try')).toBeVisible();
    expect(complaints).toEqual([]);
  });

  for (const [width, height] of [
    [1024, 768],
    [1280, 800],
    [1920, 1080],
  ] as const) {
    test(`nothing leaves the window at ${width} by ${height}, in either look`, async ({ page }) => {
      await page.setViewportSize({ width, height });
      await open(page);
      for (const look of ['room', 'projector']) {
        await expect(page.locator('html')).toHaveAttribute('data-theme', look);
        for (const tab of ['name', 'eye', 'chamber', 'start', 'target', 'grades', 'rules', 'try']) {
          await page.getByTestId(`tab-${tab}`).click();
          const wide = await page
            .locator('.eyes, .eyes-form, .eyes-part, .eyes-preview')
            .evaluateAll((all) =>
              all
                .filter(
                  (one) =>
                    one.scrollWidth > one.clientWidth + 1 || one.getBoundingClientRect().right > window.innerWidth + 1,
                )
                .map((one) => `${one.className} ${one.scrollWidth} > ${one.clientWidth}`),
            );
          expect(wide, `${look} ${tab}`).toEqual([]);
        }
        await page.getByTestId('theme').click();
      }
    });
  }
});
