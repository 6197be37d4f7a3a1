import type { Page } from '@playwright/test';
import type { StoredAttempt } from '../../src-main/ipc/contract.ts';
import { type Carried, carry, expect, test } from '../support/carried.ts';
import { MouseTearing } from '../support/mouse-hand.ts';
import { readStage, stageOf } from '../support/stage-reader.ts';

const SCENARIO = 'infant-thick-fluid';

// a small window: where drawing is done in software, every pixel makes the hand later, and a trace takes pictures all the while
test.use({ viewport: { width: 1100, height: 700 }, trace: 'off' });

test.describe('the trial', () => {
  let served: Carried;
  test.beforeEach(async () => {
    served = await carry();
  });
  test.afterEach(async () => {
    await served.close();
  });

  async function open(page: Page): Promise<string[]> {
    const complaints: string[] = [];
    page.on('pageerror', (fault) => complaints.push(fault.message));
    await served.open(page);
    await page.getByTestId('place-trial').click();
    return complaints;
  }

  /** Starts the trial and waits until its time runs. */
  async function start(page: Page): Promise<void> {
    await page.getByTestId(`trial-of-${SCENARIO}`).click();
    await page.getByTestId('start-trial').click();
    await expect(page.getByTestId('countdown')).toBeVisible();
    await expect(page.getByTestId('countdown')).toHaveCount(0, { timeout: 60_000 });
  }

  const stored = () => served.host.listAttempts({});

  async function load(id: string): Promise<StoredAttempt> {
    return served.host.loadAttempt(id);
  }

  test('is worked with the mouse to its end, graded item by item, and kept with every command', async ({ page }) => {
    test.setTimeout(480_000);
    const complaints = await open(page);
    await start(page);
    const tearing = new MouseTearing(page, {
      line_mm: 3.4,
      // along the tear, never corrected: it runs out
      pullAngle_deg: 0,
      gain_deg_per_mm: 0,
      speed_mm_per_s: 1.4,
      regraspEvery_deg: 70,
      limit_s: 150,
    });
    const result = page.getByTestId('trial-result');
    // the stage makes room for the result the moment the trial is over, and the hand then sees nothing more
    const torn = tearing.takeRound().catch(() => null);
    await Promise.race([torn, result.waitFor({ timeout: 420_000 })]);
    await expect(result, tearing.log.join('\n')).toBeVisible({ timeout: 60_000 });
    await expect(result).toHaveAttribute('data-ended', 'run-out');
    await expect(page.getByTestId('verdict')).toContainText('Not passed');
    const diameter = page.getByTestId('graded-equivalentDiameter_mm');
    await expect(diameter).toHaveAttribute('data-met', 'false');
    await expect(diameter).toContainText('missed');
    await expect(diameter).toContainText('was not measured');
    await expect(page.getByTestId('opening-drawing')).toBeVisible();
    await expect(page.getByTestId('moments')).toContainText(/ran out|run/i);
    await expect(page.getByTestId('stored')).toContainText('the seal fits');
    const [summary, ...others] = await stored();
    expect(others).toEqual([]);
    expect(summary).toMatchObject({
      place: 'trial',
      scenarioId: SCENARIO,
      ended: 'run-out',
      passed: false,
      seal: 'fits',
    });
    const attempt = await load(summary?.id ?? '');
    expect(attempt.commands).toHaveLength(attempt.result?.steps ?? -1);
    expect(attempt.commands.some((command) => command.jaws > 0.5)).toBe(true);
    for (const { x_mm, jaws } of attempt.commands) {
      expect(Math.abs(x_mm * 1e4 - Math.round(x_mm * 1e4))).toBeLessThan(1e-6);
      expect(Math.abs(jaws * 1e3 - Math.round(jaws * 1e3))).toBeLessThan(1e-6);
    }
    await page.getByTestId('see-in-logbook').click();
    await expect(page.getByTestId('place-logbook')).toHaveAttribute('aria-current', 'page');
    expect(complaints).toEqual([]);
  });

  test('fixes the aids, offers no pause, no start-over and no way back', async ({ page }) => {
    test.setTimeout(240_000);
    await open(page);
    await start(page);
    for (const aid of ['pull', 'sheet', 'resultant', 'targetCircle']) {
      await expect(page.getByTestId(`aid-${aid}`)).toBeDisabled();
    }
    await expect(page.getByTestId('pause')).toHaveCount(0);
    await expect(page.getByTestId('start-over')).toHaveCount(0);
    await expect(page.getByTestId('bring-back')).toHaveCount(0);
    await stageOf(page).hover();
    await expect.poll(async () => (await readStage(page)).step).toBeGreaterThan(10);
    const before = (await readStage(page)).step;
    for (const key of ['Space', 'r', 'Control+z']) await page.keyboard.press(key);
    await expect.poll(async () => (await readStage(page)).step).toBeGreaterThan(before + 30);
    await expect(page.getByTestId('status')).not.toHaveText('Paused');
  });

  test('notes a lost focus and lets the clock run on', async ({ page }) => {
    test.setTimeout(240_000);
    await open(page);
    await start(page);
    await expect.poll(async () => (await readStage(page)).step).toBeGreaterThan(5);
    await page.evaluate(() => window.dispatchEvent(new Event('blur')));
    await expect(page.getByTestId('notes')).toContainText('lost the focus');
    const { step } = await readStage(page);
    await expect.poll(async () => (await readStage(page)).step).toBeGreaterThan(step + 10);
  });

  test('can be called off during the countdown without a trace', async ({ page }) => {
    test.setTimeout(240_000);
    await open(page);
    await page.getByTestId('start-trial').click();
    await page.getByTestId('call-off').click();
    await expect(page.getByTestId('start-trial')).toBeVisible();
    await expect.poll(stored).toEqual([]);
    await expect.poll(() => served.host.unfinishedAttempts()).toEqual([]);
  });

  test('asks before it is left, and leaving ends it as it stands', async ({ page }) => {
    test.setTimeout(240_000);
    await open(page);
    await start(page);
    await stageOf(page).hover();
    await expect.poll(async () => (await readStage(page)).step).toBeGreaterThan(30);
    await page.keyboard.press('Control+1');
    await expect(page.getByTestId('leave-trial')).toBeVisible();
    await page.getByTestId('stay').click();
    await expect(page.getByTestId('place-trial')).toHaveAttribute('aria-current', 'page');
    const { step } = await readStage(page);
    await expect.poll(async () => (await readStage(page)).step).toBeGreaterThan(step + 10);
    await page.getByTestId('place-bench').click();
    await expect(page).toHaveURL(/#trial$/);
    await page.getByTestId('end-it').click();
    await expect(page.getByTestId('place-bench')).toHaveAttribute('aria-current', 'page');
    await expect.poll(async () => (await stored())[0]?.ended).toBe('open');
    const [summary] = await stored();
    expect(summary?.steps).toBeGreaterThan(step);
    await page.getByTestId('place-trial').click();
    await expect(page.getByTestId('trial-result')).toHaveAttribute('data-ended', 'open');
  });

  test('a trial that a reload interrupted is offered at the next start, and can be removed', async ({ page }) => {
    test.setTimeout(240_000);
    let asked = 0;
    page.on('dialog', (dialog) => {
      asked += 1;
      expect(dialog.type()).toBe('beforeunload');
      void dialog.accept();
    });
    await open(page);
    await start(page);
    await stageOf(page).click();
    await expect.poll(async () => (await readStage(page)).step).toBeGreaterThan(60);
    await page.reload();
    expect(asked).toBe(1);
    const offer = page.getByTestId('interrupted');
    await expect(offer).toContainText(/A trial of .* was interrupted after \d+ s of work/);
    const [left] = await served.host.unfinishedAttempts();
    expect(left?.steps).toBeGreaterThan(50);
    const { commands, result } = await load(left?.id ?? '');
    expect(result).toBeNull();
    expect(commands).toHaveLength(left?.steps ?? -1);
    await page.getByTestId('drop-interrupted').click();
    await expect(offer).toHaveCount(0);
    await expect.poll(() => served.host.unfinishedAttempts()).toEqual([]);
  });
});
