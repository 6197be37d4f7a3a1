import type { Vec2 } from '../../physics/index.ts';
import type { HandEvent } from './hand.ts';
import type { KeyAction } from './keys.ts';

/** What a gamepad says of itself: the fields of the browser's own object that are read. */
export interface PadSample {
  readonly axes: readonly number[];
  readonly buttons: readonly { readonly pressed: boolean; readonly value: number }[];
}

export interface PadWays {
  /** Speed of the tip at full stick, mm/s. */
  readonly speed_mm_per_s: number;
  /** The other stick moves and the other trigger closes. */
  readonly leftHanded: boolean;
}

/** A gamepad: one stick moves, the other lifts, a trigger closes the jaws. */
export interface PadHand {
  readonly closed: boolean;
  readonly squeeze: number;
  /** Buttons that were down at the last look. */
  readonly down: ReadonlySet<number>;
}

export const RESTING_PAD: PadHand = { closed: false, squeeze: 0, down: new Set() };

/** A stick that is let go stands somewhere within this share of its way. Common practice, 0.1 to 0.25. */
const DEAD_ZONE = 0.15;
/** Beyond it the speed grows with this power of the way: slow near the middle. Common practice, 1.5 to 3. */
const RESPONSE = 2;
/** Trigger that closes the jaws, and below which they open again. Assumed, 0.5 to 0.8 and 0.2 to 0.5. */
const CLOSES = 0.6;
const OPENS = 0.4;
/** Speed at which the other stick lifts, mm/s. Our choice. */
const LIFT_mm_per_s = 0.8;

/** Numbers of axes and buttons in the standard layout of the W3C's Gamepad. */
const LEFT_STICK = 0;
const RIGHT_STICK = 2;
const LEFT_TRIGGER = 6;
const RIGHT_TRIGGER = 7;
const BUTTONS: Readonly<Record<number, KeyAction>> = {
  0: { kind: 'fold' },
  4: { kind: 'magnify', direction: -1 },
  5: { kind: 'magnify', direction: 1 },
  8: { kind: 'start-over' },
  9: { kind: 'pause' },
  12: { kind: 'take', instrument: 'needle' },
  13: { kind: 'next-incision' },
  14: { kind: 'take', instrument: 'forceps' },
  15: { kind: 'take', instrument: 'cannula' },
};

const finite = (value: number | undefined): number => (value !== undefined && Number.isFinite(value) ? value : 0);

/** Share of the full speed for a stick, by direction; the dead zone is round, so that no direction is preferred. */
export function stickShare([x, y]: Vec2): Vec2 {
  const way = Math.hypot(x, y);
  if (!(way > DEAD_ZONE)) return [0, 0];
  const share = Math.min(1, (way - DEAD_ZONE) / (1 - DEAD_ZONE)) ** RESPONSE;
  return [(x / way) * share, (y / way) * share];
}

/** A stick as the eye frame has it: y away from the surgeon. */
const stick = ({ axes }: PadSample, first: number): Vec2 => [finite(axes[first]), -finite(axes[first + 1])];

const trigger = ({ buttons }: PadSample, which: number): number => {
  const button = buttons[which];
  return button === undefined ? 0 : Math.max(finite(button.value), button.pressed ? 1 : 0);
};

/** The gamepad after a look at it, what it asks of the hand, and what else its buttons ask for. */
export function padAfter(
  pad: PadHand,
  sample: PadSample,
  dt_s: number,
  { speed_mm_per_s, leftHanded }: PadWays,
): readonly [PadHand, readonly HandEvent[], readonly KeyAction[]] {
  const [moves, lifts] = leftHanded ? [RIGHT_STICK, LEFT_STICK] : [LEFT_STICK, RIGHT_STICK];
  const pressed = trigger(sample, leftHanded ? LEFT_TRIGGER : RIGHT_TRIGGER);
  const closed = pressed >= (pad.closed ? OPENS : CLOSES);
  const squeeze = closed ? 0 : Math.min(1, pressed / CLOSES);
  const [vx, vy] = stickShare(stick(sample, moves));
  const up = stickShare([0, stick(sample, lifts)[1]])[1];
  const way = speed_mm_per_s * dt_s;
  const events: HandEvent[] = [];
  if (vx !== 0 || vy !== 0) events.push({ kind: 'move', by_mm: [vx * way, vy * way] });
  if (up !== 0) events.push({ kind: 'raise', by_mm: up * LIFT_mm_per_s * dt_s });
  if (squeeze !== pad.squeeze) events.push({ kind: 'squeeze', share: squeeze });
  if (closed !== pad.closed) events.push({ kind: closed ? 'press' : 'release' });
  const down = new Set(sample.buttons.flatMap((button, which) => (button.pressed ? [which] : [])));
  const actions = [...down].flatMap((which) => {
    const action = pad.down.has(which) ? undefined : BUTTONS[which];
    return action === undefined ? [] : [action];
  });
  return [{ closed, squeeze, down }, events, actions];
}

/** The gamepad is gone: what it held is let go. */
export const padGone = (pad: PadHand): readonly HandEvent[] => [
  ...(pad.closed ? [{ kind: 'release' } as const] : []),
  ...(pad.squeeze > 0 ? [{ kind: 'squeeze', share: 0 } as const] : []),
];
