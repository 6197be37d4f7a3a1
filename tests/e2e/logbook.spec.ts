import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import type { Page } from '@playwright/test';
import { MODEL_VERSION } from '../../physics/index.ts';
import type { Person } from '../../src-main/ipc/contract.ts';
import { type Carried, carry, expect, test } from '../support/carried.ts';
import { playReal, putAttempt, type RealAttempt } from '../support/logbook-site.ts';

const EYE = 'infant-thick-fluid';
const ADA: Person = { id: '11111111-1111-4111-8111-111111111111', name: 'Ada Example', colour: 'teal' };
const BEN: Person = { id: '22222222-2222-4222-8222-222222222222', name: 'Ben Beispiel', colour: 'amber' };

test.use({ trace: 'off' });

test.describe('the logbook', () => {
  test.describe.configure({ mode: 'serial' });
  let served: Carried;
  /** One attempt that tears all the way round and one that runs out, both computed by the model. */
  let round: RealAttempt;
  let ranOut: RealAttempt;
  /** Ids in the order in which they were made; the last is unfinished. */
  const ids: string[] = [];

  test.beforeAll(async () => {
    test.setTimeout(400_000);
    ranOut = playReal(EYE, 'tangent-pull');
    round = playReal(EYE, 'infant-thick-holding');
    served = await carry();
    for (const person of [ADA, BEN]) await served.host.savePerson(person);
    const put = async (person: Person, real: RealAttempt, place: 'bench' | 'trial', cut: number | null = null) =>
      ids.push(await putAttempt(served.host, person, real, place, cut));
    await put(ADA, ranOut, 'trial');
    await put(ADA, round, 'trial');
    await put(ADA, round, 'trial');
    await put(BEN, round, 'trial');
    await put(BEN, ranOut, 'bench');
    await put(BEN, ranOut, 'bench', 400);
    await served.host.saveClass({ id: '33333333-3333-4333-8333-333333333333', name: 'Autumn', memberIds: [] });
  });
  test.afterAll(async () => {
    await served.close();
  });

  const complaints: string[] = [];
  test.beforeEach(async ({ page }) => {
    complaints.length = 0;
    page.on('pageerror', (fault) => complaints.push(fault.message));
    page.on('console', (message) => {
      if (message.type() === 'error') complaints.push(message.text());
    });
    await served.open(page);
    await page.getByTestId('place-logbook').click();
    await expect(page.getByTestId('count')).toBeVisible();
  });
  test.afterEach(() => expect(complaints).toEqual([]));

  const row = (page: Page, id: string) => page.locator(`[data-testid=attempt-row][data-id="${id}"]`);
  const shownIds = (page: Page) =>
    page.getByTestId('attempt-row').evaluateAll((rows) => rows.map((one) => (one as HTMLElement).dataset.id));
  const kept = async () => (await served.host.listAttempts({})).length;
  const newestFirst = () => [...ids].reverse();
  async function downloaded(page: Page, testid: string): Promise<string> {
    return (await served.saved(page, () => page.getByTestId(testid).click())).path;
  }

  test('lists every attempt, holds back by person and outcome, sorts, and is saved as it stands', async ({ page }) => {
    await expect(page.getByTestId('count')).toHaveText('6 attempts');
    await expect.poll(() => shownIds(page)).toEqual(newestFirst());
    await expect(row(page, ids[1] ?? '')).toContainText(`${round.result.opening?.equivalentDiameter_mm.toFixed(2)}`);
    await expect(row(page, ids[0] ?? '')).toContainText('run-out');
    await page.getByTestId('filter-personId').selectOption({ label: BEN.name });
    await expect(page.getByTestId('count')).toHaveText('3 of 6 attempts');
    await page.getByTestId('filter-passed').selectOption({ label: 'Unfinished' });
    await expect.poll(() => shownIds(page)).toEqual([ids[5]]);
    await page.getByTestId('filter-clear').click();
    await page.getByTestId('sort-time').click();
    const [short, long] = ranOut.result.steps < round.result.steps ? [0, 1] : [1, 0];
    await expect.poll(async () => (await shownIds(page))[0]).toBe([ids[4], ids[3]][short]);
    await page.getByTestId('sort-time').click();
    await expect.poll(async () => (await shownIds(page))[0]).toBe([ids[4], ids[3]][long]);
    const lines = readFileSync(await downloaded(page, 'list-csv'), 'utf8')
      .trimEnd()
      .split(/\r?\n/);
    expect(lines).toHaveLength(7);
    expect(lines[0]).toContain('Diameter, mm');
    expect(lines.filter((line) => line.includes(BEN.name))).toHaveLength(3);
  });

  test('an attempt is played again with every aid, looked at at any moment, and gone on from', async ({ page }) => {
    test.setTimeout(600_000);
    await row(page, ids[0] ?? '').click();
    await expect(page.getByTestId('outcome')).toHaveAttribute('data-passed', 'false');
    await expect(page.getByTestId('seal')).toHaveAttribute('data-seal', 'fits');
    await page.getByTestId('open-replay').click();
    await expect(page.getByTestId('sameness')).toHaveAttribute('data-state', 'same', { timeout: 300_000 });
    await expect(page.getByTestId('sameness')).toContainText(ranOut.result.digest);
    const stage = page.getByTestId('replay-stage');
    const at = Math.floor(ranOut.result.steps / 2);
    await page.getByTestId('scrub').fill(String(at));
    await expect.poll(async () => Number(await stage.getAttribute('data-step'))).toBe(at);
    await page.getByTestId('frame-on').click();
    await expect.poll(async () => Number(await stage.getAttribute('data-step'))).toBe(at + 1);
    await page.getByTestId('event-run-out').click();
    const end = ranOut.result.events.find(({ kind }) => kind === 'run-out')?.step;
    await expect.poll(async () => Number(await stage.getAttribute('data-step'))).toBe(end);
    await page.getByTestId('scrub').fill('300');
    await page.getByTestId('try-from').click();
    await expect(page.getByTestId('place-bench')).toHaveAttribute('aria-current', 'page');
    await expect(page.getByTestId('goes-on-from')).toContainText('Goes on from', { timeout: 300_000 });
    await expect.poll(async () => Number(await page.getByTestId('stage').getAttribute('data-step'))).toBe(300);
    // what goes on is an attempt of its own, kept from its first step and so far unfinished
    await expect.poll(kept).toBe(ids.length + 1);
  });

  test('two attempts are laid over each other, their measures side by side', async ({ page }) => {
    for (const id of [ids[0] ?? '', ids[1] ?? '']) await row(page, id).getByRole('checkbox').check();
    await page.getByTestId('compare').click();
    const drawing = page.getByTestId('compare-page').getByTestId('opening-drawing');
    await expect(drawing.locator('.log-shape-first path')).toHaveCount(1);
    await expect(drawing.locator('.log-shape-second path')).toHaveCount(1);
    const times = await page.getByTestId('compare-time_s').locator('td.log-figure').allTextContents();
    const [a, b, difference] = times.map((text) => Number.parseFloat(text.replace('−', '-')));
    // the list stands newest first: A is the later one, which tore all the way round; times are in whole seconds
    expect(a).toBeCloseTo(round.result.work.time_s, 0);
    expect(b).toBeCloseTo(ranOut.result.work.time_s, 0);
    expect(Math.abs((difference ?? Number.NaN) - ((b ?? Number.NaN) - (a ?? Number.NaN)))).toBeLessThanOrEqual(1);
  });

  test('the learning curve shows each graded measure and both cumulative sums', async ({ page }) => {
    await page.getByTestId('tab-curve').click();
    await page.getByTestId('curve-person').selectOption({ label: ADA.name });
    await expect(page.getByTestId('curve-count')).toContainText('3 closed attempts');
    await expect(page.getByTestId('curve-equivalentDiameter_mm').getByTestId('chart')).toHaveAttribute(
      'data-points',
      '3',
    );
    for (const id of ['cusum-two-boundary', 'cusum-learning']) {
      const points = page.getByTestId(id).getByTestId('chart');
      await expect.poll(async () => Number(await points.getAttribute('data-points'))).toBeGreaterThanOrEqual(3);
      await expect(page.getByTestId(`${id}-says`)).toHaveText(/\w+ \w+/);
    }
    await page.getByTestId('curve-person').selectOption({ label: BEN.name });
    await expect(page.getByTestId('curve-count')).toContainText('1 closed attempt,');
    await page.getByTestId('curve-place').selectOption({ label: 'Both' });
    await expect(page.getByTestId('curve-count')).toContainText('2 closed attempts');
  });

  test('people are put into a class; its results stand side by side, overlaid, and as a file', async ({ page }) => {
    await page.getByTestId('tab-people').click();
    await page.getByTestId('new-person-name').fill('Cleo Ejemplo');
    await page.getByTestId('new-person-add').click();
    const members = page.getByTestId('class-editor').filter({ has: page.locator('[data-testid=class-save]') });
    // one after the other without waiting: neither may undo the other
    for (const name of ['Cleo Ejemplo', ADA.name]) await members.getByLabel(name).click();
    for (const name of ['Cleo Ejemplo', ADA.name]) await expect(members.getByLabel(name)).toBeChecked();
    await page.getByTestId('tab-class').click();
    await page.getByTestId('class-pick').selectOption({ label: 'Autumn' });
    await expect(page.getByTestId('class-row')).toHaveCount(2);
    await expect(page.getByTestId('class-count')).toContainText('3 closed attempts');
    await expect(page.getByTestId('class-openings')).toHaveAttribute('data-shapes', '2');
    await page.getByTestId('class-pick').selectOption({ label: 'Everybody on this machine' });
    await expect(page.getByTestId('class-openings')).toHaveAttribute('data-shapes', '3');
    const drawn = () =>
      page.locator('.log-overlay canvas').evaluate((canvas: HTMLCanvasElement) => {
        const { data } = canvas.getContext('2d')?.getImageData(0, 0, canvas.width, canvas.height) ?? { data: [] };
        return data.filter((value, at) => at % 4 === 3 && value > 0).length;
      });
    await expect.poll(drawn).toBeGreaterThan(500);
    await expect.poll(() => page.getByTestId('class').getByTestId('chart').count()).toBeGreaterThan(2);
    const lines = readFileSync(await downloaded(page, 'class-csv'), 'utf8')
      .trimEnd()
      .split(/\r?\n/);
    expect(lines.filter((line) => line.startsWith(ADA.name))).toHaveLength(1);
    expect(lines.filter((line) => line.startsWith(BEN.name))).toHaveLength(1);
  });

  test('a bundle carries attempts away and back, each once, and is proven by playing a sample', async ({ page }) => {
    test.setTimeout(600_000);
    // five that are finished, the one that was left unfinished, and the one that goes on from a replay
    const all = ids.length + 1;
    const bundle = await downloaded(page, 'export-bundle');
    await expect(page.getByTestId('job-lines')).toContainText(`Written: 5 of ${all} attempts.`);
    await expect(page.getByTestId('job-lines')).toContainText('not finished');
    await page.getByTestId('job-close').click();
    await row(page, ids[4] ?? '').click();
    await page.getByTestId('remove').click();
    await page.getByTestId('ask-yes').click();
    await expect(page.getByTestId('count')).toHaveText(`${all - 1} attempts`);
    const takeIn = async () => {
      await served.given(page, bundle, () => page.getByTestId('import-bundle').click());
      await expect(page.getByTestId('job')).toHaveAttribute('data-state', 'finished');
    };
    await takeIn();
    await expect(page.getByTestId('job-lines')).toContainText('Taken in: 1 attempt.');
    await expect(page.getByTestId('job-lines')).toContainText('Here already: 4 attempts.');
    await page.getByTestId('sample-run').click();
    const proven = page.getByTestId('sample-line');
    await expect(proven).toHaveText(/gave the same opening/, { timeout: 300_000 });
    await expect(proven).toHaveAttribute('data-bad', 'false');
    await takeIn();
    await expect(page.getByTestId('job-lines')).toContainText('Here already: 5 attempts.');
    await expect(page.getByTestId('count')).toHaveText(`${all} attempts`);
  });

  test('an attempt that was changed behind its back says so, and stays out of bundles', async ({ page }) => {
    const other = new DatabaseSync(join(served.folder, 'rimward.sqlite'));
    other.prepare('UPDATE attempts SET model_version = ? WHERE id = ?').run(`${MODEL_VERSION}x`, ids[3] ?? '');
    other.close();
    await row(page, ids[3] ?? '').click();
    await expect(page.getByTestId('seal')).toHaveAttribute('data-seal', 'broken');
    await page.getByTestId('back').click();
    await expect(row(page, ids[3] ?? '')).toContainText('✕ broken');
    await downloaded(page, 'export-bundle');
    await expect(page.getByTestId('job-lines')).toContainText('whose seal is broken');
  });
});
