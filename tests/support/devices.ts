import type { Vec2 } from '../../physics/index.ts';
import { frameFor, type StageFrame, toMm, toPx } from '../../src-renderer/stage/microscope.ts';
import { useHands } from '../../src-renderer/stores/hands-store.ts';
import { SteeringKeys } from '../../src-renderer/tools/arrows.ts';
import { actionOf } from '../../src-renderer/tools/keys.ts';
import { listenToPad } from '../../src-renderer/tools/listen-to-pad.ts';
import { listenToPointers } from '../../src-renderer/tools/listen-to-pointers.ts';
import type { PadSample } from '../../src-renderer/tools/pad-hand.ts';
import { tipPx } from '../../src-renderer/tools/touch-hand.ts';
import type { HandAtWork } from './hand-at-work.ts';
import type { Device } from './tearing-by-device.ts';

/** What the page's code needs of an element with a stage in it. */
export class StageElement extends EventTarget {
  readonly captured = new Set<number>();
  readonly frame: StageFrame = frameFor(800, 800, 12, 1);
  getBoundingClientRect = () => ({ left: 0, top: 0 });
  setPointerCapture = (id: number) => void this.captured.add(id);
  hasPointerCapture = (id: number) => this.captured.has(id);
  focus = () => {};

  /** Dispatches an event of the page's kind, made now. */
  send(type: string, over: Readonly<Record<string, unknown>>): void {
    const event = new Event(type, { cancelable: true });
    for (const [key, value] of Object.entries({ timeStamp: performance.now(), ...over })) {
      Object.defineProperty(event, key, { value });
    }
    this.dispatchEvent(event);
    if (type === 'pointerup' || type === 'pointercancel') this.captured.delete(over.pointerId as number);
  }

  pointer(type: string, pointerType: string, at_px: Vec2, over: Readonly<Record<string, unknown>> = {}): void {
    const [clientX, clientY] = at_px;
    this.send(type, { pointerType, pointerId: 1, button: 0, buttons: 0, clientX, clientY, ...over });
  }
}

/** The page's own listening on such an element. */
export function listeningStage(work: Pick<HandAtWork, 'act'>): StageElement {
  const element = new StageElement();
  listenToPointers({
    place: element as unknown as HTMLElement,
    act: work.act,
    toMm: () => (at_px) => toMm(element.frame, at_px),
    magnifyBy: () => {},
  });
  return element;
}

/** Where a pointing device is: with open jaws at the place itself, with closed ones as far from where they closed. */
abstract class Pointing {
  protected readonly work: HandAtWork;
  protected readonly element: StageElement;
  protected at_px: Vec2 = [0, 0];
  protected holding = false;
  #wanted_mm: Vec2 = [0, 0];

  constructor(work: HandAtWork) {
    this.work = work;
    this.element = listeningStage(work);
  }

