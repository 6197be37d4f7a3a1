import type { Locator, Page } from '@playwright/test';
import { type Carried, carry, expect as expected, test } from '../support/carried.ts';
import { type Point, readStage, type StageReading, stageOf } from '../support/stage-reader.ts';

// what is waited for is work of the model on a machine that may be busy
const expect = expected.configure({ timeout: 60_000 });

/** How a hand pulls: this much in from the circle, and no faster than this, as the whole job does it. */
const PULL_IN_deg = 40;
const SPEED_mm_per_s = 1;
const STEPS_PER_s = 60;
/** Above this driving ratio the hand waits for the tear to follow. */
const ENOUGH_RATIO = 1.25;

/** Nearer than this the keys rest, and from this on they steer slowly, mm. */
const KEYS_REST_mm = 0.05;
const KEYS_SLOW_mm = 0.5;

const apart = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** Unit vector of the pull, pixels of the page; the prepared flap goes round counter-clockwise as seen. */
function pullFrom({ tip, centre }: StageReading): Point {
  const [x, y] = [(tip?.[0] ?? 0) - centre[0], (tip?.[1] ?? 0) - centre[1]];
  const r = Math.hypot(x, y);
  const [cos, sin] = [Math.cos((PULL_IN_deg * Math.PI) / 180), Math.sin((PULL_IN_deg * Math.PI) / 180)];
  return [(cos * y - sin * x) / r, (-cos * x - sin * y) / r];
}

/** What a hand of either kind can do. */
interface Hand {
  /** Brings the asked tip nearer to a place, by no more than so many pixels where it can be said. */
  toward(goal: Point, seen: StageReading, most_px: number): Promise<void>;
  close(): Promise<void>;
  open(): Promise<void>;
  /** Presses what stands on the page. */
  choose(button: Locator): Promise<void>;
}

function mouseOf(page: Page): Hand {
  let at: Point = [0, 0];
  return {
    toward: async (goal, { asked, gripping }, most_px) => {
      // what is held stands off from the pointer, so the pointer goes as far as the tip should
      const share = Math.min(1, most_px / Math.max(0.1, apart(goal, asked)));
      at = gripping ? [at[0] + share * (goal[0] - asked[0]), at[1] + share * (goal[1] - asked[1])] : goal;
      await page.mouse.move(...at);
    },
    close: () => page.mouse.down(),
    open: () => page.mouse.up(),
    choose: (button) => button.click(),
  };
}

function keysOf(page: Page): Hand {
  const held = new Set<string>();
  let slowly = false;
  const lift = async (keys: readonly string[]) => {
    for (const key of keys) if (held.delete(key)) await page.keyboard.up(key);
  };
  const rest = async () => {
    await lift([...held]);
    if (slowly) await page.keyboard.up('Shift');
    slowly = false;
  };
  return {
    toward: async (goal, { asked, pxPerMm }) => {
      const [dx, dy] = [(goal[0] - asked[0]) / pxPerMm, (goal[1] - asked[1]) / pxPerMm];
      const near = Math.hypot(dx, dy) < KEYS_SLOW_mm;
      if (near !== slowly) {
        await rest();
        if (near) await page.keyboard.down('Shift');
        slowly = near;
      }
      const wanted = [
        ...(Math.abs(dx) > KEYS_REST_mm ? [dx > 0 ? 'ArrowRight' : 'ArrowLeft'] : []),
        ...(Math.abs(dy) > KEYS_REST_mm ? [dy > 0 ? 'ArrowDown' : 'ArrowUp'] : []),
      ];
      await lift([...held].filter((key) => !wanted.includes(key)));
      for (const key of wanted.filter((one) => !held.has(one))) {
        held.add(key);
        await page.keyboard.down(key);
      }
    },
    close: async () => {
      await rest();
      await page.keyboard.press('Enter');
    },
    open: async () => {
      await rest();
      await page.keyboard.press('Enter');
    },
    choose: async (button) => {
      await button.focus();
      await page.keyboard.press('Enter');
    },
  };
}

// a small window: where drawing is done in software, every pixel makes the hand later, and a trace takes pictures all the while
test.use({ viewport: { width: 1100, height: 700 }, trace: 'off' });

