import type { Vec2 } from '../../physics/index.ts';

/** Duration of the whole fold, seconds: about what an unhurried hand takes. Our choice. */
export const FOLD_s = 0.8;
/** Height at which the flap is laid down, mm. */
const LAID_LIFT_mm = 0.12;
/** Height over which it is carried, as a share of the way it goes, and the most, mm. */
const ARCH_SHARE = 0.35;
const ARCH_MOST_mm = 1.2;

/** Where the hand goes to fold a held flap flat. */
export interface FoldPath {
  readonly from_mm: Vec2;
  readonly to_mm: Vec2;
  readonly fromLift_mm: number;
  readonly arch_mm: number;
}

/** What the fold needs to know of a tear tip. */
export interface FoldTip {
  readonly position_mm: Vec2;
  /** Forward tangent, degrees counter-clockwise from +x. */
  readonly tangent_deg: number;
}

/**
 * The flap is turned over about a line through the tear's tip, square to the tear: the grip point goes to its mirror
 * image beyond that line. The flap then lies on the sheet ahead of the tear, under side up.
 */
export function planFold(grip_mm: Vec2, tip: FoldTip, lift_mm: number): FoldPath {
  const angle = (tip.tangent_deg * Math.PI) / 180;
  const [tx, ty] = [Math.cos(angle), Math.sin(angle)];
  const ahead = (grip_mm[0] - tip.position_mm[0]) * tx + (grip_mm[1] - tip.position_mm[1]) * ty;
  return {
    from_mm: grip_mm,
    to_mm: [grip_mm[0] - 2 * ahead * tx, grip_mm[1] - 2 * ahead * ty],
    fromLift_mm: lift_mm,
    arch_mm: Math.min(ARCH_MOST_mm, ARCH_SHARE * Math.abs(2 * ahead)),
  };
}

/** The live tip nearest to the grip, null when no tip is live. */
export function nearestTip<T extends FoldTip & { readonly live: boolean }>(
  grip_mm: Vec2,
  tips: readonly T[],
): T | null {
  const distance = (tip: T) => Math.hypot(tip.position_mm[0] - grip_mm[0], tip.position_mm[1] - grip_mm[1]);
  const live = tips.filter((tip) => tip.live);
  return live.length === 0 ? null : live.reduce((best, tip) => (distance(tip) < distance(best) ? tip : best));
}

/** Asked place and height after a time, seconds; stays at the end afterwards. Starts and ends at rest. */
export function foldAt(path: FoldPath, time_s: number): { readonly at_mm: Vec2; readonly lift_mm: number } {
  const t = Math.min(1, Math.max(0, time_s / FOLD_s));
  const s = t * t * (3 - 2 * t);
  const between = (a: number, b: number) => a + s * (b - a);
  return {
    at_mm: [between(path.from_mm[0], path.to_mm[0]), between(path.from_mm[1], path.to_mm[1])],
    lift_mm: between(path.fromLift_mm, LAID_LIFT_mm) + path.arch_mm * Math.sin(Math.PI * s),
  };
}