  protected place(at_mm: Vec2, sensitivity: number): Vec2 {
    const { frame } = this.element;
    if (this.holding) {
      const [px, scale] = [this.at_px, frame.pxPerMm / sensitivity];
      this.at_px = [px[0] + (at_mm[0] - this.#wanted_mm[0]) * scale, px[1] - (at_mm[1] - this.#wanted_mm[1]) * scale];
    } else this.at_px = toPx(frame, at_mm);
    this.#wanted_mm = at_mm;
    return this.at_px;
  }

  /** After the flap was laid over by itself, the hand goes on from there. */
  protected goOnFrom(at_mm: Vec2): void {
    this.#wanted_mm = at_mm;
  }

  /** Call before every move. */
  protected afterFold(): void {
    if (this.#folding && this.work.hand.doing !== 'folding') this.goOnFrom(this.work.asked_mm);
    this.#folding = this.work.hand.doing === 'folding';
  }
  #folding = false;
  pass(_dt_s: number): void {
    this.afterFold();
  }
}

export class Mouse extends Pointing implements Device {
  /** Added to where the hand means to be, mm; called once a step. */
  readonly #tremble: () => Vec2;
  constructor(work: HandAtWork, tremble: () => Vec2 = () => [0, 0]) {
    super(work);
    this.#tremble = tremble;
  }
  #send(type: string): void {
    const [dx, dy] = this.#tremble();
    const { pxPerMm } = this.element.frame;
    this.element.pointer(type, 'mouse', [this.at_px[0] + dx * pxPerMm, this.at_px[1] - dy * pxPerMm]);
  }
  toward(at_mm: Vec2): void {
    this.place(at_mm, useHands.getState().mouse);
    this.#send('pointermove');
  }
  close(): void {
    this.holding = true;
    this.#send('pointerdown');
  }
  open(): void {
    this.holding = false;
    this.#send('pointerup');
  }
  fold(): void {
    const action = actionOf({ key: 'f', ctrlKey: false, metaKey: false, altKey: false });
    if (action?.kind === 'fold') this.work.act({ kind: 'fold' });
  }
  liftTo(lift_mm: number): void {
    this.element.send('wheel', { deltaY: this.work.holdLift_mm < lift_mm ? -25 : 25, ctrlKey: false });
  }
}

export class Pen extends Pointing implements Device {
  #pressure = 0;
  #tilt_deg = 40;
  #barrel = false;
  #send(type: string): void {
    const buttons = (this.#pressure > 0 ? 1 : 0) + (this.#barrel ? 2 : 0);
    this.element.pointer(type, 'pen', this.at_px, {
      pressure: this.#pressure,
      tiltX: this.#tilt_deg,
      tiltY: 0,
      buttons,
    });
  }
  toward(at_mm: Vec2): void {
    this.place(at_mm, useHands.getState().pen);
    this.#send('pointermove');
  }
  close(): void {
    this.#pressure = 0.1;
    this.#send('pointerdown');
    // pressed harder and harder, as a hand does
    for (const pressure of [0.25, 0.4, 0.6]) {
      this.#pressure = pressure;
      this.#send('pointermove');
    }
    this.holding = true;
  }
  open(): void {
    this.#pressure = 0;
    this.holding = false;
    this.#send('pointerup');
    this.#tilt_deg = 40;
  }
  fold(): void {
    for (const down of [true, false]) {
      this.#barrel = down;
      this.#send('pointermove');
    }
  }
  liftTo(lift_mm: number): void {
    this.#tilt_deg += this.work.holdLift_mm < lift_mm ? -1 : 1;
    this.#send('pointermove');
  }
}

export class Fingers extends Pointing implements Device {
  readonly #elapse: (ms: number) => void;
  #down = false;
  #second_px: Vec2 | null = null;

  /** @param elapse lets the page's clock go on: a resting finger is noticed by it */
  constructor(work: HandAtWork, elapse: (ms: number) => void) {
    super(work);
    this.#elapse = elapse;
  }
  override pass(dt_s: number): void {
    super.pass(dt_s);
    this.#elapse(1000 * dt_s);
  }
  /** The finger stands where its tip falls on the wanted place. */
  get #finger_px(): Vec2 {
    const { fingerGap_px, leftHanded } = useHands.getState();
    const [x, y] = tipPx([0, 0], { gap_px: fingerGap_px, leftHanded });
    return [this.at_px[0] - x, this.at_px[1] - y];
  }
  #send(type: string): void {
    this.element.pointer(type, 'touch', this.#finger_px, { pointerId: 11 });
  }
  toward(at_mm: Vec2): void {
    this.#liftSecond();
    this.place(at_mm, useHands.getState().touch);
    this.#send(this.#down ? 'pointermove' : 'pointerdown');
    this.#down = true;
  }
  /** Nothing but rest. */
  close(): void {
    this.holding = true;
  }
  open(): void {
    this.#liftSecond();
    this.holding = false;
    if (this.#down) this.#send('pointerup');
    this.#down = false;
  }
  fold(): void {
    for (const type of ['pointerdown', 'pointerup']) this.element.pointer(type, 'touch', [100, 100], { pointerId: 12 });
  }
  liftTo(lift_mm: number): void {
    const before = this.#second_px ?? [100, 400];
    const at_px: Vec2 = [100, before[1] + (this.work.holdLift_mm < lift_mm ? -3 : 3)];
    if (this.#second_px === null) this.element.pointer('pointerdown', 'touch', before, { pointerId: 13 });
    this.element.pointer('pointermove', 'touch', at_px, { pointerId: 13 });
    this.#second_px = at_px;
  }
  #liftSecond(): void {
    if (this.#second_px !== null) this.element.pointer('pointerup', 'touch', this.#second_px, { pointerId: 13 });
    this.#second_px = null;
  }
}

/** How hard a stick or a key is used to make up for what lies between the tip and where it should be, 1/s. */
const EAGERNESS_per_s = 15;

/** A gamepad in the standard layout, as the browser would show it. */
export class FakePads {
  readonly axes = [0, 0, 0, 0];
  readonly buttons = Array.from({ length: 17 }, () => ({ pressed: false, value: 0 }));
  readonly events = new EventTarget();
  plugged = true;
  #frames: ((now_ms: number) => void)[] = [];
  #now_ms = 0;

  readonly around = {
    events: this.events as unknown as Window,
    pads: (): readonly (PadSample | null)[] => (this.plugged ? [null, this] : [null, null]),
    nextFrame: (work: (now_ms: number) => void) => this.#frames.push(work),
    cancelFrame: () => {
      this.#frames = [];
    },
    elsewhere: () => false,
  };

  get looking(): boolean {
    return this.#frames.length > 0;
  }

  hold(button: number, value: number): void {
    this.buttons[button] = { pressed: value > 0.5, value };
  }

  frame(dt_s: number): void {
    this.#now_ms += 1000 * dt_s;
    for (const work of this.#frames.splice(0)) work(this.#now_ms);
  }

  pull(): void {
    this.plugged = false;
    this.events.dispatchEvent(new Event('gamepaddisconnected'));
  }
}

export class Pad implements Device {
  readonly pads = new FakePads();
  readonly #work: HandAtWork;
  #wanted_mm: Vec2 | null = null;
  #lift_mm: number | null = null;

  constructor(work: HandAtWork) {
    this.#work = work;
    listenToPad(
      {
        act: work.act,
        perform: (action) => {
          if (action.kind === 'fold') work.act({ kind: 'fold' });
        },
        lost: () => {},
      },
      this.pads.around,
    );
  }
  get #leftHanded(): boolean {
    return useHands.getState().leftHanded;
  }
  /** Stick share that gives a share of the full speed: what a practised thumb has learnt. */
  static thumb(share: number): number {
    return share === 0 ? 0 : Math.sign(share) * (0.15 + 0.85 * Math.sqrt(Math.min(1, Math.abs(share))));
  }
  toward(at_mm: Vec2): void {
    this.#wanted_mm = at_mm;
    this.#lift_mm = null;
  }
  close(): void {
    this.#wanted_mm = null;
    this.pads.hold(this.#leftHanded ? 6 : 7, 1);
  }
  open(): void {
    this.#wanted_mm = null;
    this.pads.hold(this.#leftHanded ? 6 : 7, 0);
  }
  fold(): void {
    this.pads.hold(0, 1);
  }
  liftTo(lift_mm: number): void {
    this.#wanted_mm = null;
    this.#lift_mm = lift_mm;
  }
  pass(dt_s: number): void {
    const [moves, lifts] = this.#leftHanded ? [2, 0] : [0, 2];
    this.pads.axes.fill(0);
    if (this.#wanted_mm !== null) {
      const [ax, ay] = this.#work.asked_mm;
      const full = useHands.getState().padSpeed_mm_per_s;
      const v = [this.#wanted_mm[0] - ax, this.#wanted_mm[1] - ay].map((d) => (EAGERNESS_per_s * d) / full);
      const size = Math.hypot(...v);
      const thumb = size < 0.02 ? 0 : Pad.thumb(size) / size;
      this.pads.axes[moves] = v[0]! * thumb;
      this.pads.axes[moves + 1] = -v[1]! * thumb;
    } else if (this.#lift_mm !== null) {
      this.pads.axes[lifts + 1] = this.#work.holdLift_mm < this.#lift_mm ? -0.7 : 0.7;
    }
    this.pads.frame(dt_s);
    this.pads.hold(0, 0);
    this.#lift_mm = null;
  }
}

/** The keys as the page hears them: arrows or letters steer, with Shift slowly. */
export class Keys implements Device {
  readonly #work: HandAtWork;
  readonly #held = new SteeringKeys();
  #wanted_mm: Vec2 | null = null;

  constructor(work: HandAtWork) {
    this.#work = work;
  }
  #press(key: string): void {
    const action = actionOf({ key, ctrlKey: false, metaKey: false, altKey: false });
    if (action?.kind === 'toggle' || action?.kind === 'fold') this.#work.act({ kind: action.kind });
    else if (action?.kind === 'open') this.#work.act({ kind: 'release' });
    else if (action?.kind === 'raise') this.#work.act(action);
  }
  toward(at_mm: Vec2): void {
    this.#wanted_mm = at_mm;
  }
  close(): void {
    this.#wanted_mm = null;
    this.#press('Enter');
  }
  open(): void {
    this.#wanted_mm = null;
    this.#press('Escape');
  }
  fold(): void {
    this.#press('f');
  }
  liftTo(lift_mm: number): void {
    this.#wanted_mm = null;
    // only whole presses of a tenth
    if (Math.abs(this.#work.holdLift_mm - lift_mm) > 0.05) {
      this.#press(this.#work.holdLift_mm < lift_mm ? 'PageUp' : 'PageDown');
    }
  }
  pass(): void {
    const { leftHanded } = useHands.getState();
    const [left, right, up, down] = leftHanded ? 'adws' : ['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown'];
    this.#held.liftAll();
    let slowly = true;
    if (this.#wanted_mm !== null) {
      const [dx, dy] = [this.#wanted_mm[0] - this.#work.asked_mm[0], this.#wanted_mm[1] - this.#work.asked_mm[1]];
      if (Math.abs(dx) > 0.012) this.#held.press((dx < 0 ? left : right) ?? '', leftHanded);
      if (Math.abs(dy) > 0.012) this.#held.press((dy < 0 ? down : up) ?? '', leftHanded);
      slowly = Math.hypot(dx, dy) < 0.04;
    }
    this.#work.act({ kind: 'steer', direction: this.#held.direction, slowly });
  }
}
