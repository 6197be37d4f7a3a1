import type { CDPSession, Page } from '@playwright/test';
import type { PointingDevice } from './mouse-hand.ts';

/** Wheel units that raise a tip by a millimetre, as the page has it. */
const UNITS_PER_mm = 1250;

/** A pen in the browser: real pointer events with pressure and tilt. */
export class PagePen implements PointingDevice {
  readonly #browser: CDPSession;
  #at = { x: 0, y: 0 };
  #force = 0;
  #tilt_deg = 40;

  constructor(browser: CDPSession) {
    this.#browser = browser;
  }

  async #send(type: 'mouseMoved' | 'mousePressed' | 'mouseReleased'): Promise<void> {
    await this.#browser.send('Input.dispatchMouseEvent', {
      type,
      ...this.#at,
      pointerType: 'pen',
      force: this.#force,
      tiltX: this.#tilt_deg,
      tiltY: 0,
      button: type === 'mouseMoved' && this.#force === 0 ? 'none' : 'left',
      buttons: this.#force > 0 ? 1 : 0,
      clickCount: type === 'mouseMoved' ? 0 : 1,
    });
  }

  async move(x: number, y: number): Promise<void> {
    this.#at = { x, y };
    await this.#send('mouseMoved');
  }

  /** Touches lightly, then presses. */
  async down(): Promise<void> {
    this.#force = 0.1;
    await this.#send('mousePressed');
    this.#force = 0.7;
    await this.#send('mouseMoved');
  }

  async up(): Promise<void> {
    this.#force = 0;
    await this.#send('mouseReleased');
    this.#tilt_deg = 40;
  }

  /** Stands up to raise: three hundredths of a millimetre a degree. */
  async wheel(_across: number, down: number): Promise<void> {
    this.#tilt_deg += down / UNITS_PER_mm / 0.03;
    await this.#send('mouseMoved');
  }
}

interface Finger {
  readonly id: number;
  readonly x: number;
  readonly y: number;
}

/** Two fingers in the browser: the first has the tip a gap away, up and to the left. */
export class PageFingers implements PointingDevice {
  /** A finger that has landed takes hold where it rests. */
  readonly takesHoldWhereItLands = true;
  readonly #browser: CDPSession;
  readonly #gap: readonly [number, number];
  #first: Finger | null = null;

  /** @param gap_px from the finger to the tip */
  constructor(browser: CDPSession, gap_px: readonly [number, number]) {
    this.#browser = browser;
    this.#gap = gap_px;
  }

  async touch(
    type: 'touchStart' | 'touchMove' | 'touchEnd' | 'touchCancel',
    fingers: readonly Finger[],
  ): Promise<void> {
    await this.#browser.send('Input.dispatchTouchEvent', { type, touchPoints: [...fingers] });
  }

  get first(): Finger {
    if (this.#first === null) throw new Error('no finger is down');
    return this.#first;
  }

  async move(x: number, y: number): Promise<void> {
    const began = this.#first === null;
    this.#first = { id: 1, x: x - this.#gap[0], y: y - this.#gap[1] };
    await this.touch(began ? 'touchStart' : 'touchMove', [this.#first]);
  }

  /** The finger rests: nothing is to be done. */
  async down(): Promise<void> {}

  async up(): Promise<void> {
    if (this.#first !== null) await this.touch('touchEnd', []);
    this.#first = null;
  }

  async wheel(_across: number, down: number): Promise<void> {
    const { first } = this;
    const from = { id: 2, x: first.x + 120, y: first.y };
    await this.touch('touchStart', [first, from]);
    const second = { ...from, y: from.y + (100 * down) / UNITS_PER_mm };
    await this.touch('touchMove', [first, second]);
    // of the fingers that are down, those named are lifted
    await this.touch('touchEnd', [second]);
  }
}

/** What the stand-in for the browser's gamepad goes by; it lives in the page. */
interface Thumb {
  goal: readonly [number, number] | null;
  trigger: number;
  lift: number;
  liftUntil_ms: number;
  plugged: boolean;
}

/** Runs in the page before its own code: a gamepad whose thumb leads the asked tip toward a place on the page. */
function standInForGamepad(): void {
  const thumb: Thumb = { goal: null, trigger: 0, lift: 0, liftUntil_ms: 0, plugged: true };
  Object.assign(window, { thumb });
  // the response of the stick as a practised thumb has learnt it: dead zone 0.15, then a square
  const way = (share: number) => (share < 0.02 ? 0 : 0.15 + 0.85 * Math.sqrt(Math.min(1, share)));
  const stick = (): [number, number] => {
    const data = document.querySelector<HTMLElement>('[data-testid=stage]')?.dataset;
    if (thumb.goal === null || data?.askedPx === undefined) return [0, 0];
    const [x = 0, y = 0] = data.askedPx.split(',').map(Number);
    const [dx, dy] = [thumb.goal[0] - x, thumb.goal[1] - y];
    const size = Math.hypot(dx, dy);
    // half of the way to the place in a twentieth of a second, at 2 mm/s at the most
    const share = (10 * size) / Number(data.pxPerMm) / 2;
    return size < 0.5 ? [0, 0] : [(dx / size) * way(share), (dy / size) * way(share)];
  };
  const pad = () => {
    const [x, y] = stick();
    const lift = performance.now() < thumb.liftUntil_ms ? thumb.lift : 0;
    const buttons = Array.from({ length: 17 }, (_, which) => {
      const value = which === 7 ? thumb.trigger : 0;
      return { pressed: value > 0.5, touched: value > 0, value };
    });
    return {
      id: 'Stand-in',
      index: 0,
      connected: true,
      mapping: 'standard',
      timestamp: 0,
      axes: [x, y, 0, lift],
      buttons,
    };
  };
  Object.defineProperty(navigator, 'getGamepads', { value: () => (thumb.plugged ? [pad()] : [null]) });
}

export class PagePad implements PointingDevice {
  readonly #page: Page;

  private constructor(page: Page) {
    this.#page = page;
  }

  /** To be called before the page is opened. */
  static async plugIn(page: Page): Promise<PagePad> {
    await page.addInitScript(standInForGamepad);
    return new PagePad(page);
  }

  async #change(change: Partial<Thumb>): Promise<void> {
    await this.#page.evaluate((now) => Object.assign((window as unknown as { thumb: Thumb }).thumb, now), change);
  }

  async move(x: number, y: number): Promise<void> {
    await this.#change({ goal: [x, y] });
  }

  async down(): Promise<void> {
    await this.#change({ trigger: 1 });
  }

  async up(): Promise<void> {
    await this.#change({ trigger: 0 });
  }

  /** The other stick, all the way, for as long as the way takes at 0.8 mm/s. */
  async wheel(_across: number, down: number): Promise<void> {
    const time_ms = (1000 * Math.abs(down)) / UNITS_PER_mm / 0.8;
    const now_ms = await this.#page.evaluate(() => performance.now());
    await this.#change({ lift: Math.sign(down), liftUntil_ms: now_ms + time_ms });
    await this.#page.waitForTimeout(time_ms);
  }

  /** Pulled out while it is in use. */
  async pull(): Promise<void> {
    await this.#change({ plugged: false });
    await this.#page.evaluate(() => window.dispatchEvent(new Event('gamepaddisconnected')));
  }
}
