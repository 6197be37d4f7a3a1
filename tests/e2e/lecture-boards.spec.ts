import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import { type Carried, carry, expect, test } from '../support/carried.ts';

/** The Lecture's boards in the page that ships, with a data folder of its own. */
test.describe('the boards of the Lecture', () => {
  let site: Carried;
  let complaints: string[];
  test.beforeEach(async () => {
    site = await carry();
    complaints = [];
  });
  test.beforeEach(({ page }) => {
    page.on('console', (message) => {
      if (message.type() === 'error') complaints.push(message.text());
    });
    page.on('pageerror', (fault) => complaints.push(fault.message));
  });
  test.afterEach(async () => {
    await site.close();
    expect(complaints).toEqual([]);
  });

  /** Slow machines compute an eye some times slower than it lives. */
  const LONG_ms = 60_000;

  async function open(page: Page): Promise<void> {
    await site.open(page);
    await page.getByTestId('place-lecture').click();
    await expect(page.getByTestId('board')).toBeVisible();
  }
  const board = (page: Page) => page.getByTestId('board');
  const number = (page: Page) => page.getByTestId('board-number');
  const row = (page: Page, id: string) => page.getByTestId(`row-${id}`);
  const stepShown = (page: Page): Promise<number> =>
    page.getByTestId('twin-left').evaluate((stage) => Number((stage as HTMLElement).dataset.step ?? -1));
  const take = (page: Page, name: string, body: string): Promise<void> =>
    site.given(page, { name, body }, () => page.getByTestId('boards-import').click());

  test('one click leads to a board with two eyes; Page Down and Page Up go through all, a pair that runs among them', async ({
    page,
  }) => {
    await open(page);
    await expect(number(page)).toHaveText('Board 1 of 7');
    await expect(page.getByTestId('twin-right')).toBeVisible();
    // the third click of a person who knows nothing of it: the slit is being cut
    await page.getByTestId('board-next').click();
    await expect(board(page)).toHaveAttribute('data-board', 'a-slit-opens');
    await expect(page.getByTestId('label-left')).toHaveText('40 years');
    await expect(page.getByTestId('label-right')).toHaveText('6 months');
    await expect.poll(() => stepShown(page), { timeout: LONG_ms }).toBeGreaterThan(10);
    for (let at = 3; at <= 7; at++) {
      await page.keyboard.press('PageDown');
      await expect(number(page)).toHaveText(`Board ${at} of 7`);
    }
    await page.keyboard.press('PageDown');
    await expect(number(page)).toHaveText('Board 7 of 7');
    await page.keyboard.press('PageUp');
    await page.keyboard.press('PageUp');
    await expect(number(page)).toHaveText('Board 5 of 7');
    await expect(page.getByTestId('twin-right')).toHaveCount(0);
    await expect(page.getByTestId('label-left')).toHaveText('6 months');
  });

  test('a question holds the tear until it is revealed; then the tear goes and stops where the board says', async ({
    page,
  }) => {
    test.setTimeout(300_000);
    await open(page);
    for (let at = 2; at <= 7; at++) await page.keyboard.press('PageDown');
    await expect(page.getByTestId('question')).toHaveAttribute('data-asking', 'asked');
    await expect.poll(() => stepShown(page), { timeout: LONG_ms }).toBe(0);
    // the answer is not on the page before it is revealed
    await expect(page.getByTestId('revealed')).toHaveCount(0);
    await expect(page.getByTestId('boards')).not.toContainText('nobody has pulled');
    await page.getByTestId('hand-up-1').click();
    await page.getByTestId('hand-up-1').click();
    await expect(page.getByTestId('hands-1')).toHaveText('2');
    // neither the key that plays nor the one that steps gets past the question
    await board(page).getByRole('heading', { level: 2 }).click();
    await page.keyboard.press(' ');
    await page.keyboard.press('ArrowRight');
    expect(await stepShown(page)).toBe(0);
    await page.getByTestId('reveal').click();
    await expect(page.getByTestId('revealed')).toContainText('nobody has pulled');
    await expect(page.getByTestId('hands-1')).toHaveText('2');
    await expect.poll(() => stepShown(page), { timeout: LONG_ms }).toBeGreaterThan(5);
    await page.getByTestId('board-again').click();
    await expect(page.getByTestId('question')).toHaveAttribute('data-asking', 'asked');
    await expect.poll(() => stepShown(page), { timeout: LONG_ms }).toBe(0);
  });

  test('order and hiding survive a restart; deleting can be taken back', async ({ page }) => {
    await open(page);
    await page.getByTestId('all-boards').click();
    await page.getByTestId('hide-a-slit-opens').click();
    await page.getByTestId('down-tense-before-the-cut').click();
    await page.getByTestId('handle-fluid-holds-it').focus();
    await page.keyboard.press('ArrowUp');
    await page.getByTestId('handle-the-childs-capsule').dragTo(row(page, 'a-slit-opens'));
    await page.getByTestId('delete-the-pull-and-the-sum').click();
    await expect(row(page, 'the-pull-and-the-sum')).toHaveCount(0);
    await page.keyboard.press('Control+z');
    await expect(row(page, 'the-pull-and-the-sum')).toBeVisible();
    const order = () =>
      page.locator('.boards-row').evaluateAll((all) => all.map((one) => (one as HTMLElement).dataset.testid));
    const arranged = await order();
    expect(arranged.slice(0, 3)).toEqual(['row-the-childs-capsule', 'row-a-slit-opens', 'row-tense-before-the-cut']);
    expect(arranged.slice(-2)).toEqual(['row-the-pull-and-the-sum', 'row-fluid-holds-it']);
    await page.getByTestId('boards-close').click();
    await expect(number(page)).toHaveText('Board 2 of 6');
    await expect
      .poll(() => readFileSync(`${site.folder}/scenarios/lecture-boards.json`, 'utf8'))
      .toMatch(/childs-capsule.*a-slit-opens","hidden":true.*the-pull-and-the-sum.*fluid-holds-it/);
    await open(page);
    await expect(board(page)).toHaveAttribute('data-board', 'the-childs-capsule');
    await expect(number(page)).toHaveText('Board 1 of 6');
    await page.getByTestId('all-boards').click();
    expect(await order()).toEqual(arranged);
    await expect(row(page, 'a-slit-opens')).toContainText('hidden');
  });

  test('a board is written, checked as it is typed, saved to a file and taken in again; a bad file changes nothing', async ({
    page,
  }) => {
    test.setTimeout(240_000);
    await open(page);
    await expect(page.getByTestId('label-left')).toHaveText('Full chamber', { timeout: LONG_ms });
    await page.getByTestId('all-boards').click();
    await page.getByTestId('board-add').click();
    const field = (path: string) => page.getByTestId(`board-${path}`);
    await expect(field('left.label')).toHaveValue('Full chamber');
    await field('title').fill('My board');
    await field('text').fill('Look **here** <img src=x onerror=alert(1)>');
    await expect(page.getByTestId('wrong-text')).toContainText('HTML');
    await expect(page.getByTestId('board-preview')).toContainText('Look here');
    await expect(page.getByTestId('board-preview').locator('img')).toHaveCount(0);
    await expect(page.getByTestId('board-save')).toBeDisabled();
    // Escape closes the dialog, not the work in it
    await page.keyboard.press('Escape');
    await page.getByTestId('all-boards').click();
    await expect(field('title')).toHaveValue('My board');
    await field('text').fill('Look **here**');
    await field('scenario').selectOption('two-years');
    await field('hand').selectOption('tangent-pull');
    await page.getByTestId('board-asks').check();
    await field('question.ask').fill('Which way?');
    await field('question.answers').fill('In\nOut');
    await field('question.reveal').fill('Out.');
    await expect(page.getByTestId('board-sound')).toHaveText('No problems.');
    await page.getByTestId('board-save').click();
    await expect(row(page, 'board')).toContainText('My board');
    const file = await site.saved(page, () => page.getByTestId('boards-export').click());
    expect(file.name).toBe('why-outward.rimward-boards.json');
    const text = readFileSync(file.path, 'utf8');

    const rows = page.locator('.boards-row');
    for (const [name, bad, line] of [
      ['script.json', text.replace('Look **here**', 'Look <script>alert(1)</script>'), 'boards[7].text: found HTML'],
      ['scenario.json', text.replace('"two-years"', '"three-years"'), 'boards[7].scenario: found "three-years"'],
      [
        'key.json',
        text.replace('"title": "My board"', '"title": "My board", "run": "x"'),
        'boards[7].run: found an unknown key',
      ],
      ['cut.json', text.slice(0, 500), 'not JSON'],
    ] as const) {
      await take(page, name, bad);
      await expect(page.getByTestId('boards-problems')).toContainText(`${name}: `);
      await expect(page.getByTestId('boards-problems')).toContainText(line);
      expect(await rows.count()).toBe(8);
    }
    await page.getByTestId('delete-board').click();
    await expect(row(page, 'board')).toHaveCount(0);
    await take(page, 'mine.rimward-boards.json', text);
    await expect(page.getByTestId('boards-notice')).toContainText('1 added, 7 already here');
    await page.getByTestId('go-board').click();
    await expect(board(page)).toContainText('Look here');
    await expect(number(page)).toHaveText('Board 8 of 8');
    await expect(page.getByTestId('question')).toContainText('Which way?');
  });
});