test.describe('the tour of five steps', () => {
  let site: Carried;
  test.beforeEach(async () => {
    site = await carry({ toursOffer: true });
  });
  test.afterEach(async () => {
    await site.close();
  });

  const stepShown = (page: Page): Locator => page.getByTestId('tour-step');
  const isAt = (page: Page, step: string) => expect(stepShown(page)).toHaveAttribute('data-step', step);
  const says = (page: Page, why: string) => expect(page.getByTestId('tour-why')).toHaveAttribute('data-why', why);

  async function nextLook(page: Page, { step }: StageReading): Promise<StageReading> {
    await expect.poll(async () => (await readStage(page)).step).toBeGreaterThan(step);
    return readStage(page);
  }

  async function begin(page: Page, hand: Hand): Promise<void> {
    await site.open(page);
    await hand.choose(page.getByTestId('tour-start'));
    await isAt(page, 'grasp');
    await expect(page.getByTestId('scenario')).toHaveValue('adult-baseline');
    await expect.poll(async () => (await readStage(page)).flap).not.toBeNull();
  }

  async function hold(page: Page, hand: Hand): Promise<void> {
    let seen = await readStage(page);
    for (let look = 0; look < 1000; look++) {
      if (seen.flap === null) throw new Error('no flap is seen on the stage');
      await hand.toward(seen.flap, seen, Number.POSITIVE_INFINITY);
      if (apart(seen.flap, seen.asked) < 0.1 * seen.pxPerMm) break;
      seen = await nextLook(page, seen);
    }
    await hand.close();
    await expect(stageOf(page)).toHaveAttribute('data-gripping', 'true');
  }

  /** Pulls until the tour is content, by what stands on the stage. */
  async function pull(page: Page, hand: Hand): Promise<void> {
    let seen = await readStage(page);
    let reach = seen.tip === null ? 0 : apart(seen.asked, seen.tip);
    const end = seen.step + 60 * STEPS_PER_s;
    while ((await stepShown(page).getAttribute('data-step')) === 'pull' && seen.step < end) {
      const before = seen.step;
      seen = await nextLook(page, seen);
      if (seen.tip === null) return;
      const way = ((seen.step - before) / STEPS_PER_s) * SPEED_mm_per_s * seen.pxPerMm;
      if (seen.ratio < ENOUGH_RATIO) reach += Math.min(way, 0.06 * seen.pxPerMm);
      const [x, y] = pullFrom(seen);
      await hand.toward([seen.tip[0] + reach * x, seen.tip[1] + reach * y], seen, 1.5 * way);
    }
  }

  /** From the first grasp on; each step must be over when it was done and not before. */
  async function takeSteps(page: Page, hand: Hand): Promise<void> {
    await hold(page, hand);
    await isAt(page, 'layOver');
    await says(page, 'behind');
    await page.keyboard.press('f');
    await isAt(page, 'pull');
    await says(page, 'weak');
    await pull(page, hand);
    await isAt(page, 'again');
    await says(page, 'stillHeld');
    await hand.open();
    await says(page, 'nowGrasp');
    await hold(page, hand);
    await isAt(page, 'refill');
    await hand.open();
    await page.keyboard.press('3');
    await says(page, 'inject');
    await hand.close();
    await expect(page.getByTestId('tour-over')).toBeVisible();
    await hand.open();
  }

  test('is offered once, and every step is over only when it was done, with the mouse', async ({ page }) => {
    test.setTimeout(300_000);
    const hand = mouseOf(page);
    await begin(page, hand);

    // beside the flap there is nothing to take
    const { centre, pxPerMm } = await readStage(page);
    await page.mouse.move(centre[0] + 1.2 * pxPerMm, centre[1] + 3.6 * pxPerMm);
    await page.mouse.down();
    await says(page, 'missed');
    await page.mouse.up();
    await isAt(page, 'grasp');

    await takeSteps(page, hand);
    await hand.choose(page.getByTestId('tour-close'));
    await expect(page.getByTestId('tour')).toHaveCount(0);

    await page.reload();
    await readStage(page);
    await expect(page.getByTestId('tour')).toHaveCount(0);
  });

  test('is done by keyboard alone', async ({ page }) => {
    test.setTimeout(300_000);
    const hand = keysOf(page);
    await begin(page, hand);
    await takeSteps(page, hand);
  });
});
